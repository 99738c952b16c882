/** Pieces as bounds see them: how many, and the one or two ways each may lie. */
import type { Kind } from '../instance.ts';

export interface LaidSizes {
  /** Entry by entry: copies, and the place of its first way; a piece that may turn has the next way too. */
  readonly copies: Float64Array;
  readonly ways: readonly (readonly { readonly width: number; readonly length: number }[])[];
}

/** Ways that fit into `width` × `length`; undefined where some piece has none. */
export function laidSizes(kinds: readonly Kind[], width: number, length: number): LaidSizes | undefined {
  const wanted = kinds.filter(({ copies }) => copies > 0);
  const ways = wanted.map((kind) => {
    const upright = { width: kind.width, length: kind.length };
    const turned = { width: kind.length, length: kind.width };
    const open = kind.quarterTurn && kind.width !== kind.length ? [upright, turned] : [upright];
    return open.filter((way) => way.width <= width && way.length <= length);
  });
  if (ways.some((open) => open.length === 0)) return undefined;
  return { copies: Float64Array.from(wanted, ({ copies }) => copies), ways };
}
