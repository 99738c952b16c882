import type { Plan } from '../model/plan.ts';
import type { Refit } from '../planning/mat/refit.ts';
import { measuredLines } from './measured-words.ts';
import { NO_OFFER, offerRemarks, offerWords } from './refit-words.ts';
import { rowsInColumns, wrapWords } from './text-columns.ts';

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
      ? wrap(`It fits as it is. Its markers: \`laywright plan ${file}\``)
      : wrap(`It does not fit on ${named} any more. Any one of these makes it fit:`)),
    ...(offers.length === 0 ? [] : ['']),
    ...rowsInColumns(
      offers.map(
        (offer) => [offer.kind, [offerWords(offer, plan), ...offerRemarks(offer, plan)].join('; ')] as const,
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
  ].join('\n');
}
