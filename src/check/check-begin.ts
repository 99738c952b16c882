import type { LengthInHand } from '../model/cloth.ts';
import type { LengthPlan } from '../model/cut-plan.ts';
import type { PieceWanted } from '../model/piece.ts';
import { ticks } from '../units/ticks.ts';
import type { Report } from './plan-fault.ts';
import type { TableCloth } from './table-cloth.ts';

export interface BeginAsked {
  readonly source: LengthInHand | { readonly bought: number };
  /** Pieces of this cloth. */
  readonly wanted: readonly PieceWanted[];
  /** A repeat of the print, where one has to be kept because its start is not known; else 0. */
  readonly reserve: number;
  /** Lengths of the cloth that are cut. */
  readonly cut: number;
}

/**
 * That a length is begun in its print exactly where it must be: where a repeat is kept for it and nobody measured where its
 * first motif lies. What only has to be like its fellows needs no beginning where all come from one length. Returns the cloth
 * as it then lies on the table: what goes at the near end may not be used.
 */
export function checkBegin(
  { begins }: LengthPlan,
  table: TableCloth,
  { source, wanted, reserve, cut }: BeginAsked,
  report: Report,
): TableCloth {
  const measured = !('bought' in source) && source.firstMotif !== undefined;
  const held = wanted.some(({ match }) => match?.kind === 'centre' || match?.kind === 'point');
  const within = measured || !(held || cut > 1) ? 0 : reserve;
  const found = begins?.within ?? 0;
  if (found !== within) report('begin-wrong', { found: ticks(found), wanted: ticks(within) });
  if (begins && held && begins.motif === undefined) report('begin-untold', {});
  if (found === 0) return table;
  const near = ticks(table.near + found);
  return { ...table, near, along: { ...table.along, from: near } };
}

/** From where pieces of a length are placed in its print, in ticks from the near end; undefined where nobody knows. */
export interface PrintOrigin {
  readonly y: number;
  /** A motif lies there; else it is only the same place of the print on every length. */
  readonly isMotif: boolean;
}

export function originOf(
  { begins }: LengthPlan,
  { near }: Pick<TableCloth, 'near'>,
  measured: number | undefined,
): PrintOrigin | undefined {
  if (measured !== undefined) return { y: measured, isMotif: true };
  if (!begins) return undefined;
  return { y: near + (begins.motif ?? 0), isMotif: begins.motif !== undefined };
}
