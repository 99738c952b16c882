import type { ClothUses, LeftoverUse, MoreToBuy, UseAcross } from '../model/leftover-use.ts';
import type { Size } from '../model/piece.ts';
import { usableSize } from '../planning/put-back.ts';
import { formatBuy, formatLength, formatMoney, formatSize } from '../units/format.ts';
import type { Ticks } from '../units/ticks.ts';
import { writeJson } from './json-text.ts';
import { planJson } from './plan-json.ts';
import type { PlanJson } from './plan-json-schema.ts';
import type { Worded } from './uses-words.ts';

type UsesJson = NonNullable<PlanJson['uses']>;
type OneUse = Pick<LeftoverUse, 'wish' | 'source' | 'finished' | 'count'>;

/** What the leftovers could become, as it stands in `plan.json`: figures and words, without the plans that cut it. */
export function usesJson(uses: readonly ClothUses[], plan: Worded): UsesJson {
  const say = sayings(plan);
  return uses.map((own) => ({
    cloth: own.cloth.name,
    left: own.left.map(({ name, size, from }) => ({
      name,
      size: say.size(size),
      usable: say.size(usableOf(own, name, size)),
      ...motifOf(own, name, say),
      ...(from && { of: from.length, x: say.length(from.box.x0), y: say.length(from.box.y0) }),
    })),
    uses: own.uses.map((use) => useJson(use, say)),
    ...(own.together && {
      together: {
        uses: own.together.uses.map((use) => whatJson(use, say)),
        worth: say.money(own.together.worth),
      },
    }),
    more: own.more.map((more) => moreJson(more, say)),
  }));
}

/** Parts from several cloths, in figures and words. */
export function usesAcrossJson(
  across: readonly UseAcross[],
  plan: Worded,
): NonNullable<PlanJson['usesAcross']> {
  const say = sayings(plan);
  return across.map((use) => ({
    ...whatJson(use, say),
    proven: use.proven,
    joined: use.joined,
    from: use.from.map(({ cloth, lengths }) => ({ cloth, lengths: [...lengths] })),
    worth: say.money(use.worth),
  }));
}

function motifOf({ cloth }: ClothUses, name: string, say: Sayings) {
  const own = cloth.inHand.find((each) => each.name === name);
  return {
    ...(own?.motifFromEdge !== undefined && { motifAcross: say.length(own.motifFromEdge) }),
    ...(own?.firstMotif !== undefined && { motifAlong: say.length(own.firstMotif) }),
  };
}

function usableOf({ cloth }: ClothUses, name: string, size: Size): Size {
  return usableSize({ ...(cloth.inHand.find((own) => own.name === name) ?? cloth), ...size });
}

/** The answer of the command: the same, and every use and addition with the plan that cuts it. */
export function writeUsesJson(
  name: string,
  uses: readonly ClothUses[],
  plan: Worded,
  across: readonly UseAcross[] = [],
): string {
  return writeJson({
    format: 'laywright uses',
    version: 1,
    of: name,
    currency: plan.currency,
    cloths: usesJson(uses, plan).map((told, index) => {
      const own = uses[index]!;
      return {
        ...told,
        uses: told.uses.map((use, at) => ({ ...use, plan: planJson(own.uses[at]!.plan) })),
        ...(told.together && { together: { ...told.together, plan: planJson(own.together!.plan) } }),
        more: told.more.map((more, at) => ({ ...more, plan: planJson(own.more[at]!.plan) })),
      };
    }),
    ...(across.length > 0 && {
      across: usesAcrossJson(across, plan).map((told, at) => ({ ...told, plan: planJson(across[at]!.plan) })),
    }),
  });
}

type Sayings = ReturnType<typeof sayings>;

function sayings(plan: Worded) {
  const length = (value: Ticks) => ({ ticks: value, shown: formatLength(value, plan) });
  return {
    length,
    size: (size: Size) => ({
      width: length(size.width),
      length: length(size.length),
      shown: formatSize(size, plan),
    }),
    buy: (value: Ticks) => ({ ticks: value, shown: formatBuy(value, plan) }),
    money: (hundredths: number) => ({ hundredths, shown: formatMoney(hundredths, plan.currency) }),
  };
}

function whatJson({ wish, source, finished, count }: OneUse, say: Sayings) {
  return { name: wish.name, make: wish.make, source, finished: say.size(finished), count };
}

function useJson(use: LeftoverUse, say: Sayings): UsesJson[number]['uses'][number] {
  return {
    ...whatJson(use, say),
    proven: use.proven,
    joined: use.joined,
    from: [...use.from],
    takes: Math.floor(use.takes * 100) / 100,
    worth: say.money(use.worth),
  };
}

function moreJson(own: MoreToBuy, say: Sayings): UsesJson[number]['more'][number] {
  return {
    ...whatJson(own, say),
    without: own.without,
    more: say.buy(own.more),
    alone: say.buy(own.alone),
    ...(own.cost !== undefined && { cost: say.money(own.cost) }),
  };
}
