/**
 * An option of the command line as a record: its help and its checks both come from here.
 * `name` is what is typed after the two dashes; the value arrives under the same name.
 */
export type OptionRecord = { readonly name: string; readonly meaning: string } & (
  | { readonly kind: 'switch' }
  | {
      readonly kind: 'number';
      readonly placeholder: string;
      readonly lower: number;
      /** Left out: no limit, which the meaning then says. */
      readonly default?: number;
      readonly upper: number;
    }
  | { readonly kind: 'text'; readonly placeholder: string; readonly defaultMeaning?: string }
  | { readonly kind: 'choice'; readonly placeholder: string; readonly choices: readonly string[] }
  | {
      readonly kind: 'choices';
      readonly placeholder: string;
      readonly choices: readonly string[];
      readonly default: readonly string[];
      /** Typed instead of a list when nothing of it is wanted. */
      readonly nothing: string;
    }
);

export type OptionValue = boolean | number | string | readonly string[];

export type OptionValues = Readonly<Record<string, OptionValue | undefined>>;

/** A value as typed, or the sentence that says what would work. */
export type ReadOption =
  | { readonly ok: true; readonly value: OptionValue }
  | { readonly ok: false; readonly message: string };

/** `--effort N`, `--json`. */
export function optionSyntax(record: OptionRecord): string {
  return record.kind === 'switch' ? `--${record.name}` : `--${record.name} <${record.placeholder}>`;
}

/** Meaning, limits and default in one sentence, for the help. */
export function optionHelp(record: OptionRecord): string {
  const more = remarks(record);
  return more.length === 0 ? record.meaning : `${record.meaning} (${more.join('; ')})`;
}

/** Checks what was typed against its record. */
export function readOption(record: OptionRecord, typed: string): ReadOption {
  switch (record.kind) {
    case 'switch':
      return { ok: true, value: true };
    case 'text':
      return typed.trim() === ''
        ? {
            ok: false,
            message: `--${record.name}: nothing is said behind it; say which ${record.placeholder}`,
          }
        : { ok: true, value: typed };
    case 'number':
      return readNumber(record, typed);
    case 'choice':
      return record.choices.includes(typed)
        ? { ok: true, value: typed }
        : refuse(record, typed, `${listed(record.choices, 'or')} would work`);
    case 'choices':
      return readChoices(record, typed);
  }
}

/** The value that stands when the option is not typed. */
export function defaultOf(record: OptionRecord): OptionValue | undefined {
  if (record.kind === 'number' || record.kind === 'choices') return record.default;
  return record.kind === 'switch' ? false : undefined;
}

function readNumber(record: OptionRecord & { kind: 'number' }, typed: string): ReadOption {
  const value = /^\d{1,15}$/.test(typed) ? Number(typed) : Number.NaN;
  if (value >= record.lower && value <= record.upper) return { ok: true, value };
  return refuse(record, typed, `a whole number from ${record.lower} to ${record.upper} would work`);
}

function readChoices(record: OptionRecord & { kind: 'choices' }, typed: string): ReadOption {
  if (typed === record.nothing) return { ok: true, value: [] };
  const words = typed.split(',').map((word) => word.trim());
  if (words.every((word) => record.choices.includes(word))) return { ok: true, value: [...new Set(words)] };
  const wanted = `any of ${listed(record.choices, 'and')} with commas between, or ${record.nothing}, would work`;
  return refuse(record, typed, wanted);
}

function refuse(record: OptionRecord, typed: string, wanted: string): ReadOption {
  return { ok: false, message: `--${record.name}: found "${typed}"; ${wanted}` };
}

function remarks(record: OptionRecord): string[] {
  switch (record.kind) {
    case 'switch':
      return [];
    case 'text':
      return record.defaultMeaning === undefined ? [] : [`default: ${record.defaultMeaning}`];
    case 'number': {
      const limits = `${record.lower} to ${record.upper}`;
      return record.default === undefined ? [limits] : [limits, `default: ${record.default}`];
    }
    case 'choice':
      return [listed(record.choices, 'or')];
    case 'choices':
      return [
        `${record.choices.join(', ')}; or ${record.nothing}`,
        `default: ${record.default.join(',') || record.nothing}`,
      ];
  }
}

function listed(words: readonly string[], last: 'and' | 'or'): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} ${last} ${words.at(-1)}`;
}
