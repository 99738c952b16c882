import type { Sheet } from '../packing/instance.ts';
import type { SheetTree } from '../packing/result.ts';
import { ceilTo, floorTo, type Ticks, ticks } from '../units/ticks.ts';
import { type Bed, lengthToPack } from './bed.ts';

/** Where all layers of a stack have usable cloth over each other, and how each lies under it. */
export interface StackBed {
  readonly sheet: Sheet;
  /** Of each layer: from where its own bed begins to the sheet, and from the sheet to where its bed ends. */
  readonly margins: readonly { readonly lead: Ticks; readonly tail: Ticks }[];
}

interface Stretch {
  readonly from: number;
  readonly to: number;
}

/**
 * The cloth that several flat beds, aligned at one edge, have in common: the narrowest rules the width, and what is kept
 * off in one is kept off in all. Each stretch is a whole number of ruler marks from its edge nearer the aligned one.
 * Where the far edge of one layer is the very edge of its cloth and another goes on, a mark is left, so that all are cut
 * there. Undefined where they have nothing in common.
 */
export function stackBed(beds: readonly Bed[], edge: 'left' | 'right', mark: Ticks): StackBed | undefined {
  const common = beds
    .map((bed) => stretches(bed, edge))
    .reduce((shared, own) => shared.flatMap((one) => own.flatMap((other) => overlap(one, other))));
  const near = common[0]?.from ?? 0;
  const whole = common
    // Behind what is kept off, a stretch begins on a mark counted from the first one's edge.
    .map(({ from, to }) => ({ from: near + ceilTo(ticks(from - near), mark), to }))
    .map(({ from, to }) => ({ from, to: from + floorTo(ticks(Math.max(0, to - from)), mark) }))
    .filter(({ from, to }) => to > from);
  const evened = evenFarEdge(whole, beds, mark);
  const [first, last] = [evened[0], evened.at(-1)];
  if (!first || !last) return undefined;
  const width = last.to - first.from;
  const length = Math.min(...beds.map(lengthToPack));
  const inSheet = ({ from, to }: Stretch): Stretch =>
    edge === 'left'
      ? { from: from - first.from, to: to - first.from }
      : { from: last.to - to, to: last.to - from };
  const gaps = evened.slice(1).map((next, index) => inSheet({ from: evened[index]!.to, to: next.from }));
  return {
    sheet: {
      width,
      length,
      ...(gaps.length > 0 && {
        forbidden: gaps
          .sort((a, b) => a.from - b.from)
          .map(({ from, to }) => ({ x0: from, y0: 0, x1: to, y1: length })),
      }),
    },
    margins: beds.map((bed) => {
      const begins = edge === 'left' ? first.from : bed.width - last.to;
      const lead = begins - bed.left;
      return { lead: ticks(lead), tail: ticks(bed.packable - lead - width) };
    }),
  };
}

/** Usable stretches as distances from the aligned edge, near to far. */
function stretches(bed: Bed, edge: 'left' | 'right'): readonly Stretch[] {
  const { left, packable, gap, width } = bed;
  const spans = gap
    ? [
        { from: left, to: left + gap.x0 },
        { from: left + gap.x1, to: left + packable },
      ]
    : [{ from: left, to: left + packable }];
  if (edge === 'left') return spans;
  return spans.map(({ from, to }) => ({ from: width - to, to: width - from })).reverse();
}

function overlap(one: Stretch, other: Stretch): readonly Stretch[] {
  const [from, to] = [Math.max(one.from, other.from), Math.min(one.to, other.to)];
  return from < to ? [{ from, to }] : [];
}

function evenFarEdge(
  stretchesInCommon: readonly Stretch[],
  beds: readonly Bed[],
  mark: Ticks,
): readonly Stretch[] {
  const last = stretchesInCommon.at(-1);
  if (!last) return [];
  const goesOn = beds.filter((bed) => bed.width > last.to).length;
  if (goesOn === 0 || goesOn === beds.length) return stretchesInCommon;
  const shorter = { from: last.from, to: last.to - mark };
  return [...stretchesInCommon.slice(0, -1), ...(shorter.to > shorter.from ? [shorter] : [])];
}

/** The shared tree on the whole bed of one layer: its margins go with each section, below the crosscuts. */
export function widened(
  tree: SheetTree,
  width: number,
  { lead, tail }: StackBed['margins'][number],
): SheetTree {
  if (lead === 0 && tail === 0) return tree;
  if (tree.kind === 'cut' && tree.direction === 'crosscut') {
    return { ...tree, parts: tree.parts.map((part) => widened(part, width, { lead, tail })) };
  }
  const own = tree.kind === 'cut' ? tree : { at: [], parts: [tree] };
  const spare: SheetTree = { kind: 'scrap' };
  return {
    kind: 'cut',
    direction: 'lengthwise',
    at: [...(lead > 0 ? [lead] : []), ...own.at.map((at) => at + lead), ...(tail > 0 ? [lead + width] : [])],
    parts: [...(lead > 0 ? [spare] : []), ...own.parts, ...(tail > 0 ? [spare] : [])],
  };
}
