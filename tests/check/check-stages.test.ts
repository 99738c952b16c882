import { describe, expect, it } from 'vitest';
import { checkStages } from '../../src/check/check-stages.ts';
import { placeTree } from '../../src/check/placed-tree.ts';
import { ticks } from '../../src/units/ticks.ts';
import { crosscut, lengthwise, piece, scrap } from '../support/trees.ts';

/**
 * Two sections; the first divided lengthwise into a piece, a column and a piece; the column crosscut; and in its near part two
 * pieces of 30 that meet at 100, each to be trimmed from 10 of scrap.
 */
const tree = crosscut(
  [ticks(90)],
  lengthwise(
    [ticks(60), ticks(140)],
    piece('side'),
    crosscut(
      [ticks(40)],
      lengthwise([ticks(10), ticks(40), ticks(70)], scrap, piece('pair'), piece('pair'), scrap),
      piece('across'),
    ),
    piece('side'),
  ),
  piece('whole'),
);

function stagesFound(foldAt: number | undefined): readonly unknown[] {
  const found: unknown[] = [];
  const parts = placeTree(tree, ticks(200), ticks(150), () => {});
  checkStages(parts, 3, foldAt === undefined ? undefined : ticks(foldAt), (code, figures) =>
    found.push([code, figures]),
  );
  return found;
}

describe('cut stages of a folded lay', () => {
  it('count two pieces that meet in the fold as one, which a last cut trims', () => {
    expect(stagesFound(100)).toEqual([]);
  });

  it('count them apart where the fold is a tick off, or there is none', () => {
    const tooMany = [['too-many-stages', { found: 4, most: 3 }]];
    expect(stagesFound(101)).toEqual(tooMany);
    expect(stagesFound(undefined)).toEqual(tooMany);
  });
});
