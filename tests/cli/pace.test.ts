import { describe, expect, it } from 'vitest';
import { LAST_LOOK_MILLISECONDS, paceSearch } from '../../src/cli/pace.ts';

function paced(seconds: number | undefined) {
  const at = { now: 70, interrupted: false };
  const pace = paceSearch({
    cloths: ['gull', 'kelp', 'oat'],
    seconds,
    isInterrupted: () => at.interrupted,
    clock: () => at.now,
  });
  return { at, pace };
}

describe('the pace of a search', () => {
  it('gives each cloth an equal share of the time that is left', () => {
    const { at, pace } = paced(9);
    expect(pace.stop('gull')).toBe(false);
    at.now += 2999;
    expect(pace.stop('gull')).toBe(false);
    at.now += 1;
    expect(pace.stop('gull')).toBe(true);
    at.now += 400; // Tidying up takes its time.
    expect(pace.stop('kelp')).toBe(false);
    at.now += 100; // Proven early: the rest is for the last.
    expect(pace.stop('oat')).toBe(false);
    at.now += 5499;
    expect(pace.stop('oat')).toBe(false);
    at.now += 1;
    expect(pace.stop('oat')).toBe(true);
    expect(pace.ranOut()).toBe(true);
  });

  it('knows no end without a limit', () => {
    const { at, pace } = paced(undefined);
    expect([pace.stop(), pace.stop('gull')]).toEqual([false, false]);
    at.now += 1e12;
    expect([pace.stop(), pace.stop('gull'), pace.ranOut()]).toEqual([false, false, false]);
  });

  it('ends the cloth at work at an interrupt, and gives the others a last look', () => {
    const { at, pace } = paced(undefined);
    expect(pace.stop('gull')).toBe(false);
    at.interrupted = true;
    expect(pace.stop('gull')).toBe(true);
    expect(pace.stop('kelp')).toBe(false);
    at.now += LAST_LOOK_MILLISECONDS - 1;
    expect(pace.stop('kelp')).toBe(false);
    at.now += 1;
    expect(pace.stop('kelp')).toBe(true);
  });

  it('gives a cloth a last look even when the time is up', () => {
    const { at, pace } = paced(2);
    expect(pace.stop('gull')).toBe(false);
    at.now += 5000;
    expect(pace.stop('gull')).toBe(true);
    expect(pace.stop('kelp')).toBe(false);
    at.now += LAST_LOOK_MILLISECONDS;
    expect(pace.stop('kelp')).toBe(true);
  });

  it('keeps a first look at several cloths to an eighth of the time', () => {
    const { at, pace } = paced(8);
    at.now += 999;
    expect(pace.stop()).toBe(false);
    at.now += 1;
    expect(pace.stop()).toBe(true);
    at.interrupted = true;
    expect(pace.stop()).toBe(true);
  });
});
