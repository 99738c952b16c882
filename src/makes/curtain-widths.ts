import { ceilDiv, sum, type Ticks, ticks } from '../units/ticks.ts';
import type { Curtain } from './curtain.ts';
import { takenByHem } from './edges.ts';
import type { Remark } from './make.ts';
import type { Measures } from './measures.ts';
import { error } from './practice.ts';

/** The widths of one curtain. */
export interface CurtainWidths {
  readonly number: number;
  /** Cut width of each. */
  readonly each: Ticks;
  /** Flat width between the side hems that the fullness asks for. */
  readonly asked: Ticks;
  /** Flat width that the joined widths give: `asked` or a little more. */
  readonly flat: Ticks;
  /** Whether `each` was given and not worked out. */
  readonly given: boolean;
}

/**
 * number × each - (number - 1) × 2 × seam allowance - 2 × side hem ≥ finished width × fullness ÷ curtains.
 * With neither given, one whole panel; with one given, the other follows; with both, they must be enough.
 * Without seams and side hems this is the handbook rule: widths = finished width × fullness ÷ usable width, rounded up.
 */
export function settleWidths(
  curtain: Curtain,
  measures: Measures,
): { readonly widths: CurtainWidths; readonly remarks: readonly Remark[] } {
  const { covers, thousandths, curtains, sideHem, allowance } = curtain;
  const asked = ceilDiv(covers * thousandths, 1000 * curtains);
  const sides = ticks(2 * takenByHem(sideHem));
  const seamed = ticks(2 * allowance);
  const count = measures.optionalCount('widths');
  const given = measures.optionalLength('width of each');
  const whole = sum([asked, sides]);
  const widths = (number: number, each: Ticks): CurtainWidths => ({
    number,
    each,
    asked,
    flat: ticks(number * each - (number - 1) * seamed - sides),
    given: given !== undefined,
  });
  if (given === undefined) {
    const number = count ?? 1;
    return { widths: widths(number, ceilDiv(whole + (number - 1) * seamed, number)), remarks: [] };
  }
  if (given <= seamed) return { widths: widths(1, given), remarks: [allSeam(given, allowance)] };
  const needed = Math.max(1, ceilDiv(whole - seamed, given - seamed));
  if (count !== undefined && count < needed) {
    return { widths: widths(count, given), remarks: [tooFew(count, given, needed, asked)] };
  }
  return { widths: widths(count ?? needed, given), remarks: [] };
}

function allSeam(each: Ticks, allowance: Ticks): Remark {
  return error(
    'width of each',
    'Widths of {each} are used up by their seams of {allowance} on each side: cut them wider.',
    { each, allowance },
  );
}

function tooFew(count: number, each: Ticks, needed: number, asked: Ticks): Remark {
  return error(
    'widths',
    'Widths of {each}, {count} to a curtain, do not make its flat width of {asked}: join {needed}, or lessen the fullness.',
    { each, count: String(count), asked, needed: String(needed) },
  );
}
