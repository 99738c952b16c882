import type { Cloth } from '../model/cloth.ts';
import type { PieceWanted } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import type { PackOptions } from '../packing/instance.ts';
import { sum, type Ticks, ticks } from '../units/ticks.ts';
import { alignPrint, withStartReserve } from './align-print.ts';
import { bedsOf } from './beds.ts';
import { sortIntoKinds } from './kinds.ts';
import { hasLadder } from './ladder-limits.ts';
import { tooLarge } from './lay-out-faults.ts';
import { foldedAsAsked, packLaid } from './pack-laid.ts';
import { buyFor } from './purchase.ts';

/** From this overall width upwards (to the step before it) so much has to be bought. */
export interface WidthStep {
  readonly from: Ticks;
  readonly bought: Ticks;
  /** Whether it is proven that no plan buys less anywhere on the step, from its upper end down to `from`. */
  readonly proven: boolean;
  /** Whether it is proven that no plan buys so little at any width below `from`, however near. */
  readonly ends: boolean;
}

export interface WidthAtRisk {
  /** From the cloth's own width downwards, each step the least width at which its buy still holds. */
  readonly steps: readonly WidthStep[];
  /** At any width below this there is no plan. */
  readonly noneBelow: Ticks;
}

/**
 * How much must be bought as the bolt turns out narrower than its label: an exact step function. Usable widths change
 * only where a span passes a ruler mark, and a narrower cloth never needs less; so between two widths with one answer
 * nothing has to be looked at, and the steps are found by halving the marks between. O(steps × log marks) packings.
 *
 * Undefined where the cloth is not bought or no plan exists at its own width.
 */
export function widthAtRisk(
  plan: Plan,
  cloth: Cloth,
  pieces: readonly PieceWanted[],
  options: PackOptions,
): WidthAtRisk | undefined {
  const widths = changingWidths(plan, cloth);
  const answers = new Map<number, Need>();
  const steps: WidthStep[] = [];
  const last = widths.length - 1;
  const needAt = (index: number): Need => {
    if (!answers.has(index)) {
      const first = answers.get(last);
      const share = steps.length === 0 || (first && first.least === first.bought) ? 1 : UNPROVEN;
      const pack = { ...options, effort: Math.ceil(options.effort / share) };
      answers.set(index, needOf(plan, { ...cloth, width: widths[index]! }, pieces, pack));
    }
    return answers.get(index);
  };
  const holdsAt = (index: number, bought: Ticks): boolean => {
    if (!answers.has(index) && leastByArea(plan, { ...cloth, width: widths[index]! }, pieces) > bought)
      return false;
    const need = needAt(index);
    return need !== undefined && need.bought <= bought;
  };
  // A narrower cloth never needs less, so what is proven at one width holds at all below it.
  const leastAt = (index: number): number => {
    let least = leastByArea(plan, { ...cloth, width: widths[index]! }, pieces);
    for (const [at, need] of answers) if (at >= index && need) least = Math.max(least, need.least);
    return least;
  };
  if (!cloth.buy || last < 0 || needAt(last) === undefined) return undefined;
  let index = last;
  while (index >= 0 && needAt(index)) {
    const { bought } = needAt(index)!;
    const proven = leastAt(index) >= bought;
    const lowest = lowestWith(holdsAt, index, bought);
    index = lowest - 1;
    const next = index < 0 ? undefined : needAt(index);
    // Where the search finds nothing at all, only a piece that is too large for the width proves that there is nothing.
    const ends = next
      ? leastAt(index) > bought
      : index < 0 || fitsNowhere(plan, { ...cloth, width: widths[index]! }, pieces);
    steps.push({ from: widths[lowest]!, bought, proven, ends });
  }
  return { steps, noneBelow: steps.at(-1)!.from };
}

/** `least`: no plan buys less at that width. */
type Need = { readonly bought: Ticks; readonly least: number } | undefined;

/**
 * Where no need is proven at the cloth's own width, every search spends all its effort: beyond the first step, which is
 * what matters most at the counter, it has this part of it.
 */
const UNPROVEN = 4;

/** Least index whose need is still `bought`; needs only rise as the index falls. */
function lowestWith(holdsAt: (index: number, bought: Ticks) => boolean, from: number, bought: Ticks): number {
  let holds = from;
  let fails = -1;
  while (holds - fails > 1) {
    const middle = Math.floor((holds + fails) / 2);
    if (holdsAt(middle, bought)) holds = middle;
    else fails = middle;
  }
  return holds;
}

/** Overall widths, rising, at which some usable span gains a ruler mark, up to the cloth's own width. */
function changingWidths(plan: Plan, cloth: Cloth): readonly Ticks[] {
  const mark = plan.rulerMark;
  const { left, right } = cloth.selvedge;
  const found = new Set<number>();
  const halves = cloth.crease.kind === 'keep-off' || cloth.lay === 'folded';
  const each = cloth.crease.kind === 'keep-off' ? cloth.crease.each : 0;
  const starts = halves ? [2 * (left + each), 2 * (right + each)] : [left + right];
  for (const start of starts) {
    for (
      let width = start + (halves ? 2 * mark : mark);
      width < cloth.width;
      width += halves ? 2 * mark : mark
    ) {
      found.add(width);
    }
  }
  found.add(cloth.width);
  return [...found].sort((a, b) => a - b).map(ticks);
}

/** Whether some piece is too large for the cloth at this width, which proves that there is no plan; a search proves nothing. */
function fitsNowhere(plan: Plan, given: Cloth, pieces: readonly PieceWanted[]): boolean {
  const cloth = foldedAsAsked(plan, withStartReserve(given, pieces), pieces);
  const { beds, phase } = alignPrint(bedsOf(plan, cloth), cloth, pieces);
  if (!beds.toBuy) return true;
  return tooLarge(sortIntoKinds(pieces, cloth, phase).kinds, beds, cloth, plan.rulerMark).length > 0;
}

/** Beside the lengths in hand, whose widths are known. */
function needOf(plan: Plan, given: Cloth, pieces: readonly PieceWanted[], options: PackOptions): Need {
  const flat = withStartReserve(given, pieces);
  const cloth = foldedAsAsked(plan, flat, pieces);
  const { beds, phase } = alignPrint(bedsOf(plan, cloth), cloth, pieces);
  if (!beds.toBuy || !hasLadder(cloth, pieces)) return undefined;
  const { kinds } = sortIntoKinds(pieces, cloth, phase);
  const packed = packLaid(cloth, beds, kinds, { ...options, stages: plan.stages });
  if (!packed.ok) return undefined;
  const lengths = packed.beds.filter(({ bed }) => bed.source === 'bought');
  const bought = sum(lengths.map(({ length }) => buyFor(cloth, length).bought));
  // What is proven of one fold says nothing of the others that might have been made.
  const least =
    packed.bound === undefined || lengths.length === 0 || cloth !== flat
      ? 0
      : buyFor(cloth, Math.ceil(packed.bound)).bought;
  return { bought, least: Math.min(least, bought) };
}

/** No plan buys less than the areas take of the whole width, beside all that is in hand. */
function leastByArea(plan: Plan, cloth: Cloth, pieces: readonly PieceWanted[]): number {
  const held = bedsOf(plan, cloth).inHand.reduce((total, bed) => total + bed.width * bed.length, 0);
  const area = pieces.reduce((total, { size, copies }) => total + size.width * size.length * copies, 0);
  // A tick is taken off, so that rounding never refuses what just fits.
  const length = Math.floor((area - held) / cloth.width) - 1;
  return length <= 0 ? 0 : buyFor(cloth, length).bought;
}

/** Shrinkage along the length up to which a buy still holds, in parts per million, rounded down. */
export interface ShrinkageStep {
  readonly upTo: number;
  readonly bought: Ticks;
}

/**
 * How much must be bought as the cloth shrinks more along its length than was reckoned: what is packed stays, so the
 * steps follow from need ÷ (1 − s) alone. Buys from the least that holds without any shrinkage, `rungs` steps up.
 */
export function shrinkageAtRisk(cloth: Cloth, packedLength: number, rungs: number): readonly ShrinkageStep[] {
  if (!cloth.buy) return [];
  const { step, longest = Infinity } = cloth.buy;
  const onTable = packedLength + 2 * cloth.squaring;
  const least = Math.ceil(onTable / step) * step;
  return Array.from({ length: rungs }, (_, rung) => least + rung * step)
    .filter((bought) => bought <= longest)
    .map((bought) => ({
      bought: ticks(bought),
      // The largest s, in parts per million, with floor(bought × (1 − s)) ≥ onTable.
      upTo: Math.floor(((bought - onTable) * 1_000_000) / bought),
    }));
}
