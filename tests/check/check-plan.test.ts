import { describe, expect, it } from 'vitest';
import { checkPlan } from '../../src/check/check-plan.ts';
import { faultCodes, wordFault } from '../../src/check/fault-words.ts';
import { formatLength } from '../../src/units/format.ts';
import { changed, moved } from '../support/changed.ts';
import { joinedPlan } from '../support/joined-plan.ts';
import { cm } from '../support/plan-parts.ts';
import { foldedPlan, freshFoldPlan, smallPlan, twoLengthsPlan } from '../support/plans.ts';
import { crosscut, piece, remnant, trim } from '../support/trees.ts';
import type { Spoiled } from './spoiled.ts';
import { spoiledFolds, spoiledLeftovers, spoiledPieces, spoiledTrees } from './spoiled-cloth.ts';
import { spoiledCollections } from './spoiled-collection.ts';
import { spoiledJoins, spoiledLists, spoiledOrders, spoiledPurchases } from './spoiled-lists.ts';
import { spoiledFlaws, spoiledMatches } from './spoiled-match.ts';
import { spoiledMeasures } from './spoiled-measured.ts';
import { spoiledOffCentre } from './spoiled-off-centre.ts';
import { spoiledOpenings } from './spoiled-openings.ts';
import { panelPlans, spoiledPanels } from './spoiled-panels.ts';
import { spoiledStacks } from './spoiled-stacks.ts';
import { flawedOffer, offeredPlan, severalPlan, spoiledUses } from './spoiled-uses.ts';
import { largerPlan, spoiledWashing } from './spoiled-washing.ts';

const allSpoiled: readonly Spoiled[] = [
  ...spoiledCollections,
  ...[...spoiledTrees, ...spoiledPieces, ...spoiledLeftovers, ...spoiledFolds],
  ...[
    ...spoiledPurchases,
    ...spoiledLists,
    ...spoiledOrders,
    ...spoiledJoins,
    ...spoiledOpenings,
    ...spoiledStacks,
    ...spoiledMatches,
    ...spoiledOffCentre,
    ...spoiledFlaws,
    ...spoiledMeasures,
    ...spoiledUses,
    ...spoiledPanels,
    ...spoiledWashing,
  ],
];

const section = ['cloths', 0, 'lengths', 0, 'tree', 'parts', 1] as const;

describe('a sound plan has no fault', () => {
  it.each([
    ['flat, bought and in hand', smallPlan()],
    ['folded at the crease', foldedPlan()],
    ['on a fresh fold', freshFoldPlan()],
    ['two bought lengths', twoLengthsPlan()],
    ['joined by a lap', joinedPlan()],
    ['with uses of its leftovers', offeredPlan],
    ['with uses beside a flaw', flawedOffer],
    ['with uses in a print, and of several cloths', severalPlan],
    ['cut larger for a wash to come', largerPlan],
    ['around printed panels', panelPlans.printed],
    ['around a panel whose start is not known', panelPlans.anywhere],
  ])('%s', (_, cutPlan) => {
    expect(checkPlan(cutPlan)).toEqual([]);
  });

  it('with a limit of as many stages as it needs', () => {
    expect(checkPlan(changed(smallPlan(), ['plan', 'stages'], () => 3))).toEqual([]);
  });

  it('with two stages where the last cut trims a single piece to size', () => {
    const lone = crosscut([cm(24)], piece('bench covers/wrap'), remnant);
    const cut = changed(smallPlan(), [...section, 'parts', 5], () => lone);
    const wanted = changed(cut, ['pieces', 1, 'copies'], () => 1);
    expect(checkPlan(changed(wanted, ['plan', 'stages'], () => 2))).toEqual([]);
  });

  it('with a strip beside a piece called trimmed to size', () => {
    const strip = ['cloths', 1, 'lengths', 0, 'tree', 'parts', 1, 'parts', 3] as const;
    expect(checkPlan(changed(smallPlan(), strip, () => trim('cut-to-size')))).toEqual([]);
  });

  it('with best claimed where a bound a tick above five steps needs the sixth', () => {
    expect(checkPlan(changed(smallPlan(), ['cloths', 0, 'bound'], () => cm(50) + 1))).toEqual([]);
  });

  it('with half a hundredth rounded up', () => {
    const priced = changed(smallPlan(), ['plan', 'cloths', 0, 'price'], () => ({
      hundredths: 3,
      per: cm(40),
    }));
    const costing = (cost: number) => changed(priced, ['cloths', 0, 'purchase', 'cost'], () => cost);
    // 3 × 60 / 40 = 4.5
    expect(checkPlan(costing(5))).toEqual([]);
    expect(checkPlan(costing(4)).map(({ code }) => code)).toEqual(['cost-wrong']);
  });

  it('when turned end for end', () => {
    const turned = changed(smallPlan(), [...section, 'parts', 1, 'quarterTurns'], () => 2);
    expect(checkPlan(turned)).toEqual([]);
  });
});

describe('a spoiled plan is caught', () => {
  it.each(allSpoiled)('$what', ({ cutPlan, codes }) => {
    const found = new Set(checkPlan(cutPlan).map(({ code }) => code));
    expect([...found].sort()).toEqual([...codes].sort());
  });

  it('for every kind of fault', () => {
    const shown = new Set(allSpoiled.flatMap(({ codes }) => codes));
    expect([...shown].sort()).toEqual([...faultCodes].sort());
  });
});

describe('a crease between two ticks', () => {
  const odd = (by: number) => {
    const inHand = ['plan', 'cloths', 0, 'inHand', 0] as const;
    const wide = moved(
      moved(freshFoldPlan(), [...inHand, 'width'], by),
      [...inHand, 'selvedge', 'right'],
      by,
    );
    return moved(wide, ['cloths', 0, 'lengths', 0, 'width'], by);
  };

  it('costs each side the half tick', () => {
    // The crease moves up by half a tick; the remnant that began at the strip's far edge now counts a half tick of it.
    expect(checkPlan(odd(1)).map(({ code }) => code)).toEqual(['remnant-counts-trim']);
    expect(checkPlan(odd(-1))).toEqual([]);
  });
});

describe('a fault in words', () => {
  const say = (length: Parameters<typeof formatLength>[0]) => formatLength(length, { unit: 'cm' });

  it.each(allSpoiled)('says where and what: $what', ({ cutPlan }) => {
    for (const fault of checkPlan(cutPlan)) {
      const words = wordFault(fault, say);
      expect(words).toMatch(/^".+?: \S.*\.$/);
      expect(words).not.toMatch(/undefined|NaN|\[object/);
    }
  });

  it('names the piece, its place and the figures', () => {
    const { cutPlan } = spoiledPieces.find(({ what }) => what.includes('wrong cloth'))!;
    expect(checkPlan(cutPlan).map((fault) => wordFault(fault, say))).toEqual([
      '"tide stripe", "bought", "napkin", at 1 cm across, 2 cm along: ought to be cut from "shingle linen".',
      '"tide stripe", "bench covers/front": only 2 of 3 are cut.',
    ]);
  });
});
