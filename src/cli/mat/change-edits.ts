import type { Size } from '../../model/piece.ts';
import type { Plan } from '../../model/plan.ts';
import type { PlanEdit } from '../../model/plan-edit.ts';
import { keptOf, type PlanChange } from '../../planning/mat/changes.ts';
import { formatLength } from '../../units/format.ts';
import { TICKS_PER_MM, type Ticks } from '../../units/ticks.ts';

/** Changes of a plan as edits in the text of its file. */
export function editsFor(changes: readonly PlanChange[], plan: Plan): readonly PlanEdit[] {
  return changes.flatMap((change): readonly PlanEdit[] => {
    if (change.kind === 'buy-more')
      return [
        { kind: 'set', at: ['cloths', change.cloth], key: 'buy more', value: 'yes', behind: 'measured' },
      ];
    const { list, index } = change.of;
    const at = [list, index];
    if (change.kind === 'count') {
      if (change.count === 0) return [{ kind: 'drop-item', list, index }];
      return [{ kind: 'set', at, key: 'count', value: String(change.count) }];
    }
    if (change.kind === 'measure') {
      const kept = list === 'make' ? keptOf(plan.makes[index]!, change.measure) : {};
      return [
        { kind: 'set', at, key: change.measure, value: exactly(change.value, plan) },
        ...Object.entries(kept).map(([key, value]): PlanEdit => {
          return { kind: 'set', at, key, value: exactly(value, plan) };
        }),
      ];
    }
    if (change.measure !== undefined)
      return [{ kind: 'set', at, key: change.measure, value: String(change.most) }];
    const join = plan.pieces[index]!.join;
    return join
      ? [{ kind: 'set', at: [...at, 'join'], key: 'most joins', value: String(change.most) }]
      : [{ kind: 'set', at, key: 'join', value: { by: 'seam', 'most joins': String(change.most) } }];
  });
}

/** As the plan's own unit writes it; in millimetres where that would be off by a tick. */
function exactly(value: Size | Ticks, plan: Plan): string {
  if (typeof value === 'number') {
    const told = formatLength(value, { unit: plan.unit, withUnit: false });
    return told.startsWith('just over') ? `${value / TICKS_PER_MM} mm` : told;
  }
  const sides = [value.width, value.length].map((side) =>
    formatLength(side, { unit: plan.unit, withUnit: false }),
  );
  if (!sides.some((side) => side.startsWith('just over'))) return sides.join(' x ');
  return `${value.width / TICKS_PER_MM} x ${value.length / TICKS_PER_MM} mm`;
}
