import { describe, expect, it } from 'vitest';
import { checkPlan } from '../../src/check/check-plan.ts';
import { walk } from '../../src/geometry/walk.ts';
import type { Cloth, LengthInHand } from '../../src/model/cloth.ts';
import type { CutPlan } from '../../src/model/cut-plan.ts';
import type { JoinRule, Match } from '../../src/model/piece.ts';
import type { LoosePiece, Plan } from '../../src/model/plan.ts';
import { extentsOnPrint } from '../../src/planning/part-extents.ts';
import { makeCutPlan } from '../../src/planning/plan.ts';
import { cuttingSteps } from '../../src/planning/steps.ts';
import { ticks } from '../../src/units/ticks.ts';
import { changed } from '../support/changed.ts';
import { replayFaults } from '../support/replay.ts';
import { clothOf, inches, loose, planned, planOf } from './build.ts';

function proven(plan: Plan): CutPlan {
  const cutPlan = planned(plan);
  expect(checkPlan(cutPlan)).toEqual([]);
  return cutPlan;
}

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

describe('parts as long as short lengths let them be once each is begun where the print asks', () => {
  const edges = { selvedge: { left: ticks(0), right: ticks(0) }, crease: { kind: 'none' } } as const;
  const ends = (lengths: readonly (readonly [name: string, length: number, firstMotif: number])[]) => {
    const { buy: _, ...wave } = clothOf({
      ...{ width: inches(43), direction: 'two-way', crease: { kind: 'none' } },
      repeat: { along: inches(12), drop: 'straight' },
      inHand: lengths.map(
        ([name, length, firstMotif]): LengthInHand => ({
          ...{ name, width: inches(43), length: inches(length), copies: 1, ...edges },
          firstMotif: inches(firstMotif),
        }),
      ),
    });
    return wave;
  };
  const runner = (match: Match): LoosePiece => ({
    ...loose('long runner', 16, 100, 2),
    grain: 'lengthwise',
    join: {
      ...{ by: 'seam', allowance: inches(1 / 2), lines: 'level', mostJoins: 3 },
      ...{ narrowest: inches(10), clearMiddle: false },
    },
    match,
  });

  const known = (porch: number) =>
    [
      ['hall end', 40, 3],
      ['stair end', 45, 7],
      ['porch end', porch, 1],
    ] as const;
  const replayed = ({ cloths, plan }: CutPlan) =>
    cloths[0]!.lengths.flatMap((length) =>
      replayFaults(length, cuttingSteps(length, plan.tools), plan.tools),
    );

  /*
   * Two seams take 1 in each, so the parts come to 102 in; 107 in are there. The stair end gives all of its 45, a part that starts
   * 7 in before a motif. The next starts 44 in up the runner, 37 in beyond that motif, 1 in beyond another: on the hall end, whose
   * motif lies at 3, from 4 to 40, which gives 36. The next starts 44 + 35 = 79 in up, 72 in beyond the first motif, right on
   * another: on the porch end from 1 on, and the rest of 102 - 45 - 36 = 21 ends at 22, where it does.
   */
  it('are found where parts of whole lengths do not hold the print', () => {
    const cutPlan = proven(planOf([ends(known(22))], [runner({ kind: 'drops' })]));
    const { joined, cloths } = cutPlan;
    expect(joined.map(({ rows, copies }) => ({ rows, copies }))).toEqual([
      { rows: [45, 36, 21].map(inches), copies: 2 },
    ]);
    const places = cloths[0]!.lengths.flatMap(({ name, tree, width, length }) =>
      walk(tree, width, length)
        .leaves.filter(({ leaf }) => leaf.kind === 'piece')
        .map(({ box }) => `${name}: ${box.y0 / inches(1)} to ${box.y1 / inches(1)}`),
    );
    expect(places.sort()).toEqual(
      ['hall end: 4 to 40', 'porch end: 1 to 22', 'stair end: 0 to 45'].flatMap((one) => [one, one]),
    );
    expect(cloths[0]!.answer).toBe('found');
    expect(replayed(cutPlan)).toEqual([]);
  });

  it.each([
    ['drops', { kind: 'drops' }],
    ['a motif in the middle of the whole', { kind: 'centre' }],
  ] as const)('run on over every join: %s', (_, match) => {
    const cutPlan = proven(planOf([ends(known(30))], [runner(match)]));
    const parts = begun(cutPlan);
    expect(parts).toHaveLength(3);
    const places = new Set(parts.map(({ up, before }) => phase(before + up)));
    // 50 in up the runner lies 4 repeats and 2 in on.
    expect(match.kind === 'centre' ? [...places] : [places.size]).toEqual([
      match.kind === 'centre' ? inches(2) : 1,
    ]);
    expect(replayed(cutPlan)).toEqual([]);
  });

  /*
   * 40 + 45 + 18 = 103 in, 1 in to spare. From the far end of one to the next start on another goes, of the stair end to the hall end
   * 4 in (as above), hall to porch 1, hall to stair 7 (39 - 3 + 7 = 43), stair to porch 2 (44 - 7 + 1 = 38), porch to hall 7
   * (17 - 1 + 3 = 19), porch to stair 11 (17 - 1 + 7 = 23): in the best order, stair, hall, porch, 5 in.
   */
  it('unless the lengths are too short in whatever order they are joined', () => {
    const plan = planOf([ends(known(18))], [runner({ kind: 'drops' })]);
    const outcome = makeCutPlan(plan, { effort: 20_000, seed: 3 });
    expect(outcome.ok ? [] : outcome.issues.map(({ code }) => code)).toEqual(['not-enough-cloth']);
  });
});

describe('whole lengths one after the other, each from its place in the print', () => {
  const rule: JoinRule = {
    ...{ by: 'seam', allowance: inches(1 / 2), lines: 'level', mostJoins: 2 },
    ...{ narrowest: inches(4), clearMiddle: false },
  };
  const startOf = phase;
  const ways = (lengths: readonly number[], ahead = 0) =>
    extentsOnPrint(
      inches(60),
      lengths.map((length) => ({ length: inches(length), ahead: inches(ahead) })),
      rule,
      inches(1 / 8),
      startOf,
    ).map((way) => way.map((part) => part / inches(1)));

  it('in either order', () => {
    // 41, then from 40 in up, 4 in on: 35 - 4 = 31 hold the rest of 20. Or 35, then from 34 in up, 10 in on: 31 hold the rest of 26.
    expect(ways([41, 35])).toEqual([
      [41, 20],
      [35, 26],
    ]);
  });

  it('each taken once, and as often as there are such', () => {
    // 35, then from 34 in up 10 in on: 15 - 10 = 5, then from 38 in up 2 in on: 33 hold the rest of 22, if there are two of 35.
    expect(ways([35, 15])).toEqual([]);
    expect(ways([35, 15, 35])).toContainEqual([35, 5, 22]);
  });

  it('from the first place there is, be it ahead of where the first part would start', () => {
    // 3 in ahead: the first starts at 9 and gives 32; from 31 in up, 7 in on, so at 4: 37 hold the rest of 29.
    expect(ways([41, 41], 3)).toEqual([[32, 29]]);
  });
});
