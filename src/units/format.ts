import {
  floorTo,
  greatestCommonDivisor,
  TICKS_PER_CM,
  TICKS_PER_INCH,
  TICKS_PER_METRE,
  TICKS_PER_MM,
  TICKS_PER_YARD,
  type Ticks,
  ticks,
} from './ticks.ts';

export interface LengthStyle {
  readonly unit: 'in' | 'cm';
  /** `glyph` writes `17⅜`, where the font has the sign; `plain` writes `17 3/8`. Default `plain`. */
  readonly fractions?: 'plain' | 'glyph';
  /** False leaves the unit off, for tables and drawings that name it once. Default true. */
  readonly withUnit?: boolean;
}

/** A typeface's own signs for halves, quarters and eighths. */
export const FRACTION_GLYPHS: Readonly<Record<string, string>> = {
  '1/8': '⅛',
  '1/4': '¼',
  '3/8': '⅜',
  '1/2': '½',
  '5/8': '⅝',
  '3/4': '¾',
  '7/8': '⅞',
};

/** The finest fraction that is printed: the finest mark on any common inch rule. */
const FINEST_INCH = TICKS_PER_INCH / 64;
/** A hundredth of a millimetre. */
const FINEST_METRIC = ticks(TICKS_PER_MM / 10);

/**
 * Writes a length in the user's unit: inches in simplest fractions down to 1/64, centimetres in decimals down to 0.01 cm.
 * A length between those marks is written as `just over` the mark below it, never as the mark itself.
 */
export function formatLength(length: Ticks, style: LengthStyle): string {
  const finest = ticks(style.unit === 'in' ? FINEST_INCH : FINEST_METRIC);
  if (length < 0) return `-${formatLength(ticks(-length), style)}`;
  const shown = floorTo(length, finest);
  const number =
    style.unit === 'in' ? mixedFraction(shown, TICKS_PER_INCH, style) : decimal(shown, TICKS_PER_CM);
  const hedge = shown === length ? '' : 'just over ';
  return `${hedge}${number}${unitSuffix(style, style.unit)}`;
}

/** Whether a length is written as it is, not as `just over` a mark. */
export function isWrittenWhole(length: Ticks, { unit }: LengthStyle): boolean {
  return length % (unit === 'in' ? FINEST_INCH : FINEST_METRIC) === 0;
}

/** Writes `18 x 24 in` (`18 × 24 in` with glyphs): width first, the unit once. */
export function formatSize(
  size: { readonly width: Ticks; readonly length: Ticks },
  style: LengthStyle,
): string {
  const sign = style.fractions === 'glyph' ? '×' : 'x';
  return formatPair(size.width, sign, size.length, style);
}

/** Writes `1 + 1/2 in`: the visible depth, then what is turned under. */
export function formatHem(
  hem: { readonly visible: Ticks; readonly under: Ticks },
  style: LengthStyle,
): string {
  return formatPair(hem.visible, '+', hem.under, style);
}

function formatPair(first: Ticks, sign: string, second: Ticks, style: LengthStyle): string {
  return `${formatLength(first, { ...style, withUnit: false })} ${sign} ${formatLength(second, style)}`;
}

/**
 * Writes a length as it is asked for at the counter: `1 3/8 yd` (halves, thirds and sixteenths of a yard) or `1.3 m` (whole centimetres).
 * A length on none of these is written out as yards and inches, or in centimetres.
 */
export function formatBuy(length: Ticks, style: LengthStyle): string {
  if (style.unit === 'cm') {
    if (length % TICKS_PER_CM !== 0) return formatLength(length, style);
    return `${decimal(length, TICKS_PER_METRE)}${unitSuffix(style, 'm')}`;
  }
  if (length % (TICKS_PER_YARD / 16) === 0 || length % (TICKS_PER_YARD / 3) === 0) {
    return `${mixedFraction(length, TICKS_PER_YARD, style)}${unitSuffix(style, 'yd')}`;
  }
  const yards = floorTo(length, ticks(TICKS_PER_YARD));
  const inches = formatLength(ticks(length - yards), { ...style, withUnit: true });
  return yards === 0 ? inches : `${yards / TICKS_PER_YARD} yd ${inches}`;
}

/** Writes hundredths of a currency's unit: `$14.80`, `EUR 14.80`, `14.80` where no currency is given. */
export function formatMoney(hundredths: number, currency: string): string {
  const amount = `${Math.trunc(hundredths / 100)}.${String(Math.abs(hundredths % 100)).padStart(2, '0')}`;
  if (currency === '') return amount;
  return /^\p{L}/u.test(currency) ? `${currency} ${amount}` : `${currency}${amount}`;
}

/** A whole multiple of a fraction of the unit as a mixed number in lowest terms. Length in ticks, zero or more. */
function mixedFraction(length: Ticks, unit: number, style: LengthStyle): string {
  const whole = Math.floor(length / unit);
  const rest = length - whole * unit;
  if (rest === 0) return String(whole);
  const divisor = greatestCommonDivisor(rest, unit);
  const fraction = `${rest / divisor}/${unit / divisor}`;
  const glyph = style.fractions === 'glyph' ? FRACTION_GLYPHS[fraction] : undefined;
  if (glyph !== undefined) return whole === 0 ? glyph : `${whole}${glyph}`;
  return whole === 0 ? fraction : `${whole} ${fraction}`;
}

/** A length as an exact decimal number of the unit (10^k × 320 ticks), without trailing zeros. */
function decimal(length: Ticks, unit: number): string {
  const whole = Math.floor(length / unit);
  let digits = '';
  let rest = length - whole * unit;
  for (let place = 0; place < 8 && rest !== 0; place += 1) {
    digits += String(Math.floor((rest * 10) / unit));
    rest = (rest * 10) % unit;
  }
  return digits === '' ? String(whole) : `${whole}.${digits}`;
}

function unitSuffix(style: LengthStyle, unit: string): string {
  return style.withUnit === false ? '' : ` ${unit}`;
}
