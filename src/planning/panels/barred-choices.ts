import type { ClothName } from '../../model/cloth.ts';
import type { Issue } from '../../model/issue.ts';
import type { Plan } from '../../model/plan.ts';
import { hasPanels } from './panel-rooms.ts';

/** The plan with some cloths left out wherever there is another to choose. */
export function withoutChoosing(plan: Plan, barred: readonly ClothName[]): Plan {
  if (barred.length === 0) return plan;
  const rest = (choices: readonly ClothName[]) => {
    const others = choices.filter((cloth) => !barred.includes(cloth));
    return others.length > 0 ? others : choices;
  };
  return {
    ...plan,
    makes: plan.makes.map(({ choices, ...order }) => ({
      ...order,
      ...(choices && {
        choices: Object.fromEntries(Object.entries(choices).map(([part, own]) => [part, rest(own)])),
      }),
    })),
    pieces: plan.pieces.map(({ choices, ...piece }) => ({
      ...piece,
      ...(choices && { choices: rest(choices) }),
    })),
  };
}

/** A cloth with panels that was chosen for more than can be cut beside them, and that may be left out of the choice. */
export function stuckOnPanels(
  { cloths, makes, pieces }: Plan,
  issues: readonly Issue[],
  barred: readonly ClothName[],
): ClothName | undefined {
  const open = [
    ...makes.flatMap(({ choices = {} }) => Object.values(choices)),
    ...pieces.flatMap(({ choices }) => (choices ? [choices] : [])),
  ];
  const short = issues.flatMap((issue) => {
    if (issue.severity !== 'error') return [];
    const isShort = issue.code === 'not-enough-cloth' || issue.code === 'motif-near-edge';
    return isShort || issue.code === 'panel-fault' ? [issue.details.cloth] : [];
  });
  return cloths.find(
    (cloth) =>
      hasPanels(cloth) &&
      short.includes(cloth.name) &&
      !barred.includes(cloth.name) &&
      open.some((choices) => choices.length > 1 && choices.includes(cloth.name)),
  )?.name;
}
