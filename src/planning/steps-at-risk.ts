import type { Cloth } from '../model/cloth.ts';
import type { PieceWanted } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import type { PackOptions } from '../packing/instance.ts';
import { sum, type Ticks } from '../units/ticks.ts';
import { alignPrint, withStartReserve } from './align-print.ts';
import { type Beds, bedsOf } from './beds.ts';
import { sortIntoKinds } from './kinds.ts';
import { hasLadder } from './ladder-limits.ts';
import { tooLarge } from './lay-out-faults.ts';
import { foldedAsAsked, packLaid } from './pack-laid.ts';
import { buyFor } from './purchase.ts';

/** So much has to be bought from one cloth of a row down to another. */
export interface StepAtRisk {
  /** Index of the worst cloth at which that buy still holds. */
  readonly lowest: number;
  readonly bought: Ticks;
  /** Whether it is proven that no plan buys less anywhere on the step. */
  readonly proven: boolean;
  /** Whether it is proven that no plan buys so little on any cloth worse than the lowest. */
  readonly ends: boolean;
}

/** The same cloth turned out ever worse: at 0 the worst that is looked at, the last one as it is reckoned. */
export interface WorseCloths {
  readonly plan: Plan;
  readonly pieces: readonly PieceWanted[];
  readonly count: number;
  readonly at: (index: number) => Cloth;
}

/**
 * How much must be bought as a cloth turns out worse, from what is reckoned downwards: a worse cloth never needs less, so
 * between two with one answer nothing has to be looked at, and each step ends where halving what lies between finds it.
 * O(steps × log count) packings, fewer where several cloths lie alike on the table. At most so many steps.
 *
 * Undefined where the cloth is not bought or no plan exists as it is reckoned. `all` tells whether the worst has been reached.
 */
export function stepsAtRisk(
  { plan, pieces, count, at }: WorseCloths,
  options: PackOptions,
  most = Infinity,
): { readonly steps: readonly StepAtRisk[]; readonly all: boolean } | undefined {
  const answers = new Map<number, Need>();
  const packings: Packings = new Map();
  const steps: StepAtRisk[] = [];
  const last = count - 1;
  const needAt = (index: number): Need => {
    if (!answers.has(index)) {
      const first = answers.get(last);
      const share = steps.length === 0 || (first && first.least === first.bought) ? 1 : UNPROVEN;
      const pack = { ...options, effort: Math.ceil(options.effort / share) };
      answers.set(index, needOf(plan, at(index), pieces, pack, packings));
    }
    return answers.get(index);
  };
  const holdsAt = (index: number, bought: Ticks): boolean => {
    if (!answers.has(index) && leastByArea(plan, at(index), pieces) > bought) return false;
    const need = needAt(index);
    return need !== undefined && need.bought <= bought;
  };
  // A worse cloth never needs less, so what is proven of one holds of all worse ones.
  const leastAt = (index: number): number => {
    let least = leastByArea(plan, at(index), pieces);
    for (const [other, need] of answers) if (other >= index && need) least = Math.max(least, need.least);
    return least;
  };
  if (last < 0 || !at(last).buy || needAt(last) === undefined) return undefined;
  let index = last;
  while (steps.length < most && index >= 0 && needAt(index)) {
    const { bought } = needAt(index)!;
    const proven = leastAt(index) >= bought;
    const lowest = lowestWith(holdsAt, index, bought);
    index = lowest - 1;
    const next = index < 0 ? undefined : needAt(index);
    // Where the search finds nothing at all, only a piece that is too large for the cloth proves that there is nothing.
    const ends = next ? leastAt(index) > bought : index < 0 || fitsNowhere(plan, at(index), pieces);
    steps.push({ lowest, bought, proven, ends });
  }
  return { steps, all: index < 0 || needAt(index) === undefined };
}

/** `least`: no plan buys less of that cloth. */
type Need = { readonly bought: Ticks; readonly least: number } | undefined;

/** Lengths packed on what is bought, and what is proven of them, by how the cloth lies on the table. */
type Packings = Map<string, { readonly lengths: readonly number[]; readonly bound?: number } | undefined>;

/**
 * Where no need is proven of the cloth as it is reckoned, every search spends all its effort: beyond the first step, which
 * is what matters most at the counter, it has this part of it.
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

/** Whether some piece is too large for the cloth, which proves that there is no plan; a search proves nothing. */
function fitsNowhere(plan: Plan, given: Cloth, pieces: readonly PieceWanted[]): boolean {
  const cloth = foldedAsAsked(plan, withStartReserve(given, pieces), pieces);
  const { beds, phase } = alignPrint(bedsOf(plan, cloth), cloth, pieces);
  if (!beds.toBuy) return true;
  return tooLarge(sortIntoKinds(pieces, cloth, phase).kinds, beds, cloth, plan.rulerMark).length > 0;
}

/** Beside the lengths in hand. */
function needOf(
  plan: Plan,
  given: Cloth,
  pieces: readonly PieceWanted[],
  options: PackOptions,
  packings: Packings,
): Need {
  const flat = withStartReserve(given, pieces);
  const cloth = foldedAsAsked(plan, flat, pieces);
  const { beds, phase } = alignPrint(bedsOf(plan, cloth), cloth, pieces);
  if (!beds.toBuy || !hasLadder(cloth, pieces)) return undefined;
  const key = lieOf(cloth, beds);
  if (!packings.has(key)) {
    const { kinds } = sortIntoKinds(pieces, cloth, phase);
    const packed = packLaid(cloth, beds, kinds, { ...options, stages: plan.stages });
    const found = packed.ok && {
      lengths: packed.beds.filter(({ bed }) => bed.source === 'bought').map(({ length }) => length),
      ...(packed.bound !== undefined && { bound: packed.bound }),
    };
    packings.set(key, found || undefined);
  }
  const packed = packings.get(key);
  if (!packed) return undefined;
  const bought = sum(packed.lengths.map((length) => buyFor(cloth, length).bought));
  // What is proven of one fold says nothing of the others that might have been made.
  const least =
    packed.bound === undefined || packed.lengths.length === 0 || cloth !== flat
      ? 0
      : buyFor(cloth, Math.ceil(packed.bound)).bought;
  return { bought, least: Math.min(least, bought) };
}

/** How it lies on the table, by which its packing goes: the wash along tells only where steps of the shop are weighed against what is in hand. */
function lieOf({ width, washing, inHand }: Cloth, beds: Beds): string {
  return JSON.stringify([beds, inHand.length > 0 ? [width, washing] : []]);
}

/** No plan buys less than the areas take of the whole width, beside all that is in hand. */
function leastByArea(plan: Plan, cloth: Cloth, pieces: readonly PieceWanted[]): number {
  const held = bedsOf(plan, cloth).inHand.reduce((total, bed) => total + bed.width * bed.length, 0);
  const area = pieces.reduce((total, { size, copies }) => total + size.width * size.length * copies, 0);
  // A tick is taken off, so that rounding never refuses what just fits.
  const length = Math.floor((area - held) / cloth.width) - 1;
  return length <= 0 ? 0 : buyFor(cloth, length).bought;
}
