import type { Cloth } from '../model/cloth.ts';
import type { ClothPlan, Stack } from '../model/cut-plan.ts';
import type { Issue } from '../model/issue.ts';
import type { PieceWanted } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import { sortIntoKinds } from './kinds.ts';
import { isPanelled } from './panels/panel-rooms.ts';
import { sizesWanted } from './stack-kinds.ts';

interface Separate {
  readonly cloth: Cloth;
  readonly plan: ClothPlan;
  readonly pieces: readonly PieceWanted[];
}

/** Why no cloths lie on each other although the plan asks for it wherever that can be; none where some do, or it does not ask. */
export function nothingStacked(
  plan: Plan,
  separate: readonly Separate[],
  stacks: readonly Stack[],
): readonly Issue[] {
  if (plan.stacks?.take !== 'always' || separate.length === 0 || stacks.some(({ taken }) => taken)) return [];
  const told = (details: Extract<Issue, { code: 'nothing-stacked' }>['details']): readonly Issue[] => [
    { code: 'nothing-stacked', severity: 'note', path: ['stacks'], details },
  ];
  const names = separate.map(({ cloth }) => cloth.name);
  if (separate.length === 1) return told({ why: 'one-cloth', cloths: names });
  const pairs = alike(separate);
  const [pair] = pairs;
  if (!pair) return told({ why: 'sizes', cloths: names });
  const able = pairs.find((own) => own.every(mayBeLayer));
  const cloths = (able ?? pair).map(({ cloth }) => cloth.name);
  return told({ why: able ? 'no-saving' : 'laid', cloths });
}

/** Cloths that want the same sizes as often, by twos. */
function alike(separate: readonly Separate[]): readonly (readonly Separate[])[] {
  const wanted = separate.map(({ pieces, cloth }) => sizesWanted(sortIntoKinds(pieces, cloth).kinds));
  return separate.flatMap((one, index) =>
    separate.flatMap((other, place) =>
      place > index && wanted[place] === wanted[index] ? [[one, other]] : [],
    ),
  );
}

/** Flat, from one length, with nothing on it that has a place of its own. */
function mayBeLayer({ cloth, plan, pieces }: Separate): boolean {
  const hasPlaces = pieces.some(({ match }) => match) || isPanelled(cloth, pieces);
  const flawed = cloth.inHand.some(({ flaws = [] }) => flaws.length > 0);
  return plan.lengths.length === 1 && cloth.lay === 'flat' && !hasPlaces && !flawed;
}
