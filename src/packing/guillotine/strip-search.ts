import type { Budget } from '../search/budget.ts';
import { type Random, seededRandom } from '../search/random.ts';
import type { FitRule } from './find-place.ts';
import { packLayers } from './layers.ts';
import { forestToPart, type Part } from './part.ts';
import { type Pieces, totalArea } from './pieces.ts';
import { RuinAndRecreate, type RuinSettings } from './ruin-and-recreate.ts';
import { SlabSearch } from './slab-search.ts';
import { shortenGroup } from './strip-groups.ts';

/** Cycles of annealing spent on one target before the next is set. */
const CYCLES = 2;
/** Beyond this many pieces every target starts from the best answer, never afresh. */
const MANY = 400;
/** From this many pieces on, groups of sections are shortened by themselves too; from so many on, only that is done. */
const GROUPED = 60;
const ONLY_GROUPS = 1000;
/** Tries in a row that may fail before the descent ends, and its temperature. */
const DESCENT_FAILURES = 4;
const DESCENT_HEAT = 0.1;
/** Fewest and most pieces for which slabs are searched too, and nodes in one go. */
const LEAST_SLABBED = 13;
const MOST_SLABBED = 1000;
const SLAB_NODES = 4000;
/**
 * Slabs get a share of all nodes by how often they have found something shorter, and annealing likewise. What each is
 * given beforehand: slabs seldom help where most pieces may not be turned and there are few of them, or much is wasted
 * (as a share of their area); nor where each size comes several times, since blocks are then much alike.
 */
const SLABS_LIKELY = 0.65;
const SLABS_UNLIKELY = 0.1;
const FEW_PIECES = 40;
const MUCH_WASTE = 0.04;
const SEVERAL = 3;
/** Finds that the beforehand counts for, and the least and most share. */
const BEFOREHAND = 3;
const LEAST_SHARE = 0.05;
const MOST_SHARE = 0.8;
/** Longest cycles, as a multiple of the first, which are short: much is found soon, and what is not asks for far more. */
const MOST_PATIENCE = 36;

export interface StripSearchOptions {
  readonly width: number;
  readonly bound: number;
  readonly seed: number;
  readonly stages: 2 | 3 | 'any';
  readonly budget: Budget;
  /** Told of each shorter answer. */
  readonly onBetter: (length: number, part: Part) => void;
}

/**
 * Searches a strip of given width for ever shorter answers until the bound is met or the budget ends: greedy starts
 * first, then length targets, by bisection at first and then always one less than the best.
 */
export class StripSearch {
  best = Infinity;
  bestPart: Part | undefined;
  private bestState: Int32Array = new Int32Array(0);
  private readonly pieces: Pieces;
  private readonly options: StripSearchOptions;
  private readonly engine: RuinAndRecreate;
  private readonly random: Random;
  private readonly mayUseSlabs: boolean;
  /** Made when first used, as it takes some memory and many strips are settled before. */
  private slabs: SlabSearch | undefined;
  private readonly area: number;
  private readonly mostTurn: boolean;
  private readonly alike: boolean;
  private slabNodes = 0;
  private slabFinds = 0;
  private annealFinds = 0;
  /** Lengths below this were tried with slabs in vain since the last round of targets began, and rounds before it. */
  private slabLow: number;
  private slabRounds = 0;

  constructor(pieces: Pieces, options: StripSearchOptions) {
    this.pieces = pieces;
    this.options = options;
    this.random = seededRandom(options.seed);
    this.engine = new RuinAndRecreate(pieces, 1, options.stages, this.random);
    this.mayUseSlabs =
      options.stages === 'any' && pieces.count >= LEAST_SLABBED && pieces.count <= MOST_SLABBED;
    this.slabLow = options.bound;
    this.area = totalArea(pieces);
    this.mostTurn = 2 * pieces.turnable.reduce((sum, turns) => sum + turns, 0) >= pieces.count;
    this.alike = SEVERAL * new Set(pieces.shape).size <= pieces.count;
  }

  /** Spends about `nodes` at most after the greedy starts. */
  run(nodes = Infinity): void {
    const { pieces } = this;
    this.greedyStarts();
    const { bound, budget } = this.options;
    const start = budget.nodes;
    const last = start + nodes;
    if (!this.alike && (this.mostTurn || pieces.count >= FEW_PIECES)) this.slabsFirst(last);
    if (pieces.count <= ONLY_GROUPS) this.descend(last);
    let low = bound;
    let restart = 0;
    let patience = 1;
    while (this.best > bound && !budget.ended && budget.nodes < last) {
      if (low >= this.best) {
        low = bound;
        patience = Math.min(MOST_PATIENCE, patience * 2);
      }
      if (pieces.count > GROUPED) this.shortenGroups(pieces.count > ONLY_GROUPS ? 1000 : 4);
      if (pieces.count > ONLY_GROUPS) continue;
      while (this.slabNodes < this.slabShare() * (budget.nodes - start) && this.slabOnce(last));
      if (this.best <= bound || budget.ended) return;
      const step = (this.best - low) >> (patience === 1 ? 1 : 2);
      const target = this.best - Math.max(1, step);
      if (this.reach(target, restart++, patience)) this.annealFinds++;
      else low = target + 1;
    }
  }

  /**
   * Shortens the best answer step by step, each time with a short anneal that begins at what is left of it; steps grow
   * while that works. Quick for many pieces, where a start afresh takes long to come near.
   */
  private descend(last: number): void {
    const { engine, pieces, options } = this;
    const { bound, budget } = options;
    let step = Math.max(1, (this.best - bound) >> 2);
    let failed = 0;
    while (this.best > bound && failed < DESCENT_FAILURES && !budget.ended && budget.nodes < last) {
      engine.restore(this.bestState);
      engine.setLength(Math.max(bound, this.best - step));
      const settings = { ...settingsFor(0, 0), iterations: 1000 + 40 * pieces.count, hot: DESCENT_HEAT };
      if (engine.anneal(settings, budget.spend)) {
        this.note();
        step *= 2;
      } else if (step > 1) step >>= 1;
      else failed++;
    }
  }

  /** Targets for the slabs by bisection until one fails; what they find here is too easy to tell how good they are. */
  private slabsFirst(last: number): void {
    while (this.slabOnce(last) && this.slabLow === this.options.bound);
    this.slabFinds = 0;
  }

  private slabShare(): number {
    const wasted = (this.best * this.options.width) / this.area - 1;
    const few = this.pieces.count < FEW_PIECES;
    const unlikely = this.alike || (!this.mostTurn && (few || wasted > MUCH_WASTE));
    const given = BEFOREHAND * (unlikely ? SLABS_UNLIKELY : SLABS_LIKELY);
    const share = (given + this.slabFinds) / (BEFOREHAND + this.slabFinds + this.annealFinds);
    return Math.min(MOST_SHARE, Math.max(LEAST_SHARE, share));
  }

  /** Tries one target with slabs. False where that is of no use any more. */
  private slabOnce(last: number): boolean {
    const { options, engine } = this;
    const { width, bound, budget } = options;
    if (!this.mayUseSlabs || this.best <= bound || budget.ended || budget.nodes >= last) return false;
    this.slabs ??= new SlabSearch(this.pieces, this.random);
    if (this.slabLow >= this.best) {
      this.slabLow = bound;
      this.slabRounds++;
    }
    // The more rounds failed, the less is to be hoped of targets far below the best.
    const step = (this.best - this.slabLow) >> Math.min(31, 1 + this.slabRounds);
    const target = this.best - Math.max(1, step);
    const before = budget.nodes;
    const part = this.slabs.search(width, target, budget, SLAB_NODES);
    this.slabNodes += budget.nodes - before;
    if (part === undefined) this.slabLow = target + 1;
    else {
      engine.reset([{ width, length: target }]);
      engine.put([part]);
      this.note();
      this.slabFinds++;
    }
    return true;
  }

  /** Shortens groups of sections of the best answer, until so many tries have failed one after the other. */
  private shortenGroups(failures: number): void {
    const { engine, pieces, options, random } = this;
    const { width, stages, budget, bound } = options;
    engine.restore(this.bestState);
    for (let failed = 0; failed < failures && !budget.ended && this.best > bound; failed++) {
      if (shortenGroup(engine, pieces, { width, stages, budget, random }) === 0) continue;
      failed = -1;
      this.annealFinds++;
      this.note();
    }
  }

  private greedyStarts(): void {
    const { width, budget } = this.options;
    const { pieces, engine } = this;
    let longest = 0;
    for (let i = 0; i < pieces.count; i++) longest += Math.max(pieces.width[i], pieces.length[i]);
    const fresh = (): void => {
      budget.spendMany(1 + (pieces.count >> 4));
      engine.reset([{ width, length: longest }]);
    };
    const over = (): boolean => this.best < Infinity && (budget.ended || this.best <= this.options.bound);
    for (const lying of ['longer side along', 'shorter side along'] as const) {
      if (over()) return;
      fresh();
      engine.layOut(packLayers(pieces, width, lying));
      this.note();
    }
    for (const rule of [0, 3, 1] as FitRule[]) {
      for (const order of [2, 1, 0, 3]) {
        if (over()) return;
        fresh();
        engine.fill(order, rule, 0, 1);
        this.note();
      }
    }
  }

  /** Tries to put everything into a strip of the given length, by a few cycles of annealing. */
  private reach(target: number, restart: number, patience: number): boolean {
    const { engine } = this;
    const { width, budget } = this.options;
    const many = this.pieces.count > MANY;
    if (restart % 2 === 0 && !many) {
      engine.reset([{ width, length: target }]);
      engine.fill(restart % 5, (restart % 5) as FitRule, 0.05, 1);
    } else {
      if (many || restart % 4 === 1) engine.restore(this.bestState);
      engine.setLength(target);
    }
    for (let cycle = 0; cycle < CYCLES; cycle++) {
      const settings = settingsFor(restart + cycle, this.pieces.count, patience);
      if (engine.anneal(settings, budget.spend)) {
        this.note();
        return true;
      }
      if (budget.ended) return false;
    }
    return false;
  }

  private note(): void {
    const { engine, pieces } = this;
    const length = engine.usedLength;
    if (engine.outCount > 0 || length >= this.best) return;
    const part = forestToPart(engine.forest, 0, (piece, width) => width !== pieces.width[piece]);
    if (part === undefined) return;
    this.best = length;
    this.bestPart = part;
    this.bestState = engine.snapshot();
    this.options.onBetter(length, part);
  }
}

/** Settings of one cycle of annealing, by turns, since none wins everywhere; cycles grow with patience. */
export function settingsFor(turn: number, count: number, patience = 1): RuinSettings {
  return {
    hot: [0.15, 0.08, 0.25][turn % 3],
    iterations: (4_000 + 130 * count) * patience,
    mostRemoved: [10, 16, 6, 12][turn % 4],
    fragments: [0.2, 0.1, 0.2, 0][turn % 4],
    skip: 0.01,
    growth: [1, 2, 0.5][(turn >> 1) % 3],
    refits: 0.003,
  };
}
