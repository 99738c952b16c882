/**
 * Least cost of a linear programme whose columns are all bounded and cost nothing or more, by the bounded dual simplex
 * method (Chvátal, Linear Programming, 1983, chapters 8 and 10) on a condensed tableau.
 *
 * Since no cost is negative, the programme with every column at its lower bound is dual feasible, and stays so when
 * bounds change or rows are added: branch and bound goes on from whatever it solved last.
 */
export interface Row {
  /** Column and coefficient of each entry. */
  readonly entries: readonly (readonly [column: number, coefficient: number])[];
  readonly least: number;
  readonly most: number;
}

export type Solved =
  | { readonly status: 'solved'; readonly bound: number; readonly values: Float64Array }
  | { readonly status: 'infeasible' };

const FEASIBLE = 1e-7;
const PIVOT = 1e-9;
/** A tableau is built anew after so many pivots, before rounding piles up. */
const FRESH = 400;

export class DualSimplex {
  readonly columns: number;
  readonly least: Float64Array;
  readonly most: Float64Array;
  readonly rowLeast: number[] = [];
  readonly rowMost: number[] = [];
  pivots = 0;
  readonly #cost: Float64Array;
  readonly #rows: Row[] = [];
  /** Row by row over the nonbasic places: what the basic variable of the row is of the nonbasic ones. */
  #table: Float64Array[] = [];
  #reduced: Float64Array;
  /** Variable in each row, and in each nonbasic place. Variables are the columns, then the rows' own values. */
  #basic: number[] = [];
  #nonbasic: number[];
  #atMost: Uint8Array;
  #sinceFresh = 0;

  constructor(
    cost: readonly number[],
    least: readonly number[],
    most: readonly number[],
    rows: readonly Row[] = [],
  ) {
    this.columns = cost.length;
    this.least = Float64Array.from(least);
    this.most = Float64Array.from(most);
    // Ties among costs make the method stall; unlike, tiny additions part them. The bound is worked out without them.
    this.#cost = Float64Array.from(cost);
    this.#reduced = new Float64Array(this.columns);
    this.#nonbasic = [];
    this.#atMost = new Uint8Array(this.columns);
    for (const row of rows) {
      this.#rows.push(row);
      this.rowLeast.push(row.least);
      this.rowMost.push(row.most);
    }
    this.#restart();
  }

  get rows(): readonly Row[] {
    return this.#rows;
  }

  addRow(row: Row): void {
    this.#rows.push(row);
    this.rowLeast.push(row.least);
    this.rowMost.push(row.most);
    const place = new Map(this.#nonbasic.map((variable, index) => [variable, index] as const));
    const rowOf = new Map(this.#basic.map((variable, index) => [variable, index] as const));
    const table = new Float64Array(this.columns);
    for (const [column, coefficient] of row.entries) {
      const at = place.get(column);
      if (at !== undefined) table[at]! += coefficient;
      else {
        const basic = this.#table[rowOf.get(column)!]!;
        for (let index = 0; index < this.columns; index++) table[index]! += coefficient * basic[index]!;
      }
    }
    this.#table.push(table);
    this.#basic.push(this.columns + this.#rows.length - 1);
  }

  /** From the bounds as they are now. A bound that is reported holds whatever rounding did to the tableau. */
  solve(mostPivots: number): Solved {
    if (this.#sinceFresh > FRESH) this.#restart();
    for (let attempt = 0; ; attempt++) {
      const ended = this.#run(mostPivots);
      if (ended !== 'infeasible') {
        return { status: 'solved', bound: this.#safeBound(), values: this.#values() };
      }
      if (this.#proveInfeasible()) return { status: 'infeasible' };
      if (attempt > 0) return { status: 'solved', bound: this.#safeBound(), values: this.#values() };
      this.#restart();
    }
  }

  #failed = -1;

  #run(mostPivots: number): 'solved' | 'infeasible' | 'stopped' {
    const { columns } = this;
    this.#placeNonbasics();
    let values = this.#basicValues();
    for (let round = 0; round < mostPivots; round++) {
      if (round % 50 === 49) values = this.#basicValues();
      let leaving = -1;
      let worst = FEASIBLE;
      for (let row = 0; row < this.#basic.length; row++) {
        const variable = this.#basic[row]!;
        const scale = 1 + Math.abs(values[row]!) * 1e-3;
        const over =
          Math.max(this.#leastOf(variable) - values[row]!, values[row]! - this.#mostOf(variable)) / scale;
        if (over > worst) [leaving, worst] = [row, over];
      }
      if (leaving < 0) return 'solved';
      const variable = this.#basic[leaving]!;
      const up = values[leaving]! < this.#leastOf(variable);
      const table = this.#table[leaving]!;
      let entering = -1;
      let bestRatio = Number.POSITIVE_INFINITY;
      let bestPivot = 0;
      for (let place = 0; place < columns; place++) {
        const coefficient = up ? table[place]! : -table[place]!;
        if (Math.abs(coefficient) < PIVOT) continue;
        const own = this.#nonbasic[place]!;
        if (this.#leastOf(own) === this.#mostOf(own)) continue;
        if (this.#atMost[place] === 1 ? coefficient > 0 : coefficient < 0) continue;
        const ratio = Math.abs(this.#reduced[place]!) / Math.abs(coefficient);
        if (ratio < bestRatio - 1e-12 || (ratio < bestRatio + 1e-12 && Math.abs(coefficient) > bestPivot)) {
          [entering, bestRatio, bestPivot] = [place, ratio, Math.abs(coefficient)];
        }
      }
      if (entering < 0) {
        this.#failed = leaving;
        return 'infeasible';
      }
      const target = up ? this.#leastOf(variable) : this.#mostOf(variable);
      const moved = (target - values[leaving]!) / table[entering]!;
      const entered = this.#valueOf(entering) + moved;
      for (let row = 0; row < values.length; row++) values[row]! += this.#table[row]![entering]! * moved;
      this.#pivot(leaving, entering, up ? 0 : 1);
      values[leaving] = entered;
    }
    return 'stopped';
  }

  #pivot(row: number, place: number, atMost: 0 | 1): void {
    const { columns } = this;
    const source = this.#table[row]!;
    const pivot = source[place]!;
    // The entering variable in terms of the leaving one and the others.
    for (let index = 0; index < columns; index++)
      source[index] = index === place ? 1 / pivot : -source[index]! / pivot;
    for (const [index, other] of this.#table.entries()) {
      if (index !== row) substitute(other, source, place);
    }
    substitute(this.#reduced, source, place);
    const entering = this.#nonbasic[place]!;
    this.#nonbasic[place] = this.#basic[row]!;
    this.#basic[row] = entering;
    this.#atMost[place] = atMost;
    this.pivots += 1;
    this.#sinceFresh += 1;
  }

  #restart(): void {
    this.#nonbasic = Array.from({ length: this.columns }, (_, column) => column);
    this.#atMost.fill(0);
    this.#basic = this.#rows.map((_, index) => this.columns + index);
    this.#table = this.#rows.map(({ entries }) => {
      const table = new Float64Array(this.columns);
      for (const [column, coefficient] of entries) table[column]! += coefficient;
      return table;
    });
    for (let column = 0; column < this.columns; column++) {
      // Fractions of the golden section never repeat.
      this.#reduced[column] = this.#cost[column]! + 1e-4 * (1 + ((column * 0.618_033_988_75) % 1));
    }
    this.#sinceFresh = 0;
  }

  /** Each nonbasic variable at the bound that its reduced cost calls for. */
  #placeNonbasics(): void {
    for (let place = 0; place < this.columns; place++) {
      const variable = this.#nonbasic[place]!;
      const wantsMost = this.#reduced[place]! < 0;
      const atMost = wantsMost && Number.isFinite(this.#mostOf(variable));
      this.#atMost[place] = atMost || !Number.isFinite(this.#leastOf(variable)) ? 1 : 0;
    }
  }

  #basicValues(): Float64Array {
    const nonbasic = this.#nonbasic.map((_, place) => this.#valueOf(place));
    return Float64Array.from(this.#table, (table) => {
      let value = 0;
      for (let place = 0; place < this.columns; place++) value += table[place]! * nonbasic[place]!;
      return value;
    });
  }

  #valueOf(place: number): number {
    const variable = this.#nonbasic[place]!;
    return this.#atMost[place] === 1 ? this.#mostOf(variable) : this.#leastOf(variable);
  }

  #values(): Float64Array {
    const values = new Float64Array(this.columns);
    const basic = this.#basicValues();
    for (const [row, variable] of this.#basic.entries()) {
      if (variable < this.columns) values[variable] = basic[row]!;
    }
    for (const [place, variable] of this.#nonbasic.entries()) {
      if (variable < this.columns) values[variable] = this.#valueOf(place);
    }
    return values;
  }

  /**
   * With any multipliers of the rows, cost = Σ multiplier · row + Σ (cost − what the multipliers make of it) · column,
   * and each term has a least value within its bounds. The tableau only supplies good multipliers.
   */
  #safeBound(): number {
    const multipliers = new Float64Array(this.#rows.length);
    for (const [place, variable] of this.#nonbasic.entries()) {
      if (variable >= this.columns) multipliers[variable - this.columns] = this.#reduced[place]!;
    }
    return this.#leastOfTerms(multipliers, this.#cost);
  }

  /** The row that found no way out, as a sum of rows that no values within the bounds can reach. */
  #proveInfeasible(): boolean {
    const row = this.#failed;
    const multipliers = new Float64Array(this.#rows.length);
    const add = (variable: number, coefficient: number) => {
      if (variable >= this.columns) multipliers[variable - this.columns]! += coefficient;
    };
    add(this.#basic[row]!, 1);
    for (const [place, variable] of this.#nonbasic.entries()) add(variable, -this.#table[row]![place]!);
    // Σ multiplier · (row − its entries) is always 0: it may lie wholly above or below only where nothing is feasible.
    const none = new Float64Array(this.columns);
    const flipped = multipliers.map((each) => -each);
    return this.#leastOfTerms(multipliers, none) > 1e-6 || this.#leastOfTerms(flipped, none) > 1e-6;
  }

  #leastOfTerms(multipliers: Float64Array, cost: Float64Array): number {
    const left = Float64Array.from(cost);
    let total = 0;
    let size = 0;
    for (const [index, row] of this.#rows.entries()) {
      let multiplier = multipliers[index]!;
      const end = multiplier > 0 ? this.rowLeast[index]! : this.rowMost[index]!;
      if (multiplier === 0 || !Number.isFinite(end)) {
        multiplier = 0;
        continue;
      }
      total += multiplier * end;
      size += Math.abs(multiplier * end);
      for (const [column, coefficient] of row.entries) {
        left[column]! -= multiplier * coefficient;
        size += Math.abs(multiplier * coefficient) * this.most[column]!;
      }
    }
    for (let column = 0; column < this.columns; column++) {
      const term = left[column]! * (left[column]! > 0 ? this.least[column]! : this.most[column]!);
      total += term;
      size += Math.abs(term);
    }
    return total - size * 1e-10;
  }

  #leastOf(variable: number): number {
    return variable < this.columns ? this.least[variable]! : this.rowLeast[variable - this.columns]!;
  }

  #mostOf(variable: number): number {
    return variable < this.columns ? this.most[variable]! : this.rowMost[variable - this.columns]!;
  }
}

function substitute(target: Float64Array, source: Float64Array, place: number): void {
  const factor = target[place]!;
  if (factor === 0) return;
  target[place] = 0;
  for (let index = 0; index < target.length; index++) target[index]! += factor * source[index]!;
}
