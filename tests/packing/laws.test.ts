import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkPacking } from '../../src/check/check-packing.ts';
import type { Box, Kind, PackOptions, Sheet, Stages } from '../../src/packing/instance.ts';
import { fewestSheets, mostFromSheet, shortestLength } from '../../src/packing/pack.ts';
import type { PackResult } from '../../src/packing/result.ts';
import { asked } from '../support/expect-sound-sheet.ts';
import { splitSheet } from '../support/split-sheet.ts';

/** Enough effort to prove most of these questions. */
const EFFORT = 5000;

interface Question {
  readonly ask: 'shortest' | 'most' | 'fewest';
  readonly sheet: Sheet;
  readonly kinds: readonly Kind[];
}

function answer({ ask, sheet, kinds }: Question, options: Partial<PackOptions> = {}): PackResult {
  const full = { effort: EFFORT, seed: 7, ...options };
  if (ask === 'shortest')
    return shortestLength({ sheet: { ...sheet, length: Number.POSITIVE_INFINITY }, kinds }, full);
  if (ask === 'most') return mostFromSheet({ sheet, kinds }, full);
  return fewestSheets({ sheets: [{ ...sheet, copies: 5 }], kinds }, full);
}

const kind: fc.Arbitrary<Kind> = fc.record({
  width: fc.integer({ min: 3, max: 19 }),
  length: fc.integer({ min: 2, max: 23 }),
  copies: fc.integer({ min: 1, max: 3 }),
  quarterTurn: fc.boolean(),
});

const crease = (width: number): Box => ({
  x0: Math.floor(width / 2),
  y0: 0,
  x1: Math.floor(width / 2) + 1,
  y1: Number.POSITIVE_INFINITY,
});

/** All three questions on the same sheets; some with a crease kept off or a hole. */
const question: fc.Arbitrary<Question> = fc.record({
  ask: fc.constantFrom('shortest', 'most', 'fewest'),
  sheet: fc
    .record({
      width: fc.integer({ min: 39, max: 53 }),
      length: fc.integer({ min: 25, max: 37 }),
      held: fc.constantFrom('nothing', 'nothing', 'crease', 'hole'),
      at: fc.record({ x: fc.integer({ min: 0, max: 30 }), y: fc.integer({ min: 0, max: 20 }) }),
    })
    .map(({ width, length, held, at }): Sheet => {
      if (held === 'nothing') return { width, length };
      const hole = { x0: at.x, y0: at.y, x1: at.x + 3, y1: at.y + 4 };
      return { width, length, forbidden: [held === 'crease' ? crease(width) : hole] };
    }),
  kinds: fc.array(kind, { minLength: 1, maxLength: 3 }),
});

/** Draws the same questions every time. */
function forAll(runs: number, law: (one: Question) => void): void {
  fc.assert(fc.property(question, law), { numRuns: runs, seed: 20 });
}

/** Signed so that less is better, whatever is asked. */
function loss({ ask }: Question, result: PackResult): number {
  if (result.status !== 'best' && result.status !== 'found') return Number.POSITIVE_INFINITY;
  return ask === 'most' ? -result.value : result.value;
}

/** Compares two answers that are both proven; counts how many were. */
function bothBest(a: PackResult, b: PackResult): boolean {
  return a.status === 'best' && b.status === 'best';
}

describe('laws of any answer', () => {
  it('is sound, its bound on the right side, and does not change what it was given', () => {
    const seen = { best: 0, found: 0, impossible: 0, unknown: 0 };
    for (const stages of [2, 3, 'any'] as Stages[]) {
      forAll(40, (one) => {
        const before = JSON.stringify(one);
        const result = answer(one, { stages });
        expect(JSON.stringify(one)).toBe(before);
        seen[result.status] += 1;
        if (result.status !== 'best' && result.status !== 'found') return;
        const { ask, sheet, kinds } = one;
        const own =
          ask === 'fewest'
            ? { sheets: [{ ...sheet, copies: 5 }], kinds }
            : { sheet: ask === 'most' ? sheet : { ...sheet, length: Number.POSITIVE_INFINITY }, kinds };
        expect(checkPacking(asked(ask, own, stages), result)).toEqual([]);
      });
    }
    expect(seen.best).toBeGreaterThan(50);
    expect(seen.best + seen.found).toBeGreaterThan(90);
  });

  it('gives the same bytes for the same seed', () => {
    forAll(30, (one) => {
      const few = { effort: 3000, seed: 11 };
      expect(JSON.stringify(answer(one, few))).toBe(JSON.stringify(answer(one, few)));
    });
  });

  it('is never worse with more effort', () => {
    let better = 0;
    forAll(40, (one) => {
      const losses = [1, 40, 400, 2000, 8000].map((effort) => loss(one, answer(one, { effort })));
      expect(losses, JSON.stringify(one)).toEqual([...losses].sort((a, b) => b - a));
      if (losses.at(-1)! < losses[0]!) better += 1;
    });
    expect(better).toBeGreaterThan(3);
  });

  it('stops when it is told to, with the best so far', () => {
    forAll(20, (one) => {
      const result = answer(one, { effort: 1e9, stop: () => true });
      expect(result.nodes).toBeLessThan(2_000_000);
      expect(['best', 'found', 'unknown', 'impossible']).toContain(result.status);
    });
  });
});

describe('laws of proven answers', () => {
  it('gives the same value when kinds are reordered or split', () => {
    let proven = 0;
    forAll(36, (one) => {
      const here = answer(one);
      const apart = one.kinds.flatMap((each) =>
        Array.from({ length: each.copies }, () => ({ ...each, copies: 1 })),
      );
      const there = answer({ ...one, kinds: apart.reverse() });
      if (!bothBest(here, there)) return;
      proven += 1;
      expect(loss(one, there), JSON.stringify(one)).toBe(loss(one, here));
    });
    expect(proven).toBeGreaterThan(15);
  });

  it('gives the same value on the mirrored sheet', () => {
    let proven = 0;
    forAll(36, (one) => {
      const { sheet } = one;
      const forbidden = sheet.forbidden?.map((box) => ({
        ...box,
        x0: sheet.width - box.x1,
        x1: sheet.width - box.x0,
      }));
      const here = answer(one);
      const there = answer({ ...one, sheet: { ...sheet, ...(forbidden ? { forbidden } : {}) } });
      if (!bothBest(here, there)) return;
      proven += 1;
      expect(loss(one, there), JSON.stringify(one)).toBe(loss(one, here));
    });
    expect(proven).toBeGreaterThan(15);
  });

  it('never needs more on a wider sheet, and never less with fewer turns or stages', () => {
    const counts = { wider: 0, turns: 0, stages: 0, helped: 0 };
    forAll(40, (one) => {
      const here = answer(one);
      const compare = (name: 'wider' | 'turns' | 'stages', worse: PackResult, better: PackResult) => {
        if (!bothBest(worse, better)) return;
        counts[name] += 1;
        expect(loss(one, better), `${name} ${JSON.stringify(one)}`).toBeLessThanOrEqual(loss(one, worse));
        if (loss(one, better) < loss(one, worse)) counts.helped += 1;
      };
      // A sheet's cost is its area unless it is given, so it is given here.
      const priced = { ...one, sheet: { ...one.sheet, cost: 71 } };
      const wide = { ...priced, sheet: { ...priced.sheet, width: one.sheet.width + 2 } };
      compare('wider', answer(priced), answer(wide));
      const straight = one.kinds.map((each) => ({ ...each, quarterTurn: false }));
      compare('turns', answer({ ...one, kinds: straight }), here);
      const three = answer(one, { stages: 3 });
      compare('stages', three, here);
      compare('stages', answer(one, { stages: 2 }), three);
    });
    expect(counts.wider).toBeGreaterThan(15);
    expect(counts.turns).toBeGreaterThan(12);
    expect(counts.stages).toBeGreaterThan(30);
    expect(counts.helped).toBeGreaterThan(10);
  });
});

describe('laws of no-waste sheets', () => {
  it('has no bound beyond the answer that is known', () => {
    const exact = { shortest: 0, most: 0, fewest: 0 };
    for (let seed = 1; seed <= 25; seed++) {
      const { width, length, kinds } = splitSheet(seed, 3 + (seed % 12), { quarterTurn: seed % 3 === 0 });
      for (const ask of ['shortest', 'most', 'fewest'] as const) {
        const result = answer({ ask, sheet: { width, length }, kinds }, { effort: 20_000 });
        expect(result.status, `${ask} ${seed}`).not.toBe('impossible');
        if (result.status === 'impossible') continue;
        const known = ask === 'shortest' ? length : width * length;
        if (ask === 'most') expect(result.bound).toBeGreaterThanOrEqual(known);
        else expect(result.bound).toBeLessThanOrEqual(known);
        if (result.status === 'best') {
          expect(result.value).toBe(known);
          exact[ask] += 1;
        }
      }
    }
    expect(exact.shortest).toBeGreaterThan(15);
    expect(exact.most).toBeGreaterThan(10);
    expect(exact.fewest).toBeGreaterThan(10);
  });

  it('has no bound beyond it on two such sheets either side of a crease', () => {
    let best = 0;
    for (let seed = 1; seed <= 16; seed++) {
      const near = splitSheet(seed, 2 + (seed % 5), { length: 40, width: 30 });
      const far = splitSheet(seed + 100, 2 + (seed % 4), { length: 40, width: 27 });
      const sheet = {
        width: 60,
        length: 40,
        forbidden: [{ x0: 30, y0: 0, x1: 33, y1: Number.POSITIVE_INFINITY }],
      };
      const one: Question = { ask: 'shortest', sheet, kinds: [...near.kinds, ...far.kinds] };
      const result = answer(one);
      expect(result.status).not.toBe('impossible');
      if (result.status === 'impossible') continue;
      expect(result.bound).toBeLessThanOrEqual(40);
      if (result.status !== 'best') continue;
      expect(result.value).toBe(40);
      best += 1;
    }
    expect(best).toBeGreaterThan(10);
  });
});
