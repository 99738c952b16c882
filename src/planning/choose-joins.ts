import { turnsAllowed } from '../cloth/directions.ts';
import type { Cloth } from '../model/cloth.ts';
import type { ClothPlan } from '../model/cut-plan.ts';
import type { Issue } from '../model/issue.ts';
import type { JoinedPiece, PieceWanted } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import { type Bed, lengthToPack } from './bed.ts';
import type { Beds } from './beds.ts';
import { type Wishes, wishesOf } from './choose.ts';
import { fitsWhole, forCopies, type Joining, joinings, type Room } from './piecing.ts';
import type { PrintPhase } from './print-phase.ts';

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
 * @param phase how the print lies on the beds, where parts are to suit it
 */
export function chooseJoins(
  plan: Plan,
  cloth: Cloth,
  pieces: readonly PieceWanted[],
  beds: Beds,
  layOut: LayOut,
  phase?: PrintPhase,
): PiecesToCut {
  const rooms = roomsOf(beds);
  const waysOf = (piece: PieceWanted) => joinings(piece, cloth, rooms, plan.rulerMark, phase);
  const tooLarge = pieces.filter((piece) => !fitsWhole(piece, cloth, rooms));
  const ways = new Map(tooLarge.map((piece) => [piece, waysOf(piece)] as const));
  const issues = tooLarge
    .filter((piece) => piece.join !== undefined && ways.get(piece)!.length === 0)
    .filter((piece) => turnsAllowed(piece, cloth).kind !== 'against-print')
    .map((piece) => cannotJoin(piece, cloth));
  const chosen = new Map<PieceWanted, readonly Joining[]>();
  for (const [piece, [first]] of ways) if (first) chosen.set(piece, [first]);
  const toCut = () => pieces.flatMap((piece) => chosen.get(piece)?.flatMap(({ parts }) => parts) ?? [piece]);
  const bestOf = (piece: PieceWanted, options: readonly Joining[], before: readonly Joining[] = []) => {
    const judged = options.flatMap((way) => {
      chosen.set(piece, [...before, way]);
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
    if (best) chosen.set(piece, [best]);
  }
  const eachCopy = (piece: PieceWanted) => {
    const kept = chosen.get(piece);
    const found = copyByCopy(piece, cloth, waysOf(piece), plan, bestOf);
    if (found) chosen.set(piece, found);
    else if (kept) chosen.set(piece, kept);
    return found !== undefined;
  };
  const joinable = pieces.filter((piece) => piece.join !== undefined);
  if (issues.length === 0 && joinable.length > 0 && !layOut(toCut())) {
    for (const piece of joinable.filter((own) => !chosen.has(own))) {
      const best = bestOf(piece, waysOf(piece));
      if (!best) continue;
      chosen.set(piece, [best]);
      break;
    }
    if (!layOut(toCut())) joinable.some(eachCopy);
  }
  return { pieces: toCut(), joined: [...chosen.values()].flat().map((way) => way.joined), issues };
}

/** More copies than this are not joined each its own way. */
const MOST_COPIES = 8;

/**
 * Every copy joined its own way, one after the other, each by what then is best: for short lengths in hand of which no one
 * way serves all copies. Undefined where that does not help either.
 */
function copyByCopy(
  piece: PieceWanted,
  cloth: Cloth,
  ways: readonly Joining[],
  { rulerMark }: Plan,
  bestOf: (
    piece: PieceWanted,
    options: readonly Joining[],
    before: readonly Joining[],
  ) => Joining | undefined,
): readonly Joining[] | undefined {
  if (piece.copies < 2 || piece.copies > MOST_COPIES) return undefined;
  let settled: readonly Joining[] = [];
  for (let copy = 0; copy < piece.copies; copy++) {
    const before = settled.reduce((total, { parts }) => total + parts.length, 0);
    const options = ways.map((way) => forCopies(way, cloth, 1, before, rulerMark));
    const best = bestOf(piece, options, settled);
    if (!best) return undefined;
    settled = [...settled, best];
  }
  return settled;
}

/**
 * Cloth comes first, in its two wishes; then as few joins as can be; then seams that lie as those of widths do; then the
 * wishes that follow.
 */
function withJoins([bought, opened, ...others]: Wishes, way: Joining): readonly number[] {
  return [bought, opened, way.parts.length, isUnlikeWidths(way) ? 1 : 0, ...others];
}

/**
 * Three or more widths with a narrow one at one end only, where both ends should be alike; or two halves where widths are
 * joined side by side, so that a whole one should lie there with the rest at its outer edge (common practice, no published
 * source). What the marks ask for does not count.
 */
function isUnlikeWidths({ joined: { piece, columns } }: Joining): boolean {
  if (piece.join?.by !== 'seam') return false;
  const [first, last] = [columns[0]!, columns.at(-1)!];
  const alike = 8 * Math.abs(first - last) <= first + last;
  if (columns.length === 2) return alike && piece.join.lines === 'upright';
  return columns.length > 2 && !alike;
}

function lower(a: readonly number[], b: readonly number[]): boolean {
  const differs = a.findIndex((wish, index) => wish !== b[index]);
  return differs >= 0 && a[differs]! < b[differs]!;
}

/** Each stretch of usable cloth, one for either side of a kept-off crease, of every length that may be cut. */
export function roomsOf(beds: Beds): readonly Room[] {
  return [...beds.inHand, ...(beds.toBuy ? [beds.toBuy] : [])].flatMap((bed) =>
    spansOf(bed).map((width) => ({
      width,
      length: lengthToPack(bed) - (bed.ahead ?? 0),
      ...(bed.ahead && { ahead: bed.ahead }),
    })),
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
