import type { Cloth } from '../../model/cloth.ts';
import type { ClothPlan } from '../../model/cut-plan.ts';
import type { Size } from '../../model/piece.ts';
import type { Plan } from '../../model/plan.ts';
import { formatBuy, formatLength, formatMoney, formatSize, type LengthStyle } from '../../units/format.ts';
import { floorTo, type Ticks } from '../../units/ticks.ts';
import { DIRECTION_WORDS } from '../direction-words.ts';
import { perCentTold } from '../per-cent.ts';
import { widthWords } from '../wash-words.ts';

/** How lengths are written on printed pages: the typeface has the eighths. */
export const styleOf = ({ unit }: Pick<Plan, 'unit'>): LengthStyle => ({ unit, fractions: 'glyph' });

/** What the maker measures is told down to a mark of the ruler; cut sizes lie on one already. */
type Marked = Pick<Plan, 'unit' | 'rulerMark'>;

export const lengthWords = (length: Ticks, plan: Marked): string =>
  formatLength(floorTo(length, plan.rulerMark), styleOf(plan));

export const sizeWords = ({ width, length }: Size, plan: Marked): string =>
  formatSize(
    { width: floorTo(width, plan.rulerMark), length: floorTo(length, plan.rulerMark) },
    styleOf(plan),
  );

export const clothWords = (cloth: Cloth, plan: Plan): string =>
  `${cloth.washing?.widthFromWashed || cloth.measured ? widthWords(cloth, styleOf(plan)) : `${lengthWords(cloth.width, plan)} wide`}, ${DIRECTION_WORDS[cloth.direction]}`;

/** `Buy 2½ yd`, `Use blue quarter 1, long end`; both where both are needed. */
export function getWords(clothPlan: ClothPlan, plan: Plan): string[] {
  const { purchase, lengths } = clothPlan;
  const asked = alike((purchase?.lengths ?? []).map(({ bought }) => formatBuy(bought, styleOf(plan))));
  const used = lengths.filter(({ source }) => source === 'in-hand').map(({ name }) => name);
  return [...(asked ? [`Buy ${asked}`] : []), ...(used.length > 0 ? [`Use ${used.join(', ')}`] : [])];
}

/** `1.5 m and 3 × 1.1 m`: lengths that are alike counted, in the order in which they first come. */
function alike(lengths: readonly string[]): string {
  const counts = new Map<string, number>();
  for (const length of lengths) counts.set(length, (counts.get(length) ?? 0) + 1);
  return [...counts].map(([length, count]) => (count === 1 ? length : `${count} × ${length}`)).join(' and ');
}

export function costWords(clothPlan: ClothPlan, plan: Plan): string | undefined {
  const cost = clothPlan.purchase?.cost;
  return cost === undefined ? undefined : formatMoney(cost, plan.currency);
}

export const counted = (count: number, one: string, many = `${one}s`): string =>
  `${count} ${count === 1 ? one : many}`;

export const perCent = (value: number): string => `${perCentTold(value)}\u00a0%`;
