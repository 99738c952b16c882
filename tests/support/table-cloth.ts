/**
 * A length of cloth on a simulated table: it knows only where it has been cut through. What hangs together is found by
 * looking, cell by cell, and never by asking the cut tree.
 */
export interface Rectangle {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

/** A straight cut through the opened cloth, as a rectangle without width. */
export type Slit = Rectangle;

export class SimulatedCloth {
  private readonly slits: Slit[] = [];
  private readonly xs: number[];
  private readonly ys: number[];
  private readonly across: number;
  /** For every cell the number of the loose part that it belongs to; worked out when asked for. */
  private loose: Int32Array | undefined;

  /** `edges` holds every place at which anything may ever be cut or looked for. */
  constructor(
    readonly width: number,
    readonly length: number,
    edges: { readonly xs: Iterable<number>; readonly ys: Iterable<number> },
  ) {
    this.xs = sorted([0, width, ...edges.xs]);
    this.ys = sorted([0, length, ...edges.ys]);
    this.across = this.xs.length - 1;
  }

  cut(slit: Slit): void {
    this.slits.push(slit);
    this.loose = undefined;
  }

  /** Whether a rectangle lies loose: it hangs together, and nothing outside hangs on to it. */
  isLoose(box: Rectangle): boolean {
    const parts = this.parts();
    const cells = this.cellsOf(box);
    const part = parts[cells[0]!]!;
    if (!cells.every((cell) => parts[cell] === part)) return false;
    return parts.reduce((count, other) => count + (other === part ? 1 : 0), 0) === cells.length;
  }

  /** Whether nothing outside hangs on to these rectangles; inside they may be cut up already. */
  isFree(boxes: readonly Rectangle[]): boolean {
    const parts = this.parts();
    const inside = new Set(boxes.flatMap((box) => this.cellsOf(box)));
    const own = new Set([...inside].map((cell) => parts[cell]));
    return parts.every((part, cell) => inside.has(cell) || !own.has(part));
  }

  /** Whether the cloth is cut along a lengthwise line, somewhere between two heights. */
  isSlit({ x0, y0, y1 }: Rectangle): boolean {
    return this.slits.some((slit) => slit.x0 === x0 && slit.x1 === x0 && slit.y0 < y1 && slit.y1 > y0);
  }

  /** Whether two rectangles still hang together, in one part or through others. */
  hangTogether(one: Rectangle, other: Rectangle): boolean {
    const parts = this.parts();
    return parts[this.cellsOf(one)[0]!] === parts[this.cellsOf(other)[0]!];
  }

  /** Whether a rectangle has no cut through it, whatever still hangs on to it. */
  isWhole(box: Rectangle): boolean {
    const parts = this.parts();
    const cells = this.cellsOf(box);
    const cutThrough = this.slits.some(
      (slit) =>
        (slit.x0 === slit.x1 &&
          slit.x0 > box.x0 &&
          slit.x0 < box.x1 &&
          slit.y0 < box.y1 &&
          slit.y1 > box.y0) ||
        (slit.y0 === slit.y1 && slit.y0 > box.y0 && slit.y0 < box.y1 && slit.x0 < box.x1 && slit.x1 > box.x0),
    );
    return !cutThrough && cells.every((cell) => parts[cell] === parts[cells[0]!]);
  }

  private cellsOf(box: Rectangle): readonly number[] {
    const cells: number[] = [];
    for (let row = this.ys.indexOf(box.y0); this.ys[row]! < box.y1; row++) {
      for (let column = this.xs.indexOf(box.x0); this.xs[column]! < box.x1; column++) {
        cells.push(row * this.across + column);
      }
    }
    if (cells.length === 0) throw new Error(`no cloth within ${JSON.stringify(box)}`);
    return cells;
  }

  private parts(): Int32Array {
    this.loose ??= this.findParts();
    return this.loose;
  }

  /** Spreads from cell to cell wherever no slit lies between. */
  private findParts(): Int32Array {
    const rows = this.ys.length - 1;
    const [right, above] = this.walls(rows);
    const parts = new Int32Array(rows * this.across).fill(-1);
    for (let start = 0; start < parts.length; start++) {
      if (parts[start] !== -1) continue;
      const open = [start];
      parts[start] = start;
      for (let cell = open.pop(); cell !== undefined; cell = open.pop()) {
        const column = cell % this.across;
        const next: number[] = [];
        if (column + 1 < this.across && !right[cell]) next.push(cell + 1);
        if (column > 0 && !right[cell - 1]) next.push(cell - 1);
        if (cell + this.across < parts.length && !above[cell]) next.push(cell + this.across);
        if (cell >= this.across && !above[cell - this.across]) next.push(cell - this.across);
        for (const other of next) {
          if (parts[other] !== -1) continue;
          parts[other] = start;
          open.push(other);
        }
      }
    }
    return parts;
  }

  /** For every cell, whether it is cut from its neighbour to the right, and from the one above. */
  private walls(rows: number): readonly [Uint8Array, Uint8Array] {
    const right = new Uint8Array(rows * this.across);
    const above = new Uint8Array(rows * this.across);
    for (const { x0, y0, x1, y1 } of this.slits) {
      const [column, row] = [this.xs.indexOf(x0), this.ys.indexOf(y0)];
      if (column < 0 || row < 0) throw new Error(`a cut at ${x0}, ${y0}, where no edge was announced`);
      if (x0 === x1) {
        for (let at = row; this.ys[at]! < y1; at++) right[at * this.across + column - 1] = 1;
      } else {
        for (let at = column; this.xs[at]! < x1; at++) above[(row - 1) * this.across + at] = 1;
      }
    }
    return [right, above];
  }
}

function sorted(values: Iterable<number>): number[] {
  return [...new Set(values)].sort((a, b) => a - b);
}
