import { turnsAllowed } from '../cloth/directions.ts';
import type { Cloth } from '../model/cloth.ts';
import type { ClothPlan } from '../model/cut-plan.ts';
import type { Issue } from '../model/issue.ts';
import type { JoinedPiece, PieceWanted } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import { type Bed, lengthToPack } from './bed.ts';
import type { Beds } from './beds.ts';
import { type Wishes, wishesOf } from './choose.ts';
import { fitsWhole, type Joining, joinings, type Room } from './piecing.ts';

export interface PiecesToCut {
  /** Pieces that fit whole, and in the place of each that does not, its parts. */
  readonly pieces: readonly PieceWanted[];
  readonly joined: readonly JoinedPiece[];
  /** Pieces that are too large and cannot be joined as their rules say. */
  readonly issues: readonly Issue[];
}

type LayOut = (pieces: readonly PieceWanted[]) => ClothPlan | undefined;

/**
 * Replaces every piece that the cloth cannot yield whole by parts, where its rule permits: of all ways the rule
 * allows, the one whose plan meets the wishes best, with the pieces before it as chosen and those after it in their
 * fewest parts. Where the cloth in hand could yield a piece whole but not as often as it is wanted, it is joined too.
 *
 * @param layOut plans the whole cloth for given pieces, quickly; undefined where it cannot
 */
export function chooseJoins(
  plan: Plan,
  cloth: Cloth,
  pieces: readonly PieceWanted[],
  beds: Beds,
  layOut: LayOut,
): PiecesToCut {
  const rooms = roomsOf(beds);
  const waysOf = (piece: PieceWanted) => joinings(piece, cloth, rooms, plan.rulerMark);
  const tooLarge = pieces.filter((piece) => !fitsWhole(piece, cloth, rooms));
  const ways = new Map(tooLarge.map((piece) => [piece, waysOf(piece)] as const));
  const issues = tooLarge
    .filter((piece) => piece.join !== undefined && ways.get(piece)!.length === 0)
    .filter((piece) => turnsAllowed(piece, cloth).kind !== 'against-print')
    .map((piece) => cannotJoin(piece, cloth));
  const chosen = new Map<PieceWanted, Joining>();
  for (const [piece, [first]] of ways) if (first) chosen.set(piece, first);
  const toCut = () => pieces.flatMap((piece) => chosen.get(piece)?.parts ?? [piece]);
  const bestOf = (piece: PieceWanted, options: readonly Joining[]) => {
    const judged = options.flatMap((way) => {
      chosen.set(piece, way);
      const found = layOut(toCut());
      return found ? [{ way, wishes: withJoins(wishesOf(plan, found), way) }] : [];
    });
    chosen.delete(piece);
    return judged.reduce<(typeof judged)[number] | undefined>(
      (best, own) => (best && !lower(own.wishes, best.wishes) ? best : own),
      undefined,
    )?.way;
  };
  for (const [piece, options] of ways) {
    const best = options.length > 1 ? (bestOf(piece, options) ?? options[0]) : options[0];
    if (best) chosen.set(piece, best);
  }
  if (issues.length === 0 && couldJoinMore(pieces, chosen) && !layOut(toCut())) {
    for (const piece of pieces) {
      if (chosen.has(piece) || !piece.join) continue;
      const best = bestOf(piece, waysOf(piece));
      if (!best) continue;
      chosen.set(piece, best);
      break;
    }
  }
  return { pieces: toCut(), joined: [...chosen.values()].map((way) => way.joined), issues };
}

function couldJoinMore(pieces: readonly PieceWanted[], chosen: ReadonlyMap<PieceWanted, Joining>): boolean {
  return pieces.some((piece) => piece.join !== undefined && !chosen.has(piece));
}

/**
 * Cloth comes first, in its two wishes; then as few joins as can be; then seams that lie alike to the left and the right,
 * as widths are joined; then the wishes that follow.
 */
function withJoins([bought, opened, ...others]: Wishes, way: Joining): readonly number[] {
  return [bought, opened, way.parts.length, isLopsided(way) ? 1 : 0, ...others];
}

/** Three or more widths with a narrow one at one end only; what the marks ask for does not count. */
function isLopsided({ joined: { piece, columns } }: Joining): boolean {
  if (piece.join?.by !== 'seam' || columns.length < 3) return false;
  const [first, last] = [columns[0]!, columns.at(-1)!];
  return 8 * Math.abs(first - last) > first + last;
}

function lower(a: readonly number[], b: readonly number[]): boolean {
  const differs = a.findIndex((wish, index) => wish !== b[index]);
  return differs >= 0 && a[differs]! < b[differs]!;
}

/** Each stretch of usable cloth, one for either side of a kept-off crease, of every length that may be cut. */
export function roomsOf(beds: Beds): readonly Room[] {
  return [...beds.inHand, ...(beds.toBuy ? [beds.toBuy] : [])].flatMap((bed) =>
    spansOf(bed).map((width) => ({ width, length: lengthToPack(bed) })),
  );
}

function spansOf({ packable, gap }: Bed): readonly number[] {
  return gap ? [gap.x0, packable - gap.x1].filter((width) => width > 0) : [packable];
}

function cannotJoin(piece: PieceWanted, cloth: Cloth): Issue {
  const { lines, mostJoins, narrowest } = piece.join!;
  return {
    code: 'cannot-join',
    severity: 'error',
    path: ['cloths', cloth.name],
    details: { piece: piece.id, cloth: cloth.name, mostJoins, lines, narrowest },
  };
}
