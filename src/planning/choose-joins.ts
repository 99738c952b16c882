import type { Cloth } from '../model/cloth.ts';
import type { ClothPlan } from '../model/cut-plan.ts';
import type { JoinedPiece, PieceWanted } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import { lengthToPack } from './bed.ts';
import type { Beds } from './beds.ts';
import { better, wishesOf } from './choose.ts';
import { fitsWhole, type Joining, joinings, type LargestPart } from './piecing.ts';

export interface PiecesToCut {
  /** Pieces that fit whole, and in the place of each that does not, its parts. */
  readonly pieces: readonly PieceWanted[];
  readonly joined: readonly JoinedPiece[];
}

/**
 * Replaces every piece that the cloth cannot yield whole by parts, where its rule permits: of all ways the rule
 * allows, the one whose plan meets the wishes best, with the pieces before it as chosen and those after it in their
 * fewest parts. A piece without a way stays as it is; laying out then says why it cannot be cut.
 *
 * @param layOut plans the whole cloth for given pieces, quickly; undefined where it cannot
 */
export function chooseJoins(
  plan: Plan,
  cloth: Cloth,
  pieces: readonly PieceWanted[],
  beds: Beds,
  layOut: (pieces: readonly PieceWanted[]) => ClothPlan | undefined,
): PiecesToCut {
  const largest = largestPart(beds);
  const ways = new Map<PieceWanted, readonly Joining[]>();
  for (const piece of pieces) {
    if (fitsWhole(piece, cloth, largest)) continue;
    const found = joinings(piece, cloth, largest, plan.rulerMark);
    if (found.length > 0) ways.set(piece, found);
  }
  const chosen = new Map([...ways].map(([piece, [first]]) => [piece, first!] as const));
  const toCut = () => pieces.flatMap((piece) => chosen.get(piece)?.parts ?? [piece]);
  for (const [piece, options] of ways) {
    if (options.length === 1) continue;
    let best: { readonly way: Joining; readonly wishes: ReturnType<typeof wishesOf> } | undefined;
    for (const way of options) {
      chosen.set(piece, way);
      const found = layOut(toCut());
      if (!found) continue;
      const wishes = wishesOf(plan, found);
      if (!best || better(wishes, best.wishes)) best = { way, wishes };
    }
    chosen.set(piece, best?.way ?? options[0]!);
  }
  return { pieces: toCut(), joined: [...chosen.values()].map((way) => way.joined) };
}

/** What the widest bed yields: the bolt where the cloth can be bought. */
function largestPart(beds: Beds): LargestPart {
  const sizes = (beds.toBuy ? [beds.toBuy] : beds.inHand).map((bed) => ({
    width: Math.max(bed.gap ? bed.gap.x0 : bed.packable, bed.gap ? bed.packable - bed.gap.x1 : 0),
    length: lengthToPack(bed),
  }));
  return sizes.reduce((most, size) => (size.width * size.length > most.width * most.length ? size : most), {
    width: 0,
    length: 0,
  });
}
