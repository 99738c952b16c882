/** Builds filed by size, each file in order of falling reduced worth. */
import type { BuildStore } from './builds.ts';

export class BuildGroups {
  count = 0;
  width = new Int32Array(64);
  length = new Int32Array(64);
  column = new Int32Array(64);
  row = new Int32Array(64);
  /** Greatest reduced worth in each group. */
  top = new Float64Array(64);
  readonly members: number[][] = [];
  private readonly groupOf = new Map<string, number>();
  private readonly store: BuildStore;

  constructor(store: BuildStore) {
    this.store = store;
  }

  file(build: number): void {
    const { store } = this;
    const key = `${store.width[build]} ${store.length[build]} ${store.column[build]} ${store.row[build]}`;
    let group = this.groupOf.get(key);
    if (group === undefined) {
      group = this.open(build);
      this.groupOf.set(key, group);
    }
    const members = this.members[group]!;
    const reduced = store.reduced[build]!;
    let at = members.length;
    while (at > 0 && store.reduced[members[at - 1]!]! < reduced) at -= 1;
    members.splice(at, 0, build);
    this.top[group] = store.reduced[members[0]!]!;
  }

  private open(build: number): number {
    if (this.count === this.width.length) this.grow();
    const group = this.count;
    this.count += 1;
    this.width[group] = this.store.width[build]!;
    this.length[group] = this.store.length[build]!;
    this.column[group] = this.store.column[build]!;
    this.row[group] = this.store.row[build]!;
    this.members.push([]);
    return group;
  }

  private grow(): void {
    const wider = (old: Int32Array) => {
      const grown = new Int32Array(2 * old.length);
      grown.set(old);
      return grown;
    };
    this.width = wider(this.width);
    this.length = wider(this.length);
    this.column = wider(this.column);
    this.row = wider(this.row);
    const top = new Float64Array(2 * this.top.length);
    top.set(this.top);
    this.top = top;
  }
}
