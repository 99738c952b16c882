import { type Edges, edgesOf, twiceTheCrease } from '../cloth/usable.ts';
import type { PlainBox } from '../geometry/walk.ts';
import { walk } from '../geometry/walk.ts';
import type { Cloth, Crease, Selvedges } from '../model/cloth.ts';
import type { CutPlan, LengthPlan } from '../model/cut-plan.ts';
import type { CutTree } from '../model/cut-tree.ts';
import type { PieceId, Size } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import { floorTo, type Ticks, ticks } from '../units/ticks.ts';
import { begun } from './begin.ts';
import { partsOf } from './joined.ts';
import { isKeepable } from './leftover.ts';
import { lengthInHand } from './length-in-hand.ts';
import { holdsPiece } from './steps.ts';

/** One keepable leftover as it is in the hand when all cuts are made: with the edges that no cut took away. */
export interface Leftover extends Size {
  readonly selvedge: Selvedges;
  readonly crease: Crease;
  /** Kept whatever its size, since a printed panel lies whole on it. */
  readonly forItsPanel?: true;
  /** Where it lay on the opened cloth. */
  readonly box: PlainBox<Ticks>;
}

/** So many copies of an entry of the cupboard that a plan cuts. */
export interface TakenOut {
  readonly entry: string;
  readonly cloth: string;
  /** As the plan saw it, before any washing, its length along the lengthwise grain. */
  readonly width: Ticks;
  readonly length: Ticks;
  readonly copies: number;
}

type Box = PlainBox<Ticks>;

/**
 * The keepable leftovers of one length. A cut is made only where a piece lies on one of its sides, so neighbouring
 * parts without a piece stay one: a leftover at the edge keeps its selvedge, one across the whole width its crease, and one that
 * lies over a crease that is kept off has that in it. Told by itself is every remnant of a length with flaws, without what still
 * hangs on to it.
 */
export function leftoversOf(cloth: Cloth, own: LengthPlan, keep: Size): readonly Leftover[] {
  const source = lengthInHand(cloth, own);
  const edges = edgesOf(cloth, source);
  const strip = keptOffStrip(cloth, edges);
  const remnants = walk(own.tree, own.width, own.length)
    .leaves.filter(({ leaf }) => leaf.kind === 'remnant')
    .map(({ box }) => box);
  const small = remnants.filter(({ x0, y0, x1, y1 }) => !isKeepable(x1 - x0, y1 - y0, keep));
  // Only the remnants themselves are known to be sound; what hangs on to them may hold a flaw.
  const sound = (source?.flaws ?? []).length > 0 ? remnants : uncutParts(begun(own).tree, begun(own).box);
  return sound
    .flatMap((box) => upToStrip(box, strip))
    .filter((box) => remnants.some((remnant) => overlap(remnant, box)))
    .map((box): Leftover => {
      const [atLeft, atRight] = [box.x0 === 0, box.x1 === own.width];
      return {
        width: ticks(box.x1 - box.x0),
        length: ticks(box.y1 - box.y0),
        selvedge: {
          left: atLeft ? edges.selvedge.left : ticks(0),
          right: atRight ? edges.selvedge.right : ticks(0),
        },
        crease: creaseIn(box, own.width, edges, strip),
        box,
        ...(small.some((remnant) => overlap(remnant, box)) && { forItsPanel: true as const }),
      };
    })
    .filter((left) => isKept(left, keep));
}

/** The same without the squared ends of its length, which are cut off when it is cut, where that leaves enough to keep. */
export function squaredLeftovers(cloth: Cloth, own: LengthPlan, keep: Size): readonly Leftover[] {
  return leftoversOf(cloth, own, keep)
    .flatMap((left): readonly Leftover[] => {
      const y0 = ticks(Math.max(left.box.y0, own.begins ? 0 : cloth.squaring));
      const y1 = ticks(Math.min(left.box.y1, own.length - cloth.squaring));
      return y0 < y1 ? [{ ...left, length: ticks(y1 - y0), box: { ...left.box, y0, y1 } }] : [];
    })
    .filter((left) => isKept(left, keep));
}

function isKept(left: Leftover, keep: Size): boolean {
  const { width, length } = usableSize(left);
  return left.forItsPanel === true || isKeepable(width, length, keep);
}

/** A leftover as every list and drawing tells it. */
export interface ToldLeftover {
  /** The usable size, down to the ruler's marks. */
  readonly size: Size;
  readonly selvedge: Selvedges;
  readonly crease: Crease;
  /** Its usable cloth on the opened length, off the marks. */
  readonly box: PlainBox<Ticks>;
}

/** The keepable leftovers of one length, the one source of what is told of them. */
export function toldLeftovers(
  cloth: Cloth,
  own: LengthPlan,
  { keep, rulerMark }: Pick<Plan, 'keep' | 'rulerMark'>,
): readonly ToldLeftover[] {
  return squaredLeftovers(cloth, own, keep).map((left) => {
    const { width, length } = usableSize(left);
    const { selvedge, crease } = left;
    const x0 = ticks(left.box.x0 + selvedge.left);
    const box = { ...left.box, x0, x1: ticks(x0 + width) };
    return {
      size: { width: floorTo(width, rulerMark), length: floorTo(length, rulerMark) },
      selvedge,
      crease,
      box,
    };
  });
}

/** What can be cut of a leftover: all but the selvedges that are still on it. */
export function usableSize({ width, length, selvedge }: Size & { readonly selvedge: Selvedges }): Size {
  return { width: ticks(width - selvedge.left - selvedge.right), length };
}

/** What a plan takes out of the cupboard: every copy of an entry that it cuts. */
export function takenOutBy(cutPlan: CutPlan): readonly TakenOut[] {
  return cutPlan.cloths.flatMap((clothPlan) => {
    const cloth = cutPlan.plan.cloths.find(({ name }) => name === clothPlan.cloth)!;
    const copies = new Map<string, number>();
    for (const length of clothPlan.lengths) {
      const entry = lengthInHand(cloth, length)?.entry?.name;
      if (entry !== undefined) copies.set(entry, (copies.get(entry) ?? 0) + 1);
    }
    return [...copies].map(([entry, taken]): TakenOut => {
      const { width, length } = cloth.inHand.find((own) => own.entry?.name === entry)!;
      return { entry, cloth: cloth.name, width, length, copies: taken };
    });
  });
}

/** The largest parts that no cut divides and that hold no piece, near to far. */
function uncutParts(tree: CutTree<PieceId>, box: Box): readonly Box[] {
  if (!holdsPiece(tree)) return [box];
  if (tree.kind !== 'cut') return [];
  const found: Box[] = [];
  let run: Box | undefined;
  for (const part of partsOf(tree, box)) {
    if (holdsPiece(part.tree)) {
      if (run) found.push(run);
      run = undefined;
      found.push(...uncutParts(part.tree, part.box));
    } else if (part.tree.kind !== 'trim' || part.tree.of !== 'crease') {
      // A strip that is kept off stays within a leftover; at its very edge it goes with the scissors.
      run = run ? { ...run, x1: part.box.x1, y1: part.box.y1 } : part.box;
    }
  }
  return run ? [...found, run] : found;
}

/** The strip that is kept off as it lies on the length, out to whole ticks; undefined where none is. */
function keptOffStrip(cloth: Cloth, edges: Edges): { readonly x0: Ticks; readonly x1: Ticks } | undefined {
  if (edges.crease.kind !== 'keep-off') return undefined;
  const twice = twiceTheCrease(cloth, edges);
  const x0 = ticks(Math.floor((twice - 2 * edges.crease.each) / 2));
  return { x0, x1: ticks(twice - x0) };
}

/** A part of which one edge falls into the kept-off strip is told up to it: the rest goes with the scissors. */
function upToStrip(box: Box, strip: ReturnType<typeof keptOffStrip>): readonly Box[] {
  if (!strip || box.x1 <= strip.x0 || box.x0 >= strip.x1) return [box];
  if (box.x0 < strip.x0 && box.x1 > strip.x1) return [box];
  const side = box.x0 < strip.x0 ? { ...box, x1: strip.x0 } : { ...box, x0: strip.x1 };
  return side.x0 < side.x1 ? [side] : [];
}

/** The crease as it runs in a leftover, its place from the leftover's own left edge where that is not midway. */
function creaseIn(box: Box, width: Ticks, { crease }: Edges, strip: ReturnType<typeof keptOffStrip>): Crease {
  if (box.x0 === 0 && box.x1 === width && !(crease.kind === 'keep-off' && crease.at !== undefined))
    return crease;
  if (!strip || box.x0 >= strip.x1 || box.x1 <= strip.x0) return { kind: 'none' };
  // A crease between two ticks is told at the nearer one, and its strip reaches as far.
  const at = ticks(Math.floor((strip.x0 + strip.x1) / 2) - box.x0);
  return { kind: 'keep-off', each: ticks(strip.x1 - box.x0 - at), at };
}

function overlap(one: Box, other: Box): boolean {
  return one.x0 < other.x1 && other.x0 < one.x1 && one.y0 < other.y1 && other.y0 < one.y1;
}
