import { type Ticks, ticks } from '../../units/ticks.ts';
import type { Marker, MarkerLength } from '../marker.ts';
import type { Placing } from './placing.ts';
import { type RowRequest, rowSize } from './row.ts';

/** Gap between rows on a page, in points. */
export const ROW_GAP = 14;

/** A row and where its upper left corner goes on its page. */
export interface PlacedRow {
  readonly request: RowRequest;
  readonly x: number;
  readonly y: number;
}

/** The shorter side of every piece that is drawn, in ticks, rising: what has to bear its label. */
export function slimSides(marker: Marker): number[] {
  const boxes = marker.lengths.flatMap(({ pieces }) => pieces.map(({ box }) => box));
  return boxes.map(({ x0, y0, x1, y1 }) => Math.min(x1 - x0, y1 - y0)).toSorted((a, b) => a - b);
}

export interface Stretch {
  readonly from: Ticks;
  readonly to: Ticks;
}

/**
 * Parts a length into stretches no longer than `longest`. Each ends at the far edge of a piece in the last two thirds of
 * its reach: at the one that parts the fewest other pieces, and of those the farthest. Where there is none, on a whole `mark`.
 */
export function stretches(length: MarkerLength, longest: Ticks, mark: Ticks): Stretch[] {
  const parts: Stretch[] = [];
  let { y0: from } = length.shown;
  const end = length.shown.y1;
  while (end - from > longest) {
    const whole = ticks(Math.max(Math.floor((from + longest) / mark) * mark, from + 1));
    const to = fewestParted(length, ticks(from + Math.floor(longest / 3)), ticks(from + longest)) ?? whole;
    parts.push({ from, to });
    from = to;
  }
  return [...parts, { from, to: end }];
}

function fewestParted({ pieces }: MarkerLength, after: Ticks, upTo: Ticks): Ticks | undefined {
  const edges = [...new Set(pieces.map(({ box }) => box.y1))].filter((at) => at > after && at <= upTo);
  const parted = (at: Ticks) => pieces.filter(({ box }) => box.y0 < at && at < box.y1).length;
  return edges.toSorted((a, b) => parted(a) - parted(b) || b - a)[0];
}

export interface RowsSetting {
  readonly runs: Placing['runs'];
  readonly pointsPerTick: number;
  /** Room on one page, in points. */
  readonly width: number;
  readonly height: number;
  readonly idPrefix: string;
}

/** All rows of a marker at one scale, in order. Undefined where a length is too wide for the page at that scale. */
export function rowsAt(marker: Marker, setting: RowsSetting): RowRequest[] | undefined {
  const { runs, pointsPerTick } = setting;
  const requests: RowRequest[] = [];
  for (const length of marker.lengths) {
    const whole = { marker, length, from: length.shown.y0, to: length.shown.y1, runs, pointsPerTick, id: '' };
    const size = rowSize(whole);
    const along = (length.shown.y1 - length.shown.y0) * pointsPerTick;
    const margin = (runs === 'right' ? size.width : size.height) - along;
    const room = (runs === 'right' ? setting.width : setting.height) - Math.max(margin, 0) - 14;
    if (room < 60) return undefined;
    const mark = ticks(marker.unit === 'in' ? 8128 : 3200);
    for (const { from, to } of stretches(length, ticks(Math.floor(room / pointsPerTick)), mark)) {
      const id = `${setting.idPrefix}${requests.length + 1}`;
      const request: RowRequest = { ...whole, from, to, id };
      const taken = rowSize(request);
      if (taken.width > setting.width || taken.height > setting.height) return undefined;
      requests.push(request);
    }
  }
  return requests;
}

/** Sets rows side by side where they fit, then below each other, then on further pages. */
export function flowRows(requests: readonly RowRequest[], width: number, height: number): PlacedRow[][] {
  const pages: PlacedRow[][] = [];
  let [x, y, shelf] = [0, 0, 0];
  for (const request of requests) {
    const size = rowSize(request);
    if (x > 0 && x + size.width > width) [x, y, shelf] = [0, y + shelf + ROW_GAP, 0];
    if (pages.length === 0 || y + size.height > height) {
      pages.push([]);
      [x, y, shelf] = [0, 0, 0];
    }
    pages.at(-1)!.push({ request, x, y });
    x += size.width + ROW_GAP;
    shelf = Math.max(shelf, size.height);
  }
  return pages;
}
