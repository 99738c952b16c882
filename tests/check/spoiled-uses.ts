/** Sound plans with what their leftovers could become, spoiled in what is offered. */
import { makes } from '../../src/makes/catalogue.ts';
import { NO_RULES } from '../../src/model/collection.ts';
import type { CutPlan } from '../../src/model/cut-plan.ts';
import type { Wish } from '../../src/model/leftover-use.ts';
import { readPlan } from '../../src/model/plan-file.ts';
import { clothOf, inches, loose, planned, planOf } from '../planning/build.ts';
import { changed, moved } from '../support/changed.ts';
import { type Path, type Spoiled, spoiled, to } from './spoiled.ts';

const wish: Wish = {
  name: 'napkins',
  make: 'napkin',
  measures: {
    size: { width: inches(10), length: inches(10) },
    hem: { visible: inches(1 / 2), under: inches(1 / 4) },
    corners: 'mitred',
  },
  most: 15,
  least: 1,
  worth: 150,
};

// 40 in are bought; two mats side by side take 24 in between squared ends: one leftover across the whole width, with the crease in it.
const porch = clothOf({
  selvedge: { left: inches(1 / 2), right: inches(1 / 2) },
  crease: { kind: 'keep-off', each: inches(1) },
  squaring: inches(1 / 2),
  price: { hundredths: 1200, per: inches(36) },
  buy: { step: inches(20) },
  washing: {
    along: { numerator: 0, denominator: 1 },
    across: { numerator: 0, denominator: 1 },
    washed: 'after-sewing',
  },
});
const mat = { ...loose('mat', 25, 24, 2), grain: 'lengthwise' } as const;
const offered: CutPlan = planned(planOf([porch], [mat], { wishes: [wish] }), 4000);
const own: Path = ['uses', 0];
const left: Path = [...own, 'left', 0];
const inHand: Path = [...own, 'cloth', 'inHand', 0];
const more: Path = [...own, 'more', 0];
const use: Path = [...own, 'uses', 0];

const stain = {
  outline: [
    [0, 26],
    [9, 26],
    [9, 30],
  ].map(([x, y]) => ({ x: inches(x!), y: inches(y!) })),
};
const edges = { width: inches(30), selvedge: { left: inches(0), right: inches(0) } };
const { buy: _, ...old } = clothOf({
  ...edges,
  inHand: [
    { name: 'old', length: inches(52), copies: 1, crease: { kind: 'none' }, flaws: [stain], ...edges },
  ],
});
const flawed = planned(planOf([old], [loose('mat', 30, 17, 1)], { wishes: [wish] }), 4000);

// A strip right across leaves 30 in of a print whose first motif was measured, and a plain cloth leaves its end as well.
const printed = clothOf({
  name: 'kelp print',
  width: inches(40),
  selvedge: { left: inches(0), right: inches(0) },
  repeat: { along: inches(12), across: inches(10), fromEdge: inches(6), drop: 'straight' },
  inHand: [
    {
      name: 'rest of bolt',
      length: inches(40),
      width: inches(40),
      copies: 1,
      selvedge: { left: inches(0), right: inches(0) },
      crease: { kind: 'none' },
      firstMotif: inches(5),
    },
  ],
});
const { buy: __, ...print } = printed;
const { repeat: _repeat, ...unprinted } = print;
const linen = {
  ...unprinted,
  name: 'oat linen',
  inHand: [{ ...print.inHand[0]!, name: 'end', length: inches(30) }].map(
    ({ firstMotif: _, ...length }) => length,
  ),
};
const squares: Wish = {
  ...{ ...wish, name: 'squares', worth: 0, most: 6 },
  matches: { napkin: { kind: 'centre' } },
};
const mats: Wish = {
  name: 'mats',
  make: 'place-mat',
  measures: { ...matMeasures() },
  parts: { front: ['kelp print'], lining: ['oat linen'] },
  most: 2,
  least: 1,
  worth: 300,
};
const strips = [
  { ...loose('strip', 40, 10, 1), cloth: 'kelp print', grain: 'lengthwise' },
  { ...loose('band', 40, 10, 1), cloth: 'oat linen', grain: 'lengthwise' },
] as const;
const several = planned(planOf([print, linen], [...strips], { wishes: [squares, mats] }), 4000);
const across: Path = ['usesAcross', 0];

function matMeasures(): Wish['measures'] {
  const order = readPlan(
    'plan: Porch\nunit: in\ncloths: { linen: { width: 40, selvedge: 0, buy: yes } }\nmake: [{ name: mats, kind: place-mat, count: 1, size: 9 x 8, cloth: linen }]\n',
    { file: 'plan.yaml', makes: makes.map(({ spec }) => spec) },
  );
  if (!order.ok) throw new Error(JSON.stringify(order.issues));
  return order.value.makes[0]!.measures;
}

/** The leftover and its length in hand, each told otherwise. */
const told = (cutPlan: CutPlan, box: string, by: number, size: 'width' | 'length', grows: number) =>
  moved(moved(cutPlan, [...left, 'from', 'box', box], by), [...inHand, size], grows);

export const spoiledUses: readonly Spoiled[] = [
  spoiled(
    'uses of a cloth that is none',
    changed(offered, [...own, 'cloth', 'name'], to('fog')),
    'cloth-unknown',
  ),
  spoiled(
    'a leftover of a length that is not cut',
    changed(offered, [...left, 'from', 'length'], to('bought 2')),
    'left-of-nothing',
  ),
  spoiled(
    'a leftover offered twice',
    changed(offered, [...own, 'left'], (all: unknown[]) => [...all, ...all]),
    'left-twice',
  ),
  spoiled(
    'a leftover a tick wider than its place',
    moved(offered, [...inHand, 'width'], 1),
    ...(['left-size', 'use-cloth'] as const),
  ),
  spoiled(
    'a leftover that reaches a tick into the squared end',
    told(offered, 'y1', 1, 'length', 1),
    ...(['left-outside', 'use-cloth'] as const),
  ),
  spoiled(
    'a leftover a tick over a piece',
    told(offered, 'y0', -1, 'length', 1),
    ...(['left-over-piece', 'use-cloth'] as const),
  ),
  spoiled(
    'a leftover whose selvedge is a tick too narrow',
    moved(offered, [...inHand, 'selvedge', 'left'], -1),
    ...(['left-selvedge', 'use-cloth'] as const),
  ),
  spoiled(
    'a leftover whose crease is a tick too narrow',
    moved(offered, [...inHand, 'crease', 'each'], -1),
    ...(['left-crease', 'use-cloth'] as const),
  ),
  spoiled(
    'a leftover a tick smaller than is kept',
    changed(offered, ['plan', 'keep'], to({ width: inches(15.5) + 1, length: inches(15.5) + 1 })),
    ...(['left-too-small', 'remnant-too-small'] as const),
  ),
  spoiled(
    'leftovers that are told as plain though they have a print',
    changed(offered, ['plan', 'cloths', 0, 'direction'], to('two-way')),
    ...(['left-cloth', 'use-cloth'] as const),
  ),
  spoiled(
    'more of a use than is planned',
    moved(offered, [...use, 'count'], -1),
    ...(['use-count', 'use-worth'] as const),
  ),
  spoiled('more of a use than is of use', moved(offered, [...use, 'wish', 'most'], -12), 'use-count'),
  spoiled('a use from another leftover', changed(offered, [...use, 'from'], to(['fog'])), 'use-count'),
  spoiled('a use said to be worth a hundredth more', moved(offered, [...use, 'worth'], 1), 'use-worth'),
  spoiled(
    'a use whose own plan is unsound',
    changed(offered, [...use, 'plan', 'cloths', 0, 'surplus'], to([{ piece: 'napkins/napkin', copies: 1 }])),
    'surplus-unreal',
  ),
  spoiled(
    'an addition that forgets what was wanted',
    changed(offered, ['pieces', 0, 'copies'], to(1)),
    ...(['more-wants', 'loose-piece-unmet', 'piece-unasked', 'surplus-undeclared'] as const),
  ),
  spoiled('an addition a step too long', moved(offered, [...more, 'more'], inches(20)), 'more-bought'),
  spoiled('an addition a hundredth cheaper', moved(offered, [...more, 'cost'], -1), 'more-cost'),
  spoiled(
    'an addition that gives no more than none',
    changed(offered, [...more, 'without'], to(12)),
    'use-count',
  ),
  spoiled(
    'a leftover a tick over a flaw',
    moved(flawed, ['plan', 'cloths', 0, 'inHand', 0, 'flaws', 0, 'outline', 2, 'y'], 1),
    ...(['left-over-flaw', 'remnant-over-flaw'] as const),
  ),
  spoiled(
    'a leftover whose print is told a tick further along',
    moved(several, [...inHand, 'firstMotif'], 1),
    ...(['left-print', 'use-cloth'] as const),
  ),
  spoiled(
    'a leftover whose print is told a tick further across',
    moved(several, [...inHand, 'motifFromEdge'], 1),
    ...(['left-print', 'use-cloth'] as const),
  ),
  spoiled(
    'a leftover whose print repeats a tick later',
    moved(several, [...own, 'cloth', 'repeat', 'along'], 1),
    ...(['left-cloth', 'use-cloth'] as const),
  ),
  spoiled(
    'a use that is matched otherwise than it is wished',
    changed(several, [...use, 'wish', 'matches'], to({ napkin: { kind: 'alike' } })),
    'use-count',
  ),
  spoiled(
    'a use of several cloths whose part comes from another cloth',
    changed(several, [...across, 'wish', 'parts', 'lining'], to(['kelp print'])),
    'use-parts',
  ),
  spoiled(
    'a use of several cloths that keeps no rule',
    changed(several, [...across, 'wish', 'rules'], to({ ...NO_RULES, alike: ['front', 'lining'] })),
    'use-parts',
  ),
  spoiled(
    'more of a use of several cloths than is planned',
    moved(several, [...across, 'count'], -1),
    'use-count',
    'use-worth',
  ),
  spoiled('a use of several cloths a hundredth dearer', moved(several, [...across, 'worth'], 1), 'use-worth'),
  spoiled(
    'a use of several cloths from a leftover that is none',
    moved(several, [...across, 'plan', 'plan', 'cloths', 1, 'inHand', 0, 'length'], 1),
    ...(['use-cloth', 'length-length'] as const),
  ),
  spoiled(
    'a use of several cloths that one of them is told to give',
    changed(several, [...across, 'from'], (all: unknown[]) => all.slice(1)),
    'use-count',
  ),
];
export const severalPlan = several;
export const offeredPlan = offered;
export const flawedOffer = flawed;
