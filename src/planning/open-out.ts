import type { CoverBox } from '../geometry/outline.ts';
import type { PlainBox } from '../geometry/walk.ts';
import type { CutTree, TrimKind } from '../model/cut-tree.ts';
import type { PieceId, Size } from '../model/piece.ts';
import type { SheetTree } from '../packing/result.ts';
import { type Ticks, ticks } from '../units/ticks.ts';
import { type Bed, type BesideFold, flawsToPack, singlePly } from './bed.ts';
import type { LaidKind } from './fold-kinds.ts';
import { joined, type Part, partsOf } from './joined.ts';
import type { Copy } from './kinds.ts';

/** Hands out the copies of each kind that the packer laid, one a leaf; where it lies in two plies, one for each. */
export interface Dealer {
  next(kind: number): Copy;
  plies(kind: number): LaidKind['plies'];
}

type Tree = CutTree<PieceId>;
type PlacedPart = ReturnType<typeof partsOf<number>>[number];
type OnPlies = { readonly upper: Tree; readonly lower: Tree };
/** Leaves that are half of a piece across the fold. */
type AtFold = WeakSet<Tree>;

/**
 * Puts the packer's tree back on the cloth: the leaves become pieces, what is left over is told apart into remnant,
 * scrap and trim, and selvedges, crease strip and squared ends are laid round it.
 *
 * Crosscuts stay outermost, so that a section is cut off the length from selvedge to selvedge before its edges are trimmed.
 *
 * @param packed what the packer cut from; `packed.length` is at most the bed's length less its squaring
 * @param length whole length of the cloth as it lies on the table, both squared ends included
 */
export function openOut(
  bed: Bed,
  packed: { readonly tree: SheetTree; readonly length: number; readonly beside?: SheetTree },
  length: Ticks,
  dealer: Dealer,
  keep: Size,
): Tree {
  const atFold: AtFold = new WeakSet();
  const plies = label(packed.tree, bed, packed.length, { dealer, keep, atFold });
  if (bed.beside) {
    const single = singlePly(bed, bed.beside);
    const tree = packed.beside ?? { kind: 'remnant' };
    const { upper } = label(tree, single, packed.length, { dealer, keep, atFold });
    return openedAside({ plies, single: upper, beside: bed.beside }, bed, packed.length, length, {
      keep,
      atFold,
    });
  }
  const rest = ticks(length - 2 * bed.squaring - bed.skip - packed.length);
  const parts: Part<PieceId>[] = [
    { extent: bed.squaring, tree: trim('squaring') },
    ...endLeft(ticks(-bed.skip), bed.skip, bed, keep),
    {
      extent: ticks(packed.length),
      tree: acrossTheWidth(plies, bed, ticks(packed.length), { keep, atFold }),
    },
  ];
  parts.push(...endLeft(ticks(packed.length), rest, bed, keep));
  parts.push({ extent: bed.squaring, tree: trim('squaring') });
  return joined('crosscut', parts);
}

/** Whole width of the cloth before or after the lay. */
function endLeft(from: Ticks, extent: Ticks, bed: Bed, keep: Size): Part<PieceId>[] {
  if (extent <= 0) return [];
  const box = { x0: ticks(0), y0: from, x1: bed.packable, y1: ticks(from + extent) };
  const left = leftover(box, bed, keep);
  return [
    {
      extent,
      tree: acrossTheWidth({ upper: left, lower: left }, bed, extent, { keep, atFold: new WeakSet() }),
    },
  ];
}

/** Each ply of the packer's tree in the packer's own frame, with pieces dealt and leftovers named. */
function label(
  tree: SheetTree,
  bed: Bed,
  length: number,
  { dealer, keep, atFold }: { readonly dealer: Dealer; readonly atFold: AtFold; readonly keep: Size },
): OnPlies {
  const folded = bed.lay.kind === 'folded';
  const visit = (part: SheetTree, box: PlainBox<Ticks>): OnPlies => {
    if (isLeftOnly(part, bed) && (part.kind !== 'cut' || !isDivided(box, bed))) {
      const left = leftover(box, bed, keep);
      return { upper: left, lower: left };
    }
    if (part.kind === 'piece') {
      const upper = dealt(dealer.next(part.piece), part.quarterTurns);
      const plies = folded ? dealer.plies(part.piece) : 'one';
      if (plies === 'fold') atFold.add(upper);
      return { upper, lower: plies === 'two' ? dealt(dealer.next(part.piece), part.quarterTurns) : upper };
    }
    if (part.kind !== 'cut') {
      const left = leftover(box, bed, keep);
      return { upper: left, lower: left };
    }
    const own = partsOf(part as CutTree<number> & { kind: 'cut' }, box);
    const parts = leftoversTogether(own, bed).map((own) => ({
      extent: own.extent,
      plies: visit(own.tree as SheetTree, own.box),
    }));
    const ply = (which: keyof OnPlies) =>
      joined(
        part.direction,
        parts.map((own) => ({ extent: own.extent, tree: own.plies[which] })),
      );
    const upper = ply('upper');
    return { upper, lower: folded ? ply('lower') : upper };
  };
  return visit(tree, { x0: ticks(0), y0: ticks(0), x1: bed.packable, y1: ticks(length) });
}

/** Leftovers side by side are one: a packer that counts in coarse units may leave a sliver beside a larger one. */
function leftoversTogether(parts: readonly PlacedPart[], bed: Bed): readonly PlacedPart[] {
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
function isLeftOnly(tree: SheetTree, { kept }: Bed): boolean {
  if (!kept) return false;
  const waiting = [tree];
  for (let next = waiting.pop(); next; next = waiting.pop()) {
    if (next.kind === 'cut') waiting.push(...next.parts);
    else if (next.kind === 'piece' && next.piece < kept.kindFrom) return false;
  }
  return true;
}

function isDivided(box: PlainBox<Ticks>, bed: Bed): boolean {
  const { gap } = bed;
  return (gap && box.x0 < gap.x1 && gap.x0 < box.x1) || flawsToPack(bed).some((own) => overlap(own, box));
}

function dealt(copy: Copy, turned: number): Tree {
  return {
    kind: 'piece',
    piece: copy.piece,
    quarterTurns: turned === 0 ? copy.turns : (copy.whenTurned ?? 1),
  };
}

function leftover(box: PlainBox<Ticks>, bed: Bed, keep: Size): Tree {
  const flaw = flawsToPack(bed).find((own) => overlap(own, box));
  if (flaw) return aroundFlaw(box, flaw, bed, keep);
  const { gap } = bed;
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

function holdsKept(box: PlainBox<Ticks>, { kept, left, squaring, skip }: Bed): boolean {
  return (kept?.boxes ?? []).some(
    ({ x0, y0, x1, y1 }) =>
      x0 - left >= box.x0 &&
      x1 - left <= box.x1 &&
      y0 - squaring - skip >= box.y0 &&
      y1 - squaring - skip <= box.y1,
  );
}

/** The flaw is cut out of a leftover: what lies before and after it along the length, then what lies beside it. */
function aroundFlaw(box: PlainBox<Ticks>, flaw: CoverBox, bed: Bed, keep: Size): Tree {
  const y0 = ticks(Math.max(box.y0, flaw.y0));
  const y1 = ticks(Math.min(box.y1, flaw.y1));
  const x0 = ticks(Math.max(box.x0, flaw.x0));
  const x1 = ticks(Math.min(box.x1, flaw.x1));
  const part = (own: PlainBox<Ticks>, extent: number): Part<PieceId>[] =>
    extent > 0 ? [{ extent: ticks(extent), tree: leftover(own, bed, keep) }] : [];
  const beside = joined('lengthwise', [
    ...part({ ...box, y0, y1, x1: x0 }, x0 - box.x0),
    { extent: ticks(x1 - x0), tree: { kind: 'scrap' } },
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

/** A remnant is at least the keepable size, either way round. */
export function isKeepable(width: number, length: number, keep: Size): boolean {
  return (width >= keep.width && length >= keep.length) || (width >= keep.length && length >= keep.width);
}

function remnantOrScrap(width: number, length: number, keep: Size): Tree {
  return isKeepable(width, length, keep) ? { kind: 'remnant' } : { kind: 'scrap' };
}

function trim(of: TrimKind): Tree {
  return { kind: 'trim', of };
}

interface Opening {
  readonly keep: Size;
  readonly atFold: AtFold;
}

/** From the packer's width to the whole width of the opened cloth, pushing the selvedge trim below the crosscuts. */
function acrossTheWidth(plies: OnPlies, bed: Bed, length: Ticks, opening: Opening): Tree {
  const { upper, lower } = plies;
  if (upper.kind === 'cut' && upper.direction === 'crosscut' && lower.kind === 'cut') {
    const box = { x0: ticks(0), y0: ticks(0), x1: bed.packable, y1: length };
    const lowerParts = partsOf(lower, box);
    const parts = partsOf(upper, box).map((part, index) => ({
      extent: part.extent,
      tree: acrossTheWidth({ upper: part.tree, lower: lowerParts[index]!.tree }, bed, part.extent, opening),
    }));
    return joined('crosscut', parts);
  }
  return bed.lay.kind === 'folded' ? opened(plies, bed, bed.lay.foldAt, length, opening) : flat(upper, bed);
}

function flat(tree: Tree, bed: Bed): Tree {
  return joined('lengthwise', [
    { extent: bed.left, tree: trim('selvedge') },
    { extent: bed.packable, tree },
    { extent: ticks(bed.width - bed.left - bed.packable), tree: trim('selvedge') },
  ]);
}

function opened(plies: OnPlies, bed: Bed, foldAt: Ticks, length: Ticks, opening: Opening): Tree {
  const { keep } = opening;
  const left = edgeOfPly(ticks(foldAt - bed.left - bed.packable), bed.selvedgeTrim.left, bed, length, keep);
  const right = edgeOfPly(
    ticks(bed.width - foldAt - bed.left - bed.packable),
    bed.selvedgeTrim.right,
    bed,
    length,
    keep,
  );
  return joined('lengthwise', [...left.reverse(), ...bothPlies(plies, bed, length, opening), ...right]);
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
  if (isLeft(upper) && isLeft(lower))
    return remnantOrScrap(2 * (box.x1 - box.x0), box.y1 - box.y0, opening.keep);
  if (upper.kind !== 'cut' || lower.kind !== 'cut' || upper.direction !== 'crosscut')
    return openedBeside(plies, box, opening.atFold);
  const lowers = partsOf(lower, box);
  const parts = partsOf(upper, box).map(({ extent, tree, box: own }, index) => ({
    extent,
    tree: openedAtFold({ upper: tree, lower: lowers[index]!.tree }, own, opening),
  }));
  return joined('crosscut', parts);
}

/** A part that is cut lengthwise before all: both plies beside each other, with what lies across the fold between them. */
function openedBeside({ upper, lower }: OnPlies, box: PlainBox<Ticks>, atFold: AtFold): Tree {
  if (upper.kind === 'piece' && atFold.has(upper)) return upper;
  const extent = ticks(box.x1 - box.x0);
  if (upper.kind !== 'cut' || lower.kind !== 'cut' || !holdsFold(upper, atFold)) {
    return joined('lengthwise', [
      { extent, tree: mirrored(lower, box) },
      { extent, tree: upper },
    ]);
  }
  const lowers = partsOf(lower, box);
  const parts = partsOf(upper, box).map((own, index) => ({ own, lower: lowers[index]!.tree }));
  const open = ({ own, lower }: (typeof parts)[number]) =>
    openedBeside({ upper: own.tree, lower }, own.box, atFold);
  if (upper.direction === 'crosscut') {
    return joined(
      'crosscut',
      parts.map((part) => ({ extent: part.own.extent, tree: open(part) })),
    );
  }
  const [near, ...far] = parts;
  return joined('lengthwise', [
    ...far.map(({ own, lower }) => ({ extent: own.extent, tree: mirrored(lower, own.box) })).reverse(),
    { extent: ticks(2 * near!.own.extent), tree: open(near!) },
    ...far.map(({ own }) => ({ extent: own.extent, tree: own.tree })),
  ]);
}

function isLeft({ kind }: Tree): boolean {
  return kind === 'remnant' || kind === 'scrap';
}

function holdsFold(tree: Tree, atFold: AtFold): boolean {
  return atFold.has(tree) || (tree.kind === 'cut' && tree.parts.some((part) => holdsFold(part, atFold)));
}

/**
 * A fold off the middle: both plies, and beside them what lies in one. The line between them is cut first along the whole
 * length, since what lies beyond it is cut otherwise.
 */
function openedAside(
  { plies, single, beside }: { readonly plies: OnPlies; readonly single: Tree; readonly beside: BesideFold },
  bed: Bed,
  packed: number,
  length: Ticks,
  opening: Opening,
): Tree {
  const { keep } = opening;
  const { lay, selvedgeTrim } = bed;
  const foldAt = lay.kind === 'folded' ? lay.foldAt : ticks(0);
  const far = ticks(length - 2 * bed.squaring - bed.skip - packed);
  const extents = [bed.squaring, bed.skip, ticks(packed), far, bed.squaring] as const;
  const between = ticks(length - 2 * bed.squaring);
  const alongIt = (tree: Tree, ends: (from: number, to: number) => Tree): Tree => {
    const [, skip, used, rest] = extents;
    return joined('crosscut', [
      ...(skip > 0 ? [{ extent: skip, tree: ends(-skip, 0) }] : []),
      { extent: used, tree },
      ...(rest > 0 ? [{ extent: rest, tree: ends(used, used + rest) }] : []),
    ]);
  };
  const endOf = (own: Bed) => (from: number, to: number) =>
    leftover({ x0: ticks(0), y0: ticks(from), x1: own.packable, y1: ticks(to) }, own, keep);
  const endOfPlies = (from: number, to: number) => {
    const left = endOf(bed)(from, to);
    return joined('lengthwise', bothPlies({ upper: left, lower: left }, bed, ticks(to - from), opening));
  };
  const twoPlies = joined('lengthwise', bothPlies(plies, bed, ticks(packed), opening));
  const left = edgeOfPly(ticks(foldAt - bed.packable), selvedgeTrim.left, bed, between, keep);
  const body = joined('lengthwise', [
    ...left.reverse(),
    { extent: ticks(2 * bed.packable), tree: alongIt(twoPlies, endOfPlies) },
    ...betweenPlies(bed, beside, between, keep),
    { extent: beside.packable, tree: alongIt(single, endOf(singlePly(bed, beside))) },
    { extent: ticks(bed.width - foldAt - beside.left - beside.packable), tree: trim('selvedge') },
  ]);
  return joined('crosscut', [
    { extent: bed.squaring, tree: trim('squaring') },
    { extent: between, tree: body },
    { extent: bed.squaring, tree: trim('squaring') },
  ]);
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

/** What lies outside the pieces of one ply, outwards: the wider half's own leftover where there is one, and its selvedge. */
function edgeOfPly(extent: Ticks, selvedge: Ticks, bed: Bed, length: Ticks, keep: Size): Part<PieceId>[] {
  const spare = ticks(extent - selvedge);
  if (spare < bed.rulerMark) return [{ extent, tree: trim('selvedge') }];
  return [
    { extent: spare, tree: remnantOrScrap(spare, length, keep) },
    { extent: selvedge, tree: trim('selvedge') },
  ];
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
