import type { CutPlan } from '../model/cut-plan.ts';
import type { JoinRule, PieceWanted } from '../model/piece.ts';
import type { LoosePiece, MakeOrder } from '../model/plan.ts';
import { wholePieces } from './check-joins.ts';
import { checkMounts } from './check-mounts.ts';
import { coversServed } from './check-openings.ts';
import type { Report } from './plan-fault.ts';

/**
 * That the pieces are those the plan asks for: each loose piece as often as it is ordered and no smaller, each order of a
 * make with pieces for every one of it from its own cloths, and nothing besides. How a make comes to its sizes is the
 * business of the makes.
 */
export function checkOrders(cutPlan: CutPlan, report: Report): void {
  const { plan } = cutPlan;
  const left = new Set(askedFor(cutPlan));
  for (const loose of plan.pieces) {
    if (loose.panel) {
      const own = [...left].filter((piece) => piece.order === loose.name);
      for (const piece of own) left.delete(piece);
      const copies = own.reduce((total, piece) => total + (piece.panel ? piece.copies : 0), 0);
      const grain = own.find((piece) => piece.panel && piece.grain !== loose.grain);
      if (copies !== loose.count || grain) {
        report('loose-piece-unmet', { wanted: loose.count }, { cloth: loose.cloth, piece: loose.name });
      }
      const to = { asked: loose.panel, cloth: loose.cloth, mark: plan.rulerMark, front: loose.size };
      checkMounts(own, to, within(report, loose.name));
      continue;
    }
    if (loose.choices !== undefined) {
      const own = [...left].filter((piece) =>
        meets(piece, { ...loose, cloth: piece.cloth, count: piece.copies }),
      );
      for (const piece of own) left.delete(piece);
      const copies = own.reduce((total, piece) => total + piece.copies, 0);
      if (copies !== loose.count) report('loose-piece-unmet', { wanted: loose.count }, { piece: loose.name });
      continue;
    }
    const found = [...left].find((piece) => meets(piece, loose));
    if (found) left.delete(found);
    else report('loose-piece-unmet', { wanted: loose.count }, { cloth: loose.cloth, piece: loose.name });
  }
  for (const order of plan.makes) {
    const own = [...left].filter((piece) => piece.order === order.name);
    if (own.length === 0) report('order-unmet', { count: order.count }, { piece: order.name });
    else if ((order.onFold !== undefined) !== own.some(({ onFold }) => onFold === true))
      report('order-misread', { copies: own[0]!.copies, count: order.count }, { piece: own[0]!.id });
    checkPanelled(cutPlan, order, own, report);
    for (const piece of own) {
      left.delete(piece);
      if (piece.panel || piece.mount) continue;
      // Which cloths the pieces of an open order come from, and how often, is checked with the choice.
      if (order.choices !== undefined) continue;
      const covers = coversServed(cutPlan, order, piece);
      if (belongs(piece, order, covers)) continue;
      report('order-misread', { copies: piece.copies, count: covers }, { piece: piece.id });
    }
  }
  for (const { cloth, id } of left) report('piece-unasked', {}, { cloth, piece: id });
}

/** Each front of a part that asks for panels, with what it is mounted with; none of any other part. */
function checkPanelled(
  cutPlan: CutPlan,
  order: MakeOrder,
  own: readonly PieceWanted[],
  report: Report,
): void {
  const told = within(report, order.name);
  const asked = order.panels ?? {};
  const fronts = new Set(
    own.flatMap(({ panel, mount }) => ((panel ?? mount) ? [frontOf(panel ?? mount!)] : [])),
  );
  for (const front of fronts) {
    const pieces = own.filter(({ panel, mount }) => (panel ?? mount) && frontOf(panel ?? mount!) === front);
    const part = front.slice(0, front.indexOf('/'));
    const cloth = order.cloths[part];
    if (asked[part] === undefined || cloth === undefined) {
      told('mount-wrong', { what: 'a panel that is not asked for' });
      continue;
    }
    checkMounts(pieces, { asked: asked[part], cloth, mark: cutPlan.plan.rulerMark }, told);
    const copies = pieces.reduce((total, piece) => total + (piece.panel ? piece.copies : 0), 0);
    const covers = coversServed(cutPlan, order, pieces[0]!);
    if (copies === 0 || copies % covers !== 0) {
      report('order-misread', { copies, count: covers }, { piece: order.name });
    }
  }
  for (const part of Object.keys(asked)) {
    if (order.cloths[part] === undefined || [...fronts].some((front) => front.startsWith(`${part}/`)))
      continue;
    told('mount-wrong', { what: `the panel of its ${part}` });
  }
}

const frontOf = ({ part, front }: { readonly part: string; readonly front: string }) => `${part}/${front}`;

function within(report: Report, piece: string): Report {
  return (code, figures, where) => report(code, figures, { piece, ...where });
}

/** Pieces as they were asked for: where one had to be joined, the whole and not its parts. */
function askedFor({ pieces, joined }: CutPlan): readonly PieceWanted[] {
  return [...pieces.filter(({ partOf }) => partOf === undefined), ...wholePieces(joined)];
}

function meets(piece: PieceWanted, loose: LoosePiece): boolean {
  return (
    piece.order === loose.name &&
    piece.cloth === loose.cloth &&
    keepsGrain(piece, loose) &&
    piece.copies === loose.count &&
    piece.onFold === loose.onFold &&
    sameRule(piece.join, loose.join) &&
    piece.exactSize.width >= loose.size.width &&
    piece.exactSize.length >= loose.size.length
  );
}

/** Held lengthwise where it must be for a wash to come; that it must is checked with its size. */
function keepsGrain(piece: PieceWanted, loose: LoosePiece): boolean {
  if (piece.grain === loose.grain) return true;
  return piece.washesTo !== undefined && loose.grain === 'either' && piece.grain === 'lengthwise';
}

/** A piece is joined as the plan permits, or not at all. */
function sameRule(found: JoinRule | undefined, wanted: JoinRule | undefined): boolean {
  if (found === undefined || wanted === undefined) return found === wanted;
  return (
    found.by === wanted.by &&
    found.allowance === wanted.allowance &&
    found.lines === wanted.lines &&
    found.mostJoins === wanted.mostJoins &&
    found.narrowest === wanted.narrowest &&
    found.clearMiddle === wanted.clearMiddle
  );
}

function belongs(piece: PieceWanted, order: MakeOrder, covers: number): boolean {
  const perMake = piece.copies / covers;
  return Number.isInteger(perMake) && perMake > 0 && Object.values(order.cloths).includes(piece.cloth);
}
