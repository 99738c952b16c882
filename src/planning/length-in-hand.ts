import type { Cloth, LengthInHand } from '../model/cloth.ts';
import type { LengthPlan } from '../model/cut-plan.ts';

/** The cupboard's entry that a length plan was cut from; copies of one entry carry a number after its name. */
export function lengthInHand(
  cloth: Cloth,
  length: Pick<LengthPlan, 'name' | 'source'>,
): LengthInHand | undefined {
  if (length.source !== 'in-hand') return undefined;
  const numbered = (name: string) =>
    length.name.startsWith(`${name} `) && /^\d+$/.test(length.name.slice(name.length + 1));
  return (
    cloth.inHand.find((own) => own.name === length.name) ??
    cloth.inHand.find((own) => own.copies > 1 && numbered(own.name))
  );
}
