import { walk } from '../geometry/walk.ts';
import type { Cloth } from '../model/cloth.ts';
import type { ClothChoice } from '../model/collection.ts';
import type { ClothPlan, CutPlan, LengthPlan } from '../model/cut-plan.ts';
import type { CutTree } from '../model/cut-tree.ts';
import type { Issue } from '../model/issue.ts';
import { wordIssue } from '../model/messages.ts';
import type { ArithmeticLine, Box, PieceId, PieceWanted, Size } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import { whatBeginTakes } from '../planning/begin-words.ts';
import { endToTest, foldFirst, turnFirst, upToMark } from '../planning/end-words.ts';
import { clothFigures } from '../planning/figures.ts';
import { joinOrders, wordJoin } from '../planning/join-order.ts';
import { panelsOf } from '../planning/panels/panels-told.ts';
import { toldLeftovers } from '../planning/put-back.ts';
import { stackOf, stackSteps, stepsOfLength } from '../planning/stack-steps.ts';
import { wordStack } from '../planning/stack-words.ts';
import { wordStep } from '../planning/step-words.ts';
import { formatBuy, formatLength, formatMoney, formatSize } from '../units/format.ts';
import { type Ticks, ticks } from '../units/ticks.ts';
import { choiceAnswer } from './choice-words.ts';
import { cupboardJson } from './cupboard-json.ts';
import { writeJson } from './json-text.ts';
import { measuredLines } from './measured-words.ts';
import { counterWords } from './panel-words.ts';
import { PLAN_JSON_VERSION, type PlanJson, type TreeJson } from './plan-json-schema.ts';
import { foldsOf, totalsOf } from './totals.ts';
import { usesAcrossJson, usesJson } from './uses-json.ts';

type ClothJson = PlanJson['cloths'][number];
type LengthOfClothJson = ClothJson['lengths'][number];

/** A cut plan as the documented, versioned document of `plan-json-schema.ts`. The same plan gives the same document. */
export function planJson(cutPlan: CutPlan): PlanJson {
  const { plan } = cutPlan;
  const say = sayings(plan);
  const totals = totalsOf(cutPlan);
  return {
    format: 'laywright cut plan',
    version: PLAN_JSON_VERSION,
    name: plan.name,
    ...(plan.note !== undefined && { note: plan.note }),
    unit: plan.unit,
    ticksPerMillimetre: 320,
    rulerMark: say.length(plan.rulerMark),
    currency: plan.currency,
    pieces: cutPlan.pieces.map((piece) => pieceJson(piece, say)),
    joined: joinedJson(cutPlan, say),
    stacks: (cutPlan.stacks ?? []).map((stack) => ({
      ...stack,
      layers: stack.layers.map((layer) => ({ ...layer })),
      extraBought: [...stack.extraBought],
      words: wordStack(cutPlan, stack),
    })),
    makes: cutPlan.makes.map((sheet) => ({
      order: sheet.order,
      make: sheet.make,
      title: sheet.title,
      count: sheet.count,
      finished: say.size(sheet.finished),
      ...(sheet.loose && { loose: sheet.loose }),
      arithmetic: sheet.arithmetic.map((line) => arithmeticText(line, plan)),
      assembly: [...sheet.assembly],
      ...(sheet.openings && { openings: { ...sheet.openings } }),
    })),
    ...(cutPlan.choice !== undefined && { choice: choiceJson(cutPlan.choice, say) }),
    cloths: cutPlan.cloths.map((clothPlan) => clothJson(cutPlan, clothPlan, say)),
    totals: {
      pieces: totals.pieces,
      cuts: totals.cuts,
      folds: totals.folds,
      remnants: totals.remnants,
      ...(totals.cost !== undefined && { cost: say.money(totals.cost) }),
    },
    ...(cutPlan.uses && { uses: usesJson(cutPlan.uses, plan) }),
    ...(cutPlan.usesAcross && { usesAcross: usesAcrossJson(cutPlan.usesAcross, plan) }),
    remarks: cutPlan.issues.map((issue) => remarkJson(issue, plan)),
    ...(plan.cupboard && { cupboard: cupboardJson(cutPlan, plan.cupboard) }),
  };
}

/** The text of `plan.json`. */
export function writePlanJson(cutPlan: CutPlan): string {
  return writeJson(planJson(cutPlan));
}

/** `front, across: 18 + 2 × 1/2 = 19`, lengths in the plan's unit, which is not repeated. */
export function arithmeticText(line: ArithmeticLine, plan: Pick<Plan, 'unit'>): string {
  return `${line.what}: ${termsText(line, plan)}`;
}

/** The same without what it is the sum of. */
export function termsText({ terms }: ArithmeticLine, plan: Pick<Plan, 'unit'>): string {
  const style = { unit: plan.unit, withUnit: false } as const;
  return joinTerms(terms.map((term) => (typeof term === 'string' ? term : formatLength(term.ticks, style))));
}

/** Brackets close round what they hold. */
export function joinTerms(terms: readonly string[]): string {
  return terms.join(' ').replace(/\( /g, '(').replace(/ \)/g, ')');
}

type Sayings = ReturnType<typeof sayings>;

function sayings(plan: Plan) {
  const style = { unit: plan.unit } as const;
  const length = (value: Ticks) => ({ ticks: value, shown: formatLength(value, style) });
  return {
    length,
    size: (size: Size) => ({
      width: length(size.width),
      length: length(size.length),
      shown: formatSize(size, style),
    }),
    buy: (value: Ticks) => formatBuy(value, style),
    money: (hundredths: number) => ({ hundredths, shown: formatMoney(hundredths, plan.currency) }),
  };
}

function pieceJson(piece: PieceWanted, say: Sayings): PlanJson['pieces'][number] {
  return {
    id: piece.id,
    letter: piece.letter,
    name: piece.name,
    order: piece.order,
    cloth: piece.cloth,
    copies: piece.copies,
    cutSize: say.size(piece.size),
    exactSize: say.size(piece.exactSize),
    ...(piece.washesTo && { washesTo: say.size(piece.washesTo) }),
    grain: piece.grain,
    ...(piece.opening && { opening: piece.opening }),
    ...(piece.panel && { panel: piece.panel.name }),
    ...(piece.mount && {
      mount: { as: piece.mount.as, panel: piece.mount.panel, makes: say.size(piece.mount.makes) },
    }),
  };
}

function joinedJson(cutPlan: CutPlan, say: Sayings): PlanJson['joined'] {
  const orders = joinOrders(cutPlan);
  return cutPlan.joined.map(({ piece, copies, columns, rows, parts }, index) => ({
    piece: piece.id,
    letter: piece.letter,
    cloth: piece.cloth,
    copies,
    cutSize: say.size(piece.size),
    by: piece.join!.by,
    allowance: say.length(piece.join!.allowance),
    columns: columns.map(say.length),
    rows: rows.map(say.length),
    parts: [...parts],
    steps: orders[index]!.steps.map((step) => ({
      first: step.first,
      second: step.second,
      lines: step.lines,
      depth: say.length(step.depth),
      gives: say.size(step.gives),
      words: wordJoin(step, { unit: cutPlan.plan.unit }),
    })),
  }));
}

function clothJson(cutPlan: CutPlan, clothPlan: ClothPlan, say: Sayings): ClothJson {
  const figures = clothFigures(cutPlan, clothPlan);
  const { bound, purchase } = clothPlan;
  return {
    cloth: clothPlan.cloth,
    answer: clothPlan.answer,
    ...(bound !== undefined && { bound: say.length(bound) }),
    ...(purchase !== undefined && {
      purchase: purchaseJson(purchase, say, (bought) => counterWords(cutPlan, clothPlan, [bought])),
    }),
    ...measuredJson(figures.cloth, cutPlan.plan, say),
    surplus: clothPlan.surplus.map(({ piece, copies }) => ({ piece, copies })),
    ...waysJson(clothPlan, say),
    markerEfficiency: hundredthsDown(figures.markerEfficiency),
    utilisation: hundredthsDown(figures.utilisation),
    pieces: [...figures.copies.values()].reduce((total, copies) => total + copies, 0),
    remnants: figures.remnants.map(say.size),
    cuts: figures.strokes,
    folds: foldsOf(clothPlan, figures),
    lengths: clothPlan.lengths.map((length) => ({
      ...lengthJson(cutPlan, length, say, figures.cloth),
      ...panelsJson(cutPlan, figures.cloth, length, say),
    })),
  };
}

/** Only where there is a choice to speak of. */
function waysJson({ ways = [] }: ClothPlan, say: Sayings): Pick<ClothJson, 'ways'> {
  if (ways.length < 2) return {};
  return {
    ways: ways.map(({ lay, bought, cost, strokes, folds, spare, chosen }) => ({
      ...{ lay, chosen, bought: say.length(bought) },
      ...(cost !== undefined && { cost: say.money(cost) }),
      ...{ cuts: strokes, folds, spare },
    })),
  };
}

function measuredJson(cloth: Cloth, plan: Plan, say: Sayings): Pick<ClothJson, 'measured'> {
  if (!cloth.measured) return {};
  const words = measuredLines(cloth, plan);
  const measured = cloth.measured.lengths.map(({ name, width, length, before }, index) => ({
    length: name,
    size: say.size({ width, length }),
    ...(before !== undefined && { before: say.length(before) }),
    words: words[index]!,
  }));
  return { measured };
}

function choiceJson(choice: ClothChoice, say: Sayings): NonNullable<PlanJson['choice']> {
  const { lots, measure, total, bound } = choice;
  const amount = (value: number) =>
    measure === 'money' ? { cost: say.money(value) } : { length: say.length(ticks(value)) };
  return {
    lots: lots.map(({ order, count, cloths }) => ({ order, count, cloths: { ...cloths } })),
    answer: choiceAnswer(choice),
    total: amount(total),
    bound: amount(bound),
  };
}

function purchaseJson(
  purchase: NonNullable<ClothPlan['purchase']>,
  say: Sayings,
  counterOf: (bought: Ticks) => string,
): NonNullable<ClothJson['purchase']> {
  return {
    needed: say.length(purchase.needed),
    bought: say.length(purchase.bought),
    ...(purchase.cost !== undefined && { cost: say.money(purchase.cost) }),
    lengths: purchase.lengths.map(({ needed, bought }) => ({
      needed: say.length(needed),
      bought: say.length(bought),
      ask: say.buy(bought),
      ...(counterOf(bought) !== '' && { counter: counterOf(bought) }),
    })),
  };
}

function isWithin(box: Box, whole: Box): boolean {
  return box.x0 >= whole.x0 && box.x1 <= whole.x1 && box.y0 >= whole.y0 && box.y1 <= whole.y1;
}

function lengthJson(cutPlan: CutPlan, length: LengthPlan, say: Sayings, cloth: Cloth): LengthOfClothJson {
  const letters = new Map(cutPlan.pieces.map((piece) => [piece.id, piece.letter]));
  const placed: LengthOfClothJson['placed'] = [];
  const leftovers: LengthOfClothJson['leftovers'] = [];
  const kept = toldLeftovers(cloth, length, cutPlan.plan);
  for (const { leaf, box } of walk(length.tree, length.width, length.length).leaves) {
    const size = { width: ticks(box.x1 - box.x0), length: ticks(box.y1 - box.y0) };
    const place = {
      x: say.length(box.x0),
      y: say.length(box.y0),
      width: say.length(size.width),
      length: say.length(size.length),
    };
    if (leaf.kind === 'piece') {
      const { piece, quarterTurns } = leaf;
      placed.push({ piece, letter: letters.get(piece)!, ...place, quarterTurns });
    } else if (leaf.kind !== 'trim' && !kept.some((own) => isWithin(box, own.box))) {
      leftovers.push({ kind: leaf.kind, ...place, shown: say.size(size).shown });
    }
  }
  for (const { box, size } of kept) {
    leftovers.push({
      ...{ kind: 'remnant', x: say.length(box.x0), y: say.length(box.y0) },
      ...{ width: say.length(ticks(box.x1 - box.x0)), length: say.length(ticks(box.y1 - box.y0)) },
      shown: say.size(size).shown,
    });
  }
  return {
    name: length.name,
    source: length.source,
    width: say.length(length.width),
    length: say.length(length.length),
    lay:
      length.lay.kind === 'flat'
        ? { kind: 'flat' }
        : { kind: 'folded', foldAt: say.length(length.lay.foldAt) },
    ...(length.oneSpread && { oneSpread: length.oneSpread }),
    ...beginJson(length, cutPlan.plan, say),
    tree: treeJson(length.tree, say),
    placed,
    leftovers,
    ...stepsJson(cutPlan, cloth, length, say),
  };
}

function beginJson(length: LengthPlan, plan: Plan, say: Sayings): Pick<LengthOfClothJson, 'begins'> {
  const { begins } = length;
  if (!begins) return {};
  const { within, motif, column } = begins;
  return {
    begins: {
      within: say.length(within),
      ...(motif !== undefined && { motif: say.length(motif) }),
      ...(column !== undefined && { column: say.length(column) }),
      words: whatBeginTakes(length, plan)!,
    },
  };
}

function stepsJson(
  cutPlan: CutPlan,
  cloth: Cloth,
  length: LengthPlan,
  say: Sayings,
): Pick<LengthOfClothJson, 'turnFirst' | 'endToTest' | 'foldFirst' | 'upToMark' | 'steps'> {
  const letters = new Map(cutPlan.pieces.map((piece) => [piece.id, piece.letter]));
  const inStack = stackOf(cutPlan, cloth.name, length.name);
  const told = inStack ? (inStack.leads ? stackSteps(cutPlan, inStack.stack) : []) : undefined;
  // A stack is told to be squared before anything else.
  const test = inStack ? undefined : endToTest(cloth, length);
  const steps = told ?? stepsOfLength(cutPlan, cloth.name, length);
  const fold = foldFirst(length, cutPlan.plan);
  const mark = upToMark(cloth, steps);
  const turn = turnFirst(cloth, length);
  return {
    ...(turn !== undefined && { turnFirst: turn }),
    ...(test !== undefined && { endToTest: test }),
    ...(fold !== undefined && { foldFirst: fold }),
    ...(mark !== undefined && { upToMark: mark }),
    steps: steps.map((step) => {
      const { todo, spread, frees } = wordStep(step, cutPlan.plan, letters);
      const { number, action, blade, settings, measures, squareAfter, oneByOne } = step;
      const { plies, reachFolds, mirrorAt } = step.spread;
      return {
        ...{ number, action, blade, plies, reachFolds },
        ...(step.begins && { begins: true as const }),
        ...(mirrorAt !== undefined && { mirrorAt: say.length(mirrorAt) }),
        settings: settings.map(say.length),
        ...(measures && { measures: [...measures] }),
        ...(squareAfter !== undefined && { squareAfter }),
        ...(oneByOne !== undefined && { oneByOne }),
        passes: step.strokes,
        ...{ todo, spread, frees },
      };
    }),
  };
}

function panelsJson(
  cutPlan: CutPlan,
  cloth: Cloth,
  length: LengthPlan,
  say: Sayings,
): Pick<LengthOfClothJson, 'panels'> {
  const panels = panelsOf(cutPlan, cloth, length);
  if (panels.length === 0) return {};
  return {
    panels: panels.map(({ name, box, turned, state, piece }) => ({
      name,
      x: say.length(box.x0),
      y: say.length(box.y0),
      width: say.length(ticks(box.x1 - box.x0)),
      length: say.length(ticks(box.y1 - box.y0)),
      quarterTurns: turned,
      state,
      ...(piece !== undefined && { piece }),
    })),
  };
}

function treeJson(tree: CutTree<PieceId>, say: Sayings): TreeJson {
  switch (tree.kind) {
    case 'cut':
      return {
        kind: 'cut',
        direction: tree.direction,
        at: tree.at.map(say.length),
        parts: tree.parts.map((part) => treeJson(part, say)),
      };
    case 'piece':
      return { kind: 'piece', piece: tree.piece, quarterTurns: tree.quarterTurns };
    case 'trim':
      return { kind: 'trim', of: tree.of };
    default:
      return { kind: tree.kind };
  }
}

function remarkJson(issue: Issue, plan: Plan): PlanJson['remarks'][number] {
  return {
    code: issue.code,
    severity: issue.severity === 'note' ? 'note' : 'warning',
    path: [...issue.path],
    message: wordIssue(issue, plan.unit),
  };
}

function hundredthsDown(perCent: number): number {
  return Math.floor(perCent * 100) / 100;
}
