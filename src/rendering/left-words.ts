import type { Crease, Selvedges } from '../model/cloth.ts';
import { formatLength, type LengthStyle } from '../units/format.ts';

interface Edged {
  readonly selvedge: Selvedges;
  readonly crease: Crease;
}

/** The edges that a leftover keeps besides what can be cut of it: `1/2 in of selvedge on the right`; empty where it has none. */
export function edgeWords({ selvedge: { left, right }, crease }: Edged, style: LengthStyle): string {
  const say = (length: Selvedges['left']) => formatLength(length, style);
  const selvedge =
    left > 0 && left === right
      ? `${say(left)} of selvedge on both sides`
      : [
          ...(left > 0 ? [`${say(left)} of selvedge on the left`] : []),
          ...(right > 0 ? [`${say(right)} of selvedge on the right`] : []),
        ].join(' and ');
  const at =
    crease.kind === 'keep-off' && crease.at !== undefined ? ` at ${say(crease.at)} from the left edge` : '';
  const fold = crease.kind === 'keep-off' ? `a crease to keep off by ${say(crease.each)}${at}` : '';
  return [selvedge, fold].filter((words) => words !== '').join('; ');
}

/** How many there are, and their sizes as they are worded, equal ones together: `9: 5 of 40 x 17 cm; 20 x 17 cm; and 3 smaller`. */
export function sizesTogether(sizes: readonly string[], most: number): string {
  const counts = new Map<string, number>();
  for (const size of sizes) counts.set(size, (counts.get(size) ?? 0) + 1);
  const groups = [...counts];
  const [first] = groups;
  if (first === undefined) return '0';
  if (groups.length === 1) return `${first[1]}: ${first[0]}${first[1] > 1 ? ' each' : ''}`;
  const named = groups.slice(0, most).map(([size, count]) => (count === 1 ? size : `${count} of ${size}`));
  const rest = groups.slice(most).reduce((total, [, count]) => total + count, 0);
  return `${sizes.length}: ${named.join('; ')}${rest === 0 ? '' : `; and ${rest} smaller`}`;
}

/** Said once of several leftovers whose usable sizes are told. */
export function edgesBesides(all: readonly Edged[]): string {
  const hasSelvedge = all.some(({ selvedge }) => selvedge.left > 0 || selvedge.right > 0);
  const hasCrease = all.some(({ crease }) => crease.kind === 'keep-off');
  const words = [
    ...(hasSelvedge ? ['selvedges left on not counted'] : []),
    ...(hasCrease ? ['a crease to keep off'] : []),
  ];
  return words.length === 0 ? '' : `; ${words.join('; ')}`;
}
