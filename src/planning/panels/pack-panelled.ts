import type { Cloth } from '../../model/cloth.ts';
import type { Box } from '../../model/piece.ts';
import type { Plan } from '../../model/plan.ts';
import type { Kind, PackOptions, Placement } from '../../packing/instance.ts';
import { fewestSheets, shortestLength } from '../../packing/pack.ts';
import type { PackedSheet } from '../../packing/result.ts';
import { type Bed, lengthToPack, sheetOf } from '../bed.ts';
import type { Beds } from '../beds.ts';
import { costed, onBed, type PackedBed, type PackedBeds, shorten, tidied } from '../pack-beds.ts';
import { buyFor } from '../purchase.ts';
import { cutOff, reachOf } from '../reach.ts';
import { boxesOverlap, type PanelRoom, panelRooms } from './panel-rooms.ts';
import { type PanelWanted, type Taken, waysToTake } from './take-panels.ts';

/** What of the packing hangs on panels. */
export interface PanelsAsked {
  readonly wanted: readonly PanelWanted[];
  /** Whether panels that no piece takes stay whole. */
  readonly keeps: boolean;
}

/** So many numbers of repeats are tried before it is given up that the pieces find room beside the panels. */
const MOST_TRIES = 10;

/**
 * Packs all kinds on the beds of a cloth with printed panels: first the panels are taken, in hand before any are bought and
 * in as few repeats as hold them; then each piece around one is fixed where its panel lies, panels that are left stay
 * whole, and the rest is packed beside them.
 */
export function packPanelled(
  cloth: Cloth,
  beds: Beds,
  kinds: readonly Kind[],
  { wanted, keeps }: PanelsAsked,
  plan: Plan,
  pack: PackOptions,
): PackedBeds {
  const inHand = beds.inHand.reduce((total, bed) => total + bed.usable * lengthToPack(bed), 0);
  const area = kinds.reduce((total, kind) => total + kind.width * kind.length * kind.copies, 0);
  const mayBuy = beds.toBuy !== undefined && cloth.panels?.every !== undefined;
  // A length below which the panels, or the area of all pieces, are proven not to be had.
  let bound = mayBuy ? Math.max(0, Math.ceil((area - inHand) / beds.toBuy!.usable)) : 0;
  let tries = 0;
  const most = 2 * wanted.reduce((total, { piece }) => total + piece.copies, 0) + 2;
  let last: readonly PanelRoom[] | undefined;
  for (let repeats = 0; tries < MOST_TRIES; repeats++) {
    if (repeats > 0 && !mayBuy) break;
    const rooms = panelRooms(cloth, beds, repeats);
    const bolts = rooms.filter(({ bed }) => bed.source === 'bought');
    const held = rooms.reduce((total, { bed }) => total + bed.usable * lengthToPack(bed), 0);
    if (repeats > 0 && bolts.length === 0) break;
    if (held < area) {
      if (!mayBuy) break;
      continue;
    }
    const { ways, sure, only } = waysToTake(rooms, wanted, keeps);
    if (ways.length === 0) {
      if (repeats > most) break;
      // So many repeats lack the panels, so more than they hold is needed.
      if (sure && bolts.length === 1) bound = Math.max(bound, lengthToPack(bolts[0]!.bed) + 1);
      continue;
    }
    tries++;
    last = rooms;
    const share = { ...pack, effort: Math.ceil(pack.effort / (2 * ways.length)) };
    const packed = ways.flatMap((way) => packOneWay(rooms, way, kinds, keeps, { plan, pack: share }) ?? []);
    const best = leastBought(cloth, packed);
    if (!best) continue;
    const buys = best.beds.some(({ bed }) => bed.source === 'bought');
    const proven = buys ? isLeast(cloth, best.beds, bound) : best.proven && only;
    return { ok: true, beds: best.beds, proven, ...(buys && { bound }) };
  }
  return { ok: false, leftOut: kinds.map((_, kind) => kind), ...(last && { aroundPanels: true as const }) };
}

interface OneWay {
  readonly beds: readonly PackedBed[];
  readonly proven: boolean;
}

/** The pieces around the panels taken, each fixed; all others beside them. Undefined where no packing is found. */
function packOneWay(
  rooms: readonly PanelRoom[],
  taken: readonly Taken[],
  kinds: readonly Kind[],
  keeps: boolean,
  { plan, pack }: { readonly plan: Plan; readonly pack: PackOptions },
): OneWay | undefined {
  const kept = rooms.map(({ places, whole }, room) => {
    const boxes = keeps ? places.filter((place) => whole.has(place)).map(({ box }) => box) : [];
    return boxes.filter((box) => !taken.some((own) => own.room === room && boxesOverlap(own.box, box)));
  });
  const sizes = [...new Set(kept.flat().map(sizeKey))];
  const left = sizes.map((size): Kind => {
    const [width, length] = size.split(' ').map(Number) as [number, number];
    return { width, length, copies: 0, quarterTurn: false, value: 0, withSheet: true };
  });
  const all = [...kinds, ...left];
  const beds = rooms.map(({ bed }, room) => {
    const own = taken.filter((one) => one.room === room);
    const fixed = [
      ...own.map(({ kind, box }) => placement(bed, kind, box)),
      ...kept[room]!.map((box) => placement(bed, kinds.length + sizes.indexOf(sizeKey(box)), box)),
    ];
    return { ...bed, fixed, kept: { boxes: kept[room]!, kindFrom: kinds.length } };
  });
  const packed = packFixed(beds, all, pack);
  if (!packed) return undefined;
  const finished = packed.beds.map((own) => toKeptReach(tidied(own, all, plan, pack), kinds.length));
  return { ...packed, beds: finished.map((own) => named(own, finished)) };
}

/** From one bolt the shortest length, else the fewest beds. */
function packFixed(beds: readonly Bed[], kinds: readonly Kind[], pack: PackOptions): OneWay | undefined {
  const [first, second] = beds;
  if (first?.source === 'bought' && !second) {
    const result = shortestLength({ sheet: sheetOf(first), kinds }, { ...pack, ...untilFound(pack) });
    if (result.status !== 'best' && result.status !== 'found') return undefined;
    return { beds: [{ ...onBed([first], result.sheets[0]!), length: result.value }], proven: false };
  }
  const result = fewestSheets({ sheets: costed(beds), kinds }, pack);
  if (result.status !== 'best' && result.status !== 'found') return undefined;
  const packed = result.sheets.map((sheet: PackedSheet) => {
    const own = onBed(beds, sheet);
    return own.bed.source === 'bought' ? shorten(own, kinds, pack) : own;
  });
  return { beds: packed, proven: result.status === 'best' };
}

/** A length in repeats is no cheaper for being shorter, so a little search after the first answer is enough. */
function untilFound(pack: PackOptions): Pick<PackOptions, 'stop' | 'onProgress'> {
  let found: number | undefined;
  let nodes = 0;
  return {
    stop: () => pack.stop?.() === true || (found !== undefined && nodes > found + pack.effort / 4),
    onProgress: (progress) => {
      nodes = progress.nodes;
      if (progress.value !== undefined) found ??= progress.nodes;
      pack.onProgress?.(progress);
    },
  };
}

function sizeKey({ x0, y0, x1, y1 }: Box): string {
  return `${x1 - x0} ${y1 - y0}`;
}

/** A box of the flat cloth in the packer's frame. */
function placement(bed: Bed, kind: number, { x0, y0 }: Box): Placement {
  return { kind, x0: x0 - bed.left, y0: y0 - bed.squaring - bed.skip, turned: false };
}

/**
 * The same tree up to where its pieces end, or the last of the panels beside them that stay whole. A length with flaws is
 * kept as it is: beyond the pieces its leftovers are cut round them.
 */
function toKeptReach(own: PackedBed, keptFrom: number): PackedBed {
  const { bed, tree, length } = own;
  if (bed.flaws.length > 0) return own;
  const pieces = { reach: reachOf(tree, bed.packable, length, (kind) => kind < keptFrom) };
  let far = pieces.reach;
  const near = bed.squaring + bed.skip;
  for (;;) {
    const cutInto = bed.kept!.boxes.find((box) => box.y0 - near < far && box.y1 - near > far);
    if (!cutInto) break;
    far = cutInto.y1 - near;
  }
  return far >= length ? own : { ...own, tree: cutOff(tree, length, far), length: far };
}

/** Of several bought lengths each has a number; a single one has none. */
function named(own: PackedBed, all: readonly PackedBed[]): PackedBed {
  const bought = all.filter(({ bed }) => bed.source === 'bought');
  if (own.bed.source !== 'bought') return own;
  return { ...own, name: bought.length === 1 ? 'bought' : `bought ${bought.indexOf(own) + 1}` };
}

function leastBought(cloth: Cloth, found: readonly OneWay[]): OneWay | undefined {
  const weigh = ({ beds }: OneWay) =>
    beds.reduce(
      (total, own) => total + (own.bed.source === 'bought' ? buyFor(cloth, own.length).bought : 0),
      0,
    );
  return found.reduce<OneWay | undefined>(
    (best, own) => (best === undefined || weigh(own) < weigh(best) ? own : best),
    undefined,
  );
}

function isLeast(cloth: Cloth, beds: readonly PackedBed[], bound: number): boolean {
  const bought = beds.filter(({ bed }) => bed.source === 'bought');
  const [own] = bought;
  if (!own || bought.length > 1) return false;
  return buyFor(cloth, Math.ceil(bound)).bought === buyFor(cloth, own.length).bought;
}
