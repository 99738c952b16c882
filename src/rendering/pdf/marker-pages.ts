import type { ClothPlan, CutPlan } from '../../model/cut-plan.ts';
import { clothFigures } from '../../planning/figures.ts';
import { keyBlock } from '../marker/key.ts';
import { legendBlock } from '../marker/legend.ts';
import { drawRow } from '../marker/row.ts';
import { flowRows, type PlacedRow, ROW_GAP, rowsAt, slimSides } from '../marker/rows.ts';
import { moved, type Page, type Shape } from '../marker/shapes.ts';
import { scaleOf } from '../marker/sheet.ts';
import { shorten } from '../marker/text-width.ts';
import { drawMarker, type Marker } from '../marker.ts';
import { SOFT, TYPE } from '../theme.ts';
import { FOOTER_ROOM, MARGIN, type Paper, paragraph, textAt } from './flow.ts';
import { clothWords, getWords, perCent } from './words.ts';

const GAP = 8;
/** From the head of a page to its first row when the facts take one line; each further line adds its own. */
const HEAD = 40;

interface Setting {
  readonly paper: Paper;
  readonly oneTo: number;
  readonly head: number;
  readonly pages: readonly (readonly PlacedRow[])[];
  readonly parted: boolean;
}

/** The pages that show one cloth: as large as its pages make worth while, each with its key and legend. */
export function markerPages(cutPlan: CutPlan, clothPlan: ClothPlan, paper: Paper): Page[] {
  const marker = drawMarker(cutPlan, clothPlan.cloth);
  const figures = clothFigures(cutPlan, clothPlan);
  const facts = [
    ...getWords(clothPlan, cutPlan.plan),
    clothWords(marker.cloth, cutPlan.plan),
    `marker efficiency ${perCent(figures.markerEfficiency)}`,
    `measures in ${marker.unit === 'in' ? 'inches' : 'centimetres'}`,
    ...(marker.cloth.note ? [marker.cloth.note] : []),
  ].join(' · ');
  const setting = bestSetting(marker, facts, paper);
  return setting.pages.map((rows, index) => {
    const { width, height } = setting.paper;
    const sheet = setting.pages.length > 1 ? ` · sheet ${index + 1} of ${setting.pages.length}` : '';
    const room = width - 2 * MARGIN;
    const shapes: Shape[] = [
      textAt(MARGIN, MARGIN + 14, shorten(marker.cloth.name, room, 16, 'bold'), {
        size: 16,
        weight: 'bold',
        role: 'cloth-name',
      }),
      ...factLines(`${facts} · drawn one to ${setting.oneTo}${sheet}`, room).shapes.map((shape) =>
        moved(shape, MARGIN, MARGIN + 19),
      ),
    ];
    for (const { request, x, y } of rows) {
      for (const shape of drawRow(request).shapes)
        shapes.push(moved(shape, MARGIN + x, MARGIN + setting.head + y));
    }
    const foot = footBlocks(marker, setting.paper, setting.parted);
    let y = height - MARGIN - FOOTER_ROOM - foot.height;
    for (const block of foot.blocks) {
      for (const shape of block.shapes) shapes.push(moved(shape, MARGIN, y));
      y += block.height + GAP;
    }
    return { width, height, shapes };
  });
}

/** The key of more kinds than this would crowd out the drawing. */
const MOST_KEYED = 24;

const factLines = (facts: string, width: number) =>
  paragraph(facts, width, { size: TYPE.small, ink: SOFT, role: 'facts' });

function footBlocks(marker: Marker, paper: Paper, parted: boolean) {
  const width = paper.width - 2 * MARGIN;
  const blocks = [keyBlock(marker, width, MOST_KEYED), legendBlock(marker, width, parted)];
  return {
    blocks,
    height: blocks.reduce((total, block) => total + block.height, 0) + GAP * (blocks.length - 1),
  };
}

/** Every half from one to two up to one to twelve, then whole steps. */
const SCALES = [
  ...Array.from({ length: 21 }, (_, index) => 2 + index / 2),
  ...Array.from({ length: 68 }, (_, index) => 13 + index),
];

/**
 * Tries the page upright and on its side, the length running up or to the right, at every scale. A larger drawing is
 * worth more pages, but less than in proportion, and none is worth one larger than one to three; a drawing in which the
 * slimmest piece could not bear its letter, or a usual one its label, or that parts lengths or even pieces, counts for less.
 */
function bestSetting(marker: Marker, facts: string, paper: Paper): Setting {
  const onItsSide = { width: paper.height, height: paper.width };
  let best: { setting: Setting; worth: number } | undefined;
  for (const sheet of [paper, onItsSide]) {
    const width = sheet.width - 2 * MARGIN;
    const lines = factLines(`${facts} · drawn one to 88.8 · sheet 88 of 88`, width).height;
    const head = HEAD + lines - factLines('one line', width).height;
    const foot = footBlocks(marker, sheet, true).height;
    const room = { width, height: sheet.height - 2 * MARGIN - FOOTER_ROOM - head - foot - ROW_GAP };
    for (const runs of ['right', 'up'] as const) {
      for (const oneTo of SCALES) {
        const setting = settingAt(marker, { paper: sheet, head, room }, runs, oneTo);
        if (!setting) continue;
        const worth = worthOf(marker, setting);
        if (!best || worth > best.worth + 1e-9) best = { setting, worth };
      }
    }
  }
  if (!best) throw new RangeError(`no page shows the cloth "${marker.cloth.name}" at any scale`);
  return best.setting;
}

interface Sheet {
  readonly paper: Paper;
  readonly head: number;
  readonly room: { readonly width: number; readonly height: number };
}

function settingAt(marker: Marker, sheet: Sheet, runs: 'right' | 'up', oneTo: number): Setting | undefined {
  const { width, height } = sheet.room;
  const { pointsPerTick } = scaleOf(oneTo);
  const rows = rowsAt(marker, { runs, pointsPerTick, width, height, idPrefix: 'row-' });
  if (!rows) return undefined;
  const { paper, head } = sheet;
  return {
    paper,
    head,
    oneTo,
    pages: flowRows(rows, width, height),
    parted: rows.length > marker.lengths.length,
  };
}

/** The least side of a piece, in points, that bears its letter; and that of a usual piece, for all of its label. */
const SLIM = 6;
const USUAL = 28;

function worthOf(marker: Marker, { oneTo, pages }: Setting): number {
  const sides = slimSides(marker).map((side) => side * scaleOf(oneTo).pointsPerTick);
  const least = Math.min(1, sides[0]! / SLIM) ** 0.5;
  const usual = Math.min(1, sides[Math.floor(sides.length / 2)]! / USUAL) ** 0.4;
  const breaks = pages.flat().length - marker.lengths.length;
  const whole = 0.97 ** breaks * 0.8 ** partedPieces(pages);
  return ((least * usual) / Math.max(oneTo, 3)) * pages.length ** -0.8 * whole;
}

/** How many pieces are shown in two parts or more, counted once for each place where one is parted. */
function partedPieces(pages: Setting['pages']): number {
  return pages.flat().reduce((total, { request: { length, to } }) => {
    return total + length.pieces.filter(({ box }) => box.y0 < to && to < box.y1).length;
  }, 0);
}
