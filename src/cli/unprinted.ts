import type { Plan } from '../model/plan.ts';

/** The scripts that the font of the pages has letters of, with the signs that all scripts share. */
const PRINTED =
  /^[\p{Script=Latin}\p{Script=Greek}\p{Script=Cyrillic}\p{Script=Common}\p{Script=Inherited}]*$/u;

/** Names of a plan with letters that its pages cannot print, each once; they stand as empty boxes there. */
export function unprinted(plan: Plan): readonly string[] {
  const names = [
    plan.name,
    plan.note ?? '',
    ...plan.cloths.flatMap(({ name, note = '', inHand }) => [name, note, ...inHand.map((own) => own.name)]),
    ...[...plan.makes, ...plan.pieces, ...(plan.wishes ?? [])].map(({ name }) => name),
  ];
  return [...new Set(names)].filter((name) => !PRINTED.test(name));
}
