import type { Cloth } from '../model/cloth.ts';
import type { ClothPlan, LengthPlan, Stack } from '../model/cut-plan.ts';
import type { Issue } from '../model/issue.ts';
import type { PieceWanted } from '../model/piece.ts';
import type { Plan, StackRule } from '../model/plan.ts';
import type { PackOptions } from '../packing/instance.ts';
import { shortestLength } from '../packing/pack.ts';
import { STANDARD_PREFERENCES, tidy } from '../packing/tidy.ts';
import { ticks } from '../units/ticks.ts';
import { type Bed, sheetOf } from './bed.ts';
import { bedsOf } from './beds.ts';
import { wishesOf, workOf } from './choose.ts';
import { clothPlan } from './cloth-plan.ts';
import { type PieceKind, sortIntoKinds } from './kinds.ts';
import { stagesToTry } from './lay-out.ts';
import { isPanelled } from './panels/panel-rooms.ts';
import { panelledCloth } from './panels/panelled-cloth.ts';
import { cutOff, isAlikeAlong, reachOf, slackBehind } from './reach.ts';
import { crosscutFirst } from './sections.ts';
import { stackBed, widened } from './stack-bed.ts';
import { commonKinds, sizesWanted } from './stack-kinds.ts';
import { layerSteps, sameWork, strokesOf, toldOnce } from './stack-steps.ts';
import { cuttingSteps } from './steps.ts';
import { bladeReach, toolsOn } from './tool-reach.ts';

/** One cloth as it is planned by itself. */
export interface Separate {
  readonly cloth: Cloth;
  readonly plan: ClothPlan;
  /** What is cut from it, parts of joined pieces included. */
  readonly pieces: readonly PieceWanted[];
}

export interface Stacked {
  /** In the order given, with the cloths of each stack that is taken as they are cut in it. */
  readonly cloths: readonly ClothPlan[];
  readonly stacks: readonly Stack[];
}

/** A cloth that may be a layer: all of it is cut from one length, which may lie flat. */
interface Layer extends Separate {
  readonly length: LengthPlan;
  readonly bed: Bed;
  readonly kinds: readonly PieceKind[];
}

interface Attempt {
  readonly plans: readonly ClothPlan[];
  readonly stack: Stack;
  readonly wishes: readonly number[];
  /** Passes of the blade, and work with folds and scissors weighed in, that it saves. */
  readonly saves: boolean;
}

const USUAL: StackRule = { take: 'where-free', edge: 'left' };

/** Share of the effort for a first look at each stack. */
const LOOK = 10;

/**
 * Finds cloths that want the same sizes as often, lays them on each other as far as the most plies go, plans them once on
 * the cloth they have in common, and compares that with cutting each by itself. Taken are the stacks that save cuts and
 * cost no money (or whatever they cost, where the plan says so); one that would save cuts at a price is told of.
 */
export function stackCloths(plan: Plan, separate: readonly Separate[], pack: PackOptions): Stacked {
  const rule = plan.stacks ?? USUAL;
  const cloths = new Map(separate.map((own) => [own.cloth.name, own.plan]));
  const stacks: Stack[] = [];
  const groups = rule.take === 'never' ? [] : groupsOf(plan, separate);
  for (const group of groups) {
    let open = group;
    while (open.length > 1) {
      const { taken, offer, members } = bestStack(plan, open, rule, pack);
      if (taken) for (const own of taken.plans) cloths.set(own.cloth, own);
      for (const told of [taken?.stack, offer]) if (told) stacks.push(told);
      open = open.filter((layer) => !members.includes(layer));
    }
  }
  return { cloths: separate.map((own) => cloths.get(own.cloth.name)!), stacks };
}

/** Cloths that might be stacked with another but for the panels that they are cut around, or that stay whole. */
export function notStacked(plan: Plan, separate: readonly Separate[]): readonly Issue[] {
  if (plan.stacks?.take === 'never') return [];
  const lone = separate.filter(({ cloth, plan: own }) => own.lengths.length === 1 && cloth.lay === 'flat');
  const wanted = lone.map(({ pieces, cloth }) => sizesWanted(sortIntoKinds(pieces, cloth).kinds));
  return lone.flatMap(({ cloth, pieces }, index): readonly Issue[] => {
    if (!isPanelled(cloth, pieces)) return [];
    const place = wanted.findIndex((sizes, other) => other !== index && sizes === wanted[index]);
    const other = lone[place]?.cloth.name;
    if (other === undefined) return [];
    const details = { cloth: cloth.name, other };
    return [{ code: 'panels-not-stacked', severity: 'note', path: ['cloths', cloth.name], details }];
  });
}

/** Layers that want the same, in the order of the plan. */
function groupsOf(plan: Plan, separate: readonly Separate[]): readonly (readonly Layer[])[] {
  const groups = new Map<string, Layer[]>();
  for (const layer of separate.flatMap((own) => layerOf(plan, own))) {
    const key = `${layer.cloth.squaring}; ${sizesWanted(layer.kinds)}`;
    groups.set(key, [...(groups.get(key) ?? []), layer]);
  }
  return [...groups.values()];
}

function layerOf(plan: Plan, own: Separate): readonly Layer[] {
  const [length, second] = own.plan.lengths;
  if (!length || second || own.cloth.lay !== 'flat') return [];
  // A match hangs on where the print of each cloth begins, which no two share.
  if (own.pieces.some(({ match }) => match !== undefined) || isPanelled(own.cloth, own.pieces)) return [];
  // Panels that are used as plain cloth are none.
  const cloth = panelledCloth(own.cloth, own.pieces);
  const { inHand, toBuy } = bedsOf(plan, cloth);
  const bed = length.source === 'bought' ? toBuy : inHand.find(({ name }) => name === length.name);
  // A flaw lies in one layer alone; the others are not to be cut round it.
  if (!bed || !isAlikeAlong(sheetOf(bed))) return [];
  return [{ ...own, cloth, length, bed, kinds: sortIntoKinds(own.pieces, cloth).kinds }];
}

interface Best {
  readonly taken?: Attempt;
  /** What stacking, or stacking one more, would do at a price. */
  readonly offer?: Stack;
  /** What is settled by this, and need not be looked at again. */
  readonly members: readonly Layer[];
}

/** From the first layer on, each that follows joins where the stack is still worth it. */
function bestStack(plan: Plan, open: readonly Layer[], rule: StackRule, pack: PackOptions): Best {
  const look = { ...pack, effort: Math.ceil(pack.effort / LOOK) };
  let members: readonly Layer[] = open.slice(0, 1);
  let offer: Stack | undefined;
  for (const next of open.slice(1)) {
    if (members.length >= plan.tools.mostPlies) break;
    const found = attempt(plan, [...members, next], rule, look);
    if (!found) continue;
    if (isWorth(found, rule)) members = [...members, next];
    else if (found.saves) offer ??= found.stack;
  }
  const offered = offer && { offer };
  if (members.length === 1) return { members, ...offered };
  const full = attempt(plan, members, rule, pack);
  const quick = attempt(plan, members, rule, look);
  const taken = [full, quick].find((found) => found && isWorth(found, rule));
  if (!taken) return { members, ...offered };
  return { members, ...offered, taken: { ...taken, stack: { ...taken.stack, taken: true } } };
}

function isWorth({ stack, saves }: Attempt, { take }: StackRule): boolean {
  return saves && (take === 'always' || isFree(stack));
}

/** Without prices, no layer may be bought longer; with them, the sum may not be higher. */
function isFree({ extraCost, extraBought }: Stack): boolean {
  return extraCost === undefined ? extraBought.every((extra) => extra <= 0) : extraCost <= 0;
}

/** Plans the layers as one; undefined where they cannot be cut as one. */
function attempt(
  plan: Plan,
  layers: readonly Layer[],
  { edge }: StackRule,
  options: PackOptions,
): Attempt | undefined {
  const common = commonKinds(layers.map(({ kinds }) => kinds));
  const bed = stackBed(
    layers.map((layer) => layer.bed),
    edge,
    plan.rulerMark,
  );
  if (!common || !bed || bed.sheet.length <= 0) return undefined;
  let best: Attempt | undefined;
  for (const stages of stagesToTry(plan.stages)) {
    const pack = { ...options, effort: Math.ceil(options.effort / 3), stages };
    const result = shortestLength({ sheet: bed.sheet, kinds: common.kinds }, pack);
    if (result.status !== 'best' && result.status !== 'found') continue;
    const sheet = { ...bed.sheet, length: result.value, ...forbiddenTo(bed.sheet.forbidden, result.value) };
    const found = result.sheets[0]!.tree;
    const packed = { sheet: 0, width: sheet.width, length: result.value, tree: found };
    const reach = bladeReach(plan.tools) * Math.max(1, Math.floor(plan.tools.mostPlies / layers.length));
    const tidied = tidy(
      packed,
      { kinds: common.kinds, sheet, stages, seed: pack.seed },
      { ...STANDARD_PREFERENCES, reach },
    ).tree;
    const drawn = slackBehind(tidied, sheet, plan.rulerMark);
    const far = reachOf(drawn, sheet.width, result.value);
    const tree = cutOff(drawn, result.value, far);
    const plans = layers.map((layer, index) => {
      const margins = bed.margins[index]!;
      const own = {
        bed: layer.bed,
        name: layer.length.name,
        tree: widened(tree, sheet.width, margins),
        length: far,
      };
      return planOfLayer(plan, layer, common.copies[index]!, own);
    });
    // Parted into sections wherever that is no more work, as a single length is; off each cloth by itself where that is less.
    for (const tried of [...inSharedSections(plan, plans), plans]) {
      for (const laid of [{ edge }, { edge, sectionsFirst: true as const }]) {
        const own = judged(plan, layers, tried, laid);
        if (own && (!best || lower(own.wishes, best.wishes))) best = own;
      }
    }
  }
  return best;
}

/** The layers, parted alike into sections; none where no section can be. */
function inSharedSections(plan: Plan, plans: readonly ClothPlan[]): readonly (readonly ClothPlan[])[] {
  const layers = plans.map(({ lengths }) => lengths[0]!);
  const parted = crosscutFirst(layers, bladeReach(plan.tools), plan.keep);
  if (parted.length === 0) return [];
  return [plans.map((own, index) => ({ ...own, lengths: [parted[index]!] }))];
}

function forbiddenTo(forbidden: readonly PlainForbidden[] | undefined, length: number) {
  return forbidden ? { forbidden: forbidden.map((box) => ({ ...box, y1: length })) } : {};
}

interface PlainForbidden {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

/** What no plan of the cloth alone needs less than holds for it in a stack as well. */
function planOfLayer(
  plan: Plan,
  { cloth, plan: apart }: Layer,
  kinds: readonly PieceKind[],
  own: Parameters<typeof clothPlan>[3]['beds'][number],
): ClothPlan {
  const packed = { ok: true as const, beds: [own], proven: false };
  const { bound: _, answer: __, ...stacked } = clothPlan(plan, cloth, kinds, packed, packed);
  const asGood = stacked.purchase?.bought === apart.purchase?.bought;
  return {
    ...stacked,
    answer: asGood ? apart.answer : 'found',
    ...(apart.bound !== undefined && { bound: apart.bound }),
  };
}

function judged(
  plan: Plan,
  layers: readonly Layer[],
  plans: readonly ClothPlan[],
  laid: Pick<Stack, 'edge' | 'sectionsFirst'>,
): Attempt | undefined {
  const steps = plans.map(({ lengths }) =>
    layerSteps(lengths[0]!, plan.tools, { ...laid, layers: layers.length }),
  );
  if (!sameWork(steps)) return undefined;
  const told = toldOnce(steps);
  const apart = layers.map(({ length, cloth }) => cuttingSteps(length, toolsOn(plan.tools, cloth, length)));
  const extraBought = plans.map(({ purchase }, index) =>
    ticks((purchase?.bought ?? 0) - (layers[index]!.plan.purchase?.bought ?? 0)),
  );
  const extraCost = extraCostOf(plans, layers);
  const stack: Stack = {
    layers: layers.map(({ cloth, length }) => ({ cloth: cloth.name, length: length.name })),
    ...laid,
    taken: false,
    cutsApart: apart.reduce((total, own) => total + strokesOf(own), 0),
    cutsStacked: strokesOf(told),
    withScissors: strokesOf(told.filter(({ blade }) => blade === 'scissors')),
    extraBought,
    ...(extraCost !== undefined && { extraCost }),
  };
  const scattered = plans.reduce((total, own) => total + wishesOf(plan, own)[3], 0);
  const needed = plans.reduce((total, { purchase }) => total + (purchase?.needed ?? 0), 0);
  const extra = extraBought.reduce<number>((total, own) => total + own, 0);
  const work = workOf(told, plan.tools);
  const apartWork = apart.reduce((total, own) => total + workOf(own, plan.tools), 0);
  const saves = stack.cutsStacked < stack.cutsApart && work < apartWork;
  return { plans, stack, saves, wishes: [extraCost ?? 0, extra, work, scattered, needed] };
}

function extraCostOf(plans: readonly ClothPlan[], layers: readonly Layer[]): number | undefined {
  let total = 0;
  for (const [index, { purchase }] of plans.entries()) {
    if (!purchase) continue;
    const before = layers[index]!.plan.purchase;
    if (purchase.cost === undefined || before?.cost === undefined) return undefined;
    total += purchase.cost - before.cost;
  }
  return total;
}

function lower(a: readonly number[], b: readonly number[]): boolean {
  const differs = a.findIndex((wish, index) => wish !== b[index]);
  return differs >= 0 && a[differs]! < b[differs]!;
}
