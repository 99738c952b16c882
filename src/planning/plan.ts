import { checkPlan } from '../check/check-plan.ts';
import { type Expanded, expandMakes } from '../makes/expand.ts';
import type { ClothName } from '../model/cloth.ts';
import type { CutPlan } from '../model/cut-plan.ts';
import type { Issue, Outcome } from '../model/issue.ts';
import type { JoinedPiece, PieceWanted } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import { beyondReach } from './beyond-reach.ts';
import { chooseOpenings, type LayOutQuickly } from './choose-openings.ts';
import { areaOf, claimedByArea, spareOfOpenings } from './claims.ts';
import { type ClothsChosen, chooseCloths } from './collection/choose-cloths.ts';
import { settledChoice } from './collection/settled-choice.ts';
import { expandChosen, leavesClothOpen, type Openings, withOpeningsClosed } from './collection/wanted.ts';
import { shrinkingPieces } from './foreseen.ts';
import { LOOK, layOutCloth } from './lay-out.ts';
import { usesAcross } from './leftovers/uses-across.ts';
import { usesOfLeftovers } from './leftovers/uses-of.ts';
import { nothingStacked } from './no-stack.ts';
import { stuckOnPanels, withoutChoosing } from './panels/barred-choices.ts';
import { creasedPanels } from './panels/panels-told.ts';
import { notStacked, type Separate, stackCloths } from './stacks.ts';

export interface PlanningOptions {
  /** Search nodes per cloth; the same effort gives the same plan on every machine. */
  readonly effort: number;
  readonly seed: number;
  /**
   * Asked often while searching; true ends the search for that cloth with the best plan so far. Asked without a cloth
   * during a first look at several.
   */
  readonly stop?: (cloth?: string) => boolean;
  /** Told which cloth is being planned and the best length found so far. */
  readonly onProgress?: (progress: PlanningProgress) => void;
}

export interface PlanningProgress {
  readonly cloth: string;
  readonly nodes: number;
}

export const DEFAULT_EFFORT = 400_000;

/**
 * The whole pipeline from a validated plan to a cut plan:
 *
 *     plan ──expandMakes──▶ pieces wanted ──sortIntoKinds──▶ kinds ─┐
 *     cloth ──bedsOf──▶ beds ─────────────────────packBeds──────────┴─▶ packed beds ──openOut──▶ cut trees
 *
 * Which way covers close that may close either way is chosen before, by chooseOpenings.
 * Cloths that the plan leaves open are chosen next, by chooseCloths, for the least money in all.
 * A piece too large for its cloth goes through chooseJoins first, where its make permits.
 *
 * Every cloth is planned by itself; stackCloths then finds those that are better cut as one. Fails with all the problems of all cloths together.
 */
export function makeCutPlan(asked: Plan, options: PlanningOptions): Outcome<CutPlan> {
  return planBarring(asked, options, { cloths: [] });
}

/** Cloths that are chosen for no part that may be cut from another, and what was proven before any was barred. */
interface Barred {
  readonly cloths: readonly ClothName[];
  readonly first?: ClothsChosen;
}

function planBarring(asked: Plan, options: PlanningOptions, barred: Barred): Outcome<CutPlan> {
  const plan = leavesClothOpen(asked) ? withOpeningsClosed(asked) : asked;
  const openings = chooseOpenings(plan, lookAt(plan, options));
  const expanded = expandMakes(plan, openings);
  const chosen =
    leavesClothOpen(plan) || plan.sets
      ? chooseFor(withoutChoosing(plan, barred.cloths), openings, expanded, options)
      : undefined;
  if (chosen?.ok === false) return { ok: false, issues: chosen.issues };
  const made = chosen ? expandChosen(plan, chosen.value.lots, openings, expanded) : expanded;
  const issues: Issue[] = [...made.issues, ...(chosen?.issues ?? [])];
  const spares = spareOfOpenings(plan, made.pieces);
  const separate: Separate[] = [];
  const pieces: PieceWanted[] = [];
  const joined: JoinedPiece[] = [];
  for (const cloth of plan.cloths) {
    const wanted = made.pieces.filter((piece) => piece.cloth === cloth.name);
    if (wanted.length === 0) continue;
    const { stop, onProgress } = options;
    const outcome = layOutCloth(plan, cloth, wanted, {
      pack: {
        effort: options.effort,
        seed: options.seed,
        ...(stop && { stop: () => stop(cloth.name) }),
        ...(onProgress && { onProgress: ({ nodes }) => onProgress({ cloth: cloth.name, nodes }) }),
      },
    });
    issues.push(...outcome.issues);
    if (!outcome.ok) continue;
    const spare = spares.get(cloth.name);
    const isChosen = outcome.value.joined.length > 0 || spare !== undefined;
    const told = isChosen
      ? claimedByArea(plan, cloth, outcome.value.plan, areaOf(wanted) - (spare ?? 0))
      : outcome.value.plan;
    separate.push({ cloth, plan: told, pieces: outcome.value.pieces });
    pieces.push(...outcome.value.pieces);
    joined.push(...outcome.value.joined);
  }
  const first = barred.first ?? chosen?.value;
  if (issues.some((issue) => issue.severity === 'error')) {
    // A choice knows nothing of where panels lie: pieces that find no room beside them may find it on another cloth.
    const stuck = stuckOnPanels(plan, issues, barred.cloths);
    const again =
      stuck === undefined
        ? undefined
        : planBarring(asked, options, { cloths: [...barred.cloths, stuck], ...(first && { first }) });
    return again?.ok ? again : { ok: false, issues };
  }
  issues.push(...shrinkingPieces(plan, made.pieces), ...notStacked(plan, separate));
  const order = new Map(made.pieces.map((piece, index) => [piece.id, index] as const));
  pieces.sort((a, b) => order.get(a.partOf?.piece ?? a.id)! - order.get(b.partOf?.piece ?? b.id)!);
  const { effort, seed, stop } = options;
  const pack = { effort, seed, ...(stop && { stop: () => stop() }) };
  const assembled = ({ cloths, stacks }: ReturnType<typeof stackCloths>): CutPlan => {
    const choice =
      leavesClothOpen(plan) &&
      chosen &&
      settledChoice(plan, { ...first!, lots: chosen.value.lots }, cloths, joined);
    return { plan, pieces, joined, makes: made.sheets, stacks, cloths, ...(choice && { choice }), issues };
  };
  const stacked = assembled(stackCloths(plan, separate, pack));
  // A stack is only a convenience: one that cannot be proven is not taken.
  const stands = !stacked.stacks?.some(({ taken }) => taken) || checkPlan(stacked).length === 0;
  const value = stands ? stacked : assembled({ cloths: separate.map((own) => own.plan), stacks: [] });
  const unstacked = nothingStacked(plan, separate, value.stacks ?? []);
  const told = {
    ...value,
    issues: [...issues, ...unstacked, ...creasedPanels(value), ...beyondReach(value)],
  };
  return { ok: true, value: plan.wishes ? withUses(told, options) : told, issues: told.issues };
}

/** What its leftovers could become, of what the maker lists; each question takes a small share of the effort. */
function withUses(cutPlan: CutPlan, { effort, seed, stop }: PlanningOptions): CutPlan {
  const own = { effort: Math.ceil(effort / LOOK), seed, ...(stop && { stop: () => stop() }) };
  const planned = (asked: Plan) => {
    const outcome = makeCutPlan(asked, own);
    return outcome.ok ? outcome.value : undefined;
  };
  const asked = { ...own, withUsual: false, planned };
  const uses = usesOfLeftovers(cutPlan, asked);
  const across = usesAcross(cutPlan.plan, uses, asked);
  return { ...cutPlan, uses, ...(across.length > 0 && { usesAcross: across }) };
}

/** Cloths are chosen only for orders that can all be made: a sum that lacks pieces would mislead. */
function chooseFor(
  plan: Plan,
  openings: Openings,
  { issues }: Expanded,
  { effort, seed, stop, onProgress }: PlanningOptions,
): Outcome<ClothsChosen> {
  if (issues.some(({ severity }) => severity === 'error')) return { ok: false, issues };
  return chooseCloths(plan, openings, {
    effort,
    seed,
    ...(stop && { stop: () => stop() }),
    ...(onProgress && { onNode: (nodes: number) => onProgress({ cloth: 'the choice of cloths', nodes }) }),
  });
}

/** A first look at one cloth, with a small share of the effort. */
function lookAt(plan: Plan, { effort, seed, stop }: PlanningOptions): LayOutQuickly {
  const pack = { effort: Math.ceil(effort / LOOK), seed, ...(stop && { stop: () => stop() }) };
  return (name, pieces) => {
    const cloth = plan.cloths.find((own) => own.name === name);
    const outcome = cloth && layOutCloth(plan, cloth, pieces, { pack });
    return outcome?.ok ? outcome.value.plan : undefined;
  };
}
