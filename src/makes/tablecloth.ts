import type { MakeSpec } from '../model/measure.ts';
import type { Size } from '../model/piece.ts';
import { sum, type Ticks } from '../units/ticks.ts';
import { line } from './arithmetic.ts';
import { CORNERS, hemmedAssembly, hemmedRectangle, tableCorners, tableHem } from './hemmed-rectangle.ts';
import { joinedBy, joinMeasures, joinRule } from './joins.ts';
import { liningAllowance } from './lined-rectangle.ts';
import type { Make, Remark } from './make.ts';
import { measuresOf } from './measures.ts';
import { hasError, type Practice, practiceIn, seamPractice, usual, warning } from './practice.ts';
import { writtenIn } from './sewing.ts';

/** A cloth hangs at least 12 in below the edge of the table (The Complete Home, ed. C. E. Laughlin, 1906). */
const LEAST_DROP = { inches: 12, millimetres: 300 };

const spec: MakeSpec = {
  kind: 'tablecloth',
  title: 'Tablecloth',
  summary: 'One piece for a square or oblong table, hemmed all round.',
  measures: {
    table: { kind: 'size', meaning: 'The table top, across and along.' },
    drop: {
      mayGive: true,
      kind: 'length',
      least: 'zero',
      default: { inches: '12', metric: '30' },
      meaning: 'How far the cloth hangs below the edge of the table, on each side.',
    },
    hem: tableHem,
    corners: tableCorners,
    'seam allowance': liningAllowance,
    ...joinMeasures('tablecloth', 'seam'),
  },
  parts: { cloth: { meaning: 'The whole tablecloth.' } },
};

export const tablecloth: Make = {
  spec,
  expand(order, { unit }) {
    const measures = measuresOf(order);
    const practice = practiceIn(unit);
    const table = measures.size('table');
    const drop = measures.length('drop');
    const hem = measures.hem('hem');
    const finished: Size = {
      width: sum([table.width, drop, drop]),
      length: sum([table.length, drop, drop]),
    };
    const joins = joinRule(measures, { piece: 'tablecloth', by: 'seam', lines: 'either' }, unit);
    const { piece, arithmetic, remarks } = hemmedRectangle(
      { name: 'tablecloth', part: 'cloth', finished, hem },
      practice,
    );
    const seams = joins.rule === undefined ? [] : seamPractice(practice, joins.rule.allowance);
    const all = [...dropPractice(practice, drop), ...remarks, ...seams, ...joins.remarks];
    return {
      finished,
      pieces: hasError(all) ? [] : [{ ...piece, ...joinedBy(joins.rule) }],
      arithmetic: [
        line('finished, across', table.width, '+ 2 ×', drop, '=', finished.width),
        line('finished, along', table.length, '+ 2 ×', drop, '=', finished.length),
        ...arithmetic,
      ],
      assembly: hemmedAssembly(hem, measures.choice('corners', CORNERS), writtenIn(unit)),
      cautions: ['rotary-cutter', 'wash-and-care'],
      remarks: all,
    };
  },
};

function dropPractice({ unit }: Practice, drop: Ticks): readonly Remark[] {
  const least = usual(unit, LEAST_DROP);
  if (drop >= least) return [];
  return [
    warning('drop', 'A drop of {drop} is less than the {least} that a tablecloth usually hangs.', {
      drop,
      least,
    }),
  ];
}
