import type { ClothPlan } from '../model/cut-plan.ts';
import type { PieceId, PieceWanted } from '../model/piece.ts';
import type { Report } from './plan-fault.ts';

/** That as many of each piece are cut as are wanted, and that every one beyond is declared, exactly. */
export function checkDemand(
  clothPlan: ClothPlan,
  wanted: readonly PieceWanted[],
  counts: ReadonlyMap<PieceId, number>,
  report: Report,
): void {
  const declared = new Map<PieceId, number>();
  for (const { piece, copies } of clothPlan.surplus) {
    const times = clothPlan.surplus.filter((entry) => entry.piece === piece).length;
    const known = wanted.some(({ id }) => id === piece);
    if (!(Number.isSafeInteger(copies) && copies > 0) || times > 1 || !known) {
      report('surplus-misdeclared', { copies, times }, { piece });
    }
    declared.set(piece, (declared.get(piece) ?? 0) + copies);
  }
  for (const { id, copies } of wanted) {
    const found = counts.get(id) ?? 0;
    const spare = declared.get(id) ?? 0;
    if (found < copies) report('pieces-short', { found, wanted: copies }, { piece: id });
    const surplus = Math.max(0, found - copies);
    if (surplus > spare) {
      report('surplus-undeclared', { found, wanted: copies, declared: spare }, { piece: id });
    }
    if (surplus < spare) report('surplus-unreal', { declared: spare, found: surplus }, { piece: id });
  }
}

/** That the wanted pieces themselves can be cut: on the ruler's marks, and not smaller than what they must be. */
export function checkWanted(
  wanted: readonly PieceWanted[],
  mark: PieceWanted['size']['width'],
  report: Report,
): void {
  const seen = new Set<PieceId>();
  for (const { id, cloth, size, exactSize } of wanted) {
    if (seen.has(id)) report('piece-repeated', {}, { cloth, piece: id });
    seen.add(id);
    if (size.width % mark !== 0 || size.length % mark !== 0) {
      report('piece-off-marks', { size, mark }, { cloth, piece: id });
    }
    if (size.width < exactSize.width || size.length < exactSize.length) {
      report('piece-under-size', { size, exactSize }, { cloth, piece: id });
    }
  }
}
