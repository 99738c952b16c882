import type { CoverBox } from '../geometry/outline.ts';
import type { PlainBox } from '../geometry/walk.ts';
import type { CutTree, TrimKind } from '../model/cut-tree.ts';
import type { PieceId, Size } from '../model/piece.ts';
import type { SheetTree } from '../packing/result.ts';
import { type Ticks, ticks } from '../units/ticks.ts';
import { type Bed, flawsAround } from './bed.ts';
import { joined, type Part, type partsOf } from './joined.ts';

type Tree = CutTree<PieceId>;
type PlacedPart = ReturnType<typeof partsOf<number>>[number];

/** A remnant is at least the keepable size, either way round. */
export function isKeepable(width: number, length: number, keep: Size): boolean {
  return (width >= keep.width && length >= keep.length) || (width >= keep.length && length >= keep.width);
}

/** Leftovers side by side are one: a packer that counts in coarse units may leave a sliver beside a larger one. */
export function leftoversTogether(parts: readonly PlacedPart[], bed: Bed): readonly PlacedPart[] {
  const together: PlacedPart[] = [];
  for (const own of parts) {
    const part = wholeLeftover(own, bed);
    const last = together.at(-1);
    const alike = last && last.tree.kind !== 'cut' && last.tree.kind !== 'piece';
    const box = last && { ...last.box, x1: part.box.x1, y1: part.box.y1 };
    // What is cut round a flaw, or along the crease strip, must not cut into a panel that stays whole.
    const apart = bed.kept && box && isDivided(box, bed);
    if (!alike || !box || apart || part.tree.kind === 'cut' || part.tree.kind === 'piece') {
      together.push(part);
      continue;
    }
    together[together.length - 1] = { ...last, extent: ticks(last.extent + part.extent), box };
  }
  return together;
}

/** A part of nothing but panels that stay whole and what lies beside them is one leftover, where nothing divides it. */
function wholeLeftover(part: PlacedPart, bed: Bed): PlacedPart {
  if (!bed.kept || !isLeftOnly(part.tree as SheetTree, bed) || isDivided(part.box, bed)) return part;
  return { ...part, tree: { kind: 'remnant' } };
}

/** Whether no piece is cut from a part; a panel that stays whole is none. Only asked of beds with panels. */
export function isLeftOnly(tree: SheetTree, { kept }: Bed): boolean {
  if (!kept) return false;
  const waiting = [tree];
  for (let next = waiting.pop(); next; next = waiting.pop()) {
    if (next.kind === 'cut') waiting.push(...next.parts);
    else if (next.kind === 'piece' && next.piece < kept.kindFrom) return false;
  }
  return true;
}

export function isDivided(box: PlainBox<Ticks>, bed: Bed): boolean {
  const gap = bed.strip ?? bed.gap;
  return (gap && box.x0 < gap.x1 && gap.x0 < box.x1) || flawsAround(bed).some((own) => overlap(own, box));
}

export function leftover(box: PlainBox<Ticks>, bed: Bed, keep: Size): Tree {
  const flaw = flawsAround(bed).find((own) => overlap(own, box));
  if (flaw) return aroundFlaw(box, flaw, bed, keep);
  const gap = bed.strip ?? bed.gap;
  if (gap && box.x0 < gap.x1 && gap.x0 < box.x1) {
    const spans = [
      { x0: box.x0, x1: gap.x0, crease: false },
      { x0: ticks(Math.max(box.x0, gap.x0)), x1: ticks(Math.min(box.x1, gap.x1)), crease: true },
      { x0: gap.x1, x1: box.x1, crease: false },
    ];
    return joined(
      'lengthwise',
      spans
        .filter((span) => span.x1 > span.x0)
        .map((span) => ({
          extent: ticks(span.x1 - span.x0),
          tree: span.crease ? trim('crease') : remnantOrScrap(span.x1 - span.x0, box.y1 - box.y0, keep),
        })),
    );
  }
  // A panel is worth keeping whatever its size.
  if (holdsKept(box, bed)) return { kind: 'remnant' };
  return remnantOrScrap(box.x1 - box.x0, box.y1 - box.y0, keep);
}

export function holdsKept(box: PlainBox<Ticks>, { kept, left, squaring, skip }: Bed): boolean {
  return (kept?.boxes ?? []).some(
    ({ x0, y0, x1, y1 }) =>
      x0 - left >= box.x0 &&
      x1 - left <= box.x1 &&
      y0 - squaring - skip >= box.y0 &&
      y1 - squaring - skip <= box.y1,
  );
}

/** What is cut out of a leftover round a flaw: scrap however large, and however it is opened out. */
export const FLAWED: Tree = { kind: 'scrap' };

/** The flaw is cut out of a leftover: what lies before and after it along the length, then what lies beside it. */
function aroundFlaw(box: PlainBox<Ticks>, flaw: CoverBox, bed: Bed, keep: Size): Tree {
  const y0 = ticks(Math.max(box.y0, flaw.y0));
  const y1 = ticks(Math.min(box.y1, flaw.y1));
  const x0 = ticks(Math.max(box.x0, flaw.x0));
  const x1 = ticks(Math.min(box.x1, flaw.x1));
  const part = (own: PlainBox<Ticks>, extent: number): Part<PieceId>[] =>
    extent > 0 ? [{ extent: ticks(extent), tree: leftover(own, bed, keep) }] : [];
  // A flaw that lies in the kept-off strip alone takes no usable cloth: what is cut out round it is trim, as the strip is.
  const gap = bed.strip ?? bed.gap;
  const inStrip = gap !== undefined && x0 >= gap.x0 && x1 <= gap.x1;
  const beside = joined('lengthwise', [
    ...part({ ...box, y0, y1, x1: x0 }, x0 - box.x0),
    { extent: ticks(x1 - x0), tree: inStrip ? trim('crease') : FLAWED },
    ...part({ ...box, y0, y1, x0: x1 }, box.x1 - x1),
  ]);
  return joined('crosscut', [
    ...part({ ...box, y1: y0 }, y0 - box.y0),
    { extent: ticks(y1 - y0), tree: beside },
    ...part({ ...box, y0: y1 }, box.y1 - y1),
  ]);
}

function overlap(a: CoverBox, b: CoverBox): boolean {
  return a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1;
}

export function remnantOrScrap(width: number, length: number, keep: Size): Tree {
  return isKeepable(width, length, keep) ? { kind: 'remnant' } : { kind: 'scrap' };
}

export function trim(of: TrimKind): Tree {
  return { kind: 'trim', of };
}
