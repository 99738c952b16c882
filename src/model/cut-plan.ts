import type { Ticks } from '../units/ticks.ts';
import type { ClothName } from './cloth.ts';
import type { ClothChoice } from './collection.ts';
import type { CutTree } from './cut-tree.ts';
import type { Issue } from './issue.ts';
import type { ClothUses, UseAcross } from './leftover-use.ts';
import type { JoinedPiece, MakeSheet, PieceId, PieceWanted } from './piece.ts';
import type { Plan } from './plan.ts';

/** The answer to a plan. Positions are in no field: they are read off the trees. */
export interface CutPlan {
  readonly plan: Plan;
  /** What is cut: in the place of a piece that had to be joined stand its parts. */
  readonly pieces: readonly PieceWanted[];
  readonly joined: readonly JoinedPiece[];
  readonly makes: readonly MakeSheet[];
  /** Cloths that are cut as one, and those that could be at a price; absent or empty where there are none. */
  readonly stacks?: readonly Stack[];
  /** In the order of the plan's cloths; a cloth that nothing is cut from is left out. */
  readonly cloths: readonly ClothPlan[];
  /** Present where the plan left the cloth of a part open. */
  readonly choice?: ClothChoice;
  /** What the leftovers could become, where the plan lists what it would like; cloths that leave something, in order. */
  readonly uses?: readonly ClothUses[];
  /** What leftovers of several cloths could become together; empty or absent where nothing that was tried. */
  readonly usesAcross?: readonly UseAcross[];
  readonly issues: readonly Issue[];
}

/** One length of a stack. */
export interface StackLayer {
  readonly cloth: ClothName;
  /** By the name of its `LengthPlan`. */
  readonly length: string;
}

/**
 * Lengths of several cloths that are cut as one, laid on each other with their near ends and one edge aligned. Their
 * trees are the same but for what lies beside and beyond the pieces.
 */
export interface Stack {
  /** In the order of the plan's cloths; one ply each. */
  readonly layers: readonly StackLayer[];
  readonly edge: 'left' | 'right';
  /** Whether the plan cuts them so. Where not, `layers` are cut each by itself, and this says what a stack would do. */
  readonly taken: boolean;
  /** Each cloth is crosscut into its sections by itself, and like sections are then laid on each other. */
  readonly sectionsFirst?: true;
  /** Passes of the blade when each is cut by itself, in the plan that is best for it alone, and when they are stacked. */
  readonly cutsApart: number;
  readonly cutsStacked: number;
  /** How many of `cutsStacked` are made with scissors, since no fold that the plies leave brings them within the ruler. */
  readonly withScissors: number;
  /** What stacking adds to what is bought, layer by layer; below 0 where it happens to need less. */
  readonly extraBought: readonly Ticks[];
  /** The same in hundredths over all layers; absent where one that is bought has no price. */
  readonly extraCost?: number;
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
  /** What matching the print costs: bought beyond what the same pieces would need unmatched; absent where nothing is matched. */
  readonly matchingCosts?: Ticks;
  /** Ways to lay this cloth of which none is better in every respect, least cloth first; the plan follows the chosen one. */
  readonly ways?: readonly LayWay[];
}

/** What one way of laying a cloth takes: cloth and money on one side, work on the other. */
export interface LayWay {
  /** `part-folded`: folded off the middle, so that some of it lies in one ply. */
  readonly lay: Lay['kind'] | 'part-folded';
  /** 0 where all is cut from lengths in hand. */
  readonly bought: Ticks;
  /** In hundredths; absent without a price. */
  readonly cost?: number;
  /** Passes of the blade, and folds made for them. */
  readonly strokes: number;
  readonly folds: number;
  /** Pieces cut beyond what is wanted. */
  readonly spare: number;
  readonly chosen: boolean;
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
  /** Laid once for all its cuts: no part is folded or stacked again. */
  readonly oneSpread?: true;
  /** Present where it is matched and no one knows where its print starts; then its first cut begins it. */
  readonly begins?: PrintBegin;
  readonly tree: CutTree<PieceId>;
}

/**
 * How a length is begun whose print may start anywhere: cloth is cut off its near end up to the right place in the print. The
 * tree is drawn as if all of `within` went there, so what is left at the far end is told as the least that it can be.
 */
export interface PrintBegin {
  /** The most that goes beyond the squaring: one repeat as it lies on the table. */
  readonly within: Ticks;
  /**
   * From the cut to the centre of the first motif. Absent where pieces only have to be like each other: then all lengths
   * of the cloth are begun at one place of the print.
   */
  readonly motif?: Ticks;
  /** Of a half drop: how far from the left outer edge lies a column of motifs that are meant. */
  readonly column?: Ticks;
}
