import { describe, expect, it } from 'vitest';
import { perCentTold } from '../../src/rendering/per-cent.ts';

describe('a share in per cent', () => {
  it.each([
    [87.46, '87.5'],
    [87.44, '87.4'],
    [99.94, '99.9'],
    [99.96, '99.9'],
    [99.999_999, '99.9'],
    [100, '100.0'],
    [0.04, '0.1'],
    [0, '0.0'],
  ])('%f is told as %s: rounded, and never all or nothing unless it is', (value, told) => {
    expect(perCentTold(value)).toBe(told);
  });
});
