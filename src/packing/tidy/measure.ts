import type { Preferences, Stages } from '../instance.ts';
import { sizeAlong, type WorkCut, type WorkPart } from './work-tree.ts';

/** What a tidy tree is judged by; of two trees with the same pieces the smaller in every respect is the better. */
export interface Measures {
  /** 1 − Σ area² ÷ (Σ area)² over the leftovers: 0 for a single one, near 1 for many crumbs. */
  readonly fragmentation: number;
  readonly cuts: number;
  /** Cuts left to make when equal parts of a cut are laid on each other in pairs. */
  readonly pairedCuts: number;
  /** Different sizes at which a part is cut off: each is a new setting of the ruler. */
  readonly settings: number;
  readonly beyondReach: number;
}

/** By one pass over the tree with a stack. `reach` is the longest cut wished for. */
export function measure(root: WorkPart, reach = Number.POSITIVE_INFINITY): Measures {
  const settings = new Set<number>();
  let [area, squares, cuts, beyondReach] = [0, 0, 0, 0];
  const open: WorkPart[] = [root];
  for (let part = open.pop(); part !== undefined; part = open.pop()) {
    if (part.kind === 'leftover') {
      area += part.width * part.length;
      squares += (part.width * part.length) ** 2;
    } else if (part.kind === 'cut') {
      cuts += part.parts.length - 1;
      if (sizeAlong(part, !part.crosscut) > reach) beyondReach += part.parts.length - 1;
      for (const [index, inner] of part.parts.entries()) {
        if (index < part.parts.length - 1) settings.add(sizeAlong(inner, part.crosscut));
        open.push(inner);
      }
    }
  }
  const fragmentation = area === 0 ? 0 : 1 - squares / area ** 2;
  return { fragmentation, cuts, pairedCuts: pairedCuts(root), settings: settings.size, beyondReach };
}

const pairedCutsKnown = new WeakMap<WorkCut, number>();

/** Parts are never changed, so the count of each is kept for as long as the part lives. */
function pairedCuts(root: WorkPart): number {
  if (root.kind !== 'cut') return 0;
  const open: WorkCut[] = [root];
  while (open.length > 0) {
    const cut = open.at(-1)!;
    const waiting = cut.parts.filter(
      (part): part is WorkCut => part.kind === 'cut' && !pairedCutsKnown.has(part),
    );
    if (waiting.length > 0 && !pairedCutsKnown.has(cut)) {
      open.push(...waiting);
      continue;
    }
    pairedCutsKnown.set(cut, ownPairedCuts(cut));
    open.pop();
  }
  return pairedCutsKnown.get(root)!;
}

function ownPairedCuts(cut: WorkCut): number {
  let total = 0;
  let [allEven, parts] = [true, 0];
  for (let index = 0; index < cut.parts.length; ) {
    const part = cut.parts[index]!;
    if (part.kind === 'leftover') break;
    let alike = index + 1;
    while (alike < cut.parts.length && isAlike(cut.parts[alike]!, part, cut.crosscut)) alike++;
    const count = alike - index;
    if (count % 2 === 1) allEven = false;
    parts += count;
    total += Math.ceil(count / 2) * (part.kind === 'cut' ? pairedCutsKnown.get(part)! : 0);
    index = alike;
  }
  const own = cut.parts.length - 1;
  // Folded at the middle, each cut makes two: k alike pairs side by side need k of them, the fold's edge included.
  return total + (allEven && parts > 0 ? Math.ceil(own / 2) : own);
}

function isAlike(a: WorkPart, b: WorkPart, crosscut: boolean): boolean {
  return a.name === b.name && sizeAlong(a, crosscut) === sizeAlong(b, crosscut);
}

/** One number to make small. Fragmentation counts as ten units of its weight at its worst; all else counts one each. */
export function score(measures: Measures, preferences: Preferences): number {
  return (
    preferences.largeRemnants * 10 * measures.fragmentation +
    preferences.fewCuts * measures.cuts +
    preferences.alikeHalves * measures.pairedCuts +
    preferences.fewSettings * measures.settings +
    preferences.withinReach * measures.beyondReach
  );
}

/** Whether the tree keeps the stage limit: crosscuts, then lengthwise cuts, ... and one trimming cut at the end. */
export function keepsStages(root: WorkPart, stages: Stages): boolean {
  if (stages === 'any') return true;
  const open: { part: WorkPart; level: number }[] = [
    { part: root, level: root.kind === 'cut' && !root.crosscut ? 2 : 1 },
  ];
  for (let top = open.pop(); top !== undefined; top = open.pop()) {
    const { part, level } = top;
    if (part.kind !== 'cut') continue;
    if (level > stages + 1) return false;
    if (level === stages + 1) {
      const pieces = part.parts.filter(({ kind }) => kind === 'piece').length;
      if (pieces > 1 || part.parts.some(({ kind }) => kind === 'cut')) return false;
    }
    for (const inner of part.parts) open.push({ part: inner, level: level + 1 });
  }
  return true;
}
