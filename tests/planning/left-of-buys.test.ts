import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { makes } from '../../src/makes/catalogue.ts';
import type { Plan } from '../../src/model/plan.ts';
import { readPlan } from '../../src/model/plan-file.ts';
import { compareBuys } from '../../src/planning/compare-buys.ts';
import { clothFigures } from '../../src/planning/figures.ts';
import { makeCutPlan } from '../../src/planning/plan.ts';
import { clothOf, inches, loose, planOf } from './build.ts';

const PACK = { effort: 20_000, seed: 1 };

function layout(name: string): Plan {
  const text = readFileSync(new URL(`../../layouts/${name}/plan.yaml`, import.meta.url), 'utf8');
  const outcome = readPlan(text, { file: name, makes: makes.map(({ spec }) => spec) });
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  return outcome.value;
}

/** What a plan leaves of each cloth that is bought, and what a buy of just as much says that the same pieces leave. */
function bothWays({ wishes: _, ...plan }: Plan) {
  const outcome = makeCutPlan(plan, PACK);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  const cutPlan = outcome.value;
  return cutPlan.cloths.flatMap((clothPlan) => {
    const cloth = cutPlan.plan.cloths.find(({ name }) => name === clothPlan.cloth)!;
    const pieces = cutPlan.pieces.filter((piece) => piece.cloth === cloth.name);
    const [only, second] = clothPlan.purchase?.lengths ?? [];
    if (!only || second) return [];
    const set = new Map(pieces.map(({ id, copies }) => [id, copies] as const));
    const compared = compareBuys(cutPlan.plan, cloth, pieces, { pack: PACK, lengths: [only.bought], set });
    const [buy] = compared?.buys ?? [];
    if (buy?.sets !== 1) return [];
    const { remnants } = clothFigures(cutPlan, clothPlan);
    const area = remnants.reduce((sum, { width, length }) => sum + width * length, 0);
    const [largest] = remnants.map(({ width, length }) => ({ width, length }));
    return [{ planned: { area, largest }, bought: { area: buy.keepableArea, largest: buy.largestLeftover } }];
  });
}

describe('a buy of just what the plan buys leaves what the plan leaves', () => {
  it.each([
    ['breakfast-room', 3],
    ['lookout-bedroom', 2],
    ['pantry-leftovers', 2],
    ['one-yard-against-two', 1],
    ['garden-room', 3],
    ['linen-room-washed', 1],
    ['parlour-matched', 1],
    ['landing-folded', 1],
    ['cupboard-lengths', 0],
  ])('%s', (name, least) => {
    const cloths = bothWays(layout(name));
    expect(cloths.length).toBeGreaterThanOrEqual(least);
    for (const { planned, bought } of cloths) expect(bought).toEqual(planned);
  });

  it('and of more, so much more at its far end', () => {
    const own = { selvedge: { left: inches(1), right: inches(0.5) }, squaring: inches(0.5) };
    const mats = { ...loose('mat', 38, 11, 2), grain: 'lengthwise' } as const;
    const plan = planOf([clothOf({ width: inches(40), direction: 'one-way', ...own })], [mats]);
    const cutPlan = makeCutPlan(plan, PACK);
    if (!cutPlan.ok) throw new Error('no plan');
    const { pieces } = cutPlan.value;
    const compared = compareBuys(plan, plan.cloths[0]!, pieces, {
      pack: PACK,
      lengths: [inches(36), inches(40.5)],
      set: new Map(pieces.map(({ id, copies }) => [id, copies] as const)),
    });
    // By hand: two rows of 11 in and two squared ends of 1/2 in leave 36 - 23 = 13 in across the whole 38 1/2 in usable; of
    // 40 1/2 in they leave 17 1/2 in.
    const left = (length: number) => ({ width: inches(38.5), length: inches(length) });
    expect(compared!.buys.map(({ sets }) => sets)).toEqual([1, 1]);
    expect(compared!.buys.map(({ largestLeftover }) => largestLeftover)).toEqual([left(13), left(17.5)]);
    expect(compared!.buys.map(({ keepableArea }) => keepableArea)).toEqual(
      [13, 17.5].map((length) => inches(38.5) * inches(length)),
    );
  });
});
