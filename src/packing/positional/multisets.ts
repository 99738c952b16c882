/**
 * All sub-multisets of some kinds as whole numbers: digit i of a state in mixed radix is how many of kind i it has.
 * The difference of a state and one of its sub-multisets is plain subtraction.
 */
export class Multisets {
  readonly copies: readonly number[];
  readonly states: number;
  private readonly radix: number[] = [];

  constructor(copies: readonly number[]) {
    this.copies = copies;
    let states = 1;
    for (const count of copies) {
      this.radix.push(states);
      states *= count + 1;
    }
    this.states = states;
  }

  /** How many pairs of a state and a sub-multiset of it there are. */
  static pairs(copies: readonly number[]): number {
    return copies.reduce((product, count) => (product * (count + 1) * (count + 2)) / 2, 1);
  }

  digit(state: number, kind: number): number {
    return Math.floor(state / this.radix[kind]!) % (this.copies[kind]! + 1);
  }

  digits(state: number): number[] {
    return this.copies.map((_, kind) => this.digit(state, kind));
  }

  stateOf(digits: readonly number[]): number {
    return digits.reduce((state, count, kind) => state + count * this.radix[kind]!, 0);
  }

  /** The kind of a state of a single piece, else -1. */
  single(state: number): number {
    return this.radix.findIndex((radix, kind) => radix === state && this.copies[kind]! > 0);
  }

  /** Calls back with every sub-multiset of a state in rising order, the empty one and the state itself included. */
  eachSub(state: number, visit: (part: number) => void): void {
    const most = this.digits(state);
    const count = most.map(() => 0);
    let part = 0;
    for (;;) {
      visit(part);
      let kind = 0;
      while (kind < most.length && count[kind] === most[kind]) {
        part -= count[kind]! * this.radix[kind]!;
        count[kind] = 0;
        kind++;
      }
      if (kind === most.length) return;
      count[kind]! += 1;
      part += this.radix[kind]!;
    }
  }
}
