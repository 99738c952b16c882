import type { Box, Sheet, Stages } from '../instance.ts';
import type { SheetTree } from '../result.ts';
import type { Budget } from '../search/budget.ts';
import { type Random, seededRandom } from '../search/random.ts';
import { insideBoxes } from './grid.ts';
import { bestInsertion, fill, type InsertionRule, type OpenLeaf, treesOf } from './insertion.ts';
import { firstStart, type Item, overlap } from './items.ts';
import { Leaves } from './leaves.ts';
import { counted, isLeftover, lifted, placedCut, REMNANT, rebuilt, sizedParts, sunk } from './placed-tree.ts';

/** Cost of a fixed piece that is left out, far above all others together. */
const FIXED_COST = 1e6;
/** Ways of ordering what is put back: by area, longer side, length, width, or at random. */
const ORDERS = 5;
/** One cut in so many, of those touched, has its leftover sunk into a part of it rather than lifted out. */
const SINKS = 8;
/** Weight of large leftovers against the cost of what stays out. */
const WHOLENESS = 0.3;

export interface PlacedSearchOptions {
  readonly items: readonly Item[];
  readonly stages: Stages;
  readonly seed: number;
  readonly budget: Budget;
  /** What it costs to leave out one copy of an item; fixed pieces cost far more whatever it says. */
  readonly costOf: (item: Item) => number;
}

/**
 * Ruin and recreate on cut trees whose parts have places: for sheets with forbidden boxes, fixed pieces and lattices,
 * where parts cannot change places freely. Pieces taken out leave leftovers that are joined with those beside them
 * and lifted; what is out is put back where a rule likes it best; annealing on the cost of what stays out.
 */
export class PlacedSearch {
  trees: SheetTree[] = [];
  /** Copies of each item that are not laid. */
  out: number[] = [];
  bestCost = Number.POSITIVE_INFINITY;
  bestTrees: readonly SheetTree[] = [];
  private readonly items: readonly Item[];
  private readonly options: PlacedSearchOptions;
  private readonly random: Random;
  private readonly costs: readonly number[];
  private readonly leaves: Leaves;
  private readonly copies: number;
  private area = 1;
  private wholeness = 0;
  private sheets: readonly Sheet[] = [];
  private boxes: readonly (readonly Box[])[] = [];

  constructor(options: PlacedSearchOptions) {
    this.options = options;
    this.items = options.items;
    this.leaves = new Leaves(options.items);
    this.random = seededRandom(options.seed);
    const plain = this.items.map((item) => options.costOf(item));
    const copies = this.items.reduce((sum, item) => sum + item.copies, 0);
    this.copies = copies;
    const mean =
      this.items.reduce((sum, item, index) => sum + item.copies * plain[index]!, 0) / Math.max(1, copies);
    this.costs = this.items.map((item, index) => (item.place ? FIXED_COST : plain[index]! / (mean || 1)));
  }

  /** Empties these sheets; their lengths must be finite. */
  reset(sheets: readonly Sheet[]): void {
    this.sheets = sheets;
    this.boxes = sheets.map(insideBoxes);
    this.area = sheets.reduce((sum, { width, length }) => sum + width * length, 0);
    this.trees = sheets.map(() => REMNANT);
    this.out = this.items.map(({ copies }) => copies);
    this.bestCost = Number.POSITIVE_INFINITY;
    this.bestTrees = this.trees;
  }

  /** Goes on from trees of these sheets, with items on their leaves; what they do not hold is out. */
  resume(sheets: readonly Sheet[], trees: readonly SheetTree[]): void {
    this.reset(sheets);
    this.trees = [...trees];
    for (const tree of trees) {
      for (const [index, count] of counted(tree, this.items.length).entries()) this.out[index]! -= count;
    }
    this.bestCost = Number.POSITIVE_INFINITY;
    this.note(this.cost());
  }

  /** Puts back what is out, as far as it goes in. */
  fill(order: number, rule: InsertionRule): void {
    this.recreate(order, rule);
    this.note(this.cost());
  }

  get complete(): boolean {
    return this.out.every((count) => count === 0);
  }

  /** One cycle of annealing; true as soon as nothing is out. */
  anneal(iterations: number, hot: number): boolean {
    const { random, options } = this;
    let cost = this.cost() - this.wholeness;
    for (let iteration = 0; iteration < iterations; iteration++) {
      if (this.complete) return true;
      // With many pieces a move takes as long as many moves with few.
      const spent = this.copies < 256 ? options.budget.spend() : options.budget.spendMany(this.copies >> 7);
      if (spent) return false;
      const [keptTrees, keptOut] = [this.trees, this.out];
      this.ruin(1 + random.below(random.below(3) === 0 ? 8 : 4));
      this.recreate(random.below(ORDERS), {
        choice: random.below(3) as InsertionRule['choice'],
        skip: 0.03,
        whim: random.below(2) === 0 ? 0.25 : 0,
      });
      const outCost = this.cost();
      const fresh = outCost - this.wholeness;
      const temperature = hot * (1 - iteration / iterations) ** 2;
      if (fresh <= cost - temperature * Math.log(random.unit() + 1e-12)) {
        cost = fresh;
        this.note(outCost);
      } else {
        this.trees = keptTrees;
        this.out = keptOut;
      }
    }
    return this.complete;
  }

  private note(cost: number): void {
    if (cost >= this.bestCost) return;
    this.bestCost = cost;
    this.bestTrees = this.trees;
  }

  private cost(): number {
    return this.out.reduce((sum, count, index) => sum + count * this.costs[index]!, 0);
  }

  /** Few large leftovers are worth a little: what is out goes into them sooner. */
  private weighLeftovers(open: readonly OpenLeaf[]): void {
    let squares = 0;
    for (const { x0, y0, x1, y1 } of open) squares += ((x1 - x0) * (y1 - y0)) ** 2;
    this.wholeness = (WHOLENESS * Math.sqrt(squares) * this.copies) / this.area;
  }

  private boxOf(sheet: number): Box {
    const { width, length } = this.sheets[sheet]!;
    return { x0: 0, y0: 0, x1: width, y1: length };
  }

  /** Takes out pieces: scattered ones, or neighbours in the order of the tree. */
  private ruin(count: number): void {
    const counts = this.trees.map((tree) => this.leaves.of(tree).pieces);
    const placed = counts.reduce((sum, own) => sum + own, 0);
    if (placed === 0) return;
    const gone = new Set<number>();
    const start = this.random.below(placed);
    const scattered = this.random.below(5) < 2;
    for (let index = 0; index < count; index++) {
      gone.add(scattered ? this.random.below(placed) : (start + index) % placed);
    }
    const order = [...gone].sort((a, b) => a - b);
    this.out = [...this.out];
    const lifts = this.options.stages === 'any';
    let at = 0;
    let next = 0;
    const untouched = (tree: SheetTree) => {
      const { pieces } = this.leaves.of(tree);
      if (next < order.length && order[next]! < at + pieces) return false;
      at += pieces;
      return true;
    };
    let boxes: readonly Box[] = [];
    const take = (part: SheetTree, box: Box) => {
      if (part.kind === 'cut') {
        const better = this.gathered(part, box, boxes);
        if (!lifts) return better;
        return this.random.below(SINKS) === 0 ? this.sunk(better, box, boxes) : lifted(better, box);
      }
      this.out[(part as { piece: number }).piece]! += 1;
      at++;
      next++;
      return REMNANT;
    };
    this.trees = this.trees.map((tree, sheet) => {
      boxes = this.boxes[sheet]!;
      return rebuilt(tree, this.boxOf(sheet), take, untouched);
    });
  }

  /** The cut with its leftovers brought together at the far end, where nothing that moves by it loses its place. */
  private gathered(cut: SheetTree, box: Box, boxes: readonly Box[]): SheetTree {
    if (cut.kind !== 'cut') return cut;
    const first = cut.parts.findIndex(isLeftover);
    if (first < 0 || first === cut.parts.length - 1) return cut;
    const crosscut = cut.direction === 'crosscut';
    const parts = sizedParts(cut, crosscut ? box.y1 - box.y0 : box.x1 - box.x0);
    const kept = parts.filter(({ tree }) => !isLeftover(tree));
    const moved = placedCut(cut.direction, [...kept, ...parts.filter(({ tree }) => isLeftover(tree))]);
    const free = !this.leaves.of(cut).held && !boxes.some((other) => overlap(other, box));
    return free || this.isInPlace(moved, box, boxes) ? moved : cut;
  }

  /** The cut with the leftover at its far end given to one of its parts, where nothing that moves loses its place. */
  private sunk(cut: SheetTree, box: Box, boxes: readonly Box[]): SheetTree {
    if (cut.kind !== 'cut') return cut;
    const index = this.random.below(cut.parts.length);
    const moved = sunk(cut, box, index);
    if (moved === undefined) return cut;
    const stays = index === cut.parts.length - 2;
    const free = stays || (!this.leaves.of(cut).held && !boxes.some((other) => overlap(other, box)));
    return free || this.isInPlace(moved, box, boxes) ? moved : cut;
  }

  /** Whether every piece of a tree may lie where the tree has it. */
  private isInPlace(root: SheetTree, box: Box, boxes: readonly Box[]): boolean {
    let sound = true;
    rebuilt(
      root,
      box,
      (tree, at) => {
        if (tree.kind !== 'piece') return tree;
        const item = this.items[tree.piece]!;
        const onPoint = item.poses.some(
          (pose) =>
            firstStart(item, pose, 'x', at.x0) === at.x0 && firstStart(item, pose, 'y', at.y0) === at.y0,
        );
        if (!onPoint || boxes.some((other) => overlap(other, at))) sound = false;
        return tree;
      },
      () => !sound,
    );
    return sound;
  }

  private recreate(order: number, rule: InsertionRule): void {
    const { items, random } = this;
    const { stages } = this.options;
    const base = this.trees.map((tree, sheet) => this.openLeaves(tree, sheet));
    const all: OpenLeaf[] = base.flat();
    const open: OpenLeaf[] = [...all];
    this.out = [...this.out];
    const latticeFirst = random.below(2) === 0;
    const waiting = items
      .map((item, index) => ({ index, key: this.orderKey(item, order, latticeFirst) }))
      .filter(({ index }) => this.out[index]! > 0)
      .sort((a, b) => b.key - a.key || a.index - b.index);
    for (const { index } of waiting) {
      while (this.out[index]! > 0) {
        const found = bestInsertion(open, items, index, { rule, stages, random });
        if (found === undefined) break;
        const opened = fill(found.leaf, found.filled);
        open.splice(open.indexOf(found.leaf), 1, ...opened);
        all.push(...opened);
        this.out[index]! -= 1;
      }
    }
    this.weighLeftovers(open);
    const trees = treesOf(all);
    this.trees = this.trees.map((tree, sheet) => {
      if (base[sheet]!.every(({ filled }) => filled === undefined)) return tree;
      // Leaves come in the order in which they were opened; parts in which none was filled are kept.
      let at = 0;
      const leaves = base[sheet]!;
      const put = (part: SheetTree) => (part.kind === 'remnant' ? trees.get(leaves[at++]!)! : part);
      const unfilled = (part: SheetTree) => {
        const { leftovers } = this.leaves.of(part);
        for (let index = at; index < at + leftovers; index++)
          if (leaves[index]!.filled !== undefined) return false;
        at += leftovers;
        return true;
      };
      return rebuilt(tree, this.boxOf(sheet), put, unfilled);
    });
  }

  private orderKey(item: Item, order: number, latticeFirst: boolean): number {
    if (item.place !== undefined) return Number.POSITIVE_INFINITY;
    const { width, length } = item.poses[0]!;
    const keys = [item.area, 1e3 * Math.max(width, length), 1e3 * length, 1e3 * width];
    const key = keys[order] ?? this.random.unit();
    return latticeFirst && item.lattice !== undefined ? key + 1e15 : key;
  }

  /** The leftovers of a tree in its order, each with the stage of the cut that made it. */
  private openLeaves(root: SheetTree, sheet: number): OpenLeaf[] {
    const forbidden = this.boxes[sheet]!;
    const leaves: OpenLeaf[] = [];
    const open: (Box & { tree: SheetTree; crosscut: boolean; level: number })[] = [
      { ...this.boxOf(sheet), tree: root, crosscut: true, level: 1 },
    ];
    for (let part = open.pop(); part !== undefined; part = open.pop()) {
      const { tree, x0, y0, x1, y1 } = part;
      if (tree.kind === 'piece') continue;
      if (tree.kind !== 'cut') {
        const { crosscut, level } = part;
        const boxes = forbidden.length === 0 ? forbidden : forbidden.filter((box) => overlap(box, part!));
        leaves.push({ x0, y0, x1, y1, sheet, crosscut, level, boxes });
        continue;
      }
      const crosscut = tree.direction === 'crosscut';
      const level = crosscut === part.crosscut ? part.level : part.level + 1;
      for (let index = tree.parts.length - 1; index >= 0; index--) {
        const inner = tree.parts[index]!;
        if (inner.kind === 'piece' || (inner.kind === 'cut' && this.leaves.of(inner).leftovers === 0))
          continue;
        const from = (crosscut ? y0 : x0) + (index === 0 ? 0 : tree.at[index - 1]!);
        const to = index === tree.at.length ? (crosscut ? y1 : x1) : (crosscut ? y0 : x0) + tree.at[index]!;
        open.push(
          crosscut
            ? { x0, x1, y0: from, y1: to, tree: inner, crosscut, level }
            : { x0: from, x1: to, y0, y1, tree: inner, crosscut, level },
        );
      }
    }
    return leaves;
  }
}
