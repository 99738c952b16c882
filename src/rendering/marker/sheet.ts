import { TICKS_PER_MM } from '../../units/ticks.ts';
import type { Marker } from '../marker.ts';
import { INK, POINTS_PER_MM, SOFT } from '../theme.ts';
import { widthWords } from '../wash-words.ts';
import { keyBlock } from './key.ts';
import { legendBlock } from './legend.ts';
import { drawRow } from './row.ts';
import { flowRows, type PlacedRow, rowsAt, slimSides } from './rows.ts';
import { scaleRuleBlock } from './scale-check.ts';
import { moved, type Page, type Shape } from './shapes.ts';
import { shorten } from './text-width.ts';

export interface SheetScale {
  /** Drawn one to so many. */
  readonly oneTo: number;
  readonly pointsPerTick: number;
}

export const scaleOf = (oneTo: number): SheetScale => ({
  oneTo,
  pointsPerTick: POINTS_PER_MM / TICKS_PER_MM / oneTo,
});

const SCALES = [1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50];

/** A sheet as wide as the long side of A3 (ISO 216) less its margins, as tall as it has to be. */
const SHEET = { width: 420 * POINTS_PER_MM, margin: 24, across: 380, head: 58, slimmest: 9 } as const;

/** One drawing with every length of a cloth, for a screen or a large sheet. */
export function markerSheet(marker: Marker): { readonly page: Page; readonly scale: SheetScale } {
  const { scale, rows } = sheetRows(marker);
  const drawn = rows.map(({ request, x, y }) => ({ block: drawRow(request), x, y }));
  const content = Math.max(520, ...drawn.map(({ block, x }) => x + block.width));
  const below = Math.max(...drawn.map(({ block, y }) => y + block.height));
  const { margin, head } = SHEET;
  const shapes: Shape[] = [...sheetHead(marker, scale, content)];
  const put = (block: { readonly shapes: readonly Shape[] }, x: number, y: number) => {
    for (const shape of block.shapes) shapes.push(moved(shape, x, y));
  };
  for (const { block, x, y } of drawn) put(block, margin + x, margin + head + y);
  let y = margin + head + below + 12;
  const parted = rows.length > marker.lengths.length;
  for (const block of [keyBlock(marker, content), legendBlock(marker, content, parted), scaleRuleBlock()]) {
    put(block, margin, y);
    y += block.height + 12;
  }
  return { scale, page: { width: content + 2 * margin, height: y + margin - 12, shapes } };
}

/**
 * The largest scale at which the widest length fits its place. A drawing half as small again is taken where it shows every
 * length unparted; a larger one, up to twice, where a piece would be too small for its letter.
 */
function sheetRows(marker: Marker): { scale: SheetScale; rows: readonly PlacedRow[] } {
  const widest = Math.max(...marker.lengths.map(({ shown }) => shown.x1 - shown.x0));
  const slimmest = slimSides(marker)[0] ?? 0;
  const fits = SCALES.filter((oneTo) => widest * scaleOf(oneTo).pointsPerTick <= 2 * SHEET.across);
  const found = fits.flatMap((oneTo) => rowsOf(marker, scaleOf(oneTo)) ?? []);
  const usual = found.find(({ scale }) => widest * scale.pointsPerTick <= SHEET.across) ?? found.at(-1);
  if (!usual) throw new RangeError(`no scale draws a cloth ${widest} ticks wide`);
  const legible =
    found.findLast(({ scale }) => slimmest * scale.pointsPerTick >= SHEET.slimmest) ?? found[0]!;
  if (legible.scale.oneTo < usual.scale.oneTo) return legible;
  const whole = found.find(
    ({ scale, rows }) => rows.length === marker.lengths.length && scale.oneTo <= 1.7 * usual.scale.oneTo,
  );
  return whole && whole.scale.oneTo > usual.scale.oneTo && whole.scale.oneTo <= legible.scale.oneTo
    ? whole
    : usual;
}

function rowsOf(
  marker: Marker,
  scale: SheetScale,
): { scale: SheetScale; rows: readonly PlacedRow[] } | undefined {
  const room = { width: SHEET.width - 2 * SHEET.margin, height: 1e6 };
  const setting = { ...room, runs: 'right' as const, pointsPerTick: scale.pointsPerTick, idPrefix: 'row-' };
  const requests = rowsAt(marker, setting);
  return requests && { scale, rows: flowRows(requests, room.width, room.height)[0]! };
}

function sheetHead(marker: Marker, scale: SheetScale, room: number): Shape[] {
  const { cloth, unit } = marker;
  const width = widthWords(cloth, { unit, fractions: 'glyph' });
  const unitWord = unit === 'in' ? 'inches' : 'centimetres';
  const style = { kind: 'text', role: 'head', x: SHEET.margin, anchor: 'start' } as const;
  return [
    {
      ...style,
      y: SHEET.margin + 18,
      text: shorten(cloth.name, room, 20, 'bold'),
      size: 20,
      weight: 'bold',
      ink: INK,
    },
    {
      ...style,
      y: SHEET.margin + 33,
      text: `Marker, ${width}, drawn one to ${scale.oneTo}. All measures are in ${unitWord}.`,
      size: 9.5,
      weight: 'regular',
      ink: SOFT,
    },
    {
      ...style,
      y: SHEET.margin + 45,
      text: 'Sizes are cut sizes: across the piece, then up it, as it stands with its top up.',
      size: 9.5,
      weight: 'regular',
      ink: SOFT,
    },
  ];
}
