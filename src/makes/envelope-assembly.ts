import type { Hem } from '../model/measure.ts';
import type { PlanUnit } from '../model/plan.ts';
import type { Ticks } from '../units/ticks.ts';
import { hemming, writtenIn } from './sewing.ts';

export interface CoverToSew {
  readonly unit: PlanUnit;
  readonly opening: 'level' | 'upright';
  readonly hem: Hem;
  readonly allowance: Ticks;
  readonly interfacing: 'cut to the front' | 'inside the seams' | 'oversize' | undefined;
}

/** The order of the hands for a cover with two backs. The pile is built from the front up: outer back before inner back. */
export function coverAssembly(cover: CoverToSew): readonly string[] {
  const written = writtenIn(cover.unit);
  // The pile is seen from inside the cover, so what is left from behind lies at the right.
  const [outerSide, innerSide] =
    cover.opening === 'level' ? ['top', 'bottom'] : ['right-hand side', 'left-hand side'];
  return [
    ...fusing(cover.interfacing),
    `Hem each back on its inward edge: ${hemming(cover.hem, written)}.`,
    'Lay the front face up, its up side away from you.',
    `Lay the outer back on it first, face down, up sides together, its raw edge along the ${outerSide} of the front, its hemmed edge inward.`,
    `Lay the inner back on last, face down, its raw edge along the ${innerSide} of the front, its hemmed edge inward over the outer back.`,
    `Stitch all round, ${written(cover.allowance)} from the edge, back and forth where the hems cross the seam.`,
    'Trim the corners, turn the cover right side out through the opening, and put in the pad.',
  ];
}

/** A fusible is decided on only after a test sample (Washington State University Extension EM014, Interfacings). */
function fusing(interfacing: CoverToSew['interfacing']): readonly string[] {
  if (interfacing === undefined) return [];
  const test =
    'Fuse a scrap of interfacing to a scrap of the cloth first, as the maker of the interfacing says.';
  switch (interfacing) {
    case 'cut to the front':
      return [test, 'Fuse the interfacing to the wrong side of the front, edge to edge.'];
    case 'inside the seams':
      return [test, 'Fuse the interfacing to the wrong side of the front, inside the seam lines.'];
    case 'oversize':
      return [
        test,
        'Fuse the interfacing to the wrong side of the front so that it stands out alike on all sides, over a cloth that keeps it off the board.',
        'When it is cold, cut the front true again along its own cut edges.',
      ];
  }
}
