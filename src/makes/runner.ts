import type { MakeSpec } from '../model/measure.ts';
import type { ArithmeticLine, Size } from '../model/piece.ts';
import type { MakeOrder } from '../model/plan.ts';
import { sum, type Ticks, ticks } from '../units/ticks.ts';
import { line } from './arithmetic.ts';
import { CORNERS, hemmedAssembly, hemmedRectangle, tableCorners, tableHem } from './hemmed-rectangle.ts';
import { linedArithmetic, linedAssembly, linedPieces, liningAllowance } from './lined-rectangle.ts';
import type { MadeUp, Make, Remark } from './make.ts';
import { type Measures, measuresOf } from './measures.ts';
import { error, hasError, seamPractice } from './practice.ts';
import { type Written, writtenIn } from './sewing.ts';

const spec: MakeSpec = {
  kind: 'runner',
  title: 'Table runner',
  summary: 'A strip along the table, hemmed; or lined, where a cloth is named for the lining.',
  measures: {
    // Strips 12 in wide run the length of the table and hang over its ends (The Complete Home, 1906).
    width: {
      kind: 'length',
      least: 'positive',
      default: { inches: '12', metric: '30' },
      meaning: 'Finished, across the runner.',
    },
    length: {
      kind: 'length',
      least: 'positive',
      optional: true,
      meaning: 'Finished, end to end. Left out, it follows from the table.',
    },
    'table length': {
      kind: 'length',
      least: 'positive',
      optional: true,
      meaning: 'The table that it runs along; the drop is added at both ends.',
    },
    drop: {
      kind: 'length',
      least: 'zero',
      optional: true,
      meaning: 'How far it hangs over each end of the table. Left out, it ends with the table.',
    },
    hem: tableHem,
    corners: tableCorners,
    'seam allowance': liningAllowance,
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
    const { length, arithmetic, remarks } = runnerLength(measures);
    const finished = { width: measures.length('width'), length };
    // With no length to go by there is nothing to show or to sew.
    if (hasError(remarks)) {
      return { finished, pieces: [], arithmetic: [], assembly: [], cautions: [], remarks };
    }
    const sewn = layers(order, finished, writtenIn(unit));
    return {
      ...sewn,
      arithmetic: [...arithmetic, ...sewn.arithmetic],
      pieces: hasError(sewn.remarks) ? [] : sewn.pieces,
    };
  },
};

function layers(order: MakeOrder, finished: Size, written: Written): MadeUp {
  const measures = measuresOf(order);
  const cautions = ['rotary-cutter', 'wash-and-care'] as const;
  if (order.cloths.lining !== undefined) {
    const lined = { finished, allowance: measures.length('seam allowance') };
    return {
      finished,
      cautions,
      pieces: linedPieces(lined),
      arithmetic: linedArithmetic(lined),
      assembly: linedAssembly(lined, written),
      remarks: seamPractice(lined.allowance),
    };
  }
  const hem = measures.hem('hem');
  const { piece, arithmetic, remarks } = hemmedRectangle('front', 'front', finished, hem);
  const assembly = hemmedAssembly(hem, measures.choice('corners', CORNERS), written);
  return { finished, cautions, pieces: [piece], arithmetic, assembly, remarks };
}

/** The length given, or table length + 2 × drop. */
function runnerLength(measures: Measures): {
  readonly length: Ticks;
  readonly arithmetic: readonly ArithmeticLine[];
  readonly remarks: readonly Remark[];
} {
  const given = measures.optionalLength('length');
  const table = measures.optionalLength('table length');
  const drop = measures.optionalLength('drop') ?? ticks(0);
  if (table === undefined) {
    if (given !== undefined) return { length: given, arithmetic: [], remarks: [] };
    const missing = error(
      'length',
      'The runner has no length: give its length, or the table length and the drop.',
      {},
    );
    return { length: ticks(0), arithmetic: [], remarks: [missing] };
  }
  const length = sum([table, drop, drop]);
  const contradicts =
    given === undefined || given === length
      ? []
      : [
          error(
            'length',
            'A table of {table} with a drop of {drop} asks for {length}, not {given}: leave out one of the three.',
            { table, drop, length, given },
          ),
        ];
  return {
    length,
    arithmetic: [line('finished length', table, '+ 2 ×', drop, '=', length)],
    remarks: contradicts,
  };
}
