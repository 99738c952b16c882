import { z } from 'zod';
import { likelySpelling } from '../../units/spelling.ts';
import type { Cloth } from '../cloth.ts';
import type { MakeSpec, MeasureSpec, MeasureValue } from '../measure.ts';
import type { MakeOrder } from '../plan.ts';
import { type ClothAsked, clothsAsked, resolved, rulesDefinition } from './cloth-choice-fields.ts';
import {
  either,
  keyed,
  listOf,
  problem,
  type Read,
  type ReadingContext,
  readAs,
  said,
  scalar,
  type Words,
} from './fields.ts';
import { matchDefinition } from './match-fields.ts';
import { panelAskedDefinition } from './panel-fields.ts';
import {
  choice,
  count,
  hem,
  inWords,
  length,
  name,
  readChoice,
  readCount,
  readFactor,
  readHem,
  readLength,
  readSize,
  readYesNo,
  size,
  yesNo,
} from './scalars.ts';

/** Keys that every order has; no make may use them for a measure. */
export const ORDER_KEYS = [
  'name',
  'kind',
  'count',
  'cloth',
  'match',
  'panel',
  'on fold',
  'set',
  'rules',
] as const;

/** An order of any of the makes, told apart by its `kind`. */
export function orderDefinition(makes: readonly MakeSpec[], context: ReadingContext) {
  const kinds = makes.map((make) => make.kind);
  const orders = makes.map((make) => orderOf(make, context));
  return z.discriminatedUnion('kind', orders as [(typeof orders)[number], ...typeof orders], {
    error: (issue) =>
      issue.code === 'invalid_union'
        ? said({ wanted: inWords(kinds), example: kinds[0], known: kinds })
        : said(orderWords(kinds[0])),
  });
}

function orderOf(make: MakeSpec, context: ReadingContext) {
  const shape: Record<string, z.ZodType> = {
    name: name('What to call this order; each name once in a plan.', 'window seat covers'),
    kind: z.literal(make.kind).meta({ description: `${make.title}: ${make.summary}` }),
    count: count('How many to sew.'),
    cloth: clothsOfParts(make, context),
    match: matchesOfParts(make, context).optional(),
    panel: panelsOfParts(make, context).optional(),
    'on fold': partsOnFold(make).optional(),
    set: setName(context).optional(),
    rules: rulesDefinition(Object.keys(make.parts)).optional(),
  };
  Object.assign(shape, measureFields(make, Object.keys(shape), context));
  const order = keyed(shape as { kind: z.ZodLiteral<string> }, orderWords(make.kind));
  return order.superRefine((written: Readonly<Record<string, unknown>>, issues) => {
    if (written.set === undefined || written.rules === undefined) return;
    const problem = { code: 'rules-beside-set', details: { set: String(written.set) } };
    issues.addIssue({ code: 'custom', path: ['rules'], message: '', params: { problem } });
  });
}

/** A field for each measure of a make, none under a key that is `taken`. */
export function measureFields(
  make: MakeSpec,
  taken: readonly string[],
  context: ReadingContext,
): Readonly<Record<string, z.ZodType>> {
  return Object.fromEntries(
    Object.entries(make.measures).map(([measure, spec]) => {
      if (taken.includes(measure))
        throw new Error(`the make "${make.kind}" may not call a measure "${measure}"`);
      const field = measureField(spec, context);
      return [measure, spec.default !== undefined || spec.optional === true ? field.optional() : field];
    }),
  );
}

function orderWords(kind: string): Words {
  return {
    wanted: 'keys such as name, kind and count, with the measures of that kind',
    example: `{ name: window seat covers, kind: ${kind}, count: 7 }`,
  };
}

function setName(context: ReadingContext) {
  const known = context.setNames ?? [];
  const read = (text: string): Read<string> => {
    if (context.setNames === undefined || known.includes(text)) return readAs(text);
    const likely = likelySpelling(text, known);
    const details = { found: text, known, ...(likely === undefined ? {} : { likely }) };
    return problem({ code: 'unknown-set', details });
  };
  const meaning = 'The set it belongs to, one of those under `sets`; a set of its own unless said.';
  return scalar({ wanted: 'the name of a set', example: known[0] ?? 'lookout bedroom', meaning, read });
}

export function clothsOfParts(
  make: MakeSpec,
  context: ReadingContext,
  meaning = 'The cloth of each part, or a list of cloths to choose from; what is not told by part goes for every part that must have a cloth.',
) {
  const parts: Record<string, z.ZodType> = {};
  for (const [part, spec] of Object.entries(make.parts)) {
    const field = clothsAsked(spec.meaning, context);
    parts[part] = spec.optional === true ? field.optional() : field;
  }
  const someCloth = context.clothNames?.[0] ?? 'lime wash';
  const words = {
    wanted: `a cloth's name, a list to choose from, or a cloth for each of ${Object.keys(make.parts).join(', ')}`,
    example: `{ ${Object.keys(make.parts)
      .map((part) => `${part}: ${someCloth}`)
      .join(', ')} }`,
  };
  const whole = clothsAsked(meaning, context).transform(
    (asked): WrittenCloths => ({
      whole: true,
      parts: Object.fromEntries(
        Object.entries(make.parts)
          .filter(([, spec]) => spec.optional !== true)
          .map(([part]) => [part, asked]),
      ),
    }),
  );
  const each = keyed(parts, words).transform(
    (written): WrittenCloths => ({ whole: false, parts: written as WrittenCloths['parts'] }),
  );
  return either(whole, each, words).meta({ description: meaning });
}

/** What the pieces of each part ask of the print. */
export function matchesOfParts(make: MakeSpec, context: ReadingContext) {
  const [part] = Object.keys(make.parts);
  return keyed(
    Object.fromEntries(Object.keys(make.parts).map((part) => [part, matchDefinition(context).optional()])),
    { wanted: 'a match for each part that has one', example: `{ ${part}: centre }` },
  ).meta({ description: 'What the pieces of each part ask of the print; nothing unless said.' });
}

/** The printed panels that the pieces of each part are cut around. */
function panelsOfParts(make: MakeSpec, context: ReadingContext) {
  const [part] = Object.keys(make.parts);
  return keyed(
    Object.fromEntries(
      Object.keys(make.parts).map((part) => [part, panelAskedDefinition(context).optional()]),
    ),
    { wanted: 'a panel for each part that has one', example: `{ ${part}: lighthouse }` },
  ).meta({ description: 'The printed panel in the middle of the pieces of each part; none unless said.' });
}

/** Which parts are cut across a fold. */
function partsOnFold(make: MakeSpec) {
  const parts = Object.keys(make.parts);
  return listOf(choice('A part that is cut across a fold.', parts as [string, ...string[]]), {
    wanted: `a list of parts, such as [${parts[0]}]`,
    example: `[${parts[0]}]`,
  }).meta({ description: 'Parts that are cut across a fold of their cloth, half of each set from there.' });
}

export interface WrittenCloths {
  /** One value stood for all parts together. */
  readonly whole: boolean;
  readonly parts: Readonly<Record<string, readonly ClothAsked[] | undefined>>;
}

function measureField(spec: MeasureSpec, context: ReadingContext): z.ZodType<unknown> {
  const meaning = `${spec.meaning}${unlessSaid(spec)}`;
  const example = exampleOf(spec, context);
  switch (spec.kind) {
    case 'length':
      return length({ meaning, positive: spec.least === 'positive', ...(example && { example }) }, context);
    case 'size':
      return size(meaning, context, example);
    case 'hem':
      return hem(meaning, context, example);
    case 'count':
      return count(meaning, spec.least, example);
    case 'factor':
      return scalar({
        wanted: `a factor from ${spec.least} to ${spec.most}`,
        example: example ?? spec.least,
        meaning,
        read: (text) => readFactor(text, spec),
      });
    case 'choice':
      return choice(meaning, spec.choices, example);
    case 'yes-no':
      return yesNo(meaning);
  }
}

function exampleOf(spec: MeasureSpec, context: ReadingContext): string | undefined {
  return context.unit === 'in' ? spec.default?.inches : spec.default?.metric;
}

function unlessSaid(spec: MeasureSpec): string {
  if (spec.default === undefined) return '';
  const { inches, metric } = spec.default;
  if (inches === metric) return ` \`${inches}\` unless said.`;
  return ` \`${inches}\` on an inch plan, \`${metric}\` on a centimetre plan, unless said.`;
}

/** The order with every measure that was left out at its make's default. Throws where a make's own default is no such measure. */
export function toOrder(
  written: Readonly<Record<string, unknown>>,
  make: MakeSpec,
  { cloths, ...context }: ReadingContext & { readonly cloths: readonly Cloth[] },
): MakeOrder {
  const measures = filledMeasures(written, make, context);
  const { whole, parts } = written.cloth as WrittenCloths;
  const open = Object.entries(parts).flatMap(([part, asked]) =>
    asked === undefined ? [] : [[part, resolved(asked, cloths)] as const],
  );
  const onFold = (written['on fold'] ?? []) as readonly string[];
  const choices = open.filter(([, names]) => names.length > 1);
  return {
    name: written.name as string,
    make: make.kind,
    count: written.count as number,
    measures,
    cloths: Object.fromEntries(open.map(([part, names]) => [part, names[0]!])),
    ...(written.match !== undefined && { matches: written.match as NonNullable<MakeOrder['matches']> }),
    ...(written.panel !== undefined && { panels: written.panel as NonNullable<MakeOrder['panels']> }),
    ...(onFold.length > 0 && { onFold }),
    ...(choices.length > 0 && { choices: Object.fromEntries(choices) }),
    ...(choices.length > 0 && whole && { whole }),
  };
}

/** Every measure as it was written, or at its make's default; one without either is left out. */
export function filledMeasures(
  written: Readonly<Record<string, unknown>>,
  make: MakeSpec,
  context: ReadingContext,
): Readonly<Record<string, MeasureValue>> {
  const measures: Record<string, MeasureValue> = {};
  for (const [measure, spec] of Object.entries(make.measures)) {
    const value = (written[measure] as MeasureValue | undefined) ?? defaultOf(measure, spec, make, context);
    if (value !== undefined) measures[measure] = value;
  }
  return measures;
}

function defaultOf(
  measure: string,
  spec: MeasureSpec,
  make: MakeSpec,
  context: ReadingContext,
): MeasureValue | undefined {
  if (spec.default === undefined) return undefined;
  const text = context.unit === 'in' ? spec.default.inches : spec.default.metric;
  const read = readMeasure(spec, text, context);
  if (!read.ok)
    throw new Error(`the make "${make.kind}" has a default for "${measure}" that does not read: ${text}`);
  return read.value;
}

function readMeasure(spec: MeasureSpec, text: string, context: ReadingContext): Read<MeasureValue> {
  switch (spec.kind) {
    case 'length':
      return readLength(text, { positive: spec.least === 'positive' }, context);
    case 'size':
      return readSize(text, context);
    case 'hem':
      return readHem(text, context);
    case 'count':
      return readCount(text, spec.least);
    case 'factor':
      return readFactor(text, spec);
    case 'choice':
      return readChoice(text, spec.choices);
    case 'yes-no':
      return readYesNo(text);
  }
}
