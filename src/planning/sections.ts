import type { PlainBox } from '../geometry/walk.ts';
import type { ClothPlan, LengthPlan } from '../model/cut-plan.ts';
import type { CutTree } from '../model/cut-tree.ts';
import type { PieceId, Size } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import { type Ticks, ticks } from '../units/ticks.ts';
import { work } from './choose.ts';
import { joined, type Part, partsOf } from './joined.ts';
import { isKeepable } from './leftover.ts';
import { bladeReach, toolsOn } from './tool-reach.ts';

type Tree = CutTree<PieceId>;
type Box = PlainBox<Ticks>;

/** The same plan with long lengths crosscut into sections first, wherever that is no more work. */
export function inSections(plan: Plan, clothPlan: ClothPlan): ClothPlan {
  const cloth = plan.cloths.find(({ name }) => name === clothPlan.cloth);
  const lengths = clothPlan.lengths.map((length): LengthPlan => {
    const tools = toolsOn(plan.tools, cloth, length);
    const [recut] = crosscutFirst([length], bladeReach(tools), plan.keep);
    return recut && work(recut, tools) <= work(length, tools) ? recut : length;
  });
  return { ...clothPlan, lengths };
}

/**
 * Equivalent trees, with every piece and keepable leftover in its place, in which a section that is cut lengthwise over
 * more than `reach` is crosscut first where nothing is lost by it:
 * ```
 *   │ │ │        ───────
 *   │ │ │        │ │ │ │
 *   │─│ │   ▶    ───────
 *   │ │ │        │ │ │ │
 * ```
 * Sections are as long as the reach allows. Since crosscuts come first in a tree, it has no more stages than before.
 * Lengths that are cut as one, layer on layer with their near ends together, are crosscut where every layer may be; empty
 * where no section of them is parted.
 */
export function crosscutFirst(
  layers: readonly LengthPlan[],
  reach: number,
  keep: Size,
): readonly LengthPlan[] {
  const sections = layers.map(sectionsOf);
  const spans = (sections[0] ?? []).flatMap(({ box: { y0, y1 } }) => {
    const shared = sections.map((own) => own.find(({ box }) => box.y0 === y0 && box.y1 === y1));
    return shared.every((own) => own !== undefined) ? [{ y0, y1, shared }] : [];
  });
  const places = spans.flatMap(({ y0, y1, shared }) => {
    if (y1 - y0 <= reach || !shared.every(({ tree }) => isCutLengthwise(tree))) return [];
    const clear = shared.map(({ tree, box }) => clearOf(tree, box, keep)).reduce(inBoth);
    return asFarApart(clear, { y0, y1 }, reach);
  });
  if (places.length === 0) return [];
  return layers.map((length, layer) => ({
    ...length,
    tree: joined(
      'crosscut',
      sections[layer]!.flatMap((own) => parted(own, places)),
    ),
  }));
}

/** A part of a length from selvedge to selvedge. */
interface Section {
  readonly tree: Tree;
  readonly box: Box;
}

function sectionsOf({ tree, width, length }: LengthPlan): readonly Section[] {
  const whole: Box = { x0: ticks(0), y0: ticks(0), x1: width, y1: length };
  return tree.kind === 'cut' && tree.direction === 'crosscut' ? partsOf(tree, whole) : [{ tree, box: whole }];
}

function isCutLengthwise(tree: Tree): boolean {
  return tree.kind === 'cut' && tree.direction === 'lengthwise';
}

function parted({ tree, box }: Section, places: readonly Ticks[]): readonly Part<PieceId>[] {
  const edges = [box.y0, ...places.filter((y) => y > box.y0 && y < box.y1), box.y1];
  return edges.slice(1).map((to, index) => {
    const from = edges[index]!;
    return { extent: ticks(to - from), tree: between(tree, box, from, to) };
  });
}

/** Stretches of y, ends included, along which a crosscut goes through no piece and no leftover worth keeping. */
type Clear = readonly (readonly [from: Ticks, to: Ticks])[];

function clearOf(tree: Tree, box: Box, keep: Size): Clear {
  if (tree.kind === 'trim' || (tree.kind === 'scrap' && !isKeepable(box.x1 - box.x0, box.y1 - box.y0, keep)))
    return [[box.y0, box.y1]];
  if (tree.kind !== 'cut') {
    return [
      [box.y0, box.y0],
      [box.y1, box.y1],
    ];
  }
  const parts = partsOf(tree, box).map((part) => clearOf(part.tree, part.box, keep));
  return tree.direction === 'crosscut' ? each(parts.flat()) : parts.reduce(inBoth);
}

function inBoth(one: Clear, other: Clear): Clear {
  const both = one.flatMap(([from, to]) =>
    other.flatMap(([start, end]): Clear => {
      const stretch = [ticks(Math.max(from, start)), ticks(Math.min(to, end))] as const;
      return stretch[0] <= stretch[1] ? [stretch] : [];
    }),
  );
  return each(both);
}

/** Each stretch once: where a part ends the next begins, and every column over would else double what two have in common. */
function each(clear: Clear): Clear {
  return [...new Map(clear.map((stretch) => [stretch.join(' '), stretch])).values()];
}

/** The fewest places that bring the sections within reach, as far as they can be; each is where some part ends. */
function asFarApart(clear: Clear, { y0, y1 }: Pick<Box, 'y0' | 'y1'>, reach: number): readonly Ticks[] {
  const ends = [...new Set(clear.flat())].filter((y) => y > y0 && y < y1).sort((a, b) => a - b);
  const places: Ticks[] = [];
  for (let from = y0; y1 - from > reach; ) {
    const beyond = ends.filter((y) => y > from);
    const next = beyond.findLast((y) => y - from <= reach) ?? beyond[0];
    if (next === undefined) break;
    places.push(next);
    from = next;
  }
  return places;
}

/** What lies between two places of a part that a crosscut there leaves whole. */
function between(tree: Tree, box: Box, from: Ticks, to: Ticks): Tree {
  if (tree.kind !== 'cut') return tree;
  const kept = partsOf(tree, box).filter(({ box: own }) => own.y1 > from && own.y0 < to);
  const parts = kept.map(({ tree: own, extent, box: ownBox }): Part<PieceId> => {
    const clipped = ticks(Math.min(ownBox.y1, to) - Math.max(ownBox.y0, from));
    return {
      extent: tree.direction === 'crosscut' ? clipped : extent,
      tree: between(own, ownBox, from, to),
    };
  });
  return joined(tree.direction, parts);
}
