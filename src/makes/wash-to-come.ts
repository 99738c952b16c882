import type { Cloth, Fraction, Washing } from '../model/cloth.ts';
import type { ArithmeticLine, Match, PieceWanted, Size } from '../model/piece.ts';
import { beforeWashing, wordLoss } from '../model/shrinkage.ts';
import { ceilTo, type Ticks, ticks } from '../units/ticks.ts';
import { line } from './arithmetic.ts';
import { cutSize, takenBy } from './edges.ts';
import type { PieceOfMake } from './make.ts';

/** Part of its width and of its length that a piece loses in a wash that is still to come, as it stands upright. */
export interface LossToCome {
  readonly width: Fraction;
  readonly length: Fraction;
}

type Larger<Piece> = Piece & { readonly washesTo: Size };

/** How a piece lies because of the printed panel it is cut around, whatever its grain and the rest of the print. */
export type AsPanel = 'upright' | 'sideways' | undefined;

/** Whether a piece of this grain lies with its up across the length. */
function liesSideways(
  grain: PieceWanted['grain'],
  { direction, printRuns }: Cloth,
  asPanel: AsPanel,
): boolean {
  if (asPanel) return asPanel === 'sideways';
  return direction === 'plain' ? grain === 'crosswise' : printRuns === 'across';
}

export function lossToCome(
  grain: PieceWanted['grain'],
  cloth: Cloth,
  washing: Washing,
  asPanel?: AsPanel,
): LossToCome {
  const { along, across } = washing;
  return liesSideways(grain, cloth, asPanel)
    ? { width: along, length: across }
    : { width: across, length: along };
}

/** Where both ways shrink alike a piece may still lie either way; else only one way comes out right. */
export function shrinksAlike({ along, across }: Washing): boolean {
  return along.numerator * across.denominator === across.numerator * along.denominator;
}

/**
 * A piece of cloth that is washed only when it is sewn, with its finished outline so much larger that the wash brings it
 * to size: finished ÷ (1 − s), each way as the piece lies on the cloth. Seams and hems keep their depth, since they are
 * sewn before they shrink (common practice, no published source; the formula is Dooley's, solved for the original). A piece
 * that could lie either way is held lengthwise where the losses differ; one around a panel lies as that does. Unchanged where its cloth asks for nothing.
 */
export function cutLarger<Piece extends Pick<PieceOfMake, 'finished' | 'edges' | 'folds' | 'grain'>>(
  piece: Piece,
  cloth: Cloth | undefined,
  asPanel?: AsPanel,
): Piece | Larger<Piece> {
  const washing = cloth?.washing;
  if (!cloth || !washing?.cutLarger) return piece;
  const isHeld = piece.grain === 'either' && !shrinksAlike(washing) && !asPanel;
  const grain = isHeld ? heldGrain(cloth) : piece.grain;
  const loss = lossToCome(grain, cloth, washing, asPanel);
  const { finished, folds } = piece;
  return {
    ...piece,
    grain,
    washesTo: finished,
    finished: {
      width: beforeWashing(finished.width, loss.width),
      length: beforeWashing(finished.length, loss.length),
    },
    ...(folds && {
      folds: folds.map((fold) => {
        const level = fold.edge === 'bottom' || fold.edge === 'top';
        return { ...fold, inside: beforeWashing(fold.inside, level ? loss.length : loss.width) };
      }),
    }),
  };
}

/** A print holds its pieces itself; on plain cloth they lie with their up along the length. */
function heldGrain({ direction }: Cloth): PieceWanted['grain'] {
  return direction === 'plain' ? 'lengthwise' : 'either';
}

/** A point of a piece that moves away from its finished edge as the piece is cut larger. */
export function matchLarger(
  match: Match,
  piece: Pick<PieceOfMake, 'edges' | 'grain'>,
  cloth: Cloth | undefined,
): Match {
  const washing = cloth?.washing;
  if (match.kind !== 'point' || !cloth || !washing?.cutLarger) return match;
  const loss = lossToCome(piece.grain, cloth, washing);
  const moved = (at: Ticks, edge: Ticks, part: Fraction) =>
    at <= edge ? at : ticks(edge + beforeWashing(ticks(at - edge), part));
  return {
    ...match,
    x: moved(match.x, takenBy(piece.edges.left), loss.width),
    y: moved(match.y, takenBy(piece.edges.bottom), loss.length),
  };
}

/** `front, across, for the wash to come: 18 ÷ (1 − 3 %) + 1 up to 19 5/8`. */
export function largerLines(
  piece: Larger<PieceOfMake>,
  cloth: Cloth,
  mark: Ticks,
  asPanel?: AsPanel,
): readonly ArithmeticLine[] {
  const { washesTo, edges, name } = piece;
  const loss = lossToCome(piece.grain, cloth, cloth.washing!, asPanel);
  const cut = cutSize(piece.finished, edges);
  const told = (way: string, side: keyof Size, taken: Ticks) =>
    line(
      `${name}, ${way}, for the wash to come`,
      washesTo[side],
      `÷ (1 − ${wordLoss(loss[side])})`,
      ...(taken > 0 ? ['+', taken] : []),
      'up to',
      ceilTo(cut[side], mark),
    );
  return [
    told('across', 'width', ticks(takenBy(edges.left) + takenBy(edges.right))),
    told('up', 'length', ticks(takenBy(edges.bottom) + takenBy(edges.top))),
  ];
}
