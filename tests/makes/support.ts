import { findMake } from '../../src/makes/catalogue.ts';
import { expandMakes } from '../../src/makes/expand.ts';
import type { MadeUp } from '../../src/makes/make.ts';
import type { MeasureSpec, MeasureValue } from '../../src/model/measure.ts';
import type { ArithmeticLine, PieceWanted } from '../../src/model/piece.ts';
import type { LoosePiece, MakeOrder, Plan, PlanUnit } from '../../src/model/plan.ts';
import { type Parsed, parseHem, parseLength, parseSize } from '../../src/units/parse.ts';
import { TICKS_PER_INCH, TICKS_PER_MM, type Ticks, ticks } from '../../src/units/ticks.ts';

export const EIGHTH = ticks(TICKS_PER_INCH / 8);
export const MILLIMETRE = ticks(TICKS_PER_MM);

/** Inches that come out at whole ticks; `inches(1.575)` does not and throws. */
export function inches(count: number): Ticks {
  return ticks(count * TICKS_PER_INCH);
}

export function centimetres(count: number): Ticks {
  return ticks(Math.round(count * 10 * TICKS_PER_MM));
}

export interface Wanted {
  readonly kind: string;
  readonly measures: Readonly<Record<string, string>>;
  readonly unit?: PlanUnit;
  readonly count?: number;
  readonly name?: string;
  /** Optional parts to be cut as well; needed parts always are. */
  readonly withParts?: readonly string[];
}

/** An order as the reading of a plan would give it: measures as written, the rest by the make's own defaults. */
export function orderOf({
  kind,
  measures,
  unit = 'in',
  count = 1,
  name = kind,
  withParts = [],
}: Wanted): MakeOrder {
  const { spec } = findMake(kind)!;
  for (const given of Object.keys(measures)) {
    if (!Object.hasOwn(spec.measures, given)) throw new Error(`${kind} has no measure "${given}"`);
  }
  const values = Object.entries(spec.measures).flatMap(([measure, measureSpec]) => {
    const text = measures[measure] ?? measureSpec.default?.[unit === 'in' ? 'inches' : 'metric'];
    if (text === undefined && measureSpec.optional !== true) throw new Error(`${kind} needs "${measure}"`);
    return text === undefined ? [] : [[measure, readMeasure(text, measureSpec, unit)] as const];
  });
  const parts = Object.entries(spec.parts).filter(
    ([part, { optional }]) => !optional || withParts.includes(part),
  );
  return {
    name,
    make: kind,
    count,
    measures: Object.fromEntries(values),
    cloths: Object.fromEntries(parts.map(([part]) => [part, `cloth for ${part}`])),
  };
}

export function readMeasure(text: string, spec: MeasureSpec, unit: PlanUnit): MeasureValue {
  const reading = { unit, round: 'up' } as const;
  switch (spec.kind) {
    case 'length':
      return must(parseLength(text, reading), text);
    case 'size':
      return must(parseSize(text, reading), text);
    case 'hem':
      return must(parseHem(text, reading), text);
    case 'count':
      return Number(text);
    case 'factor':
      return { thousandths: Math.round(Number(text) * 1000) };
    case 'choice':
      if (!spec.choices.includes(text)) throw new Error(`"${text}" is none of ${spec.choices.join(', ')}`);
      return text;
    case 'yes-no':
      return text === 'yes';
  }
}

function must<T>(parsed: Parsed<T>, text: string): T {
  if (!parsed.ok) throw new Error(`"${text}" was refused: ${parsed.reason}`);
  return parsed.value;
}

/** What the make itself says, before cloths, letters and the ruler's marks. */
export function madeUp(wanted: Wanted): MadeUp {
  const unit = wanted.unit ?? 'in';
  return findMake(wanted.kind)!.expand(orderOf(wanted), {
    unit,
    rulerMark: unit === 'in' ? EIGHTH : MILLIMETRE,
  });
}

export function planOf(
  makes: readonly MakeOrder[],
  more: {
    readonly unit?: PlanUnit;
    readonly rulerMark?: Ticks;
    readonly pieces?: readonly LoosePiece[];
  } = {},
): Plan {
  const unit = more.unit ?? 'in';
  return {
    name: 'Tern House',
    unit,
    rulerMark: more.rulerMark ?? (unit === 'in' ? EIGHTH : MILLIMETRE),
    paper: 'a4',
    currency: '',
    keep: { width: inches(9), length: inches(11) },
    tools: { rulerLength: inches(24), mostPlies: 4 },
    cloths: [],
    makes,
    pieces: more.pieces ?? [],
    stages: 'any',
  };
}

/** Pieces by name, on a ruler so fine that nothing is rounded. */
export function exactPieces(wanted: Wanted): Readonly<Record<string, PieceWanted>> {
  const plan = planOf([orderOf(wanted)], { unit: wanted.unit ?? 'in', rulerMark: ticks(1) });
  return Object.fromEntries(expandMakes(plan).pieces.map((piece) => [piece.name, piece]));
}

/** `[width, length]` in ticks, to compare with `[inches(19), inches(13.5)]`. */
export function sizeOf(piece: PieceWanted): readonly [Ticks, Ticks] {
  return [piece.exactSize.width, piece.exactSize.length];
}

/**
 * Works a line of arithmetic out again from what is printed. Returns both sides of its `=` (or `up to`) in ticks:
 * the left exactly, the right as given.
 */
export function workedOut({ terms }: ArithmeticLine): {
  readonly left: number;
  readonly sign: string;
  readonly right: number;
} {
  const tokens = terms.flatMap((term): readonly (string | number)[] =>
    typeof term !== 'string' ? [term.ticks] : term === 'up to' ? [term] : term.split(/\s+/),
  );
  const at = tokens.findIndex((token) => token === '=' || token === 'up to');
  if (at < 0) throw new Error(`no result in ${JSON.stringify(terms)}`);
  return {
    left: evaluate(tokens.slice(0, at)),
    sign: String(tokens[at]),
    right: evaluate(tokens.slice(at + 1)),
  };
}

/** Sums of products: tokens are lengths in ticks, numbers as text, or one of `+ - × ÷`. */
function evaluate(tokens: readonly (string | number)[]): number {
  let at = 0;
  const atom = (): number => {
    const token = tokens[at++];
    const value = typeof token === 'number' ? token : Number(token);
    if (!Number.isFinite(value)) throw new Error(`not a number: ${token}`);
    return value;
  };
  const product = (): number => {
    let value = atom();
    while (tokens[at] === '×' || tokens[at] === '÷')
      value = tokens[at++] === '×' ? value * atom() : value / atom();
    return value;
  };
  const total = (): number => {
    let value = product();
    while (tokens[at] === '+' || tokens[at] === '-')
      value = tokens[at++] === '+' ? value + product() : value - product();
    return value;
  };
  const value = total();
  if (at !== tokens.length) throw new Error(`not understood: ${tokens.slice(at).join(' ')}`);
  return value;
}
