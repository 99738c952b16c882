import { z } from 'zod';
import type { Cloth } from '../cloth.ts';
import type { ClothRules } from '../collection.ts';
import type { Wish } from '../leftover-use.ts';
import type { MakeSpec } from '../measure.ts';
import { resolved } from './cloth-choice-fields.ts';
import { keyed, type ReadingContext, said, type Words } from './fields.ts';
import {
  clothsOfParts,
  filledMeasures,
  matchesOfParts,
  measureFields,
  type WrittenCloths,
} from './make-fields.ts';
import { money } from './money-scalars.ts';
import { count, inWords, name, outOfRange } from './scalars.ts';

/** Keys that every wish has; no make may use them for a measure. */
export const WISH_KEYS = ['name', 'kind', 'most', 'least', 'worth', 'cloth', 'match'] as const;

/** Something to have if cloth is left: an order of any of the makes, with limits in the place of a count. */
export function wishDefinition(makes: readonly MakeSpec[], context: ReadingContext) {
  const kinds = makes.map((make) => make.kind);
  const wishes = makes.map((make) => wishOf(make, context));
  return z.discriminatedUnion('kind', wishes as [(typeof wishes)[number], ...typeof wishes], {
    error: (issue) =>
      issue.code === 'invalid_union'
        ? said({ wanted: inWords(kinds), example: kinds[0], known: kinds })
        : said(wishWords(kinds[0])),
  });
}

function wishOf(make: MakeSpec, context: ReadingContext) {
  const own = {
    name: name('What to call it; each name once in a plan.', 'spare napkins'),
    kind: z.literal(make.kind).meta({ description: `${make.title}: ${make.summary}` }),
    most: count('How many at most; any number unless said.', 1, '6').optional(),
    least: count('Fewer than this are of no use; 1 unless said.', 1, '4').optional(),
    worth: money(
      'What one is worth to you; it counts in favour of a buy that leaves it.',
      context,
    ).optional(),
    cloth: clothsOfParts(
      make,
      context,
      'The cloth whose leftovers it may be cut from, or a list, for all its parts together or for each by itself; any cloth of the plan unless said.',
    ).optional(),
    match: matchesOfParts(make, context).optional(),
  };
  const shape: Record<string, z.ZodType> = { ...own, ...measureFields(make, Object.keys(own), context) };
  const wish = keyed(shape as { kind: z.ZodLiteral<string> }, wishWords(make.kind));
  return wish.superRefine((written: Readonly<Record<string, unknown>>, issues) => {
    const { most, least } = written as { readonly most?: number; readonly least?: number };
    if (most === undefined || least === undefined || least <= most) return;
    const params = outOfRange(String(least), `no more than the most there may be, ${most}`);
    issues.addIssue({ code: 'custom', path: ['least'], message: '', params });
  });
}

export function wishWords(kind: string): Words {
  return {
    wanted: 'keys such as name, kind and most, with the measures of that kind',
    example: `{ name: spare napkins, kind: ${kind}, most: 6 }`,
  };
}

/** The wish with every measure that was left out at its make's default. */
export function toWish(
  written: Readonly<Record<string, unknown>>,
  make: MakeSpec,
  {
    cloths,
    rules,
    ...context
  }: ReadingContext & { readonly cloths: readonly Cloth[]; readonly rules: ClothRules },
): Wish {
  const own = written as {
    readonly name: string;
    readonly most?: number;
    readonly least?: number;
    readonly worth?: number;
    readonly cloth?: WrittenCloths;
    readonly match?: NonNullable<Wish['matches']>;
  };
  return {
    name: own.name,
    make: make.kind,
    measures: filledMeasures(written, make, context),
    ...(own.cloth !== undefined && clothsOf(own.cloth, rules, cloths)),
    ...(own.match !== undefined && { matches: own.match }),
    ...(own.most !== undefined && { most: own.most }),
    least: own.least ?? 1,
    ...(own.worth !== undefined && { worth: own.worth }),
  };
}

/** All parts from one of some cloths, or each from its own; then the rules of the plan hold. */
function clothsOf(
  { whole, parts }: WrittenCloths,
  rules: ClothRules,
  cloths: readonly Cloth[],
): Pick<Wish, 'cloths' | 'parts' | 'rules'> {
  const asked = Object.entries(parts).flatMap(([part, own]) =>
    own === undefined ? [] : [[part, resolved(own, cloths)] as const],
  );
  if (whole) return { cloths: asked[0]![1] };
  const bound = Object.values(rules).some((rule) => rule.length > 0);
  return { parts: Object.fromEntries(asked), ...(bound && { rules }) };
}
