import type { Cloth, LengthInHand } from '../model/cloth.ts';
import type { QuarterTurns } from '../model/cut-tree.ts';
import type { Box, PieceWanted } from '../model/piece.ts';
import { ticks } from '../units/ticks.ts';
import type { PrintOrigin } from './check-begin.ts';
import type { Report } from './plan-fault.ts';
import { afterWashing } from './table-cloth.ts';

/** A piece of a matched kind where it lies on one length. */
export interface MatchedPiece {
  readonly wanted: PieceWanted;
  readonly quarterTurns: QuarterTurns;
  readonly box: Box;
}

/** The print as it lies on the table; distances in ticks. */
interface Print {
  readonly along: number | undefined;
  readonly across: number | undefined;
  readonly half: boolean;
  readonly fromEdge: number | undefined;
}

/** What is known of the print of a length from beyond its own pieces. */
export interface PrintOnLength {
  readonly origin: PrintOrigin | undefined;
  /** Where its motifs lie from its left edge, where that is not as the cloth says. */
  readonly column: number | undefined;
  /** Where the first piece of each kind that is only to be like its fellows lies from the origin of its length; filled in over all lengths of a cloth. */
  readonly fellows: Map<string, PrintOrigin>;
  /** How the first piece of each of those kinds lies; filled in likewise. */
  readonly turns: Map<string, QuarterTurns>;
}

/** Where the first motif of a length lies from its near end on the table, as it was measured or as the panels have it. */
export function measuredMotif(
  cloth: Cloth,
  source: LengthInHand | { readonly bought: number },
  panelled: boolean,
): number | undefined {
  const washed = 'bought' in source || source.washed !== true;
  return (
    ('bought' in source ? undefined : startOf(source, cloth, washed)) ??
    (panelled ? besidePanels(source, cloth) : undefined)
  );
}

/**
 * That every matched piece lies where its match asks. A motif is looked for from the pieces alone: all pieces that hold
 * one must agree on where the print starts, and on a length whose start was measured they must agree with that; pieces
 * that are only to be alike must agree with their fellows.
 */
export function checkMatches(
  pieces: readonly MatchedPiece[],
  cloth: Cloth,
  { origin, column, fellows, turns }: PrintOnLength,
  report: Report,
): void {
  if (pieces.length === 0) return;
  for (const piece of pieces) checkTurn(piece, cloth, turns, report);
  // The print of a length that was washed before it was measured has shrunk like that of all the others.
  const print = printOf(cloth);
  if (!print) {
    for (const { wanted, box } of pieces) report('match-without-repeat', {}, { piece: wanted.id, box });
    return;
  }
  const starts = new Map<string, { readonly x: number; readonly y: number }>();
  for (const { wanted, quarterTurns, box } of pieces) {
    const motif = motifOf(wanted, quarterTurns);
    // Where a part of a joined piece starts further on, the print is looked for from where the whole piece would start.
    const further = wanted.match?.kind === 'drops' ? (wanted.match.from ?? 0) : 0;
    const [x, y] = [box.x0 + (motif?.x ?? 0), box.y0 + (motif?.y ?? 0) - further];
    const group = motif ? 'motif' : (wanted.partOf?.piece ?? wanted.id);
    const isFirst = !starts.has(group);
    const start = starts.get(group) ?? {
      x: motif ? (column ?? print.fromEdge ?? x) : x,
      y: motif && origin?.isMotif ? origin.y : y,
    };
    starts.set(group, start);
    const sideways = wanted.match?.kind !== 'drops';
    if (!isOnPrint(x - start.x, y - start.y, print, sideways)) {
      report('match-missed', { at: [x, y], from: [start.x, start.y] }, { piece: wanted.id, box });
    }
    if (motif || !origin || !isFirst) continue;
    const fellow = fellows.get(group) ?? { y: y - origin.y, isMotif: origin.isMotif };
    fellows.set(group, fellow);
    const level = isLevel(y - origin.y - fellow.y, print);
    if (!level || fellow.isMotif !== origin.isMotif) report('begins-apart', {}, { piece: wanted.id, box });
  }
}

/**
 * What is fixed in a piece turns with it: a print with an up stands upright in it, and what is to be like its fellows lies as
 * they do. On other prints a motif alone may stand on its head; where it then lies is looked for by its own place.
 */
function checkTurn(
  { wanted, quarterTurns, box }: MatchedPiece,
  { direction, printRuns }: Cloth,
  turns: PrintOnLength['turns'],
  report: Report,
): void {
  const hasUp = direction === 'one-way' || direction === 'nap';
  const first = motifOf(wanted, quarterTurns) ? quarterTurns : (turns.get(wanted.id) ?? quarterTurns);
  turns.set(wanted.id, first);
  const asked = !hasUp ? first : printRuns === 'across' ? 1 : 0;
  if (quarterTurns !== asked) {
    report('match-turned', { found: quarterTurns, wanted: asked }, { piece: wanted.id, box });
  }
}

/** Whether a step along leads to the same height of the print, on some column of it. */
function isLevel(dy: number, { along, half }: Print): boolean {
  return along === undefined || (half ? 2 * dy : dy) % along === 0;
}

/**
 * Whether a part of a length tells its print as it lies there: each of its two places only where that is known of the
 * length, and both of them on a motif.
 *
 * @param origin of a motif on the length, from its near end
 */
export function tellsItsPrint(
  part: LengthInHand,
  { x0, y0 }: { readonly x0: number; readonly y0: number },
  cloth: Cloth,
  origin: number | undefined,
  column: number | undefined,
): boolean {
  const { firstMotif, motifFromEdge } = part;
  const print = printOf(cloth);
  if (!print) return firstMotif === undefined && motifFromEdge === undefined;
  const across = column ?? print.fromEdge;
  if (motifFromEdge !== undefined && (across === undefined || print.across === undefined)) return false;
  if (firstMotif !== undefined && (origin === undefined || print.along === undefined)) return false;
  // What is not told of it lies where the cloth has its columns, which on a part of its own no one may count on.
  if (motifFromEdge === undefined && across !== undefined && print.across !== undefined) return false;
  const dx = motifFromEdge === undefined ? 0 : motifFromEdge + x0 - across!;
  if (firstMotif === undefined) return print.across === undefined || dx % print.across === 0;
  return isOnPrint(dx, firstMotif + y0 - origin!, print, motifFromEdge !== undefined);
}

/** The repeat of a cloth as it lies on the table. */
export function repeatTold(cloth: Cloth): Cloth['repeat'] {
  const print = printOf(cloth);
  if (!print) return undefined;
  const { along, across, fromEdge } = print;
  return {
    drop: print.half ? 'half' : 'straight',
    ...(along !== undefined && { along: ticks(along) }),
    ...(across !== undefined && { across: ticks(across) }),
    ...(fromEdge !== undefined && { fromEdge: ticks(fromEdge) }),
  };
}

/** Whether a step of so much leads from one motif to another. */
function isOnPrint(dx: number, dy: number, { along, across, half }: Print, sideways: boolean): boolean {
  if (!sideways || across === undefined) return along === undefined || dy % along === 0;
  if (dx % across !== 0) return false;
  if (along === undefined) return true;
  const odd = Math.abs(dx / across) % 2 === 1;
  // Doubled, since half a repeat may fall between two ticks.
  return (2 * dy - (half && odd ? along : 0)) % (2 * along) === 0;
}

function printOf({ repeat, washing }: Cloth): Print | undefined {
  if (!repeat) return undefined;
  const loss = washing?.washed === 'before-cutting' ? washing : undefined;
  const washed = repeat.along && loss ? afterWashing(repeat.along, loss.along) : repeat.along;
  // Every second column of a half drop starts half of it higher, which is told in whole ticks.
  const along = washed !== undefined && repeat.drop === 'half' ? 2 * Math.floor(washed / 2) : washed;
  const across = repeat.across && loss ? afterWashing(repeat.across, loss.across) : repeat.across;
  const fromEdge =
    repeat.fromEdge !== undefined && loss ? afterWashing(repeat.fromEdge, loss.across) : repeat.fromEdge;
  return { along, across, fromEdge, half: repeat.drop === 'half' };
}

function startOf(source: LengthInHand, { washing }: Cloth, shrinks: boolean): number | undefined {
  if (source.firstMotif === undefined) return undefined;
  const loss = shrinks && washing?.washed === 'before-cutting' ? washing.along : undefined;
  return loss ? afterWashing(source.firstMotif, loss) : source.firstMotif;
}

/** The print begins with the panels where the plan says how the two lie; those of the cloth are told before any washing. */
function besidePanels(
  source: LengthInHand | { readonly bought: number },
  { panels, washing }: Cloth,
): number | undefined {
  const own = 'bought' in source ? undefined : source;
  if (panels?.firstMotif === undefined || own?.panels) return undefined;
  const motif = ticks((own?.panelsBegin ?? 0) + panels.firstMotif);
  return washing?.washed === 'before-cutting' ? afterWashing(motif, washing.along) : motif;
}

/** The motif's place in the piece as it lies: a quarter turn counter-clockwise takes (x, y) to (length − y, x). */
function motifOf({ match, size }: PieceWanted, turns: QuarterTurns): { x: number; y: number } | undefined {
  if (match?.kind !== 'centre' && match?.kind !== 'point') return undefined;
  let { x, y } =
    match.kind === 'point' ? match : { x: Math.floor(size.width / 2), y: Math.floor(size.length / 2) };
  let [width, length] = [size.width as number, size.length as number];
  for (let turn = 0; turn < turns; turn++) {
    [x, y] = [(length - y) as typeof x, x];
    [width, length] = [length, width];
  }
  return { x, y };
}

/**
 * Length that must be bought beyond what the cuts take, because the shop cuts anywhere in the repeat: a whole repeat
 * where a piece holds a motif, or where pieces that are to be alike come from several lengths.
 *
 * @param bought how many lengths are bought
 */
export function startReserve(cloth: Cloth, wanted: readonly PieceWanted[], bought = 1): number {
  const matched = wanted.filter((piece) => piece.cloth === cloth.name && piece.match);
  const along = printOf(cloth)?.along;
  if (matched.length === 0 || along === undefined) return 0;
  const holdsMotif = matched.some(({ match }) => match?.kind === 'centre' || match?.kind === 'point');
  const lengths = cloth.inHand.reduce((total, { copies }) => total + copies, cloth.buy ? bought : 0);
  return holdsMotif || lengths > 1 ? along : 0;
}
