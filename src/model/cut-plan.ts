import type { Ticks } from '../units/ticks.ts';
import type { ClothName } from './cloth.ts';
import type { ClothChoice } from './collection.ts';
import type { CutTree } from './cut-tree.ts';
import type { Issue } from './issue.ts';
import type { JoinedPiece, MakeSheet, PieceId, PieceWanted } from './piece.ts';
import type { Plan } from './plan.ts';

/** The answer to a plan. Positions are in no field: they are read off the trees. */
export interface CutPlan {
  readonly plan: Plan;
  /** What is cut: in the place of a piece that had to be joined stand its parts. */
  readonly pieces: readonly PieceWanted[];
  readonly joined: readonly JoinedPiece[];
  readonly makes: readonly MakeSheet[];
  /** In the order of the plan's cloths; a cloth that nothing is cut from is left out. */
  readonly cloths: readonly ClothPlan[];
  /** Present where the plan left the cloth of a part open. */
  readonly choice?: ClothChoice;
  readonly issues: readonly Issue[];
}

export interface ClothPlan {
  readonly cloth: ClothName;
  readonly lengths: readonly LengthPlan[];
  readonly purchase?: Purchase;
  /** Pieces cut beyond what was wanted, declared: a folded lay of an odd number, say. */
  readonly surplus: readonly { readonly piece: PieceId; readonly copies: number }[];
  /** `best`: no plan of this kind needs less cloth, proven. `found`: it may, by no more than down to `bound`. */
  readonly answer: 'best' | 'found';
  /** Least length of cloth that any plan can need, squaring included; absent when nothing is bought. */
  readonly bound?: Ticks;
}

export interface Purchase {
  /** What the cuts need, with squaring and the washing reserve, over all lengths bought. */
  readonly needed: Ticks;
  /** That, each length rounded up to the shop's step. */
  readonly bought: Ticks;
  /** One entry a length to ask for; more than one only where the shop sells no length that long. */
  readonly lengths: readonly { readonly needed: Ticks; readonly bought: Ticks }[];
  /** In hundredths; absent without a price. */
  readonly cost?: number;
}

/** How a length is spread for the cutter. */
export type Lay =
  | { readonly kind: 'flat' }
  /** Folded lengthwise at this x of the opened cloth; the tree is mirrored about it. */
  | { readonly kind: 'folded'; readonly foldAt: Ticks };

/** One length of cloth as a cut tree of the whole opened cloth: selvedges, crease strips and squared ends are its trim. */
export interface LengthPlan {
  /** Unique in its cloth: `bought`, or the name of the length in hand with a number where it has copies. */
  readonly name: string;
  readonly source: 'bought' | 'in-hand';
  /** As it lies on the table: overall width, and the whole length that was bought or is at hand (washed where it is washed). */
  readonly width: Ticks;
  readonly length: Ticks;
  readonly lay: Lay;
  readonly tree: CutTree<PieceId>;
}
