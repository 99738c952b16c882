/** Parts of a sheet before it is a cut tree: laid pieces, and parts in a row. */
export type Parts = LaidPart | RowOfParts;

export interface LaidPart {
  readonly width: number;
  readonly length: number;
  readonly kind: number;
  readonly turned: boolean;
}

export interface RowOfParts {
  readonly width: number;
  readonly length: number;
  /** One behind the other along the length, or side by side. */
  readonly along: boolean;
  readonly parts: readonly Parts[];
}

/** Parts in a row, rows of the same direction taken in; undefined for no parts. */
export function rowOf(parts: readonly Parts[], along: boolean): Parts | undefined {
  const flat = parts.flatMap((part) => ('parts' in part && part.along === along ? part.parts : [part]));
  if (flat.length < 2) return flat[0];
  let width = 0;
  let length = 0;
  for (const part of flat) {
    width = along ? Math.max(width, part.width) : width + part.width;
    length = along ? length + part.length : Math.max(length, part.length);
  }
  return { width, length, along, parts: flat };
}

/** Copies of each of `kinds` kinds in the parts. */
export function countsIn(parts: readonly Parts[], kinds: number): Int32Array {
  const counts = new Int32Array(kinds);
  const open = [...parts];
  while (open.length > 0) {
    const part = open.pop()!;
    if ('parts' in part) open.push(...part.parts);
    else counts[part.kind]! += 1;
  }
  return counts;
}
