const MOST_COLUMNS = 110;

/**
 * JSON with two spaces a level, where a list or record that fits on one line takes one, so that a change in a plan reads
 * as a few changed lines. Keys stay in the order in which they were set.
 */
export function writeJson(value: unknown): string {
  return `${lines(value, 0)}\n`;
}

function lines(value: unknown, indent: number): string {
  const short = oneLine(value);
  if (typeof value !== 'object' || value === null || indent + short.length <= MOST_COLUMNS) return short;
  const inner = ' '.repeat(indent + 2);
  const [open, close, entries] = Array.isArray(value)
    ? (['[', ']', value.map((own) => lines(own, indent + 2))] as const)
    : ([
        '{',
        '}',
        definedEntries(value).map(([key, own]) => `${JSON.stringify(key)}: ${lines(own, indent + 2)}`),
      ] as const);
  return `${open}\n${entries.map((entry) => inner + entry).join(',\n')}\n${' '.repeat(indent)}${close}`;
}

function oneLine(value: unknown): string {
  if (Array.isArray(value)) return value.length === 0 ? '[]' : `[${value.map(oneLine).join(', ')}]`;
  if (typeof value !== 'object' || value === null) return JSON.stringify(value);
  const entries = definedEntries(value).map(([key, own]) => `${JSON.stringify(key)}: ${oneLine(own)}`);
  return entries.length === 0 ? '{}' : `{ ${entries.join(', ')} }`;
}

function definedEntries(value: object): [string, unknown][] {
  return Object.entries(value).filter(([, own]) => own !== undefined);
}
