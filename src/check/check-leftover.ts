import type { TrimKind } from '../model/cut-tree.ts';
import type { Box, Size } from '../model/piece.ts';
import { type Ticks, ticks } from '../units/ticks.ts';
import type { Leaf } from './placed-tree.ts';
import type { Report } from './plan-fault.ts';
import { inside, type TableCloth, usableCells } from './table-cloth.ts';

export interface LeftoverRules {
  readonly cloth: TableCloth;
  readonly keep: Size;
  readonly mark: Ticks;
  /** Printed panels that stay whole: what holds one is worth keeping whatever its size. */
  readonly panels?: readonly Box[];
}

/**
 * Whether a leftover is what it is called. A remnant can be kept and is all usable cloth. Scrap is usable cloth of which
 * no part can be kept; it may carry some trim along. Trim is what had to go: at most the part of a ruler mark by which
 * the usable cloth is no whole number of marks may go with it.
 */
export function checkLeftover(
  leaf: Exclude<Leaf, { kind: 'piece' }>,
  box: Box,
  besidePiece: boolean,
  rules: LeftoverRules,
  report: Report,
): void {
  const { cloth, keep, mark } = rules;
  const found = sizeOf(box);
  const cells = usableCells(cloth);
  const usable = cells.map((cell) => overlap(box, cell)).filter((part) => part !== undefined);
  const keepable = usable.map(sizeOf).find((size) => isKeepable(size, keep));
  if (leaf.kind === 'remnant') {
    const holdsPanel = (rules.panels ?? []).some((panel) => inside(panel, box));
    if (!isKeepable(found, keep) && !holdsPanel) report('remnant-too-small', { found, keep }, { box });
    if (!cells.some((cell) => inside(box, cell))) report('remnant-counts-trim', { found }, { box });
  } else if (leaf.kind === 'scrap') {
    if (keepable) report('scrap-keepable', { found: keepable, keep }, { box });
    if (usable.length === 0) report('scrap-counts-trim', { found }, { box });
  } else {
    if (keepable) report('trim-keepable', { found: keepable, keep }, { box });
    if (!isTrim(leaf.of, box, besidePiece, cloth, mark)) {
      report('trim-misplaced', { of: leaf.of, found }, { box });
    }
  }
}

function isTrim(of: TrimKind, box: Box, besidePiece: boolean, cloth: TableCloth, mark: Ticks): boolean {
  const { width, length, left, right, keptOff, twiceCrease, squaring, near } = cloth;
  switch (of) {
    case 'selvedge':
      return box.x1 < left + mark || box.x0 > width - right - mark;
    case 'squaring':
      return box.y1 < near + mark || box.y0 > length - squaring - mark;
    case 'crease':
      return (
        keptOff !== undefined &&
        // A crease between two ticks: a lay folded at one of them loses that tick on both sides before it comes to a mark.
        2 * box.x0 > twiceCrease - 2 * keptOff - 2 * mark - (twiceCrease % 2) * 2 &&
        2 * box.x1 < twiceCrease + 2 * keptOff + 2 * mark + (twiceCrease % 2) * 2
      );
    case 'cut-to-size':
      return besidePiece;
  }
}

function isKeepable({ width, length }: Size, keep: Size): boolean {
  return (width >= keep.width && length >= keep.length) || (width >= keep.length && length >= keep.width);
}

export function sizeOf({ x0, y0, x1, y1 }: Box): Size {
  return { width: ticks(x1 - x0), length: ticks(y1 - y0) };
}

function overlap(one: Box, other: Box): Box | undefined {
  const box = {
    x0: ticks(Math.max(one.x0, other.x0)),
    y0: ticks(Math.max(one.y0, other.y0)),
    x1: ticks(Math.min(one.x1, other.x1)),
    y1: ticks(Math.min(one.y1, other.y1)),
  };
  return box.x0 < box.x1 && box.y0 < box.y1 ? box : undefined;
}
