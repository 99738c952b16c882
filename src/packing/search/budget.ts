import type { PackOptions } from '../instance.ts';

/** How often `stop` is asked, in nodes. A power of two. */
const POLL = 256;
/** How often progress is told without a better answer, in nodes. A power of two. */
const TELL = 65536;

/** Counts search nodes against the effort and asks the caller now and then whether to end. */
export class Budget {
  nodes = 0;
  /** True once the effort is spent or the caller has asked to end; it stays so. */
  ended = false;
  value: number | undefined;
  bound = 0;
  private readonly options: PackOptions;

  constructor(options: PackOptions) {
    this.options = options;
    if (!(options.effort > 0)) this.ended = true;
  }

  /** Spends one node; true when the search must end. Fit to be passed on as a function. */
  readonly spend = (): boolean => {
    this.nodes++;
    if ((this.nodes & (POLL - 1)) === 0) this.poll();
    else if (this.nodes >= this.options.effort) this.ended = true;
    return this.ended;
  };

  /** Spends many nodes at once, for work that is counted in bulk. */
  spendMany(count: number): boolean {
    this.nodes += count;
    this.poll();
    return this.ended;
  }

  /** Spends a few nodes at once; the caller is asked no more often than for as many single ones. */
  spendFew(count: number): boolean {
    const before = this.nodes;
    this.nodes += count;
    if (Math.floor(before / POLL) !== Math.floor(this.nodes / POLL)) this.poll();
    else if (this.nodes >= this.options.effort) this.ended = true;
    return this.ended;
  }

  /** Notes a better answer and tells the caller of it. */
  improve(value: number, bound: number): void {
    this.value = value;
    this.bound = bound;
    this.options.onProgress?.({ nodes: this.nodes, value, bound });
  }

  private poll(): void {
    if (this.nodes >= this.options.effort || this.options.stop?.() === true) this.ended = true;
    if ((this.nodes & (TELL - 1)) === 0) {
      this.options.onProgress?.({ nodes: this.nodes, value: this.value, bound: this.bound });
    }
  }
}
