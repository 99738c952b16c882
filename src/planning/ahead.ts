import type { SheetTree } from '../packing/result.ts';
import { ceilTo, type Ticks, ticks } from '../units/ticks.ts';
import { type Bed, nearEnd } from './bed.ts';
import type { PackedBed } from './pack-beds.ts';

/**
 * The bed begun one repeat ahead of its `skip`, so that pieces may lie before that in places of the print of their own. What of it
 * lies before the squared end is no cloth, and is kept off like a flaw. Only for a bed whose print was measured.
 */
export function begunAhead(bed: Bed, along: Ticks): Bed {
  if (bed.skip <= 0 || bed.begins || bed.beside) return bed;
  const before = ticks(along - bed.skip);
  const none = { x0: 0, y0: -before, x1: bed.width, y1: nearEnd(bed) as number };
  return {
    ...bed,
    skip: ticks(-before),
    ahead: ceilTo(before, bed.rulerMark),
    flaws: [...bed.flaws, none],
  };
}

/** The same pieces on the bed as it really begins. */
export function asItBegins(own: PackedBed): PackedBed {
  const { ahead, ...rest } = own.bed;
  if (ahead === undefined) return own;
  return {
    ...own,
    bed: { ...rest, skip: ticks(rest.skip + ahead), flaws: rest.flaws.slice(0, -1) },
    tree: cutNear(own.tree, own.length, ahead),
    length: own.length - ahead,
  };
}

/** A tree of `length` without what lies before `from`, where no piece does. */
function cutNear(tree: SheetTree, length: number, from: number): SheetTree {
  if (tree.kind !== 'cut' || from <= 0) return tree;
  if (tree.direction === 'lengthwise') {
    return { ...tree, parts: tree.parts.map((part) => cutNear(part, length, from)) };
  }
  const edges = [0, ...tree.at, length];
  const first = tree.parts.findIndex((_, index) => edges[index + 1]! > from);
  const begin = edges[first]!;
  const cut = cutNear(tree.parts[first]!, edges[first + 1]! - begin, from - begin);
  const at = tree.at.slice(first).map((own) => own - from);
  return at.length === 0 ? cut : { ...tree, at, parts: [cut, ...tree.parts.slice(first + 1)] };
}
