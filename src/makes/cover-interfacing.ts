import type { MakeSpec } from '../model/measure.ts';
import type { ArithmeticLine } from '../model/piece.ts';
import type { PlanUnit } from '../model/plan.ts';
import { sum } from '../units/ticks.ts';
import { line } from './arithmetic.ts';
import { allAround, cutSize, raw, seam } from './edges.ts';
import type { Cover } from './envelope-measures.ts';
import { joinedBy, joinMeasures, joinRule } from './joins.ts';
import type { PieceOfMake, Remark } from './make.ts';
import type { Measures } from './measures.ts';

export const INTERFACINGS = ['cut to the front', 'inside the seams', 'oversize'] as const;

export const interfacingMeasures: MakeSpec['measures'] = {
  interfacing: {
    kind: 'choice',
    choices: INTERFACINGS,
    default: { inches: 'cut to the front', metric: 'cut to the front' },
    meaning:
      'How the interfacing is cut, where a cloth is named for it: like the front, smaller by the seams, or larger, to be fused and then cut true.',
  },
  'interfacing oversize': {
    kind: 'length',
    least: 'zero',
    default: { inches: '1/2', metric: '1' },
    meaning: 'How far oversize interfacing stands out past the front, on each side.',
  },
  ...joinMeasures('interfacing', 'lap'),
};

export interface CoverInterfacing {
  readonly cut: (typeof INTERFACINGS)[number];
  readonly pieces: readonly PieceOfMake[];
  readonly arithmetic: readonly ArithmeticLine[];
  readonly remarks: readonly Remark[];
}

/** Interfacing behind the front of a cover, as a piece of its own. */
export function interfacingOf(cover: Cover, measures: Measures, unit: PlanUnit): CoverInterfacing {
  const joins = joinRule(measures, { piece: 'interfacing', by: 'lap', lines: 'either' }, unit);
  return {
    cut: measures.choice('interfacing', INTERFACINGS),
    pieces: [{ ...interfacingPiece(cover, measures), ...joinedBy(joins.rule) }],
    arithmetic: interfacingArithmetic(cover, measures),
    remarks: joins.remarks,
  };
}

function interfacingPiece({ finished, allowance }: Cover, measures: Measures): PieceOfMake {
  const piece = { name: 'interfacing', part: 'interfacing', perMake: 1, finished, grain: 'either' } as const;
  switch (measures.choice('interfacing', INTERFACINGS)) {
    case 'cut to the front':
      return { ...piece, edges: allAround(seam(allowance)) };
    case 'inside the seams':
      return { ...piece, edges: allAround(raw) };
    case 'oversize':
      return {
        ...piece,
        edges: allAround(seam(sum([allowance, measures.length('interfacing oversize')]))),
      };
  }
}

function interfacingArithmetic(
  { finished, allowance }: Cover,
  measures: Measures,
): readonly ArithmeticLine[] {
  const front = cutSize(finished, allAround(seam(allowance)));
  const [across, up] = ['interfacing, across', 'interfacing, up'];
  switch (measures.choice('interfacing', INTERFACINGS)) {
    case 'cut to the front':
      return [
        line(`${across}, as the front`, finished.width, '+ 2 ×', allowance, '=', front.width),
        line(`${up}, as the front`, finished.length, '+ 2 ×', allowance, '=', front.length),
      ];
    case 'inside the seams':
      return [
        line(across, front.width, '- 2 ×', allowance, '=', finished.width),
        line(up, front.length, '- 2 ×', allowance, '=', finished.length),
      ];
    case 'oversize': {
      const over = measures.length('interfacing oversize');
      return [
        line(across, front.width, '+ 2 ×', over, '=', sum([front.width, over, over])),
        line(up, front.length, '+ 2 ×', over, '=', sum([front.length, over, over])),
      ];
    }
  }
}
