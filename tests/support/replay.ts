/**
 * Does on a simulated table what the steps tell the hands to do: fold, stack, set the ruler, cut through all plies, open,
 * take the next parts. From the words of each step alone: what it says it cuts, frees and leaves is compared afterwards.
 */
import { isOver } from '../../src/check/check-flaws.ts';
import { placeTree } from '../../src/check/placed-tree.ts';
import type { LengthPlan } from '../../src/model/cut-plan.ts';
import type { Box } from '../../src/model/piece.ts';
import type { Tools } from '../../src/model/plan.ts';
import type { CuttingStep } from '../../src/planning/steps.ts';
import type { ToolsOnCloth } from '../../src/planning/tool-reach.ts';
import { ticks } from '../../src/units/ticks.ts';
import { type Rectangle, SimulatedCloth, type Slit } from './table-cloth.ts';

interface Leaf {
  readonly kind: 'piece' | 'remnant' | 'scrap' | 'trim';
  readonly piece: string;
  readonly box: Rectangle;
  /** Of trim: what it is of. */
  readonly of?: string;
}

/**
 * All that is wrong with the steps of one length, in words; empty when replaying them gives the plan's pieces and leftovers.
 *
 * @param alone the tools for what is done to a layer of a stack by itself, before it lies with the others
 */
export function replayFaults(
  length: LengthPlan,
  steps: readonly CuttingStep[],
  tools: ToolsOnCloth,
  flaws: readonly Parameters<typeof isOver>[1][] = [],
  alone: ToolsOnCloth = tools,
): readonly string[] {
  const faults: string[] = [];
  const leaves = leavesOf(length);
  const slits = steps.map((step) => slitsOf(step, length));
  const cloth = new SimulatedCloth(length.width, length.length, edgesOf(leaves, steps, slits.flat(), length));
  const pieces = leaves.filter(({ kind }) => kind === 'piece');
  const remnants = leaves.filter(({ kind }) => kind === 'remnant');
  const creases = leaves.filter(({ kind, of }) => kind === 'trim' && of === 'crease');
  // What lies beyond a kept-off crease and still hangs on to what lies before it is no leftover of its own.
  const isBeyond = (box: Rectangle) =>
    flaws.length === 0 &&
    creases.some(
      ({ box: strip }) =>
        strip.x1 === box.x0 &&
        remnants.some(
          (own) =>
            own.box.x1 === strip.x0 &&
            own.box.y0 === box.y0 &&
            own.box.y1 === box.y1 &&
            cloth.hangTogether(own.box, box),
        ),
    );
  const apart = () =>
    remnants.filter(
      ({ box }) => !pieces.some((piece) => cloth.hangTogether(box, piece.box)) && !isBeyond(box),
    ).length;
  const taken: Rectangle[] = [];
  const worked = new Map<string, number>();
  let loose = new Set(pieces.filter(({ box }) => cloth.isLoose(box)));
  let left = apart();
  for (const [index, step] of steps.entries()) {
    const say = (fault: string) => faults.push(`${length.name}, step ${index + 1}: ${fault}`);
    if (step.number !== index + 1) say(`is numbered ${step.number}`);
    checkParts(step, length, { cloth, taken }, say);
    checkFromFold(step, length, cloth, say);
    const lies = underOf(step.parts, length, pieces, { cloth, taken }, say);
    const through = slits[index]!.filter((slit) => !taken.some((box) => isIn(slit, box)));
    const torn = through.some((slit) => flaws.some((outline) => isOver(aTickBeside(slit), outline)));
    const own = step.oneByOne === undefined ? tools : alone;
    if (step.oneByOne !== undefined && index > 0)
      say('is done to single cloths when they lie stacked already');
    checkSpread(step, length, lies, { ...own, tears: own.tears === true && !torn }, say);
    const asked = workAsked(step, lies);
    if (worked.has(asked)) say(`asks for the work of step ${worked.get(asked)} once more`);
    worked.set(asked, step.number);
    for (const slit of through) cloth.cut(slit);
    const now = new Set(pieces.filter(({ box }) => cloth.isLoose(box)));
    checkFreed(
      step,
      [...now].filter((piece) => !loose.has(piece)),
      say,
    );
    for (const piece of loose) if (!now.has(piece)) say(`cuts into the finished ${piece.piece}`);
    loose = now;
    const leftNow = apart();
    if (leftNow - left !== step.remnants) say(`leaves ${leftNow - left} remnants, but says ${step.remnants}`);
    left = leftNow;
    checkLines(step, slits[index]!, length, say);
  }
  for (const piece of pieces) {
    if (!loose.has(piece))
      faults.push(`${length.name}: ${piece.piece} at ${wordBox(piece.box)} is not free in the end`);
  }
  for (const { kind, box } of leaves) {
    if (kind === 'remnant' && !cloth.isWhole(box))
      faults.push(`${length.name}: the remnant at ${wordBox(box)} is cut into`);
  }
  return faults;
}

/** The cloth after all its steps, cut through where their settings say; `edges` are places that will be looked for besides. */
export function cutCloth(
  length: LengthPlan,
  steps: readonly CuttingStep[],
  edges: readonly Rectangle[],
): SimulatedCloth {
  const slits = steps.flatMap((step) => slitsOf(step, length));
  const known = edgesOf(leavesOf(length), steps, slits, length);
  const cloth = new SimulatedCloth(length.width, length.length, {
    xs: [...known.xs, ...edges.flatMap(({ x0, x1 }) => [x0, x1])],
    ys: [...known.ys, ...edges.flatMap(({ y0, y1 }) => [y0, y1])],
  });
  for (const slit of slits) cloth.cut(slit);
  return cloth;
}

/** The parts that a step takes up must lie loose on the table, all of one size, or they cannot be laid on each other. */
function checkParts(
  step: CuttingStep,
  length: LengthPlan,
  { cloth, taken }: OnTable,
  say: (fault: string) => void,
): void {
  const [first] = step.parts;
  if (first === undefined) {
    say('takes up no part');
    return;
  }
  for (const part of step.parts) {
    const plies = plysOf(part, length).filter((ply) => !taken.some((box) => isIn(ply, box)));
    if (!cloth.isFree(plies)) say(`the part at ${wordBox(part)} still hangs on to other cloth`);
    const alike = part.x1 - part.x0 === first.x1 - first.x0 && part.y1 - part.y0 === first.y1 - first.y0;
    if (!alike) say(`the part at ${wordBox(part)} is not as large as the one at ${wordBox(first)}`);
  }
}

/** A distance is told from the fold where the near edge of a part is the fold of the lay, and that is not cut along yet. */
function checkFromFold(
  { action, parts, spread, settings, fromFold }: CuttingStep,
  { lay }: LengthPlan,
  cloth: SimulatedCloth,
  say: (fault: string) => void,
): void {
  const measures = action === 'cut-lengthwise' && spread.mirrorAt === undefined && settings[0] !== 0;
  const atFold = parts.filter(
    (part) => measures && lay.kind === 'folded' && part.x0 === lay.foldAt && !cloth.isSlit(part),
  ).length;
  const found = atFold === 0 ? undefined : atFold === parts.length ? 'all' : 'some';
  if (found !== fromFold) say(`is measured from the fold in ${found ?? 'none'}, but says ${fromFold}`);
}

/** Two steps of one length that ask for the same cuts of equal parts should have been one. */
function workAsked({ action, parts, settings, trims, spread }: CuttingStep, { x0, x1 }: Under): string {
  const { x0: left, y0: near, x1: right, y1: far } = parts[0]!;
  return JSON.stringify([action, right - left, far - near, x0, x1, settings, trims, spread.mirrorAt]);
}

/** A tear along a slit meets what lies within a tick of it. */
function aTickBeside({ x0, y0, x1, y1 }: Slit): Box {
  const across = x0 === x1 ? 1 : 0;
  const along = y0 === y1 ? 1 : 0;
  return { x0: ticks(x0 - across), x1: ticks(x1 + across), y0: ticks(y0 - along), y1: ticks(y1 + along) };
}

interface OnTable {
  readonly cloth: SimulatedCloth;
  /** Offcuts that lay under or on a part and are out of the way. */
  readonly taken: Rectangle[];
}

/** The stretch of a part across the width under which the other ply lies, from the part's near edge; alike in every part of a step. */
interface Under {
  readonly x0: number;
  readonly x1: number;
}

/** What lies under the parts of a step. Cloth that is loose from them and holds no piece is taken away first. */
function underOf(
  parts: readonly Rectangle[],
  length: LengthPlan,
  pieces: readonly Leaf[],
  { cloth, taken }: OnTable,
  say: (fault: string) => void,
): Under {
  const stretches = parts.map((part): Under => {
    const [, lower] = plysOf(part, length);
    const single = { x0: 0, x1: 0 };
    if (!lower || length.lay.kind === 'flat' || taken.some((box) => isIn(lower, box))) return single;
    if (!pieces.some(({ box }) => isIn(box, lower)) && cloth.isFree([lower])) {
      taken.push(lower);
      return single;
    }
    const over = 2 * length.lay.foldAt - part.x0;
    return { x0: over - lower.x1, x1: over - lower.x0 };
  });
  const [first = { x0: 0, x1: 0 }] = stretches;
  for (const [index, own] of stretches.entries()) {
    if (own.x0 !== first.x0 || own.x1 !== first.x1)
      say(`the part at ${wordBox(parts[index]!)} does not lie in as many plies as the others`);
  }
  return first;
}

function isIn(box: Rectangle, whole: Rectangle): boolean {
  return box.x0 >= whole.x0 && box.x1 <= whole.x1 && box.y0 >= whole.y0 && box.y1 <= whole.y1;
}

/**
 * The most plies under any cut of a part that is folded so often to reach: found by laying the folds one by one and counting
 * what lies at each place.
 */
function pliesAt(
  { action, parts, spread, settings }: CuttingStep,
  { x0, x1 }: Under,
  times: number,
  mirrored = spread.mirrorAt !== undefined,
): { readonly most: number; readonly fewest: number } {
  const layers = (x: number) => (x > x0 && x < x1 ? 2 : 1);
  const counts: number[] = [];
  if (action === 'crosscut') {
    const width = parts[0]!.x1 - parts[0]!.x0;
    // Where a place of the opened part comes to lie when its far edge is laid on its near one, again and again.
    const folded = (x: number, extent: number, left: number): number =>
      left === 0 ? x : folded(Math.min(x, extent - x), extent / 2, left - 1);
    const steps = 2 ** times;
    const edges = [0, x0, x1, ...Array.from({ length: steps }, (_, fold) => (fold * width) / steps)];
    const ends = [...new Set(edges.map((x) => folded(x, width, times))), width / steps].sort((a, b) => a - b);
    for (const [index, end] of ends.slice(1).entries()) {
      const between = (end + ends[index]!) / 2;
      // Cloth of an odd width is folded to the tick: the one beyond is no ply.
      if (end - ends[index]! <= 1) continue;
      // Every place of the part that comes to lie there.
      let under = [between];
      for (let fold = times - 1; fold >= 0; fold--) under = under.flatMap((x) => [x, width / 2 ** fold - x]);
      counts.push(under.reduce((total, x) => total + layers(x), 0) * (mirrored ? 2 : 1));
    }
  } else {
    let edge = 0;
    for (const setting of settings) {
      edge += setting;
      const both = mirrored ? [spread.mirrorAt! + setting, spread.mirrorAt! - setting] : [edge];
      // The fold of the lay itself is cut through both its plies, and so is what lies up to the very edge folded over.
      const plies = both.map((x) => (x === 0 && x1 > 0 ? 2 : layers(x)));
      counts.push(2 ** times * plies.reduce((total, own) => total + own, 0));
    }
  }
  return { most: Math.max(...counts), fewest: Math.min(...counts) };
}

/** Plies under the blade, whether the ruler reaches, and how often the blade passes. */
function checkSpread(
  step: CuttingStep,
  length: LengthPlan,
  lies: Under,
  tools: Tools & { readonly tears: boolean },
  say: (fault: string) => void,
): void {
  const { parts, spread, settings, strokes, blade, action, measures, squareAfter } = step;
  const part = parts[0]!;
  const line = action === 'crosscut' ? part.x1 - part.x0 : part.y1 - part.y0;
  const { most, fewest } = pliesAt(step, lies, spread.reachFolds);
  const plies = most * spread.stacked;
  if (plies !== spread.plies) say(`has ${plies} plies under the blade, not ${spread.plies}`);
  if (most > fewest !== (spread.pliesVary ?? false)) say(`has ${fewest} to ${most} plies under the blade`);
  // A folded lay comes in two plies whatever the maker's most; every other fold and stack is the planner's own.
  const asLaid = pliesAt(step, lies, 0, false).most;
  if (plies > Math.max(tools.mostPlies, asLaid)) say(`has ${plies} plies, more than ${tools.mostPlies}`);
  const passes = settings.length * Math.ceil(parts.length / spread.stacked);
  if (passes !== strokes) say(`takes ${passes} strokes, not ${strokes}`);
  // Cloth that is laid once is not folded again.
  const needed = [0, 1, 2]
    .slice(0, length.oneSpread ? 1 : 3)
    .filter((times) => times === 0 || pliesAt(step, lies, times, false).most <= tools.mostPlies)
    .find((times) => isGuided(line / 2 ** times, tools));
  const wanted = needed !== undefined ? 'rotary' : tools.tears && asLaid === 1 ? 'tear' : 'scissors';
  if (blade !== wanted) say(`a cut of ${line} is made by ${blade}, not by ${wanted}`);
  if (spread.reachFolds !== (needed ?? 0)) say(`is folded ${spread.reachFolds} times to reach ${line}`);
  if (blade === 'tear' && plies !== 1) say(`tears ${plies} plies at once`);
  const measured = settings.map((setting) =>
    howMeasured(setting, blade === 'tear' ? undefined : line / 2 ** spread.reachFolds, tools),
  );
  if (JSON.stringify(measures) !== JSON.stringify(tools.rulerWidth === undefined ? undefined : measured))
    say(`is measured by ${measures}, not by ${measured}`);
  const creeps = plies / spread.stacked > 1 && settings.length > 4;
  if (squareAfter !== (creeps ? 4 : undefined)) say(`is laid true again after ${squareAfter} cuts`);
}

/** A cut is guided where the ruler, and under it the mat one way round or the other, is as long as the line. */
function isGuided(line: number, { rulerLength, mat }: Tools): boolean {
  return line <= rulerLength && (mat === undefined || line <= mat.width || line <= mat.length);
}

/** A line with no length to speak of is a tear's: it is snipped at one place, which the mat cannot help with. */
function howMeasured(setting: number, line: number | undefined, { rulerWidth, mat }: Tools): string {
  if (setting <= rulerWidth!) return 'ruler';
  if (mat === undefined || line === undefined) return 'tape';
  const sides = [mat.width, mat.length];
  return sides.some((side, index) => line <= side && setting <= sides[1 - index]!) ? 'mat' : 'tape';
}

/** The lines that the marker draws for a step are the cuts that its settings make, seen on the spread cloth. */
function checkLines(
  { lines }: CuttingStep,
  slits: readonly Slit[],
  { lay }: LengthPlan,
  say: (fault: string) => void,
): void {
  const onTop =
    lay.kind === 'flat' ? slits : slits.filter(({ x0, x1 }) => x0 >= lay.foldAt && x1 >= lay.foldAt);
  const found = counted([...new Set(onTop.map(wordBox))]);
  const told = counted(lines.map(wordBox));
  if (found !== told) say(`cuts ${found}, but draws ${told}`);
}

function checkFreed(step: CuttingStep, freed: readonly Leaf[], say: (fault: string) => void): void {
  const found = counted(freed.map(({ piece }) => piece));
  const told = step.frees.flatMap(({ piece, copies }) => Array.from({ length: copies }, () => piece));
  if (found !== counted(told)) say(`frees ${found || 'nothing'}, but says ${counted(told) || 'nothing'}`);
}

/**
 * Every slit that a step makes in the opened cloth. The ruler is set from the near edge, each time from the edge that
 * the cut before it left; on a fold made for mirrored cuts it is set from the fold, and each cut goes through both sides.
 */
function slitsOf({ action, parts, spread, settings }: CuttingStep, length: LengthPlan): readonly Slit[] {
  const crosscut = action === 'crosscut';
  return parts.flatMap((part) => {
    const [near, far] = crosscut ? [part.y0, part.y1] : [part.x0, part.x1];
    // On a folded lay a lengthwise setting of nothing, where the part begins at the fold, cuts along the fold itself.
    const isFold = !crosscut && length.lay.kind === 'folded' && near === length.lay.foldAt;
    const places: number[] = [];
    let edge: number = near;
    for (const setting of settings) {
      if (spread.mirrorAt === undefined) {
        edge += setting;
        places.push(edge);
      } else {
        const fold = near + spread.mirrorAt;
        places.push(fold + setting, ...(setting === 0 ? [] : [fold - setting]));
      }
    }
    return places
      .filter((place) => (place > near || (place === near && isFold)) && place < far)
      .map((place) => (crosscut ? { ...part, y0: place, y1: place } : { ...part, x0: place, x1: place }))
      .flatMap((slit) => plysOf(slit, length));
  });
}

/** A rectangle on the spread cloth as it lies on the opened one: once, or on a folded lay in both plies, where there are two. */
function plysOf(box: Rectangle, { lay, width }: LengthPlan): readonly Rectangle[] {
  if (lay.kind === 'flat') return [box];
  const lower = {
    ...box,
    x0: Math.max(0, 2 * lay.foldAt - box.x1),
    x1: Math.min(width, 2 * lay.foldAt - box.x0),
  };
  const sideways = box.x0 === box.x1;
  return sideways
    ? lower.x0 === lower.x1
      ? [box, lower]
      : [box]
    : lower.x0 < lower.x1
      ? [box, lower]
      : [box];
}

function edgesOf(
  leaves: readonly Leaf[],
  steps: readonly CuttingStep[],
  slits: readonly Slit[],
  length: LengthPlan,
): { readonly xs: readonly number[]; readonly ys: readonly number[] } {
  const parts = steps.flatMap((step) => step.parts.flatMap((part) => plysOf(part, length)));
  const boxes = [...leaves.map(({ box }) => box), ...parts, ...slits];
  return { xs: boxes.flatMap(({ x0, x1 }) => [x0, x1]), ys: boxes.flatMap(({ y0, y1 }) => [y0, y1]) };
}

function leavesOf({ tree, width, length }: LengthPlan): readonly Leaf[] {
  const placed = placeTree(tree, width, length, (code) => {
    throw new Error(`a tree that cannot be replayed: ${code}`);
  });
  return placed.flatMap(({ tree: leaf, box }) =>
    leaf.kind === 'cut'
      ? []
      : [
          {
            ...{ kind: leaf.kind, piece: leaf.kind === 'piece' ? leaf.piece : '', box },
            ...(leaf.kind === 'trim' && { of: leaf.of }),
          },
        ],
  );
}

function counted(pieces: readonly string[]): string {
  return [...pieces].sort().join(', ');
}

function wordBox({ x0, y0, x1, y1 }: Rectangle): string {
  return `${x0}-${x1} × ${y0}-${y1}`;
}
