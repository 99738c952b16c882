import type { Plan } from '../model/plan.ts';
import type { Offer, Refit } from '../planning/mat/refit.ts';
import type { Remedy } from '../planning/mat/remedies.ts';
import { measuredLines } from './measured-words.ts';
import { NO_OFFER, partRemarks, partWords, shrinkRows, toDoWords } from './refit-words.ts';
import { rowsInColumns, wrapWords } from './text-columns.ts';

/** Said where a plan is asked again before anything new is known of its cloths. */
const NOTHING_MEASURED =
  'Nothing has been measured yet, so nothing is new; `laywright measured` takes what washed cloth measures. ';

/** What was measured, whether it still fits, and every offer, for the terminal. `file` is what the commands it names are given. */
export function refitText(
  { asItIs, short, offers, none }: Refit,
  plan: Plan,
  file: string,
  columns: number,
): string {
  const wrap = (words: string) => wrapWords(words, columns);
  const measured = plan.cloths.flatMap((cloth) =>
    measuredLines(cloth, plan).map((line) => `${cloth.name}: ${line}.`),
  );
  const named = short.join(' and ');
  return [
    ...wrap(plan.name),
    ...measured.flatMap(wrap),
    ...(asItIs
      ? wrap(
          `${measured.length === 0 ? NOTHING_MEASURED : ''}It fits as it is. Its markers: \`laywright plan ${file}\``,
        )
      : wrap(`It does not fit on ${named} any more. Any one of these makes it fit:`)),
    ...(offers.length === 0 ? [] : ['']),
    ...rowsInColumns(
      offers.flatMap((offer) =>
        offerLines(offer, plan).map((line, index) => [index === 0 ? offer.kind : '', line] as const),
      ),
      columns,
    ),
    ...(none.length === 0
      ? []
      : [
          '',
          ...rowsInColumns(
            none.map((kind) => [`no ${kind}`, NO_OFFER[kind]] as const),
            columns,
          ),
        ]),
    ...(offers[0]
      ? ['', ...wrap(`Take one, such as: \`laywright refit ${file} --take ${offers[0].kind}\``)]
      : []),
    ...(offers[0] && short.length > 1
      ? wrap(`Or one for each cloth, such as: \`laywright refit ${file} --take "${eachWords(short)}"\``)
      : []),
  ].join('\n');
}

/** What to do for each cloth, as `--take` reads it. */
function eachWords(short: Refit['short']): string {
  return short.map((cloth, index) => `${cloth}: ${index === 0 ? 'buy' : 'drop'}`).join(', ');
}

/** In one line where it is one thing to do; else what it costs, and a line for what is done for which cloths. */
function offerLines(offer: Offer, plan: Plan): readonly string[] {
  const [only, second] = offer.parts;
  const toDo = toDoWords(offer, plan);
  if (only && !second) return partLines(only, offer, plan, toDo);
  return [
    toDo.join('; '),
    ...offer.parts.flatMap((part) => {
      const lines = partLines(part, offer, plan, []);
      return lines.map((line, index) => (index === 0 ? `on ${part.cloths.join(' and ')}: ${line}` : line));
    }),
  ];
}

/** Of several measures that shrink, one line each. */
function partLines(part: Remedy, offer: Offer, plan: Plan, toDo: readonly string[]): readonly string[] {
  const rows = part.kind === 'shrink' ? shrinkRows(part, plan) : [];
  const words = partWords(part, offer, plan);
  if (rows.length < 2) return [[words, ...toDo, ...partRemarks(part, plan)].join('; ')];
  const widths = rows[0]!.map((_, column) => Math.max(...rows.map((row) => row[column]!.length)));
  return [
    ['make these smaller', ...toDo].join('; '),
    ...rows.map(
      (row) =>
        `- ${row
          .map((cell, column) => cell.padEnd(widths[column]!))
          .join('  ')
          .trimEnd()}`,
    ),
    ...(part.provenOf?.some((proven) => proven)
      ? ['proven: one mark larger, and the rest as here, would not fit']
      : []),
    ...partRemarks(part, plan).slice(1),
  ];
}
