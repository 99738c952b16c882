import { TICKS_PER_CM, TICKS_PER_INCH, TICKS_PER_MM, type Ticks, ticks } from '../units/ticks.ts';
import type { Issue, Outcome } from './issue.ts';
import type { MakeSpec } from './measure.ts';
import type { Plan, PlanUnit } from './plan.ts';
import { toCloth } from './reading/cloth-checks.ts';
import type { ReadingContext } from './reading/fields.ts';
import { inFileOrder } from './reading/file-order.ts';
import { toJoinRule } from './reading/join-fields.ts';
import { toOrder } from './reading/make-fields.ts';
import { nameIssues } from './reading/name-checks.ts';
import { planDefinition, type WrittenPlan } from './reading/plan-definition.ts';
import { readSource } from './reading/source.ts';
import { type WrittenTree, writtenTree } from './reading/written-tree.ts';
import { issuesOf, valueAt } from './reading/zod-issues.ts';

export interface ReadPlanOptions {
  /** Named in every message; never opened. */
  readonly file: string;
  readonly makes: readonly MakeSpec[];
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
  const plan = assemble(read.data, options.makes, context);
  return { ok: true, value: plan, issues: inFileOrder(unusedCloths(plan, tree)) };
}

/** What every value's meaning hangs on, taken from the text before anything is checked. */
function contextOf(tree: WrittenTree): ReadingContext {
  const cloths = valueAt(tree.root, ['cloths']);
  const currency = valueAt(tree.root, ['currency']);
  const isMap = typeof cloths === 'object' && cloths !== null && !Array.isArray(cloths);
  return {
    unit: valueAt(tree.root, ['unit']) === 'cm' ? 'cm' : 'in',
    currency: typeof currency === 'string' ? currency : '',
    ...(isMap && Object.keys(cloths).length > 0 ? { clothNames: Object.keys(cloths) } : {}),
  };
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
    rulerLength: ticks(24 * TICKS_PER_INCH),
  },
  cm: {
    rulerMark: ticks(TICKS_PER_MM),
    paper: 'a4',
    keep: ticks(15 * TICKS_PER_CM),
    rulerLength: ticks(60 * TICKS_PER_CM),
  },
};

function assemble(written: WrittenPlan, makes: readonly MakeSpec[], context: ReadingContext): Plan {
  const usual = DEFAULTS[context.unit];
  const makeOf = (kind: string) => makes.find((make) => make.kind === kind)!;
  return {
    name: written.plan,
    unit: written.unit,
    rulerMark: written.ruler ?? usual.rulerMark,
    paper: written.paper ?? usual.paper,
    currency: written.currency ?? '',
    keep: written.keep ?? { width: usual.keep, length: usual.keep },
    stages: written.stages === undefined || written.stages === 'any' ? 'any' : written.stages === '2' ? 2 : 3,
    tools: {
      rulerLength: written.tools?.['ruler length'] ?? usual.rulerLength,
      mostPlies: Number(written.tools?.['most plies'] ?? '4') as 1 | 2 | 4,
    },
    cloths: Object.entries(written.cloths).map(([name, cloth]) => toCloth(name, cloth)),
    makes: (written.make ?? []).map((order) => toOrder(order, makeOf(order.kind), context)),
    pieces: (written.pieces ?? []).map(({ join, ...piece }) => ({
      ...piece,
      grain: piece.grain ?? 'either',
      ...(join && { join: toJoinRule(join, context.unit) }),
    })),
  };
}

function unusedCloths(plan: Plan, tree: WrittenTree): readonly Issue[] {
  const used = new Set([
    ...plan.makes.flatMap((order) => Object.values(order.cloths)),
    ...plan.pieces.map((piece) => piece.cloth),
  ]);
  return plan.cloths
    .filter((cloth) => !used.has(cloth.name))
    .map(({ name }): Issue => {
      const path = ['cloths', name];
      const place = tree.placeOf(path, 'key');
      return { code: 'unused-cloth', severity: 'warning', path, place, details: { cloth: name } };
    });
}
