/** Sound plans folded off the middle, and with a piece on the fold, spoiled by a tick or by one word. */
import { clothOf, inches, loose, planned, planOf } from '../planning/build.ts';
import { changed, moved } from '../support/changed.ts';
import { type Spoiled, spoiled } from './spoiled.ts';

const selvedge = { left: inches(0.5), right: inches(0.75) };
const aside = planned(
  planOf(
    [clothOf({ lay: 'folded', foldAt: inches(18), selvedge, direction: 'two-way' })],
    [
      { ...loose('runner', 14, 40, 1), onFold: true, grain: 'lengthwise' },
      { ...loose('mat', 9, 13, 7), grain: 'lengthwise' },
    ],
  ),
  8000,
);
const to =
  <Value>(value: Value) =>
  () =>
    value;
const lay = ['cloths', 0, 'lengths', 0, 'lay'] as const;

export const spoiledOffCentre: readonly Spoiled[] = [
  spoiled(
    'the fold is not where the cloth is to be folded',
    changed(aside, ['plan', 'cloths', 0, 'foldAt'], to(inches(18) + 1)),
    'fold-not-as-asked',
  ),
  spoiled(
    'the piece on the fold is a tick off it, with all that lies double',
    moved(moved(aside, [...lay, 'foldAt'], 1), ['plan', 'cloths', 0, 'foldAt'], 1),
    ...(['fold-piece-alone', 'fold-cut-alone', 'piece-off-fold'] as const),
  ),
  spoiled(
    'a piece beside the fold is to be cut on it',
    changed(changed(aside, ['pieces', 1, 'onFold'], to(true)), ['plan', 'pieces', 1, 'onFold'], to(true)),
    'piece-off-fold',
  ),
  spoiled(
    'all is to be cut in two plies, and some lies in one',
    changed(
      changed(
        changed(aside, ['plan', 'cloths', 0, 'foldAt'], to(undefined)),
        ['pieces', 0, 'onFold'],
        to(undefined),
      ),
      ['plan', 'pieces', 0, 'onFold'],
      to(undefined),
    ),
    'fold-piece-alone',
  ),
];
