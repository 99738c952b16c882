/** Bounds of every column at one node of a search. */
export interface Span {
  readonly least: Float64Array;
  readonly most: Float64Array;
}

export interface OpenNode {
  readonly span: Span;
  readonly bound: number;
}

/** Nodes still to be visited, the least bound first and of equal bounds the latest: a binary heap. */
export class OpenNodes {
  readonly #nodes: (OpenNode & { readonly order: number })[] = [];
  #pushed = 0;

  push(node: OpenNode): void {
    this.#pushed += 1;
    const nodes = this.#nodes;
    let at = nodes.push({ ...node, order: this.#pushed }) - 1;
    while (at > 0) {
      const above = (at - 1) >> 1;
      if (!this.#before(at, above)) break;
      [nodes[at], nodes[above]] = [nodes[above]!, nodes[at]!];
      at = above;
    }
  }

  pop(): OpenNode | undefined {
    const nodes = this.#nodes;
    const first = nodes[0];
    const last = nodes.pop();
    if (nodes.length === 0 || !last) return first;
    nodes[0] = last;
    let at = 0;
    for (;;) {
      let least = at;
      for (const below of [2 * at + 1, 2 * at + 2]) {
        if (below < nodes.length && this.#before(below, least)) least = below;
      }
      if (least === at) return first;
      [nodes[at], nodes[least]] = [nodes[least]!, nodes[at]!];
      at = least;
    }
  }

  /** Infinity where none is left. */
  leastBound(): number {
    return this.#nodes[0]?.bound ?? Number.POSITIVE_INFINITY;
  }

  #before(one: number, other: number): boolean {
    const [a, b] = [this.#nodes[one]!, this.#nodes[other]!];
    return a.bound < b.bound || (a.bound === b.bound && a.order > b.order);
  }
}
