import { type PlainBox, partBoxes } from '../geometry/walk.ts';
import type { CutDirection, CutTree } from '../model/cut-tree.ts';
import { type Ticks, ticks } from '../units/ticks.ts';

/** A part of a cut with its extent across that cut. */
export interface Part<Piece> {
  readonly extent: Ticks;
  readonly tree: CutTree<Piece>;
}

/**
 * Lays parts side by side, near to far, as one cut: parts without extent are left out, a part that is itself cut the
 * same way is taken apart into its own parts, neighbouring trim of one kind becomes one part, and a single part needs
 * no cut. So a cut node's child is never cut in the node's own direction.
 */
export function joined<Piece>(direction: CutDirection, parts: readonly Part<Piece>[]): CutTree<Piece> {
  const flat: Part<Piece>[] = [];
  for (const part of parts.flatMap((part) => takenApart(direction, part))) {
    const last = flat.at(-1);
    if (last && isSameTrim(last.tree, part.tree)) {
      flat[flat.length - 1] = { extent: ticks(last.extent + part.extent), tree: last.tree };
    } else if (part.extent > 0) flat.push(part);
  }
  if (flat.length === 0) throw new RangeError('a cut needs at least one part with an extent');
  if (flat.length === 1) return flat[0]!.tree;
  const at: Ticks[] = [];
  for (const part of flat.slice(0, -1)) at.push(ticks((at.at(-1) ?? 0) + part.extent));
  return { kind: 'cut', direction, at, parts: flat.map((part) => part.tree) };
}

function takenApart<Piece>(direction: CutDirection, part: Part<Piece>): readonly Part<Piece>[] {
  const { tree, extent } = part;
  if (tree.kind !== 'cut' || tree.direction !== direction) return [part];
  const edges = [0, ...tree.at, extent];
  return tree.parts.map((tree, index) => ({ tree, extent: ticks(edges[index + 1]! - edges[index]!) }));
}

function isSameTrim<Piece>(a: CutTree<Piece>, b: CutTree<Piece>): boolean {
  return a.kind === 'trim' && b.kind === 'trim' && a.of === b.of;
}

/** The parts of a cut in `box` with their extents and boxes, near to far. */
export function partsOf<Piece>(
  tree: Extract<CutTree<Piece>, { kind: 'cut' }>,
  box: PlainBox<Ticks>,
): readonly (Part<Piece> & { readonly box: PlainBox<Ticks> })[] {
  const boxes = partBoxes(tree, box);
  return tree.parts.map((part, index) => {
    const own = boxes[index]!;
    const extent = tree.direction === 'lengthwise' ? own.x1 - own.x0 : own.y1 - own.y0;
    return { tree: part, extent: ticks(extent), box: own };
  });
}
