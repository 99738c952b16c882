import type {
  Box,
  Kind,
  Lattice,
  LatticePoints,
  PackOptions,
  Placement,
  Sheet,
  Stages,
} from '../instance.ts';
import type { PackedSheet, PackResult, SheetTree } from '../result.ts';
import { isLeftover, mirrored, placedCut, REMNANT, type SizedTree, sizedParts } from './placed-tree.ts';

/**
 * What is cut twice, mirrored at a line, is packed once into the near half and then opened:
 * ```
 *   | margin | half | gap | its image | far margin |
 *                      ^ mirrorAt
 * ```
 * Beyond the image of either edge nothing can be cut twice: that is a margin. The gap is one unit wide when the mirror
 * lies between two whole numbers, else there is none.
 */
export interface Opening {
  readonly margin: number;
  readonly halfWidth: number;
  readonly gap: number;
  readonly farMargin: number;
  /** Kinds of the half that stand for one half of a piece cut on the fold, with the kind that they are half of. */
  readonly onFold: ReadonlyMap<number, number>;
}

export interface Halved {
  readonly sheets: readonly Sheet[];
  readonly kinds: readonly Kind[];
  readonly openings: readonly Opening[];
  /** Why the fixed pieces cannot be cut twice; then the rest is of no use. */
  readonly fault: string | undefined;
}

/**
 * The question about the near halves of mirrored sheets. A place is free where it and its image are, and on the lattice
 * likewise. A fixed piece across the mirror must be its own image: it is cut on the fold, and stands in the half as a
 * fixed half piece. All other copies are cut in pairs, `round(copies ÷ 2)` of them.
 */
export function halvedQuestion(
  sheets: readonly Sheet[],
  kinds: readonly Kind[],
  round: (pairs: number) => number,
): Halved {
  let fault: string | undefined;
  const halfKinds: Kind[] = [];
  const ownImages = kinds.map(() => 0);
  const foldKinds: Kind[] = [];
  const openings: Opening[] = [];
  const halves = sheets.map((sheet): Sheet => {
    const mirrorAt = sheet.mirrorAt!;
    const reach = Math.min(mirrorAt, sheet.width - mirrorAt);
    const near = Math.ceil(mirrorAt - reach);
    const to = Math.floor(mirrorAt);
    const onFold = new Map<number, number>();
    const fixed: Placement[] = [];
    for (const place of sheet.fixed ?? []) {
      const { kind, x0, y0, turned } = place;
      const { width, length } = kinds[kind]!;
      const x1 = x0 + (turned ? length : width);
      if (x0 + x1 === 2 * mirrorAt) {
        const index = kinds.length + foldKinds.length;
        const worth = kinds[kind]!.value ?? width * length;
        const size = { width: to - x0, length: turned ? width : length };
        foldKinds.push({ ...size, copies: 1, quarterTurn: false, value: worth / 2 });
        onFold.set(index, kind);
        ownImages[kind]! += 1;
        fixed.push({ kind: index, x0: x0 - near, y0, turned: false });
      } else if (x0 < mirrorAt && x1 > mirrorAt) {
        fault = `the piece of kind ${kind} fixed at ${x0}, ${y0} lies across the mirror, but not alike on both sides`;
      } else {
        const at = { kind, x0: (x1 <= mirrorAt ? x0 : 2 * mirrorAt - x1) - near, y0, turned };
        if (!fixed.some((other) => other.kind === kind && other.x0 === at.x0 && other.y0 === at.y0))
          fixed.push(at);
      }
    }
    openings.push({
      margin: near,
      halfWidth: to - near,
      gap: 2 * mirrorAt - 2 * to,
      farMargin: sheet.width - (2 * mirrorAt - near),
      onFold,
    });
    const { mirrorAt: _, forbidden = [], cost = sheet.width * sheet.length, ...rest } = sheet;
    return {
      ...rest,
      cost,
      width: to - near,
      fixed,
      forbidden: forbidden.flatMap((box) => nearBoxes(box, mirrorAt, near)),
    };
  });
  for (const [index, kind] of kinds.entries()) {
    const copies = round(Math.max(0, kind.copies - ownImages[index]!) / 2);
    const lattice =
      kind.lattice && halfLattice(kind.lattice, kind.width, sheets[0]!.mirrorAt!, openings[0]!.margin);
    const { lattice: _, ...plain } = kind;
    halfKinds.push({ ...plain, copies, ...(lattice ? { lattice } : {}) });
  }
  return { sheets: halves, kinds: [...halfKinds, ...foldKinds], openings, fault };
}

function nearBoxes({ x0, y0, x1, y1 }: Box, mirrorAt: number, near: number): readonly Box[] {
  return [
    { x0: x0 - near, y0, x1: x1 - near, y1 },
    { x0: 2 * mirrorAt - x1 - near, y0, x1: 2 * mirrorAt - x0 - near, y1 },
  ];
}

/** The points of a lattice whose images are points too, seen from the near edge of the half. */
function halfLattice({ or, ...own }: Lattice, width: number, mirrorAt: number, near: number): Lattice {
  const half = (points: LatticePoints) => halfPoints(points, width, mirrorAt, near);
  return { ...half(own), ...(or && { or: half(or) }) };
}

function halfPoints({ x, y }: LatticePoints, width: number, mirrorAt: number, near: number): LatticePoints {
  if (x === undefined) return y === undefined ? {} : { y };
  const isOn = (at: number) => x.offsets.some((offset) => (at - offset) % x.period === 0);
  const offsets = x.offsets.filter((at) => isOn(2 * mirrorAt - at - width)).map((at) => at - near);
  return { x: { period: x.period, offsets }, ...(y === undefined ? {} : { y }) };
}

/** The answer on the opened sheets; the value of a half is what the caller says it is worth opened. */
function openedResult(
  result: PackResult,
  { sheets, halved, worth }: { sheets: readonly Sheet[]; halved: Halved; worth: (half: number) => number },
): PackResult {
  if (result.status === 'impossible') return result;
  if (result.status === 'unknown') return { ...result, bound: worth(result.bound) };
  const opened = result.sheets.map((packed): PackedSheet => {
    const tree = openTree(packed.tree, packed.length, halved.openings[packed.sheet]!);
    return { ...packed, width: sheets[packed.sheet]!.width, tree };
  });
  return { ...result, value: worth(result.value), bound: worth(result.bound), sheets: opened };
}

/**
 * Opens an answer to the question about the halves. A column that holds a piece cut on the fold becomes one with its
 * image, so that its other pieces lie in pairs, one stage deeper: where that is a stage too many, the halves are
 * answered in two stages, in which a column holds one piece, with the bound of the first answer.
 */
export function answerOpened(
  answer: (options: PackOptions) => PackResult,
  options: PackOptions,
  opening: { sheets: readonly Sheet[]; halved: Halved; worth: (half: number) => number },
): PackResult {
  const { stages = 'any' } = options;
  const result = openedResult(answer(options), opening);
  if (result.status !== 'best' && result.status !== 'found') return result;
  if (result.sheets.every(({ tree }) => keepsStages(tree, stages))) return result;
  const shallow = openedResult(answer({ ...options, stages: 2 }), opening);
  const nodes = result.nodes + shallow.nodes;
  if (shallow.status !== 'best' && shallow.status !== 'found') {
    return { status: 'unknown', bound: result.bound, nodes };
  }
  const status = shallow.value === result.bound ? 'best' : 'found';
  return { ...shallow, status, bound: result.bound, nodes };
}

/** Whether a tree keeps a stage limit: crosscuts first, and one trimming cut more at the end. */
function keepsStages(root: SheetTree, stages: Stages): boolean {
  if (stages === 'any') return true;
  const open: { tree: SheetTree; level: number }[] = [
    { tree: root, level: root.kind === 'cut' && root.direction === 'lengthwise' ? 2 : 1 },
  ];
  for (let top = open.pop(); top !== undefined; top = open.pop()) {
    const { tree, level } = top;
    if (tree.kind !== 'cut') continue;
    const pieces = tree.parts.filter(({ kind }) => kind === 'piece').length;
    const trims = pieces <= 1 && tree.parts.every(({ kind }) => kind !== 'cut');
    if (level > stages + (trims ? 1 : 0)) return false;
    for (const part of tree.parts) open.push({ tree: part, level: level + 1 });
  }
  return true;
}

/**
 * The tree of an opened sheet from that of its near half. Crosscuts of the half run on through both sides, so that a
 * section is cut off before its halves are parted.
 */
export function openTree(half: SheetTree, length: number, opening: Opening): SheetTree {
  const { margin, halfWidth, farMargin } = opening;
  const section = (tree: SheetTree, long: number) =>
    isLeftover(tree)
      ? REMNANT
      : placedCut('lengthwise', [
          { tree: REMNANT, size: margin },
          ...pair(tree, halfWidth, long, opening),
          { tree: REMNANT, size: farMargin },
        ]);
  if (half.kind !== 'cut' || half.direction !== 'crosscut') return section(half, length);
  return placedCut(
    'crosscut',
    sizedParts(half, length).map(({ tree, size }) => ({ tree: section(tree, size), size })),
  );
}

/** A part that ends at the mirror, with its image; pieces cut on the fold become whole. */
function pair(tree: SheetTree, width: number, length: number, opening: Opening): readonly SizedTree[] {
  const { gap, onFold } = opening;
  if (!holdsFoldPiece(tree, onFold)) {
    const image = mirrored(tree, { x0: 0, y0: 0, x1: width, y1: length });
    return [
      { tree, size: width },
      { tree: REMNANT, size: gap },
      { tree: image, size: width },
    ];
  }
  const size = 2 * width + gap;
  if (tree.kind === 'piece') return [{ tree: { ...tree, piece: onFold.get(tree.piece)! }, size }];
  if (tree.kind !== 'cut') return [{ tree, size }];
  const parts = sizedParts(tree, tree.direction === 'crosscut' ? length : width);
  if (tree.direction === 'crosscut') {
    const sections = parts.map((part) => ({
      size: part.size,
      tree: placedCut('lengthwise', pair(part.tree, width, part.size, opening)),
    }));
    return [{ tree: placedCut('crosscut', sections), size }];
  }
  const outer = parts.slice(0, -1);
  const inner = parts.at(-1)!;
  const images = outer.map((part) => ({
    size: part.size,
    tree: mirrored(part.tree, { x0: 0, y0: 0, x1: part.size, y1: length }),
  }));
  return [...outer, ...pair(inner.tree, inner.size, length, opening), ...images.reverse()];
}

function holdsFoldPiece(root: SheetTree, onFold: ReadonlyMap<number, number>): boolean {
  if (onFold.size === 0) return false;
  const open: SheetTree[] = [root];
  for (let tree = open.pop(); tree !== undefined; tree = open.pop()) {
    if (tree.kind === 'piece' && onFold.has(tree.piece)) return true;
    if (tree.kind === 'cut') open.push(...tree.parts);
  }
  return false;
}
