/** Sound plans of a matched print, spoiled by one tick of the print or of its edge. */
import { clothOf, inches, loose, planned, planOf } from '../planning/build.ts';
import { changed, moved } from '../support/changed.ts';
import { type Spoiled, spoiled } from './spoiled.ts';

const repeat = { along: inches(15), across: inches(13), fromEdge: inches(7), drop: 'half' } as const;
const matched = planned(
  planOf(
    [clothOf({ direction: 'one-way', repeat })],
    [
      { ...loose('front', 17, 17, 3), match: { kind: 'centre' } },
      { ...loose('strip', 6, 11, 4), match: { kind: 'alike' } },
      { ...loose('drop', 9, 20, 2), match: { kind: 'drops' } },
    ],
  ),
  4000,
);
const cloth = ['plan', 'cloths', 0] as const;

const edges = {
  width: inches(30),
  selvedge: { left: inches(0), right: inches(0) },
  crease: { kind: 'none' },
} as const;
const stain = {
  outline: [
    [20, 0],
    [30, 0],
    [30, 9],
  ].map(([x, y]) => ({ x: inches(x!), y: inches(y!) })),
};
const { buy: _, ...oddment } = clothOf({
  width: inches(30),
  inHand: [{ name: 'oddment', length: inches(40), copies: 1, flaws: [stain], ...edges }],
});
const flawed = planned(planOf([oddment], [loose('mat', 19, 17, 1)]), 2000);
const flaw = ['plan', 'cloths', 0, 'inHand', 0, 'flaws', 0, 'outline'] as const;

export const spoiledFlaws: readonly Spoiled[] = [
  spoiled(
    'a stain lies in the middle of all of it',
    changed(flawed, [...flaw], () =>
      [
        [1, 1],
        [29, 1],
        [29, 39],
        [1, 39],
      ].map(([x, y]) => ({ x: inches(x!), y: inches(y!) })),
    ),
    ...(['piece-over-flaw', 'remnant-over-flaw'] as const),
  ),
];

export const spoiledMatches: readonly Spoiled[] = [
  spoiled(
    'the print starts one tick further in',
    moved(matched, [...cloth, 'repeat', 'fromEdge'], 1),
    'match-missed',
  ),
  spoiled(
    'the print repeats one tick later along the length',
    moved(matched, [...cloth, 'repeat', 'along'], 1),
    ...(['match-missed', 'needed-wrong'] as const),
  ),
  spoiled(
    'the cloth has no repeat after all',
    changed(matched, [...cloth, 'repeat'], () => undefined),
    ...(['match-without-repeat', 'needed-wrong'] as const),
  ),
];
