import { TICKS_PER_CM, TICKS_PER_INCH, TICKS_PER_MM, type Ticks, ticks } from '../units/ticks.ts';
import type { ClothRules, ClothSet } from './collection.ts';
import type { Cupboard } from './cupboard.ts';
import { type CupboardDraw, drawFromCupboard } from './cupboard-draw.ts';
import { foldedAtCreases } from './fold-at-crease.ts';
import type { Issue, Outcome } from './issue.ts';
import type { MakeSpec } from './measure.ts';
import { withMeasured } from './measured-cloth.ts';
import type { MakeOrder, Plan, PlanUnit } from './plan.ts';
import { toCloth } from './reading/cloth-checks.ts';
import { resolved, toRules, type WrittenRules } from './reading/cloth-choice-fields.ts';
import { doubtsOf } from './reading/doubts.ts';
import type { ReadingContext } from './reading/fields.ts';
import { inFileOrder } from './reading/file-order.ts';
import { toGoods } from './reading/goods-fields.ts';
import { toJoinRule } from './reading/join-fields.ts';
import { largerFaults } from './reading/larger-checks.ts';
import { toOrder } from './reading/make-fields.ts';
import { nameIssues } from './reading/name-checks.ts';
import { panelsAskedFaults } from './reading/panel-checks.ts';
import { settlePanelChoices } from './reading/panel-choices.ts';
import { planDefinition, USUAL_RULER, type WrittenPlan } from './reading/plan-definition.ts';
import { readSource } from './reading/source.ts';
import { toWish } from './reading/wish-fields.ts';
import { type Written, type WrittenTree, writtenTree } from './reading/written-tree.ts';
import { issuesOf, valueAt } from './reading/zod-issues.ts';

export interface ReadPlanOptions {
  /** Named in every message; never opened. */
  readonly file: string;
  readonly makes: readonly MakeSpec[];
  /** What lies in the cupboard, where one is named. */
  readonly cupboard?: Cupboard;
}

/**
 * Reads a plan file strictly:
 *
 *   text ──readSource──▶ YAML nodes ──writtenTree──▶ text in maps and lists ──planDefinition──▶ values in ticks ──assemble──▶ plan
 *
 * All problems come at once, in the order of the file, each with its line, column and path.
 */
export function readPlan(text: string, options: ReadPlanOptions): Outcome<Plan> {
  const { source, issues } = readSource(text, options.file);
  if (source === undefined) return { ok: false, issues };
  const tree = writtenTree(source);
  const context = contextOf(tree);
  // Used once and thrown away, so compiling it is wasted work, and pages may forbid it.
  const read = planDefinition(options.makes, context).safeParse(tree.root, { jitless: true });
  const problems = inFileOrder([
    ...tree.issues,
    ...nameIssues(tree),
    ...(read.success ? [] : issuesOf(read.error.issues, tree)),
  ]);
  if (problems.length > 0 || !read.success) return { ok: false, issues: problems };
  const written = assemble(read.data, options.makes, context);
  const { plan: inHand, issues: drawn } = drawFromCupboard(written, drawsOf(read.data), options.cupboard);
  const { plan: open, issues: measured } = withMeasured(inHand, read.data.cloths);
  const { plan: laid, issues: folded } = foldedAtCreases(open);
  const plan = settlePanelChoices(laid);
  const placed = [...drawn, ...measured, ...folded, ...panelsAskedFaults(plan), ...largerFaults(plan)].map(
    (issue): Issue => ({ ...issue, place: tree.placeOf(issue.path, 'value') }),
  );
  const told = inFileOrder([...doubtsOf(open, read.data, tree), ...placed]);
  const failed = told.some((issue) => issue.severity === 'error');
  return failed ? { ok: false, issues: told } : { ok: true, value: plan, issues: told };
}

/** The file of the cupboard that a plan names, as far as that can be made out; it is seen from the plan's own folder. */
export function cupboardNamedIn(text: string): string | undefined {
  const { source } = readSource(text, '');
  const named = source && valueAt(writtenTree(source).root, ['cupboard']);
  return typeof named === 'string' ? named : undefined;
}

/** What each cloth draws from the cupboard. */
function drawsOf(written: WrittenPlan): readonly CupboardDraw[] {
  return Object.entries(written.cloths).flatMap(([cloth, { lengths = [] }]) =>
    lengths.flatMap((length, index) =>
      (['from cupboard', 'all from cupboard'] as const).flatMap((key): readonly CupboardDraw[] => {
        const name = length[key];
        if (name === undefined) return [];
        const takes = key === 'from cupboard' ? 'entry' : 'every-entry-of';
        return [{ cloth, takes, name, path: ['cloths', cloth, 'lengths', index, key] }];
      }),
    ),
  );
}

/** What every value's meaning hangs on, taken from the text before anything is checked. */
function contextOf(tree: WrittenTree): ReadingContext {
  const cloths = valueAt(tree.root, ['cloths']);
  const currency = valueAt(tree.root, ['currency']);
  const sets = valueAt(tree.root, ['sets']);
  const isMap = isNamed(cloths);
  return {
    unit: valueAt(tree.root, ['unit']) === 'cm' ? 'cm' : 'in',
    currency: typeof currency === 'string' ? currency : '',
    ...(isMap && Object.keys(cloths).length > 0
      ? { clothNames: Object.keys(cloths), groupNames: groupsOf(cloths) }
      : {}),
    setNames: isNamed(sets) ? Object.keys(sets) : [],
  };
}

function isNamed(value: Written | undefined): value is { readonly [name: string]: Written } {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** Every group that a cloth names, however well the rest of it is written. */
function groupsOf(cloths: { readonly [name: string]: Written }): readonly string[] {
  const groups = Object.values(cloths).flatMap((cloth) => (isNamed(cloth) ? cloth.groups : undefined) ?? []);
  return [...new Set(groups.filter((group) => typeof group === 'string'))];
}

interface UnitDefaults {
  readonly rulerMark: Ticks;
  readonly paper: Plan['paper'];
  readonly keep: Ticks;
  readonly rulerLength: Ticks;
}

const DEFAULTS: Readonly<Record<PlanUnit, UnitDefaults>> = {
  in: {
    rulerMark: ticks(TICKS_PER_INCH / 8),
    paper: 'letter',
    keep: ticks(6 * TICKS_PER_INCH),
    rulerLength: USUAL_RULER.in,
  },
  cm: {
    rulerMark: ticks(TICKS_PER_MM),
    paper: 'a4',
    keep: ticks(15 * TICKS_PER_CM),
    rulerLength: USUAL_RULER.cm,
  },
};

function assemble(written: WrittenPlan, makes: readonly MakeSpec[], context: ReadingContext): Plan {
  const usual = DEFAULTS[context.unit];
  const makeOf = (kind: string) => makes.find((make) => make.kind === kind)!;
  const rulerMark = written.ruler ?? usual.rulerMark;
  const cloths = Object.entries(written.cloths).map(([name, cloth]) => toCloth(name, cloth, rulerMark));
  const orders = (written.make ?? []).map((order) =>
    toOrder(order, makeOf(order.kind), { ...context, cloths }),
  );
  const sets = setsOf(written, orders);
  return {
    name: written.plan,
    ...(written.note !== undefined && { note: written.note }),
    unit: written.unit,
    rulerMark,
    paper: written.paper ?? usual.paper,
    currency: written.currency ?? '',
    keep: written.keep ?? { width: usual.keep, length: usual.keep },
    stages: written.stages === undefined || written.stages === 'any' ? 'any' : written.stages === '2' ? 2 : 3,
    tools: toTools(written, usual),
    ...stackRule(written),
    cloths,
    makes: orders,
    pieces: (written.pieces ?? []).map(({ join, match, panel, cloth, 'on fold': onFold, ...piece }) => {
      const choices = resolved(cloth, cloths);
      return {
        ...piece,
        cloth: choices[0]!,
        ...(choices.length > 1 && { choices }),
        grain: piece.grain ?? 'either',
        ...(join && { join: toJoinRule(join, context.unit) }),
        ...(match && { match }),
        ...(panel && { panel }),
        ...(onFold && { onFold }),
      };
    }),
    ...(sets.length > 0 && { sets }),
    ...((written['from leftovers'] ?? []).length > 0 && {
      wishes: written['from leftovers']!.map((wish) =>
        toWish(wish, makeOf(wish.kind), { ...context, cloths, rules: toRules(written.rules) }),
      ),
    }),
    ...(written['leftover worth'] !== undefined && { leftoverWorth: written['leftover worth'] }),
    ...((written.goods ?? []).length > 0 && { goods: written.goods!.map(toGoods) }),
  };
}

function toTools({ tools, ruler }: WrittenPlan, usual: UnitDefaults): Plan['tools'] {
  const rulerWidth = tools?.['ruler width'];
  const longCuts = tools?.['long cuts'];
  return {
    rulerLength: tools?.['ruler length'] ?? usual.rulerLength,
    rulerMark: ruler ?? usual.rulerMark,
    mostPlies: Number(tools?.['most plies'] ?? '4') as 1 | 2 | 4,
    ...(rulerWidth !== undefined && { rulerWidth }),
    ...(tools?.mat !== undefined && { mat: tools.mat }),
    ...(longCuts !== undefined && {
      longCuts: longCuts === 'tear or scissors' ? ('tear-or-scissors' as const) : longCuts,
    }),
  };
}

/** Sets with an open part, or with rules; an order that names none is a set of its own. */
function setsOf(written: WrittenPlan, orders: readonly MakeOrder[]): readonly ClothSet[] {
  const sets = new Map<string, { orders: string[]; rules: ClothRules }>();
  for (const [index, order] of orders.entries()) {
    const own = written.make![index] as { readonly set?: string; readonly rules?: WrittenRules };
    const name = own.set ?? order.name;
    // A set that is declared may bear the name of an order that does not belong to it.
    const key = own.set === undefined ? `order ${name}` : `set ${name}`;
    const declared = own.set === undefined ? own.rules : written.sets?.[own.set];
    const hasOwn = declared !== undefined && Object.values(declared).some((rule) => rule !== undefined);
    const set = sets.get(key) ?? { orders: [], rules: toRules(hasOwn ? declared : written.rules) };
    set.orders.push(order.name);
    sets.set(key, set);
  }
  return [...sets].flatMap(([key, { orders: names, rules }]) => {
    const bound = Object.values(rules).some((rule) => rule.length > 0);
    return bound ? [{ name: key.replace(/^(?:order|set) /, ''), orders: names, rules }] : [];
  });
}

/** Left out where nothing is said of stacks: then they are taken where free, at the left edges. */
function stackRule(written: WrittenPlan): Pick<Plan, 'stacks'> {
  if (written.stacks === undefined && written['stack edge'] === undefined) return {};
  const take =
    written.stacks === undefined || written.stacks === 'where free' ? 'where-free' : written.stacks;
  return { stacks: { take, edge: written['stack edge'] ?? 'left' } };
}
