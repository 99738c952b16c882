import type { Span } from '../cloth/usable.ts';
import type { PlainBox } from '../geometry/walk.ts';
import type { CutTree } from '../model/cut-tree.ts';
import type { PieceId, Size } from '../model/piece.ts';
import { type Ticks, ticks } from '../units/ticks.ts';
import { type Bed, type BesideFold, nearEnd, singlePly } from './bed.ts';
import { joined, type Part, partsOf } from './joined.ts';
import { FLAWED, leftover, remnantOrScrap, trim } from './leftover.ts';

type Tree = CutTree<PieceId>;
export type OnPlies = { readonly upper: Tree; readonly lower: Tree };

/** Leaves that are half of a piece across the fold. */
export type AtFold = WeakSet<Tree>;

export interface Opening {
  readonly keep: Size;
  readonly atFold: AtFold;
}

/** A stretch of the length, in the packer's y. */
export interface Along {
  readonly y0: Ticks;
  readonly y1: Ticks;
}

export function opened(plies: OnPlies, bed: Bed, foldAt: Ticks, along: Along, opening: Opening): Tree {
  const { keep } = opening;
  const reach = bed.left + bed.packable;
  const left = leftEdge(ticks(foldAt - reach), bed, along, keep);
  const right = rightEdge(ticks(foldAt + reach), bed, along, keep);
  const length = ticks(along.y1 - along.y0);
  return joined('lengthwise', [...left, ...bothPlies(plies, bed, length, opening), ...right]);
}

/** Both plies beside each other, with the kept-off strip between them or else what lies across the fold. */
function bothPlies(plies: OnPlies, bed: Bed, length: Ticks, opening: Opening): readonly Part<PieceId>[] {
  const box = { x0: ticks(0), y0: ticks(0), x1: bed.packable, y1: length };
  if (bed.left > 0) {
    return [
      { extent: bed.packable, tree: mirrored(plies.lower, box) },
      { extent: ticks(2 * bed.left), tree: trim('crease') },
      { extent: bed.packable, tree: plies.upper },
    ];
  }
  return [{ extent: ticks(2 * bed.packable), tree: openedAtFold(plies, box, opening) }];
}

/**
 * A part that begins at the fold, opened out to twice its width. Crosscuts go through both plies, and what is left over
 * between two of them is one piece of cloth.
 */
function openedAtFold(plies: OnPlies, box: PlainBox<Ticks>, opening: Opening): Tree {
  const { upper, lower } = plies;
  if (upper === FLAWED || lower === FLAWED) return FLAWED;
  if (isLeft(upper) && isLeft(lower))
    return remnantOrScrap(2 * (box.x1 - box.x0), box.y1 - box.y0, opening.keep);
  if (upper.kind !== 'cut' || lower.kind !== 'cut' || upper.direction !== 'crosscut')
    return openedBeside(plies, box, opening);
  const lowers = partsOf(lower, box);
  const parts = partsOf(upper, box).map(({ extent, tree, box: own }, index) => ({
    extent,
    tree: openedAtFold({ upper: tree, lower: lowers[index]!.tree }, own, opening),
  }));
  return joined('crosscut', parts);
}

/** A part that is cut lengthwise before all: both plies beside each other, with what lies across the fold between them. */
function openedBeside({ upper, lower }: OnPlies, box: PlainBox<Ticks>, opening: Opening): Tree {
  const { atFold, keep } = opening;
  if (upper.kind === 'piece' && atFold.has(upper)) return upper;
  const extent = ticks(box.x1 - box.x0);
  // A leftover that a crease divides in the upper ply alone is one cloth up to there.
  if (isLeft(lower) && lower !== FLAWED && upper.kind === 'cut' && !holdsPiece(upper)) {
    const [near, ...far] = partsOf(upper, box);
    if (isLeft(near!.tree) && near!.tree !== FLAWED) {
      const whole = ticks(extent + near!.extent);
      const tree = remnantOrScrap(whole, box.y1 - box.y0, keep);
      return joined('lengthwise', [{ extent: whole, tree }, ...far]);
    }
  }
  if (upper.kind !== 'cut' || lower.kind !== 'cut' || !holdsFold(upper, atFold)) {
    return joined('lengthwise', [
      { extent, tree: mirrored(lower, box) },
      { extent, tree: upper },
    ]);
  }
  const [uppers, lowers] = [partsOf(upper, box), partsOf(lower, box)];
  const open = (index: number) => {
    const own = uppers[index]!;
    return openedBeside({ upper: own.tree, lower: lowers[index]!.tree }, own.box, opening);
  };
  if (upper.direction === 'crosscut') {
    return joined(
      'crosscut',
      uppers.map(({ extent }, index) => ({ extent, tree: open(index) })),
    );
  }
  // Beyond what lies at the fold, a crease may divide one ply where it does not the other.
  return joined('lengthwise', [
    ...lowers
      .slice(1)
      .map(({ extent, tree, box: own }) => ({ extent, tree: mirrored(tree, own) }))
      .reverse(),
    { extent: ticks(2 * uppers[0]!.extent), tree: open(0) },
    ...uppers.slice(1),
  ]);
}

function isLeft({ kind }: Tree): boolean {
  return kind === 'remnant' || kind === 'scrap';
}

function holdsPiece(tree: Tree): boolean {
  return tree.kind === 'piece' || (tree.kind === 'cut' && tree.parts.some(holdsPiece));
}

function holdsFold(tree: Tree, atFold: AtFold): boolean {
  return atFold.has(tree) || (tree.kind === 'cut' && tree.parts.some((part) => holdsFold(part, atFold)));
}

/**
 * A fold off the middle: both plies, and beside them what lies in one. The line between them is cut first along the whole
 * length, since what lies beyond it is cut otherwise.
 */
export function openedAside(
  { plies, single, beside }: { readonly plies: OnPlies; readonly single: Tree; readonly beside: BesideFold },
  bed: Bed,
  length: Ticks,
  opening: Opening,
): Tree {
  const { keep } = opening;
  const { lay } = bed;
  const foldAt = lay.kind === 'folded' ? lay.foldAt : ticks(0);
  const near = nearEnd(bed);
  const between = ticks(length - near - bed.squaring);
  const used = ticks(between - bed.skip);
  const { gap, strip } = bed;
  const behindSkip = (own: Bed, tree: Tree): Tree => {
    if (bed.skip === 0) return tree;
    const box = { x0: ticks(0), y0: ticks(-bed.skip), x1: own.packable, y1: ticks(0) };
    return joined('crosscut', [
      { extent: bed.skip, tree: leftover(box, own, keep) },
      { extent: used, tree },
    ]);
  };
  const twoPlies = joined('lengthwise', bothPlies(plies, bed, used, opening));
  const whole = { y0: ticks(-bed.skip), y1: used };
  const body = joined('lengthwise', [
    ...leftEdge(ticks(foldAt - bed.packable), bed, whole, keep),
    {
      extent: ticks(2 * bed.packable),
      tree: behindSkip(
        {
          ...{ ...bed, packable: ticks(2 * bed.packable), flaws: [] },
          ...(gap && { gap: beyond(gap, bed.packable) }),
          ...(strip && { strip: beyond(strip, bed.packable) }),
        },
        twoPlies,
      ),
    },
    ...betweenPlies(bed, beside, between, keep),
    { extent: beside.packable, tree: behindSkip(singlePly(bed, beside), single) },
    { extent: ticks(bed.width - foldAt - beside.left - beside.packable), tree: trim('selvedge') },
  ]);
  return joined('crosscut', [
    { extent: near, tree: trim('squaring') },
    { extent: between, tree: body },
    { extent: bed.squaring, tree: trim('squaring') },
  ]);
}

function beyond({ x0, x1 }: Span, left: Ticks): Span {
  return { x0: ticks(left + x0), x1: ticks(left + x1) };
}

/** What lies between the cloth in two plies and that in one: less than two marks, and a kept-off crease where it falls there. */
function betweenPlies(bed: Bed, { left, strip }: BesideFold, length: Ticks, keep: Size): Part<PieceId>[] {
  const near = bed.packable;
  const crease = strip && { x0: Math.max(near, strip.x0), x1: Math.min(left, strip.x1) };
  const scrap = (extent: number): Part<PieceId>[] =>
    extent > 0 ? [{ extent: ticks(extent), tree: remnantOrScrap(extent, length, keep) }] : [];
  if (!crease || crease.x1 <= crease.x0) return scrap(left - near);
  return [
    ...scrap(crease.x0 - near),
    { extent: ticks(crease.x1 - crease.x0), tree: trim('crease') },
    ...scrap(left - crease.x1),
  ];
}

/** What lies outside the pieces of the left ply: its selvedge, and the wider half's own leftover where there is one. */
function leftEdge(to: Ticks, bed: Bed, along: Along, keep: Size): Part<PieceId>[] {
  const selvedge = bed.selvedgeTrim.left;
  if (to - selvedge < bed.rulerMark) return [{ extent: to, tree: trim('selvedge') }];
  const box = { ...along, x0: selvedge, x1: to };
  const parts = onePly(box, bed, to > foldOf(bed) - doubleTo(bed) ? ticks(to - bed.rulerMark) : to, keep);
  return [{ extent: selvedge, tree: trim('selvedge') }, ...parts];
}

/** Likewise of the right ply, from `from` on the opened cloth. */
function rightEdge(from: Ticks, bed: Bed, along: Along, keep: Size): Part<PieceId>[] {
  const selvedge = bed.selvedgeTrim.right;
  const to = ticks(bed.width - selvedge);
  if (to - from < bed.rulerMark) return [{ extent: ticks(bed.width - from), tree: trim('selvedge') }];
  const box = { ...along, x0: from, x1: to };
  const parts = onePly(
    box,
    bed,
    from < foldOf(bed) + doubleTo(bed) ? ticks(from + bed.rulerMark) : from,
    keep,
  );
  return [...parts, { extent: selvedge, tree: trim('selvedge') }];
}

/**
 * A leftover of one ply; x on the opened cloth. Where a flaw is cut out of it, that ends at `clear`, a mark of the ruler before
 * the cloth that lies in two plies to the tick: what lies between is scrap. Round a flaw it is set from its own near edge, where the
 * selvedge that is trimmed away need not end on a mark from the outer edge.
 */
function onePly(box: PlainBox<Ticks>, bed: Bed, clear: Ticks, keep: Size): Part<PieceId>[] {
  const { gap: _, strip: __, ...open } = bed;
  const part = (own: PlainBox<Ticks>): Part<PieceId> => ({
    extent: ticks(own.x1 - own.x0),
    tree: leftover(
      { ...own, x0: ticks(own.x0 - box.x0), x1: ticks(own.x1 - box.x0) },
      { ...open, lay: { kind: 'flat' }, left: box.x0 },
      keep,
    ),
  });
  const whole = part(box);
  if (whole.tree.kind !== 'cut' || clear <= box.x0 || clear >= box.x1) return [whole];
  const scrap = (extent: number): Part<PieceId> => ({ extent: ticks(extent), tree: { kind: 'scrap' } });
  return clear <= foldOf(bed)
    ? [part({ ...box, x1: clear }), scrap(box.x1 - clear)]
    : [scrap(clear - box.x0), part({ ...box, x0: clear })];
}

function foldOf({ lay }: Bed): number {
  return lay.kind === 'folded' ? lay.foldAt : 0;
}

/** How far from the fold both plies are usable cloth, off the ruler's marks. */
function doubleTo(bed: Bed): number {
  const { selvedgeTrim, width, beside, gap } = bed;
  const halves = [foldOf(bed) - selvedgeTrim.left, width - selvedgeTrim.right - foldOf(bed)];
  return Math.min(...halves, (gap ? undefined : beside?.strip?.x0) ?? Number.POSITIVE_INFINITY);
}

/** The same cuts seen from the other side of the fold: lengthwise parts in reverse order. */
export function mirrored(tree: Tree, box: PlainBox<Ticks>): Tree {
  if (tree.kind !== 'cut') return tree;
  const parts = partsOf(tree, box).map((part) => ({
    extent: part.extent,
    tree: mirrored(part.tree, part.box),
  }));
  return joined(tree.direction, tree.direction === 'lengthwise' ? parts.reverse() : parts);
}
