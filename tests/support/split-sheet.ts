import type { Kind } from '../../src/packing/instance.ts';
import type { SheetTree } from '../../src/packing/result.ts';
import { seededRandom } from '../../src/packing/search/random.ts';

export interface SplitSheet {
  readonly width: number;
  readonly length: number;
  readonly kinds: readonly Kind[];
  /** The cuts that made the pieces: a proof that the sheet holds them all with nothing left over. */
  readonly tree: SheetTree;
}

/**
 * A sheet cut at random straight lines into `count` pieces, with nothing wasted: the least length for the pieces in a
 * strip of its width is its length, since their area allows no less (after the orthogonal packing tests of OR-tools,
 * which make certain answers the same way). Equal pieces are one kind.
 */
export function splitSheet(
  seed: number,
  count: number,
  size: { readonly width?: number; readonly length?: number; readonly quarterTurn?: boolean } = {},
): SplitSheet {
  const random = seededRandom(seed);
  const width = size.width ?? 20 + random.below(60);
  const length = size.length ?? 20 + random.below(60);
  interface Part {
    width: number;
    length: number;
    cut?: { crosscut: boolean; at: number; parts: [Part, Part] };
  }
  const root: Part = { width, length };
  const leaves = [root];
  while (leaves.length < count) {
    const cuttable = leaves.filter((part) => part.width > 1 || part.length > 1);
    if (cuttable.length === 0) throw new Error(`a sheet of ${width} × ${length} has no ${count} pieces`);
    const part = cuttable[random.below(cuttable.length)]!;
    const crosscut = part.width === 1 || (part.length > 1 && random.below(2) === 0);
    const at = 1 + random.below((crosscut ? part.length : part.width) - 1);
    const parts: [Part, Part] = crosscut
      ? [
          { width: part.width, length: at },
          { width: part.width, length: part.length - at },
        ]
      : [
          { width: at, length: part.length },
          { width: part.width - at, length: part.length },
        ];
    part.cut = { crosscut, at, parts };
    leaves.splice(leaves.indexOf(part), 1, ...parts);
  }
  const kinds: (Kind & { copies: number })[] = [];
  const kindOf = (part: Part): number => {
    const index = kinds.findIndex((kind) => kind.width === part.width && kind.length === part.length);
    if (index >= 0) return index;
    kinds.push({
      width: part.width,
      length: part.length,
      copies: 0,
      quarterTurn: size.quarterTurn ?? false,
    });
    return kinds.length - 1;
  };
  const treeOf = (part: Part): SheetTree => {
    if (part.cut === undefined) {
      const kind = kindOf(part);
      (kinds[kind] as { copies: number }).copies += 1;
      return { kind: 'piece', piece: kind, quarterTurns: 0 };
    }
    const { crosscut, at, parts } = part.cut;
    return {
      kind: 'cut',
      direction: crosscut ? 'crosscut' : 'lengthwise',
      at: [at],
      parts: parts.map(treeOf),
    };
  };
  const tree = treeOf(root);
  return { width, length, kinds, tree };
}
