import type { CutDirection, CutTree } from '../model/cut-tree.ts';

/**
 * Proves one packed sheet against what was asked, sharing no code with whatever packed it. Every type here is plain
 * structure, so a caller passes what it has. x runs across the width, y along the length; all numbers in one unit.
 */
export interface SheetShape {
  readonly width: number;
  /** The longest allowed; Infinity for an open strip. */
  readonly length: number;
  readonly forbidden?: readonly BoxShape[];
  readonly fixed?: readonly { kind: number; x0: number; y0: number; turned: boolean }[];
  readonly mirrorAt?: number;
  readonly copies?: number;
  readonly cost?: number;
}

export interface KindShape {
  readonly width: number;
  readonly length: number;
  readonly copies: number;
  readonly quarterTurn: boolean;
  readonly value?: number;
  readonly lattice?: PointsShape & { readonly or?: PointsShape };
}

export interface PointsShape {
  readonly x?: { readonly period: number; readonly offsets: readonly number[] };
  readonly y?: { readonly period: number; readonly offsets: readonly number[] };
}

export interface PackedShape {
  readonly sheet: number;
  readonly width: number;
  readonly length: number;
  readonly tree: CutTree<number, number>;
}

export interface BoxShape {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

export type StageLimit = 2 | 3 | 'any';

/** A leaf of the tree where it lies; `level` counts the cut stages above it, an unused first crosscut included. */
export interface PlacedLeaf extends BoxShape {
  readonly leaf: 'piece' | 'leftover';
  readonly kind: number;
  readonly turned: boolean;
  readonly trail: Trail | undefined;
}

/** The way down from the root as a chain, so that a deep tree costs no more than a flat one. */
export interface Trail {
  readonly index: number;
  readonly above: Trail | undefined;
}

export type SheetProblem =
  | { readonly code: 'sheet-unknown'; readonly sheet: number }
  | { readonly code: 'sheet-width'; readonly found: number; readonly wanted: number }
  | { readonly code: 'sheet-length'; readonly found: number; readonly most: number }
  | {
      readonly code: 'cut-shape';
      readonly path: readonly number[];
      readonly cuts: number;
      readonly parts: number;
    }
  | {
      readonly code: 'cut-position';
      readonly path: readonly number[];
      readonly at: number;
      readonly after: number;
      readonly before: number;
    }
  | { readonly code: 'too-many-stages'; readonly path: readonly number[]; readonly stages: number }
  | { readonly code: 'kind-unknown'; readonly path: readonly number[]; readonly kind: number }
  | {
      readonly code: 'piece-size';
      readonly path: readonly number[];
      readonly kind: number;
      readonly found: readonly [number, number];
      readonly wanted: readonly [number, number];
    }
  | {
      readonly code: 'piece-turned';
      readonly path: readonly number[];
      readonly kind: number;
      readonly quarterTurns: number;
    }
  | {
      readonly code: 'piece-forbidden';
      readonly path: readonly number[];
      readonly kind: number;
      readonly box: BoxShape;
      readonly forbidden: BoxShape;
    }
  | {
      readonly code: 'piece-off-lattice';
      readonly path: readonly number[];
      readonly kind: number;
      readonly axis: 'x' | 'y';
      readonly at: number;
    }
  | {
      readonly code: 'fixed-missing';
      readonly index: number;
      readonly kind: number;
      readonly x0: number;
      readonly y0: number;
    }
  | {
      readonly code: 'mirror-missing';
      readonly path: readonly number[];
      readonly kind: number;
      readonly box: BoxShape;
    };

/**
 * All that is wrong with one packed sheet: sizes and cuts, pieces, forbidden boxes, fixed places, lattice, mirror and
 * stages; an empty list when it is sound. How many of each kind there are is `checkPacking`'s to say.
 *
 * A fixed placement is taken as it was ordered: it may be turned or off the lattice, but not over a forbidden box.
 * With `mirrorAt` every piece needs its like at the mirrored place; only a fixed piece may be its own mirror image.
 */
export function checkSheet(
  packed: PackedShape,
  sheet: SheetShape,
  kinds: readonly KindShape[],
  stages: StageLimit = 'any',
): readonly SheetProblem[] {
  const problems: SheetProblem[] = [];
  if (packed.width !== sheet.width) {
    problems.push({ code: 'sheet-width', found: packed.width, wanted: sheet.width });
  }
  if (!(packed.length <= sheet.length) || !Number.isSafeInteger(packed.length) || packed.length < 0) {
    problems.push({ code: 'sheet-length', found: packed.length, most: sheet.length });
  }
  const leaves = placedLeaves(packed, problems, stages);
  const pieces = leaves.filter((leaf) => leaf.leaf === 'piece');
  const fixedPaths = checkFixed(pieces, sheet, kinds, problems);
  for (const piece of pieces) checkPiece(piece, fixedPaths.has(piece), sheet, kinds, problems);
  if (sheet.mirrorAt !== undefined) checkMirror(pieces, fixedPaths, sheet.mirrorAt, problems);
  return problems;
}

type Tree = CutTree<number, number>;

interface Part extends BoxShape {
  readonly tree: Tree;
  readonly trail: Trail | undefined;
  /** Direction of the cut that made this part, and how many stages that cut stands at. */
  readonly direction: CutDirection;
  readonly level: number;
}

/** Every leaf at its place, by a stack and not by recursion; what is wrong with the cuts goes to `problems`. */
export function placedLeaves(
  packed: PackedShape,
  problems: SheetProblem[] = [],
  stages: StageLimit = 'any',
): readonly PlacedLeaf[] {
  const leaves: PlacedLeaf[] = [];
  const root: Part = {
    ...{ x0: 0, y0: 0, x1: packed.width, y1: packed.length },
    ...{ tree: packed.tree, trail: undefined, direction: 'crosscut', level: 1 },
  };
  const open: Part[] = [root];
  for (let part = open.pop(); part !== undefined; part = open.pop()) {
    const { x0, y0, x1, y1, tree, trail } = part;
    if (tree.kind === 'cut') {
      const parts = cutParts(part, tree, problems, stages);
      for (let index = parts.length - 1; index >= 0; index--) open.push(parts[index]!);
    } else if (tree.kind === 'piece') {
      const turned = tree.quarterTurns % 2 === 1;
      if (tree.quarterTurns !== 0 && tree.quarterTurns !== 1) {
        problems.push({
          code: 'piece-turned',
          path: pathOf(trail),
          kind: tree.piece,
          quarterTurns: tree.quarterTurns,
        });
      }
      leaves.push({ x0, y0, x1, y1, leaf: 'piece', kind: tree.piece, turned, trail });
    } else {
      leaves.push({ x0, y0, x1, y1, leaf: 'leftover', kind: -1, turned: false, trail });
    }
  }
  return leaves;
}

function cutParts(
  part: Part,
  tree: Extract<Tree, { kind: 'cut' }>,
  problems: SheetProblem[],
  stages: StageLimit,
): readonly Part[] {
  const { trail, x0, y0, x1, y1 } = part;
  const level = tree.direction === part.direction ? part.level : part.level + 1;
  if (stages !== 'any' && level > stages && !(level === stages + 1 && onlyTrims(tree))) {
    problems.push({ code: 'too-many-stages', path: pathOf(trail), stages: level });
  }
  if (tree.parts.length < 2 || tree.at.length !== tree.parts.length - 1) {
    problems.push({ code: 'cut-shape', path: pathOf(trail), cuts: tree.at.length, parts: tree.parts.length });
    return [];
  }
  const crosscut = tree.direction === 'crosscut';
  const extent = crosscut ? y1 - y0 : x1 - x0;
  let before = 0;
  for (const at of tree.at) {
    if (!Number.isSafeInteger(at) || at <= before || at >= extent) {
      problems.push({ code: 'cut-position', path: pathOf(trail), at, after: before, before: extent });
      return [];
    }
    before = at;
  }
  return tree.parts.map((child, index) => {
    const from = index === 0 ? 0 : tree.at[index - 1]!;
    const to = index === tree.at.length ? extent : tree.at[index]!;
    const box = crosscut ? { x0, y0: y0 + from, x1, y1: y0 + to } : { x0: x0 + from, y0, x1: x0 + to, y1 };
    return { ...box, tree: child, trail: { index, above: trail }, direction: tree.direction, level };
  });
}

/** A trimming cut frees one piece from leftovers and makes nothing else. */
function onlyTrims(tree: Extract<Tree, { kind: 'cut' }>): boolean {
  if (tree.parts.some((part) => part.kind === 'cut')) return false;
  return tree.parts.filter((part) => part.kind === 'piece').length <= 1;
}

/** Finds each fixed placement among the pieces; each piece answers for one placement only. */
function checkFixed(
  pieces: readonly PlacedLeaf[],
  sheet: SheetShape,
  kinds: readonly KindShape[],
  problems: SheetProblem[],
): ReadonlySet<PlacedLeaf> {
  const found = new Set<PlacedLeaf>();
  for (const [index, { kind, x0, y0, turned }] of (sheet.fixed ?? []).entries()) {
    const square = kinds[kind]?.width === kinds[kind]?.length;
    const piece = pieces.find(
      (at) =>
        !found.has(at) &&
        at.kind === kind &&
        at.x0 === x0 &&
        at.y0 === y0 &&
        (at.turned === turned || (square && kinds[kind]!.quarterTurn)),
    );
    if (piece === undefined) problems.push({ code: 'fixed-missing', index, kind, x0, y0 });
    else found.add(piece);
  }
  return found;
}

function checkPiece(
  piece: PlacedLeaf,
  fixed: boolean,
  sheet: SheetShape,
  kinds: readonly KindShape[],
  problems: SheetProblem[],
): void {
  const { x0, y0, x1, y1, turned } = piece;
  const kind = kinds[piece.kind];
  if (kind === undefined) {
    problems.push({ code: 'kind-unknown', path: pathOf(piece.trail), kind: piece.kind });
    return;
  }
  const wanted = turned ? ([kind.length, kind.width] as const) : ([kind.width, kind.length] as const);
  if (x1 - x0 !== wanted[0] || y1 - y0 !== wanted[1]) {
    problems.push({
      code: 'piece-size',
      path: pathOf(piece.trail),
      kind: piece.kind,
      found: [x1 - x0, y1 - y0],
      wanted,
    });
  }
  if (turned && !fixed && (!kind.quarterTurn || kind.lattice !== undefined)) {
    problems.push({ code: 'piece-turned', path: pathOf(piece.trail), kind: piece.kind, quarterTurns: 1 });
  }
  for (const forbidden of sheet.forbidden ?? []) {
    const apart = x1 <= forbidden.x0 || x0 >= forbidden.x1 || y1 <= forbidden.y0 || y0 >= forbidden.y1;
    const empty = forbidden.x0 >= forbidden.x1 || forbidden.y0 >= forbidden.y1;
    if (apart || empty) continue;
    problems.push({
      code: 'piece-forbidden',
      path: pathOf(piece.trail),
      kind: piece.kind,
      box: { x0, y0, x1, y1 },
      forbidden,
    });
  }
  if (fixed) return;
  const offAxes = (lattice: PointsShape) =>
    (['x', 'y'] as const).filter((axis) => {
      const points = lattice[axis];
      const at = axis === 'x' ? x0 : y0;
      return points && !points.offsets.some((offset) => (at - offset) % points.period === 0);
    });
  const { lattice } = kind;
  if (!lattice || (lattice.or && offAxes(lattice.or).length === 0)) return;
  for (const axis of offAxes(lattice)) {
    const at = axis === 'x' ? x0 : y0;
    problems.push({ code: 'piece-off-lattice', path: pathOf(piece.trail), kind: piece.kind, axis, at });
  }
}

function checkMirror(
  pieces: readonly PlacedLeaf[],
  fixed: ReadonlySet<PlacedLeaf>,
  mirrorAt: number,
  problems: SheetProblem[],
): void {
  const nameOf = (kind: number, x0: number, y0: number, x1: number, y1: number) =>
    [kind, x0, y0, x1, y1].join(' ');
  const names = new Set(pieces.map(({ kind, x0, y0, x1, y1 }) => nameOf(kind, x0, y0, x1, y1)));
  for (const piece of pieces) {
    const { kind, x0, y0, x1, y1 } = piece;
    const ownMirror = x0 + x1 === 2 * mirrorAt;
    if (
      ownMirror ? fixed.has(piece) : names.has(nameOf(kind, 2 * mirrorAt - x1, y0, 2 * mirrorAt - x0, y1))
    ) {
      continue;
    }
    problems.push({ code: 'mirror-missing', path: pathOf(piece.trail), kind, box: { x0, y0, x1, y1 } });
  }
}

function pathOf(trail: Trail | undefined): readonly number[] {
  const path: number[] = [];
  for (let at = trail; at !== undefined; at = at.above) path.push(at.index);
  return path.reverse();
}
