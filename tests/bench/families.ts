/**
 * Reads a family of published instances and turns every published figure into a question for the engine.
 *
 * The format is told in fixtures/published/README.md. A key of `known` is a question, an orientation rule and a cutting
 * rule: `sp_RG` is the shortest strip, quarter turns allowed, guillotine cuts.
 */
import { readFileSync } from 'node:fs';
import type { FewestQuestion, Kind, MostQuestion, ShortestQuestion } from '../../src/packing/instance.ts';

interface Figure {
  readonly best: number | null;
  readonly lb?: number;
  readonly ub?: number;
  readonly optimal?: boolean;
}

interface Item {
  readonly w: number;
  readonly h: number;
  readonly copies: number;
  readonly value?: number;
  readonly rotate?: boolean;
}

export interface Instance {
  readonly name: string;
  readonly stock: { readonly width: number; readonly height: number | null; readonly foldedWidth?: number };
  readonly n: number;
  readonly items: readonly Item[];
  readonly known: Readonly<Record<string, Figure | string | number>>;
}

export interface Family {
  readonly family: string;
  readonly instances: readonly Instance[];
}

/** What one published figure asks. `published` is a number, or F, N, X for a decision; null: impossible or not known. */
export type BenchQuestion = {
  readonly family: string;
  readonly instance: string;
  readonly question: string;
  readonly pieces: number;
  readonly published: number | string | null;
  /** The published figure is of free placement, which has it easier. */
  readonly free: boolean;
} & (
  | { readonly ask: 'shortest'; readonly body: ShortestQuestion }
  | { readonly ask: 'fits'; readonly body: ShortestQuestion }
  | { readonly ask: 'most'; readonly body: MostQuestion }
  | { readonly ask: 'fewest'; readonly body: FewestQuestion }
);

export function readFamily(path: string): Family {
  const read = JSON.parse(readFileSync(path, 'utf8')) as Family;
  if (typeof read.family !== 'string' || !Array.isArray(read.instances)) {
    throw new Error(
      `${path}: no "family" and "instances" in it; it must follow fixtures/published/README.md`,
    );
  }
  return read;
}

/** Every question the published figures of a family ask, instance by instance, in the order of the file. */
export function questionsOf(family: Family): BenchQuestion[] {
  return family.instances.flatMap((instance) =>
    Object.entries(instance.known).flatMap(([key, figure]) => {
      const question = questionOf(family.family, instance, key, figure);
      return question ? [question] : [];
    }),
  );
}

function questionOf(
  family: string,
  instance: Instance,
  key: string,
  figure: Figure | string | number,
): BenchQuestion | undefined {
  const { stock } = instance;
  const head = { family, instance: instance.name, question: key, pieces: instance.n, free: false };
  const published = typeof figure === 'object' ? figure.best : figure;
  if (key === 'flat' || key === 'folded_only') {
    const plies = key === 'flat' ? 1 : 2;
    const width = plies === 1 ? stock.width : (stock.foldedWidth ?? Math.floor(stock.width / 2));
    const kinds = kindsOf(instance, 'item').map((kind) => ({
      ...kind,
      copies: Math.ceil(kind.copies / plies),
    }));
    return { ...head, published, ask: 'shortest', body: { sheet: { width, length: Infinity }, kinds } };
  }
  const [problem, rule] = key.split('_');
  if (rule === undefined) return undefined;
  const cutFree = rule.endsWith('F');
  const guillotineKey = `${problem}_${rule[0]}G`;
  if (cutFree && guillotineKey in instance.known) return undefined;
  if (cutFree && problem === 'sp' && 'sp_RG' in instance.known) return undefined;
  const kinds = kindsOf(instance, rule.startsWith('R') ? 'turn' : 'keep');
  const length = stock.height ?? (instance.known.perfectHeight as number | undefined);
  const asked = { ...head, question: guillotineKey, free: cutFree, published };
  if (problem === 'sp') {
    return { ...asked, ask: 'shortest', body: { sheet: { width: stock.width, length: Infinity }, kinds } };
  }
  if (length === undefined) return undefined;
  const sheet = { width: stock.width, length };
  if (problem === 'opp') return { ...asked, ask: 'fits', body: { sheet, kinds } };
  if (problem === 'kp') return { ...asked, ask: 'most', body: { sheet, kinds } };
  if (problem === 'ukp') {
    const unlimited = kinds.map((kind) => ({ ...kind, copies: Infinity }));
    return { ...asked, ask: 'most', body: { sheet, kinds: unlimited } };
  }
  if (problem === 'bp') {
    return { ...asked, ask: 'fewest', body: { sheets: [{ ...sheet, copies: instance.n, cost: 1 }], kinds } };
  }
  return undefined;
}

function kindsOf(instance: Instance, turns: 'turn' | 'keep' | 'item'): Kind[] {
  return instance.items.map(({ w, h, copies, value, rotate }) => ({
    width: w,
    length: h,
    copies,
    quarterTurn: w !== h && (turns === 'item' ? rotate === true : turns === 'turn'),
    ...(value === undefined ? {} : { value }),
  }));
}
