/**
 * The linear programme of covering: least cost of columns that together give at least what each row needs, some of
 * them limited in number by the sheet that they are cut from.
 *
 * The primal simplex method on a dense inverse of the basis (Chvátal, Linear Programming, 1983, chapters 7 and 13);
 * columns may be added at any time, and it goes on from where it was. Rounding here can cost time, never a proof: the
 * prices it gives are judged anew by whoever uses them.
 */
export interface Column {
  /** Rows and how much of each one unit of the column gives. */
  readonly rows: readonly number[];
  readonly counts: readonly number[];
  /** Index of the sheet that it is cut from. */
  readonly sheet: number;
  readonly cost: number;
}

const REDUCED = 1e-7;
const PIVOT = 1e-8;
/** Pivots after which the inverse is made anew, before rounding piles up. */
const FRESH = 300;
/** Parts ties of the right-hand side, so that the method does not turn in circles. */
const TILT = 1e-8;

export class CoverProgramme {
  readonly columns: Column[] = [];
  pivots = 0;
  private readonly needs: Float64Array;
  private readonly goods: number;
  private readonly rows: number;
  private readonly penalty: number;
  /** Variable of each row: a column, or below zero −1 − row for the row's artificial or slack, −1 − rows − row for a surplus. */
  private readonly basis: Int32Array;
  private inverse: Float64Array;
  private readonly level: Float64Array;
  private readonly entering: Float64Array;
  private readonly isBasic: Uint8Array;
  private basicColumns: Set<number> = new Set();

  /** `needs` of each good, `limits` of each sheet; `penalty` is the cost of a unit that no column gives. */
  constructor(needs: readonly number[], limits: readonly number[], penalty: number) {
    this.goods = needs.length;
    this.rows = needs.length + limits.length;
    this.penalty = penalty;
    this.needs = Float64Array.from(
      [...needs, ...limits],
      (need, row) => need + TILT * (1 + ((row * 7919) % 101)),
    );
    this.basis = Int32Array.from({ length: this.rows }, (_, row) => -1 - row);
    this.inverse = identity(this.rows);
    this.level = this.needs.slice();
    this.entering = new Float64Array(this.rows);
    this.isBasic = new Uint8Array(this.goods);
  }

  add(column: Column): void {
    this.columns.push(column);
  }

  /** Solves to the end or for so many pivots; returns the cost, artificial units included. */
  solve(mostPivots: number): number {
    for (let done = 0; done < mostPivots; done++) {
      if (this.pivots % FRESH === FRESH - 1) this.refresh();
      const prices = this.prices();
      const enters = this.chooseEntering(prices);
      if (enters === undefined) break;
      this.pivots++;
      this.fillEntering(enters);
      if (!this.pivot(enters)) break;
    }
    return this.cost();
  }

  /** What one more unit of each row is worth; those of limits are zero or less. */
  prices(): Float64Array {
    const prices = new Float64Array(this.rows);
    for (let row = 0; row < this.rows; row++) {
      const cost = this.costOf(this.basis[row]!);
      if (cost === 0) continue;
      const at = row * this.rows;
      for (let k = 0; k < this.rows; k++) prices[k]! += cost * this.inverse[at + k]!;
    }
    return prices;
  }

  /** How much of each column is used. */
  values(): Map<number, number> {
    const used = new Map<number, number>();
    this.basis.forEach((variable, row) => {
      if (variable >= 0 && this.level[row]! > 1e-5) used.set(variable, this.level[row]!);
    });
    return used;
  }

  /** Reduced cost of a column at these prices. */
  reduced({ rows, counts, sheet, cost }: Column, prices: Float64Array): number {
    let left = cost - prices[this.goods + sheet]!;
    for (let i = 0; i < rows.length; i++) left -= prices[rows[i]!]! * counts[i]!;
    return left;
  }

  private cost(): number {
    let total = 0;
    this.basis.forEach((variable, row) => {
      total += this.costOf(variable) * this.level[row]!;
    });
    return total;
  }

  private costOf(variable: number): number {
    if (variable >= 0) return this.columns[variable]!.cost;
    return variable >= -this.goods ? this.penalty : 0;
  }

  /** The variable of the most negative reduced cost. */
  private chooseEntering(prices: Float64Array): number | undefined {
    let least = -REDUCED;
    let enters: number | undefined;
    for (let index = 0; index < this.columns.length; index++) {
      const reduced = this.reduced(this.columns[index]!, prices);
      if (reduced < least && !this.basicColumns.has(index)) {
        least = reduced;
        enters = index;
      }
    }
    for (let row = 0; row < this.goods; row++) {
      if (prices[row]! < least && this.isBasic[row] === 0) {
        least = prices[row]!;
        enters = -1 - this.rows - row;
      }
    }
    return enters;
  }

  private fillEntering(variable: number): void {
    const { entering, inverse, rows } = this;
    entering.fill(0);
    const take = (row: number, amount: number): void => {
      for (let k = 0; k < rows; k++) entering[k]! += amount * inverse[k * rows + row]!;
    };
    this.eachEntry(variable, take);
  }

  private eachEntry(variable: number, take: (row: number, amount: number) => void): void {
    if (variable >= 0) {
      const { rows, counts, sheet } = this.columns[variable]!;
      for (let i = 0; i < rows.length; i++) take(rows[i]!, counts[i]!);
      take(this.goods + sheet, 1);
    } else if (variable >= -this.rows) take(-1 - variable, 1);
    else take(-1 - this.rows - variable, -1);
  }

  private pivot(enters: number): boolean {
    const { entering, level, rows, inverse } = this;
    let leaves = -1;
    let step = Infinity;
    for (let row = 0; row < rows; row++) {
      if (entering[row]! <= PIVOT) continue;
      const ratio = Math.max(0, level[row]!) / entering[row]!;
      if (
        ratio < step - 1e-12 ||
        (ratio < step + 1e-12 && leaves >= 0 && entering[row]! > entering[leaves]!)
      ) {
        step = ratio;
        leaves = row;
      }
    }
    if (leaves < 0) return false;
    const pivot = entering[leaves]!;
    const from = leaves * rows;
    for (let k = 0; k < rows; k++) inverse[from + k]! /= pivot;
    level[leaves] = level[leaves]! / pivot;
    for (let row = 0; row < rows; row++) {
      const share = entering[row]!;
      if (row === leaves || share === 0) continue;
      const at = row * rows;
      for (let k = 0; k < rows; k++) inverse[at + k]! -= share * inverse[from + k]!;
      level[row]! -= share * level[leaves]!;
    }
    this.mark(this.basis[leaves]!, false);
    this.basis[leaves] = enters;
    this.mark(enters, true);
    return true;
  }

  private mark(variable: number, basic: boolean): void {
    if (variable >= 0) {
      if (basic) this.basicColumns.add(variable);
      else this.basicColumns.delete(variable);
    } else if (variable < -this.rows) this.isBasic[-1 - this.rows - variable] = basic ? 1 : 0;
  }

  /** Works the inverse out anew from the basis, by Gauss and Jordan with the largest pivot of each column. */
  private refresh(): void {
    const { rows, basis } = this;
    const matrix = new Float64Array(rows * rows);
    basis.forEach((variable, column) => {
      this.eachEntry(variable, (row, amount) => {
        matrix[row * rows + column]! += amount;
      });
    });
    const inverse = identity(rows);
    for (let column = 0; column < rows; column++) {
      let best = column;
      for (let row = column + 1; row < rows; row++) {
        if (Math.abs(matrix[row * rows + column]!) > Math.abs(matrix[best * rows + column]!)) best = row;
      }
      const pivot = matrix[best * rows + column]!;
      if (Math.abs(pivot) < 1e-11) return;
      swapRows(matrix, rows, best, column);
      swapRows(inverse, rows, best, column);
      for (let k = 0; k < rows; k++) {
        matrix[column * rows + k]! /= pivot;
        inverse[column * rows + k]! /= pivot;
      }
      for (let row = 0; row < rows; row++) {
        const share = matrix[row * rows + column]!;
        if (row === column || share === 0) continue;
        for (let k = 0; k < rows; k++) {
          matrix[row * rows + k]! -= share * matrix[column * rows + k]!;
          inverse[row * rows + k]! -= share * inverse[column * rows + k]!;
        }
      }
    }
    this.inverse = inverse;
    for (let row = 0; row < rows; row++) {
      let sum = 0;
      for (let k = 0; k < rows; k++) sum += inverse[row * rows + k]! * this.needs[k]!;
      this.level[row] = sum;
    }
  }
}

function identity(rows: number): Float64Array {
  const matrix = new Float64Array(rows * rows);
  for (let row = 0; row < rows; row++) matrix[row * rows + row] = 1;
  return matrix;
}

function swapRows(matrix: Float64Array, rows: number, a: number, b: number): void {
  if (a === b) return;
  for (let k = 0; k < rows; k++) {
    const kept = matrix[a * rows + k]!;
    matrix[a * rows + k] = matrix[b * rows + k]!;
    matrix[b * rows + k] = kept;
  }
}
