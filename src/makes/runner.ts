import type { MakeSpec } from '../model/measure.ts';
import type { Size } from '../model/piece.ts';
import type { MakeOrder, PlanUnit } from '../model/plan.ts';
import { sum } from '../units/ticks.ts';
import { line } from './arithmetic.ts';
import { CORNERS, hemmedAssembly, hemmedRectangle, tableCorners, tableHem } from './hemmed-rectangle.ts';
import { joinedBy, joinMeasures, joinRule } from './joins.ts';
import { linedArithmetic, linedAssembly, linedPieces, liningAllowance } from './lined-rectangle.ts';
import type { MadeUp, Make } from './make.ts';
import { measuresOf } from './measures.ts';
import { hasError, practiceIn, seamPractice } from './practice.ts';
import { writtenIn } from './sewing.ts';

const spec: MakeSpec = {
  kind: 'runner',
  title: 'Table runner',
  summary: 'A strip along the table, hemmed; or lined, where a cloth is named for the lining.',
  measures: {
    // Strips 12 in wide run the length of the table and hang over its ends (The Complete Home, 1906).
    width: {
      mayGive: true,
      kind: 'length',
      least: 'positive',
      default: { inches: '12', metric: '30' },
      meaning: 'Finished, across the runner.',
    },
    length: {
      mayGive: true,
      kind: 'length',
      least: 'positive',
      meaning: 'Of the table that it runs along; or of the runner itself, where no drop is given.',
    },
    drop: {
      kind: 'length',
      least: 'zero',
      default: { inches: '0', metric: '0' },
      meaning: 'How far it hangs over each end of the table.',
    },
    hem: tableHem,
    corners: tableCorners,
    'seam allowance': liningAllowance,
    ...joinMeasures('runner', 'seam'),
  },
  parts: {
    front: { meaning: 'The front, or the only layer.' },
    lining: { meaning: 'The second layer. Left out, the runner is hemmed.', optional: true },
  },
};

export const runner: Make = {
  spec,
  expand(order, { unit }) {
    const measures = measuresOf(order);
    const table = measures.length('length');
    const drop = measures.length('drop');
    const finished = { width: measures.length('width'), length: sum([table, drop, drop]) };
    const joins = joinRule(measures, { piece: 'runner', by: 'seam', lines: 'level' }, unit);
    const sewn = layers(order, finished, unit);
    const seamed = joins.rule !== undefined || order.cloths.lining !== undefined;
    const seams = seamed ? seamPractice(practiceIn(unit), measures.length('seam allowance')) : [];
    const remarks = [...sewn.remarks, ...seams, ...joins.remarks];
    const hangs = line('finished length', table, '+ 2 ×', drop, '=', finished.length);
    return {
      ...sewn,
      finished,
      pieces: hasError(remarks) ? [] : sewn.pieces.map((piece) => ({ ...piece, ...joinedBy(joins.rule) })),
      arithmetic: [...(drop === 0 ? [] : [hangs]), ...sewn.arithmetic],
      cautions: ['rotary-cutter', 'wash-and-care'],
      remarks,
    };
  },
};

/** Hemmed, or lined where a cloth is named for the lining. */
function layers(
  order: MakeOrder,
  finished: Size,
  unit: PlanUnit,
): Pick<MadeUp, 'pieces' | 'arithmetic' | 'assembly' | 'remarks'> {
  const measures = measuresOf(order);
  const written = writtenIn(unit);
  if (order.cloths.lining !== undefined) {
    const lined = { finished, allowance: measures.length('seam allowance') };
    return {
      pieces: linedPieces(lined),
      arithmetic: linedArithmetic(lined),
      assembly: linedAssembly(lined, written),
      remarks: [],
    };
  }
  const hem = measures.hem('hem');
  const { piece, arithmetic, remarks } = hemmedRectangle(
    { name: 'front', part: 'front', finished, hem },
    practiceIn(unit),
  );
  const assembly = hemmedAssembly(hem, measures.choice('corners', CORNERS), written);
  return { pieces: [piece], arithmetic, assembly, remarks };
}
