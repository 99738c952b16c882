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

  /*
   * Two seams take 1 in each, so the parts come to 102 in. All lengths are begun in the print as the last of them has it, 1 in
   * before a motif: 6 in from the end of the 45 (motif at 7), 2 in from the end of the 40 (motif at 3), right at the end of the 30.
   *   45 in: starts at 6, gives 39; the next part starts 38 in up the runner, 2 in on in the print (38 = 3 x 12 + 2).
   *   40 in: starts at 2 + 2 = 4, gives 36; the next starts 38 + 35 = 73 in up, 1 in on (73 = 6 x 12 + 1).
   *   30 in: starts at 0 + 1 = 1, would give 29, and 102 - 39 - 36 = 27 are wanted.
   * Begun as the 40 or the 45 has it they reach less: 41 + 35 + 12, or 45 + 24 + 23.
   */
  const known = [
    ['hall end', 40, 3],
    ['stair end', 45, 7],
    ['porch end', 30, 1],
  ] as const;

  it('are found where parts of whole lengths do not hold the print', () => {
    const { joined, cloths, plan } = proven(planOf([ends(known)], [runner({ kind: 'drops' })]));
    expect(joined.map(({ rows, copies }) => ({ rows, copies }))).toEqual([
      { rows: [39, 36, 27].map(inches), copies: 2 },
    ]);
    const starts = cloths[0]!.lengths.flatMap(({ name, tree, width, length }) =>
      walk(tree, width, length)
        .leaves.filter(({ leaf }) => leaf.kind === 'piece')
        .map(({ box }) => `${name}: ${box.y0 / inches(1)} to ${box.y1 / inches(1)}`),
    );
    expect([...new Set(starts)].sort()).toEqual([
      'hall end: 4 to 40',
      'porch end: 1 to 28',
      'stair end: 6 to 45',
    ]);
    expect(starts).toHaveLength(6);
    expect(cloths[0]!.answer).toBe('found');
    for (const length of cloths[0]!.lengths) {
      expect(replayFaults(length, cuttingSteps(length, plan.tools), plan.tools)).toEqual([]);
    }
  });

  it('unless the lengths are too short in whatever order they are joined', () => {
    // 45 + 36 + 19 in of the three: 2 in too few.
    const short = known.map(([name, length, motif]) => [name, length === 30 ? 20 : length, motif] as const);
    const outcome = makeCutPlan(planOf([ends(short)], [runner({ kind: 'drops' })]), {
      effort: 20_000,
      seed: 3,
    });
    expect(outcome.ok ? [] : outcome.issues.map(({ code }) => code)).toEqual(['not-enough-cloth']);
  });
});

describe('whole lengths one after the other, each from its place in the print', () => {
  const rule: JoinRule = {
    ...{ by: 'seam', allowance: inches(1 / 2), lines: 'level', mostJoins: 2 },
    ...{ narrowest: inches(4), clearMiddle: false },
  };
  const startOf = (further: number) => further % inches(12);
  const ways = (lengths: readonly number[]) =>
    extentsOnPrint(inches(60), lengths.map(inches), rule, inches(1 / 8), startOf).map((way) =>
      way.map((part) => part / inches(1)),
    );

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
});
