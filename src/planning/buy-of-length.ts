import type { PlainBox } from '../geometry/walk.ts';
import type { CutTree } from '../model/cut-tree.ts';
import type { PieceId, PieceWanted, Size } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import type { Kind, PackOptions } from '../packing/instance.ts';
import { mostFromSheet } from '../packing/pack.ts';
import { type Ticks, ticks } from '../units/ticks.ts';
import { type Bed, lengthToPack } from './bed.ts';
import type { Buy, CompareOptions } from './compare-buys.ts';
import { countKinds } from './count-kinds.ts';
import { partsOf } from './joined.ts';
import { sortIntoKinds } from './kinds.ts';
import { LOOK } from './lay-out.ts';
import { type LaidSets, layOutSets, leftOfBuy } from './left-of-sets.ts';
import { isKeepable, isLeftOnly } from './leftover.ts';
import { staysWhole } from './leftovers/left-of-cloths.ts';
import { worthOfLeftovers } from './leftovers/worth-of-leftovers.ts';
import type { PackedBed } from './pack-beds.ts';
import { costOf, packableOf } from './purchase.ts';
import type { OneSet, SetsLadder } from './sets-ladder.ts';

export interface Compared {
  readonly plan: Plan;
  readonly pieces: readonly PieceWanted[];
  readonly ladder: SetsLadder;
  readonly set: OneSet;
}

/** What one length to buy comes to: read off the ladder's packing of the sets that it holds. */
export function buyOf(compared: Compared, bought: Ticks, options: CompareOptions): Buy {
  const { plan, ladder, set, pieces } = compared;
  const { cloth, bed } = ladder;
  const length = packableOf(cloth, bought);
  const { sets, atMost } = ladder.on(length);
  const setsInHand = ladder.setsInHand();
  const beds = sets === 0 ? [] : ladder.packed(sets)!.beds;
  const opened = beds.filter((own) => own.bed.source === 'in-hand');
  const leftovers = leftoversOf(bed, beds, length);
  const laid = sets > 0 ? laidSets(compared, sets, options) : undefined;
  const kept = laid && leftOfBuy(laid, bought);
  const uncut = kept && !kept.cut && length > 0 ? leftOn(bed, undefined, length) : [];
  // Where the planner does not find room for what the ladder packed, what that packing leaves counts.
  const keepable = (kept ? [...kept.kept, ...uncut] : leftovers)
    .filter((size) => isKeepable(size.width, size.length, plan.keep))
    .sort((one, other) => other.width * other.length - one.width * one.length);
  const keepableArea = keepable.reduce((total, size) => total + size.width * size.length, 0);
  const setArea = pieces.reduce(
    (total, { id, size }) => total + (set.get(id) ?? 0) * size.width * size.length,
    0,
  );
  const area = opened.reduce(
    (total, own) => total + lengthToPack(own.bed) * own.bed.usable,
    length * bed.usable,
  );
  const worth = worthOfLeftovers(plan, cloth, keepable, options.pack, options.leftoverWorth);
  const cost = cloth.price && costOf(cloth.price, bought);
  return {
    bought,
    sets,
    setsAtMost: atMost,
    setsInHand,
    over: singlesOver(compared, leftovers, options.pack),
    markerEfficiency: area > 0 ? (100 * sets * setArea) / area : 0,
    keepableArea,
    ...(keepable[0] && { largestLeftover: keepable[0] }),
    ...(cost !== undefined && { cost }),
    leftoverWorth: worth.hundredths,
    leftoverUses: worth.uses,
    ...(cost !== undefined &&
      sets > setsInHand && { costPerSet: (cost - worth.hundredths) / (sets - setsInHand) }),
  };
}

/**
 * So many sets laid out, once: what the maker names, and what the plan itself wants, as
 * carefully as a plan is, every other rung at a look.
 */
function laidSets(
  { plan, ladder, pieces, set }: Compared,
  sets: number,
  { pack, layOut = pack, lengths }: CompareOptions,
): LaidSets | undefined {
  if (ladder.laid.has(sets)) return ladder.laid.get(sets);
  const all = pieces.flatMap((piece) => {
    const copies = sets * (set.get(piece.id) ?? 0);
    return copies > 0 ? [{ ...piece, copies }] : [];
  });
  const isWhole = pieces.every(({ id, copies }) => sets * (set.get(id) ?? 0) === copies);
  const look = { ...pack, effort: Math.ceil(pack.effort / LOOK) };
  const asked = { plan, cloth: ladder.given, pieces: all };
  const found = layOutSets(asked, lengths || isWhole ? layOut : look);
  ladder.laid.set(sets, found);
  return found;
}

/** Every leftover rectangle of the lengths that are cut, on all plies, largest first; of what is bought also where none is cut. */
function leftoversOf(bolt: Bed, beds: readonly PackedBed[], bought: number): readonly Size[] {
  const cut = beds.find((own) => own.bed.source === 'bought');
  const whole = cut || bought === 0 ? [] : leftOn(bolt, undefined, bought);
  return [
    ...beds.flatMap((own) =>
      leftOn(own.bed, own, own.bed.source === 'bought' ? bought : lengthToPack(own.bed)),
    ),
    ...whole,
  ].sort((a, b) => b.width * b.length - a.width * a.length);
}

function leftOn(bed: Bed, packed: PackedBed | undefined, length: number): readonly Size[] {
  // Where flaws lie is known to the packer alone, so a flawed length counts for nothing beyond its cuts.
  if (bed.flaws.length > 0) return [];
  const plies = bed.lay.kind === 'folded' ? 2 : 1;
  const used = packed?.length ?? 0;
  const spans = bed.gap ? [bed.gap.x0, bed.packable - bed.gap.x1] : [bed.packable];
  const end = spans.map((width) => ({ width: ticks(width), length: ticks(length - used) }));
  const whole = { x0: ticks(0), y0: ticks(0), x1: bed.packable, y1: ticks(used) };
  const inside = packed ? leftIn(packed.tree, whole, packed.bed).flatMap((box) => clearOfGap(bed, box)) : [];
  return [...inside, ...end]
    .filter((size) => size.width > 0 && size.length > 0)
    .flatMap((size) => Array.from({ length: plies }, () => size));
}

/** What is left inside a packing. A panel that no piece takes stays whole in it, with what lies beside. */
function leftIn(tree: PackedBed['tree'], box: PlainBox<Ticks>, bed: Bed): readonly PlainBox<Ticks>[] {
  if (isLeftOnly(tree, bed)) return [box];
  if (tree.kind !== 'cut') return tree.kind === 'piece' ? [] : [box];
  const cut = tree as Extract<CutTree<number>, { kind: 'cut' }>;
  return partsOf(cut, box).flatMap((part) => leftIn(part.tree, part.box, bed));
}

function clearOfGap(bed: Bed, box: { x0: number; y0: number; x1: number; y1: number }): readonly Size[] {
  const length = ticks(box.y1 - box.y0);
  const { gap } = bed;
  if (!gap) return [{ width: ticks(box.x1 - box.x0), length }];
  return [
    { width: ticks(Math.max(0, Math.min(box.x1, gap.x0) - box.x0)), length },
    { width: ticks(Math.max(0, box.x1 - Math.max(box.x0, gap.x1))), length },
  ];
}

/** Single pieces that the leftovers hold, largest leftover first, never as many as would make another set. */
function singlesOver(compared: Compared, leftovers: readonly Size[], pack: PackOptions): Buy['over'] {
  const { pieces, set, plan } = compared;
  const { kinds } = sortIntoKinds(
    pieces.map(({ match: _, ...piece }) => ({ ...piece, copies: set.get(piece.id) ?? 0 })),
    compared.ladder.cloth,
  );
  // Where the print lies on a leftover is not told, so nothing that is matched, or has a panel, is counted on it.
  const isKept = staysWhole(compared.ladder.cloth);
  const matched = new Set(pieces.flatMap(({ id, match, panel }) => (match || panel || isKept ? [id] : [])));
  const left = kinds.map(({ kind, copies }): Kind => {
    const free = copies.filter(({ piece }) => !matched.has(piece)).length;
    return { ...kind, copies: free };
  });
  const dealt = kinds.map(() => 0);
  for (const size of leftovers) {
    const result = mostFromSheet(
      {
        sheet: { width: size.width, length: size.length },
        kinds: left.map((kind, index) => ({ ...kind, copies: kind.copies - dealt[index]! })),
      },
      { ...pack, stages: plan.stages },
    );
    if (result.status !== 'best' && result.status !== 'found') continue;
    for (const [kind, copies] of countKinds(result.sheets[0]!.tree)) dealt[kind]! += copies;
  }
  const counts = new Map<PieceId, number>();
  for (const [kind, copies] of dealt.entries()) {
    const free = kinds[kind]!.copies.filter(({ piece }) => !matched.has(piece));
    for (const copy of free.slice(0, copies)) counts.set(copy.piece, (counts.get(copy.piece) ?? 0) + 1);
  }
  return [...counts].map(([piece, copies]) => ({ piece, copies }));
}
