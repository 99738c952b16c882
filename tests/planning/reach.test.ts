import { describe, expect, it } from 'vitest';
import { walk } from '../../src/geometry/walk.ts';
import type { Cloth } from '../../src/model/cloth.ts';
import type { ClothPlan, LengthPlan } from '../../src/model/cut-plan.ts';
import type { Plan, Tools } from '../../src/model/plan.ts';
import { makeCutPlan } from '../../src/planning/plan.ts';
import { inSections } from '../../src/planning/sections.ts';
import { CUTS_BEFORE_SQUARING } from '../../src/planning/spread.ts';
import { wordStep } from '../../src/planning/step-words.ts';
import { type CuttingStep, cuttingSteps } from '../../src/planning/steps.ts';
import { measuredBy, type ToolsOnCloth, toolsOn } from '../../src/planning/tool-reach.ts';
import { ticks } from '../../src/units/ticks.ts';
import { inches, none, plan, wanted } from '../support/plan-parts.ts';
import { replayFaults } from '../support/replay.ts';
import { crosscut, lengthwise, piece, remnant, scrap } from '../support/trees.ts';

const linen: Cloth = {
  name: 'oat linen',
  width: inches(43),
  selvedge: { left: none, right: none },
  crease: { kind: 'none' },
  direction: 'plain',
  printRuns: 'along',
  squaring: none,
  inHand: [],
  buy: { step: inches(4.5) },
  lay: 'flat',
};

const TOOLS: Tools = { rulerLength: inches(24), rulerMark: inches(0.125), mostPlies: 1 };

/** A length of 43 in wide whose tree is given; `keep` is 6 x 9 in. */
function lengthOf(tree: LengthPlan['tree'], long: number): LengthPlan {
  return {
    ...{ name: 'bought', source: 'bought', lay: { kind: 'flat' } },
    ...{ width: inches(43), length: inches(long), tree },
  };
}

/** In two plies a crosscut of 43 in is within 24 in, and a cut of 54 in is not. */
const TWO_PLIES: Tools = { ...TOOLS, mostPlies: 2 };

function sectioned(length: LengthPlan, tools: Tools = TWO_PLIES, cloth: Cloth = linen): LengthPlan {
  const asked: Plan = {
    ...plan('a bench', 'in', [cloth], {
      ...{ rulerMark: inches(0.125), keep: [inches(6), inches(9)] as const, pieces: [] },
    }),
    tools,
  };
  const own: ClothPlan = { cloth: cloth.name, lengths: [length], surplus: [], answer: 'found' };
  return inSections(asked, own).lengths[0]!;
}

/** Everything that must not move: pieces and keepable leftovers, where they lie. */
function kept({ tree, width, length }: LengthPlan): readonly string[] {
  return walk(tree, width, length)
    .leaves.filter(({ leaf }) => leaf.kind === 'piece' || leaf.kind === 'remnant')
    .map(({ leaf, box }) => JSON.stringify([leaf, box]))
    .sort();
}

const column = (...rows: readonly (readonly [number, LengthPlan['tree']])[]) => {
  const at: number[] = [];
  for (const [extent] of rows.slice(0, -1)) at.push((at.at(-1) ?? 0) + inches(extent));
  return crosscut(at.map(ticks), ...rows.map(([, tree]) => tree));
};

describe('a tear', () => {
  const TORN: ToolsOnCloth = { ...TOOLS, longCuts: 'tear-or-scissors', tears: true };
  const length = lengthOf(lengthwise([inches(19)], piece('runner'), remnant), 54);
  /** A hole that begins so many ticks to the right of the cut at 19 in. */
  const hole = (off: number) => [
    { x: ticks(inches(19) + off), y: inches(30) },
    { x: inches(24), y: inches(28) },
    { x: inches(24), y: inches(34) },
  ];
  const outlineOf = (corners: ReturnType<typeof hole>) => corners.map(({ x, y }) => [x, y] as const);
  const bladeBeside = (off: number) => {
    const tools = { ...TORN, flaws: [hole(off)] };
    const steps = cuttingSteps(length, tools);
    expect(replayFaults(length, steps, tools, [outlineOf(hole(off))])).toEqual([]);
    return steps[0]!.blade;
  };

  it('keeps clear of a hole by a tick, and where it cannot is cut with scissors', () => {
    expect([-400, 0, 1].map(bladeBeside)).toEqual(['scissors', 'scissors', 'tear']);
  });

  it('that runs into a hole is found by the replay', () => {
    const torn = cuttingSteps(length, TORN);
    expect(torn[0]!.blade).toBe('tear');
    expect(replayFaults(length, torn, TORN)).toEqual([]);
    expect(replayFaults(length, torn, TORN, [outlineOf(hole(0))]).join()).toMatch(
      /made by tear, not by scissors/,
    );
  });

  it('is asked for beside a flaw of a length in hand as it lies washed, and not through it', () => {
    const loss = { numerator: 1, denominator: 10 };
    const washing = { along: loss, across: loss, washed: 'before-cutting' } as const;
    const entry = { name: 'bought', length: inches(60), width: inches(48), copies: 1, flaws: [] };
    const shrunk = (x: number) => ({
      ...{ ...linen, washing, tearsTrue: true as const },
      inHand: [
        {
          ...{ ...entry, selvedge: linen.selvedge, crease: linen.crease },
          flaws: [{ outline: hole(0).map((corner) => ({ x: ticks(corner.x + x), y: corner.y })) }],
        },
      ],
    });
    const blade = (x: number) => {
      const own = { ...length, source: 'in-hand' as const };
      return cuttingSteps(own, toolsOn({ ...TOOLS, longCuts: 'tear' }, shrunk(x), own))[0]!.blade;
    };
    // 19 in are left of 21 1/9 in.
    expect([blade(inches(1.5)), blade(inches(2.5))]).toEqual(['scissors', 'tear']);
  });
});

describe('long lengths are crosscut into sections first', () => {
  // Columns of 19, 13 and 11 in over 54 in, with no row in common but those at 18 and at 36 in.
  const columns = lengthwise(
    [inches(19), inches(32)],
    column([18, piece('front')], [18, piece('front')], [18, piece('front')]),
    column([9, piece('mat')], [9, piece('mat')], [18, piece('back')], [18, piece('back')]),
    column([36, piece('runner')], [18, piece('flap')]),
  );

  it('at as few places as the ruler allows, and only where nothing is cut through', () => {
    const length = lengthOf(columns, 54);
    const found = sectioned(length);
    // 54 in is beyond 24 in; 18 in cuts through the runner, so 36 in is the first place there is.
    expect(found.tree).toMatchObject({ kind: 'cut', direction: 'crosscut', at: [inches(36)] });
    expect(kept(found)).toEqual(kept(length));
    const steps = cuttingSteps(found, TWO_PLIES);
    expect(steps.map(({ blade }) => blade)).not.toContain('scissors');
    expect(cuttingSteps(length, TWO_PLIES)[0]!.blade).toBe('scissors');
    expect(replayFaults(found, steps, TWO_PLIES)).toEqual([]);
  });

  it('not where the ruler reaches, nor through a leftover worth keeping', () => {
    const length = lengthOf(columns, 54);
    expect(sectioned(length, { ...TOOLS, rulerLength: inches(54) })).toBe(length);
    const beside = lengthOf(
      lengthwise(
        [inches(19), inches(32)],
        column([18, piece('front')], [18, piece('front')], [18, piece('front')]),
        column([18, piece('back')], [18, piece('back')], [18, piece('back')]),
        remnant,
      ),
      54,
    );
    expect(sectioned(beside)).toBe(beside);
    // The same strip, too narrow to keep, may be parted.
    const narrow = lengthOf(
      lengthwise(
        [inches(19), inches(39)],
        column([18, piece('front')], [18, piece('front')], [18, piece('front')]),
        column([18, piece('panel')], [18, piece('panel')], [18, piece('panel')]),
        scrap,
      ),
      54,
    );
    expect(sectioned(narrow).tree).toMatchObject({ direction: 'crosscut', at: [inches(18), inches(36)] });
    expect(kept(sectioned(narrow))).toEqual(kept(narrow));
  });
});

describe('of trees that cost the same', () => {
  it('one is taken whose cuts the ruler reaches, where there is one', () => {
    // Twelve squares three abreast: crosscut first the lines are 54 in, folded once 27 in; along first they are 68 in.
    const cloth: Cloth = { ...linen, width: inches(54) };
    const pieces = [wanted('napkin', 'A', cloth, { width: inches(17), length: inches(17) }, 12, 'either')];
    const rules = { rulerMark: inches(0.125), keep: [inches(6), inches(6)] as const, pieces };
    for (const rulerLength of [inches(28), inches(33)]) {
      const asked = { ...plan('napkins', 'in', [cloth], rules), tools: { ...TWO_PLIES, rulerLength } };
      const outcome = makeCutPlan(asked, { effort: 2_000, seed: 1 });
      if (!outcome.ok) throw new Error('no plan');
      const steps = cuttingSteps(outcome.value.cloths[0]!.lengths[0]!, asked.tools);
      expect(steps.map(({ blade }) => blade)).not.toContain('scissors');
    }
  });
});

describe('what neither ruler nor fold reaches', () => {
  const drop = lengthOf(lengthwise([inches(20)], piece('drop'), piece('drop')), 60);
  const steps = (tools: ToolsOnCloth) => cuttingSteps(drop, tools);

  it('is folded as far as the plies allow, and no further', () => {
    const folds = (mostPlies: Tools['mostPlies'], rulerLength: number) =>
      steps({ ...TOOLS, mostPlies, rulerLength: inches(rulerLength) })[0]!.spread.reachFolds;
    expect([folds(1, 60), folds(2, 30), folds(4, 15)]).toEqual([0, 1, 2]);
    // One tick too short for the folds there are: no fold helps, so none is made.
    expect(steps({ ...TOOLS, mostPlies: 4, rulerLength: ticks(inches(15) - 1) })[0]).toMatchObject({
      blade: 'scissors',
      spread: { reachFolds: 0 },
    });
  });

  it('is torn in one ply where tearing serves, else cut with scissors', () => {
    expect(steps({ ...TOOLS, tears: true })[0]).toMatchObject({
      blade: 'tear',
      spread: { reachFolds: 0, stacked: 1, plies: 1 },
    });
    expect(steps(TOOLS)[0]!.blade).toBe('scissors');
  });

  it('is not guided over the edge of the mat', () => {
    const mat = { width: inches(18), length: inches(59) };
    const long: Tools = { ...TOOLS, rulerLength: inches(60) };
    expect(steps(long)[0]!.blade).toBe('rotary');
    expect(steps({ ...long, mat })[0]!.blade).toBe('scissors');
    expect(steps({ ...long, mat: { width: inches(60), length: inches(18) } })[0]!.blade).toBe('rotary');
  });

  it.each([
    ['neither', false, 1],
    ['tear', false, 1],
    ['tear', true, 0],
    ['tear-or-scissors', false, 0],
    ['scissors', false, 0],
    [undefined, false, 0],
  ] as const)(
    'with %s welcome and cloth that tears true: %s, earns %i warnings',
    (longCuts, tears, count) => {
      const cloth: Cloth = { ...linen, ...(tears && { tearsTrue: true as const }) };
      const pieces = [wanted('drop', 'A', cloth, { width: inches(20), length: inches(60) }, 2, 'lengthwise')];
      const rules = { rulerMark: inches(0.125), keep: [inches(6), inches(6)] as const, pieces };
      const tools: Tools = { ...TOOLS, ...(longCuts && { longCuts }) };
      const asked = { ...plan('drops', 'in', [cloth], rules), tools };
      const outcome = makeCutPlan(asked, { effort: 200, seed: 1 });
      if (!outcome.ok) throw new Error('no plan');
      const found = outcome.issues.filter(({ code }) => code === 'beyond-reach');
      expect(found).toHaveLength(count);
      expect(outcome.value.issues).toEqual(outcome.issues);
      if (count > 0) expect(found[0]!.details).toMatchObject({ cloth: 'oat linen', longest: inches(60) });
    },
  );
});

describe('a setting that the ruler is too narrow for', () => {
  const tools: Tools = { ...TOOLS, rulerWidth: inches(6), mat: { width: inches(23), length: inches(35) } };

  it.each([
    [6, 30, 'ruler'],
    [7, 35, 'mat'],
    [23, 35, 'mat'],
    [35, 23, 'mat'],
    [24, 24, 'tape'],
    [36, 5, 'tape'],
  ] as const)('of %i in, for a cut of %i in, is measured by the %s', (setting, line, by) => {
    expect(measuredBy(inches(setting), inches(line), tools)).toBe(by);
    const just = by === 'ruler' ? measuredBy(ticks(inches(6) + 1), inches(line), tools) : by;
    expect(just).not.toBe('ruler');
  });

  it('by tape without a mat, and as the maker likes where the width is not told', () => {
    const { mat: _, ...bare } = tools;
    expect(measuredBy(inches(7), inches(5), bare)).toBe('tape');
    expect(measuredBy(inches(7), inches(5), TOOLS)).toBeUndefined();
  });
});

describe('the words of a step', () => {
  const letters = new Map([['drop', 'A']]);
  const asked = { unit: 'in', rulerMark: inches(0.125) } as const;
  const told = (length: LengthPlan, tools: ToolsOnCloth) =>
    cuttingSteps(length, tools).map((step: CuttingStep) => wordStep(step, asked, letters));

  it('say that it is torn, and how far from the edge it is snipped', () => {
    const drop = lengthOf(lengthwise([inches(20)], piece('drop'), piece('drop')), 60);
    expect(told(drop, { ...TOOLS, tears: true, rulerWidth: inches(6) })[0]).toMatchObject({
      todo: 'Snip and tear along the length at 20 in (by tape)',
      spread: '',
    });
    expect(told(drop, TOOLS)[0]!.todo).toBe('Cut lengthwise at 20 in, with scissors along a marked line');
  });

  it('ask for the fold to be laid true again after a few cuts, and only on folded cloth', () => {
    const strips = (many: number) =>
      lengthOf(
        crosscut(
          Array.from({ length: many }, (_, index) => inches(3 + 3 * index)),
          ...Array.from({ length: many }, () => piece('drop')),
          scrap,
        ),
        3 * many + 1,
      );
    const few = { ...TOOLS, mostPlies: 2 as const };
    expect(told(strips(CUTS_BEFORE_SQUARING), few)[0]!.spread).not.toContain('true again');
    expect(told(strips(CUTS_BEFORE_SQUARING + 1), few)[0]!.spread).toBe(
      'folded once to reach, 2 plies, after every 4 cuts lay the fold true again and check that the edge is square',
    );
    const flat = { ...TOOLS, rulerLength: inches(43) };
    expect(told(strips(9), flat)[0]!.spread).toBe('');
  });
});
