import { TICKS_PER_INCH, type Ticks, ticks } from '../../units/ticks.ts';
import type { Issue } from '../issue.ts';
import type { Plan } from '../plan.ts';
import type { WrittenPlan } from './plan-definition.ts';
import type { WrittenTree } from './written-tree.ts';

/** What can be planned as it is written, and was hardly meant so: a warning each. */
export function doubtsOf(plan: Plan, written: WrittenPlan, tree: WrittenTree): readonly Issue[] {
  return [
    ...unusedCloths(plan, tree),
    ...unusedSets(written, tree),
    ...unlikelyWidths(plan, tree),
    ...unlikelyTools(written, tree),
  ];
}

function unusedCloths(plan: Plan, tree: WrittenTree): readonly Issue[] {
  const used = new Set([
    ...plan.makes.flatMap(({ cloths, choices = {}, panels = {} }) => [
      ...Object.values(cloths),
      ...Object.values(choices).flat(),
      ...Object.values(panels).flatMap(({ mount }) => (mount ? [mount.cloth] : [])),
    ]),
    ...plan.pieces.flatMap(({ cloth, choices = [], panel }) => [
      ...[cloth, ...choices],
      ...(panel?.mount ? [panel.mount.cloth] : []),
    ]),
  ]);
  return plan.cloths
    .filter((cloth) => !used.has(cloth.name))
    .map(({ name }): Issue => {
      const path = ['cloths', name];
      const place = tree.placeOf(path, 'key');
      return { code: 'unused-cloth', severity: 'warning', path, place, details: { cloth: name } };
    });
}

/** Sets that no order belongs to: their rules bind nothing, which is hardly what they were written for. */
function unusedSets({ sets = {}, make = [] }: WrittenPlan, tree: WrittenTree): readonly Issue[] {
  const used = new Set(make.map((order) => (order as { readonly set?: string }).set));
  return Object.keys(sets)
    .filter((name) => !used.has(name))
    .map((set): Issue => {
      const path = ['sets', set];
      const place = tree.placeOf(path, 'key');
      return { code: 'unused-set', severity: 'warning', path, place, details: { set } };
    });
}

/** Less than any ruler or mat for a rotary cutter measures (common practice, no published source). */
const LEAST_TOOL = ticks(4 * TICKS_PER_INCH);

/** A ruler or a mat so short that hardly any cut could be guided by it: very likely the ruler's mark, or another unit. */
function unlikelyTools({ tools }: WrittenPlan, tree: WrittenTree): readonly Issue[] {
  const told = (key: 'ruler length' | 'mat', found: Ticks | undefined): readonly Issue[] => {
    if (found === undefined || found >= LEAST_TOOL) return [];
    const path = ['tools', key];
    const details = { found, least: LEAST_TOOL, isMat: key === 'mat' };
    return [
      { code: 'unlikely-tool', severity: 'warning', path, place: tree.placeOf(path, 'value'), details },
    ];
  };
  const mat = tools?.mat && ticks(Math.min(tools.mat.width, tools.mat.length));
  return [...told('ruler length', tools?.['ruler length']), ...told('mat', mat)];
}

/** The widest cloth that is usually sold, by common practice (no published source): curtain sheers and quilt backings. */
const WIDEST = ticks(120 * TICKS_PER_INCH);

/** In a plan in inches, a bolt wider than any is woven: very likely its width in centimetres. */
function unlikelyWidths({ unit, cloths }: Plan, tree: WrittenTree): readonly Issue[] {
  return cloths
    .filter(({ width, buy }) => unit === 'in' && buy && width > WIDEST)
    .map(({ name, width }): Issue => {
      const path = ['cloths', name, 'width'];
      const details = { cloth: name, width, widest: WIDEST };
      return {
        code: 'unlikely-width',
        severity: 'warning',
        path,
        place: tree.placeOf(path, 'value'),
        details,
      };
    });
}
