import type { Cloth } from '../model/cloth.ts';
import type { Plan } from '../model/plan.ts';
import type { FewestQuestion, Kind, PackOptions } from '../packing/instance.ts';
import { fewestSheets, mostFromSheet, shortestLength } from '../packing/pack.ts';
import type { PackedSheet, SheetTree } from '../packing/result.ts';
import { STANDARD_PREFERENCES, tidy } from '../packing/tidy.ts';
import { ticks } from '../units/ticks.ts';
import { type Bed, fits, lengthToPack, nearEnd, sheetOf, widestPart } from './bed.ts';
import type { Beds } from './beds.ts';
import { countKinds, without } from './count-kinds.ts';
import { isMatched } from './fold-kinds.ts';
import { buyFor, costOf, packableOf } from './purchase.ts';
import { cutOff, reachOf, slackBehind } from './reach.ts';
import { bladeReach } from './tool-reach.ts';
import { handsToTry, isWeighed, worthOfUse } from './worth.ts';

/** One bed that pieces are cut from, with the packer's tree over `length` of it. */
export interface PackedBed {
  readonly bed: Bed;
  readonly name: string;
  readonly tree: SheetTree;
  /** Of a fold off the middle: what is cut from the cloth in one ply, over the same length. */
  readonly beside?: SheetTree;
  /** Whole ticks, from the first squared end. */
  readonly length: number;
}

export type PackedBeds =
  | {
      readonly ok: true;
      readonly beds: readonly PackedBed[];
      /** No plan buys fewer of the shop's steps (or, with lengths in hand alone, opens cheaper ones). */
      readonly proven: boolean;
      /** Least length that can be packed on what is bought, whatever the plan. */
      readonly bound?: number;
      /** Chosen for the least money, which may well not be the least cloth. */
      readonly weighed?: true;
    }
  /** Kinds that found no place. */
  | {
      readonly ok: false;
      readonly leftOut: readonly number[];
      /** The panels could be taken, but no cuts were found that free the pieces around them. */
      readonly aroundPanels?: true;
    };

/**
 * Packs all kinds on the beds of one cloth: on the lengths in hand alone where they suffice; on one bought length
 * where there is nothing in hand; else on both, buying as few of the shop's steps as can be found.
 */
export function packBeds(
  cloth: Cloth,
  beds: Beds,
  kinds: readonly Kind[],
  plan: Plan,
  pack: PackOptions,
): PackedBeds {
  const packed = isWeighed(cloth)
    ? packWeighed(cloth, beds, kinds, plan, pack)
    : packAll(cloth, beds, kinds, pack);
  if (!packed.ok) return packed;
  return {
    ...packed,
    beds: packed.beds.map((own) => upToReach(onMarks(tidied(own, kinds, plan, pack), kinds))),
  };
}

/** The same without regard to what lengths in hand are worth, and as the packer left it. */
export function packAll(cloth: Cloth, beds: Beds, kinds: readonly Kind[], pack: PackOptions): PackedBeds {
  if (beds.inHand.length > 0) {
    const inHand = packInHand(beds.inHand, kinds, pack);
    if (inHand) return inHand;
  }
  if (!beds.toBuy) return { ok: false, leftOut: leftOutOf(beds.inHand, kinds, pack) };
  if (beds.inHand.length === 0) return packBought(beds.toBuy, kinds, pack, cloth);
  return packBoth(beds.inHand, beds.toBuy, kinds, pack, cloth);
}

/** The cheapest of several plans that leave ever more of the good lengths whole; of equals the one that leaves fewest. */
function packWeighed(
  cloth: Cloth,
  beds: Beds,
  kinds: readonly Kind[],
  plan: Plan,
  pack: PackOptions,
): PackedBeds {
  const tries = handsToTry(beds.inHand);
  const share = { ...pack, effort: Math.ceil(pack.effort / tries.length) };
  let best: { readonly packed: PackedBeds; readonly money: number } | undefined;
  let first: PackedBeds | undefined;
  for (const inHand of tries) {
    const packed = packAll(cloth, { ...beds, inHand }, kinds, share);
    first ??= packed;
    if (!packed.ok) continue;
    const money = packed.beds.reduce((total, own) => total + moneyFor(cloth, own, plan), 0);
    if (!best || money < best.money) best = { packed, money };
  }
  if (!best?.packed.ok) return first!;
  const { beds: chosen } = best.packed;
  const bound = first!.ok ? (first!.bound ?? 0) : 0;
  return { ok: true, beds: chosen, proven: false, bound, weighed: true };
}

function moneyFor(cloth: Cloth, packed: PackedBed, plan: Plan): number {
  const { bed, length } = upToReach(packed);
  if (bed.source === 'bought') return cloth.price ? costOf(cloth.price, buyFor(cloth, length).bought) : 0;
  if (!bed.worth) return 0;
  const used = { width: bed.width, length: ticks(bed.length), keep: plan.keep };
  return worthOfUse(bed.worth, { ...used, reach: length + nearEnd(bed) + bed.squaring });
}

function packInHand(beds: readonly Bed[], kinds: readonly Kind[], pack: PackOptions): PackedBeds | undefined {
  const result = fewestSheets(question(beds, kinds), pack);
  if (result.status !== 'best' && result.status !== 'found') return undefined;
  return {
    ok: true,
    beds: result.sheets.map((sheet) => onBed(beds, sheet)),
    proven: result.status === 'best' && beds.every(({ elsewhere = 0 }) => elsewhere === 0),
  };
}

/** All from one bought length, or from several where the shop sells none that long. */
function packBought(bed: Bed, kinds: readonly Kind[], pack: PackOptions, cloth: Cloth): PackedBeds {
  const result = shortestLength({ sheet: sheetOf(bed), kinds }, pack);
  if (result.status === 'best' || result.status === 'found') {
    const beds = [{ ...onBed([bed], result.sheets[0]!), length: result.value }];
    const bound = Math.max(0, result.bound - (bed.elsewhere ?? 0));
    return { ok: true, beds, proven: noFewerSteps(cloth, result.value, bound), bound };
  }
  // A length without end holds what any number of lengths hold.
  if (lengthToPack(bed) === Infinity) return { ok: false, leftOut: kinds.map((_, kind) => kind) };
  // Pieces that are alike in the print are not so over several lengths, unless each can be begun where its print does.
  const matched = kinds.some(({ lattice, copies }) => lattice && copies > 0);
  if (matched && !cloth.startReserve) return { ok: false, leftOut: kinds.map((_, kind) => kind) };
  return packSeveral(bed, kinds, pack);
}

function noFewerSteps(cloth: Cloth, packed: number, bound: number): boolean {
  return buyFor(cloth, Math.ceil(bound)).bought === buyFor(cloth, packed).bought;
}

/** The fewest lengths of the longest that is sold, then each made as short as its own pieces allow. */
function packSeveral(bed: Bed, kinds: readonly Kind[], pack: PackOptions): PackedBeds {
  const most = kinds.reduce((total, kind) => total + kind.copies, 0);
  const sheet = { ...sheetOf(bed), copies: most, cost: 1 };
  const result = fewestSheets({ sheets: [sheet], kinds }, pack);
  if (result.status !== 'best' && result.status !== 'found')
    return { ok: false, leftOut: kinds.map((_, kind) => kind) };
  const beds = result.sheets.map((packed, index) => {
    const shortened = shorten({ ...onBed([bed], packed) }, kinds, pack);
    return result.sheets.length === 1 ? shortened : { ...shortened, name: `${bed.name} ${index + 1}` };
  });
  return { ok: true, beds, proven: false, bound: areaBound(kinds, bed) };
}

/** Bisects the number of steps to buy between what area proves and what a simple plan needs. */
function packBoth(
  inHand: readonly Bed[],
  bolt: Bed,
  kinds: readonly Kind[],
  pack: PackOptions,
  cloth: Cloth,
): PackedBeds {
  let best = handFirst(inHand, bolt, kinds, pack, cloth);
  const step = cloth.buy!.step;
  const area = (beds: readonly Bed[]) =>
    beds.reduce(
      (total, bed) => total + (bed.lay.kind === 'folded' ? bed.packable : bed.usable) * lengthToPack(bed),
      0,
    );
  const wanted = kinds.reduce((total, kind) => total + kind.width * kind.length * kind.copies, 0);
  const usable = bolt.lay.kind === 'folded' ? bolt.packable : bolt.usable;
  let bound = Math.max(0, Math.ceil((wanted - area(inHand)) / usable));
  let fewest = Math.max(1, Math.ceil(buyFor(cloth, bound).bought / step));
  let enough = best ? Math.round(boughtSteps(best, cloth) / step) : undefined;
  while (enough === undefined || fewest < enough) {
    const tried: number = enough === undefined ? fewest * 2 : Math.floor((fewest + enough) / 2);
    const packable = packableOf(cloth, ticks(tried * step));
    const found = withSteps(inHand, bolt, kinds, pack, packable);
    if (found.beds) [best, enough] = [found.beds, tried];
    else {
      // Proven too short: whatever the plan, a little more than this is packed on the bought length.
      if (found.impossible && fewest <= tried) bound = Math.max(bound, packable + 1);
      if (enough === undefined && tried * step > 2 ** 31) break;
      fewest = tried + 1;
    }
  }
  if (!best || enough === undefined) return { ok: false, leftOut: leftOutOf([...inHand, bolt], kinds, pack) };
  best = openingLess(
    best,
    () => withSteps(inHand, bolt, kinds, pack, packableOf(cloth, ticks(enough! * step))).beds,
  );
  // What a length in hand might hold if it were begun elsewhere is not known.
  bound = inHand.some(({ elsewhere = 0 }) => elsewhere > 0) ? 0 : Math.max(0, bound - (bolt.elsewhere ?? 0));
  const bought = best.find((own) => own.bed.source === 'bought');
  const proven = bought !== undefined && noFewerSteps(cloth, bought.length, bound);
  return { ok: true, beds: best, proven, bound };
}

/** Filling the lengths in hand first may open some that what has to be bought anyway makes needless. */
function openingLess(
  best: readonly PackedBed[],
  again: () => readonly PackedBed[] | undefined,
): readonly PackedBed[] {
  const opened = best.filter(({ bed }) => bed.source === 'in-hand');
  if (opened.length === 0 || opened.length === best.length) return best;
  const other = again();
  return other && openedCost(other) < openedCost(best) ? other : best;
}

function openedCost(beds: readonly PackedBed[]): number {
  const opened = beds.flatMap(({ bed }) => (bed.source === 'in-hand' ? [bed] : []));
  return openingCosts(opened).reduce((total, cost) => total + cost, 0);
}

function boughtSteps(beds: readonly PackedBed[], cloth: Cloth): number {
  return beds.reduce(
    (total, own) => total + (own.bed.source === 'bought' ? buyFor(cloth, own.length).bought : 0),
    0,
  );
}

/** What a kind weighs that only lengths in hand can hold: more than any area. */
const ONLY_IN_HAND = 1000;

/**
 * Fills the lengths in hand one after the other, largest first, with as much area as they take, what the bolt cannot
 * hold before all; the rest is bought.
 */
function handFirst(
  inHand: readonly Bed[],
  bolt: Bed,
  kinds: readonly Kind[],
  pack: PackOptions,
  cloth: Cloth,
): readonly PackedBed[] | undefined {
  const room = { width: widestPart(bolt), length: lengthToPack(bolt) };
  let left: readonly Kind[] = kinds.map((kind) => ({
    ...kind,
    value: kind.width * kind.length * (fits(kind, room) ? 1 : ONLY_IN_HAND),
  }));
  const done: PackedBed[] = [];
  for (const bed of [...inHand].sort((a, b) => b.usable * lengthToPack(b) - a.usable * lengthToPack(a))) {
    const result = mostFromSheet({ sheet: sheetOf(bed), kinds: left }, pack);
    if ((result.status !== 'best' && result.status !== 'found') || result.value === 0) continue;
    const own = onBed([bed], result.sheets[0]!);
    done.push(own);
    left = without(left, countKinds(own.tree));
  }
  if (left.every((kind) => kind.copies === 0)) return done;
  const rest = packBought(bolt, left, pack, cloth);
  return rest.ok ? [...done, ...rest.beds] : undefined;
}

function withSteps(
  inHand: readonly Bed[],
  bolt: Bed,
  kinds: readonly Kind[],
  pack: PackOptions,
  length: number,
): { readonly beds?: readonly PackedBed[]; readonly impossible: boolean } {
  if (length <= 0) return { impossible: true };
  if (length > lengthToPack(bolt)) return { impossible: false };
  const ends = nearEnd(bolt) + bolt.squaring + bolt.skip + bolt.unknownStart;
  const beds = [...inHand, { ...bolt, length: length + ends }];
  const result = fewestSheets(question(beds, kinds), pack);
  if (result.status !== 'best' && result.status !== 'found')
    return { impossible: result.status === 'impossible' };
  const packed = result.sheets.map((sheet) => {
    const own = onBed(beds, sheet);
    return own.bed.source === 'bought' ? shorten({ ...own, bed: bolt }, kinds, pack) : own;
  });
  return { beds: packed, impossible: false };
}

/** The same pieces on the least length found. */
export function shorten(own: PackedBed, kinds: readonly Kind[], pack: PackOptions): PackedBed {
  const counts = countKinds(own.tree);
  const held = kinds.map((kind, index) => ({ ...kind, copies: counts.get(index) ?? 0 }));
  const result = shortestLength({ sheet: sheetOf(own.bed), kinds: held }, pack);
  if ((result.status !== 'best' && result.status !== 'found') || result.value >= own.length) return own;
  return { ...own, tree: result.sheets[0]!.tree, length: result.value };
}

/** A search may leave slack between parts, or tidying put it there, which no ruler mark meets. */
function onMarks(own: PackedBed, kinds: readonly Kind[]): PackedBed {
  if (own.bed.skip !== 0 || kinds.some(isMatched)) return own;
  return { ...own, tree: slackBehind(own.tree, sheetOf(own.bed, own.length), own.bed.rulerMark) };
}

/** The same pieces on the same length, cut more to the maker's liking. */
export function tidied(
  own: PackedBed,
  kinds: readonly Kind[],
  { tools }: Plan,
  pack: PackOptions,
): PackedBed {
  const sheet = sheetOf(own.bed, own.length);
  const packed = { sheet: 0, width: sheet.width, length: own.length, tree: own.tree };
  const { stages = 'any', seed } = pack;
  const plies = own.bed.lay.kind === 'folded' ? Math.max(1, tools.mostPlies / 2) : tools.mostPlies;
  const reach = bladeReach(tools) * plies;
  return {
    ...own,
    tree: tidy(packed, { kinds, sheet, stages, seed }, { ...STANDARD_PREFERENCES, reach }).tree,
  };
}

/** The same tree on no more length than its pieces reach: what lies beyond is the cloth's own end, not a part of the lay. */
function upToReach(own: PackedBed): PackedBed {
  const reach = reachOf(own.tree, own.bed.packable, own.length);
  return reach === own.length ? own : { ...own, tree: cutOff(own.tree, own.length, reach), length: reach };
}

/** All kinds out of these beds, at what opening each costs. */
export function question(beds: readonly Bed[], kinds: readonly Kind[]): FewestQuestion {
  return { sheets: costed(beds), kinds };
}

/** The beds as sheets, each once and at what opening it costs. */
export function costed(beds: readonly Bed[]): FewestQuestion['sheets'] {
  // Bought cloth costs more than any cloth in hand; of the lengths in hand, those worth less are opened, then the smaller.
  const costs = openingCosts(beds);
  const all = costs.reduce((total, cost) => total + cost, 1);
  return beds.map((bed, index) => ({
    ...sheetOf(bed),
    copies: 1,
    cost: bed.source === 'bought' ? all : costs[index]!,
  }));
}

/** Whole numbers. By area, unless a length is worth something: then by that, and by area in thousandths of all. */
function openingCosts(beds: readonly Bed[]): readonly number[] {
  const areas = beds.map((bed) => bed.packable * lengthToPack(bed));
  if (beds.every((bed) => !bed.worth)) return areas;
  const all = areas.reduce((total, area) => total + area, 1);
  return beds.map((bed, index) => {
    const { width, worth } = bed;
    const used = { width, length: ticks(bed.length), reach: bed.length, keep: { width, length: width } };
    return 1000 * (worth ? worthOfUse(worth, used) : 0) + 1 + Math.floor((998 * areas[index]!) / all);
  });
}

export function onBed(beds: readonly Bed[], sheet: PackedSheet): PackedBed {
  const bed = beds[sheet.sheet]!;
  return { bed, name: bed.name, tree: sheet.tree, length: sheet.length };
}

function areaBound(kinds: readonly Kind[], bed: Bed): number {
  const wanted = kinds.reduce((total, kind) => total + kind.width * kind.length * kind.copies, 0);
  return Math.ceil(wanted / (bed.lay.kind === 'folded' ? bed.packable : bed.usable));
}

/** What a simple plan leaves out, so that the message can name it. */
function leftOutOf(beds: readonly Bed[], kinds: readonly Kind[], pack: PackOptions): readonly number[] {
  let left = kinds;
  for (const bed of beds) {
    if (lengthToPack(bed) === Infinity) {
      const room = { width: widestPart(bed), length: Infinity };
      left = left.map((kind) => (fits(kind, room) ? { ...kind, copies: 0 } : kind));
      continue;
    }
    const result = mostFromSheet({ sheet: sheetOf(bed), kinds: left }, pack);
    if (result.status === 'best' || result.status === 'found') {
      left = without(left, countKinds(result.sheets[0]!.tree));
    }
  }
  const named = left.flatMap((kind, index) => (kind.copies > 0 ? [index] : []));
  return named.length > 0 ? named : kinds.map((_, kind) => kind);
}
