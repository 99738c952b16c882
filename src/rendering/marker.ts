import { twiceTheCrease } from '../cloth/usable.ts';
import { flawsAsTheyLie } from '../cloth/washing.ts';
import { walk } from '../geometry/walk.ts';
import type { Cloth, ClothName } from '../model/cloth.ts';
import type { ClothPlan, CutPlan, LengthPlan } from '../model/cut-plan.ts';
import type { CutDirection, QuarterTurns, TrimKind } from '../model/cut-tree.ts';
import type { Box, PieceId, PieceLine, PieceWanted, Size } from '../model/piece.ts';
import type { PlanUnit } from '../model/plan.ts';
import { lengthInHand } from '../planning/length-in-hand.ts';
import { type PanelTold, panelsOf } from '../planning/panels/panels-told.ts';
import { toldLeftovers } from '../planning/put-back.ts';
import { cutTogetherWith, stackOf, stepsOfLength } from '../planning/stack-steps.ts';
import type { Blade } from '../planning/tool-reach.ts';
import { type Ticks, ticks } from '../units/ticks.ts';
import { withGlyphs } from './glyphs.ts';
import { type MotifPlace, motifPlaces } from './marker/prints.ts';
import { type Side, turnBox, turnSegment, upSide } from './marker/turns.ts';
import { beginWords, counterWords } from './panel-words.ts';

/**
 * The marker of one cloth: everything that is drawn, in ticks of the opened cloth (x across from its left edge, y along
 * from its start), before any page or scale is chosen.
 */
export interface Marker {
  readonly cloth: Cloth;
  readonly unit: PlanUnit;
  readonly lengths: readonly MarkerLength[];
  /** What is cut from this cloth, in the order of the plan's pieces. */
  readonly kinds: readonly MarkerKind[];
}

export interface MarkerKind {
  readonly piece: PieceWanted;
  /** Its place among the cloth's kinds, which picks its weave. */
  readonly index: number;
  /** Cut in all, over every ply. */
  readonly copies: number;
  /** Shapes drawn; less than `copies` where cloth lies double. */
  readonly drawn: number;
  /** Cut beyond what was wanted. */
  readonly surplus: number;
}

export interface MarkerLength {
  readonly name: string;
  readonly source: LengthPlan['source'];
  /** The part of the opened cloth that shows as it is laid: all of it, or from the fold to the farther edge. */
  readonly shown: Box;
  readonly plies: 1 | 2;
  /** Where it is folded, which is its left edge as it lies. */
  readonly fold?: Ticks;
  /** Of a fold off the middle: where the edge that is folded over comes to lie; beyond it the cloth lies in one ply. */
  readonly overTo?: Ticks;
  /** Where the bolt fold runs, if the cloth has one. */
  readonly crease?: Ticks;
  readonly pieces: readonly MarkerPiece[];
  readonly leftovers: readonly MarkerLeftover[];
  /** Holes, stains and cut-away corners of a flat length, as they lie on the table. */
  readonly flaws: readonly MarkerFlaw[];
  /** Printed panels of a flat length, whatever became of them. */
  readonly panels: readonly PanelTold[];
  /** Where the motifs of a matched print lie on a flat length. */
  readonly motifs: readonly MotifPlace[];
  /** Says with which other cloths it is cut as one; empty where it is cut by itself. */
  readonly together: string;
  /** How the shop is to cut it and where it begins, on account of its panels; empty where nothing is to be said. */
  readonly bought: string;
  /** The most that goes at the near end to begin a print whose start is not known, as it is drawn. */
  readonly begunWithin?: Ticks;
  readonly cuts: readonly MarkerCut[];
}

/** Corners in order. */
export type MarkerFlaw = readonly { readonly x: Ticks; readonly y: Ticks }[];

export interface MarkerPiece {
  readonly kind: MarkerKind;
  /** What the lower ply yields here, where that is another kind. */
  readonly under?: MarkerKind;
  readonly box: Box;
  readonly quarterTurns: QuarterTurns;
  /** Which side of the box the piece's own top lies on: `far` is towards the end of the length. */
  readonly up: Side;
  readonly finished: Box;
  readonly lines: readonly PieceLine[];
  /** Where it meets other parts of a joined piece: the line, the other's letter, and how they meet. */
  readonly joins: readonly MarkerJoin[];
}

export interface MarkerJoin extends Box {
  readonly words: string;
}

export interface MarkerLeftover {
  readonly kind: 'remnant' | 'scrap' | TrimKind;
  readonly box: Box;
  /** Of a remnant: as it is told, opened out. */
  readonly size?: Size;
}

/** One line that is cut. */
export interface MarkerCut extends Box {
  /** The step in which it is cut, in the order of the hands, from 1 in each length; alike cuts share their step. */
  readonly step: number;
  readonly direction: CutDirection;
  readonly blade: Blade;
}

/**
 * Draws one cloth of a plan.
 * @throws RangeError when the plan has no such cloth, or the tree names a piece that the plan does not want.
 */
export function drawMarker(cutPlan: CutPlan, clothName: ClothName): Marker {
  const cloth = cutPlan.plan.cloths.find(({ name }) => name === clothName);
  const clothPlan = cutPlan.cloths.find((candidate) => candidate.cloth === clothName);
  if (!cloth || !clothPlan) throw new RangeError(`the plan cuts nothing from a cloth named "${clothName}"`);
  const kinds = markerKinds(cutPlan.pieces, clothPlan);
  const kindOf = new Map(kinds.map((kind) => [kind.piece.id, kind]));
  return {
    cloth,
    unit: cutPlan.plan.unit,
    kinds,
    lengths: clothPlan.lengths.map((length) => ({
      ...markerLength(length, cloth, { kindOf, cutPlan }),
      bought: boughtWords(cutPlan, clothPlan, length),
    })),
  };
}

/** The part of the opened cloth that a cutter sees as it is laid. */
export function shownBox({ lay, width, length }: LengthPlan): Box {
  return { x0: lay.kind === 'flat' ? ticks(0) : lay.foldAt, y0: ticks(0), x1: width, y1: length };
}

function markerKinds(pieces: readonly PieceWanted[], clothPlan: ClothPlan): MarkerKind[] {
  const copies = new Map<PieceId, number>();
  const drawn = new Map<PieceId, number>();
  for (const length of clothPlan.lengths) {
    const shown = shownBox(length);
    for (const { leaf, box } of walk(length.tree, length.width, length.length).leaves) {
      if (leaf.kind !== 'piece') continue;
      copies.set(leaf.piece, (copies.get(leaf.piece) ?? 0) + 1);
      if (meets(box, shown)) drawn.set(leaf.piece, (drawn.get(leaf.piece) ?? 0) + 1);
    }
  }
  return pieces
    .filter(({ id }) => copies.has(id))
    .map((piece, index) => ({
      piece,
      index,
      copies: copies.get(piece.id)!,
      drawn: drawn.get(piece.id) ?? 0,
      surplus: clothPlan.surplus.find((extra) => extra.piece === piece.id)?.copies ?? 0,
    }));
}

function markerLength(
  length: LengthPlan,
  cloth: Cloth,
  { kindOf, cutPlan }: { readonly kindOf: ReadonlyMap<PieceId, MarkerKind>; readonly cutPlan: CutPlan },
): Omit<MarkerLength, 'bought'> {
  const under = length.lay.kind === 'folded' ? lowerPly(length, length.lay.foldAt) : undefined;
  const walked = walk(length.tree, length.width, length.length);
  const shown = shownBox(length);
  const leaves = walked.leaves.filter(({ box }) => meets(box, shown));
  const pieces: MarkerPiece[] = [];
  const leftovers: MarkerLeftover[] = [];
  // A leftover is drawn as it hangs together, what is trimmed of it later upon it.
  const kept = toldLeftovers(cloth, length, cutPlan.plan).filter(({ box }) => meets(box, shown));
  for (const { box, size } of kept) leftovers.push({ kind: 'remnant', box: clipped(box, shown), size });
  for (const { leaf, box } of leaves) {
    if (leaf.kind === 'piece') pieces.push(markerPiece(leaf, box, { kindOf, under }));
    else if (leaf.kind === 'trim' || !kept.some((own) => isWithin(box, own.box))) {
      const kind = leaf.kind === 'trim' ? leaf.of : leaf.kind;
      leftovers.push({ kind, box: clipped(box, shown), ...(kind === 'remnant' && { size: sizeOf(box) }) });
    }
  }
  const bare = {
    name: length.name,
    source: length.source,
    shown,
    pieces,
    leftovers,
    flaws: length.lay.kind === 'flat' ? flawsOf(length, cloth) : [],
    panels: length.lay.kind === 'flat' ? panelsOf(cutPlan, cloth, length) : [],
    motifs: motifPlaces(cutPlan, cloth, length),
    ...(length.begins && { begunWithin: length.begins.within }),
    together: togetherWords(cutPlan, cloth.name, length.name),
    cuts: markerCuts(cutPlan, cloth.name, length),
  };
  const crease = creaseOf(length, cloth);
  const withCrease = crease === undefined ? bare : { ...bare, crease };
  if (length.lay.kind === 'flat') return { ...withCrease, plies: 1 };
  const { foldAt } = length.lay;
  const overTo = ticks(2 * foldAt);
  return { ...withCrease, plies: 2, fold: foldAt, ...(overTo < length.width - 1 && { overTo }) };
}

function markerPiece(
  leaf: { readonly piece: PieceId; readonly quarterTurns: QuarterTurns },
  box: Box,
  {
    kindOf,
    under,
  }: { readonly kindOf: ReadonlyMap<PieceId, MarkerKind>; readonly under: LowerPly | undefined },
): MarkerPiece {
  const kind = kindOf.get(leaf.piece);
  if (!kind) throw new RangeError(`the cut tree names a piece that the plan does not want: "${leaf.piece}"`);
  const below = kindOf.get(under?.get(`${box.x0} ${box.y0}`) ?? leaf.piece);
  const size: Size = kind.piece.size;
  const turn = { size, quarterTurns: leaf.quarterTurns, at: box };
  return {
    kind,
    ...(below && below !== kind ? { under: below } : {}),
    box,
    quarterTurns: leaf.quarterTurns,
    up: upSide(leaf.quarterTurns),
    finished: turnBox(kind.piece.finished, turn),
    lines: kind.piece.lines.map((line) => ({ kind: line.kind, ...turnSegment(line, turn) })),
    joins: kind.piece.lines.flatMap((line) =>
      line.meets ? [{ ...turnSegment(line, turn), words: joinWords(line.meets, kindOf) }] : [],
    ),
  };
}

/** `over A2`, `under A1`, `to A2`: from this part to the other. */
function joinWords(
  { part, side }: NonNullable<PieceLine['meets']>,
  kindOf: ReadonlyMap<PieceId, MarkerKind>,
): string {
  const letter = kindOf.get(part)?.piece.letter ?? part;
  return side === 'seam' ? `to ${letter}` : `${side} ${letter}`;
}

/** Pieces of the lower ply by the corner they have when folded over. */
type LowerPly = ReadonlyMap<string, PieceId>;

function lowerPly(length: LengthPlan, foldAt: Ticks): LowerPly {
  const { leaves } = walk(length.tree, length.width, length.length);
  const pieces = leaves.flatMap(({ leaf, box }) =>
    leaf.kind === 'piece' && box.x1 <= foldAt
      ? [[`${2 * foldAt - box.x1} ${box.y0}`, leaf.piece] as const]
      : [],
  );
  return new Map(pieces);
}

function markerCuts(cutPlan: CutPlan, cloth: ClothName, length: LengthPlan): MarkerCut[] {
  return stepsOfLength(cutPlan, cloth, length).flatMap(({ number, action, blade, lines }) =>
    lines.map((line) => ({
      ...line,
      step: number,
      blade,
      direction: action === 'crosscut' ? ('crosscut' as const) : ('lengthwise' as const),
    })),
  );
}

/** `cut together with b and c, left edges aligned`; empty for a length that is cut by itself. */
function togetherWords(cutPlan: CutPlan, cloth: ClothName, length: string): string {
  const others = cutTogetherWith(cutPlan, cloth, length);
  const edge = stackOf(cutPlan, cloth, length)?.stack.edge;
  if (edge === undefined) return '';
  const last = others.at(-1)!;
  const named = others.length === 1 ? last : `${others.slice(0, -1).join(', ')} and ${last}`;
  return `cut together with ${named}, ${edge} edges aligned`;
}

function boughtWords(cutPlan: CutPlan, clothPlan: ClothPlan, length: LengthPlan): string {
  const bought = clothPlan.lengths.filter(({ source }) => source === 'bought');
  const own = clothPlan.purchase?.lengths[bought.indexOf(length)];
  if (!own) return '';
  const words = [counterWords(cutPlan, clothPlan, [own.bought]), beginWords(cutPlan, clothPlan)];
  return withGlyphs(words.filter((part) => part !== '').join(' · '));
}

function flawsOf(length: LengthPlan, cloth: Cloth): readonly MarkerFlaw[] {
  return flawsAsTheyLie(cloth, lengthInHand(cloth, length));
}

function creaseOf(length: LengthPlan, cloth: Cloth): Ticks | undefined {
  const edges = lengthInHand(cloth, length) ?? cloth;
  return edges.crease.kind === 'none' ? undefined : ticks(Math.floor(twiceTheCrease(cloth, edges) / 2));
}

const sizeOf = ({ x0, y0, x1, y1 }: Box): Size => ({ width: ticks(x1 - x0), length: ticks(y1 - y0) });

const isWithin = (box: Box, whole: Box): boolean =>
  box.x0 >= whole.x0 && box.x1 <= whole.x1 && box.y0 >= whole.y0 && box.y1 <= whole.y1;

const meets = (box: Box, shown: Box): boolean => box.x1 > shown.x0 && box.x0 < shown.x1;

const clipped = (box: Box, shown: Box): Box => ({
  x0: ticks(Math.max(box.x0, shown.x0)),
  y0: box.y0,
  x1: ticks(Math.min(box.x1, shown.x1)),
  y1: box.y1,
});
