import type { Ticks } from '../units/ticks.ts';
import type { ClothDirection, ClothName, Crease, Flaw, Selvedges, Worth } from './cloth.ts';
import type { PlanUnit } from './plan.ts';
import type { WrittenPanel } from './reading/panel-fields.ts';

/** What lies in the cupboard, as its file tells it: every length in ticks, every default filled in. */
export interface Cupboard {
  readonly name: string;
  /** What a bare number means, and what is printed. */
  readonly unit: PlanUnit;
  readonly currency: string;
  readonly entries: readonly CupboardEntry[];
  /** Plans that were cut from it, oldest first; by them no plan is taken out twice. */
  readonly cut: readonly PlanCut[];
}

/** One length or remnant, or several alike. */
export interface CupboardEntry {
  readonly name: string;
  readonly cloth: ClothName;
  /** Overall, edge to edge, and along the selvedge; both as measured. */
  readonly width: Ticks;
  readonly length: Ticks;
  readonly selvedge: Selvedges;
  readonly crease: Crease;
  /** Which grain the length runs along. Across it there are neither selvedges nor crease. */
  readonly grain: EntryGrain;
  /** Absent: as the cloth of the plan that draws on it. */
  readonly direction?: ClothDirection;
  readonly printRuns?: 'along' | 'across';
  readonly washed: boolean;
  readonly where?: string;
  /** A calendar day, `2026-03-14` (ISO 8601). */
  readonly since?: string;
  readonly count: number;
  /** Holes, stains and cut-away corners, seen as its width and length were measured. */
  readonly flaws?: readonly Flaw[];
  /** Where a repeat of its cloth's printed panels begins, from the near end; at the end itself unless said. */
  readonly panelsBegin?: Ticks;
  /** Its own printed panels, once each, as they lie on it; an empty list where it has none of its cloth's. */
  readonly panels?: readonly WrittenPanel[];
  /** What using it is worth: its own, or that of the whole cupboard. */
  readonly worth?: Worth;
  readonly note?: string;
}

export type EntryGrain = 'lengthwise' | 'crosswise' | 'unknown';

/** One plan whose cutting is done. */
export interface PlanCut {
  readonly plan: string;
  readonly on: string;
  /** Sixteen hexadecimal digits of the plan's content. */
  readonly mark: string;
}

/** What a plan says of the cupboard it drew on. */
export interface CupboardDrawn {
  readonly name: string;
  /** Plans cut from it before this one was made, so that planning the same again later makes another plan. */
  readonly cutBefore: number;
  /** Its file, seen from where the plan was made. */
  readonly file?: string;
}

/** The names under which the copies of an entry are cut: `end of bolt`, or `end of bolt 1`, `end of bolt 2`. */
export function copyNames(name: string, count: number): readonly string[] {
  return count === 1 ? [name] : Array.from({ length: count }, (_, copy) => `${name} ${copy + 1}`);
}
