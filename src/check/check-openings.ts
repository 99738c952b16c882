import type { CutPlan } from '../model/cut-plan.ts';
import type { OpeningSplit, PieceWanted } from '../model/piece.ts';
import type { MakeOrder } from '../model/plan.ts';
import { wholePieces } from './check-joins.ts';
import type { Report } from './plan-fault.ts';

/**
 * That covers close as their order says: where it leaves the opening to the plan, every cover has one way to close, all of
 * a set the same way unless each may choose; and every back that hangs on it is hemmed along its own opening.
 */
export function checkOpenings({ plan, pieces, joined, makes }: CutPlan, report: Report): void {
  const asked = [...pieces.filter(({ partOf }) => !partOf), ...wholePieces(joined)];
  for (const order of plan.makes) {
    const split = makes.find((sheet) => sheet.order === order.name)?.openings;
    const own = asked.filter((piece) => piece.order === order.name);
    if (order.measures.opening !== 'either') {
      const told = own.find(({ opening }) => opening !== undefined);
      if (split || told) report('opening-unasked', {}, { piece: told?.id ?? order.name });
      continue;
    }
    if (!split || !isSplit(split, order)) {
      const { level = 0, upright = 0 } = split ?? {};
      report('opening-counts', { level, upright, count: order.count }, { piece: order.name });
      continue;
    }
    for (const opening of ['level', 'upright'] as const) {
      const backs = own.filter((piece) => piece.opening === opening);
      if (split[opening] > 0 === backs.length > 0) continue;
      report('opening-backs', { opening, covers: split[opening] }, { piece: order.name });
    }
    for (const piece of own) {
      if (piece.opening === undefined || closes(piece, piece.opening)) continue;
      report('opening-turned', { opening: piece.opening }, { cloth: piece.cloth, piece: piece.id });
    }
  }
}

function isSplit({ level, upright }: OpeningSplit, order: MakeOrder): boolean {
  const whole = [level, upright].every((covers) => Number.isSafeInteger(covers) && covers >= 0);
  const oneWay = level === 0 || upright === 0 || order.measures['opening choice'] === 'each cover';
  return whole && level + upright === order.count && oneWay;
}

/** A level opening has level hems, an upright one upright hems. */
function closes({ lines }: PieceWanted, opening: 'level' | 'upright'): boolean {
  const hems = lines.filter(({ kind }) => kind === 'hem-fold');
  return hems.length > 0 && hems.every(({ x0, x1, y0, y1 }) => (opening === 'level' ? y0 === y1 : x0 === x1));
}

/** How many covers of its order a piece serves. */
export function coversServed({ makes }: CutPlan, order: MakeOrder, piece: PieceWanted): number {
  const split = makes.find((sheet) => sheet.order === order.name)?.openings;
  return piece.opening === undefined || split === undefined ? order.count : split[piece.opening];
}
