import type { Cloth, Fraction } from '../model/cloth.ts';
import type { CutPlan } from '../model/cut-plan.ts';
import type { PieceWanted } from '../model/piece.ts';
import { type Ticks, ticks } from '../units/ticks.ts';
import type { Report } from './plan-fault.ts';

/**
 * That pieces of cloth which is washed only when it is sewn, and is to be cut larger for it, come to their finished size
 * in the wash: never smaller, and by no tick larger than they must be before the ruler. Worked out from the losses alone.
 */
export function checkWashedSizes({ plan, pieces, joined }: CutPlan, report: Report): void {
  const whole = [
    ...pieces.filter(({ partOf }) => partOf === undefined),
    ...new Set(joined.map((own) => own.piece)),
  ];
  for (const piece of whole) {
    const cloth = plan.cloths.find(({ name }) => name === piece.cloth);
    const where = { cloth: piece.cloth, piece: piece.id };
    if (piece.mount) {
      if (piece.washesTo) report('washed-size-unasked', {}, where);
      if (cloth && piece.panel) checkMounted(piece, cloth, plan, report);
      continue;
    }
    if (!cloth?.washing?.cutLarger) {
      if (piece.washesTo) report('washed-size-unasked', {}, where);
      continue;
    }
    const asked = plan.pieces.find(({ name }) => name === piece.id)?.size ?? piece.washesTo;
    if (!piece.washesTo || !asked) report('washed-size-missing', {}, where);
    else {
      if (piece.washesTo.width !== asked.width || piece.washesTo.length !== asked.length)
        report('washed-size-misread', { found: piece.washesTo, wanted: asked }, where);
      checkSides(piece, cloth, report);
    }
  }
}

function checkSides(piece: PieceWanted, cloth: Cloth, report: Report): void {
  const where = { cloth: cloth.name, piece: piece.id };
  const { along, across } = cloth.washing!;
  const alike =
    BigInt(along.numerator) * BigInt(across.denominator) ===
    BigInt(across.numerator) * BigInt(along.denominator);
  const printed = cloth.direction !== 'plain';
  if (!alike && !printed && piece.grain === 'either' && !piece.panel) {
    report('washed-grain-open', {}, where);
    return;
  }
  const asPrinted = printed ? cloth.printRuns === 'across' : piece.grain === 'crosswise';
  const sideways = piece.panel ? liesOnSide(piece.panel.name, cloth) : asPrinted;
  const { finished, size, exactSize } = piece;
  for (const [side, from, to, loss] of [
    ['width', finished.x0, finished.x1, sideways ? along : across],
    ['length', finished.y0, finished.y1, sideways ? across : along],
  ] as const) {
    const wanted = piece.washesTo![side];
    const found = to - from;
    // What the ruler's marks added is no part of what the wash must take.
    const least = found - (size[side] - exactSize[side]);
    if (!comesTo(found, wanted, loss) || !comesTo(least, wanted, loss))
      report('washed-too-small', { side, found: ticks(found), wanted }, where);
    else if (comesTo(least - 1, wanted, loss))
      report('washed-too-large', { side, found: ticks(least), wanted }, where);
  }
}

/** A mounted front comes to its size in the wash that its panel's cloth asks for; less than a mark of the ruler is spare. */
function checkMounted(
  { id, panel, mount }: PieceWanted,
  cloth: Cloth,
  { pieces, rulerMark }: CutPlan['plan'],
  report: Report,
): void {
  const asked = pieces.find(({ name }) => name === mount!.front && mount!.part === '')?.size;
  if (!asked || !cloth.washing?.cutLarger) return;
  const where = { cloth: cloth.name, piece: id };
  const { along, across } = cloth.washing;
  const sideways = liesOnSide(panel!.name, cloth);
  for (const [side, loss] of [
    ['width', sideways ? along : across],
    ['length', sideways ? across : along],
  ] as const) {
    const found = mount!.makes[side];
    if (!comesTo(found, asked[side], loss))
      report('washed-too-small', { side, found, wanted: asked[side] }, where);
    else if (comesTo(found - rulerMark, asked[side], loss))
      report('washed-too-large', { side, found, wanted: asked[side] }, where);
  }
}

/** Whether a panel's own top points to the left or to the right as the cloth lies. */
function liesOnSide(name: string, { panels, inHand }: Cloth): boolean {
  const all = [...(panels?.areas ?? []), ...inHand.flatMap((length) => length.panels ?? [])];
  return (all.find((panel) => panel.name === name)?.turned ?? 0) % 2 === 1;
}

/** Whether `sewn` is still at least `wanted` when it has lost its part, to the last fraction of a tick. */
function comesTo(sewn: number, wanted: Ticks, { numerator, denominator }: Fraction): boolean {
  return BigInt(sewn) * BigInt(denominator - numerator) >= BigInt(wanted) * BigInt(denominator);
}
