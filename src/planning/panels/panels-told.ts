import { type PanelPlace, panelPlaces } from '../../geometry/panels.ts';
import { walk } from '../../geometry/walk.ts';
import type { Cloth } from '../../model/cloth.ts';
import type { ClothPlan, CutPlan, LengthPlan } from '../../model/cut-plan.ts';
import type { Issue } from '../../model/issue.ts';
import type { Box, PieceId } from '../../model/piece.ts';
import { lengthInHand } from '../length-in-hand.ts';
import { hasPanels } from './panel-rooms.ts';
import { startReserveOf } from './panelled-cloth.ts';

/** A printed panel of a length, and what became of it. */
export interface PanelTold extends PanelPlace {
  /** `left`: whole in one leftover. `cut`: over edges, or used as plain cloth. */
  readonly state: 'taken' | 'left' | 'cut';
  /** The piece that is cut around it. */
  readonly piece?: PieceId;
}

/**
 * All panels that are certain to lie whole on one length, near ones first; none where the cloth has none. Where a shop may
 * cut anywhere in their repeat, no one can say whether the last whole repeat of a length holds any.
 */
export function panelsOf({ pieces }: CutPlan, cloth: Cloth, length: LengthPlan): readonly PanelTold[] {
  if (!hasPanels(cloth)) return [];
  const asking = new Map(pieces.flatMap((piece) => (piece.panel ? [[piece.id, piece.panel.name]] : [])));
  const { leaves } = walk(length.tree, length.width, length.length);
  const certain = length.length - (length.source === 'bought' ? startReserveOf(cloth) : 0);
  return panelPlaces(cloth, certain, lengthInHand(cloth, length)).map((place): PanelTold => {
    const own = leaves.find(({ box }) => holds(box, place.box));
    if (own?.leaf.kind === 'remnant') return { ...place, state: 'left' };
    if (own?.leaf.kind !== 'piece' || asking.get(own.leaf.piece) !== place.name)
      return { ...place, state: 'cut' };
    return { ...place, state: 'taken', piece: own.leaf.piece };
  });
}

function holds(box: Box, inner: Box): boolean {
  return box.x0 <= inner.x0 && box.y0 <= inner.y0 && box.x1 >= inner.x1 && box.y1 >= inner.y1;
}

/** How many panels of each name are taken, and how many are left whole, over all lengths of a cloth. */
export function countPanels(cutPlan: CutPlan, cloth: Cloth, { lengths }: ClothPlan) {
  const all = lengths.flatMap((length) => panelsOf(cutPlan, cloth, length));
  const count = (state: PanelTold['state']) => {
    const names = new Map<string, number>();
    for (const panel of all) {
      if (panel.state === state) names.set(panel.name, (names.get(panel.name) ?? 0) + 1);
    }
    return names;
  };
  return { taken: count('taken'), left: count('left') };
}

/** Panels that are taken although the bolt fold runs through them. */
export function creasedPanels(cutPlan: CutPlan): readonly Issue[] {
  return cutPlan.cloths.flatMap((clothPlan) => {
    const cloth = cutPlan.plan.cloths.find(({ name }) => name === clothPlan.cloth)!;
    const creased = clothPlan.lengths.flatMap((length) => {
      const { crease } = lengthInHand(cloth, length) ?? cloth;
      if (crease.kind !== 'use') return [];
      return panelsOf(cutPlan, cloth, length).filter(
        ({ state, box }) => state === 'taken' && 2 * box.x0 < length.width && 2 * box.x1 > length.width,
      );
    });
    const first = new Map(creased.map((panel) => [panel.name, panel]));
    return [...first.values()].map(
      ({ name, piece }): Issue => ({
        code: 'panel-creased',
        severity: 'warning',
        path: ['cloths', cloth.name, 'crease'],
        details: { panel: name, piece: piece!, cloth: cloth.name },
      }),
    );
  });
}
