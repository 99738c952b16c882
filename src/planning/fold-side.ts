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
  /** Pieces of the lower ply by the near corner they have when folded over; a piece across the fold has none there. */
  readonly #lower = new Map<string, PieceId>();
  /** Near ends of the leftovers to keep that lie across the fold. */
  readonly #kept = new Set<number>();

  constructor(length: LengthPlan, foldAt: Ticks) {
    this.at = foldAt;
    const whole = { x0: ticks(0), y0: ticks(0), x1: length.width, y1: length.length };
    const waiting: { readonly tree: Tree; readonly box: PlainBox<Ticks> }[] = [
      { tree: length.tree, box: whole },
    ];
    for (let next = waiting.pop(); next; next = waiting.pop()) {
      const { tree, box } = next;
      if (tree.kind === 'cut') waiting.push(...partsOf(tree, box));
      if (tree.kind === 'remnant' && box.x0 < foldAt && box.x1 > foldAt) this.#kept.add(box.y0);
      if (tree.kind === 'piece' && box.x1 <= foldAt) {
        this.#lower.set(corner(2 * foldAt - box.x1, box.y0), tree.piece);
      }
    }
  }

  /** The piece under an upper one that begins at the near corner of `box`; undefined under one that lies across the fold. */
  lowerPieceAt(box: PlainBox<Ticks>): PieceId | undefined {
    return this.#lower.get(corner(box.x0, box.y0));
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

function corner(x: number, y: number): string {
  return `${x} ${y}`;
}
