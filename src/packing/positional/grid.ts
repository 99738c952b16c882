import type { Box, Sheet } from '../instance.ts';

/** A span of one axis; `to` may be Infinity. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

/**
 * A sheet whose forbidden boxes all run from edge to edge: what remains is a grid of free cells. The columns are
 * parted by strips over the whole length (a kept-off crease), the rows by strips over the whole width (a flaw that
 * ruins the cloth from selvedge to selvedge).
 * ```
 *   +------+--+------+
 *   |      |  |      |   row 1
 *   |------+--+------|
 *   |      |  |      |   row 0
 *   +------+--+------+
 *   column 0   column 1
 * ```
 */
export interface Grid {
  readonly width: number;
  readonly length: number;
  readonly columns: readonly Span[];
  readonly rows: readonly Span[];
}

/** The grid of a sheet; undefined where a box ends inside the sheet, or anything else is held in place. */
export function gridOf(sheet: Sheet): Grid | undefined {
  if ((sheet.fixed?.length ?? 0) > 0 || sheet.mirrorAt !== undefined) return undefined;
  const across: Span[] = [];
  const along: Span[] = [];
  for (const box of insideBoxes(sheet)) {
    const wholeLength = box.y0 <= 0 && box.y1 >= sheet.length;
    const wholeWidth = box.x0 <= 0 && box.x1 >= sheet.width;
    if (wholeLength) across.push({ from: box.x0, to: box.x1 });
    else if (wholeWidth) along.push({ from: box.y0, to: box.y1 });
    else return undefined;
  }
  return {
    width: sheet.width,
    length: sheet.length,
    columns: freeSpans(across, sheet.width),
    rows: freeSpans(along, sheet.length),
  };
}

/** The forbidden boxes that reach into the sheet. A box without an inside is a line that no piece may cross. */
export function insideBoxes(sheet: Sheet): readonly Box[] {
  return (sheet.forbidden ?? []).filter(
    ({ x0, y0, x1, y1 }) =>
      x0 <= x1 &&
      y0 <= y1 &&
      (x0 < x1 || y0 < y1) &&
      x1 > 0 &&
      y1 > 0 &&
      x0 < sheet.width &&
      y0 < sheet.length,
  );
}

function freeSpans(taken: readonly Span[], extent: number): readonly Span[] {
  const spans: Span[] = [];
  let from = 0;
  for (const span of [...taken].sort((a, b) => a.from - b.from)) {
    if (span.from > from) spans.push({ from, to: span.from });
    from = Math.max(from, span.to);
  }
  if (from < extent) spans.push({ from, to: extent });
  return spans;
}
