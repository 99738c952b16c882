/** Sound plans of a matched print, spoiled by one tick of the print or of its edge. */
import type { CutPlan } from '../../src/model/cut-plan.ts';
import type { CutTree } from '../../src/model/cut-tree.ts';
import { clothOf, inches, loose, planned, planOf } from '../planning/build.ts';
import { changed, moved } from '../support/changed.ts';
import { type Path, type Spoiled, spoiled } from './spoiled.ts';

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
const begins = ['cloths', 0, 'lengths', 0, 'begins'] as const;

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

const length = (name: string) => ({ name, length: inches(42), copies: 1, ...edges, width: inches(45) });
const { buy: __, ...twoLengths } = clothOf({
  repeat: { along: inches(9), drop: 'straight' },
  inHand: [length('one'), length('two')],
});
const apart = planned(
  planOf([twoLengths], [{ ...loose('panel', 20, 14, 6), match: { kind: 'alike' } }]),
  2000,
);

/** The way to the first piece of a name on one length. */
function pieceOf({ cloths }: CutPlan, length: number, name: string): Path {
  const search = (tree: CutTree, path: Path): Path | undefined => {
    if (tree.kind === 'piece') return tree.piece === name ? path : undefined;
    if (tree.kind !== 'cut') return undefined;
    for (const [index, part] of tree.parts.entries()) {
      const found = search(part, [...path, 'parts', index]);
      if (found) return found;
    }
    return undefined;
  };
  return search(cloths[0]!.lengths[length]!.tree, ['cloths', 0, 'lengths', length, 'tree'])!;
}

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
    'the half drop repeats two ticks later along the length, the least that it may',
    moved(matched, [...cloth, 'repeat', 'along'], 2),
    ...(['match-missed', 'needed-wrong', 'begin-wrong'] as const),
  ),
  spoiled(
    'one tick more goes to begin the print than a repeat',
    moved(matched, [...begins, 'within'], 1),
    ...(['begin-wrong', 'match-missed', 'piece-in-squaring', 'remnant-counts-trim'] as const),
  ),
  spoiled(
    'the length is not begun in its print',
    changed(matched, [...begins], () => undefined),
    ...(['begin-wrong', 'needed-wrong', 'trim-keepable', 'trim-misplaced'] as const),
  ),
  spoiled(
    'the motif is told one tick further from the cut that begins the print',
    moved(matched, [...begins, 'motif'], 1),
    'match-missed',
  ),
  spoiled(
    'one of two lengths is begun at another place of the print',
    changed(apart, ['cloths', 0, 'lengths', 1, 'begins', 'motif'], () => inches(3)),
    'begins-apart',
  ),
  spoiled(
    'where the motif then lies is not told',
    changed(matched, [...begins, 'motif'], () => undefined),
    'begin-untold',
  ),
  spoiled(
    'a piece with a motif in it stands on its head',
    changed(matched, [...pieceOf(matched, 0, 'front'), 'quarterTurns'], () => 2),
    'match-turned',
  ),
  spoiled(
    'one of two lengths gives a piece that lies the other way round from its fellows',
    changed(apart, [...pieceOf(apart, 1, 'panel'), 'quarterTurns'], () => 2),
    'match-turned',
  ),
  spoiled(
    'the cloth has no repeat after all',
    changed(matched, [...cloth, 'repeat'], () => undefined),
    ...(['match-without-repeat', 'begin-wrong'] as const),
  ),
];
