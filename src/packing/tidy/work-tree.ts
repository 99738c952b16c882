import type { SheetTree } from '../result.ts';

/**
 * The cut tree while it is being tidied: every part knows its own size and none its position, so siblings may change
 * places. Parts are never changed, only replaced; `cutOf` keeps every tree canonical:
 *
 * - a cut's part is never a cut of the same direction;
 * - a cut has at most one leftover, and it lies last;
 * - slack common to all parts of a cut is lifted out of them, to join the leftover one level up;
 * - equal parts lie side by side, larger ones first.
 */
export type WorkPart = WorkPiece | WorkLeftover | WorkCut;

export interface WorkPiece {
  readonly kind: 'piece';
  readonly piece: number;
  readonly turned: boolean;
  readonly width: number;
  readonly length: number;
  readonly name: string;
}

export interface WorkLeftover {
  readonly kind: 'leftover';
  readonly width: number;
  readonly length: number;
  readonly name: string;
}

export interface WorkCut {
  readonly kind: 'cut';
  readonly crosscut: boolean;
  readonly width: number;
  readonly length: number;
  readonly parts: readonly WorkPart[];
  /** Equal for parts that are cut alike, whatever their pieces are called. */
  readonly name: string;
}

export function pieceOf(piece: number, turned: boolean, width: number, length: number): WorkPiece {
  return { kind: 'piece', piece, turned, width, length, name: `${width}x${length}` };
}

export function leftoverOf(width: number, length: number): WorkLeftover {
  return { kind: 'leftover', width, length, name: '-' };
}

/** Size of a part along the direction in which a cut lines up its parts. */
export function sizeAlong(part: WorkPart, crosscut: boolean): number {
  return crosscut ? part.length : part.width;
}

/** The cut of `parts` into one rectangle, in canonical form; the parts' sizes along the cut must add up. */
export function cutOf(crosscut: boolean, parts: readonly WorkPart[]): WorkPart {
  const across = sizeAlong(parts[0]!, !crosscut);
  const kept: WorkPart[] = [];
  let leftover = 0;
  for (const part of parts) {
    const inlined = part.kind === 'cut' && part.crosscut === crosscut ? part.parts : [part];
    for (const inner of inlined) {
      if (inner.kind === 'leftover') leftover += sizeAlong(inner, crosscut);
      else kept.push(inner);
    }
  }
  const leftoverPart = (size: number, other: number) =>
    crosscut ? leftoverOf(other, size) : leftoverOf(size, other);
  if (kept.length === 0) return leftoverPart(leftover, across);
  const slack = kept.length > 1 ? commonSlack(kept, crosscut) : 0;
  if (slack > 0) {
    const reduced = kept.map((part) => withoutSlack(part as WorkCut, slack));
    if (leftover > 0) reduced.push(leftoverPart(leftover, across - slack));
    const lifted = crosscut
      ? leftoverOf(slack, sizeSum(parts, crosscut))
      : leftoverOf(sizeSum(parts, crosscut), slack);
    return cutOf(!crosscut, [cutOf(crosscut, reduced), lifted]);
  }
  if (kept.length === 1 && leftover === 0) return kept[0]!;
  const order = (a: WorkPart, b: WorkPart) =>
    sizeAlong(b, crosscut) - sizeAlong(a, crosscut) ||
    compare(a.name, b.name) ||
    pieceIndex(a) - pieceIndex(b);
  // Most often only one part has changed, or none.
  if (kept.some((part, index) => index > 0 && order(kept[index - 1]!, part) > 0)) kept.sort(order);
  if (leftover > 0) kept.push(leftoverPart(leftover, across));
  return rawCut(crosscut, kept);
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

/** Pieces of one kind lie side by side, among others of their size. */
function pieceIndex(part: WorkPart): number {
  return part.kind === 'piece' ? 2 * part.piece + (part.turned ? 1 : 0) : -1;
}

function rawCut(crosscut: boolean, parts: readonly WorkPart[]): WorkCut {
  const across = sizeAlong(parts[0]!, !crosscut);
  const length = crosscut ? sizeSum(parts, crosscut) : across;
  const width = crosscut ? across : sizeSum(parts, crosscut);
  // Built by hand, since this is what tidying spends its time on.
  let name = crosscut ? 'C(' : 'L(';
  for (let index = 0; index < parts.length; index++) {
    const part = parts[index]!;
    name += `${index > 0 ? ',' : ''}${crosscut ? part.length : part.width}:${part.name}`;
  }
  return { kind: 'cut', crosscut, width, length, parts, name: shortName(`${name})`) };
}

/** So many equal pieces in a row, each a piece of its own. */
export function rowOf(crosscut: boolean, count: number, piece: Omit<WorkPiece, 'kind' | 'name'>): WorkPart {
  const { piece: kind, turned, width, length } = piece;
  const one = pieceOf(kind, turned, width, length);
  if (count === 1) return one;
  return rawCut(
    crosscut,
    Array.from({ length: count }, () => ({ ...one })),
  );
}

/** Equal columns of a grid, each as `rowOf` has it: named once, since they are cut alike. */
export function gridOf(columns: number, rows: number, piece: Omit<WorkPiece, 'kind' | 'name'>): WorkPart {
  if (rows === 1) return rowOf(false, columns, piece);
  const column = rowOf(true, rows, piece) as WorkCut;
  if (columns === 1) return column;
  const another = () => ({ ...column, parts: column.parts.map((part) => ({ ...part })) });
  return rawCut(false, [column, ...Array.from({ length: columns - 1 }, another)]);
}

/**
 * A root whose common slack was lifted out of its crosscuts, with the slack given back to each of them: where stages
 * are limited the first cut must be a crosscut. Any other root stays as it is.
 */
export function startingCrosscut(root: WorkPart): WorkPart {
  if (root.kind !== 'cut' || root.crosscut || root.parts.length !== 2) return root;
  const [inner, slack] = root.parts as [WorkPart, WorkPart];
  if (slack.kind !== 'leftover' || inner.kind !== 'cut') return root;
  const widened = inner.parts.map((part) => {
    if (part.kind === 'leftover') return leftoverOf(root.width, part.length);
    const added = leftoverOf(slack.width, part.length);
    if (part.kind !== 'cut') return rawCut(false, [part, added]);
    const last = part.parts.at(-1)!;
    if (last.kind !== 'leftover') return rawCut(false, [...part.parts, added]);
    return rawCut(false, [...part.parts.slice(0, -1), leftoverOf(last.width + slack.width, part.length)]);
  });
  return rawCut(true, widened);
}

/** Names stay short however deep the tree: a long one is replaced by 64 bits made of it (two FNV-1a sums). */
function shortName(name: string): string {
  if (name.length <= 64) return name;
  let [low, high] = [0x811c9dc5, 0x01000193];
  for (let index = 0; index < name.length; index++) {
    low = Math.imul(low ^ name.charCodeAt(index), 0x01000193);
    high = Math.imul(high ^ (low >>> 13) ^ name.charCodeAt(index), 0x5bd1e995);
  }
  return `#${(low >>> 0).toString(36)}${(high >>> 0).toString(36)}`;
}

function sizeSum(parts: readonly WorkPart[], crosscut: boolean): number {
  return parts.reduce((total, part) => total + sizeAlong(part, crosscut), 0);
}

function commonSlack(parts: readonly WorkPart[], crosscut: boolean): number {
  let least = Number.POSITIVE_INFINITY;
  for (const part of parts) {
    least = Math.min(least, slackAcross(part, crosscut));
    if (least === 0) return 0;
  }
  return least;
}

function slackAcross(part: WorkPart, crosscut: boolean): number {
  if (part.kind !== 'cut' || part.crosscut === crosscut) return 0;
  const last = part.parts.at(-1)!;
  return last.kind === 'leftover' ? sizeAlong(last, part.crosscut) : 0;
}

function withoutSlack(part: WorkCut, slack: number): WorkPart {
  const last = part.parts.at(-1)!;
  const rest = sizeAlong(last, part.crosscut) - slack;
  const parts = part.parts.slice(0, -1);
  if (rest > 0) parts.push(part.crosscut ? leftoverOf(part.width, rest) : leftoverOf(rest, part.length));
  return parts.length === 1 ? parts[0]! : cutOf(part.crosscut, parts);
}

/**
 * A rectangle of `width` × `length` with its tree, as a work tree. By a stack, so any depth will do.
 * Every leaf that is no piece counts as leftover.
 */
export function workTree(tree: SheetTree, width: number, length: number): WorkPart {
  interface Frame {
    readonly tree: Extract<SheetTree, { kind: 'cut' }>;
    readonly width: number;
    readonly length: number;
    readonly done: WorkPart[];
  }
  const frames: Frame[] = [];
  let made: WorkPart | undefined;
  let next: { tree: SheetTree; width: number; length: number } | undefined = { tree, width, length };
  for (;;) {
    if (next !== undefined) {
      const {
        tree: at,
        width: wide,
        length: long,
      }: { tree: SheetTree; width: number; length: number } = next;
      next = undefined;
      if (at.kind === 'cut') frames.push({ tree: at, width: wide, length: long, done: [] });
      else if (at.kind === 'piece') made = pieceOf(at.piece, at.quarterTurns % 2 === 1, wide, long);
      else made = leftoverOf(wide, long);
    }
    const frame = frames.at(-1);
    if (made !== undefined) {
      if (frame === undefined) return made;
      frame.done.push(made);
      made = undefined;
    }
    const { tree: cut, done } = frame!;
    const crosscut = cut.direction === 'crosscut';
    if (done.length === cut.parts.length) {
      frames.pop();
      made = cutOf(crosscut, done);
      continue;
    }
    const from = done.length === 0 ? 0 : cut.at[done.length - 1]!;
    const to =
      done.length === cut.at.length ? (crosscut ? frame!.length : frame!.width) : cut.at[done.length]!;
    next = {
      tree: cut.parts[done.length]!,
      width: crosscut ? frame!.width : to - from,
      length: crosscut ? to - from : frame!.length,
    };
  }
}

/** The work tree as a cut tree, by a stack. */
export function sheetTree(root: WorkPart): SheetTree {
  const made: SheetTree[] = [];
  const open: { part: WorkPart; opened: boolean }[] = [{ part: root, opened: false }];
  while (open.length > 0) {
    const top = open.at(-1)!;
    const { part } = top;
    if (part.kind === 'cut' && !top.opened) {
      top.opened = true;
      for (let index = part.parts.length - 1; index >= 0; index--) {
        open.push({ part: part.parts[index]!, opened: false });
      }
      continue;
    }
    open.pop();
    if (part.kind === 'piece') {
      made.push({ kind: 'piece', piece: part.piece, quarterTurns: part.turned ? 1 : 0 });
    } else if (part.kind === 'leftover') {
      made.push({ kind: 'remnant' });
    } else {
      const parts = made.splice(made.length - part.parts.length);
      const at: number[] = [];
      for (const inner of part.parts.slice(0, -1))
        at.push((at.at(-1) ?? 0) + sizeAlong(inner, part.crosscut));
      made.push({ kind: 'cut', direction: part.crosscut ? 'crosscut' : 'lengthwise', at, parts });
    }
  }
  return made[0]!;
}
