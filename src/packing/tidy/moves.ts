import {
  cutOf,
  gridOf,
  leftoverOf,
  sizeAlong,
  type WorkCut,
  type WorkLeftover,
  type WorkPart,
  type WorkPiece,
} from './work-tree.ts';

/** Puts `replacement` in the place of `target` and makes every cut above it canonical again. */
export function replaced(root: WorkPart, target: WorkPart, replacement: WorkPart): WorkPart {
  return mapped(root, (part) => (part === target ? replacement : undefined));
}

/** The tree with some pieces turned into leftover. */
export function withoutPieces(root: WorkPart, gone: ReadonlySet<WorkPiece>): WorkPart {
  return mapped(root, (part) =>
    part.kind === 'piece' && gone.has(part) ? leftoverOf(part.width, part.length) : undefined,
  );
}

/** Depth of the tree bounds the recursion; callers tidy trees of a few hundred leaves at most. */
function mapped(part: WorkPart, change: (part: WorkPart) => WorkPart | undefined): WorkPart {
  const changed = change(part);
  if (changed !== undefined) return changed;
  if (part.kind !== 'cut') return part;
  let same = true;
  const parts = part.parts.map((inner) => {
    const mappedInner = mapped(inner, change);
    if (mappedInner !== inner) same = false;
    return mappedInner;
  });
  return same ? part : cutOf(part.crosscut, parts);
}

export interface Leaves {
  readonly pieces: readonly WorkPiece[];
  readonly leftovers: readonly WorkLeftover[];
  readonly cuts: readonly WorkCut[];
}

export function leavesOf(root: WorkPart): Leaves {
  const pieces: WorkPiece[] = [];
  const leftovers: WorkLeftover[] = [];
  const cuts: WorkCut[] = [];
  const open: WorkPart[] = [root];
  for (let part = open.pop(); part !== undefined; part = open.pop()) {
    if (part.kind === 'piece') pieces.push(part);
    else if (part.kind === 'leftover') leftovers.push(part);
    else {
      cuts.push(part);
      for (let index = part.parts.length - 1; index >= 0; index--) open.push(part.parts[index]!);
    }
  }
  return { pieces, leftovers, cuts };
}

/**
 * A leftover with a block of pieces in its near corner, `columns` by `rows` of one kind; what remains of it is cut
 * off across (`crosscutFirst`) or along first. Undefined when the block does not fit.
 */
export function filled(
  leftover: WorkLeftover,
  piece: Omit<WorkPiece, 'kind' | 'name'>,
  block: { readonly columns: number; readonly rows: number; readonly crosscutFirst: boolean },
): WorkPart | undefined {
  const { columns, rows, crosscutFirst } = block;
  const [width, length] = [columns * piece.width, rows * piece.length];
  const [restAcross, restAlong] = [leftover.width - width, leftover.length - length];
  if (restAcross < 0 || restAlong < 0) return undefined;
  let part = gridOf(columns, rows, piece);
  if (crosscutFirst) {
    if (restAcross > 0) part = cutOf(false, [part, leftoverOf(restAcross, length)]);
    if (restAlong > 0) part = cutOf(true, [part, leftoverOf(leftover.width, restAlong)]);
    return part;
  }
  if (restAlong > 0) part = cutOf(true, [part, leftoverOf(width, restAlong)]);
  if (restAcross > 0) part = cutOf(false, [part, leftoverOf(restAcross, leftover.length)]);
  return part;
}

/**
 * The same pieces with the two leftovers of a corner cut the other way round:
 * ```
 *   s s s        t s        [ [kept | t] / s ]  becomes  [ [kept / s] | t ]
 *   k t          k t
 * ```
 * Undefined where the cut has no such corner.
 */
export function flipped(cut: WorkCut): WorkPart | undefined {
  if (cut.parts.length !== 2) return undefined;
  const [inner, slack] = cut.parts as [WorkPart, WorkPart];
  if (slack.kind !== 'leftover' || inner.kind !== 'cut' || inner.parts.at(-1)!.kind !== 'leftover')
    return undefined;
  const kept = inner.parts.slice(0, -1);
  const [s, t] = [sizeAlong(slack, cut.crosscut), sizeAlong(inner.parts.at(-1)!, inner.crosscut)];
  const keptPart = kept.length === 1 ? kept[0]! : cutOf(inner.crosscut, kept);
  const rest = (size: number, other: number, crosscut: boolean) =>
    crosscut ? leftoverOf(other, size) : leftoverOf(size, other);
  const near = cutOf(cut.crosscut, [keptPart, rest(s, sizeAlong(keptPart, !cut.crosscut), cut.crosscut)]);
  return cutOf(inner.crosscut, [near, rest(t, sizeAlong(near, !inner.crosscut), inner.crosscut)]);
}

/** A grid cut the other way first: two or more parts, all cut at the same places. Undefined where they are not. */
export function transposed(cut: WorkCut): WorkPart | undefined {
  const rows: WorkCut[] = [];
  for (const part of cut.parts) {
    if (part.kind !== 'cut') return undefined;
    rows.push(part);
  }
  const first = rows[0]!;
  const crosscut = first.crosscut;
  for (const row of rows) {
    if (row.parts.length !== first.parts.length) return undefined;
    for (const [index, part] of row.parts.entries()) {
      if (sizeAlong(part, crosscut) !== sizeAlong(first.parts[index]!, crosscut)) return undefined;
    }
  }
  return cutOf(
    crosscut,
    first.parts.map((_, index) =>
      cutOf(
        cut.crosscut,
        rows.map((row) => row.parts[index]!),
      ),
    ),
  );
}
