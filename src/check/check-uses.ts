import type { Cloth, LengthInHand } from '../model/cloth.ts';
import type { CutPlan, LengthPlan } from '../model/cut-plan.ts';
import type { ClothUses, Left, LeftoverUse, MoreToBuy, UseAcross } from '../model/leftover-use.ts';
import type { Box } from '../model/piece.ts';
import { flawsOnTable, isOver } from './check-flaws.ts';
import { measuredMotif, repeatTold, tellsItsPrint } from './check-match.ts';
import { holdsPanels } from './check-panels.ts';
import { placeTree } from './placed-tree.ts';
import type { PlanFault, Report } from './plan-fault.ts';
import { inside, tableCloth } from './table-cloth.ts';

type CheckPlan = (cutPlan: CutPlan) => readonly PlanFault[];

/**
 * What a plan offers besides: that every use of its leftovers is itself a sound plan, cut from cloth that the plan does
 * leave; and that what a little more cloth gives is a sound plan of all that was wanted and of that.
 */
export function checkUses(cutPlan: CutPlan, checkPlan: CheckPlan, report: Report): void {
  for (const own of cutPlan.uses ?? []) {
    const cloth = cutPlan.plan.cloths.find(({ name }) => name === own.cloth.name);
    const clothPlan = cutPlan.cloths.find((each) => each.cloth === own.cloth.name);
    if (!cloth || !clothPlan) {
      report('cloth-unknown', {}, { cloth: own.cloth.name });
      continue;
    }
    const at: Report = (code, figures, where) => report(code, figures, { cloth: cloth.name, ...where });
    const taken: { readonly length: string; readonly box: Box }[] = [];
    for (const left of own.left) {
      const inHand = own.cloth.inHand.find(({ name }) => name === left.name);
      const length = clothPlan.lengths.find(({ name }) => name === left.from?.length);
      if (!inHand || !length || !left.from || inHand.copies !== 1)
        at('left-of-nothing', {}, { length: left.name });
      else checkLeft(left, inHand, length, cutPlan, cloth, at);
      if (
        left.from &&
        taken.some((other) => other.length === left.from!.length && overlap(other.box, left.from!.box))
      )
        at('left-twice', {}, { length: left.name });
      if (left.from) taken.push(left.from);
    }
    checkCloth(own, cloth, at);
    for (const use of own.uses) checkUse(use, own, checkPlan, at);
    if (own.together) checkOffer(own.together.plan, own.together.uses, own.cloth, checkPlan, at);
    for (const more of own.more) checkMore(more, cutPlan, cloth, checkPlan, at);
  }
  for (const use of cutPlan.usesAcross ?? []) checkAcross(use, cutPlan, checkPlan, report);
}

/** A sound plan of so many of one make from leftovers that the plan tells, of two cloths at least, each part from one that it may be. */
function checkAcross(
  { wish, count, worth, from, plan }: UseAcross,
  { uses = [] }: CutPlan,
  checkPlan: CheckPlan,
  report: Report,
): void {
  const where = { piece: wish.name };
  for (const { code, figures, where: own } of checkPlan(plan)) report(code, figures as never, own);
  const { cloths, makes, pieces, sets } = plan.plan;
  const told = cloths.every((cloth) =>
    uses.some((own) => JSON.stringify(own.cloth) === JSON.stringify(cloth)),
  );
  if (!told || pieces.length > 0 || plan.cloths.length < 2) report('use-cloth', {}, where);
  const [order, ...others] = makes;
  const same = order?.make === wish.make && order.count === count && others.length === 0;
  const alike =
    JSON.stringify(order?.measures) === JSON.stringify(wish.measures) &&
    JSON.stringify(order?.matches) === JSON.stringify(wish.matches);
  const cutFrom = plan.cloths.map(({ cloth, lengths }) => ({
    cloth,
    lengths: lengths.map(({ name }) => name),
  }));
  const within = count >= wish.least && count <= (wish.most ?? Infinity);
  if (!same || !alike || !within || JSON.stringify(cutFrom) !== JSON.stringify(from))
    report('use-count', {}, where);
  const parts = wish.parts ?? {};
  const mayBe = Object.entries(order?.cloths ?? {}).every(([part, cloth]) =>
    (order?.choices?.[part] ?? [cloth]).every((name) => parts[part]?.includes(name)),
  );
  const allParts = Object.keys(parts).every((part) => order?.cloths[part] !== undefined);
  const ruled = JSON.stringify(sets?.[0]?.rules) === JSON.stringify(wish.rules);
  if (!mayBe || !allParts || !ruled) report('use-parts', {}, where);
  if (worth !== count * (wish.worth ?? 0)) report('use-worth', {}, where);
}

/** That a leftover lies on its length where no piece does, squared, off every flaw, and that it is told as it will be in the hand. */
function checkLeft(
  left: Left,
  inHand: LengthInHand,
  length: LengthPlan,
  { plan, pieces }: CutPlan,
  cloth: Cloth,
  report: Report,
): void {
  const { box } = left.from!;
  const where = { length: left.name, box };
  const source = cloth.inHand.find(({ name, copies }) => numbered(name, copies).includes(length.name)) ?? {
    bought: length.length,
  };
  const edges = 'bought' in source ? cloth : source;
  const size = { width: box.x1 - box.x0, length: box.y1 - box.y0 };
  if (inHand.width !== size.width || inHand.length !== size.length) report('left-size', {}, where);
  const whole = {
    x0: 0,
    y0: cloth.squaring + (length.begins?.within ?? 0),
    x1: length.width,
    y1: length.length - cloth.squaring,
  } as Box;
  if (!inside(box, whole)) report('left-outside', {}, where);
  const parts = placeTree(length.tree, length.width, length.length, () => {});
  if (parts.some(({ tree, box: other }) => tree.kind === 'piece' && overlap(other, box)))
    report('left-over-piece', {}, where);
  if (flawsOnTable(cloth, source).some((outline) => isOver(box, outline)))
    report('left-over-flaw', {}, where);
  const panelled = holdsPanels(cloth, pieces);
  const measured = measuredMotif(cloth, source, panelled);
  const begun = length.begins?.motif === undefined ? undefined : whole.y0 + length.begins.motif;
  const column = 'bought' in source ? undefined : source.motifFromEdge;
  if (!tellsItsPrint(inHand, box, cloth, measured ?? begun, column)) report('left-print', {}, where);
  // Whatever of a selvedge lies inside is trimmed away with the leftover's own edge.
  const { selvedge } = edges;
  const trimmed = {
    x0: box.x0 + inHand.selvedge.left,
    x1: box.x1 - inHand.selvedge.right,
  };
  if (trimmed.x0 < selvedge.left || trimmed.x1 > length.width - selvedge.right)
    report('left-selvedge', {}, where);
  if (edges.crease.kind === 'keep-off') {
    const twice = tableCloth(cloth, source).twiceCrease;
    const strip = stripOf(twice, edges.crease.each);
    const crosses = box.x0 < strip.to && box.x1 > strip.from;
    if (crosses && !keepsOff(inHand, { from: strip.from - box.x0, to: strip.to - box.x0 }))
      report('left-crease', {}, where);
  }
  const width = trimmed.x1 - trimmed.x0;
  const { keep } = plan;
  const keepable =
    (width >= keep.width && size.length >= keep.length) ||
    (width >= keep.length && size.length >= keep.width);
  if (!keepable) report('left-too-small', {}, where);
}

/** A crease may lie between two ticks: the strip is as far from it on both its sides. */
function stripOf(twice: number, each: number): { readonly from: number; readonly to: number } {
  const from = Math.floor((twice - 2 * each) / 2);
  return { from, to: twice - from };
}

/** Whether a leftover says of a strip in it that it is to be kept off. */
function keepsOff({ crease, width }: LengthInHand, strip: ReturnType<typeof stripOf>): boolean {
  if (crease.kind !== 'keep-off') return false;
  const own = stripOf(crease.at === undefined ? width : 2 * crease.at, crease.each);
  return own.from <= strip.from && own.to >= strip.to;
}

/** The leftovers keep the print of their cloth and its shrinking, and are not for sale. */
function checkCloth({ cloth: own }: ClothUses, cloth: Cloth, report: Report): void {
  const shrinks = own.washing !== undefined && own.washing.washed === 'before-cutting';
  const later = cloth.washing?.washed === 'after-sewing' ? cloth.washing : undefined;
  const same =
    own.direction === cloth.direction &&
    own.printRuns === cloth.printRuns &&
    own.buy === undefined &&
    sameRepeat(own.repeat, repeatTold(cloth)) &&
    !shrinks &&
    JSON.stringify(own.washing) === JSON.stringify(later);
  if (!same) report('left-cloth', {});
}

function sameRepeat(one: Cloth['repeat'], other: Cloth['repeat']): boolean {
  if (!one || !other) return one === other;
  const keys = ['along', 'across', 'fromEdge', 'drop'] as const;
  return keys.every((key) => one[key] === other[key]);
}

function checkUse(use: LeftoverUse, { cloth }: ClothUses, checkPlan: CheckPlan, report: Report): void {
  const { wish, count, plan } = use;
  checkOffer(plan, [{ wish, count }], cloth, checkPlan, report);
  if (use.worth !== count * (wish.worth ?? 0)) report('use-worth', {}, { piece: wish.name });
  const cutFrom = plan.cloths.flatMap(({ lengths }) => lengths.map(({ name }) => name));
  if (JSON.stringify(cutFrom) !== JSON.stringify(use.from)) report('use-count', {}, { piece: wish.name });
}

/** A sound plan of so many of some wishes, from the leftovers alone. */
function checkOffer(
  plan: CutPlan,
  uses: readonly Pick<LeftoverUse, 'wish' | 'count'>[],
  cloth: Cloth,
  checkPlan: CheckPlan,
  report: Report,
): void {
  for (const { code, figures, where } of checkPlan(plan)) report(code, figures as never, where);
  const [name] = uses.map(({ wish }) => wish.name);
  if (JSON.stringify(plan.plan.cloths) !== JSON.stringify([cloth]) || plan.plan.pieces.length > 0)
    report('use-cloth', {}, { piece: name! });
  const { makes } = plan.plan;
  const asked = uses.every(({ wish, count }, index) => {
    const order = makes[index];
    const same = order?.make === wish.make && order.count === count;
    const matched = JSON.stringify(order?.matches) === JSON.stringify(wish.matches);
    return same && matched && JSON.stringify(order.measures) === JSON.stringify(wish.measures);
  });
  const within = uses.every(({ wish, count }) => count >= wish.least && count <= (wish.most ?? Infinity));
  if (!asked || !within || makes.length !== uses.length) report('use-count', {}, { piece: name! });
}

/** A sound plan that wants what was wanted of the cloth, and so many more; it buys and costs what it is said to. */
function checkMore(
  more: MoreToBuy,
  cutPlan: CutPlan,
  cloth: Cloth,
  checkPlan: CheckPlan,
  report: Report,
): void {
  const { wish, count, plan } = more;
  const where = { piece: wish.name };
  for (const { code, figures, where: own } of checkPlan(plan)) report(code, figures as never, own);
  if (JSON.stringify(plan.plan.cloths) !== JSON.stringify([cloth])) report('use-cloth', {}, where);
  const wanted = cutPlan.pieces.filter((piece) => piece.cloth === cloth.name);
  const all = wanted.every(({ copies, size, grain, match }) =>
    plan.plan.pieces.some(
      (own) =>
        own.count === copies &&
        own.size.width === size.width &&
        own.size.length === size.length &&
        own.grain === grain &&
        JSON.stringify(own.match) === JSON.stringify(match),
    ),
  );
  const [order, ...others] = plan.plan.makes;
  if (!all || plan.plan.pieces.length !== wanted.length || others.length > 0) report('more-wants', {}, where);
  const asked = order?.make === wish.make && order.count === count && count > more.without;
  if (!asked || count < wish.least || count > (wish.most ?? Infinity)) report('use-count', {}, where);
  const before = cutPlan.cloths.find((own) => own.cloth === cloth.name)?.purchase;
  const after = plan.cloths[0]?.purchase;
  const extra = Math.max(0, (after?.bought ?? 0) - (before?.bought ?? 0));
  if (extra !== more.more) report('more-bought', {}, where);
  const cost = after?.cost === undefined || before?.cost === undefined ? undefined : after.cost - before.cost;
  if (extra > 0 && more.cost !== cost) report('more-cost', {}, where);
}

function numbered(name: string, copies: number): readonly string[] {
  return copies === 1 ? [name] : Array.from({ length: copies }, (_, index) => `${name} ${index + 1}`);
}

function overlap(one: Box, other: Box): boolean {
  return one.x0 < other.x1 && other.x0 < one.x1 && one.y0 < other.y1 && other.y0 < one.y1;
}
