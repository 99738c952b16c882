import type { CutPlan } from '../model/cut-plan.ts';
import type { Issue } from '../model/issue.ts';
import { ticks } from '../units/ticks.ts';
import { stepsOfLength } from './stack-steps.ts';
import { isWelcome } from './tool-reach.ts';

/** Every cloth with cuts that had to be named in a way the maker does not welcome. */
export function beyondReach(cutPlan: CutPlan): readonly Issue[] {
  const { tools } = cutPlan.plan;
  const { longCuts } = tools;
  if (longCuts !== 'tear' && longCuts !== 'neither') return [];
  return cutPlan.cloths.flatMap(({ cloth, lengths }): readonly Issue[] => {
    const steps = lengths
      .flatMap((length) => stepsOfLength(cutPlan, cloth, length))
      .filter(({ blade }) => !isWelcome(blade, tools));
    if (steps.length === 0) return [];
    const lines = steps.map(({ action, parts: [part] }) =>
      action === 'crosscut' ? part!.x1 - part!.x0 : part!.y1 - part!.y0,
    );
    const details = {
      cloth,
      cuts: steps.reduce((total, { strokes }) => total + strokes, 0),
      longest: ticks(Math.max(...lines)),
      welcome: longCuts,
    };
    return [{ code: 'beyond-reach', severity: 'warning', path: ['cloths', cloth], details }];
  });
}
