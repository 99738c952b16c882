import type { MakeSpec } from '../model/measure.ts';
import type { MakeOrder } from '../model/plan.ts';
import { CORNERS, hemmedAssembly, hemmedRectangle, tableCorners, tableHem } from './hemmed-rectangle.ts';
import { linedArithmetic, linedAssembly, linedPieces, liningAllowance, WADDINGS } from './lined-rectangle.ts';
import type { MadeUp, Make, MakeContext } from './make.ts';
import { measuresOf } from './measures.ts';
import { error, hasError, practiceIn, seamPractice } from './practice.ts';
import { writtenIn } from './sewing.ts';

const spec: MakeSpec = {
  kind: 'place-mat',
  title: 'Place mat',
  summary:
    'One layer hemmed all round; or lined, with wadding between if wanted, where a cloth is named for the lining.',
  measures: {
    size: { mayGive: true, kind: 'size', meaning: 'Finished, across and up.' },
    hem: tableHem,
    corners: tableCorners,
    'seam allowance': liningAllowance,
    wadding: {
      kind: 'choice',
      choices: WADDINGS,
      default: { inches: 'cut to the front', metric: 'cut to the front' },
      meaning:
        'How wadding is cut, where it is named: like the front and trimmed after sewing, or smaller by the seams.',
    },
  },
  parts: {
    front: { meaning: 'The front, or the only layer.' },
    lining: { meaning: 'The second layer. Left out, the mat is hemmed.', optional: true },
    wadding: { meaning: 'A soft layer between the two.', optional: true },
  },
};

export const placeMat: Make = {
  spec,
  expand: (order, context) =>
    order.cloths.lining === undefined ? hemmedMat(order, context) : linedMat(order, context),
};

function hemmedMat(order: MakeOrder, { unit }: MakeContext): MadeUp {
  const measures = measuresOf(order);
  const finished = measures.size('size');
  const hem = measures.hem('hem');
  const { piece, arithmetic, remarks } = hemmedRectangle(
    { name: 'front', part: 'front', finished, hem },
    practiceIn(unit),
  );
  const loose =
    order.cloths.wadding === undefined
      ? []
      : [error('cloth', 'Wadding needs a lining to lie behind: name a cloth for the lining as well.', {})];
  const all = [...loose, ...remarks];
  return {
    finished,
    pieces: hasError(all) ? [] : [piece],
    arithmetic,
    assembly: hemmedAssembly(hem, measures.choice('corners', CORNERS), writtenIn(unit)),
    cautions: ['rotary-cutter', 'wash-and-care'],
    remarks: all,
  };
}

function linedMat(order: MakeOrder, { unit }: MakeContext): MadeUp {
  const measures = measuresOf(order);
  const mat = {
    finished: measures.size('size'),
    allowance: measures.length('seam allowance'),
    wadding: order.cloths.wadding === undefined ? undefined : measures.choice('wadding', WADDINGS),
  };
  return {
    finished: mat.finished,
    pieces: linedPieces(mat),
    arithmetic: linedArithmetic(mat),
    assembly: linedAssembly(mat, writtenIn(unit)),
    cautions: ['rotary-cutter', 'wash-and-care'],
    remarks: seamPractice(practiceIn(unit), mat.allowance),
  };
}
