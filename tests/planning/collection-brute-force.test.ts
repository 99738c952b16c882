import { describe, expect, it } from 'vitest';
import { checkPlan } from '../../src/check/check-plan.ts';
import { expandMakes } from '../../src/makes/expand.ts';
import type { ClothRules } from '../../src/model/collection.ts';
import { NO_RULES } from '../../src/model/collection.ts';
import type { Plan } from '../../src/model/plan.ts';
import { shortestLength } from '../../src/packing/pack.ts';
import { seededRandom } from '../../src/packing/search/random.ts';
import { makeCutPlan } from '../../src/planning/plan.ts';
import { planOfText } from '../support/collection-plan.ts';

const SEEDS = Array.from({ length: 40 }, (_, index) => index + 1);

/**
 * Every way to give every part of every single thing a cloth is tried, each way's rules are read off the things
 * themselves, and each cloth's length is packed exactly. The planner, which knows of no single thing, must find the same
 * least money and prove it.
 */
describe('the choice of cloths is the best of all', () => {
  let [withChoice, withoutChoice] = [0, 0];

  it.each(SEEDS)('random collection %i', (seed) => {
    const plan = planOfText(randomText(seed));
    const least = leastMoney(plan);
    const outcome = makeCutPlan(plan, { effort: 120_000, seed: 5 });
    if (least === undefined) {
      withoutChoice += 1;
      expect(outcome.issues.map(({ code }) => code)).toEqual(['no-choice']);
      return;
    }
    withChoice += 1;
    if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
    expect(checkPlan(outcome.value)).toEqual([]);
    expect(outcome.value.choice).toMatchObject({ measure: 'money', total: least, bound: least });
  });

  it('was asked of plans with a choice and of plans without one', () => {
    expect(withChoice).toBeGreaterThan(20);
    expect(withoutChoice).toBeGreaterThan(1);
  });
});

const NAMES = ['gull grey', 'kelp', 'foam'];

/** Mats of one or two orders, some lined, and ties, from three cloths of random width, print, price and step. */
function randomText(seed: number): string {
  const random = seededRandom(seed);
  const pick = <T>(...options: readonly T[]): T => options[random.below(options.length)]!;
  const cloths = NAMES.map((name, index) => {
    const price = (700 + 90 * index + random.below(400)) / 100;
    const direction = pick('plain', 'one-way');
    return `  ${name}: { width: ${31 + random.below(12)}, selvedge: 1/2, direction: ${direction}, price: ${price} per yd, buy: { step: ${pick('4 1/2', '9')} } }`;
  });
  const some = () => `[${pick(NAMES, NAMES.slice(0, 2), NAMES.slice(1), [NAMES[0]!, NAMES[2]!]).join(', ')}]`;
  const rules = () => {
    const own = [
      ...(random.below(3) === 0 ? ['one cloth: [front]'] : []),
      ...(random.below(5) === 0 ? ['alike: [front, lining]'] : []),
      ...(random.below(3) === 0 ? ['unlike: [front, lining]'] : []),
      ...(random.below(4) === 0 ? ['no cloth twice: [front]'] : []),
    ];
    return `{ ${own.join(', ')} }`;
  };
  const inSet = random.below(2) === 0;
  const orders = Array.from({ length: 1 + random.below(2) }, (_, index) => {
    const cloth = pick(
      some(),
      `{ front: ${some()} }`,
      `{ front: ${some()}, lining: ${some()} }`,
      `{ front: ${some()}, lining: ${some()} }`,
    );
    const bound = inSet ? 'set: room' : `rules: ${rules()}`;
    return `  - { name: mats ${index}, kind: place-mat, count: ${1 + random.below(3)}, size: ${9 + random.below(9)} x 14, cloth: ${cloth}, ${bound} }`;
  });
  const ties = `pieces: [{ name: tie, count: ${1 + random.below(3)}, size: ${3 + random.below(9)} x ${8 + random.below(14)}, cloth: ${some()} }]`;
  return [
    'plan: Random',
    'unit: in',
    'cloths:',
    ...cloths,
    ...(inSet ? [`sets: { room: ${rules()} }`] : []),
    'make:',
    ...orders,
    ...(random.below(2) === 0 ? [ties] : []),
  ].join('\n');
}

/** One part of one single thing. */
interface Slot {
  readonly order: string;
  readonly thing: number;
  readonly part: string;
  readonly cloths: readonly string[];
}

/** Undefined where no way keeps the rules. */
function leastMoney(plan: Plan): number | undefined {
  const slots = slotsOf(plan);
  const packed = packer(plan);
  const chosen: string[] = [];
  let least: number | undefined;
  const next = (): void => {
    const slot = slots[chosen.length];
    if (slot === undefined) {
      const keeps = plan.makes.every((order) => keepsRules(plan, order.name, slots, chosen));
      if (!keeps) return;
      const money = plan.cloths.reduce((total, { name }) => {
        const own = slots.filter((_, index) => chosen[index] === name);
        return total + packed(name, own);
      }, 0);
      if (least === undefined || money < least) least = money;
      return;
    }
    // Loose pieces are all alike: which of them gets which cloth is the same.
    const before = slots[chosen.length - 1];
    const from =
      before?.order === slot.order && slot.part === 'piece' ? slot.cloths.indexOf(chosen.at(-1)!) : 0;
    for (const cloth of slot.cloths.slice(from)) {
      chosen.push(cloth);
      next();
      chosen.pop();
    }
  };
  next();
  return least;
}

function slotsOf(plan: Plan): readonly Slot[] {
  const made = plan.makes.flatMap(({ name, count, cloths, choices }) =>
    Array.from({ length: count }, (_, thing) =>
      Object.entries(cloths).map(
        ([part, cloth]): Slot => ({ order: name, thing, part, cloths: choices?.[part] ?? [cloth] }),
      ),
    ).flat(),
  );
  const loose = plan.pieces.flatMap(({ name, count, cloth, choices }) =>
    Array.from(
      { length: count },
      (_, thing): Slot => ({ order: name, thing, part: 'piece', cloths: choices ?? [cloth] }),
    ),
  );
  return [...made, ...loose];
}

function keepsRules(plan: Plan, order: string, slots: readonly Slot[], chosen: readonly string[]): boolean {
  const set = plan.sets?.find(({ orders }) => orders.includes(order)) ?? { orders: [order], rules: NO_RULES };
  const rules: ClothRules = set.rules;
  const fronts = slots.flatMap((slot, index) =>
    set.orders.includes(slot.order) && slot.part === 'front' ? [chosen[index]!] : [],
  );
  if (rules.oneCloth.includes('front') && new Set(fronts).size > 1) return false;
  const countsOnce = rules.oneCloth.includes('front');
  if (rules.noClothTwice.includes('front') && !countsOnce && new Set(fronts).size < fronts.length)
    return false;
  const made = plan.makes.find(({ name }) => name === order)!;
  for (let thing = 0; thing < made.count; thing++) {
    const of = (part: string) =>
      slots.findIndex((own) => own.order === order && own.thing === thing && own.part === part);
    const [front, lining] = [chosen[of('front')], chosen[of('lining')]];
    if (front === undefined || lining === undefined) continue;
    if (rules.alike.length > 0 && front !== lining) return false;
    if (rules.unlike.length > 0 && front === lining) return false;
  }
  return true;
}

/** Money of what is bought of one cloth for some parts, each question packed once and exactly. */
function packer(plan: Plan): (cloth: string, slots: readonly Slot[]) => number {
  const known = new Map<string, number>();
  const sizes = new Map(
    expandMakes(plan).pieces.map((piece) => [`${piece.order}/${piece.name}`, piece.size] as const),
  );
  return (name, slots) => {
    const key = `${name}: ${slots
      .map(({ order, part }) => `${order}/${part}`)
      .sort()
      .join()}`;
    const before = known.get(key);
    if (before !== undefined) return before;
    const cloth = plan.cloths.find((own) => own.name === name)!;
    const kinds = slots.map(({ order, part }) => {
      const size = sizes.get(`${order}/${part === 'piece' ? order : part}`)!;
      return { ...size, copies: 1, quarterTurn: cloth.direction === 'plain' && size.width !== size.length };
    });
    const width = cloth.width - cloth.selvedge.left - cloth.selvedge.right;
    const sheet = { width, length: Number.POSITIVE_INFINITY };
    const result = shortestLength({ sheet, kinds }, { effort: 300_000, seed: 1 });
    if (slots.length > 0 && result.status !== 'best') throw new Error(`${key}: ${result.status}`);
    const length = slots.length === 0 || result.status !== 'best' ? 0 : result.value;
    const bought = Math.ceil(length / cloth.buy!.step) * cloth.buy!.step;
    // Half up, as a till rounds.
    const money = Math.round((cloth.price!.hundredths * bought) / cloth.price!.per);
    known.set(key, money);
    return money;
  };
}
