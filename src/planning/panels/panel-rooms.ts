import { afterWashing, lossBeforeCutting } from '../../cloth/washing.ts';
import { overlapsBox } from '../../geometry/outline.ts';
import { type PanelPlace, panelPlaces } from '../../geometry/panels.ts';
import type { Cloth, LengthInHand } from '../../model/cloth.ts';
import type { Box, PieceWanted } from '../../model/piece.ts';
import { ticks } from '../../units/ticks.ts';
import { type Bed, lengthToPack } from '../bed.ts';
import type { Beds } from '../beds.ts';

/** What keeps a box from being cut whole out of a bed. */
export type InTheWay = 'selvedge' | 'crease' | 'flaw' | 'end';

/** A bed of finite length with the printed panels that lie on it. */
export interface PanelRoom {
  readonly bed: Bed;
  /** Near ones first. */
  readonly places: readonly PanelPlace[];
  /** Those of them that can stay whole. */
  readonly whole: ReadonlySet<PanelPlace>;
}

/** Whether the panels of a cloth matter for these pieces: one is taken, or those that are not are to stay whole. */
export function isPanelled(cloth: Cloth, pieces: readonly PieceWanted[]): boolean {
  if (!hasPanels(cloth)) return false;
  return cloth.panels?.untaken !== 'use' || pieces.some(({ panel }) => panel);
}

export function hasPanels({ panels, inHand }: Cloth): boolean {
  return (panels?.areas ?? []).length > 0 || inHand.some((length) => (length.panels ?? []).length > 0);
}

/** The lengths in hand and so many repeats of what is bought, each with its panels. */
export function panelRooms(cloth: Cloth, beds: Beds, repeats: number): readonly PanelRoom[] {
  const inHand = beds.inHand.map((bed) => {
    const length = cloth.inHand.find(({ name }) => name === bed.entryName);
    // Where the panels lie on it is known, whatever the start of a print.
    return roomOf(
      cloth,
      { ...bed, unknownStart: length?.firstMotif === undefined ? ticks(0) : bed.unknownStart },
      length,
    );
  });
  const bolts = beds.toBuy ? boltsOf(cloth, beds.toBuy, repeats) : [];
  return [...inHand, ...bolts.map((bed) => roomOf(cloth, bed))];
}

/** Most repeats that one bought length has. */
export function mostRepeats(cloth: Cloth): number {
  const { buy, panels } = cloth;
  if (panels?.every === undefined || buy?.longest === undefined) return Infinity;
  const spare = panels.sold === 'anywhere' ? 1 : 0;
  return Math.max(0, Math.floor(buy.longest / panels.every) - spare);
}

/** So many repeats in as few lengths as the shop sells. */
function boltsOf(cloth: Cloth, bolt: Bed, repeats: number): readonly Bed[] {
  const every = cloth.panels?.every;
  const most = mostRepeats(cloth);
  if (every === undefined || repeats === 0 || most === 0) return [];
  const loss = lossBeforeCutting(cloth).along;
  const count = Math.max(1, Math.ceil(repeats / most));
  return Array.from({ length: count }, (_, index) => {
    const own = Math.min(most, index === 0 ? repeats : repeats - index * most);
    return {
      ...bolt,
      name: count === 1 ? bolt.name : `${bolt.name} ${index + 1}`,
      // Where a shop cuts anywhere, the far end lies beyond the reserve and comes near no panel.
      length:
        afterWashing(ticks(own * every), loss) +
        (bolt.unknownStart > 0 ? bolt.unknownStart + bolt.squaring : 0),
    };
  });
}

function roomOf(cloth: Cloth, bed: Bed, inHand?: LengthInHand): PanelRoom {
  const reserve = !inHand && bed.unknownStart > 0 ? bed.unknownStart + bed.squaring : 0;
  const places = panelPlaces(cloth, bed.length - reserve, inHand);
  const outlines = outlinesOf(cloth, inHand);
  const whole = places.filter(
    ({ box }) => !inTheWay(bed, box) && !outlines.some((outline) => overlapsBox(outline, box)),
  );
  return { bed, places, whole: new Set(whole) };
}

function outlinesOf(cloth: Cloth, inHand?: LengthInHand) {
  const { along, across } = lossBeforeCutting(cloth, inHand);
  return (inHand?.flaws ?? []).map(({ outline }) =>
    outline.map(({ x, y }) => ({ x: afterWashing(x, across), y: afterWashing(y, along) })),
  );
}

/** What but a flaw lies in the way of a box of the flat cloth. */
function inTheWay(bed: Bed, { x0, y0, x1, y1 }: Box): InTheWay | undefined {
  const near = bed.squaring + bed.skip;
  if (x0 < bed.left || x1 > bed.left + bed.packable) return 'selvedge';
  if (y0 < near || y1 > near + lengthToPack(bed)) return 'end';
  const { gap } = bed;
  if (gap && x0 < bed.left + gap.x1 && x1 > bed.left + gap.x0) return 'crease';
  return undefined;
}

/** What lies in the way of a piece on a bed. */
export function inTheWayOf(bed: Bed, box: Box): InTheWay | undefined {
  return inTheWay(bed, box) ?? (bed.flaws.some((flaw) => boxesOverlap(flaw, box)) ? 'flaw' : undefined);
}

export function boxesOverlap(a: Record<keyof Box, number>, b: Record<keyof Box, number>): boolean {
  return a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1;
}
