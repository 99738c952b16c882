import { turnsAllowed } from '../cloth/directions.ts';
import type { Cloth } from '../model/cloth.ts';
import type { QuarterTurns } from '../model/cut-tree.ts';
import type { Issue } from '../model/issue.ts';
import type { PieceId, PieceWanted } from '../model/piece.ts';
import type { Kind } from '../packing/instance.ts';
import { latticeOf, type PrintPhase } from './print-phase.ts';

/** One copy to cut: which piece, and how an unturned leaf of its kind lies. */
export interface Copy {
  readonly piece: PieceId;
  readonly turns: QuarterTurns;
  /** How a turned leaf of its kind lies; a quarter turn unless said. */
  readonly whenTurned?: QuarterTurns;
}

/** Pieces that the packer cannot tell apart: same size as they lie on the cloth, same freedom to turn. */
export interface PieceKind {
  readonly kind: Kind;
  /** One entry a copy, copies of one piece together. */
  readonly copies: readonly Copy[];
  /** Asked for across a fold of the cloth. */
  readonly onFold?: true;
}

export interface Kinds {
  readonly kinds: readonly PieceKind[];
  readonly issues: readonly Issue[];
}

/** Sorts the pieces wanted from one cloth into kinds, in the order they are first asked for. */
export function sortIntoKinds(pieces: readonly PieceWanted[], cloth: Cloth, phase?: PrintPhase): Kinds {
  const kinds = new Map<string, { kind: Kind; copies: Copy[]; onFold: boolean }>();
  const issues: Issue[] = [];
  for (const piece of pieces) {
    if (piece.panel) {
      const turns = panelTurns(cloth, piece.panel.name);
      const fault = panelKindFault(piece, cloth, turns);
      if (fault) issues.push(fault);
      else kinds.set(`panel ${piece.id}`, { ...panelKind(piece, turns), onFold: false });
      continue;
    }
    const allowed = turnsAllowed(piece, cloth);
    if (allowed.kind === 'against-print') {
      issues.push(againstPrint(piece, cloth));
      continue;
    }
    const turns = allowed.kind === 'one-way-round' ? allowed.turns : 0;
    const lattice = phase && latticeOf(piece, turns, phase);
    if (piece.match) issues.push(...matchFaults(piece, cloth));
    const quarterTurn =
      allowed.kind === 'either-way' && piece.size.width !== piece.size.length && !piece.match;
    const [width, length] =
      turns === 1 ? [piece.size.length, piece.size.width] : [piece.size.width, piece.size.length];
    const onFold = piece.onFold === true;
    const key = `${width} ${length} ${quarterTurn} ${onFold} ${lattice ? JSON.stringify(lattice) : ''}`;
    const kind: Kind = { width, length, copies: 0, quarterTurn, ...(lattice && { lattice }) };
    const known = kinds.get(key) ?? { kind, copies: [], onFold };
    for (let copy = 0; copy < piece.copies; copy++) known.copies.push({ piece: piece.id, turns });
    kinds.set(key, known);
  }
  return {
    kinds: [...kinds.values()].map(({ kind, copies, onFold }) => ({
      kind: { ...kind, copies: copies.length },
      copies,
      ...(onFold && { onFold }),
    })),
    issues,
  };
}

/** Nowhere but where it is fixed: a lattice with no point on any cloth. */
const NOWHERE = { period: 2 ** 45, offsets: [2 ** 44] };

/** A piece around a panel is a kind of its own, since its places are. */
function panelKind(piece: PieceWanted, turns: QuarterTurns): { kind: Kind; copies: Copy[] } {
  const { width, length } = piece.size;
  const lies = turns % 2 === 0 ? { width, length } : { width: length, length: width };
  const kind = { ...lies, copies: 0, quarterTurn: false, lattice: { x: NOWHERE, y: NOWHERE } };
  return { kind, copies: Array.from({ length: piece.copies }, () => ({ piece: piece.id, turns })) };
}

function panelKindFault(piece: PieceWanted, cloth: Cloth, turns: QuarterTurns): Issue | undefined {
  const upright = turns % 2 === 0;
  const offGrain = piece.grain === (upright ? 'crosswise' : 'lengthwise');
  const fault = piece.onFold
    ? 'on-fold'
    : cloth.lay === 'folded'
      ? 'in-fold'
      : offGrain
        ? 'off-grain'
        : undefined;
  return (
    fault && {
      code: 'panel-fault',
      severity: 'error',
      path: ['cloths', cloth.name],
      details: { fault, panel: piece.panel!.name, piece: piece.id, cloth: cloth.name },
    }
  );
}

/** How panels of a name lie; upright where there is none. */
function panelTurns({ panels, inHand }: Cloth, name: string): QuarterTurns {
  const all = [...(panels?.areas ?? []), ...inHand.flatMap((length) => length.panels ?? [])];
  return all.find((panel) => panel.name === name)?.turned ?? 0;
}

/** Folded, every placement yields two copies, one a ply; an odd one out leaves a spare. */
export function forLay(kind: Kind, cloth: Cloth): Kind {
  return cloth.lay === 'folded' ? { ...kind, copies: Math.ceil(kind.copies / 2) } : kind;
}

/** What a match needs to know of the print. Checked here, where piece and cloth first meet. */
function matchFaults({ id, match }: PieceWanted, cloth: Cloth): readonly Issue[] {
  const fault = (missing: 'repeat' | 'along' | 'from edge'): Issue => ({
    code: 'match-without-repeat',
    severity: 'error',
    path: ['cloths', cloth.name],
    details: { piece: id, cloth: cloth.name, missing },
  });
  const { repeat } = cloth;
  if (!repeat) return [fault('repeat')];
  if (match?.kind === 'drops' && repeat.along === undefined) return [fault('along')];
  const centred = match?.kind === 'centre' || match?.kind === 'point';
  if (centred && repeat.across !== undefined && repeat.fromEdge === undefined) return [fault('from edge')];
  if (cloth.lay === 'folded' && repeat.across !== undefined && match?.kind !== 'drops') {
    return [
      {
        code: 'match-in-fold',
        severity: 'error',
        path: ['cloths', cloth.name, 'lay'],
        details: { piece: id, cloth: cloth.name },
      },
    ];
  }
  return [];
}

function againstPrint(piece: PieceWanted, cloth: Cloth): Issue {
  return {
    code: 'grain-against-print',
    severity: 'error',
    path: ['cloths', cloth.name, 'direction'],
    details: { piece: piece.id, cloth: cloth.name, grain: piece.grain, printRuns: cloth.printRuns },
  };
}
