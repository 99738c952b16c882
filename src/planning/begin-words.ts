import type { LengthPlan, PrintBegin } from '../model/cut-plan.ts';
import { formatLength, type LengthStyle } from '../units/format.ts';
import { type Ticks, ticks } from '../units/ticks.ts';

/**
 * What to do before the first cut of a length whose print may start anywhere: `find the first motif whose centre lies
 * at least 7 1/2 in from the near end, and crosscut square 7 1/2 in before it`. That the length is begun where the motif falls, a whole
 * repeat being kept for the worst start, is common practice (no published source).
 *
 * @param squaring what the near end loses in any case
 */
export function wordBegin(
  { within, motif, column }: PrintBegin,
  squaring: Ticks,
  length: (ticks: Ticks) => string,
): string {
  const say = (extent: number) => length(ticks(extent));
  if (motif === undefined) {
    const from =
      squaring > 0
        ? `, ${say(squaring)} from the near end or at most ${say(within)} beyond,`
        : ` within ${say(within)} of the near end,`;
    return `crosscut square${from} at the same place of the print on every length of this cloth`;
  }
  const where = column === undefined ? '' : `in the column of motifs ${say(column)} from the left edge, `;
  const least =
    squaring + motif > 0 ? ` whose centre lies at least ${say(squaring + motif)} from the near end` : '';
  const which = column === undefined ? `first motif${least}` : `first${least}`;
  const cut = motif === 0 ? 'through its centre' : `${say(motif)} before it`;
  return `${where}find the ${which}, and crosscut square ${cut}`;
}

/** What that leaves uncertain; undefined for a length that is not begun so. */
export function whatBeginTakes(
  { begins }: Pick<LengthPlan, 'begins'>,
  style: LengthStyle,
): string | undefined {
  if (!begins) return undefined;
  return `Where its print starts is not known, so it is drawn as if the most, ${formatLength(begins.within, style)}, went at the near end. What goes less there is left more at the far end: the leftovers there are told as the least.`;
}
