import type { Preferences, Stages } from '../instance.ts';
import { sizeAlong, type WorkPart } from './work-tree.ts';

/** What a tidy tree is judged by; of two trees with the same pieces the smaller in every respect is the better. */
export interface Measures {
  /** 1 − Σ area² ÷ (Σ area)² over the leftovers: 0 for a single one, near 1 for many crumbs. */
  readonly fragmentation: number;
  readonly cuts: number;
  /** Cuts left to make when parts that are cut alike, wherever they lie, are laid on each other in pairs. */
  readonly pairedCuts: number;
  /** Different sizes at which a part is cut off: each is a new setting of the ruler. */
  readonly settings: number;
  readonly beyondReach: number;
}

/** By one pass over the tree with a stack. `reach` is the longest cut wished for. */
export function measure(root: WorkPart, reach = Number.POSITIVE_INFINITY): Measures {
  const settings = new Set<number>();
  const alike = new Map<string, number>();
  let [area, squares, cuts, pairedCuts, beyondReach] = [0, 0, 0, 0, 0];
  const open: WorkPart[] = [root];
  for (let part = open.pop(); part !== undefined; part = open.pop()) {
    if (part.kind === 'leftover') {
      area += part.width * part.length;
      squares += (part.width * part.length) ** 2;
    } else if (part.kind === 'cut') {
      cuts += part.parts.length - 1;
      const shape = `${part.width} ${part.length} ${part.name}`;
      const count = (alike.get(shape) ?? 0) + 1;
      alike.set(shape, count);
      if (count % 2 === 1) pairedCuts += part.parts.length - 1;
      if (sizeAlong(part, !part.crosscut) > reach) beyondReach += part.parts.length - 1;
      for (const [index, inner] of part.parts.entries()) {
        if (index < part.parts.length - 1) settings.add(sizeAlong(inner, part.crosscut));
        open.push(inner);
      }
    }
  }
  const fragmentation = area === 0 ? 0 : 1 - squares / area ** 2;
  return { fragmentation, cuts, pairedCuts, settings: settings.size, beyondReach };
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
