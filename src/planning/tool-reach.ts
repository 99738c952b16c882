import type { Cloth } from '../model/cloth.ts';
import type { Tools } from '../model/plan.ts';
import type { Ticks } from '../units/ticks.ts';

/** What is at hand for one cloth: the tools, and whether a long cut of it may be torn. */
export interface ToolsOnCloth extends Tools {
  /** Tearing is welcome, and this cloth tears along its threads. */
  readonly tears?: true;
}

/** With what a cut is made. A `tear` is snipped at its setting and torn along the thread, in a single ply. */
export type Blade = 'rotary' | 'scissors' | 'tear';

/** By what a setting is measured: read off the ruler's width, off the grid of the mat, or off a tape. */
export type MeasuredBy = 'ruler' | 'mat' | 'tape';

/** The tools as they serve one cloth. Tearing follows a thread, so only cloth that is told to tear true is torn. */
export function toolsOn(tools: Tools, cloth: Pick<Cloth, 'tearsTrue'> | undefined): ToolsOnCloth {
  const welcome = tools.longCuts === 'tear' || tools.longCuts === 'tear-or-scissors';
  return welcome && cloth?.tearsTrue ? { ...tools, tears: true } : tools;
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
