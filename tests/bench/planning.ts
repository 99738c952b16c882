/**
 * `npm run bench:planning`: what planning questions take beside a plain plan, cloth by cloth, of the same cutting, in the
 * same run. Counts and ratios, so that they can be compared between machines.
 *
 * ```
 * --effort N      search nodes per cloth (400000)
 * --repeats N     how often each is timed; the least counts (3)
 * ```
 */
import { readFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { makes } from '../../src/makes/catalogue.ts';
import type { MakeOrder, Plan } from '../../src/model/plan.ts';
import { readPlan } from '../../src/model/plan-file.ts';
import { chooseCloths } from '../../src/planning/collection/choose-cloths.ts';
import { DEFAULT_EFFORT, makeCutPlan } from '../../src/planning/plan.ts';

const { values } = parseArgs({
  options: {
    effort: { type: 'string', default: String(DEFAULT_EFFORT) },
    repeats: { type: 'string', default: '3' },
  },
});
const options = { effort: Number(values.effort), seed: 1 };

/** The layout of forty covers over ten cloths with one for all backs. */
function collection(): Plan {
  const file = new URL('../../layouts/five-rooms-two-colourways/plan.yaml', import.meta.url);
  const read = readPlan(readFileSync(file, 'utf8'), {
    file: 'plan.yaml',
    makes: makes.map((make) => make.spec),
  });
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  return read.value;
}

/** The same plan with every cloth fixed as it was chosen, one order for each lot. */
function withoutChoice(plan: Plan): Plan {
  const chosen = chooseCloths(plan, new Map(), options);
  if (!chosen.ok) throw new Error(JSON.stringify(chosen.issues));
  const fixed = plan.makes.flatMap(({ choices: _, whole: __, ...order }): readonly MakeOrder[] =>
    chosen.value.lots
      .filter((lot) => lot.order === order.name)
      .map((lot, index) => ({
        ...order,
        name: `${order.name} ${index + 1}`,
        count: lot.count,
        cloths: lot.cloths,
      })),
  );
  const { sets: _, ...rest } = plan;
  return { ...rest, makes: fixed };
}

/** The quickest of several runs, and what it gave. */
function timed<T>(run: () => T): { readonly milliseconds: number; readonly value: T } {
  let best: { readonly milliseconds: number; readonly value: T } | undefined;
  for (let repeat = 0; repeat < Math.max(1, Number(values.repeats)); repeat++) {
    const start = performance.now();
    const value = run();
    const milliseconds = performance.now() - start;
    if (!best || milliseconds < best.milliseconds) best = { milliseconds, value };
  }
  return best!;
}

const plan = collection();
const plain = timed(() => makeCutPlan(withoutChoice(plan), options));
const choosing = timed(() => chooseCloths(plan, new Map(), options));
const whole = timed(() => makeCutPlan(plan, options));
if (!plain.value.ok || !choosing.value.ok || !whole.value.ok) throw new Error('a plan of the bench failed');
const { choice } = whole.value.value;
const things = plan.makes.reduce((total, { count }) => total + count, 0);
const rows = [
  ['things to sew', things],
  ['cloths to choose from', choosing.value.value.cloths.length],
  ['total, hundredths', choice!.total],
  ['proven bound, hundredths', choice!.bound],
  ['total above bound', `${((100 * (choice!.total - choice!.bound)) / choice!.bound).toFixed(2)} %`],
  ['choosing alone, times a plain plan', (choosing.milliseconds / plain.milliseconds).toFixed(2)],
  ['whole plan, times a plain plan', (whole.milliseconds / plain.milliseconds).toFixed(2)],
  ['a plain plan on this machine', `${(plain.milliseconds / 1000).toFixed(1)} s`],
] as const;
console.log('Many cloths at once: five rooms in two colourways');
for (const [what, figure] of rows) console.log(`  ${what.padEnd(38)}${figure}`);
