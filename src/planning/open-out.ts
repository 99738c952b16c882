import type { PlainBox } from '../geometry/walk.ts';
import type { CutTree } from '../model/cut-tree.ts';
import type { PieceId, Size } from '../model/piece.ts';
import type { SheetTree } from '../packing/result.ts';
import { type Ticks, ticks } from '../units/ticks.ts';
import { type Bed, nearEnd, singlePly } from './bed.ts';
import type { LaidKind } from './fold-kinds.ts';
import { joined, type Part, partsOf } from './joined.ts';
import type { Copy } from './kinds.ts';
import { isDivided, isLeftOnly, leftover, leftoversTogether, trim } from './leftover.ts';
import { type Along, type AtFold, type OnPlies, type Opening, opened, openedAside } from './open-fold.ts';
import { lengthened } from './pack-aside.ts';

/** Hands out the copies of each kind that the packer laid, one a leaf; where it lies in two plies, one for each. */
export interface Dealer {
  next(kind: number): Copy;
  plies(kind: number): LaidKind['plies'];
}

type Tree = CutTree<PieceId>;

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
  const near = nearEnd(bed);
  const far = ticks(length - near - bed.squaring - bed.skip);
  if (bed.beside) {
    const toEnd = (tree: SheetTree) => lengthened({ tree, length: packed.length }, far);
    const tools = { dealer, keep, atFold };
    const plies = label(toEnd(packed.tree), bed, far, tools);
    const single = packed.beside ?? { kind: 'remnant' };
    const { upper } = label(toEnd(single), singlePly(bed, bed.beside), far, tools);
    return openedAside({ plies, single: upper, beside: bed.beside }, bed, length, { keep, atFold });
  }
  const plies = label(packed.tree, bed, packed.length, { dealer, keep, atFold });
  const rest = ticks(far - packed.length);
  const parts: Part<PieceId>[] = [
    { extent: near, tree: trim('squaring') },
    ...endLeft(ticks(-bed.skip), bed.skip, bed, keep),
    {
      extent: ticks(packed.length),
      tree: acrossTheWidth(plies, bed, { y0: ticks(0), y1: ticks(packed.length) }, { keep, atFold }),
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
      tree: acrossTheWidth({ upper: left, lower: left }, bed, box, { keep, atFold: new WeakSet() }),
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
  const { gap: _, strip: __, ...uncreased } = bed;
  // The crease lies in the upper ply.
  const left = (box: PlainBox<Ticks>): OnPlies => {
    const upper = leftover(box, bed, keep);
    return { upper, lower: folded && bed.gap ? leftover(box, uncreased, keep) : upper };
  };
  const visit = (part: SheetTree, box: PlainBox<Ticks>): OnPlies => {
    if (isLeftOnly(part, bed) && (part.kind !== 'cut' || !isDivided(box, bed))) {
      return left(box);
    }
    if (part.kind === 'piece') {
      const upper = dealt(dealer.next(part.piece), part.quarterTurns);
      const plies = folded ? dealer.plies(part.piece) : 'one';
      if (plies === 'fold') atFold.add(upper);
      return { upper, lower: plies === 'two' ? dealt(dealer.next(part.piece), part.quarterTurns) : upper };
    }
    if (part.kind !== 'cut') {
      return left(box);
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

function dealt(copy: Copy, turned: number): Tree {
  return {
    kind: 'piece',
    piece: copy.piece,
    quarterTurns: turned === 0 ? copy.turns : (copy.whenTurned ?? 1),
  };
}

/** From the packer's width to the whole width of the opened cloth, pushing the selvedge trim below the crosscuts. */
function acrossTheWidth(plies: OnPlies, bed: Bed, { y0, y1 }: Along, opening: Opening): Tree {
  const { upper, lower } = plies;
  if (upper.kind === 'cut' && upper.direction === 'crosscut' && lower.kind === 'cut') {
    const box = { x0: ticks(0), y0, x1: bed.packable, y1 };
    const lowerParts = partsOf(lower, box);
    const parts = partsOf(upper, box).map((part, index) => ({
      extent: part.extent,
      tree: acrossTheWidth({ upper: part.tree, lower: lowerParts[index]!.tree }, bed, part.box, opening),
    }));
    return joined('crosscut', parts);
  }
  return bed.lay.kind === 'folded'
    ? opened(plies, bed, bed.lay.foldAt, { y0, y1 }, opening)
    : flat(upper, bed, { y0, y1 }, opening.keep);
}

/** Between the selvedge and where the packer begins may lie cloth that is left off for the sake of a print. */
function flat(tree: Tree, bed: Bed, { y0, y1 }: Along, keep: Size): Tree {
  const off = bed.leftOff ?? ticks(0);
  const box = { x0: ticks(-off), y0, x1: ticks(0), y1 };
  return joined('lengthwise', [
    { extent: ticks(bed.left - off), tree: trim('selvedge') },
    ...(off > 0 ? [{ extent: off, tree: leftover(box, bed, keep) }] : []),
    { extent: bed.packable, tree },
    { extent: ticks(bed.width - bed.left - bed.packable), tree: trim('selvedge') },
  ]);
}
