/**
 * From single pieces to whole sheets: builds are joined two by two, smallest first, the most promising kept.
 *
 * The bound of a build is its own worth and the most that fits around it (Viswanathan & Bagchi 1993), both less
 * prices that stand for the limited copies (a Lagrangean bound), so unlimited copies around a build stay honest. Of
 * each size of area at most `perSlice` builds are kept (memory-bounded, after Fontan & Libralesso 2020). Where nothing
 * had to be thrown out, the search was exhaustive: nothing above `above`, or above the best found, exists.
 */
import { BuildGroups } from './build-groups.ts';
import { type BuildSpace, BuildStore, oneBehindOther, sideBySide } from './builds.ts';
import { CandidateList } from './candidates.ts';

export interface BuildLimits {
  /** Only sheets worth more than this are of interest. */
  readonly above: number;
  readonly perSlice: number;
  readonly mostBuilds: number;
  /** Told of work done since the last call; true ends the search. */
  readonly spend: (work: number) => boolean;
}

export interface BuildOutcome {
  readonly store: BuildStore;
  /** The best build worth more than `above`, or −1. */
  readonly best: number;
  readonly complete: boolean;
}

const slices = 256;

export function searchBuilds(space: BuildSpace, limits: BuildLimits): BuildOutcome {
  return new BuildSearch(space, limits).run();
}

class BuildSearch {
  private readonly store: BuildStore;
  private readonly groups: BuildGroups;
  private readonly waiting: CandidateList[];
  /** Builds that are joined whatever their rank: single pieces and the best found. */
  private readonly certain: number[][];
  private readonly space: BuildSpace;
  private readonly limits: BuildLimits;
  private readonly paid: number;
  private best = -1;
  private bestWorth: number;
  /** Least reduced worth, own and around, of a build that can still lead to something better. */
  private need = 0;
  private work = 0;
  private offered = 0;

  constructor(space: BuildSpace, limits: BuildLimits) {
    this.space = space;
    this.limits = limits;
    this.store = new BuildStore(space);
    this.groups = new BuildGroups(this.store);
    this.waiting = Array.from({ length: slices + 1 }, () => new CandidateList(this.store, limits.perSlice));
    this.certain = Array.from({ length: slices + 1 }, () => []);
    this.paid = space.copies.reduce((sum, many, kind) => sum + many * space.prices[kind]!, 0);
    this.bestWorth = limits.above;
    this.need = limits.above + space.step - this.paid;
  }

  run(): BuildOutcome {
    this.addPieces();
    let complete = true;
    for (let slice = 0; slice <= slices; slice += 1) {
      const state = this.runSlice(slice);
      if (state === 'ended') return this.outcome(false);
      complete &&= state === 'complete';
    }
    return this.outcome(complete);
  }

  private runSlice(slice: number): 'complete' | 'thinned' | 'ended' {
    const { store, limits } = this;
    const certain = this.certain[slice]!;
    const list = this.waiting[slice]!;
    let done = 0;
    let kept = 0;
    for (;;) {
      for (; done < certain.length; done += 1) if (this.joinWithAll(certain[done]!)) return 'ended';
      if (list.count === 0) return list.complete ? 'complete' : 'thinned';
      for (const [near, far, how] of list.take()) {
        if (kept >= limits.perSlice) return this.finishThinned(certain, done);
        const build = store.join(near, far, how);
        if (build < 0) continue;
        kept += 1;
        if (this.joinWithAll(build)) return 'ended';
      }
    }
  }

  private finishThinned(certain: readonly number[], from: number): 'thinned' | 'ended' {
    for (let done = from; done < certain.length; done += 1) {
      if (this.joinWithAll(certain[done]!)) return 'ended';
    }
    return 'thinned';
  }

  private outcome(complete: boolean): BuildOutcome {
    return { store: this.store, best: this.best, complete };
  }

  private addPieces(): void {
    const { store } = this;
    this.space.grid.laid.forEach((_, way) => {
      const build = store.addPiece(way);
      if (build < 0) return;
      if (store.worth[build]! > this.bestWorth) this.note(build);
      else this.certain[this.sliceOf(store.width[build]!, store.length[build]!)]!.push(build);
    });
  }

  /** Takes a build as the best so far. */
  private note(build: number): void {
    if (build < 0) return;
    const { width, length } = this.store;
    this.certain[this.sliceOf(width[build]!, length[build]!)]!.push(build);
    this.best = build;
    this.bestWorth = this.store.worth[build]!;
    this.need = this.bestWorth + this.space.step - this.paid;
  }

  private sliceOf(width: number, length: number): number {
    const { grid } = this.space;
    return Math.floor(slices * ((width / grid.width) * (length / grid.length)));
  }

  /** Files a build and joins it with every build filed so far, itself included; true when the search must end. */
  private joinWithAll(build: number): boolean {
    const { store, groups, space } = this;
    const { grid, outside } = space;
    const rows = grid.y.sizes.length;
    const column = store.column[build]!;
    const row = store.row[build]!;
    const reduced = store.reduced[build]!;
    if (reduced + outside[column * rows + row]! < this.need) return this.limits.spend(1);
    groups.file(build);
    const width = store.width[build]!;
    const length = store.length[build]!;
    const across = grid.x.sizes[column]!;
    const along = grid.y.sizes[row]!;
    const count = groups.count;
    this.work = 1 + (count >> 5);
    for (let group = 0; group < count; group += 1) {
      const top = reduced + groups.top[group]!;
      const otherColumn = groups.column[group]!;
      const otherRow = groups.row[group]!;
      if (width + groups.width[group]! <= grid.width) {
        const together = grid.x.down[across + grid.x.sizes[otherColumn]!]!;
        const around = outside[together * rows + Math.max(row, otherRow)]!;
        if (top + around >= this.need) this.joinWithGroup(build, group, sideBySide, around);
      }
      if (length + groups.length[group]! <= grid.length) {
        const together = grid.y.down[along + grid.y.sizes[otherRow]!]!;
        const around = outside[Math.max(column, otherColumn) * rows + together]!;
        if (top + around >= this.need) this.joinWithGroup(build, group, oneBehindOther, around);
      }
    }
    this.offered += this.work;
    if (store.count > this.limits.mostBuilds || this.offered > 20 * this.limits.mostBuilds) return true;
    return this.limits.spend(this.work);
  }

  private joinWithGroup(build: number, group: number, how: number, around: number): void {
    const { store, groups } = this;
    const width = store.width[build]!;
    const length = store.length[build]!;
    const [otherWidth, otherLength] = [groups.width[group]!, groups.length[group]!];
    const list =
      this.waiting[
        how === sideBySide
          ? this.sliceOf(width + otherWidth, Math.max(length, otherLength))
          : this.sliceOf(Math.max(width, otherWidth), length + otherLength)
      ]!;
    const own = store.reduced[build]! + around;
    const worth = store.worth[build]!;
    for (const other of groups.members[group]!) {
      const rank = own + store.reduced[other]!;
      if (rank < this.need || rank <= list.floor) break;
      this.work += 1;
      if (!store.fits(build, other)) continue;
      if (worth + store.worth[other]! > this.bestWorth) this.note(store.join(build, other, how));
      list.offer(rank, build, other, how);
    }
  }
}
