import { expect, it } from 'vitest';
import { fewestSheets } from '../../src/packing/pack.ts';

// Areas so large that a quotient times its divisor is no longer the dividend: found in a plan that could be cut.
it('sheets with area to spare are never called too small, however large the areas', () => {
  const kinds = [
    { width: 144_272, length: 221_488, copies: 6, quarterTurn: true },
    { width: 32_512, length: 195_072, copies: 6, quarterTurn: true },
    { width: 65_024, length: 67_056, copies: 6, quarterTurn: false },
    { width: 73_152, length: 227_584, copies: 3, quarterTurn: true },
    { width: 182_880, length: 4_064, copies: 6, quarterTurn: true },
  ];
  const roll = { x0: 85_344, y0: 0, x1: 89_078, y1: 284_480 };
  const sheets = [
    { width: 168_326, length: 284_480, forbidden: [roll], copies: 1, cost: 168_326 * 284_480 },
    { width: 229_616, length: 1_361_440, copies: 1, cost: 360_500_000_001 },
  ];
  const result = fewestSheets({ sheets, kinds }, { effort: 400, seed: 5, stages: 'any' });
  expect(result.status).not.toBe('impossible');
});
