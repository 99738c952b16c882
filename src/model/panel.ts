import type { Ticks } from '../units/ticks.ts';
import type { ClothName } from './cloth.ts';
import type { QuarterTurns } from './cut-tree.ts';

/** A printed area that is cut around whole. Measures as the cloth was measured, before washing like its width. */
export interface Panel {
  readonly name: string;
  /** Its near left corner: across from the left outer edge, along from the near end or from where a repeat of the panels begins. */
  readonly x: Ticks;
  readonly y: Ticks;
  /** As it lies on the cloth: across and along. */
  readonly width: Ticks;
  readonly length: Ticks;
  /** Counter-clockwise quarter turns from how the picture stands to how it lies: 0 with its top to the far end. */
  readonly turned: QuarterTurns;
}

/** The printed panels of a cloth. */
export interface Panels {
  /** Empty where only lengths in hand tell their own. */
  readonly areas: readonly Panel[];
  /** After so much of the length all of them come again; absent where they come once, counted from the near end of each length. */
  readonly every?: Ticks;
  /** Centre of a motif of the print about them, from where each repeat of the panels begins; absent where it is not known. */
  readonly firstMotif?: Ticks;
  /** How a bought length begins: cut by the shop where a repeat begins, in whole repeats, or anywhere. */
  readonly sold: 'in-repeats' | 'anywhere';
  /** What becomes of a panel that no piece takes: kept whole, or used as if nothing were printed there. */
  readonly untaken: 'keep' | 'use';
}

/** What a part asks of the panels: which ones its copies hold, dealt in turn, and how a panel smaller than the piece is mounted. */
export interface PanelAsked {
  readonly names: readonly string[];
  readonly mount?: Mount;
}

/** How a panel is made up to the size of its front: borders sewn on, or the panel turned under and sewn on to a ground. */
export type Mount =
  | { readonly kind: 'strips'; readonly cloth: ClothName; readonly seam: Ticks }
  | { readonly kind: 'ground'; readonly cloth: ClothName; readonly turn: Ticks };

/** Why a panel cannot be had as it is asked for; wording lives in `messages.ts`. */
export type PanelFault =
  | 'outside'
  | 'overlaps'
  | 'sizes-differ'
  | 'unknown'
  | 'no-panels'
  | 'with-match'
  | 'with-choice'
  | 'without-every'
  | 'too-large'
  | 'too-few'
  | 'spoilt'
  | 'crowded'
  | 'off-grain'
  | 'in-fold'
  | 'on-fold'
  | 'beside-match'
  | 'begun-apart'
  | 'step'
  | 'wash-turns'
  | 'no-way';
