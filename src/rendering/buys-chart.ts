import type { Plan } from '../model/plan.ts';
import type { BuysCompared } from '../planning/compare-buys.ts';
import { formatBuy, formatMoney } from '../units/format.ts';
import { wordLeastForOne } from './buys.ts';
import type { Page, Segment, Shape } from './marker/shapes.ts';
import { textWidth } from './marker/text-width.ts';
import { INK, LINES, PAPER, QUIET, SOFT, TINT } from './theme.ts';

/** Points: the chart fits a page of either paper, laid across. */
const PAGE = { width: 700, height: 500 };
const MARGIN = { left: 64, right: 72, top: 70, bottom: 64 };
const LABEL = 9;
/** Clear space between two labels. */
const BETWEEN = 6;

/** Steps over length: complete sets as a stair, and below it what a set costs as bars on a scale of its own. */
export function drawBuysChart(compared: BuysCompared, plan: Plan): Page {
  const { buys, cloth } = compared;
  const shapes: Shape[] = [{ kind: 'rect', x: 0, y: 0, ...PAGE, fill: PAPER }];
  const left = MARGIN.left;
  const right = PAGE.width - MARGIN.right;
  const priced = buys.some((buy) => buy.costPerSet !== undefined);
  const stair = { top: MARGIN.top, bottom: priced ? 260 : PAGE.height - MARGIN.bottom };
  const bars = { top: 300, bottom: PAGE.height - MARGIN.bottom };
  const slot = (right - left) / buys.length;
  const at = (index: number) => left + slot * index;
  shapes.push(
    text(left, 30, `What ${cloth.name} yields`, 17, 'start', 'bold'),
    text(left, 48, 'complete sets that can be cut from each buy', 10, 'start'),
  );
  shapes.push(...setStair(compared, { at, slot, ...stair, left, right }));
  if (buys.every(({ sets }) => sets === 0)) {
    const middle = (stair.top + stair.bottom) / 2;
    shapes.push(
      text((left + right) / 2, middle - 8, 'None of these yields a complete set.', 13, 'middle', 'bold'),
      text((left + right) / 2, middle + 12, `T${wordLeastForOne(compared, plan).slice(1)}.`, 11, 'middle'),
    );
  }
  if (priced) shapes.push(...costBars(compared, plan, { at, slot, ...bars, left, right }));
  const names = buys.map(({ bought }) => (bought === 0 ? 'none' : formatBuy(bought, plan)));
  for (const index of labelled(names, slot, compared.bestValue)) {
    const weight = index === compared.bestValue ? 'bold' : 'regular';
    shapes.push(
      text(at(index) + slot / 2, PAGE.height - MARGIN.bottom + 16, names[index]!, LABEL, 'middle', weight),
    );
  }
  shapes.push(text((left + right) / 2, PAGE.height - 22, axisWords(compared), 10, 'middle', 'bold'));
  return { ...PAGE, shapes };
}

function axisWords({ between }: BuysCompared): string {
  if (between === 0) return 'length to buy';
  return `length to buy; ${between} of the shop's steps between these ${between === 1 ? 'is' : 'are'} not drawn`;
}

interface Field {
  readonly at: (index: number) => number;
  readonly slot: number;
  readonly top: number;
  readonly bottom: number;
  readonly left: number;
  readonly right: number;
}

function setStair({ buys, bestValue }: BuysCompared, field: Field): Shape[] {
  const { at, slot, top, bottom, left, right } = field;
  const most = Math.max(1, ...buys.map((buy) => buy.setsAtMost));
  const y = (sets: number) => bottom - ((bottom - top) * sets) / most;
  const shapes: Shape[] = gridLines(most, (value) => y(value), left, right);
  const edge: Segment[] = [];
  for (const [index, buy] of buys.entries()) {
    const level = y(buy.sets);
    const marked = index === bestValue;
    shapes.push({
      kind: 'rect',
      role: 'sets',
      ...{ x: at(index), y: level, width: slot, height: bottom - level },
      fill: marked ? SOFT : TINT,
    });
    edge.push([at(index), level, at(index) + slot, level]);
    const next = buys[index + 1];
    if (next) edge.push([at(index) + slot, level, at(index) + slot, y(next.sets)]);
    if (buy.setsAtMost > buy.sets) {
      shapes.push(lines([[at(index), y(buy.setsAtMost), at(index) + slot, y(buy.setsAtMost)]], LINES.seam));
    }
  }
  shapes.push(lines(edge, LINES.cut[1]!), lines([[left, bottom, right, bottom]], LINES.outline));
  return shapes;
}

function costBars({ buys, bestValue }: BuysCompared, plan: Plan, field: Field): Shape[] {
  const { at, slot, top, bottom, left, right } = field;
  const most = Math.max(1, ...buys.map((buy) => buy.costPerSet ?? 0));
  // What its leftover is worth may be more than a buy costs.
  const y = (cost: number) => bottom - ((bottom - top) * Math.max(0, cost)) / most;
  const shapes: Shape[] = [
    text(left, top - 20, 'what one set costs; the dark bar is the best value', 10, 'start'),
    lines([[left, bottom, right, bottom]], LINES.outline),
  ];
  const words = buys.map(({ costPerSet }) =>
    costPerSet === undefined ? undefined : formatMoney(Math.round(costPerSet), plan.currency),
  );
  const told = labelled(words, slot, bestValue);
  for (const [index, { costPerSet }] of buys.entries()) {
    if (costPerSet === undefined) continue;
    const marked = index === bestValue;
    const box = {
      x: at(index) + slot * 0.18,
      y: y(costPerSet),
      width: slot * 0.64,
      height: bottom - y(costPerSet),
    };
    shapes.push({ kind: 'rect', role: 'cost', ...box, fill: marked ? INK : TINT, stroke: LINES.outline });
    if (!told.includes(index)) continue;
    const weight = marked ? 'bold' : 'regular';
    shapes.push(text(at(index) + slot / 2, y(costPerSet) - 4, words[index]!, LABEL, 'middle', weight));
  }
  return shapes;
}

/** Which of some labels have room side by side: the best value's before all, then as many as there is room for. */
function labelled(
  labels: readonly (string | undefined)[],
  slot: number,
  best: number | undefined,
): readonly number[] {
  const half = (index: number) => (textWidth(labels[index]!, LABEL, 'bold') + BETWEEN) / 2;
  const taken: number[] = best === undefined ? [] : [best];
  for (const [index, label] of labels.entries()) {
    if (label === undefined || index === best) continue;
    const clear = taken.every((other) => slot * Math.abs(index - other) >= half(index) + half(other));
    if (clear) taken.push(index);
  }
  return taken;
}

/** At most six levels, each a whole number of sets. */
function gridLines(most: number, y: (value: number) => number, left: number, right: number): Shape[] {
  const step = Math.max(1, Math.ceil(most / 6));
  const shapes: Shape[] = [];
  for (let value = 0; value <= most; value += step) {
    shapes.push(lines([[left, y(value), right, y(value)]], LINES.hairline));
    shapes.push({ ...text(left - 8, y(value) + 3, String(value), 9, 'end'), ink: QUIET });
  }
  return shapes;
}

function lines(segments: readonly Segment[], stroke: (typeof LINES)['outline']): Shape {
  return { kind: 'lines', segments, stroke };
}

function text(
  x: number,
  y: number,
  words: string,
  size: number,
  anchor: 'start' | 'middle' | 'end',
  weight: 'regular' | 'bold' = 'regular',
) {
  return { kind: 'text', x, y, text: words, size, weight, anchor, ink: INK } as const;
}
