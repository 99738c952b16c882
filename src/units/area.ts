import { TICKS_PER_CM, TICKS_PER_INCH, TICKS_PER_METRE, TICKS_PER_YARD, type Ticks } from './ticks.ts';

/** Square ticks, a whole number; exact in a double up to 87 000 m². */
export type SquareTicks = number & { readonly __unit: 'square tick' };

/** Throws where the product would no longer be exact. */
export function areaOf(size: { readonly width: Ticks; readonly length: Ticks }): SquareTicks {
  return squareTicks(size.width * size.length);
}

export function squareTicks(count: number): SquareTicks {
  if (!Number.isSafeInteger(count)) throw new RangeError(`not a whole number of square ticks: ${count}`);
  return count as SquareTicks;
}

/**
 * Writes an area: square inches below a square yard, square yards from there; square centimetres and square metres likewise.
 * Two decimals at most, rounded to the nearest: areas inform, nothing is cut by them.
 */
export function formatArea(area: number, style: { readonly unit: 'in' | 'cm' }): string {
  const [small, smallName, large, largeName] =
    style.unit === 'in'
      ? ([TICKS_PER_INCH, 'sq in', TICKS_PER_YARD, 'sq yd'] as const)
      : ([TICKS_PER_CM, 'cm²', TICKS_PER_METRE, 'm²'] as const);
  const [unit, name] = area < large * large ? [small, smallName] : [large, largeName];
  return `${twoDecimals(area / (unit * unit))} ${name}`;
}

/**
 * Writes `part` of `whole` in per cent with one decimal, rounded down, so that 100 % means all of it.
 * Both in the same unit; `whole` > 0.
 */
export function formatPercent(part: number, whole: number): string {
  if (!(whole > 0)) throw new RangeError(`no whole to take a part of: ${whole}`);
  const thousandths = Number((BigInt(part) * 1000n) / BigInt(whole));
  return `${Math.floor(thousandths / 10)}.${Math.abs(thousandths % 10)} %`;
}

function twoDecimals(value: number): string {
  return String(Math.round(value * 100) / 100);
}
