import type { Cloth } from '../model/cloth.ts';
import type { Kind, PackOptions } from '../packing/instance.ts';
import { mostFromSheet, shortestLength } from '../packing/pack.ts';
import type { SheetTree } from '../packing/result.ts';
import { ticks } from '../units/ticks.ts';
import { type Bed, lengthToPack, sheetOf, singlePly } from './bed.ts';
import type { Beds } from './beds.ts';
import { countKinds } from './count-kinds.ts';
import { isMatched, type LaidKind } from './fold-kinds.ts';
import type { PackedBed, PackedBeds } from './pack-beds.ts';
import { buyFor, packableOf } from './purchase.ts';
import { cutOff, reachOf, slackBehind } from './reach.ts';

/** Copies still to be cut of each laid kind: places in two plies or at the fold, and copies in one ply. */
type Left = readonly number[];

/** What one length holds: a tree for the cloth in two plies, one for the cloth in one ply. */
interface Aside {
  readonly twoPlies: SheetTree;
  readonly single: SheetTree;
  readonly left: Left;
}

/** Worth of half a piece at the fold, which can lie nowhere else: more than any area beside it. */
const ONLY_AT_FOLD = 1000;

/** Tries at a length; each asks four questions of the packer. */
const TRIES = 8;

/**
 * Packs a cloth that is folded off its middle: what goes across the fold and pairs of like pieces lie where it is double,
 * the rest where it is single. Which copies go where is found length by length: once filling the double cloth first, once
 * the single; lengths in hand are filled largest first, and of what is bought the least is found by halving.
 *
 * The bound is by area alone.
 */
export function packAside(
  cloth: Cloth,
  { inHand, toBuy }: Beds,
  laid: readonly LaidKind[],
  pack: PackOptions,
): PackedBeds {
  const share = { ...pack, effort: Math.ceil(pack.effort / (4 * TRIES)), stages: fewerStages(pack) };
  let left: Left = laid.map(({ pieces, spare = 0 }) => pieces + spare);
  const packed: PackedBed[] = [];
  for (const bed of [...inHand].sort((a, b) => b.usable * lengthToPack(b) - a.usable * lengthToPack(a))) {
    const length = lengthToPack(bed);
    const filled = length > 0 ? fuller(laid, left, filling(bed, laid, left, length, share)) : undefined;
    if (!filled || total(filled.left) === total(left)) continue;
    const single = bed.beside ? singlePly(bed, bed.beside) : bed;
    const kinds = laid.map(({ kind }) => kind);
    packed.push({
      ...{ bed, name: bed.name, length },
      tree: onMarks({ tree: filled.twoPlies, length }, bed, kinds).tree,
      beside: onMarks({ tree: filled.single, length }, single, kinds).tree,
    });
    left = filled.left;
  }
  if (total(left) === 0) return { ok: true, beds: packed, proven: false };
  if (!toBuy) return { ok: false, leftOut: laid.flatMap((_, kind) => (left[kind]! > 0 ? [kind] : [])) };
  // Folded elsewhere, the cloth might leave no spare, so none counts in what is proven.
  const wanted = left.map((copies, kind) => Math.max(0, copies - (laid[kind]!.spare ?? 0)));
  const bound = Math.ceil(areaOf(laid, wanted) / toBuy.usable);
  const bought = shortest(cloth, toBuy, laid, left, bound, share);
  if (!bought) return { ok: false, leftOut: laid.flatMap((_, kind) => (left[kind]! > 0 ? [kind] : [])) };
  return { ok: true, beds: [...packed, bought], proven: false, bound: Math.max(0, bound) };
}

/** The cut between double and single cloth is a stage of its own. */
function fewerStages({ stages = 'any' }: PackOptions): 2 | 'any' {
  return stages === 'any' ? 'any' : 2;
}

function shortest(
  cloth: Cloth,
  bed: Bed,
  laid: readonly LaidKind[],
  left: Left,
  bound: number,
  pack: PackOptions,
): PackedBed | undefined {
  const step = cloth.buy!.step;
  const most = lengthToPack(bed);
  const at = (steps: number): PackedBed | undefined => {
    const length = Math.min(most, packableOf(cloth, ticks(steps * step)));
    const whole = length > 0 && filling(bed, laid, left, length, pack).find((own) => total(own.left) === 0);
    return whole ? shortened(bed, laid, whole, length, pack) : undefined;
  };
  let fewest = Math.max(1, Math.ceil(buyFor(cloth, bound).bought / step));
  let enough = fewest;
  let best = at(enough);
  while (!best) {
    if (packableOf(cloth, ticks(enough * step)) >= most || enough * step > 2 ** 31) return undefined;
    fewest = enough + 1;
    enough *= 2;
    best = at(enough);
  }
  while (fewest < enough) {
    const tried = Math.floor((fewest + enough) / 2);
    const found = at(tried);
    if (found) [best, enough] = [found, tried];
    else fewest = tried + 1;
  }
  return best;
}

/** The same pieces in the same places of the cloth, each on the least length found; the longer one rules. */
function shortened(
  bed: Bed,
  laid: readonly LaidKind[],
  { twoPlies, single }: Aside,
  length: number,
  pack: PackOptions,
): PackedBed {
  const double = onLeast(twoPlies, bed, laid, length, pack);
  const beside = onLeast(single, bed.beside ? singlePly(bed, bed.beside) : bed, laid, length, pack);
  const rules = Math.max(double.length, beside.length);
  return {
    bed,
    name: bed.name,
    tree: lengthened(double, rules),
    beside: lengthened(beside, rules),
    length: rules,
  };
}

interface Strip {
  readonly tree: SheetTree;
  readonly length: number;
}

function onLeast(
  tree: SheetTree,
  bed: Bed,
  laid: readonly LaidKind[],
  length: number,
  pack: PackOptions,
): Strip {
  const counts = countKinds(tree);
  if (counts.size === 0) return { tree: { kind: 'remnant' }, length: 0 };
  const kinds = laid.map(({ kind }, index) => ({ ...kind, copies: counts.get(index) ?? 0 }));
  const result = shortestLength({ sheet: sheetOf(bed, length), kinds }, pack);
  const found = (result.status === 'best' || result.status === 'found') && result.value < length;
  const least = found ? { tree: result.sheets[0]!.tree, length: result.value } : { tree, length };
  return upToReach(onMarks(least, bed, kinds), bed);
}

function onMarks({ tree, length }: Strip, bed: Bed, kinds: readonly Kind[]): Strip {
  if (bed.skip !== 0 || kinds.some(isMatched)) return { tree, length };
  return { tree: slackBehind(tree, sheetOf(bed, length), bed.rulerMark), length };
}

/** No longer than its pieces reach. */
function upToReach({ tree, length }: Strip, bed: Bed): Strip {
  const reach = reachOf(tree, bed.packable, length);
  return reach === length ? { tree, length } : { tree: cutOff(tree, length, reach), length: reach };
}

/** A tree with nothing more cut beyond its length. */
export function lengthened({ tree, length }: Strip, to: number): SheetTree {
  if (length === to || length === 0 || tree.kind === 'remnant') return tree;
  const remnant: SheetTree = { kind: 'remnant' };
  if (tree.kind !== 'cut' || tree.direction === 'lengthwise')
    return { kind: 'cut', direction: 'crosscut', at: [length], parts: [tree, remnant] };
  return { ...tree, at: [...tree.at, length], parts: [...tree.parts, remnant] };
}

/** Both ways to fill one length: what lies double first, and what lies single first. */
function filling(
  bed: Bed,
  laid: readonly LaidKind[],
  left: Left,
  length: number,
  pack: PackOptions,
): readonly Aside[] {
  const double = sheetOf(bed, length);
  const single = bed.beside && sheetOf(singlePly(bed, bed.beside), length);
  const fill = (inSingle: boolean, from: Left): { readonly tree: SheetTree; readonly left: Left } => {
    const sheet = inSingle ? single : double;
    if (!sheet) return { tree: { kind: 'remnant' }, left: from };
    const kinds = laid.map((own, index) => wantedOf(own, from[index]!, inSingle));
    const result = mostFromSheet({ sheet, kinds }, pack);
    const tree: SheetTree =
      result.status === 'best' || result.status === 'found' ? result.sheets[0]!.tree : { kind: 'remnant' };
    const counts = countKinds(tree);
    const plies = ({ plies }: LaidKind) => (plies === 'two' && !inSingle ? 2 : 1);
    return { tree, left: laid.map((own, index) => from[index]! - plies(own) * (counts.get(index) ?? 0)) };
  };
  return [true, false].map((singleFirst) => {
    const first = fill(singleFirst, left);
    const second = fill(!singleFirst, first.left);
    const [twoPlies, inOne] = singleFirst ? [second.tree, first.tree] : [first.tree, second.tree];
    return { twoPlies, single: inOne, left: second.left };
  });
}

/** What a kind asks of cloth in two plies (pairs, and halves at the fold) or in one. */
function wantedOf({ kind, plies }: LaidKind, left: number, inSingle: boolean): Kind {
  const area = kind.width * kind.length;
  if (plies === 'fold') return { ...kind, copies: inSingle ? 0 : left, value: ONLY_AT_FOLD * area };
  return { ...kind, copies: inSingle ? left : Math.floor(left / 2), value: area };
}

function fuller(laid: readonly LaidKind[], left: Left, found: readonly Aside[]): Aside {
  const used = (own: Aside) => areaOf(laid, left) - areaOf(laid, own.left);
  return found.reduce((most, own) => (used(own) > used(most) ? own : most));
}

/** Of opened cloth. */
function areaOf(laid: readonly LaidKind[], left: Left): number {
  return laid.reduce(
    (sum, { kind, plies }, index) =>
      sum + left[index]! * kind.width * kind.length * (plies === 'fold' ? 2 : 1),
    0,
  );
}

function total(left: Left): number {
  return left.reduce((sum, copies) => sum + copies, 0);
}
