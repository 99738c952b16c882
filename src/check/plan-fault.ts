import type { ClothName } from '../model/cloth.ts';
import type { CutDirection, QuarterTurns, TrimKind } from '../model/cut-tree.ts';
import type { Box, PieceId, Size } from '../model/piece.ts';
import type { Ticks } from '../units/ticks.ts';

/** Where a fault lies, as closely as it can be told. `box` is in the coordinates of the opened length. */
export interface FaultPlace {
  readonly cloth?: ClothName;
  readonly length?: string;
  readonly piece?: PieceId;
  readonly box?: Box;
}

/** What each kind of fault carries: lengths in ticks, areas in square ticks, money in hundredths. */
export interface FaultFigures {
  // The list of cloths and of pieces wanted.
  'cloth-unknown': Record<never, never>;
  'cloth-repeated': Record<never, never>;
  'cloth-out-of-order': Record<never, never>;
  'cloth-left-out': { readonly wanted: number };
  'piece-repeated': Record<never, never>;
  'piece-off-marks': { readonly size: Size; readonly mark: Ticks };
  'piece-under-size': { readonly size: Size; readonly exactSize: Size };
  // What the plan asks for, and what had to be joined.
  'loose-piece-unmet': { readonly wanted: number };
  'order-unmet': { readonly count: number };
  'order-misread': { readonly copies: number; readonly count: number };
  'piece-unasked': Record<never, never>;
  // Which way covers close that may close either way.
  // The choice of cloths.
  'choice-missing': Record<never, never>;
  'choice-unasked': Record<never, never>;
  'choice-lots': { readonly found: number; readonly wanted: number };
  'choice-part': { readonly part: string };
  'choice-cloth': { readonly part: string };
  'choice-rule': { readonly rule: string; readonly set: string };
  'choice-pieces': { readonly found: number; readonly wanted: number };
  'choice-total': { readonly found: number; readonly wanted: number };
  'choice-bound': { readonly bound: number; readonly total: number };
  'opening-unasked': Record<never, never>;
  'opening-counts': { readonly level: number; readonly upright: number; readonly count: number };
  'opening-backs': { readonly opening: 'level' | 'upright'; readonly covers: number };
  'opening-turned': { readonly opening: 'level' | 'upright' };
  // What had to be joined.
  'joined-piece-cut': Record<never, never>;
  'join-parts': { readonly found: number; readonly wanted: number };
  'join-extents': { readonly found: Ticks; readonly wanted: Ticks };
  'join-copies': { readonly found: number; readonly wanted: number };
  'join-lines': { readonly found: number; readonly wanted: number; readonly part: PieceId };
  'join-against-rule': { readonly joins: number };
  'part-of-nothing': Record<never, never>;
  // One length of cloth.
  'length-unknown': { readonly known: readonly string[] };
  'length-repeated': { readonly times: number };
  'length-width': { readonly found: Ticks; readonly wanted: Ticks };
  'length-length': { readonly found: Ticks; readonly wanted: Ticks };
  'length-uncut': Record<never, never>;
  'length-not-as-measured': { readonly found: Size; readonly measured: Size };
  // Its cut tree.
  'cut-parts': { readonly cuts: number; readonly parts: number };
  'cut-position': { readonly at: number; readonly after: number; readonly before: number };
  'cloth-lost': { readonly found: number; readonly whole: number };
  'cut-off-marks': {
    readonly direction: CutDirection;
    readonly at: Ticks;
    readonly from: Ticks;
    readonly mark: Ticks;
  };
  'too-many-stages': { readonly found: number; readonly most: number };
  // Its pieces.
  'piece-unknown': Record<never, never>;
  'piece-of-another-cloth': { readonly belongs: ClothName };
  'piece-size': { readonly found: Size; readonly wanted: Size };
  'piece-over-selvedge': { readonly side: 'left' | 'right'; readonly over: Ticks };
  /** `over` is rounded up where the crease falls between two ticks. */
  'piece-over-crease': { readonly over: Ticks; readonly each: Ticks };
  'piece-in-squaring': { readonly end: 'near' | 'far'; readonly over: Ticks };
  'piece-against-print': { readonly quarterTurns: QuarterTurns };
  'piece-off-grain': { readonly quarterTurns: QuarterTurns; readonly grain: 'lengthwise' | 'crosswise' };
  'piece-over-flaw': { readonly flaw: number };
  'remnant-over-flaw': { readonly flaw: number };
  'match-missed': { readonly at: readonly [number, number]; readonly from: readonly [number, number] };
  'match-turned': { readonly found: QuarterTurns; readonly wanted: QuarterTurns };
  'begin-wrong': { readonly found: Ticks; readonly wanted: Ticks };
  'begin-untold': Record<never, never>;
  'begins-apart': Record<never, never>;
  'match-without-repeat': Record<string, never>;
  // Its printed panels.
  'panel-missing': { readonly panel: string };
  'panel-off-centre': { readonly panel: string; readonly at: Box };
  'panel-turned': { readonly panel: string; readonly found: QuarterTurns; readonly wanted: QuarterTurns };
  'panel-margin': { readonly found: Ticks; readonly wanted: Ticks };
  'panel-cut': { readonly panel: string };
  'panel-folded': Record<never, never>;
  'panel-dealt': { readonly panel: string; readonly found: number; readonly wanted: number };
  'mount-wrong': { readonly what: string };
  // Its leftovers.
  'remnant-too-small': { readonly found: Size; readonly keep: Size };
  'remnant-counts-trim': { readonly found: Size };
  'scrap-keepable': { readonly found: Size; readonly keep: Size };
  'scrap-counts-trim': { readonly found: Size };
  'trim-misplaced': { readonly of: TrimKind; readonly found: Size };
  'trim-keepable': { readonly found: Size; readonly keep: Size };
  // Its fold.
  'fold-missing': Record<never, never>;
  'fold-misplaced': { readonly foldAt: Ticks; readonly width: Ticks };
  'fold-not-as-asked': { readonly foldAt: Ticks; readonly asked: Ticks };
  /** `middle` may fall between two ticks. */
  'piece-off-fold': { readonly middle: number };
  'fold-piece-alone': { readonly foldAt: Ticks };
  'fold-cut-alone': { readonly direction: CutDirection; readonly at: Ticks; readonly foldAt: Ticks };
  // Its stack.
  'stack-unasked': { readonly edge: 'left' | 'right' };
  'stack-plies': { readonly plies: number; readonly most: number };
  'stack-not-free': Record<never, never>;
  'stack-layers': { readonly layers: number; readonly sound: number };
  'stack-folded': Record<never, never>;
  'stack-sections': Record<never, never>;
  'stack-disagrees': { readonly cuts: number };
  // How many of each piece.
  'pieces-short': { readonly found: number; readonly wanted: number };
  'surplus-undeclared': { readonly found: number; readonly wanted: number; readonly declared: number };
  'surplus-unreal': { readonly declared: number; readonly found: number };
  'surplus-misdeclared': { readonly copies: number; readonly times: number };
  // What is bought.
  'purchase-missing': Record<never, never>;
  'purchase-lengths': { readonly listed: number; readonly cut: number };
  'purchase-total': { readonly of: 'needed' | 'bought'; readonly found: Ticks; readonly wanted: Ticks };
  'purchase-not-sold': Record<never, never>;
  'needed-wrong': { readonly found: Ticks; readonly wanted: Ticks };
  'bought-wrong': { readonly found: Ticks; readonly wanted: Ticks };
  'bought-apart': { readonly lengths: number; readonly bought: Ticks };
  'bought-too-long': { readonly found: Ticks; readonly longest: Ticks };
  'cost-wrong': { readonly found: number | undefined; readonly wanted: number | undefined };
  'bound-missing': Record<never, never>;
  'bound-without-purchase': { readonly bound: Ticks };
  'bound-over-needed': { readonly bound: Ticks; readonly needed: Ticks };
  'best-unproven': { readonly bound: Ticks; readonly needed: Ticks; readonly bought: Ticks };
  // What its leftovers could become.
  'left-of-nothing': Record<never, never>;
  'left-twice': Record<never, never>;
  'left-size': Record<never, never>;
  'washed-size-unasked': Record<never, never>;
  'washed-size-missing': Record<never, never>;
  'washed-size-misread': { readonly found: Size; readonly wanted: Size };
  /** It lies either way, and the ways shrink differently. */
  'washed-grain-open': Record<never, never>;
  'washed-too-small': { readonly side: 'width' | 'length'; readonly found: Ticks; readonly wanted: Ticks };
  'washed-too-large': { readonly side: 'width' | 'length'; readonly found: Ticks; readonly wanted: Ticks };
  'left-outside': Record<never, never>;
  'left-over-piece': Record<never, never>;
  'left-over-flaw': Record<never, never>;
  'left-selvedge': Record<never, never>;
  'left-crease': Record<never, never>;
  'left-too-small': Record<never, never>;
  'left-cloth': Record<never, never>;
  'left-print': Record<never, never>;
  'use-cloth': Record<never, never>;
  'use-parts': Record<never, never>;
  'use-count': Record<never, never>;
  'use-worth': Record<never, never>;
  'more-wants': Record<never, never>;
  'more-bought': Record<never, never>;
  'more-cost': Record<never, never>;
}

export type FaultCode = keyof FaultFigures;

/** One thing wrong with a plan, as a value; `wordFault` puts it into words. */
export type PlanFault = {
  [Code in FaultCode]: {
    readonly code: Code;
    readonly where: FaultPlace;
    readonly figures: FaultFigures[Code];
  };
}[FaultCode];

/** Notes a fault down; the place it is given is added to the place already known. */
export type Report = <Code extends FaultCode>(
  code: Code,
  figures: FaultFigures[Code],
  where?: FaultPlace,
) => void;
