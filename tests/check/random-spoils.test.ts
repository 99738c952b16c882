/** Plans as the program makes them, spoiled at a place drawn by chance: the checker must notice every time. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkPlan } from '../../src/check/check-plan.ts';
import type { CutPlan } from '../../src/model/cut-plan.ts';
import { makeCutPlan } from '../../src/planning/plan.ts';
import { changed } from '../support/changed.ts';
import { randomPlan } from '../support/random-plan.ts';
import type { Tree } from '../support/trees.ts';

type Path = readonly (string | number)[];

interface Spot {
  readonly path: Path;
  readonly tree: Tree;
}

/** Sound plans only: what is wrong before it is spoiled proves nothing. */
function soundPlans(count: number): readonly CutPlan[] {
  const plans = fc.sample(randomPlan(), { numRuns: count, seed: 71_003 });
  return plans.flatMap((plan) => {
    const outcome = makeCutPlan(plan, { effort: 500, seed: 9 });
    return outcome.ok && checkPlan(outcome.value).length === 0 ? [outcome.value] : [];
  });
}

function spotsOf(cutPlan: CutPlan): readonly Spot[] {
  const spots: Spot[] = [];
  const visit = (tree: Tree, path: Path): void => {
    spots.push({ path, tree });
    if (tree.kind !== 'cut') return;
    for (const [index, part] of tree.parts.entries()) visit(part, [...path, 'parts', index]);
  };
  for (const [cloth, { lengths }] of cutPlan.cloths.entries()) {
    for (const [length, { tree }] of lengths.entries()) {
      visit(tree, ['cloths', cloth, 'lengths', length, 'tree']);
    }
  }
  return spots;
}

describe('a random plan spoiled by chance', () => {
  const plans = soundPlans(60);
  const chance = fc.record({
    cutPlan: fc.constantFrom(...plans),
    spot: fc.nat(),
    side: fc.nat(),
    by: fc.constantFrom(-1, 1),
  });
  const pick = <T>(from: readonly T[], at: number): T => from[at % from.length]!;
  const piecesOf = (cutPlan: CutPlan) => spotsOf(cutPlan).filter(({ tree }) => tree.kind === 'piece');
  const spoilt = (cutPlan: CutPlan) => checkPlan(cutPlan).length > 0;

  it('starts from many sound plans', () => {
    expect(plans.length).toBeGreaterThan(20);
  });

  it('is caught when a cut beside a piece is moved by one tick', () => {
    fc.assert(
      fc.property(chance, ({ cutPlan, spot, side, by }) => {
        const beside = spotsOf(cutPlan).flatMap(({ path, tree }) =>
          tree.kind === 'cut'
            ? tree.at.flatMap((_, index) =>
                tree.parts[index]!.kind === 'piece' || tree.parts[index + 1]!.kind === 'piece'
                  ? [[...path, 'at', index]]
                  : [],
              )
            : [],
        );
        fc.pre(beside.length > 0);
        return spoilt(changed(cutPlan, pick(beside, spot + side), (at: number) => at + by));
      }),
      { numRuns: 300, seed: 88 },
    );
  });

  it('is caught when a piece is turned by a quarter, unless it may lie either way and is square', () => {
    const seen = { turned: 0, free: 0 };
    fc.assert(
      fc.property(chance, ({ cutPlan, spot, by }) => {
        const { path, tree } = pick(piecesOf(cutPlan), spot);
        const wanted = cutPlan.pieces.find(({ id }) => tree.kind === 'piece' && id === tree.piece)!;
        const cloth = cutPlan.plan.cloths.find(({ name }) => name === wanted.cloth)!;
        const square = wanted.size.width === wanted.size.length;
        const free = square && wanted.grain === 'either' && cloth.direction === 'plain';
        seen[free ? 'free' : 'turned'] += 1;
        const turned = changed(cutPlan, [...path, 'quarterTurns'], (turns: number) => (turns + 4 + by) % 4);
        return spoilt(turned) !== free;
      }),
      { numRuns: 300, seed: 89 },
    );
    expect(seen.turned).toBeGreaterThan(200);
  });

  it('is caught when a piece is lost, or cut in the place of something left over', () => {
    fc.assert(
      fc.property(chance, ({ cutPlan, spot, by }) => {
        const { path, tree } = pick(piecesOf(cutPlan), spot);
        if (by === 1) return spoilt(changed(cutPlan, path, () => ({ kind: 'scrap' })));
        const left = spotsOf(cutPlan).filter(({ tree }) => tree.kind !== 'cut' && tree.kind !== 'piece');
        fc.pre(left.length > 0);
        return spoilt(changed(cutPlan, pick(left, spot).path, () => tree));
      }),
      { numRuns: 300, seed: 90 },
    );
  });

  it('is caught when a leftover goes by another name', () => {
    fc.assert(
      fc.property(chance, ({ cutPlan, spot, side }) => {
        const named = spotsOf(cutPlan).filter(({ tree }) => tree.kind === 'remnant' || tree.kind === 'trim');
        fc.pre(named.length > 0);
        const { path, tree } = pick(named, spot);
        // A remnant is never trim or scrap; trim is never a remnant.
        const others = tree.kind === 'remnant' ? ['scrap', 'selvedge', 'crease', 'squaring'] : ['remnant'];
        const other = pick(others, side);
        const renamed =
          other === 'scrap' || other === 'remnant' ? { kind: other } : { kind: 'trim', of: other };
        return spoilt(changed(cutPlan, path, () => renamed));
      }),
      { numRuns: 300, seed: 91 },
    );
  });
});
