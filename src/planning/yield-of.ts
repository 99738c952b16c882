import { checkPlan } from '../check/check-plan.ts';
import { afterWashing, lossBeforeCutting } from '../cloth/washing.ts';
import { expandMakes } from '../makes/expand.ts';
import type { Cloth, ClothName, Flaw, LengthInHand } from '../model/cloth.ts';
import { copyNames } from '../model/cupboard.ts';
import type { CutPlan } from '../model/cut-plan.ts';
import type { Outcome } from '../model/issue.ts';
import type { ClothUses, LeftOfCloth } from '../model/leftover-use.ts';
import type { Size } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import { type Ticks, ticks } from '../units/ticks.ts';
import { leftOfCloths, leftoverCloth, staysWhole } from './leftovers/left-of-cloths.ts';
import { mostOf } from './leftovers/most-of.ts';
import { packOf, type UsesOptions } from './leftovers/tried.ts';
import { usesOf } from './leftovers/uses-of.ts';
import { type NamedSet, piecesOfSet, planOfSets } from './named-set.ts';

export interface ClothYield {
  readonly cloth: ClothName;
  /** Complete sets that the lengths of it hold; absent where none is here, and it is bought. */
  readonly sets?: number;
  readonly proven: boolean;
}

/** How many complete sets the cloth that is here gives, and what else fits into the rest. */
export interface Yielded {
  readonly set: NamedSet;
  readonly sets: number;
  /** No more can be had. */
  readonly proven: boolean;
  /** In the plan's order; only cloths with a part in the set. */
  readonly cloths: readonly ClothYield[];
  /** Cuts the sets; absent where there is none. */
  readonly cutPlan?: CutPlan;
  /** Of what the sets leave, and of lengths that they leave whole. */
  readonly uses: readonly ClothUses[];
}

/** Sets that are left off one by one, should a plan of all cloths not find room for what each holds by itself. */
const MOST_LEFT_OFF = 3;

/**
 * The other way round: most complete sets that the lengths in hand hold, cloth by cloth and together, as the engine's
 * *most complete sets* answers; then a plan that cuts them, and the uses of what is over. A cloth of which nothing is in
 * hand sets no limit where it can be bought.
 *
 * @param most more sets are not looked for
 */
export function yieldOf(plan: Plan, set: NamedSet, most: number, options: UsesOptions): Outcome<Yielded> {
  const one = planOfSets(plan, set, 1);
  const { pieces, issues } = expandMakes(one);
  if (issues.some(({ severity }) => severity === 'error')) return { ok: false, issues };
  const asked = piecesOfSet(one, pieces, set)!;
  const cloths = plan.cloths.flatMap((cloth): readonly ClothYield[] => {
    const own = pieces.filter((piece) => piece.cloth === cloth.name && asked.has(piece.id));
    if (own.length === 0) return [];
    if (cloth.inHand.length === 0) return [{ cloth: cloth.name, proven: true }];
    const { count, proven } = mostOf(one, asHere(cloth), { set: own }, most, packOf(options));
    return [{ cloth: cloth.name, sets: count, proven }];
  });
  const limits = cloths.flatMap(({ sets }) => (sets === undefined ? [] : [sets]));
  const counted = Math.min(most, ...limits);
  const here = { ...plan, cloths: plan.cloths.map(asHere) };
  const found = planned(here, set, counted, options);
  const sets = found?.sets ?? 0;
  const least = cloths.filter((own) => own.sets === counted);
  const proven = sets === counted && (counted === most || least.some((own) => own.proven));
  return {
    ok: true,
    issues,
    value: {
      ...{ set, sets, proven, cloths },
      ...(found && { cutPlan: found.cutPlan }),
      uses: usesOfRest(here, found?.cutPlan, options),
    },
  };
}

/** Where some of it is here, no more is bought. */
function asHere(cloth: Cloth): Cloth {
  const { buy: _, ...rest } = cloth;
  return cloth.inHand.length === 0 ? cloth : rest;
}

function planned(plan: Plan, set: NamedSet, counted: number, options: UsesOptions) {
  for (let sets = counted; sets >= Math.max(1, counted - MOST_LEFT_OFF); sets--) {
    const { wishes: _, ...asked } = planOfSets(plan, set, sets);
    const cutPlan = options.planned(asked);
    if (cutPlan && checkPlan(cutPlan).length === 0) return { sets, cutPlan };
  }
  return undefined;
}

/** Of each cloth once: what the sets leave of the lengths they cut, and the lengths that they leave whole. */
function usesOfRest(plan: Plan, cutPlan: CutPlan | undefined, options: UsesOptions): readonly ClothUses[] {
  const rests = cutPlan ? leftOfCloths(cutPlan) : [];
  return plan.cloths.flatMap((cloth): readonly ClothUses[] => {
    const rest = rests.find((own) => own.cloth.name === cloth.name);
    const whole = unopened(cloth, cutPlan);
    if (!rest && !whole) return [];
    const lengths = [...(rest?.cloth.inHand ?? []), ...(whole?.cloth.inHand ?? [])];
    const left: LeftOfCloth = {
      cloth: leftoverCloth(cloth, lengths),
      left: [...(rest?.left ?? []), ...(whole?.left ?? [])],
    };
    return [{ ...usesOf(plan, left, options), more: [] }];
  });
}

/** The lengths in hand that nothing was cut from, told as leftovers are: squared, and washed if the cloth is washed first. */
function unopened(cloth: Cloth, cutPlan: CutPlan | undefined): LeftOfCloth | undefined {
  const cut = cutPlan?.cloths.find((own) => own.cloth === cloth.name)?.lengths.map(({ name }) => name) ?? [];
  if (staysWhole(cloth)) return undefined;
  const inHand = cloth.inHand.flatMap((own): readonly LengthInHand[] => {
    const size = squaredAndWashed(cloth, own);
    if (size.length <= 0) return [];
    return copyNames(own.name, own.copies)
      .filter((name) => !cut.includes(name))
      .map((name) => ({
        ...{ name, copies: 1, ...size, selvedge: own.selvedge, crease: own.crease },
        ...(own.flaws && { flaws: own.flaws.flatMap((flaw) => flawOnTable(cloth, own, flaw) ?? []) }),
      }));
  });
  if (inHand.length === 0) return undefined;
  return {
    cloth: leftoverCloth(cloth, inHand),
    left: inHand.map(({ name, width, length }) => ({ name, size: { width, length } })),
  };
}

function squaredAndWashed(cloth: Cloth, own: LengthInHand): Size {
  const { along, across } = lossBeforeCutting(cloth, own);
  return {
    width: afterWashing(own.width, across),
    length: ticks(afterWashing(own.length, along) - 2 * cloth.squaring),
  };
}

/**
 * The box around a flaw on the squared and washed length, out to whole ticks: a little more may be kept off than need be.
 * Undefined where it is squared off.
 */
function flawOnTable(cloth: Cloth, own: LengthInHand, { outline }: Flaw): Flaw | undefined {
  const { along, across } = lossBeforeCutting(cloth, own);
  const size = squaredAndWashed(cloth, own);
  const xs = outline.map(({ x }) => afterWashing(x, across));
  const ys = outline.map(({ y }) => afterWashing(y, along) - cloth.squaring);
  // Cloth that is not washed keeps every tick.
  const out = along.numerator === 0 && across.numerator === 0 ? 0 : 1;
  const within = (value: number, most: Ticks) => ticks(Math.min(Math.max(value, 0), most));
  const [x0, x1] = [within(Math.min(...xs), size.width), within(Math.max(...xs) + out, size.width)];
  const [y0, y1] = [within(Math.min(...ys), size.length), within(Math.max(...ys) + out, size.length)];
  if (x0 === x1 || y0 === y1) return undefined;
  return {
    outline: [
      { x: x0, y: y0 },
      { x: x1, y: y0 },
      { x: x1, y: y1 },
      { x: x0, y: y1 },
    ],
  };
}
