/**
 * What general-purpose rectangle packers and plain shelf rules give for the same question.
 *
 * potpack and maxrects-packer need not respect edge-to-edge cuts, so they have it easier than the engine.
 */
import potpack from 'potpack';
import type { Kind } from '../../src/packing/instance.ts';
import type { BenchQuestion } from './families.ts';
import { type Rectangle, type ShelfRule, sheetsOfShelves, shelvesOf } from './shelves.ts';

/** The package names its CommonJS file as its main ES module, which nothing can import; the true one is beside it. */
const file: string = 'maxrects-packer/dist/maxrects-packer.mjs';
const { MaxRectsPacker } = (await import(file)) as typeof import('maxrects-packer');

export const baselineNames = ['potpack', 'maxrects', 'NFDH', 'FFDH', 'BFDH'] as const;
export type Baselines = Readonly<Record<(typeof baselineNames)[number], number | undefined>>;

/** Above this many pieces maxrects-packer, quadratic in the pieces, is left out. */
const mostForMaxRects = 1000;

export function baselinesOf(question: BenchQuestion): Baselines {
  return {
    potpack: potpackValue(question),
    maxrects: question.pieces > mostForMaxRects ? undefined : maxRectsValue(question),
    NFDH: shelfValue(question, 'next'),
    FFDH: shelfValue(question, 'first'),
    BFDH: shelfValue(question, 'best'),
  };
}

function sheetOf(question: BenchQuestion): { width: number; length: number } {
  return question.ask === 'fewest' ? question.body.sheets[0]! : question.body.sheet;
}

/** One rectangle per copy; unlimited kinds as often as their area goes into the sheet. */
function rectanglesOf(question: BenchQuestion): (Rectangle & { kind: Kind })[] {
  const { width, length } = sheetOf(question);
  return question.body.kinds.flatMap((kind) => {
    const area = kind.width * kind.length;
    const copies = Math.min(kind.copies, Math.floor((width * length) / area));
    const one = { width: kind.width, length: kind.length, value: kind.value ?? area, kind };
    return Array.from({ length: copies }, () => one);
  });
}

/** potpack makes a near-square container; stretching all lengths alike makes that container as wide as the strip. */
function potpackValue(question: BenchQuestion): number | undefined {
  if (question.ask !== 'shortest') return undefined;
  const { width } = question.body.sheet;
  const rectangles = rectanglesOf(question);
  const area = rectangles.reduce((sum, each) => sum + each.width * each.length, 0);
  const stretch = (0.95 * (width - 0.5) ** 2) / area;
  if (rectangles.some((each) => each.width > width)) return undefined;
  const { w, h } = potpack(rectangles.map((each) => ({ w: each.width, h: each.length * stretch })));
  return w <= width ? Math.round(h / stretch) : undefined;
}

function maxRectsBins(question: BenchQuestion, length: number): { count: number; firstValue: number } {
  const { width } = sheetOf(question);
  const packer = new MaxRectsPacker(width, length, 0, {
    smart: false,
    pot: false,
    square: false,
    allowRotation: question.body.kinds.some((kind) => kind.quarterTurn),
  });
  packer.addArray(
    rectanglesOf(question).map((each) => ({
      x: 0,
      y: 0,
      width: each.width,
      height: each.length,
      data: each.value,
    })),
  );
  const values = packer.bins.map((bin) =>
    bin.rects.reduce((sum: number, rect: { data?: unknown }) => sum + Number(rect.data), 0),
  );
  return { count: packer.bins.length, firstValue: Math.max(0, ...values) };
}

/** The strip is tried at rising lengths, one per cent at a time, until one bin holds all. */
function maxRectsValue(question: BenchQuestion): number | undefined {
  if (question.ask === 'fewest') return maxRectsBins(question, sheetOf(question).length).count;
  if (question.ask === 'most') return maxRectsBins(question, sheetOf(question).length).firstValue;
  if (question.ask === 'fits') return undefined;
  const rectangles = rectanglesOf(question);
  const { width } = sheetOf(question);
  if (rectangles.some((each) => each.width > width && !(each.kind.quarterTurn && each.length <= width))) {
    return undefined;
  }
  const area = rectangles.reduce((sum, each) => sum + each.width * each.length, 0);
  let length = Math.ceil(area / width);
  for (let tries = 0; tries < 120; tries += 1) {
    if (maxRectsBins(question, length).count === 1) return length;
    length = Math.max(length + 1, Math.ceil(length * 1.01));
  }
  return undefined;
}

function shelfValue(question: BenchQuestion, rule: ShelfRule): number | undefined {
  const { width, length } = sheetOf(question);
  const rectangles = rectanglesOf(question);
  const upright = (each: (typeof rectangles)[number]) => each.width <= width && each.length <= length;
  const laid = rectangles.map((each) =>
    upright(each) || !each.kind.quarterTurn ? each : { ...each, width: each.length, length: each.width },
  );
  if (question.ask !== 'most' && !laid.every(upright)) return undefined;
  const shelves = shelvesOf(laid.filter(upright), width, rule);
  if (question.ask === 'shortest') return shelves.reduce((sum, shelf) => sum + shelf.length, 0);
  if (question.ask === 'fewest') return sheetsOfShelves(shelves, length);
  if (question.ask === 'fits') return undefined;
  let room = length;
  let value = 0;
  for (const shelf of [...shelves].sort((a, b) => b.value / b.length - a.value / a.length)) {
    if (shelf.length > room) continue;
    room -= shelf.length;
    value += shelf.value;
  }
  return value;
}
