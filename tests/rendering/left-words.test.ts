import { describe, expect, it } from 'vitest';
import { sizesTogether } from '../../src/rendering/left-words.ts';

describe('sizes of leftovers', () => {
  it('tells equal ones together, as many groups as there is room for', () => {
    const sizes = ['40 x 17 cm', '40 x 17 cm', '30 x 10 cm', '8 x 9 cm', '8 x 9 cm', '5 x 5 cm'];
    expect(sizesTogether(sizes, 6)).toBe('6: 2 of 40 x 17 cm; 30 x 10 cm; 2 of 8 x 9 cm; 5 x 5 cm');
    expect(sizesTogether(sizes, 2)).toBe('6: 2 of 40 x 17 cm; 30 x 10 cm; and 3 smaller');
  });

  it('says each where all are of one size', () => {
    expect(sizesTogether(['40 x 17 cm', '40 x 17 cm'], 6)).toBe('2: 40 x 17 cm each');
    expect(sizesTogether(['40 x 17 cm'], 6)).toBe('1: 40 x 17 cm');
  });
});
