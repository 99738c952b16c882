import { flawsAsTheyLie } from '../cloth/washing.ts';
import { type Corner, overlapsBox } from '../geometry/outline.ts';
import type { PlainBox } from '../geometry/walk.ts';
import type { Cloth } from '../model/cloth.ts';
import type { LengthPlan } from '../model/cut-plan.ts';
import type { Tools } from '../model/plan.ts';
import type { Ticks } from '../units/ticks.ts';
import { lengthInHand } from './length-in-hand.ts';

/** What is at hand for one cloth: the tools, and whether a long cut of it may be torn. */
export interface ToolsOnCloth extends Tools {
  /** Tearing is welcome, and this cloth tears along its threads. */
  readonly tears?: true;
  /** Outlines of the flaws on the length that is cut, as it lies: a tear runs off at a hole, so none is made there. */
  readonly flaws?: readonly (readonly Corner[])[];
}

/** With what a cut is made. A `tear` is snipped at its setting and torn along the thread, in a single ply. */
export type Blade = 'rotary' | 'scissors' | 'tear';

/** By what a setting is measured: read off the ruler's width, off the grid of the mat, or off a tape. */
export type MeasuredBy = 'ruler' | 'mat' | 'tape';

/**
 * The tools as they serve one length of a cloth. Tearing follows a thread, so only cloth that is told to tear true is torn, and
 * not through a flaw.
 */
export function toolsOn(
  tools: Tools,
  cloth: Cloth | undefined,
  length: Pick<LengthPlan, 'name' | 'source'>,
): ToolsOnCloth {
  const welcome = tools.longCuts === 'tear' || tools.longCuts === 'tear-or-scissors';
  const flaws = cloth ? flawsAsTheyLie(cloth, lengthInHand(cloth, length)) : [];
  const tears = welcome && cloth?.tearsTrue === true;
  return { ...tools, ...(tears && { tears }), ...(flaws.length > 0 && { flaws }) };
}

/** Whether a tear along one of these lines, as the opened cloth lies, would run into a flaw or along it, to the tick. */
export function tearsIntoFlaw(lines: readonly PlainBox<Ticks>[], { flaws = [] }: ToolsOnCloth): boolean {
  return lines.some(({ x0, y0, x1, y1 }) => {
    const beside = x0 === x1 ? { x0: x0 - 1, x1: x1 + 1, y0, y1 } : { x0, x1, y0: y0 - 1, y1: y1 + 1 };
    return flaws.some((outline) => overlapsBox(outline, beside));
  });
}

/** The longest line that the ruler guides as it is laid, with the mat under all of it. In ticks. */
export function bladeReach({ rulerLength, mat }: Tools): number {
  return mat ? Math.min(rulerLength, Math.max(mat.width, mat.length)) : rulerLength;
}

/** Whether the maker is content with such a cut. */
export function isWelcome(blade: Blade, { longCuts = 'scissors' }: Tools): boolean {
  return blade === 'rotary' || longCuts === 'tear-or-scissors' || longCuts === blade;
}

/**
 * How a setting is measured for a cut that is `line` long as it lies under the blade. A setting wider than the ruler is
 * read off the mat where cut and setting both lie on it, the one along its one side and the other along its other; else
 * off a tape. Undefined where the plan does not say how wide the ruler is.
 */
export function measuredBy(setting: Ticks, line: number, { rulerWidth, mat }: Tools): MeasuredBy | undefined {
  if (rulerWidth === undefined) return undefined;
  if (setting <= rulerWidth) return 'ruler';
  if (!mat) return 'tape';
  const lies = (along: Ticks, across: Ticks) => line <= along && setting <= across;
  return lies(mat.length, mat.width) || lies(mat.width, mat.length) ? 'mat' : 'tape';
}
