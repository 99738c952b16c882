/** A cut plan made by hand in which a piece larger than its cloth is joined from parts. */
import type { Cloth } from '../../src/model/cloth.ts';
import type { CutPlan } from '../../src/model/cut-plan.ts';
import type { PieceLine, PieceWanted } from '../../src/model/piece.ts';
import { cm, plan, wanted } from './plan-parts.ts';
import { crosscut, lengthwise, piece, scrap, trim } from './trees.ts';

/**
 * A banner 90 cm wide from gauze 62 cm wide, by a lap of 1.45 cm, 1.5 on the marks: 50 and 41.5 cm, one above the other.
 */
export function joinedPlan(): CutPlan {
  const gauze: Cloth = {
    name: 'gauze',
    width: cm(62),
    selvedge: { left: cm(1), right: cm(2) },
    crease: { kind: 'none' },
    direction: 'plain',
    printRuns: 'along',
    squaring: cm(0.5),
    inHand: [
      {
        name: 'short end',
        length: cm(43),
        width: cm(62),
        selvedge: { left: cm(1), right: cm(2) },
        crease: { kind: 'none' },
        copies: 1,
      },
    ],
    lay: 'flat',
  };
  const whole: PieceWanted = {
    ...wanted('banner', 'A', gauze, { width: cm(90), length: cm(21) }, 1, 'lengthwise'),
    join: {
      by: 'lap',
      allowance: cm(1.45),
      lines: 'upright',
      mostJoins: 2,
      narrowest: cm(8),
      clearMiddle: true,
    },
  };
  const extents = [cm(50), cm(41.5)];
  const meeting = (x: number, part: number, side: 'over' | 'under'): PieceLine => ({
    kind: 'join',
    ...{ x0: cm(x), y0: cm(0), x1: cm(x), y1: cm(21) },
    meets: { part: `banner/part ${part}`, side },
  });
  // A lap of 1.45 takes up 1.5 on marks of 0.5: the edge of the other part lies so deep in each.
  const lines = [[meeting(48.5, 2, 'over')], [meeting(1.5, 1, 'under')]];
  const parts = extents.map((width, index): PieceWanted => {
    const id = `banner/part ${index + 1}`;
    const size = { width, length: cm(21) };
    return {
      ...wanted(id, `A${index + 1}`, gauze, size, 1, 'lengthwise'),
      lines: lines[index]!,
      partOf: { piece: 'banner', index, count: extents.length },
    };
  });
  return {
    plan: plan('banner', 'cm', [gauze], { rulerMark: cm(0.5), keep: [cm(14), cm(25)], pieces: [whole] }),
    pieces: parts,
    joined: [{ piece: whole, copies: 1, columns: extents, rows: [cm(21)], parts: parts.map(({ id }) => id) }],
    makes: [],
    cloths: [
      {
        cloth: gauze.name,
        lengths: [
          {
            name: 'short end',
            source: 'in-hand',
            width: cm(62),
            length: cm(43),
            lay: { kind: 'flat' },
            tree: crosscut(
              [cm(0.5), cm(21.5), cm(42.5)],
              trim('squaring'),
              lengthwise(
                [cm(1), cm(51), cm(60)],
                trim('selvedge'),
                piece('banner/part 1'),
                scrap,
                trim('selvedge'),
              ),
              lengthwise(
                [cm(1), cm(42.5), cm(60)],
                trim('selvedge'),
                piece('banner/part 2'),
                scrap,
                trim('selvedge'),
              ),
              trim('squaring'),
            ),
          },
        ],
        surplus: [],
        answer: 'best',
      },
    ],
    issues: [],
  };
}
