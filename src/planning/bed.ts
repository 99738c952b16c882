import { edgesOf, type FoldedWidth, foldedWidth, type Span, usableWidth } from '../cloth/usable.ts';
import { afterWashing, flawsAsTheyLie, lossBeforeCutting } from '../cloth/washing.ts';
import { type CoverBox, coverBoxes } from '../geometry/outline.ts';
import type { Cloth, LengthInHand, Selvedges, Worth } from '../model/cloth.ts';
import type { Lay, LengthPlan, PrintBegin } from '../model/cut-plan.ts';
import type { Box } from '../model/piece.ts';
import type { Placement, Sheet } from '../packing/instance.ts';
import { floorTo, type Ticks, ticks } from '../units/ticks.ts';

/**
 * One length of cloth as the packer is to see it, and what is needed to put the packer's answer back on the cloth.
 * The packer's x = 0 is `left` on the flat cloth; on a folded one it is the near edge beside the fold.
 */
export interface Bed {
  readonly name: string;
  readonly source: LengthPlan['source'];
  /** Of a length in hand: its name, which several copies share. */
  readonly entryName?: string;
  /** Overall width as it lies on the table. */
  readonly width: Ticks;
  /** Whole length as it lies on the table; Infinity for a bolt sold in any length. */
  readonly length: number;
  readonly squaring: Ticks;
  readonly rulerMark: Ticks;
  readonly selvedgeTrim: Selvedges;
  readonly lay: Lay;
  /** Flat: distance from the left outer edge. Folded: distance from the fold. */
  readonly left: Ticks;
  /** How much of that is usable cloth, left off for the sake of a print. */
  readonly leftOff?: Ticks;
  /** Width that the packer is given. */
  readonly packable: Ticks;
  /** The kept-off crease between two usable spans, in the packer's x; on a folded bed in the upper ply alone. */
  readonly gap?: Span;
  /** The same where some of it lies before the packer's x = 0, in cloth that is left off for the sake of a print, or off the marks. */
  readonly strip?: Span;
  /** Most width that pieces can take: `packable` less the gap, doubled when folded, and what lies in one ply beside it. */
  readonly usable: Ticks;
  /** Folded where pieces may lie across the fold: anywhere but at a kept-off crease. */
  readonly acrossFold?: true;
  /** Of a fold off the middle: the cloth that lies in one ply, its x from the fold. */
  readonly beside?: BesideFold;
  /** Cloth between the squared end and the packer's y = 0, so that the print of all beds starts alike. */
  readonly skip: Ticks;
  /** Where `skip` is below 0: what of the packer's length lies before the squared end, out to whole ruler marks. */
  readonly ahead?: Ticks;
  /** Of printed panels that a shop cuts anywhere in their repeat: length kept at the far end, since the worst start takes all of it. */
  readonly unknownStart: Ticks;
  /** Where the start of a matched print on this length is not known: what may go at the near end until it is begun right. */
  readonly begins?: PrintBegin;
  /** How much less of it might be needed, or more of it be usable, if the print of all beds were begun elsewhere than it is. */
  readonly elsewhere?: number;
  /** Its matched pieces only have to be like each other, so a length that is cut alone may begin anywhere in the print. */
  readonly alike?: true;
  /**
   * Boxes on the flat cloth, x from the left outer edge and y from the near end, that pieces stay off. Where less goes at the
   * near end than is drawn, they lie that much nearer to the far one; `flawsAround` has both.
   */
  readonly flaws: readonly CoverBox[];
  /** Pieces around printed panels, and panels that stay whole, in the packer's frame. */
  readonly fixed?: readonly Placement[];
  /** Those panels that stay whole, on the flat cloth; the packer knows them as kinds from `kindFrom` on. */
  readonly kept?: { readonly boxes: readonly Box[]; readonly kindFrom: number };
  /** What using it is worth, where the maker says so; only a length in hand has it. */
  readonly worth?: Worth;
}

/** Cloth in one ply beyond the edge that is folded over. */
export interface BesideFold {
  /** Distance from the fold. */
  readonly left: Ticks;
  readonly packable: Ticks;
  /** Where it leaves cloth on both its sides: the kept-off crease, in distances from `left`. */
  readonly gap?: Span;
  /** The kept-off crease, in distances from the fold. */
  readonly strip?: Span;
}

/** The bed that a length in hand makes, or (without one) a length still to be bought; undefined when nothing is usable. */
export function bedOf(cloth: Cloth, rulerMark: Ticks, inHand?: LengthInHand): Bed | undefined {
  const edges = edgesOf(cloth, inHand);
  const { buy } = cloth;
  const longest = buy?.longest === undefined ? undefined : floorTo(buy.longest, buy.step);
  const whole = inHand?.length ?? longest;
  const reserve = inHand?.firstMotif === undefined ? (cloth.startReserve ?? ticks(0)) : ticks(0);
  const common = {
    name: inHand?.name ?? 'bought',
    source: inHand ? ('in-hand' as const) : ('bought' as const),
    length: whole === undefined ? Infinity : afterWashing(whole, lossBeforeCutting(cloth, inHand).along),
    squaring: cloth.squaring,
    skip: ticks(0),
    unknownStart: cloth.reservedForPanels ? reserve : ticks(0),
    ...(reserve > 0 && !cloth.reservedForPanels && { begins: { within: reserve } }),
    ...(inHand && { entryName: inHand.name }),
    flaws: flawBoxes(cloth, inHand),
    rulerMark,
    selvedgeTrim: edges.selvedge,
    ...(inHand?.worth && { worth: inHand.worth }),
  };
  if (cloth.lay === 'folded') {
    const half = foldedWidth(cloth, edges, rulerMark);
    if (half.usable === 0) return undefined;
    const beside = besideOf(half);
    const single = half.single.reduce((total, span) => total + span.x1 - span.x0, 0);
    return {
      ...common,
      ...(beside && { beside }),
      ...((edges.crease.kind !== 'keep-off' || half.strip) && { acrossFold: true as const }),
      width: half.width,
      lay: { kind: 'folded', foldAt: half.foldAt },
      left: half.from,
      packable: half.usable,
      usable: ticks(2 * (half.usable - (half.gap ? half.gap.x1 - half.gap.x0 : 0)) + single),
      ...(half.gap && { gap: half.gap, ...(half.strip && { strip: half.strip }) }),
    };
  }
  const { width, spans } = usableWidth(cloth, edges, rulerMark);
  const [first, second] = spans;
  if (!first) return undefined;
  const left = first.x0;
  const packable = ticks((second ?? first).x1 - left);
  const gap = second && { x0: ticks(first.x1 - left), x1: ticks(second.x0 - left) };
  const usable = ticks(packable - (gap ? gap.x1 - gap.x0 : 0));
  return { ...common, width, lay: { kind: 'flat' }, left, packable, usable, ...(gap && { gap }) };
}

function besideOf({ single, strip }: FoldedWidth): BesideFold | undefined {
  const [first, second] = single;
  if (!first) return undefined;
  const left = first.x0;
  return {
    left,
    packable: ticks((second ?? first).x1 - left),
    ...(second && { gap: { x0: ticks(first.x1 - left), x1: ticks(second.x0 - left) } }),
    ...(strip && { strip }),
  };
}

/** The part of an off-centre fold that lies in one ply, as a flat bed of its own; its flaws are those of the length. */
export function singlePly(bed: Bed, beside: BesideFold): Bed {
  const { beside: _, lay, gap: __, strip: ___, ...rest } = bed;
  const foldAt = lay.kind === 'folded' ? lay.foldAt : ticks(0);
  const { packable, gap } = beside;
  return {
    ...rest,
    lay: { kind: 'flat' },
    left: ticks(foldAt + beside.left),
    packable,
    usable: ticks(packable - (gap ? gap.x1 - gap.x0 : 0)),
    ...(gap && { gap }),
  };
}

/** What goes at the near end: the squaring, and what it takes at most to begin a print. */
export function nearEnd({ squaring, begins }: Pick<Bed, 'squaring' | 'begins'>): Ticks {
  return ticks(squaring + (begins?.within ?? 0));
}

/**
 * The length between the two squared ends, in whole ruler marks so that cuts may be measured from either of them; 0
 * when squaring takes it all.
 */
export function lengthToPack(bed: Bed): number {
  const between = bed.length - nearEnd(bed) - bed.squaring - bed.skip - bed.unknownStart;
  if (between <= 0 || between === Infinity) return Math.max(0, between);
  return floorTo(ticks(between), bed.rulerMark);
}

/** The bed as the packer's sheet. `length` overrides how much of it may be used, for a strip that is tried shorter. */
export function sheetOf(bed: Bed, length: number = lengthToPack(bed)): Sheet {
  // A strip of open length still needs an end for its forbidden box; the packer reads Infinity as "all along".
  const gap = bed.gap ? [{ x0: bed.gap.x0, y0: 0, x1: bed.gap.x1, y1: length }] : [];
  const forbidden = [...gap, ...flawsToPack(bed)].filter((box) => box.y0 < length);
  const fixed = (bed.fixed ?? []).filter(({ y0 }) => y0 < length);
  return {
    width: bed.packable,
    length,
    ...(forbidden.length > 0 && { forbidden }),
    ...(fixed.length > 0 && { fixed }),
  };
}

/** The flaws in the packer's frame, out to whole ruler marks so that cuts beside them can be set; on a folded bed, of both plies. */
export function flawsToPack(bed: Bed): readonly CoverBox[] {
  return flawsAround(bed)
    .map(({ x0, y0, x1, y1 }) => ({
      x0: Math.max(0, x0),
      y0: Math.max(0, y0),
      x1: Math.min(bed.packable, x1),
      y1,
    }))
    .filter((box) => box.x0 < box.x1 && box.y0 < box.y1);
}

/** The same with what lies before the packer's x and y = 0, or beyond its width. */
export function flawsAround(bed: Bed): readonly CoverBox[] {
  const { lay, rulerMark: mark } = bed;
  const near = nearEnd(bed) + bed.skip;
  return bed.flaws
    .flatMap((box) => besideKept(box, bed.kept?.boxes ?? []))
    .map((box) => ({ ...box, y1: box.y1 + (bed.begins?.within ?? 0) }))
    .flatMap((box) => (lay.kind === 'folded' ? foldedOver(box, lay.foldAt) : [box]))
    .map(({ x0, y0, x1, y1 }) => ({ x0: x0 - bed.left, y0: y0 - near, x1: x1 - bed.left, y1: y1 - near }))
    .map(({ x0, y0, x1, y1 }) => ({
      x0: mark * Math.floor(x0 / mark),
      y0: mark * Math.floor(y0 / mark),
      x1: mark * Math.ceil(x1 / mark),
      y1: mark * Math.ceil(y1 / mark),
    }));
}

/** The boxes that cover a flaw may reach over a panel beside it, which stays whole anyhow: that much of them is let go. */
function besideKept(flaw: CoverBox, kept: readonly Box[]): readonly CoverBox[] {
  return kept.reduce<readonly CoverBox[]>(
    (boxes, panel) => boxes.flatMap((box) => withoutBox(box, panel)),
    [flaw],
  );
}

function withoutBox(box: CoverBox, out: Box): readonly CoverBox[] {
  if (box.x0 >= out.x1 || out.x0 >= box.x1 || box.y0 >= out.y1 || out.y0 >= box.y1) return [box];
  const y0 = Math.max(box.y0, out.y0);
  const y1 = Math.min(box.y1, out.y1);
  return [
    { ...box, y1: y0 },
    { ...box, y0, y1, x1: out.x0 },
    { ...box, y0, y1, x0: out.x1 },
    { ...box, y0: y1 },
  ].filter((part) => part.x0 < part.x1 && part.y0 < part.y1);
}

/** Distances from the fold, on whichever ply the flaw lies. */
function foldedOver(box: CoverBox, foldAt: Ticks): readonly CoverBox[] {
  const lower = { ...box, x0: Math.max(0, foldAt - box.x1), x1: foldAt - box.x0 };
  const upper = { ...box, x0: Math.max(0, box.x0 - foldAt), x1: box.x1 - foldAt };
  return [lower, upper].filter(({ x0, x1 }) => x1 > x0);
}

/** Covered after washing, when an outline has shrunk; a tick is added where it may have been rounded away. */
function flawBoxes(cloth: Cloth, inHand: LengthInHand | undefined): readonly CoverBox[] {
  const { along, across } = lossBeforeCutting(cloth, inHand);
  const shrinks = along.numerator > 0 || across.numerator > 0;
  return flawsAsTheyLie(cloth, inHand).flatMap((corners) =>
    coverBoxes(corners).map((box) => (shrinks ? { ...box, x1: box.x1 + 1, y1: box.y1 + 1 } : box)),
  );
}

/** How far from the fold a folded bed may hold half a piece, up to a crease that is kept off. */
export function roomAtFold(bed: Bed): number {
  return bed.gap ? bed.gap.x0 : bed.packable;
}

/** The widest piece that the bed can hold in one of its spans. */
export function widestPart(bed: Bed): number {
  return bed.gap ? Math.max(bed.gap.x0, bed.packable - bed.gap.x1) : bed.packable;
}

/** Whether a rectangle fits a room in one of the ways it may lie. */
export function fits(
  kind: { readonly width: number; readonly length: number; readonly quarterTurn: boolean },
  room: { readonly width: number; readonly length: number },
): boolean {
  return (
    (kind.width <= room.width && kind.length <= room.length) ||
    (kind.quarterTurn && kind.length <= room.width && kind.width <= room.length)
  );
}
