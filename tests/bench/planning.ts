/**
 * `npm run bench:planning`: what planning questions take beside a plain plan, cloth by cloth, of the same cutting, in the
 * same run. Counts and ratios, so that they can be compared between machines.
 *
 * ```
 * --effort N      search nodes per cloth (400000)
 * --ladder N      search nodes a buy, as `laywright buys` has it (40000)
 * --repeats N     how often each is timed; the least counts (3)
 * --only WORD     only the questions whose heading has that word
 * ```
 */
import { readFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { makes } from '../../src/makes/catalogue.ts';
import type { CutPlan } from '../../src/model/cut-plan.ts';
import type { MakeOrder, Plan } from '../../src/model/plan.ts';
import { readPlan } from '../../src/model/plan-file.ts';
import { widthAtRisk } from '../../src/planning/at-risk.ts';
import { chooseCloths } from '../../src/planning/collection/choose-cloths.ts';
import { compareBuys } from '../../src/planning/compare-buys.ts';
import { compareWholePlan } from '../../src/planning/compare-whole.ts';
import { usesOfLeftovers } from '../../src/planning/leftovers/uses-of.ts';
import { wantedOf } from '../../src/planning/named-set.ts';
import { DEFAULT_EFFORT, makeCutPlan } from '../../src/planning/plan.ts';

const { values } = parseArgs({
  options: {
    effort: { type: 'string', default: String(DEFAULT_EFFORT) },
    ladder: { type: 'string', default: '40000' },
    repeats: { type: 'string', default: '3' },
    only: { type: 'string', default: '' },
  },
});
const options = { effort: Number(values.effort), seed: 1 };
const pack = { effort: Number(values.ladder), seed: 1 };

type Rows = readonly (readonly [what: string, figure: string | number])[];

/** The plan of a layout. */
function layout(name: string): Plan {
  const file = new URL(`../../layouts/${name}/plan.yaml`, import.meta.url);
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

const ratio = (question: { milliseconds: number }, plain: { milliseconds: number }) =>
  (question.milliseconds / plain.milliseconds).toFixed(2);
const seconds = ({ milliseconds }: { milliseconds: number }) => `${(milliseconds / 1000).toFixed(2)} s`;

function cutPlanOf(plan: Plan): CutPlan {
  const outcome = makeCutPlan(plan, options);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  return outcome.value;
}

/** Forty covers over ten cloths with one for all backs. */
function manyCloths(): Rows {
  const plan = layout('five-rooms-two-colourways');
  const plain = timed(() => makeCutPlan(withoutChoice(plan), options));
  const choosing = timed(() => chooseCloths(plan, new Map(), options));
  const whole = timed(() => makeCutPlan(plan, options));
  if (!plain.value.ok || !choosing.value.ok || !whole.value.ok) throw new Error('a plan of the bench failed');
  const { choice } = whole.value.value;
  const things = plan.makes.reduce((total, { count }) => total + count, 0);
  return [
    ['things to sew', things],
    ['cloths to choose from', choosing.value.value.cloths.length],
    ['total, hundredths', choice!.total],
    ['proven bound, hundredths', choice!.bound],
    ['total above bound', `${((100 * (choice!.total - choice!.bound)) / choice!.bound).toFixed(2)} %`],
    ['choosing alone, times a plain plan', ratio(choosing, plain)],
    ['whole plan, times a plain plan', ratio(whole, plain)],
    ['whole plan on this machine', seconds(whole)],
    ['a plain plan on this machine', seconds(plain)],
  ];
}

/** Sixteen buys of each cloth, and what all cloths together allow. */
function ladder(): Rows {
  const plan = layout('breakfast-room');
  const plain = timed(() => cutPlanOf(plan));
  const cut = plain.value;
  let first = Number.POSITIVE_INFINITY;
  const climb = () => {
    const start = performance.now();
    return cut.cloths.map(({ cloth: name, purchase }) => {
      const cloth = plan.cloths.find((own) => own.name === name)!;
      const pieces = cut.pieces.filter((piece) => piece.cloth === name);
      const onBuy = () => {
        first = Math.min(first, performance.now() - start);
      };
      return compareBuys(plan, cloth, pieces, { pack, reach: purchase!.bought, onBuy })!;
    });
  };
  const compared = timed(climb);
  const whole = timed(() => compareWholePlan(cut, wantedOf(plan), { pack }));
  const buys = compared.value.flatMap((own) => own.buys);
  return [
    ['cloths', compared.value.length],
    ['buys', buys.length],
    [
      'of them with a proven number of sets',
      buys.filter(({ sets, setsAtMost }) => sets === setsAtMost).length,
    ],
    ['ladders, times a plain plan', ratio(compared, plain)],
    ['first row, times a plain plan', ratio({ milliseconds: first }, plain)],
    ['all cloths together, times a plain plan', ratio(whole, plain)],
    ['ladders on this machine', seconds(compared)],
    ['a plain plan on this machine', seconds(plain)],
  ];
}

/** The exact need of every cloth as it turns out narrower. */
function width(): Rows {
  const plan = layout('breakfast-room');
  const rows: (readonly [string, string | number])[] = [];
  for (const cloth of plan.cloths) {
    const single = { ...plan, cloths: [cloth], makes: [], pieces: [] };
    const pieces = cutPlanOf(plan).pieces.filter((piece) => piece.cloth === cloth.name);
    const loose = pieces.map(({ id, copies, size, grain }) => ({
      ...{ name: id, count: copies, size, grain },
      cloth: cloth.name,
    }));
    const plain = timed(() => cutPlanOf({ ...single, pieces: loose }));
    const risk = timed(() => widthAtRisk(plan, cloth, pieces, pack)!);
    const { steps } = risk.value;
    const proven = steps.filter((step) => step.proven).length;
    rows.push([`${cloth.name}: steps, of them proven`, `${steps.length}, ${proven}`]);
    rows.push([`${cloth.name}: times a plain plan`, ratio(risk, plain)]);
    rows.push([`${cloth.name}: on this machine`, seconds(risk)]);
  }
  return rows;
}

/** What leftovers could become, of the maker's list and of the usual sizes. */
function uses(): Rows {
  const { wishes, ...plan } = layout('pantry-leftovers');
  const plain = timed(() => cutPlanOf(plan));
  const cut = { ...plain.value, plan: { ...plan, ...(wishes && { wishes }) } };
  const share = { effort: Math.ceil(options.effort / 20), seed: 1 };
  const planned = (asked: Plan) => {
    const outcome = makeCutPlan(asked, share);
    return outcome.ok ? outcome.value : undefined;
  };
  const ask = (withUsual: boolean) => timed(() => usesOfLeftovers(cut, { ...share, withUsual, planned }));
  const [listed, all] = [ask(false), ask(true)];
  const count = (found: typeof listed) =>
    found.value.reduce((total, own) => total + own.uses.length + own.more.length, 0);
  return [
    ['uses and additions of the list', count(listed)],
    ['with the usual sizes', count(all)],
    ['of the list, times a plain plan', ratio(listed, plain)],
    ['with the usual sizes, times a plain plan', ratio(all, plain)],
    ['a plain plan on this machine', seconds(plain)],
  ];
}

const QUESTIONS = [
  ['Many cloths at once: five rooms in two colourways', manyCloths],
  ['Ladder of sixteen buys: the breakfast room', ladder],
  ['Width at risk: each cloth of the breakfast room', width],
  ['Uses of leftovers: the pantry', uses],
] as const;

for (const [heading, ask] of QUESTIONS) {
  if (!heading.toLowerCase().includes(values.only.toLowerCase())) continue;
  console.log(heading);
  for (const [what, figure] of ask()) console.log(`  ${what.padEnd(44)}${figure}`);
}
