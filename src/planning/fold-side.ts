import type { PlainBox } from '../geometry/walk.ts';
import type { LengthPlan } from '../model/cut-plan.ts';
import type { CutTree } from '../model/cut-tree.ts';
import type { PieceId } from '../model/piece.ts';
import { type Ticks, ticks } from '../units/ticks.ts';
import { partsOf } from './joined.ts';

type Tree = CutTree<PieceId>;
type Touching = 'none' | 'apart' | 'across' | 'mixed';

/** What lies at the fold of a folded lay, and under each piece of its upper ply. */
export class FoldSide {
  readonly at: Ticks;
  /** How far the edge that is folded over reaches; a tick short of the far edge is at it. */
  readonly #overTo: number;
  /** Pieces of the lower ply as they lie once folded over. */
  readonly #lowerBoxes: PlainBox<number>[] = [];
  /** Pieces of the lower ply by the near corner they have when folded over; a piece across the fold has none there. */
  readonly #lower = new Map<string, PieceId>();
  /** Near ends of the leftovers to keep that lie across the fold. */
  readonly #kept = new Set<number>();

  constructor(length: LengthPlan, foldAt: Ticks) {
    this.at = foldAt;
    this.#overTo = 2 * foldAt < length.width - 1 ? 2 * foldAt : length.width;
    const whole = { x0: ticks(0), y0: ticks(0), x1: length.width, y1: length.length };
    const waiting: { readonly tree: Tree; readonly box: PlainBox<Ticks> }[] = [
      { tree: length.tree, box: whole },
    ];
    for (let next = waiting.pop(); next; next = waiting.pop()) {
      const { tree, box } = next;
      if (tree.kind === 'cut') waiting.push(...partsOf(tree, box));
      if (tree.kind === 'remnant' && box.x0 < foldAt && box.x1 > foldAt) this.#kept.add(box.y0);
      if (tree.kind === 'piece' && box.x1 <= foldAt) {
        const over = { ...box, x0: 2 * foldAt - box.x1, x1: 2 * foldAt - box.x0 };
        this.#lower.set(corner(over.x0, over.y0), tree.piece);
        this.#lowerBoxes.push(over);
      }
    }
  }

  /** The piece under an upper one that begins at the near corner of `box`; undefined under one that lies across the fold. */
  lowerPieceAt(box: PlainBox<Ticks>): PieceId | undefined {
    return this.#lower.get(corner(box.x0, box.y0));
  }

  /**
   * How much of a part, from its near edge, lies in two plies. What was cut off from the fold and holds no piece in the
   * other ply, such as the selvedge of the edge that is folded over, is an offcut that has been taken away.
   */
  doubledIn(box: PlainBox<Ticks>, slit: boolean): number {
    const doubled = Math.min(box.x1, this.#overTo) - box.x0;
    if (doubled <= 0) return 0;
    const hangsOn = box.x0 === this.at && !slit;
    return hangsOn || this.#lowerBoxes.some((piece) => meets(piece, box)) ? doubled : 0;
  }

  /**
   * Whether the fold is to be slit along this part before it is cut up: two plies of pieces meet in the fold, and nothing
   * that is kept lies across it. A part that is first crosscut leaves the slitting to its own parts.
   */
  slitsHere(tree: Tree, box: PlainBox<Ticks>): boolean {
    if (box.x0 !== this.at || (tree.kind === 'cut' && tree.direction === 'crosscut')) return false;
    return this.#touching(tree, box) === 'apart';
  }

  #touching(tree: Tree, box: PlainBox<Ticks>): Touching {
    if (box.x0 !== this.at) return 'none';
    if (tree.kind === 'piece') return this.lowerPieceAt(box) === undefined ? 'across' : 'apart';
    if (tree.kind === 'remnant' && this.#kept.has(box.y0)) return 'across';
    if (tree.kind !== 'cut') return 'none';
    const found = new Set(
      partsOf(tree, box)
        .map((part) => this.#touching(part.tree, part.box))
        .filter((kind) => kind !== 'none'),
    );
    if (found.size > 1) return 'mixed';
    return [...found][0] ?? 'none';
  }
}

function meets(one: PlainBox<number>, other: PlainBox<number>): boolean {
  return one.x0 < other.x1 && other.x0 < one.x1 && one.y0 < other.y1 && other.y0 < one.y1;
}

function corner(x: number, y: number): string {
  return `${x} ${y}`;
}
