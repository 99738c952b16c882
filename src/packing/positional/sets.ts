import { valueBound } from '../bounds/value-bound.ts';
import type { Kind, MostQuestion, PackOptions, ShortestQuestion } from '../instance.ts';
import type { PackedSheet, PackResult } from '../result.ts';
import { freeArea } from './length-bounds.ts';
import { counted, placedCut, REMNANT } from './placed-tree.ts';

/**
 * Most complete sets from a sheet: one more set at a time is packed in the least length, until that is more than the
 * sheet has. `shortest` answers *shortest length* on the sheet, or only whether all fit it; it is stopped as soon as it
 * has an answer that does. The bound is
 * the first number of sets proven impossible, less one.
 */
export function mostSets(
  { sheet, kinds, set }: MostQuestion & { readonly set: readonly number[] },
  options: PackOptions,
  shortest: (question: ShortestQuestion, options: PackOptions) => PackResult,
): PackResult {
  // A fixed piece may lie in a way that its kind forbids, of which the bound for free pieces knows nothing.
  const fixed = (sheet.fixed?.length ?? 0) > 0;
  const unpriced = kinds.map(({ value: _, ...kind }) => kind);
  const free = fixed ? Number.POSITIVE_INFINITY : valueBound({ sheet, kinds: unpriced, set });
  const most = Math.min(setLimit({ sheet, kinds, set }), Math.floor(free));
  let nodes = 0;
  let bound = most;
  let best: { value: number; packed: PackedSheet } | undefined;
  for (let value = 0; value <= most; value++) {
    const left = options.effort - nodes;
    if (left <= 0 && best !== undefined) break;
    const result = fitSets({ sheet, kinds, set }, value, { ...options, effort: Math.max(1, left) }, shortest);
    nodes += result.nodes;
    if (result.status === 'impossible') {
      if (value === 0) return { ...result, nodes };
      bound = value - 1;
      break;
    }
    if (result.status === 'unknown') break;
    const [packed = { sheet: 0, width: sheet.width, length: 0, tree: REMNANT }] = result.sheets;
    // Pieces cut in pairs, or fixed, may make a further set complete.
    value = Math.max(value, completeSets(packed, set));
    best = { value, packed };
    options.onProgress?.({ nodes, value, bound });
  }
  if (best === undefined) return { status: 'unknown', bound, nodes };
  const { value, packed } = best;
  const tree = placedCut('crosscut', [
    { tree: packed.tree, size: packed.length },
    { tree: REMNANT, size: sheet.length - packed.length },
  ]);
  return {
    status: value === bound ? 'best' : 'found',
    value,
    bound,
    sheets: [{ sheet: 0, width: sheet.width, length: sheet.length, tree }],
    nodes,
  };
}

function completeSets(packed: PackedSheet, set: readonly number[]): number {
  const counts = counted(packed.tree, set.length);
  return Math.min(...set.flatMap((each, kind) => (each > 0 ? [Math.floor(counts[kind]! / each)] : [])));
}

/** As many sets as the copies and the free area allow. */
function setLimit({ sheet, kinds, set }: MostQuestion & { readonly set: readonly number[] }): number {
  const area = set.reduce((sum, each, kind) => sum + each * kinds[kind]!.width * kinds[kind]!.length, 0);
  if (area === 0) throw new RangeError('a set needs at least one piece');
  const { mirrorAt: _, ...plain } = sheet;
  const limits = set.flatMap((each, kind) => {
    const { copies } = kinds[kind]!;
    const usable = sheet.mirrorAt === undefined ? copies : 2 * Math.floor(copies / 2);
    return each > 0 ? [Math.floor(usable / each)] : [];
  });
  return Math.min(Math.floor(freeArea(plain) / area), ...limits);
}

/** Packs so many sets, and the fixed pieces whatever the number. */
function fitSets(
  { sheet, kinds, set }: MostQuestion & { readonly set: readonly number[] },
  value: number,
  options: PackOptions,
  shortest: (question: ShortestQuestion, options: PackOptions) => PackResult,
): PackResult {
  const wanted = kinds.map((kind, index): Kind => {
    const fixed = (sheet.fixed ?? []).filter((at) => at.kind === index).length;
    return { ...kind, copies: Math.max(value * set[index]!, fixed) };
  });
  let found = false;
  return shortest(
    { sheet, kinds: wanted },
    {
      ...options,
      stop: () => found || options.stop?.() === true,
      onProgress: (progress) => {
        if (progress.value !== undefined && progress.value <= sheet.length) found = true;
      },
    },
  );
}
