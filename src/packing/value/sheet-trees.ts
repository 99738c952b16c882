/** Turns what the value searches find into cut trees of the whole sheet, in the caller's lengths. */
import type { CutDirection } from '../../model/cut-tree.ts';
import type { SheetTree } from '../result.ts';
import { type BuildStore, laidPiece, oneBehindOther } from './builds.ts';
import { cellPlan } from './counts.ts';
import { type Parts, rowOf } from './parts.ts';
import type { ValueTable } from './unlimited.ts';

/** One unit of the search is `x` × `y` of the caller's. */
export interface Units {
  readonly x: number;
  readonly y: number;
}

/** Reads a build back. Children come before parents in the store, so one pass from below suffices. */
export function partsOfBuild(store: BuildStore, build: number): Parts {
  const wanted = new Set([build]);
  for (let at = build; at >= 0; at -= 1) {
    if (!wanted.has(at) || store.how[at] === laidPiece) continue;
    wanted.add(store.near[at]!);
    wanted.add(store.far[at]!);
  }
  const made = new Map<number, Parts>();
  for (let at = 0; at <= build; at += 1) {
    if (!wanted.has(at)) continue;
    if (store.how[at] === laidPiece) {
      const width = store.width[at]!;
      const length = store.length[at]!;
      const { kind, turned } = store.space.grid.laid[store.near[at]!]!;
      made.set(at, { width, length, kind, turned });
      continue;
    }
    const along = store.how[at] === oneBehindOther;
    made.set(at, rowOf([made.get(store.near[at]!)!, made.get(store.far[at]!)!], along)!);
  }
  return made.get(build)!;
}

/** Reads the best of a table's whole sheet back, leaving out copies above the limits. */
export function partsOfTable(
  table: ValueTable,
  reduced: Float64Array,
  copies: Int32Array,
): Parts | undefined {
  const left = copies.slice();
  const top: Parts[] = [];
  const open: { cell: number; into: Parts[] }[] = [{ cell: table.best.length - 1, into: top }];
  const closing: { near: Parts[]; far: Parts[]; along: boolean; into: Parts[] }[] = [];
  while (open.length > 0) {
    const { cell, into } = open.pop()!;
    const plan = cellPlan(table, reduced, cell);
    if (plan.kind === 'nothing') continue;
    if (plan.kind === 'smaller') open.push({ cell: plan.cell, into });
    else if (plan.kind === 'piece') {
      const { kind, turned, width, length } = table.grid.laid[plan.way]!;
      if (left[kind]! === 0) continue;
      left[kind]! -= 1;
      into.push({ width, length, kind, turned });
    } else {
      const near: Parts[] = [];
      const far: Parts[] = [];
      closing.push({ near, far, along: plan.kind === 'across', into });
      open.push({ cell: plan.near, into: near }, { cell: plan.far, into: far });
    }
  }
  for (let index = closing.length - 1; index >= 0; index -= 1) {
    const { near, far, along, into } = closing[index]!;
    const row = rowOf([...near, ...far], along);
    if (row) into.push(row);
  }
  return top[0];
}

/** A cut whose parts are filled in from above; each part is written before the tree is handed out. */
interface OpenCut {
  readonly kind: 'cut';
  readonly direction: CutDirection;
  readonly at: number[];
  readonly parts: SheetTree[];
}

/** A part that still has to be written into `into.parts[index]`, with the room it has. */
interface Slot {
  readonly part: Parts;
  readonly width: number;
  readonly length: number;
  readonly into: OpenCut;
  readonly index: number;
}

/**
 * The tree of a sheet with the parts in its near corner; the rest of each part is left over. Where both ways are open
 * the first cut is a crosscut, as cut stages count.
 */
export function sheetTree(
  parts: Parts | undefined,
  units: Units,
  sheet: { readonly width: number; readonly length: number },
): SheetTree {
  if (!parts) return { kind: 'remnant' };
  const root: OpenCut = { kind: 'cut', direction: 'crosscut', at: [], parts: [] };
  const open: Slot[] = [];
  const used = parts.length * units.y;
  if ('parts' in parts && !parts.along && used < sheet.length) {
    fillCut(root, [parts], { ...sheet, units, open });
    while (open.length > 0) fillSlot(open.pop()!, units, open);
    return root;
  }
  root.parts.push({ kind: 'remnant' });
  open.push({ part: parts, ...sheet, into: root, index: 0 });
  while (open.length > 0) fillSlot(open.pop()!, units, open);
  return root.parts[0]!;
}

interface Room {
  readonly width: number;
  readonly length: number;
  readonly units: Units;
  readonly open: Slot[];
}

function fillSlot({ part, width, length, into, index }: Slot, units: Units, open: Slot[]): void {
  const room = { width, length, units, open };
  if ('parts' in part) {
    const cut: OpenCut = {
      kind: 'cut',
      direction: part.along ? 'crosscut' : 'lengthwise',
      at: [],
      parts: [],
    };
    into.parts[index] = cut;
    fillCut(cut, part.parts, room);
  } else if (part.width * units.x === width && part.length * units.y === length) {
    into.parts[index] = { kind: 'piece', piece: part.kind, quarterTurns: part.turned ? 1 : 0 };
  } else {
    const across = part.length * units.y < length;
    const cut: OpenCut = { kind: 'cut', direction: across ? 'crosscut' : 'lengthwise', at: [], parts: [] };
    into.parts[index] = cut;
    fillCut(cut, [part], room);
  }
}

/** Lays parts in a row in the direction of the cut, then what is left over. */
function fillCut(cut: OpenCut, parts: readonly Parts[], { width, length, units, open }: Room): void {
  const across = cut.direction === 'crosscut';
  const whole = across ? length : width;
  let from = 0;
  for (const part of parts) {
    const size = across ? part.length * units.y : part.width * units.x;
    const index = cut.parts.push({ kind: 'remnant' }) - 1;
    open.push({ part, width: across ? width : size, length: across ? size : length, into: cut, index });
    from += size;
    if (from < whole) cut.at.push(from);
  }
  if (from < whole) cut.parts.push({ kind: 'remnant' });
}
