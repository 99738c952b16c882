import type { Cloth, LengthInHand } from '../model/cloth.ts';
import type { LengthPlan } from '../model/cut-plan.ts';
import type { PieceId, PieceWanted } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import type { Ticks } from '../units/ticks.ts';
import { checkBegin, originOf } from './check-begin.ts';
import { checkFlaws, flawsOnTable, isOver, reaching } from './check-flaws.ts';
import { checkFold, checkFoldAsked, mayLieOnce } from './check-fold.ts';
import { checkLeftover } from './check-leftover.ts';
import { checkMarks } from './check-marks.ts';
import { checkMatches, type MatchedPiece, measuredMotif, type PrintOnLength } from './check-match.ts';
import { checkPanels, holdsPanels, panelReserve, panelsOnTable } from './check-panels.ts';
import { checkPiece } from './check-piece.ts';
import { checkStages } from './check-stages.ts';
import { type PlacedPart, placeTree } from './placed-tree.ts';
import type { Report } from './plan-fault.ts';
import { type TableCloth, tableCloth } from './table-cloth.ts';

export interface LengthAsked {
  readonly plan: Plan;
  readonly cloth: Cloth;
  /** What the length is taken from. */
  readonly source: LengthInHand | { readonly bought: Ticks };
  readonly wanted: ReadonlyMap<PieceId, PieceWanted>;
  /** From where else lengthwise cuts may be measured: what a stack of cloths has in common. */
  readonly stackEdges?: readonly number[];
  /** A repeat of a matched print, where one is kept because its start is not known; else 0. */
  readonly reserve: number;
  /** Lengths of this cloth that are cut. */
  readonly cut: number;
  /** What pieces of earlier lengths are placed by, where they only have to be like each other. */
  readonly fellows: PrintOnLength['fellows'];
  readonly turns: PrintOnLength['turns'];
}

/** What the checker found on one length. */
export interface LengthFound {
  readonly name: string;
  readonly table: TableCloth;
  readonly counts: ReadonlyMap<PieceId, number>;
  /** The highest y that a piece reaches, or a panel beside it that stays whole. */
  readonly reach: number;
}

/** Proves one length: its size, its tree, its pieces, its leftovers and its fold. */
export function checkLength(length: LengthPlan, asked: LengthAsked, report: Report): LengthFound {
  const { plan, cloth, source } = asked;
  const wanted = [...asked.wanted.values()];
  const mine = wanted.filter((piece) => piece.cloth === cloth.name);
  const begin = { source, wanted: mine, reserve: asked.reserve, cut: asked.cut };
  const table = checkBegin(length, tableCloth(cloth, source), begin, report);
  if (length.width !== table.width) {
    report('length-width', { found: length.width, wanted: table.width });
  }
  if (length.length !== table.length) {
    report('length-length', { found: length.length, wanted: table.length });
  }
  const parts = placeTree(length.tree, length.width, length.length, report);
  const found = { name: length.name, table, ...checkPieces(parts, table, asked, report) };
  const panelled = holdsPanels(cloth, wanted);
  if (found.counts.size === 0) report('length-uncut', {});
  const origin = originOf(length, table, measuredMotif(cloth, source, panelled));
  const column = 'bought' in source ? undefined : source.motifFromEdge;
  const { fellows, turns } = asked;
  checkMatches(matchedOf(parts, asked), cloth, { origin, column, fellows, turns }, report);
  const flaws = flawsOnTable(cloth, source);
  const mayGo = table.near - table.squaring;
  checkFlaws(parts, flaws, report, mayGo);
  const panels = panelled
    ? checkPanels(
        parts,
        panelsOnTable(cloth, source, table, [...flaws]),
        {
          ...{ cloth, wanted: asked.wanted, reach: found.reach, asks: (piece) => panelAskedBy(plan, piece) },
          certain: 'bought' in source ? table.along.to - panelReserve(cloth, wanted) : table.along.to,
        },
        report,
      )
    : { left: [], reach: found.reach };
  const rules = { cloth: table, keep: plan.keep, mark: plan.rulerMark, panels: panels.left };
  for (const { tree, box, from } of parts) {
    if (tree.kind === 'cut' || tree.kind === 'piece') continue;
    // Scrap with a flaw in it is kept for nothing, however large.
    if (tree.kind === 'scrap' && flaws.some((outline) => isOver(reaching(box, mayGo), outline))) continue;
    const maker = parts[from]?.tree;
    const besidePiece = maker?.kind === 'cut' && maker.parts.some(({ kind }) => kind === 'piece');
    checkLeftover(tree, box, besidePiece, rules, report);
  }
  const foldAt = length.lay.kind === 'folded' ? length.lay.foldAt : undefined;
  // A matched piece is measured from its motif, which no ruler mark need meet.
  const matches = wanted.some((piece) => piece.cloth === cloth.name && piece.match);
  if (!matches && !panelled) checkMarks(parts, table, plan.rulerMark, foldAt, report, asked.stackEdges);
  if (plan.stages !== 'any') checkStages(parts, plan.stages, foldAt, report);
  const crease = 'bought' in source ? cloth.crease : source.crease;
  if (foldAt !== undefined) checkFold(parts, table, crease, foldAt, mayLieOnce(asked), report);
  checkFoldAsked(parts, table, asked, foldAt, report);
  if (foldAt !== undefined && panelled) report('panel-folded', {});
  return { ...found, reach: panels.reach };
}

/** What the plan asks of panels for a piece. */
function panelAskedBy({ makes, pieces }: Plan, { order, panel }: PieceWanted) {
  return (
    makes.find(({ name }) => name === order)?.panels?.[panel?.part ?? ''] ??
    pieces.find(({ name }) => name === order)?.panel
  );
}

function matchedOf(parts: readonly PlacedPart[], { wanted }: LengthAsked): readonly MatchedPiece[] {
  return parts.flatMap(({ tree, box }) => {
    const piece = tree.kind === 'piece' ? wanted.get(tree.piece) : undefined;
    return tree.kind === 'piece' && piece?.match
      ? [{ wanted: piece, quarterTurns: tree.quarterTurns, box }]
      : [];
  });
}

function checkPieces(
  parts: readonly PlacedPart[],
  table: TableCloth,
  { cloth, wanted }: LengthAsked,
  report: Report,
): Pick<LengthFound, 'counts' | 'reach'> {
  const counts = new Map<PieceId, number>();
  let reach = 0;
  for (const { tree, box } of parts) {
    if (tree.kind !== 'piece') continue;
    counts.set(tree.piece, (counts.get(tree.piece) ?? 0) + 1);
    reach = Math.max(reach, box.y1);
    const piece = wanted.get(tree.piece);
    if (piece === undefined) report('piece-unknown', {}, { piece: tree.piece, box });
    else if (piece.cloth !== cloth.name) {
      report('piece-of-another-cloth', { belongs: piece.cloth }, { piece: piece.id, box });
    } else checkPiece(piece, tree.quarterTurns, box, table, cloth, report);
  }
  return { counts, reach };
}
