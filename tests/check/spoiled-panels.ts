/** Sound plans around printed panels, spoiled by one tick or one turn. */
import type { Panel } from '../../src/model/panel.ts';
import { ticks } from '../../src/units/ticks.ts';
import { clothOf, inches, loose, planned, planOf } from '../planning/build.ts';
import { changed, moved } from '../support/changed.ts';
import { type Spoiled, spoiled } from './spoiled.ts';

const area = (name: string, x: number, y: number, width: number, length: number): Panel => ({
  ...{ name, x: inches(x), y: inches(y), turned: 0 },
  ...{ width: inches(width), length: inches(length) },
});

/** The front around the gull reaches from 2 to 16 across, right up to the shell, which no piece takes. */
const printed = planned(
  planOf(
    [
      clothOf({
        name: 'harbour print',
        width: inches(40),
        direction: 'one-way',
        buy: { step: inches(24) },
        panels: {
          areas: [area('gull', 4, 3, 10, 12), area('shell', 16, 5, 9, 8), area('buoy', 27, 4, 11, 9)],
          every: inches(24),
          sold: 'in-repeats',
          untaken: 'keep',
        },
      }),
      clothOf({ name: 'oat linen' }),
    ],
    [
      { ...loose('front', 14, 16, 2, 'harbour print'), panel: { names: ['gull'] } },
      {
        ...loose('pillow', 18, 15, 1, 'harbour print'),
        panel: { names: ['buoy'], mount: { kind: 'strips', cloth: 'oat linen', seam: inches(0.5) } },
      },
      loose('tie', 2, 11, 3, 'harbour print'),
    ],
  ),
  6000,
);
const anywhere = planned(
  planOf(
    [
      clothOf({
        direction: 'one-way',
        panels: {
          areas: [area('gull', 4, 3, 10, 12)],
          every: inches(24),
          sold: 'anywhere',
          untaken: 'use',
        },
      }),
    ],
    [{ ...loose('front', 14, 16, 1), panel: { names: ['gull'] } }],
  ),
  3000,
);
export const panelPlans = { printed, anywhere };

const areas = ['plan', 'cloths', 0, 'panels', 'areas'] as const;
const pieceAt = (id: string) => ['pieces', printed.pieces.findIndex((piece) => piece.id === id)] as const;

export const spoiledPanels: readonly Spoiled[] = [
  spoiled('a panel lies one tick further across', moved(printed, [...areas, 0, 'x'], -1), 'panel-off-centre'),
  spoiled(
    'a panel lies one tick further along, and has a tick less of seam',
    moved(printed, [...areas, 2, 'y'], 1),
    ...(['panel-off-centre', 'panel-margin'] as const),
  ),
  spoiled(
    'a panel stands on its head',
    changed(printed, [...areas, 0, 'turned'], () => 2),
    'panel-turned',
  ),
  spoiled(
    'a panel that is left whole reaches one tick into a front',
    moved(printed, [...areas, 1, 'x'], -1),
    'panel-cut',
  ),
  spoiled(
    'another panel is asked for than the one that is cut around',
    changed(printed, [...pieceAt('front'), 'panel', 'name'], () => 'shell'),
    ...(['panel-missing', 'panel-dealt', 'mount-wrong', 'panel-cut'] as const),
  ),
  spoiled(
    'a seam takes one tick more than the strips have',
    moved(printed, ['plan', 'pieces', 1, 'panel', 'mount', 'seam'], 1),
    ...(['mount-wrong', 'panel-margin'] as const),
  ),
  spoiled(
    'there is a strip too few',
    moved(printed, [...pieceAt('pillow side strip'), 'copies'], -1),
    ...(['mount-wrong', 'surplus-undeclared'] as const),
  ),
  spoiled(
    'panels that are to stay whole are cut folded',
    changed(printed, ['cloths', 0, 'lengths', 0, 'lay'], () => ({ kind: 'folded', foldAt: inches(20) })),
    ...(['panel-folded', 'fold-piece-alone', 'fold-cut-alone'] as const),
  ),
  spoiled(
    'the panels come again one tick later, so that the worst start takes more',
    moved(anywhere, ['plan', 'cloths', 0, 'panels', 'every'], 1),
    'needed-wrong',
  ),
  spoiled(
    'a panel is a tick larger than its piece has room for',
    changed(printed, [...areas, 0], (panel: Panel) => ({
      ...panel,
      x: ticks(panel.x - inches(2) - 1),
      width: ticks(panel.width + 2 * inches(2) + 2),
    })),
    ...(['panel-missing', 'panel-cut'] as const),
  ),
];
