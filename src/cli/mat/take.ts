import type { ClothName } from '../../model/cloth.ts';
import type { Plan } from '../../model/plan.ts';
import { OFFER_KINDS, type OfferKind } from '../../planning/mat/remedies.ts';
import { likelySpelling } from '../../units/spelling.ts';
import { CommandProblem, EXIT } from '../exit-codes.ts';

/**
 * Reads `drop`, or what to do for each cloth that is short, as in `oat linen: drop, gull stripe: buy`. Throws with one line
 * for what is not understood.
 */
export function readTake(written: string, plan: Plan): OfferKind | ReadonlyMap<ClothName, OfferKind> {
  const one = kindOf(written);
  if (one) return one;
  const parts = written.split(',').map((part) => readPart(part.trim(), plan));
  const problems = parts.flatMap((own) => ('problem' in own ? [own.problem] : []));
  if (problems.length > 0) throw new CommandProblem(EXIT.badInput, problems.join('\n'));
  return new Map(parts.flatMap((own) => ('kind' in own ? [[own.cloth, own.kind] as const] : [])));
}

type Part = { readonly cloth: ClothName; readonly kind: OfferKind } | { readonly problem: string };

function readPart(written: string, plan: Plan): Part {
  const at = written.lastIndexOf(':');
  const [cloth, take] = at < 0 ? ['', written] : [written.slice(0, at).trim(), written.slice(at + 1).trim()];
  const kind = kindOf(take);
  const kinds = `${OFFER_KINDS.slice(0, -1).join(', ')} or ${OFFER_KINDS.at(-1)}`;
  if (!kind || at < 0)
    return {
      problem: `--take: found "${written}"; ${kinds} would work, or one for each cloth, such as "${plan.cloths[0]!.name}: drop"`,
    };
  const names = plan.cloths.map(({ name }) => name);
  if (names.includes(cloth)) return { cloth, kind };
  const likely = likelySpelling(cloth, names);
  const would = likely === undefined ? names.map((name) => `"${name}"`).join(' or ') : `"${likely}"`;
  return { problem: `--take: found "${cloth}"; ${would} would work` };
}

function kindOf(written: string): OfferKind | undefined {
  return OFFER_KINDS.find((kind) => kind === written.trim());
}
