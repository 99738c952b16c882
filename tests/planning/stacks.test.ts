import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkPlan } from '../../src/check/check-plan.ts';
import { walk } from '../../src/geometry/walk.ts';
import type { CutPlan, LengthPlan, Stack } from '../../src/model/cut-plan.ts';
import type { Plan, StackRule, Tools } from '../../src/model/plan.ts';
import { bedsOf } from '../../src/planning/beds.ts';
import { clothFigures } from '../../src/planning/figures.ts';
import { makeCutPlan } from '../../src/planning/plan.ts';
import { crosscutFirst } from '../../src/planning/sections.ts';
import { stackBed } from '../../src/planning/stack-bed.ts';
import { commonKinds } from '../../src/planning/stack-kinds.ts';
import {
  layerSteps,
  stackSteps,
  stepsOfLength,
  toolsInStack,
  turnedAbout,
} from '../../src/planning/stack-steps.ts';
import { wordStep } from '../../src/planning/step-words.ts';
import { drawMarker } from '../../src/rendering/marker.ts';
import { planJson } from '../../src/rendering/plan-json.ts';
import { planJsonSchema } from '../../src/rendering/plan-json-schema.ts';
import { summaryText } from '../../src/rendering/tables.ts';
import { type Ticks, ticks } from '../../src/units/ticks.ts';
import { randomPlan, wantsAlike } from '../support/random-plan.ts';
import { replayFaults } from '../support/replay.ts';
import { limpet, napkinCloth, samphire, stackPlan, tern } from '../support/stack-plan.ts';
import { clothOf, inches, loose, planned, planOf } from './build.ts';

const FREE: StackRule = { take: 'where-free', edge: 'left' };

function proven(plan: Plan): CutPlan {
  const cutPlan = planned(plan, 12_000);
  expect(checkPlan(cutPlan)).toEqual([]);
  return cutPlan;
}

describe('stacks that are asked for and are none', () => {
  const ALWAYS: StackRule = { take: 'always', edge: 'left' };
  const why = (plan: Plan) =>
    planned({ ...plan, stacks: ALWAYS }, 4000).issues.flatMap((issue) =>
      issue.code === 'nothing-stacked' ? [[issue.details.why, ...issue.details.cloths]] : [],
    );
  const two = [clothOf({ name: 'limpet' as never }), clothOf({ name: 'samphire' as never })] as const;
  const mats = (cloth: string, count: number, more: object = {}) => ({
    ...loose(`mat of ${cloth}`, 15, 12, count),
    cloth: cloth as never,
    ...more,
  });

  it('are given the reason', () => {
    expect(why(planOf([two[0]], [mats('limpet', 3)]))).toEqual([['one-cloth', 'limpet']]);
    expect(why(planOf([...two], [mats('limpet', 3), mats('samphire', 2)]))).toEqual([
      ['sizes', 'limpet', 'samphire'],
    ]);
    const folded = [{ ...two[0], lay: 'folded' } as const, two[1]];
    expect(why(planOf(folded, [mats('limpet', 4), mats('samphire', 4)]))).toEqual([
      ['laid', 'limpet', 'samphire'],
    ]);
    // One cut each, and one for both of them: no fold is worth it, but a stack is, so nothing is to be told.
    expect(why(planOf([...two], [mats('limpet', 6), mats('samphire', 6)]))).toEqual([]);
  });
});

const taken = (cutPlan: CutPlan): readonly Stack[] => cutPlan.stacks!.filter((stack) => stack.taken);

function lengthOf(cutPlan: CutPlan, name: string): LengthPlan {
  return cutPlan.cloths.find(({ cloth }) => cloth === name)!.lengths[0]!;
}

/** The steps of a layer as its aligned edge sees them, for the replay. */
function seenFromLeft(stack: Stack, seen: LengthPlan, tools: Tools) {
  return layerSteps(seen, tools, { ...stack, edge: 'left', layers: stack.layers.length });
}

/** Where pieces lie, measured from the aligned edge. */
function places(length: LengthPlan, edge: 'left' | 'right'): readonly string[] {
  return walk(length.tree, length.width, length.length)
    .leaves.filter(({ leaf }) => leaf.kind === 'piece')
    .map(({ box }) => `${edge === 'left' ? box.x0 : length.width - box.x1} ${box.y0} ${box.x1 - box.x0}`)
    .sort();
}

describe('the cloth that layers have in common', () => {
  const mark = inches(1 / 8);
  const beds = [tern, samphire].map((cloth) => bedsOf(stackPlan([cloth], FREE), cloth).toBuy!);
  const inInches = (length: number) => length / inches(1);

  it('begins at the wider selvedge, ends at the narrowest, and keeps off every crease', () => {
    const { sheet, margins } = stackBed(beds, 'left', mark)!;
    // From 1/2 to 27 3/8 and from 27 7/8 to 54 3/8.
    expect(inInches(sheet.width)).toBe(53.875);
    expect(sheet.forbidden!.map(({ x0, x1 }) => [inInches(x0), inInches(x1)])).toEqual([[26.875, 27.375]]);
    expect(margins.map(({ lead, tail }) => [inInches(lead), inInches(tail)])).toEqual([
      [0, 0],
      [0.125, 0.375],
    ]);
  });

  it('is measured from the right where they are aligned there', () => {
    const { sheet, margins } = stackBed(beds, 'right', mark)!;
    // From the right: tern check 5/8 to 54 1/2; samphire plain 1/2 to 27 3/8 and 27 7/8 to 54 7/8.
    expect(inInches(sheet.width)).toBe(53.875);
    expect(sheet.forbidden!.map(({ x0, x1 }) => [inInches(x0), inInches(x1)])).toEqual([[26.625, 27.125]]);
    expect(margins.map(({ lead, tail }) => [inInches(lead), inInches(tail)])).toEqual([
      [0, 0],
      [0.375, 0.125],
    ]);
  });

  it('leaves a mark where one layer ends at its bare edge and another goes on', () => {
    const bare = bedsOf(stackPlan([tern], FREE), napkinCloth('bare', 54, [1 / 2, 0])).toBuy!;
    expect(inInches(stackBed([bare, beds[0]!], 'left', mark)!.sheet.width)).toBe(53.375);
    expect(inInches(stackBed([bare, bare], 'left', mark)!.sheet.width)).toBe(53.5);
  });
});

describe('the pieces that layers have in common', () => {
  const copy = (piece: string, turns: 0 | 1 = 0) => ({ piece, turns });
  const kind = (width: number, length: number, quarterTurn: boolean, copies: ReturnType<typeof copy>[]) => ({
    kind: { width, length, quarterTurn, copies: copies.length },
    copies,
  });

  it('lie as the strictest layer lets them', () => {
    const free = [kind(30, 20, true, [copy('f'), copy('f'), copy('f')])];
    const strict = [kind(20, 30, false, [copy('s', 1), copy('s', 1)]), kind(30, 20, true, [copy('t')])];
    const common = commonKinds([free, strict])!;
    expect(common.kinds).toEqual([
      { width: 20, length: 30, copies: 2, quarterTurn: false },
      { width: 20, length: 30, copies: 1, quarterTurn: true },
    ]);
    // The free piece stands 30 wide, so it is turned to lie 20 wide, and not turned when its kind is.
    expect(common.copies[0]!.map(({ copies }) => copies)).toEqual([
      [copy('f', 1), copy('f', 1)],
      [{ piece: 'f', turns: 1, whenTurned: 0 }],
    ]);
    expect(common.copies[1]!.map(({ copies }) => copies)).toEqual([
      [copy('s', 1), copy('s', 1)],
      [{ piece: 't', turns: 1, whenTurned: 0 }],
    ]);
  });

  it('are none where sizes, counts or directions differ', () => {
    const two = [kind(20, 30, false, [copy('a'), copy('a')])];
    expect(commonKinds([two, [kind(20, 30, false, [copy('b')])]])).toBeUndefined();
    expect(commonKinds([two, [kind(20, 31, false, [copy('b'), copy('b')])]])).toBeUndefined();
    expect(commonKinds([two, [kind(30, 20, false, [copy('b'), copy('b')])]])).toBeUndefined();
  });
});

describe('cloths that want the same', () => {
  it.each(['left', 'right'] as const)('are cut as one, aligned at the %s', (edge) => {
    const cutPlan = proven(stackPlan([tern, samphire, limpet], { take: 'where-free', edge }));
    const [stack, ...others] = taken(cutPlan);
    expect(others).toEqual([]);
    expect(stack!.layers.map(({ cloth }) => cloth)).toEqual([tern.name, samphire.name, limpet.name]);
    expect(stack!.cutsStacked).toBeLessThan(stack!.cutsApart);
    expect(stack!.extraBought.every((extra) => extra <= 0)).toBe(true);
    const alike = stack!.layers.map(({ cloth }) => places(lengthOf(cutPlan, cloth), edge));
    expect(alike[0]).toHaveLength(11);
    for (const other of alike.slice(1)) expect(other).toEqual(alike[0]);
  });

  it('are not where the plan takes no stacks', () => {
    expect(proven(stackPlan([tern, samphire], { take: 'never', edge: 'left' })).stacks).toEqual([]);
  });

  it('are not where they want other sizes or other counts', () => {
    const pieces = [
      loose('large', 13, 12, 11, tern.name),
      loose('small', 13, 11, 11, samphire.name),
      loose('fewer', 13, 12, 10, limpet.name),
    ];
    expect(proven(planOf([tern, samphire, limpet], pieces, { stacks: FREE })).stacks).toEqual([]);
  });

  it('are so by default, and no more of them than the most plies', () => {
    const four = [
      tern,
      limpet,
      napkinCloth('kelp', 57, [1 / 2, 1 / 2]),
      napkinCloth('wrack', 54.75, [1 / 4, 1 / 2]),
    ];
    const plan = stackPlan(four, FREE, { tools: { rulerLength: inches(24), mostPlies: 2 } });
    const { stacks: _, ...unsaid } = plan;
    const sizes = taken(proven(unsaid)).map(({ layers }) => layers.length);
    expect(sizes.length).toBeGreaterThan(0);
    expect(Math.max(...sizes)).toBe(2);
  });

  it('at a price are told of, and taken only where the plan says so', () => {
    const narrow = napkinCloth('kittiwake stripe', 45, [1 / 2, 3 / 8]);
    const free = proven(stackPlan([tern, narrow], FREE));
    expect(taken(free)).toEqual([]);
    expect(free.stacks).toHaveLength(1);
    expect(free.stacks![0]!.extraBought[0]).toBeGreaterThan(0);
    expect(summaryText(free)).toContain('not so cut: as 2 plies, left edges aligned');
    const always = proven(stackPlan([tern, narrow], { take: 'always', edge: 'left' }));
    expect(taken(always)).toHaveLength(1);
    const extra = taken(always)[0]!.extraBought[0]!;
    expect(always.cloths[0]!.purchase!.bought - free.cloths[0]!.purchase!.bought).toBe(extra);
  });

  it('may be a length in hand and one to buy', () => {
    const inHand = {
      ...{ name: 'good length', length: inches(73), width: inches(55.5), copies: 1 },
      ...{ selvedge: { left: inches(5 / 8), right: inches(1 / 2) }, crease: { kind: 'use' as const } },
    };
    const { buy: _, ...cupboard } = napkinCloth('cupboard linen', 55.5, [5 / 8, 1 / 2], { inHand: [inHand] });
    const cutPlan = proven(stackPlan([tern, cupboard], FREE));
    expect(taken(cutPlan)[0]!.layers.map(({ length }) => length)).toEqual(['bought', 'good length']);
    expect(summaryText(cutPlan)).toContain('cupboard linen (good length)');
  });
});

describe('cloths of a stack that no fold of all layers brings within the ruler', () => {
  it('are crosscut into sections where every layer may be, and no leftover to keep is cut through', () => {
    const column = (at: readonly number[]): LengthPlan => ({
      ...{ name: 'bought', source: 'bought', lay: { kind: 'flat' } },
      width: inches(24),
      length: inches(60),
      tree: {
        kind: 'cut',
        direction: 'lengthwise',
        at: [inches(12)],
        parts: [
          { kind: 'cut', direction: 'crosscut', at: [inches(30)], parts: [piece('a'), piece('a')] },
          {
            kind: 'cut',
            direction: 'crosscut',
            at: at.map(inches),
            parts: [...at.map(() => piece('b')), piece('b')],
          },
        ],
      },
    });
    const keep = { width: inches(6), length: inches(6) };
    const cutAt = (lengths: readonly LengthPlan[]) =>
      lengths.map(({ tree }) => (tree.kind === 'cut' && tree.direction === 'crosscut' ? tree.at : []));
    const both = crosscutFirst([column([15, 30, 45]), column([10, 30])], inches(40), keep);
    expect(cutAt(both)).toEqual([[inches(30)], [inches(30)]]);
    expect(crosscutFirst([column([15, 30, 45]), column([20, 40])], inches(40), keep)).toEqual([]);
  });

  it('are cut across one by one, folded to reach, and then laid on each other', () => {
    const cutPlan = proven(stackPlan([tern, samphire, limpet], FREE));
    const [stack] = taken(cutPlan) as [Stack];
    expect(stack).toMatchObject({ sectionsFirst: true, withScissors: 0 });
    const [first, ...rest] = stackSteps(cutPlan, stack);
    expect(first).toMatchObject({
      action: 'crosscut',
      oneByOne: 3,
      strokes: 6,
      spread: { reachFolds: 2, plies: 4 },
    });
    expect(rest.every(({ oneByOne }) => oneByOne === undefined)).toBe(true);
    expect(clothFigures(cutPlan, cutPlan.cloths[0]!).folds).toBeGreaterThanOrEqual(6);
    const letters = new Map(cutPlan.pieces.map(({ id, letter }) => [id, letter]));
    expect(wordStep(first!, cutPlan.plan, letters).spread).toContain('each of the 3 cloths by itself');
  });
});

const piece = (name: string) => ({ kind: 'piece' as const, piece: name, quarterTurns: 0 as const });

describe('the work of a stack', () => {
  const cutPlan = proven(stackPlan([tern, samphire, limpet], FREE));
  const [stack] = taken(cutPlan) as [Stack];

  it('is counted once, with its first layer', () => {
    const strokes = cutPlan.cloths.map((own) => clothFigures(cutPlan, own).strokes);
    expect(strokes).toEqual([stack.cutsStacked, 0, 0]);
  });

  it('is told once, with the plies and pieces of all layers', () => {
    const steps = stackSteps(cutPlan, stack);
    const stacked = steps.filter(({ oneByOne }) => oneByOne === undefined);
    expect(stacked.map(({ spread }) => spread.plies)).toEqual(stacked.map(() => 3));
    const freed = steps.flatMap(({ frees }) => frees).reduce((total, { copies }) => total + copies, 0);
    expect(freed).toBe(33);
  });

  it('gives the pieces and leftovers of each layer when it is replayed', () => {
    for (const edge of ['left', 'right'] as const) {
      const plan = proven(stackPlan([tern, samphire, limpet], { take: 'where-free', edge }));
      const tools = toolsInStack(plan.plan.tools, 3);
      for (const { cloth, lengths } of plan.cloths) {
        const length = edge === 'left' ? lengths[0]! : turnedAbout(lengths[0]!);
        const steps = seenFromLeft(plan.stacks![0]!, length, plan.plan.tools);
        expect(replayFaults(length, steps, tools, [], plan.plan.tools)).toEqual([]);
        const settings = steps.map((step) => step.settings);
        expect(stepsOfLength(plan, cloth, lengths[0]!).map((step) => step.settings)).toEqual(settings);
      }
    }
  });

  it('gives the pieces of each layer of chance plans', () => {
    const plans = fc.sample(randomPlan(), { numRuns: 150, seed: 7_311 }).filter(wantsAlike);
    const seen = { left: 0, right: 0, sectionsFirst: 0 };
    for (const plan of plans) {
      const outcome = makeCutPlan(
        { ...plan, stacks: { take: 'always', edge: plan.stacks?.edge ?? 'left' } },
        { effort: 300, seed: 4 },
      );
      if (!outcome.ok) continue;
      for (const stack of taken(outcome.value)) {
        const { layers, edge } = stack;
        seen[edge] += 1;
        if (stack.sectionsFirst) seen.sectionsFirst += 1;
        expect(stack.cutsStacked).toBeLessThan(stack.cutsApart);
        const tools = toolsInStack(plan.tools, layers.length);
        for (const layer of layers) {
          const own = lengthOf(outcome.value, layer.cloth);
          const length = edge === 'left' ? own : turnedAbout(own);
          const steps = seenFromLeft(stack, length, plan.tools);
          const faults = replayFaults(length, steps, tools, [], plan.tools);
          expect(faults, JSON.stringify(plan)).toEqual([]);
        }
      }
    }
    expect(seen.sectionsFirst).toBeGreaterThan(1);
    expect(seen.left).toBeGreaterThan(4);
    expect(seen.right).toBeGreaterThan(1);
  });

  it('shows on the marker of every layer, with the numbers of the same steps', () => {
    const markers = stack.layers.map(({ cloth }) => drawMarker(cutPlan, cloth).lengths[0]!);
    expect(markers.map(({ together }) => together)).toEqual([
      'cut together with samphire plain and limpet dot, left edges aligned',
      'cut together with tern check and limpet dot, left edges aligned',
      'cut together with tern check and samphire plain, left edges aligned',
    ]);
    const crosscuts = markers.map(({ cuts }) =>
      cuts
        .filter(({ direction }) => direction === 'crosscut')
        .map(({ step, y0 }) => [step, y0] as [number, Ticks]),
    );
    for (const other of crosscuts.slice(1)) expect(other).toEqual(crosscuts[0]);
  });

  it('stands in plan.json', () => {
    const [told] = planJsonSchema.parse(planJson(cutPlan)).stacks;
    expect(told!.layers.map(({ cloth }) => cloth)).toEqual([tern.name, samphire.name, limpet.name]);
    expect(told!.words).toContain(`in place of ${stack.cutsApart}, for no more cloth`);
    expect(told!.extraBought).toEqual(stack.extraBought.map((extra) => ticks(0) + extra));
  });
});
