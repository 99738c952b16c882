import type { ClothPlan, CutPlan, Stack } from '../../model/cut-plan.ts';
import { whatBeginTakes } from '../../planning/begin-words.ts';
import { endToTest, foldFirst, turnFirst, upToMark } from '../../planning/end-words.ts';
import { joinOrders, wordJoin } from '../../planning/join-order.ts';
import { layerName, stackOf, stackSteps, stepsOfLength } from '../../planning/stack-steps.ts';
import { stackName } from '../../planning/stack-words.ts';
import { wordStep } from '../../planning/step-words.ts';
import { withGlyphs } from '../glyphs.ts';
import { swatchWeave } from '../marker/hatch.ts';
import type { Block } from '../marker/row.ts';
import type { Shape } from '../marker/shapes.ts';
import { drawMarker, type MarkerKind } from '../marker.ts';
import { LINES, PAPER, SOFT, TYPE, weaveOf } from '../theme.ts';
import { washFirst } from '../wash-words.ts';
import { beside, type Flow, paragraph, stack, textAt } from './flow.ts';
import { stepBlock, TICK, tickBox } from './ticks.ts';
import { lengthWords, sizeWords, styleOf } from './words.ts';

/** What comes off one cloth, with a box to tick for every copy, and the steps that cut it, each with a box. */
export function cutList(flow: Flow, cutPlan: CutPlan, clothPlan: ClothPlan): void {
  const marker = drawMarker(cutPlan, clothPlan.cloth);
  flow.heading(`Cut list: ${clothPlan.cloth}`, 60);
  flow.paragraph('Cut sizes: across the piece, then up it, as it stands with its top up. One box a piece.', {
    size: TYPE.small,
    ink: SOFT,
  });
  flow.space(3);
  for (const kind of marker.kinds) {
    flow.add(kindBlock(kind, cutPlan, flow.width));
    flow.space(3);
  }
  const cloth = cutPlan.plan.cloths.find(({ name }) => name === clothPlan.cloth)!;
  const wash = washFirst(cloth, cutPlan.plan, styleOf(cutPlan.plan), clothPlan);
  if (wash !== undefined) flow.paragraph(wash, { weight: 'bold' });
  for (const length of clothPlan.lengths) {
    const inStack = stackOf(cutPlan, clothPlan.cloth, length.name);
    if (inStack && !inStack.leads) {
      const lead = layerName(cutPlan, inStack.stack.layers[0]!);
      flow.paragraph(`It is cut together with ${lead}: the steps stand there, once for all plies.`);
      continue;
    }
    const steps = inStack
      ? stackSteps(cutPlan, inStack.stack)
      : stepsOfLength(cutPlan, clothPlan.cloth, length);
    const letters = new Map(cutPlan.pieces.map(({ id, letter }) => [id, letter]));
    const size = sizeWords({ width: length.width, length: length.length }, cutPlan.plan);
    const several = clothPlan.lengths.filter(({ source }) => source === 'bought').length > 1;
    const bought = several ? `length ${length.name.replace('bought ', '')} to buy` : 'the length to buy';
    const name = length.source === 'bought' ? bought : `${length.name} in hand`;
    const laid =
      length.lay.kind === 'folded' ? `, folded at ${lengthWords(length.lay.foldAt, cutPlan.plan)}` : '';
    const once = length.oneSpread ? ', laid once for all cuts' : '';
    const title = `Steps for ${name}, ${size}${laid}${once}`;
    flow.subheading(title, 34);
    if (inStack) flow.paragraph(stackWords(cutPlan, inStack.stack));
    const turn = turnFirst(cloth, length);
    if (turn !== undefined) {
      flow.paragraph(turn);
      flow.space(3);
    }
    const test = endToTest(cloth, length);
    if (test !== undefined && !inStack) {
      flow.paragraph(test);
      flow.space(3);
    }
    const begin = whatBeginTakes(length, styleOf(cutPlan.plan));
    if (begin !== undefined) {
      flow.paragraph(begin);
      flow.space(3);
    }
    const fold = foldFirst(length, styleOf(cutPlan.plan));
    if (fold !== undefined) {
      flow.paragraph(fold);
      flow.space(3);
    }
    const mark = upToMark(cloth, steps);
    if (mark !== undefined) {
      flow.paragraph(mark);
      flow.space(3);
    }
    flow.under(title, () => {
      for (const step of steps) {
        const { number, todo, spread, frees } = wordStep(step, cutPlan.plan, letters);
        const rest = [spread, frees].filter((words) => words !== '').join('; ');
        flow.add(stepBlock(number, withGlyphs(todo), withGlyphs(rest), flow.width));
        flow.space(3);
      }
    });
  }
  joinTable(flow, cutPlan, clothPlan.cloth);
}

/** How the layers are laid, before the steps that cut them all. */
function stackWords(cutPlan: CutPlan, stack: Stack): string {
  const { edge, layers, sectionsFirst } = stack;
  const from = edge === 'right' ? ' Settings across the width are measured from the right edge.' : '';
  const square = `Square the near end of each of ${stackName(cutPlan, stack)}`;
  const laid = `${layers.length} plies, the right sides alike, near ends and ${edge} edges aligned.`;
  const how = sectionsFirst
    ? `${square} and cut each by itself across into its sections, in the first step. Then lay the like sections of all flat on each other in this order, ${laid} From the second step on, plies`
    : `${square} and lay them flat on each other in this order, ${laid} Plies`;
  return `${how} and pieces are those of all of them.${from}`;
}

/** What joins to what, in order, with a box to tick for each. */
function joinTable(flow: Flow, cutPlan: CutPlan, cloth: string): void {
  const { unit } = cutPlan.plan;
  for (const { piece, copies, steps } of joinOrders(cutPlan).filter((order) => order.piece.cloth === cloth)) {
    const size = sizeWords(piece.size, cutPlan.plan);
    flow.subheading(
      `Joins of ${piece.letter}, ${piece.name === piece.order ? '' : `${piece.name} of `}${piece.order}: ${copies} of ${size}`,
      34,
    );
    for (const [index, step] of steps.entries()) {
      flow.add(stepBlock(index + 1, `${wordJoin(step, { unit, fractions: 'glyph' })}.`, '', flow.width));
      flow.space(3);
    }
  }
}

function kindBlock(kind: MarkerKind, cutPlan: CutPlan, width: number): Block {
  const { piece, copies, surplus } = kind;
  const columns = {
    swatch: 0,
    letter: 31,
    name: 50,
    size: width * 0.36,
    copies: width * 0.53,
    ticks: width * 0.72,
  };
  const spare = surplus > 0 ? `, ${surplus} of them spare` : '';
  const double = kind.drawn > 0 && kind.drawn * 2 === copies ? `${kind.drawn} × 2 plies = ` : '';
  const name = stack(
    [
      paragraph(piece.name, columns.size - columns.name - 8, { weight: 'bold' }),
      // A piece that is all there is of its order bears its name already.
      ...(piece.order === piece.name
        ? []
        : [paragraph(piece.order, columns.size - columns.name - 8, { size: TYPE.small, ink: SOFT })]),
    ],
    columns.size,
  );
  return beside(
    [
      [columns.swatch, swatchBlock(kind)],
      [columns.letter, paragraph(piece.letter, 40, { size: 11, weight: 'bold' })],
      [columns.name, name],
      [columns.size, paragraph(sizeWords(piece.size, cutPlan.plan), columns.copies - columns.size - 6)],
      [columns.copies, paragraph(`${double}${copies}${spare}`, columns.ticks - columns.copies - 6)],
      [columns.ticks, ticksBlock(copies, width - columns.ticks)],
    ],
    width,
  );
}

function swatchBlock(kind: MarkerKind): Block {
  const box = { x: 0, y: 1, width: 24, height: 14 };
  return {
    width: 24,
    height: 16,
    shapes: [
      { kind: 'rect', ...box, fill: PAPER },
      ...swatchWeave(box, weaveOf(kind.index)),
      { kind: 'rect', ...box, stroke: LINES.rule },
    ],
  };
}

/** One box for each copy, in rows; of very many copies, one box for each ten. */
function ticksBlock(copies: number, width: number): Block {
  const most = Math.floor(width / TICK.pitch);
  const each = copies > TICK.most ? 10 : 1;
  const boxes = Math.ceil(copies / each);
  // Rows alike, so that no box stands alone.
  const perRow = Math.ceil(boxes / Math.ceil(boxes / most));
  const shapes: Shape[] = Array.from({ length: boxes }, (_, index) =>
    tickBox((index % perRow) * TICK.pitch, 2 + Math.floor(index / perRow) * TICK.pitch),
  );
  const height = Math.ceil(boxes / perRow) * TICK.pitch + 2;
  if (each === 1) return { width, height, shapes };
  const words = textAt(0, height + 7, 'one box for each ten', { size: 7, ink: SOFT });
  return { width, height: height + 10, shapes: [...shapes, words] };
}
