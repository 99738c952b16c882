import type { Cloth } from '../../model/cloth.ts';
import type { Issue, IssueDetails } from '../../model/issue.ts';
import type { PanelFault } from '../../model/panel.ts';
import type { PieceWanted } from '../../model/piece.ts';
import { motifFromSquaredEnd } from '../align-print.ts';
import type { Beds } from '../beds.ts';
import type { PieceKind } from '../kinds.ts';
import { needsStart } from '../print-phase.ts';
import type { PanelsAsked } from './pack-panelled.ts';
import { type InTheWay, panelRooms } from './panel-rooms.ts';
import { type PanelWanted, waysToTake, whyRefused } from './take-panels.ts';

/** What the pieces ask of the panels of their cloth. */
export function panelsAsked(
  pieces: readonly PieceWanted[],
  kinds: readonly PieceKind[],
  cloth: Cloth,
): PanelsAsked {
  const wanted = pieces.flatMap((piece): readonly PanelWanted[] => {
    const kind = kinds.findIndex(({ copies }) => copies.some((copy) => copy.piece === piece.id));
    return piece.panel && kind >= 0 ? [{ piece, kind, panel: piece.panel.name }] : [];
  });
  return { wanted, keeps: cloth.panels?.untaken !== 'use' };
}

type Details = IssueDetails['panel-fault'];

const WAYS: Readonly<Record<InTheWay, string>> = {
  selvedge: 'the edge of the usable cloth is too near',
  crease: 'the crease that is kept off runs through it',
  flaw: 'a flaw lies in it',
  end: 'the end of the cloth is too near',
};

/** Why the panels that are asked for cannot be had, one issue a panel; empty where they can. */
export function panelTrouble(
  cloth: Cloth,
  beds: Beds,
  { wanted, keeps }: PanelsAsked,
  pieces: readonly PieceWanted[],
): readonly Issue[] {
  const first = wanted[0]?.panel ?? cloth.panels?.areas[0]?.name ?? cloth.inHand[0]?.panels?.[0]?.name ?? '';
  const issue = (details: Omit<Details, 'cloth'>): Issue => ({
    code: 'panel-fault',
    severity: 'error',
    path: ['cloths', cloth.name],
    details: { ...details, cloth: cloth.name },
  });
  if (cloth.lay === 'folded') return [issue({ fault: 'in-fold', panel: first })];
  const matched = pieces.find(({ match }) => match);
  const doubt = matched && doubtOfPrint(cloth, beds, pieces);
  if (doubt) return [issue({ fault: doubt, panel: first, piece: matched.id })];
  const copies = wanted.reduce((total, { piece }) => total + piece.copies, 0);
  const rooms = panelRooms(cloth, beds, cloth.buy ? 2 * copies + 2 : 0);
  const found = [...new Set(wanted.map(({ panel }) => panel))].flatMap((panel): readonly Issue[] => {
    const own = wanted.filter((one) => one.panel === panel);
    const asked = own.reduce((total, { piece }) => total + piece.copies, 0);
    const there = rooms.reduce(
      (total, { places }) => total + places.filter(({ name }) => name === panel).length,
      0,
    );
    const few = (count: number) =>
      issue({ fault: 'too-few', panel, piece: listed(own), wanted: asked, found: count });
    if (there < asked) return [few(there)];
    for (const one of own) {
      const why = whyRefused(rooms, one, keeps);
      const details = { panel, piece: one.piece.id };
      if (why && 'by' in why) return [issue({ ...details, fault: 'spoilt', other: WAYS[why.by] })];
      if (why) return [issue({ ...details, fault: 'crowded', other: why.cutsInto })];
    }
    const { ways, sure } = waysToTake(rooms, own, keeps);
    return ways.length === 0 && sure ? [few(mostTaken(rooms, own, keeps))] : [];
  });
  if (found.length > 0) return found;
  const { ways, sure } = waysToTake(rooms, wanted, keeps);
  if (ways.length > 0 || !sure) return [];
  const [one, other] = wanted;
  return [issue({ fault: 'crowded', panel: one!.panel, piece: one!.piece.id, other: (other ?? one)!.panel })];
}

/**
 * Why pieces cannot be matched beside panels: where the print starts on a length is not known, though a piece is held to it or
 * comes from several; or a length would have to be begun further in, which may well be within a panel.
 */
function doubtOfPrint(cloth: Cloth, beds: Beds, pieces: readonly PieceWanted[]): PanelFault | undefined {
  const all = [...beds.inHand, ...(beds.toBuy ? [beds.toBuy] : [])];
  const known =
    cloth.repeat?.along === undefined || all.every((bed) => motifFromSquaredEnd(bed, cloth) !== undefined);
  const several = all.length > 1 || cloth.buy?.longest !== undefined;
  if (!known && (needsStart(pieces) || several)) return 'beside-match';
  return all.some(({ skip, leftOff = 0 }) => skip > 0 || leftOff > 0) ? 'begun-apart' : undefined;
}

/** How many of one panel can be taken at once, in the order in which they are asked for. */
function mostTaken(
  rooms: Parameters<typeof waysToTake>[0],
  wanted: readonly PanelWanted[],
  keeps: boolean,
): number {
  const total = wanted.reduce((sum, { piece }) => sum + piece.copies, 0);
  for (let count = total - 1; count > 0; count--) {
    let left = count;
    const fewer = wanted.map((own) => {
      const copies = Math.min(left, own.piece.copies);
      left -= copies;
      return { ...own, piece: { ...own.piece, copies } };
    });
    const some = fewer.filter(({ piece }) => piece.copies > 0);
    if (waysToTake(rooms, some, keeps).ways.length > 0) return count;
  }
  return 0;
}

function listed(wanted: readonly PanelWanted[]): string {
  const names = wanted.map(({ piece }) => `"${piece.id}"`);
  return names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
}
