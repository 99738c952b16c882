import { z } from 'zod';
import type { IssueDetails } from '../issue.ts';
import type { PlanUnit } from '../plan.ts';

/** What the reading of one value needs to know of the rest of the file. */
export interface ReadingContext {
  /** What a bare number means. */
  readonly unit: PlanUnit;
  /** May stand before a price; `''` where the plan names none. */
  readonly currency: string;
  /** Absent where the cloths themselves cannot be made out: then no name is doubted. */
  readonly clothNames?: readonly string[];
  /** Groups that cloths belong to; likewise absent where they cannot be made out. */
  readonly groupNames?: readonly string[];
  /** Sets that the plan declares. */
  readonly setNames?: readonly string[];
}

/** What to tell when a value is not there or of the wrong shape. */
export interface Words {
  /** Ends "write ...": `a length such as 54, 54 in, 1.5 m`. */
  readonly wanted: string;
  /** One value, as it might stand behind the key. */
  readonly example: string;
  /** Keys, or choices, that are known here. */
  readonly known?: readonly string[];
}

/** What can be wrong with one value; its path and place are added later. */
export type Problem = {
  [Code in keyof IssueDetails]: { readonly code: Code; readonly details: IssueDetails[Code] };
}[keyof IssueDetails];

export type Read<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problem: Problem };

/** How a value of this kind is written, for the JSON Schema. */
export type WrittenAs = 'text' | 'yes-no' | { readonly choices: readonly string[] };

export interface Field<T> extends Words {
  readonly meaning: string;
  readonly writtenAs?: WrittenAs;
  readonly read: (text: string) => Read<T>;
}

export const readAs = <T>(value: T): Read<T> => ({ ok: true, value });
export const problem = (found: Problem): { readonly ok: false; readonly problem: Problem } => ({
  ok: false,
  problem: found,
});

/** One written value with a meaning: text in, value out. Problems travel in the `params` of a custom zod issue. */
export function scalar<T>(field: Field<T>) {
  return z
    .string(saying(field))
    .transform((text, context): T => {
      const read = field.read(text);
      if (read.ok) return read.value;
      context.issues.push({ code: 'custom', input: text, message: '', params: { problem: read.problem } });
      return z.NEVER;
    })
    .meta({ description: field.meaning, suchAs: field.example, writtenAs: field.writtenAs ?? 'text' });
}

/** A map with these keys and no others. */
export function keyed<Shape extends z.core.$ZodLooseShape>(shape: Shape, words: Omit<Words, 'known'>) {
  return z.strictObject(shape, saying({ ...words, known: Object.keys(shape) }));
}

export function listOf<Item extends z.ZodType>(item: Item, words: Words) {
  return z.array(item, saying(words));
}

/** Either of two ways of writing the same thing, told apart by their shape. */
export function either<A extends z.ZodType, B extends z.ZodType>(first: A, second: B, words: Words) {
  return z.union([first, second], saying(words));
}

/** zod carries one string from a schema to its issues; ours holds the words as JSON. `wordsOf` reads them back. */
export function saying(words: Words): { readonly error: () => string } {
  const message = said(words);
  return { error: () => message };
}

export function said(words: Words): string {
  return JSON.stringify({ wanted: words.wanted, example: words.example, known: words.known });
}

export function wordsOf(message: string): Words {
  return JSON.parse(message) as Words;
}
