import type { Cloth, Fraction, LengthInHand } from '../model/cloth.ts';
import type { QuarterTurns } from '../model/cut-tree.ts';
import type { Panel } from '../model/panel.ts';
import type { Box, Size } from '../model/piece.ts';
import { ceilDiv, floorDiv, type Ticks, ticks } from '../units/ticks.ts';

/** A printed panel where it lies on one length, as that lies on the table. */
export interface PanelPlace {
  readonly name: string;
  readonly turned: QuarterTurns;
  readonly box: Box;
}

const NO_LOSS: Fraction = { numerator: 0, denominator: 1 };

/** What is lost before the cloth is cut; nothing by a length that has been washed already. */
function lossOf(
  cloth: Cloth,
  inHand?: LengthInHand,
): { readonly along: Fraction; readonly across: Fraction } {
  const washes = cloth.washing?.washed === 'before-cutting' && inHand?.washed !== true;
  return washes ? cloth.washing! : { along: NO_LOSS, across: NO_LOSS };
}

/**
 * Every panel that lies whole on a length, near ones first. Washing shrinks panels with the cloth; each then reaches out to
 * whole ticks, so that what holds its box holds the panel.
 *
 * @param length whole length as it lies on the table; must be finite where the panels come again
 */
export function panelPlaces(cloth: Cloth, length: number, inHand?: LengthInHand): readonly PanelPlace[] {
  const own = inHand?.panels;
  // Those of the cloth were measured on the cloth, so they have shrunk on a washed length too.
  const { along, across } = own ? lossOf(cloth, inHand) : lossOf(cloth);
  const areas = own ?? cloth.panels?.areas ?? [];
  const every = own ? undefined : cloth.panels?.every;
  const begin = own ? 0 : (inHand?.panelsBegin ?? 0);
  const places = areas.flatMap((area) => {
    const found: PanelPlace[] = [];
    // A repeat may have begun before the near end, with a panel of it still whole.
    const first = every === undefined ? 0 : -Math.ceil(begin / every);
    for (let repeat = first; ; repeat++) {
      const y = begin + area.y + repeat * (every ?? 0);
      const y1 = ceilAfter(y + area.length, along);
      if (y1 > length) break;
      if (y >= 0) {
        const [x0, x1] = [floorAfter(area.x, across), ceilAfter(area.x + area.width, across)];
        found.push({ name: area.name, turned: area.turned, box: { x0, y0: floorAfter(y, along), x1, y1 } });
      }
      if (every === undefined) break;
    }
    return found;
  });
  return places.sort((a, b) => a.box.y0 - b.box.y0 || a.box.x0 - b.box.x0);
}

/** Whether panels of these names stand upright on their cloth or on a side; `both` where some do and some do not. */
export function panelsLie(cloth: Cloth, names: readonly string[]): 'upright' | 'sideways' | 'both' {
  const areas = [...(cloth.panels?.areas ?? []), ...cloth.inHand.flatMap(({ panels = [] }) => panels)];
  const turned = new Set(areas.filter(({ name }) => names.includes(name)).map((own) => own.turned % 2));
  if (turned.size > 1) return 'both';
  return turned.has(1) ? 'sideways' : 'upright';
}

/** The largest that a panel of this name is anywhere on the cloth, upright, as it lies on the table; undefined where there is none. */
export function panelSize(cloth: Cloth, name: string): Size | undefined {
  const sizes = [
    ...(cloth.panels?.areas ?? []).map((area) => ({ area, loss: lossOf(cloth) })),
    ...cloth.inHand.flatMap((length) =>
      (length.panels ?? []).map((area) => ({ area, loss: lossOf(cloth, length) })),
    ),
  ]
    .filter(({ area }) => area.name === name)
    .map(({ area, loss }) => uprightAfter(area, loss));
  if (sizes.length === 0) return undefined;
  return {
    width: ticks(Math.max(...sizes.map(({ width }) => width))),
    length: ticks(Math.max(...sizes.map(({ length }) => length))),
  };
}

/** Both edges of a washed panel may fall between ticks, so its box may be a tick larger than what is left of it. */
function uprightAfter(
  { width, length, turned }: Panel,
  { along, across }: ReturnType<typeof lossOf>,
): { readonly width: number; readonly length: number } {
  const grown = (loss: Fraction) => (loss.numerator > 0 ? 1 : 0);
  const lies = {
    across: ceilAfter(width, across) + grown(across),
    along: ceilAfter(length, along) + grown(along),
  };
  return turned % 2 === 0
    ? { width: lies.across, length: lies.along }
    : { width: lies.along, length: lies.across };
}

/**
 * Where the near left corner of a piece lies so that the panel is in its middle. An odd tick goes to the right of the
 * upright piece, and to its top.
 *
 * @param lies the piece as it lies on the cloth
 */
export function aroundPanel({ box, turned }: PanelPlace, lies: Size): Box {
  const spare = (piece: number, panel: number) => piece - panel;
  const across = spare(lies.width, box.x1 - box.x0);
  const along = spare(lies.length, box.y1 - box.y0);
  // Upright, the lesser margin is at the left and at the bottom: turned, those lie at other edges.
  const lesserAtNearX = turned === 0 || turned === 3;
  const lesserAtNearY = turned === 0 || turned === 1;
  const x0 = box.x0 - (lesserAtNearX ? Math.floor(across / 2) : Math.ceil(across / 2));
  const y0 = box.y0 - (lesserAtNearY ? Math.floor(along / 2) : Math.ceil(along / 2));
  return {
    x0: x0 as Ticks,
    y0: y0 as Ticks,
    x1: (x0 + lies.width) as Ticks,
    y1: (y0 + lies.length) as Ticks,
  };
}

/** What is left of a distance after the wash, down and up to a whole tick. */
function floorAfter(value: number, { numerator, denominator }: Fraction): Ticks {
  return floorDiv(value * (denominator - numerator), denominator);
}

function ceilAfter(value: number, { numerator, denominator }: Fraction): Ticks {
  return ceilDiv(value * (denominator - numerator), denominator);
}
