/** Sound plans spoiled on the cloth by one tick, one turn or one part each, with every code the checker must then report. */
import { ticks } from '../../src/units/ticks.ts';
import { changed, moved } from '../support/changed.ts';
import { cm, inches } from '../support/plan-parts.ts';
import { crosscut, lengthwise, piece, remnant, scrap, trim } from '../support/trees.ts';
import {
  bench,
  cloth,
  folded,
  fresh,
  oddment,
  part,
  type Spoiled,
  section,
  spoiled,
  to,
  tree,
} from './spoiled.ts';

/** The bench's length with its selvedges trimmed off before the ends are squared, so that its crosscut is a stage. */
const trimmedFirst = lengthwise(
  [cm(1), cm(145.4)],
  trim('selvedge'),
  crosscut(
    [cm(2), cm(52), cm(55.6)],
    trim('squaring'),
    lengthwise(
      [cm(36), cm(72), cm(73), cm(109), cm(144)],
      piece('bench covers/front'),
      piece('bench covers/front', 2),
      trim('crease'),
      piece('bench covers/front'),
      crosscut([cm(24), cm(48)], piece('bench covers/wrap'), piece('bench covers/wrap'), scrap),
      scrap,
    ),
    scrap,
    trim('squaring'),
  ),
  trim('selvedge'),
);

export const spoiledTrees: readonly Spoiled[] = [
  spoiled(
    'pieces overlap by one tick: the cut between them is moved',
    moved(bench, [...section, 'at', 1], 1),
    ...(['piece-size', 'cut-off-marks'] as const),
  ),
  spoiled(
    'a cut lies no further than the one before it',
    changed(bench, [...part(5), 'at', 1], to(cm(24))),
    ...(['cut-position', 'cloth-lost', 'pieces-short'] as const),
  ),
  spoiled(
    'a cut lies on the far edge of its part',
    changed(bench, [...part(5), 'at', 1], to(cm(50))),
    ...(['cut-position', 'cloth-lost', 'pieces-short'] as const),
  ),
  spoiled(
    'a cut lies between two ticks',
    changed(bench, [...part(5), 'at', 1], to(cm(48) + 0.5)),
    ...(['cut-position', 'cloth-lost', 'pieces-short'] as const),
  ),
  spoiled(
    'a part is missing',
    changed(bench, [...part(5), 'parts'], (parts: unknown[]) => parts.slice(0, 2)),
    ...(['cut-parts', 'cloth-lost', 'pieces-short'] as const),
  ),
  spoiled(
    'there is a part too many',
    changed(bench, [...part(5), 'parts'], (parts: unknown[]) => [...parts, scrap]),
    ...(['cut-parts', 'cloth-lost', 'pieces-short'] as const),
  ),
  spoiled(
    'a cut misses the ruler mark by one tick',
    changed(bench, [...tree, 'parts', 2], to(lengthwise([ticks(cm(40) + 1)], scrap, scrap))),
    'cut-off-marks',
  ),
  spoiled(
    'two pieces need a third stage where two are allowed',
    changed(changed(bench, ['plan', 'stages'], to(2)), [...tree], to(trimmedFirst)),
    'too-many-stages',
  ),
  spoiled(
    'a length is a tick too wide',
    moved(bench, ['cloths', 0, 'lengths', 0, 'width'], 1),
    'length-width',
  ),
  spoiled(
    'a length is a tick too long',
    moved(bench, ['cloths', 0, 'lengths', 0, 'length'], 1),
    'length-length',
  ),
  spoiled(
    'a third oddment is cut of two',
    changed(bench, ['cloths', 1, 'lengths', 1, 'name'], to('oddment 3')),
    ...(['length-unknown', 'pieces-short'] as const),
  ),
  spoiled(
    'one oddment is cut twice',
    changed(bench, ['cloths', 1, 'lengths', 1, 'name'], to('oddment 1')),
    'length-repeated',
  ),
  spoiled(
    'nothing is cut from a length',
    changed(bench, ['cloths', 1, 'lengths', 1, 'tree'], to(trim('squaring'))),
    ...(['length-uncut', 'pieces-short', 'trim-misplaced', 'trim-keepable'] as const),
  ),
];

export const spoiledPieces: readonly Spoiled[] = [
  spoiled(
    'pieces lie a tick over the kept-off strip',
    moved(bench, [...cloth(0), 'crease', 'each'], 1),
    ...(['piece-over-crease'] as const),
  ),
  spoiled(
    'a piece reaches a tick into the kept-off strip',
    moved(bench, [...section, 'at', 2], 1),
    ...(['piece-over-crease', 'piece-size'] as const),
  ),
  spoiled(
    'a piece lies a tick over the left selvedge',
    moved(bench, [...section, 'at', 0], -1),
    ...(['piece-over-selvedge', 'piece-size'] as const),
  ),
  spoiled(
    'a piece lies a tick over the right selvedge',
    changed(bench, [...cloth(1), 'inHand', 0, 'selvedge', 'right'], to(cm(1.1) + 1)),
    ...(['piece-over-selvedge', 'scrap-counts-trim', 'remnant-counts-trim'] as const),
  ),
  spoiled(
    'a piece lies a tick within the near squared end',
    moved(bench, [...tree, 'at', 0], -1),
    ...(['piece-in-squaring', 'piece-size', 'cut-off-marks'] as const),
  ),
  spoiled(
    'a piece lies a tick within the far squared end',
    moved(folded, [...tree, 'at', 2], 1),
    ...(['piece-in-squaring', 'piece-size', 'needed-wrong'] as const),
  ),
  spoiled(
    'a piece is turned against its print',
    changed(bench, [...part(5), 'parts', 0, 'quarterTurns'], to(3)),
    ...(['piece-against-print', 'piece-size'] as const),
  ),
  spoiled(
    'the print runs across and the pieces do not',
    changed(bench, [...cloth(0), 'printRuns'], to('across')),
    'piece-against-print',
  ),
  spoiled(
    'a nap runs along and the pieces lie across',
    changed(changed(folded, [...cloth(0), 'printRuns'], to('along')), [...cloth(0), 'direction'], to('nap')),
    'piece-against-print',
  ),
  spoiled(
    'a piece is turned off its grain',
    changed(bench, [...oddment, 'parts', 1, 'parts', 1, 'quarterTurns'], to(2)),
    ...(['piece-off-grain', 'piece-size'] as const),
  ),
  spoiled(
    'another piece is cut than is wanted',
    changed(bench, [...part(1), 'piece'], to('stowaway')),
    ...(['piece-unknown', 'pieces-short'] as const),
  ),
  spoiled(
    'a piece is cut from the wrong cloth',
    changed(bench, [...part(1), 'piece'], to('napkin')),
    ...(['piece-of-another-cloth', 'pieces-short'] as const),
  ),
  spoiled(
    'a cut size is a tick off the ruler marks',
    moved(bench, ['pieces', 2, 'size', 'width'], 1),
    ...(['piece-off-marks', 'piece-size'] as const),
  ),
  spoiled(
    'a cut size is a tick smaller than what is needed',
    moved(bench, ['pieces', 1, 'exactSize', 'length'], 1),
    'piece-under-size',
  ),
  spoiled(
    'a piece is wanted twice over',
    changed(bench, ['pieces'], (pieces: unknown[]) => [...pieces, pieces[0]]),
    'piece-repeated',
  ),
  spoiled('a piece is missing', moved(bench, ['pieces', 0, 'copies'], 1), 'pieces-short'),
  spoiled(
    'a piece is scrap',
    changed(bench, part(1), to(scrap)),
    ...(['pieces-short', 'scrap-keepable'] as const),
  ),
  spoiled('a surplus is not declared', moved(bench, ['pieces', 0, 'copies'], -1), 'surplus-undeclared'),
  spoiled(
    'a folded spare is not declared',
    changed(folded, ['cloths', 0, 'surplus'], to([])),
    'surplus-undeclared',
  ),
  spoiled(
    'a surplus of one is declared as two',
    moved(folded, ['cloths', 0, 'surplus', 0, 'copies'], 1),
    'surplus-unreal',
  ),
  spoiled(
    'a surplus of none is declared',
    changed(bench, ['cloths', 0, 'surplus'], to([{ piece: 'bench covers/wrap', copies: 0 }])),
    'surplus-misdeclared',
  ),
  spoiled(
    'a surplus is declared of a piece of another cloth',
    changed(bench, ['cloths', 0, 'surplus'], to([{ piece: 'napkin', copies: 1 }])),
    'surplus-misdeclared',
  ),
];

export const spoiledLeftovers: readonly Spoiled[] = [
  spoiled(
    'a remnant counts a tick of selvedge',
    moved(bench, [...oddment, 'parts', 2, 'at', 0], -1),
    'remnant-counts-trim',
  ),
  spoiled(
    'a remnant counts the crease strip',
    changed(fresh, section, () =>
      lengthwise(
        [inches(0.5), inches(24.5), inches(59.75)],
        ...[trim('selvedge'), { kind: 'piece', piece: 'hall runner', quarterTurns: 0 } as const, remnant],
        trim('selvedge'),
      ),
    ),
    'remnant-counts-trim',
  ),
  spoiled(
    'a remnant is a tick too small to keep',
    changed(bench, ['plan', 'keep'], to({ width: cm(24.6) + 1, length: cm(30) })),
    'remnant-too-small',
  ),
  spoiled(
    'a scrap is just large enough to keep, turned',
    changed(bench, ['plan', 'keep'], to({ width: cm(71.4), length: cm(3.6) })),
    'scrap-keepable',
  ),
  spoiled(
    'a squared end is called scrap',
    changed(bench, [...tree, 'parts', 0], to(scrap)),
    'scrap-counts-trim',
  ),
  spoiled('a selvedge is called scrap', changed(bench, part(0), to(scrap)), 'scrap-counts-trim'),
  spoiled('a selvedge is called crease', changed(bench, part(0), to(trim('crease'))), 'trim-misplaced'),
  spoiled(
    'a squared end is called selvedge',
    changed(bench, [...tree, 'parts', 0], to(trim('selvedge'))),
    'trim-misplaced',
  ),
  spoiled(
    'a scrap beside the selvedge is called selvedge',
    changed(bench, part(6), to(trim('selvedge'))),
    'trim-misplaced',
  ),
  spoiled(
    'a crease trim takes a ruler mark more than the strip',
    changed(changed(bench, [...section, 'at', 3], to(cm(74) + cm(0.1))), [...section, 'parts', 4], to(scrap)),
    ...(['trim-misplaced', 'scrap-keepable', 'pieces-short'] as const),
  ),
  spoiled(
    'a remnant is called trim',
    changed(bench, [...oddment, 'parts', 2, 'parts', 1], to(trim('selvedge'))),
    ...(['trim-keepable', 'trim-misplaced'] as const),
  ),
  spoiled(
    'scrap far from any piece is called trimmed to size',
    changed(bench, [...tree, 'parts', 2], to(trim('cut-to-size'))),
    'trim-misplaced',
  ),
];

export const spoiledFolds: readonly Spoiled[] = [
  spoiled(
    'what must be folded lies flat',
    changed(folded, ['cloths', 0, 'lengths', 0, 'lay'], to({ kind: 'flat' })),
    'fold-missing',
  ),
  spoiled(
    'a fresh fold lies a tick within the kept-off strip',
    changed(fresh, ['cloths', 0, 'lengths', 0, 'lay', 'foldAt'], to(inches(29) + 1)),
    'fold-misplaced',
  ),
  spoiled(
    'a fold lies on the outer edge',
    changed(folded, ['cloths', 0, 'lengths', 0, 'lay', 'foldAt'], to(inches(44))),
    'fold-misplaced',
  ),
  spoiled(
    'the fold is a tick off the middle of the piece cut on it',
    moved(fresh, ['cloths', 0, 'lengths', 0, 'lay', 'foldAt'], 1),
    ...(['fold-piece-alone', 'fold-cut-alone'] as const),
  ),
  spoiled(
    'the fold is a tick off the line between the plies',
    moved(folded, ['cloths', 0, 'lengths', 0, 'lay', 'foldAt'], 1),
    ...(['fold-piece-alone', 'fold-cut-alone'] as const),
  ),
  spoiled(
    'one ply has a lengthwise cut that the other has not',
    changed(folded, part(1), to(lengthwise([inches(2)], scrap, scrap))),
    'fold-cut-alone',
  ),
  spoiled(
    'one ply has a crosscut that the other has not',
    changed(folded, part(1), to(crosscut([inches(2)], scrap, scrap))),
    'fold-cut-alone',
  ),
];
