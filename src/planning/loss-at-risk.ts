import type { Edges } from '../cloth/usable.ts';
import { afterWashing, lossBeforeCutting } from '../cloth/washing.ts';
import type { Cloth, Fraction } from '../model/cloth.ts';
import type { PieceWanted } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import type { PackOptions } from '../packing/instance.ts';
import { atTheirLeast, changingWidths, usableParts } from './changing-widths.ts';
import { type StepAtRisk, stepsAtRisk } from './steps-at-risk.ts';

/** Up to this loss in the wash (from the step before it) so much has to be bought. */
export interface LossStep extends Omit<StepAtRisk, 'lowest'> {
  readonly upTo: Fraction;
}

export interface LossAtRisk {
  /** What the plan reckons with. */
  readonly reckoned: Fraction;
  /** From the loss reckoned upwards, each step the largest loss at which its buy still holds. */
  readonly steps: readonly LossStep[];
  /** Above this loss there is no plan; absent where that is not known. */
  readonly noneAbove?: Fraction;
}

/** Along, losses are looked at to a hundredth of a per cent, finer than any swatch shows, and up to half of the cloth. */
const PARTS = 10_000;
const MOST = PARTS / 2;

/** The first steps are what matters; along the length there is one for every step of the shop. */
const STEPS = 4;

/**
 * How much must be bought as the wash takes more than was reckoned, along the length or across the width, the other way as
 * reckoned. Lengths in hand that are yet to be washed lose as much.
 *
 * Undefined where the cloth is not bought, is not washed before it is cut, or is cut by a print, which shrinks with it, so
 * that a larger loss may need less; across also where its width was measured on washed cloth.
 */
export function lossAtRisk(
  plan: Plan,
  cloth: Cloth,
  pieces: readonly PieceWanted[],
  way: 'along' | 'across',
  options: PackOptions,
): LossAtRisk | undefined {
  const { washing } = cloth;
  if (washing?.washed !== 'before-cutting' || pieces.some(({ match, panel }) => match || panel))
    return undefined;
  if (way === 'across' && washing.widthFromWashed) return undefined;
  const reckoned = lossBeforeCutting(cloth)[way];
  const worse = way === 'along' ? lossesAlong(reckoned) : lossesAcross(plan, cloth, reckoned);
  const losses = [...worse, reckoned];
  const at = (index: number): Cloth => ({ ...cloth, washing: { ...washing, [way]: losses[index]! } });
  const found = stepsAtRisk({ plan, pieces, count: losses.length, at }, options, STEPS);
  if (!found) return undefined;
  const steps = found.steps.map(({ lowest, ...step }) => ({ upTo: losses[lowest]!, ...step }));
  const { lowest } = found.steps.at(-1)!;
  return { reckoned, steps, ...(found.all && lowest > 0 && { noneAbove: losses[lowest]! }) };
}

/** Above what is reckoned, falling. */
function lossesAlong({ numerator, denominator }: Fraction): readonly Fraction[] {
  const first = Math.floor((numerator * PARTS) / denominator) + 1;
  return Array.from({ length: Math.max(0, MOST - first + 1) }, (_, index) => ({
    numerator: MOST - index,
    denominator: PARTS,
  }));
}

/** Above what is reckoned, falling: those at which less of some width is usable. Lengths in hand may be wider or narrower than a bolt. */
function lossesAcross(plan: Plan, cloth: Cloth, reckoned: Fraction): readonly Fraction[] {
  const all: readonly Edges[] = [cloth, ...cloth.inHand.filter(({ washed }) => !washed)];
  const candidates = all.flatMap((edges) =>
    changingWidths(plan, cloth, edges).map(
      (width): Fraction => ({ numerator: edges.width - width, denominator: edges.width }),
    ),
  );
  const parts = (loss: Fraction) =>
    all.flatMap(({ washed: _, ...edges }) => {
      const width = afterWashing(edges.width, loss);
      const own = usableParts(plan, cloth, { ...edges, width, washed: true });
      // As many places for each, so that those of one are never set against those of another.
      return Array.from({ length: MOST_PARTS }, (_, index) => own[index] ?? 0);
    });
  const rising = candidates
    .filter((loss) => shareOf(loss) > shareOf(reckoned))
    .sort((a, b) => shareOf(a) - shareOf(b));
  return [...atTheirLeast([reckoned, ...rising], parts)].slice(1).reverse();
}

/** Two stretches in two plies beside a kept-off crease, and two in one. */
const MOST_PARTS = 4;

function shareOf({ numerator, denominator }: Fraction): number {
  return numerator / denominator;
}
