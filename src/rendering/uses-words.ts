import type { LengthInHand } from '../model/cloth.ts';
import type { CutPlan } from '../model/cut-plan.ts';
import type { ClothUses, LeftoverUse, MoreToBuy, UseAcross } from '../model/leftover-use.ts';
import type { Size } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import { usableSize } from '../planning/put-back.ts';
import { formatBuy, formatLength, formatMoney, formatSize } from '../units/format.ts';
import { floorTo, type Ticks } from '../units/ticks.ts';
import { edgeWords } from './left-words.ts';

/** All that wording needs of a plan or of a cupboard. */
export type Worded = Pick<Plan, 'unit' | 'currency' | 'rulerMark'>;

export type UseRow = readonly [what: string, words: string];

/** What one cloth leaves, what that could become, and what a little more of it would give; a row each. */
export function useRows(own: ClothUses, plan: Worded): readonly UseRow[] {
  return [
    ['Left', leftWords(own, plan)],
    ...gathered(own.uses).map((uses): UseRow => [uses[0]!.wish.name, usesWords(uses, own, plan)]),
    ...(own.together ? [['All together', togetherWords(own, plan)] as const] : []),
    ...(own.uses.length === 0 && own.left.length > 0 ? [['Gives', 'nothing that was tried'] as const] : []),
    ...own.more.map((more): UseRow => [moreName(more, plan), moreWords(more, own, plan)]),
  ];
}

export interface UsePart {
  readonly title: string;
  readonly rows: readonly UseRow[];
}

/** What every cloth leaves under its name, and after that what several of them give together. */
export function useParts(
  uses: readonly ClothUses[],
  plan: Worded,
  across: readonly UseAcross[] = [],
): readonly UsePart[] {
  const own = uses.map((each) => ({ title: each.cloth.name, rows: useRows(each, plan) }));
  if (across.length === 0) return own;
  return [...own, { title: 'Of several cloths', rows: across.map((use) => acrossRow(use, plan)) }];
}

/** `covers | 2 of 16 x 16 in: front from gull stripe, backs from oat linen, worth $9.00`. */
function acrossRow(use: UseAcross, plan: Worded): UseRow {
  const worth = use.worth > 0 ? `, worth ${formatMoney(use.worth, plan.currency)}` : '';
  const joined = use.joined ? ', joined' : '';
  return [
    use.wish.name,
    `${countWords(use)} of ${sizeWords(use.finished, plan)}${joined}: ${lotsOf(use).join('; ')}${worth}`,
  ];
}

/** Which part comes from which cloth; where that differs, for how many. */
function lotsOf({ plan: { plan, choice }, count }: UseAcross): readonly string[] {
  const lots = choice?.lots ?? [{ count, cloths: plan.makes[0]!.cloths }];
  return lots.map(({ cloths, count: of }) => {
    const words = Object.entries(cloths).map(([part, cloth]) => `${part} from ${cloth}`);
    return `${lots.length > 1 ? `${of} with ` : ''}${words.join(', ')}`;
  });
}

/** Uses of one make in usual sizes are told as one, `or` between them; what the maker named stands by itself. */
function gathered(uses: readonly LeftoverUse[]): readonly (readonly LeftoverUse[])[] {
  const rows: LeftoverUse[][] = [];
  for (const use of uses) {
    const row = rows.find(
      ([first]) => use.source === 'usual' && first?.source === 'usual' && first.wish.make === use.wish.make,
    );
    if (row) row.push(use);
    else rows.push([use]);
  }
  return rows;
}

/** Usual sizes of one make that are told before the rest are only counted. */
const MOST_SIZES = 4;

function usesWords(uses: readonly LeftoverUse[], own: ClothUses, plan: Worded): string {
  const [first, ...others] = uses;
  const words = others
    .slice(0, MOST_SIZES - 1)
    .map((use) => `or ${countWords(use)} of ${sizeWords(use.finished, plan)}`);
  const rest = others.length - words.length;
  const more = rest > 0 ? [`${rest} more ${rest === 1 ? 'size fits' : 'sizes fit'}`] : [];
  return [firstWords(first!, own, plan), ...words, ...more].join('; ');
}

function firstWords(use: LeftoverUse, { left }: ClothUses, plan: Worded): string {
  const worth = use.worth > 0 ? `, worth ${formatMoney(use.worth, plan.currency)}` : '';
  const joined = use.joined ? ', joined' : '';
  const from = use.from.length < left.length ? ` from ${listed(use.from)}` : '';
  const share = `${Math.floor(use.takes)} % of what is left`;
  return `${countWords(use)} of ${sizeWords(use.finished, plan)}${joined}${from}${worth} (${share})`;
}

function countWords({ count, proven }: Pick<LeftoverUse, 'count' | 'proven'>): string {
  return `${proven ? '' : 'at least '}${count}`;
}

function listed(names: readonly string[]): string {
  return names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
}

function leftWords({ left, cloth, uses }: ClothUses, plan: Worded): string {
  const matched = uses.some(({ wish }) => wish.matches);
  if (left.length === 0) return 'nothing large enough to keep';
  return left
    .map(({ name, size }) => {
      const edged = cloth.inHand.find((own) => own.name === name) ?? cloth;
      const usable = sizeWords(usableSize({ ...size, selvedge: edged.selvedge }), plan);
      const edges = edgeWords(edged, plan);
      const motif = matched ? motifWords(cloth.inHand, name, plan) : '';
      return `${name}, ${usable}${edges === '' ? '' : ` and ${edges}`}${motif}`;
    })
    .join('; ');
}

/** Where the print of a leftover begins, as far as that is known; told where something is matched to it. */
function motifWords(inHand: readonly LengthInHand[], name: string, plan: Worded): string {
  const own = inHand.find((each) => each.name === name);
  const [along, across] = [own?.firstMotif, own?.motifFromEdge];
  const say = (value: Ticks) => formatLength(floorTo(value, plan.rulerMark), plan);
  const places = [
    ...(across === undefined ? [] : [`${say(across)} from its left edge`]),
    ...(along === undefined ? [] : [`${say(along)} from its near end`]),
  ];
  return places.length === 0 ? '' : ` (a motif ${places.join(' and ')})`;
}

function togetherWords({ together }: ClothUses, plan: Worded): string {
  const uses = together!.uses.map(
    ({ wish, count, finished }) => `${wish.name}: ${count} of ${sizeWords(finished, plan)}`,
  );
  const worth = together!.worth > 0 ? `, worth ${formatMoney(together!.worth, plan.currency)}` : '';
  return `${uses.join('; ')}${worth}`;
}

function moreName({ more }: MoreToBuy, plan: Worded): string {
  return more === 0 ? 'No more cloth' : `${formatBuy(more, plan)} more`;
}

function moreWords(
  { wish, count, without, finished, cost, more, alone }: MoreToBuy,
  own: ClothUses,
  plan: Worded,
): string {
  const place =
    without > 0 ? `instead of ${without}` : `instead of ${own.left.length === 0 ? 'scrap' : 'none'}`;
  const gives = `${wish.name}: ${count} of ${sizeWords(finished, plan)} ${place}`;
  if (more === 0) return `${gives}, if planned together with the rest`;
  const price = cost === undefined ? '' : `, for ${formatMoney(cost, plan.currency)}`;
  const worth = (wish.worth ?? 0) * (count - without);
  const gain = worth === 0 ? '' : `, worth ${formatMoney(worth, plan.currency)} more`;
  return `${gives}${price}${gain} (by ${count - without === 1 ? 'itself it takes' : 'themselves they take'} ${formatBuy(alone, plan)})`;
}

/** What is left is measured down to a mark of the ruler. */
function sizeWords({ width, length }: Size, { unit, rulerMark }: Worded): string {
  return formatSize({ width: floorTo(width, rulerMark), length: floorTo(length, rulerMark) }, { unit });
}

/** The plan that makes most of what a cloth leaves: several uses together, else the best; undefined where there is none. */
export function bestUsePlan({ together, uses }: ClothUses): CutPlan | undefined {
  return together?.plan ?? uses[0]?.plan;
}
