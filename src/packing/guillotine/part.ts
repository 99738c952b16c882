import type { SheetTree } from '../result.ts';
import { type CutForest, SIDE_BY_SIDE, STACKED } from './cut-forest.ts';
import type { Scale } from './pieces.ts';

/** A block of pieces in scaled units: a single piece, or blocks side by side (along x) or stacked (along y). */
export type Part =
  | {
      readonly kind: 'piece';
      /** Index of a piece or of a kind, as the maker of the part says. */
      readonly piece: number;
      readonly turned: boolean;
      readonly width: number;
      readonly length: number;
    }
  | {
      readonly kind: 'join';
      readonly direction: typeof SIDE_BY_SIDE | typeof STACKED;
      readonly parts: Part[];
      readonly width: number;
      readonly length: number;
    };

/** Reads one sheet of a forest as a part; `undefined` where it is empty. `turned` tells of each piece as it lies. */
export function forestToPart(
  forest: CutForest,
  sheet: number,
  turned: (piece: number, width: number) => boolean,
): Part | undefined {
  return nodeToPart(forest, forest.pieces + sheet, turned);
}

/** Reads what lies below a node, the node itself included, as `forestToPart` does. */
export function nodeToPart(
  forest: CutForest,
  top: number,
  turned: (piece: number, width: number) => boolean,
): Part | undefined {
  const { extent, first, next, pieces } = forest;
  const found: Part[] = [];
  const waiting: { node: number; into: Part[] }[] = [{ node: top, into: found }];
  for (let task = waiting.pop(); task !== undefined; task = waiting.pop()) {
    const { node, into } = task;
    const width = extent[2 * node];
    const length = extent[2 * node + 1];
    if (node < pieces) {
      into.push({ kind: 'piece', piece: node, turned: turned(node, width), width, length });
      continue;
    }
    if (first[node] < 0) continue;
    const direction = forest.direction[node] === STACKED ? STACKED : SIDE_BY_SIDE;
    const parts: Part[] = [];
    into.push({ kind: 'join', direction, parts, width, length });
    for (let part = first[node]; part >= 0; part = next[part]) waiting.push({ node: part, into: parts });
  }
  return found[0];
}

/** Parts side by side or stacked, as one block. */
export function joined(direction: typeof SIDE_BY_SIDE | typeof STACKED, parts: Part[]): Part {
  let width = 0;
  let length = 0;
  for (const part of parts) {
    width = direction === STACKED ? Math.max(width, part.width) : width + part.width;
    length = direction === STACKED ? length + part.length : Math.max(length, part.length);
  }
  return { kind: 'join', direction, parts, width, length };
}

/** The same part with other numbers on its pieces. Uses its own stack. */
export function renumbered(part: Part, number: (piece: number) => number): Part {
  const top: Part[] = [];
  const waiting: { part: Part; into: Part[] }[] = [{ part, into: top }];
  for (let task = waiting.pop(); task !== undefined; task = waiting.pop()) {
    const { part: from, into } = task;
    if (from.kind === 'piece') {
      into.push({ ...from, piece: number(from.piece) });
      continue;
    }
    const parts: Part[] = [];
    into.push({ ...from, parts });
    for (const child of from.parts) waiting.push({ part: child, into: parts });
  }
  return top[0];
}

interface Frame {
  readonly direction: typeof SIDE_BY_SIDE | typeof STACKED;
  readonly width: number;
  readonly length: number;
  readonly waiting: Part[];
  readonly at: number[];
  readonly parts: SheetTree[];
  used: number;
}

/**
 * Turns a part into the cut tree of a sheet of the given size (in the caller's units, at least as large as the part).
 * A join inside a join of the same direction becomes one cut node; what is left over becomes remnants. Uses its own
 * stack, so depth is no limit. `kindOf` gives the kind of the question for a leaf, once for each leaf.
 */
export function partToTree(
  part: Part,
  scale: Scale,
  size: { readonly width: number; readonly length: number },
  kindOf: (piece: number) => number,
): SheetTree {
  const root: Frame[] = [];
  const top = frameOf(part, size.width, size.length);
  if (top === undefined) return leafInBox(part, scale, size.width, size.length, kindOf);
  root.push(top);
  for (;;) {
    const frame = root[root.length - 1];
    const stacked = frame.direction === STACKED;
    const child = frame.waiting.pop();
    if (child === undefined) {
      const done = closeFrame(frame);
      root.pop();
      const above = root[root.length - 1];
      if (above === undefined) return done;
      above.parts.push(done);
      continue;
    }
    if (child.kind === 'join' && child.direction === frame.direction) {
      for (let i = child.parts.length - 1; i >= 0; i--) frame.waiting.push(child.parts[i]);
      continue;
    }
    const along = stacked ? child.length * scale.unitY : child.width * scale.unitX;
    if (frame.used > 0) frame.at.push(frame.used);
    frame.used += along;
    const width = stacked ? frame.width : along;
    const length = stacked ? along : frame.length;
    const inner = frameOf(child, width, length);
    if (inner === undefined) frame.parts.push(leafInBox(child, scale, width, length, kindOf));
    else root.push(inner);
  }
}

function frameOf(part: Part, width: number, length: number): Frame | undefined {
  if (part.kind === 'piece') return undefined;
  const waiting = part.parts.slice().reverse();
  return { direction: part.direction, width, length, waiting, at: [], parts: [], used: 0 };
}

function closeFrame({ direction, width, length, at, parts, used }: Frame): SheetTree {
  const total = direction === STACKED ? length : width;
  if (used < total) {
    at.push(used);
    parts.push({ kind: 'remnant' });
  }
  if (parts.length === 1) return parts[0];
  return { kind: 'cut', direction: direction === STACKED ? 'crosscut' : 'lengthwise', at, parts };
}

/** Cuts a piece out of the near corner of a box that is at least as large. */
function leafInBox(
  part: Part,
  scale: Scale,
  boxWidth: number,
  boxLength: number,
  kindOf: (piece: number) => number,
): SheetTree {
  if (part.kind !== 'piece') throw new Error('a join is no leaf');
  const width = part.width * scale.unitX;
  const length = part.length * scale.unitY;
  let tree: SheetTree = { kind: 'piece', piece: kindOf(part.piece), quarterTurns: part.turned ? 1 : 0 };
  if (length < boxLength) {
    tree = { kind: 'cut', direction: 'crosscut', at: [length], parts: [tree, { kind: 'remnant' }] };
  }
  if (width < boxWidth) {
    tree = { kind: 'cut', direction: 'lengthwise', at: [width], parts: [tree, { kind: 'remnant' }] };
  }
  return tree;
}
