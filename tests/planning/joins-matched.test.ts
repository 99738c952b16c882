import { describe, expect, it } from 'vitest';
import { checkPlan } from '../../src/check/check-plan.ts';
import { walk } from '../../src/geometry/walk.ts';
import type { Cloth, LengthInHand } from '../../src/model/cloth.ts';
import type { CutPlan } from '../../src/model/cut-plan.ts';
import type { Match } from '../../src/model/piece.ts';
import type { LoosePiece, Plan } from '../../src/model/plan.ts';
import { ticks } from '../../src/units/ticks.ts';
import { changed } from '../support/changed.ts';
import { clothOf, inches, loose, planned, planOf } from './build.ts';

function proven(plan: Plan): CutPlan {
  const cutPlan = planned(plan);
  expect(checkPlan(cutPlan)).toEqual([]);
  return cutPlan;
}

describe('a print that is matched runs on over a level join (common practice, no published source)', () => {
  const repeat: Cloth['repeat'] = { along: inches(12), drop: 'straight' };
  const edges = { selvedge: { left: ticks(0), right: ticks(0) }, crease: { kind: 'none' } } as const;
  const end = (name: string, length: number, firstMotif: number): LengthInHand => ({
    ...{ name, width: inches(20), length: inches(length), copies: 1, ...edges },
    firstMotif: inches(firstMotif),
  });
  const { buy: _, ...wave } = clothOf({
    ...{ width: inches(20), direction: 'one-way', repeat, crease: { kind: 'none' } },
    inHand: [end('short end', 60, 3), end('long end', 70, 7)],
  });
  const runner = (match: Match): LoosePiece => ({
    ...loose('runner', 16, 100, 1),
    join: {
      ...{ by: 'seam', allowance: inches(1 / 2), lines: 'level', mostJoins: 3 },
      ...{ narrowest: inches(4), clearMiddle: false },
    },
    match,
  });
  /** How far each part begins before a motif, and how far up the runner it begins. */
  const begun = ({ joined, cloths, plan }: CutPlan) => {
    const [{ rows, parts }] = joined as [CutPlan['joined'][number]];
    return parts.map((id, row) => {
      const up = rows.slice(0, row).reduce((sum, length) => sum + length - inches(1), 0);
      const places = cloths[0]!.lengths.flatMap((own) =>
        walk(own.tree, own.width, own.length)
          .leaves.filter(({ leaf }) => leaf.kind === 'piece' && leaf.piece === id)
          .map(({ box }) => {
            const { firstMotif } = plan.cloths[0]!.inHand.find(({ name }) => name === own.name)!;
            return firstMotif! - box.y0;
          }),
      );
      return { up, before: places[0]! };
    });
  };
  const along = inches(12);
  const phase = (value: number) => ((value % along) + along) % along;

  it.each([{ kind: 'drops' }, { kind: 'alike' }] as const)('$kind', (match) => {
    const cutPlan = proven(planOf([wave], [runner(match)]));
    const [first, second] = begun(cutPlan);
    expect(cutPlan.joined[0]!.rows).toHaveLength(2);
    expect(phase(second!.before + second!.up)).toBe(phase(first!.before));
  });

  it.each([
    ['centre', { kind: 'centre' }, 50],
    ['point', { kind: 'point', x: inches(8), y: inches(71) }, 71],
  ] as const)('with a motif at its %s', (_, match, at) => {
    for (const { up, before } of begun(proven(planOf([wave], [runner(match)])))) {
      expect(phase(before + up)).toBe(phase(inches(at)));
    }
  });

  it('which the checker proves part by part', () => {
    const cutPlan = proven(planOf([wave], [runner({ kind: 'drops' })]));
    const index = cutPlan.pieces.findIndex(({ partOf }) => partOf?.index === 1);
    const codes = (from: number) => {
      const spoilt = changed(cutPlan, ['pieces', index, 'match', 'from'], () => from);
      return checkPlan(spoilt).map(({ code }) => code);
    };
    const { from } = cutPlan.pieces[index]!.match as { from: number };
    expect(codes(from)).toEqual([]);
    // A part that asks for another place, and one that then lies off it.
    expect(codes(from + 1)).toEqual(expect.arrayContaining(['join-parts', 'begins-apart']));
  });
});
