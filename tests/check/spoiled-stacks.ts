/** A plan of cloths stacked on each other, spoiled in its stack, with every code the checker must then report. */
import type { CutPlan, LengthPlan } from '../../src/model/cut-plan.ts';
import type { CutTree } from '../../src/model/cut-tree.ts';
import { type Ticks, ticks } from '../../src/units/ticks.ts';
import { inches, planned } from '../planning/build.ts';
import { changed } from '../support/changed.ts';
import { limpet, samphire, stackPlan, tern } from '../support/stack-plan.ts';
import { type Path, type Spoiled, spoiled, to } from './spoiled.ts';

const sound = planned(stackPlan([tern, samphire, limpet], { take: 'where-free', edge: 'left' }), 4_000);
const at = sound.stacks!.findIndex(({ taken }) => taken);
const stack: Path = ['stacks', at];

type Tree = CutTree<string>;

/** The first lengthwise cut between two pieces, moved by a tick. */
function cutMoved(tree: Tree): Tree {
  if (tree.kind !== 'cut') return tree;
  const between = tree.at.findIndex(
    (_, index) => tree.parts[index]!.kind === 'piece' && tree.parts[index + 1]!.kind === 'piece',
  );
  if (tree.direction === 'lengthwise' && between >= 0) {
    return { ...tree, at: tree.at.map((own, index) => (index === between ? ticks(own + 1) : own)) };
  }
  const first = tree.parts.findIndex((part) => cutMoved(part) !== part);
  return first < 0
    ? tree
    : { ...tree, parts: tree.parts.map((part, index) => (index === first ? cutMoved(part) : part)) };
}

/** The whole layer seen from its other side: every cut lies elsewhere. */
function turnedOver(length: LengthPlan): LengthPlan {
  const visit = (tree: Tree, width: Ticks): Tree => {
    if (tree.kind !== 'cut') return tree;
    if (tree.direction === 'crosscut')
      return { ...tree, parts: tree.parts.map((part) => visit(part, width)) };
    const edges = [0, ...tree.at, width];
    return {
      ...tree,
      at: tree.at.map((own) => ticks(width - own)).reverse(),
      parts: tree.parts.map((part, index) => visit(part, ticks(edges[index + 1]! - edges[index]!))).reverse(),
    };
  };
  return { ...length, tree: visit(length.tree, length.width) };
}

const second: Path = ['cloths', 1, 'lengths', 0];

export const spoiledStacks: readonly Spoiled[] = [
  spoiled(
    'a layer is cut a tick off the others',
    changed(sound, [...second, 'tree'], cutMoved),
    ...(['stack-disagrees', 'piece-size', 'cut-off-marks'] as const),
  ),
  spoiled(
    'a layer without a crease to keep off is turned over',
    changed(sound, ['cloths', 2, 'lengths', 0], turnedOver),
    ...(['stack-disagrees', 'trim-misplaced', 'piece-over-selvedge'] as const),
  ),
  spoiled(
    'a layer that is told to be cut into sections first is not',
    changed(
      sound,
      [...second, 'tree'],
      (tree: Tree): Tree => ({
        ...{ kind: 'cut' as const, direction: 'lengthwise' as const, at: [ticks(1)] },
        parts: [{ kind: 'trim', of: 'selvedge' }, tree],
      }),
    ),
    ...(['stack-sections', 'stack-disagrees', 'remnant-counts-trim'] as const),
  ),
  spoiled('there is one ply too many', changed(sound, ['plan', 'tools', 'mostPlies'], to(2)), 'stack-plies'),
  spoiled(
    'the plan takes no stacks',
    changed(sound, ['plan', 'stacks', 'take'], to('never')),
    'stack-unasked',
  ),
  spoiled(
    'a stack costs a tick of cloth where it must be free',
    changed(sound, [...stack, 'extraBought', 0], to(1)),
    'stack-not-free',
  ),
  spoiled(
    'a stack costs a hundredth where it must be free',
    changed(sound, [...stack, 'extraCost'], to(1)),
    'stack-not-free',
  ),
  spoiled(
    'one length is two layers',
    changed(sound, [...stack, 'layers', 1], to({ cloth: tern.name, length: 'bought' })),
    ...(['stack-layers'] as const),
  ),
  spoiled(
    'a layer is no length of the plan',
    changed(sound, [...stack, 'layers', 2, 'length'], to('bought 2')),
    ...(['stack-layers'] as const),
  ),
  spoiled(
    'a layer is folded',
    changed(sound, [...second, 'lay'], to({ kind: 'folded', foldAt: inches(27) })),
    ...(['stack-folded', 'fold-piece-alone', 'fold-cut-alone'] as const),
  ),
];

export const soundStack: CutPlan = sound;
