import { type Edges, edgesOf, foldedWidth, totalWidth, usableWidth } from '../cloth/usable.ts';
import { type PlacedLeaf, walk } from '../geometry/walk.ts';
import type { Cloth, Crease, Selvedges } from '../model/cloth.ts';
import type { ClothPlan, CutPlan, LengthPlan } from '../model/cut-plan.ts';
import type { PieceId, Size } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import { type Ticks, ticks } from '../units/ticks.ts';
import { lengthInHand } from './length-in-hand.ts';
import { toldLeftovers } from './put-back.ts';
import { stackOf, stackSteps, stepsOfLength, strokesOf } from './stack-steps.ts';
import { type CuttingStep, foldsIn } from './steps.ts';

/** The usable size of a leftover, down to the ruler's marks, and the edges that it keeps besides. */
export interface KeptSize extends Size {
  readonly selvedge: Selvedges;
  readonly crease: Crease;
}

/** What is read off one length. Areas are exact square ticks. */
export interface LengthFigures {
  /** From the first squared end to the far edge of the last piece. */
  readonly lengthUsed: Ticks;
  readonly usableWidth: Ticks;
  readonly wholeArea: number;
  readonly piecesArea: number;
  /** Keepable leftovers, largest first. */
  readonly remnants: readonly KeptSize[];
  readonly scrapArea: number;
  readonly trimArea: number;
  readonly steps: readonly CuttingStep[];
  /** Passes of the blade; none where it is cut with the first layer of its stack, which counts them. */
  readonly strokes: number;
  /** Those of `strokes` that no ruler guides. */
  readonly scissored: number;
  readonly torn: number;
  /** Folds made for the cuts, besides the fold of a folded lay. */
  readonly folds: number;
}

export interface ClothFigures {
  readonly cloth: Cloth;
  readonly lengths: readonly LengthFigures[];
  readonly copies: ReadonlyMap<PieceId, number>;
  /**
   * Wanted pieces ÷ (length used × usable width), per cent: marker efficiency as the textbooks define it (area of all
   * pieces ÷ area of the marker; Glock and Kunz, Apparel Manufacturing). Spares do not count as wanted.
   */
  readonly markerEfficiency: number;
  /** Wanted pieces ÷ all the cloth bought or taken, edges included, per cent. */
  readonly utilisation: number;
  readonly remnants: readonly KeptSize[];
  readonly strokes: number;
  readonly scissored: number;
  readonly torn: number;
  readonly folds: number;
}

/** Everything the summary says of one cloth, read off its trees. */
export function clothFigures(cutPlan: CutPlan, clothPlan: ClothPlan): ClothFigures {
  const cloth = cutPlan.plan.cloths.find((own) => own.name === clothPlan.cloth);
  if (!cloth) throw new Error(`no cloth named ${clothPlan.cloth} in the plan`);
  const lengths = clothPlan.lengths.map((length) => lengthFigures(cutPlan, cloth, length));
  const total = (of: (figures: LengthFigures) => number) => lengths.reduce((sum, own) => sum + of(own), 0);
  const wanted = total((own) => own.piecesArea) - surplusArea(cutPlan, clothPlan);
  return {
    cloth,
    lengths,
    copies: copiesOf(clothPlan),
    markerEfficiency: (100 * wanted) / total((own) => own.lengthUsed * own.usableWidth),
    utilisation: (100 * wanted) / total((own) => own.wholeArea),
    remnants: lengths.flatMap((own) => own.remnants).sort(byArea),
    strokes: total((own) => own.strokes),
    scissored: total((own) => own.scissored),
    torn: total((own) => own.torn),
    folds: total((own) => own.folds),
  };
}

function lengthFigures(cutPlan: CutPlan, cloth: Cloth, length: LengthPlan): LengthFigures {
  const { plan } = cutPlan;
  const { leaves } = walk(length.tree, length.width, length.length);
  const areaOf = (kinds: readonly string[]) =>
    leaves.reduce((sum, own) => sum + (kinds.includes(own.leaf.kind) ? area(own) : 0), 0);
  const far = leaves.reduce(
    (most, own) => (own.leaf.kind === 'piece' ? Math.max(most, own.box.y1) : most),
    0,
  );
  const steps = stepsOfLength(cutPlan, cloth.name, length);
  // The work of a stack is done once, with its first layer.
  const inStack = stackOf(cutPlan, cloth.name, length.name);
  const worked = inStack ? (inStack.leads ? stackSteps(cutPlan, inStack.stack) : []) : steps;
  return {
    lengthUsed: ticks(Math.max(0, far - cloth.squaring - (length.begins?.within ?? 0))),
    usableWidth: widthForPieces(plan, cloth, length),
    wholeArea: length.width * length.length,
    piecesArea: areaOf(['piece']),
    remnants: toldLeftovers(cloth, length, plan)
      .map(({ size, selvedge, crease }) => ({ ...size, selvedge, crease }))
      .sort(byArea),
    scrapArea: areaOf(['scrap']),
    trimArea: areaOf(['trim']),
    steps,
    strokes: strokesOf(worked),
    scissored: strokesOf(worked.filter(({ blade }) => blade === 'scissors')),
    torn: strokesOf(worked.filter(({ blade }) => blade === 'tear')),
    folds: worked.reduce((sum, step) => sum + foldsIn(step), 0),
  };
}

function widthForPieces(plan: Plan, cloth: Cloth, length: LengthPlan): Ticks {
  const edges: Edges = edgesOf(cloth, lengthInHand(cloth, length));
  if (length.lay.kind === 'flat') return totalWidth(usableWidth(cloth, edges, plan.rulerMark));
  const { usable, single, gap } = foldedWidth(cloth, edges, plan.rulerMark, length.lay.foldAt);
  return ticks(
    single.reduce((total, { x0, x1 }) => total + x1 - x0, 2 * (usable - (gap ? gap.x1 - gap.x0 : 0))),
  );
}

function surplusArea(cutPlan: CutPlan, clothPlan: ClothPlan): number {
  return clothPlan.surplus.reduce((sum, { piece, copies }) => {
    const { size } = cutPlan.pieces.find((own) => own.id === piece)!;
    return sum + copies * size.width * size.length;
  }, 0);
}

function copiesOf(clothPlan: ClothPlan): ReadonlyMap<PieceId, number> {
  const copies = new Map<PieceId, number>();
  for (const length of clothPlan.lengths) {
    for (const { leaf } of walk(length.tree, length.width, length.length).leaves) {
      if (leaf.kind === 'piece') copies.set(leaf.piece, (copies.get(leaf.piece) ?? 0) + 1);
    }
  }
  return copies;
}

function area(own: PlacedLeaf<PieceId, Ticks>): number {
  return (own.box.x1 - own.box.x0) * (own.box.y1 - own.box.y0);
}

function byArea(a: Size, b: Size): number {
  return b.width * b.length - a.width * a.length;
}
