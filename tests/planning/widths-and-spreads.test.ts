import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { checkPlan } from '../../src/check/check-plan.ts';
import { placeTree } from '../../src/check/placed-tree.ts';
import type { Cloth, ClothDirection } from '../../src/model/cloth.ts';
import type { CutPlan } from '../../src/model/cut-plan.ts';
import { cuttingSteps } from '../../src/planning/steps.ts';
import { changed } from '../support/changed.ts';
import { freshFoldPlan } from '../support/plans.ts';
import { clothOf, inches, loose, planned, planOf } from './build.ts';

interface Fact<Values> {
  readonly statement: string;
  readonly values: Values;
  readonly source: string;
  readonly basis: string;
}

function factsOf<Facts>(file: string): Facts {
  const path = new URL(`../../fixtures/published/trade/${file}.json`, import.meta.url);
  return JSON.parse(readFileSync(path, 'utf8')) as Facts;
}

const widths = factsOf<{
  readonly 'width-conversion-chart': Fact<{
    readonly width_labels_in: readonly string[];
    readonly rows_yd: readonly (readonly number[])[];
    readonly extra_yd: number;
  }>;
}>('widths');
const spreads = factsOf<{
  readonly 'nap-without': Fact<{ readonly rotate180: boolean; readonly crosswise_fold: boolean }>;
  readonly 'nap-with': Fact<{ readonly rotate180: boolean; readonly crosswise_fold_simple: boolean }>;
  readonly folds: Fact<{ readonly types: readonly string[] }>;
  readonly 'crosswise-nap': Fact<{ readonly crosswise_with_nap: string }>;
}>('spreads');

/**
 * The chart of yards in other widths, credited from memory to New Jersey Cooperative Extension (Rutgers), read in two web
 * copies. It is a chart for garments, already rounded to 1/8 yd, so it is held against as a plausibility check only.
 */
describe('the published chart of yards in other widths', () => {
  const { width_labels_in: labels, rows_yd: rows, extra_yd: extra } = widths['width-conversion-chart'].values;
  const column = (label: string) => labels.indexOf(label);
  const EIGHTH = 1 / 8;

  /** Yards to buy, by eighths, of a cloth so wide for so many patches that tile 36, 45 and 60 in alike. */
  function yards(width: number, patches: number): number {
    const cloth = clothOf({ width: inches(width), buy: { step: inches(4.5) } });
    const cutPlan = planned(planOf([cloth], [loose('patch', 9, 3, patches)]), 3000);
    expect(checkPlan(cutPlan)).toEqual([]);
    expect(cutPlan.cloths[0]!.answer).toBe('best');
    return cutPlan.cloths[0]!.purchase!.bought / inches(36);
  }

  it.each(rows.map((row) => [row[column('35-36')]!, row[column('44-45')]!, row[column('58-60')]!]))(
    '%d yd of 36 in are about %d yd of 45 in and %d yd of 60 in',
    (at36, at45, at60) => {
      // As many patches as so much of the 36 in cloth holds: 4 across, 12 to a yard along, in whole rows.
      const patches = 4 * Math.floor(at36 * 12);
      const [need36, need45, need60] = [36, 45, 60].map((width) => yards(width, patches)) as [
        number,
        number,
        number,
      ];
      expect(need36).toBe(at36);
      expect(need36 > need45 && need45 > need60).toBe(true);
      expect(at36 > at45 && at45 > at60).toBe(true);
      // Up to 3 3/4 yd within the eighth that chart and shop round to; beyond, within what the chart itself says to add.
      const within = at36 < 4 ? EIGHTH : EIGHTH + extra;
      expect(Math.abs(need45 - at45)).toBeLessThanOrEqual(within);
      expect(Math.abs(need60 - at60)).toBeLessThanOrEqual(within);
    },
  );

  it('keeps its order for a set of covers, too', () => {
    const covers = [loose('front', 17, 17, 4), loose('back', 17, 12, 8), loose('tie', 3, 14, 6)];
    const needs = [36, 45, 60].map((width) => {
      const cutPlan = planned(planOf([clothOf({ width: inches(width) })], covers), 20_000);
      return cutPlan.cloths[0]!.purchase!.bought;
    });
    expect([...needs].sort((a, b) => b - a)).toEqual(needs);
    expect(new Set(needs).size).toBe(3);
  });
});

/** How every piece lies, in quarter turns. */
function turnsOf({ cloths }: CutPlan): readonly number[] {
  return cloths.flatMap(({ lengths }) =>
    lengths.flatMap(({ tree, width, length }) =>
      placeTree(tree, width, length, () => {}).flatMap(({ tree: leaf }) =>
        leaf.kind === 'piece' ? [leaf.quarterTurns] : [],
      ),
    ),
  );
}

/**
 * Spread rules: K. H. Watson, Textiles and Clothing (1907), Placing Patterns; ICAR-IASRI e-courses, Fundamentals of Clothing
 * Construction, lesson 12; Tanzania Institute of Education, Textiles and Garment Construction, Form One (2024), p. 179. They
 * are written for shaped pieces; a plain rectangle turned end for end is the same rectangle, so their "head to tail" is free
 * for it in any cloth, and what they forbid of it is the quarter turn.
 */
describe('published spread rules, read for rectangles', () => {
  // 24 across and 10 up: three rows of two upright, or turned five across a width of 54 in.
  const pieces = [loose('flap', 24, 10, 5)];
  const on = (direction: ClothDirection, changes: Partial<Cloth> = {}) =>
    planned(planOf([clothOf({ direction, ...changes })], pieces), 6000);

  it('lets pieces of plain cloth lie either way, which here saves cloth (Watson: without nap)', () => {
    expect(spreads['nap-without'].values.rotate180).toBe(true);
    const [plain, nap] = [on('plain'), on('nap')];
    expect(new Set(turnsOf(plain))).toEqual(new Set([1]));
    expect(plain.cloths[0]!.purchase!.bought).toBeLessThan(nap.cloths[0]!.purchase!.bought);
  });

  it.each(['nap', 'one-way', 'two-way'] as const)(
    'lays all pieces of a %s cloth one way (Watson: with nap)',
    (direction) => {
      expect(spreads['nap-with'].values.rotate180).toBe(false);
      const cutPlan = on(direction);
      expect(turnsOf(cutPlan)).toEqual([0, 0, 0, 0, 0]);
      // End for end is the same rectangle; a quarter turn is what the rule is about.
      const leaf = pathToPiece(cutPlan);
      expect(checkPlan(changed(cutPlan, [...leaf, 'quarterTurns'], () => 2))).toEqual([]);
      const turned = checkPlan(changed(cutPlan, [...leaf, 'quarterTurns'], () => 1));
      expect(turned.map(({ code }) => code)).toContain('piece-against-print');
    },
  );

  it('cuts napped cloth double on a lengthwise fold, lengths running the same way in both plies (Watson: with nap)', () => {
    const cutPlan = on('nap', { lay: 'folded' });
    const [length] = cutPlan.cloths[0]!.lengths;
    // The fold runs along the length at the middle of the width, so no ply lies head to tail on the other.
    expect(length!.lay).toEqual({ kind: 'folded', foldAt: inches(27) });
    expect(new Set(turnsOf(cutPlan))).toEqual(new Set([0]));
    expect(checkPlan(cutPlan)).toEqual([]);
  });

  it('knows the open lay, the lengthwise centre fold and the fold off the centre among the published types (ICAR)', () => {
    const { types } = spreads.folds.values;
    expect(types).toEqual(expect.arrayContaining(['open', 'lengthwise', 'partial lengthwise', 'crosswise']));
    expect(on('plain').cloths[0]!.lengths[0]!.lay.kind).toBe('flat');
    expect(checkPlan(freshFoldPlan())).toEqual([]);
    const fresh = freshFoldPlan().cloths[0]!.lengths[0]!;
    expect(fresh.lay.kind === 'folded' && 2 * fresh.lay.foldAt !== fresh.width).toBe(true);
  });

  it('folds napped cloth crosswise to reach a long cut, since a rectangle may be turned afterwards (TIE)', () => {
    expect(spreads['crosswise-nap'].values.crosswise_with_nap).toContain('rotate');
    const cloth = clothOf({ direction: 'nap' });
    const cutPlan = planned(planOf([cloth], [loose('drop', 26, 40, 2)]), 6000);
    const [length] = cutPlan.cloths[0]!.lengths;
    const steps = cuttingSteps(length!, cutPlan.plan.tools);
    const folded = steps.filter(({ action, spread }) => action === 'cut-lengthwise' && spread.reachFolds > 0);
    expect(folded.length).toBeGreaterThan(0);
    // However it is folded, each piece lies in the tree as its nap runs, and its up is known.
    expect(turnsOf(cutPlan)).toEqual([0, 0]);
  });

  it('never needs less of a cloth with a direction than of a plain one', () => {
    for (const [width, length, count] of [
      [17, 11, 7],
      [31, 9, 4],
      [13, 22, 6],
    ] as const) {
      const need = (direction: ClothDirection) =>
        planned(planOf([clothOf({ direction })], [loose('mat', width, length, count)]), 6000).cloths[0]!
          .purchase!.bought;
      expect(need('one-way')).toBeGreaterThanOrEqual(need('plain'));
    }
  });
});

/** To the first piece of the first length. */
function pathToPiece({ cloths }: CutPlan): (string | number)[] {
  const path: (string | number)[] = ['cloths', 0, 'lengths', 0, 'tree'];
  let tree = cloths[0]!.lengths[0]!.tree;
  while (tree.kind === 'cut') {
    const index = tree.parts.findIndex((part) => JSON.stringify(part).includes('"piece"'));
    path.push('parts', index);
    tree = tree.parts[index]!;
  }
  return path;
}
