import { afterWashing } from '../cloth/washing.ts';
import { expandMakes } from '../makes/expand.ts';
import { shrinksAlike } from '../makes/wash-to-come.ts';
import type { Cloth } from '../model/cloth.ts';
import type { Issue } from '../model/issue.ts';
import type { PieceWanted } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import { wordLoss } from '../model/shrinkage.ts';
import { alignPrint } from './align-print.ts';
import { bedsOf } from './beds.ts';
import { sortIntoKinds } from './kinds.ts';
import { crossingOutlines, tooLarge } from './lay-out-faults.ts';
import { isPanelled } from './panels/panel-rooms.ts';
import { panelsAsked, panelTrouble } from './panels/panel-trouble.ts';

/**
 * What can be told of a plan without packing it: problems of its makes, pieces that no bed holds and that may not be
 * joined, prints and flaws that cannot be, cloth that will shrink after it is sewn. Parts that may be cut from any of
 * several cloths are left to the choice.
 */
export function foreseen(plan: Plan): readonly Issue[] {
  const { pieces, issues } = expandMakes(plan);
  const open = new Set(
    [...plan.makes, ...plan.pieces].flatMap(({ name, choices }) => (choices ? [name] : [])),
  );
  return [
    ...issues,
    ...plan.cloths.flatMap((cloth) => {
      const settled = pieces.filter(
        (piece) => piece.cloth === cloth.name && !open.has(piece.order) && !piece.join,
      );
      const { kinds, issues } = sortIntoKinds(settled, cloth);
      const beds = bedsOf(plan, cloth);
      const outlines = crossingOutlines(cloth);
      const sound = outlines.length === 0 && issues.length === 0;
      const trouble =
        sound && settled.length > 0 && isPanelled(cloth, settled)
          ? panelTrouble(
              cloth,
              alignPrint(beds, cloth, settled).beds,
              panelsAsked(settled, kinds, cloth),
              settled,
            )
          : [];
      return [...outlines, ...issues, ...trouble, ...tooLarge(kinds, beds, cloth, plan.rulerMark)];
    }),
    ...shrinkingPieces(plan, pieces),
  ];
}

/** Every cloth that is only washed when it is sewn, told by its largest piece. */
export function shrinkingPieces(plan: Plan, pieces: readonly PieceWanted[]): readonly Issue[] {
  return plan.cloths.flatMap((cloth): readonly Issue[] => {
    const own = pieces.filter((piece) => piece.cloth === cloth.name);
    const { washing } = cloth;
    if (washing?.washed !== 'after-sewing' || own.length === 0) return [];
    if (washing.along.numerator === 0 && washing.across.numerator === 0) return [];
    const path = ['cloths', cloth.name, 'washing'];
    if (washing.cutLarger) {
      const { along, across } = washing;
      const held = cloth.direction === 'plain' && !shrinksAlike(washing);
      const losses = { along: wordLoss(along), across: wordLoss(across) };
      return [
        { code: 'cut-larger', severity: 'note', path, details: { cloth: cloth.name, ...losses, held } },
      ];
    }
    const area = ({ size }: PieceWanted) => size.width * size.length;
    const piece = own.reduce((most, next) => (area(next) > area(most) ? next : most));
    const details = {
      cloth: cloth.name,
      piece: piece.id,
      size: piece.size,
      washed: washedSize(piece, cloth),
    };
    return [{ code: 'will-shrink', severity: 'warning', path, details }];
  });
}

/** As it lies upright along the length; a piece that is laid across shrinks the other way round. */
function washedSize({ size, grain }: PieceWanted, { washing, direction, printRuns }: Cloth) {
  const { along, across } = washing!;
  const sideways = grain === 'crosswise' || (direction !== 'plain' && printRuns === 'across');
  const [upright, level] = sideways ? [across, along] : [along, across];
  return { width: afterWashing(size.width, level), length: afterWashing(size.length, upright) };
}
