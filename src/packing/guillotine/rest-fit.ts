import type { BlockKind } from './pareto.ts';

/** Whether the pieces that are not in a block of some sub-multiset may lie around it on a sheet of given size. */
export class RestFit {
  private readonly kinds: readonly BlockKind[];
  private readonly radix: readonly number[];
  private readonly sheet: { readonly width: number; readonly length: number };
  /** Kinds not in the sub-multiset asked for last, and how many of each. */
  private readonly rest: number[] = [];
  private readonly restCount: number[] = [];
  private restOf = -1;

  /** `radix` as in `ParetoFronts`. */
  constructor(
    kinds: readonly BlockKind[],
    radix: readonly number[],
    sheet: { readonly width: number; readonly length: number },
  ) {
    this.kinds = kinds;
    this.radix = radix;
    this.sheet = sheet;
  }

  /**
   * With the block pushed into the corner, each of the others lies all beside it, in a strip `beside` wide, or all
   * above it, in one `above` long. Those that fit only one of the strips must have its area, and those longer than
   * half of it lie next to each other.
   */
  mayFit(state: number, beside: number, above: number): boolean {
    if (this.restOf !== state) this.listRest(state);
    const { rest, restCount, kinds, sheet } = this;
    let besideArea = beside * sheet.length;
    let aboveArea = above * sheet.width;
    let besideRoom = sheet.length;
    let aboveRoom = sheet.width;
    for (let i = 0; i < rest.length; i++) {
      const many = restCount[i];
      const { width, length, turnable } = kinds[rest[i]];
      const mayBeside = width <= beside || (turnable && length <= beside);
      const mayAbove = length <= above || (turnable && width <= above);
      if (mayBeside && mayAbove) continue;
      if (!mayBeside && !mayAbove) return false;
      const area = many * width * length;
      const shorter = turnable && length < width ? length : width;
      const shorterAlong = turnable && width < length ? width : length;
      if (mayBeside) {
        besideArea -= area;
        if (2 * shorter > beside) besideRoom -= many * shorterAlong;
        if (besideArea < 0 || besideRoom < 0) return false;
      } else {
        aboveArea -= area;
        if (2 * shorterAlong > above) aboveRoom -= many * shorter;
        if (aboveArea < 0 || aboveRoom < 0) return false;
      }
    }
    return true;
  }

  private listRest(state: number): void {
    this.restOf = state;
    this.rest.length = 0;
    this.restCount.length = 0;
    const { kinds, radix } = this;
    for (let kind = 0; kind < kinds.length; kind++) {
      const { copies } = kinds[kind];
      const left = copies - (Math.floor(state / radix[kind]) % (copies + 1));
      if (left === 0) continue;
      this.rest.push(kind);
      this.restCount.push(left);
    }
  }
}
