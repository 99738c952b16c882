import type {
  FewestQuestion,
  Kind,
  Lattice,
  MostQuestion,
  Sheet,
  ShortestQuestion,
  Stages,
} from '../../src/packing/instance.ts';

/**
 * Answers by trying every cut at every whole number: for up to six pieces on sheets a dozen units long. Shares no
 * code with the engine. What is cut twice (`mirrorAt`, in the middle) is tried on the near half, each place being
 * allowed only if its mirror image is.
 */

/** All that can be cut from every rectangle of one sheet, kept from one to the next. */
class Patterns {
  private readonly sheet: Sheet;
  private readonly kinds: readonly Kind[];
  private readonly stages: Stages;
  private readonly radix: number[] = [];
  private readonly digits: readonly number[];
  private readonly known = new Map<string, ReadonlySet<number>>();

  constructor(sheet: Sheet, kinds: readonly Kind[], stages: Stages) {
    this.sheet = sheet;
    this.kinds = kinds;
    this.stages = stages;
    // Copies of each kind, then one bit for each fixed piece: a fixed piece is another thing than its fellows.
    const fixed = sheet.fixed ?? [];
    const free = kinds.map(({ copies }, kind) => copies - fixed.filter((at) => at.kind === kind).length);
    this.digits = [...free, ...fixed.map(() => 1)];
    let states = 1;
    for (const most of this.digits) {
      this.radix.push(states);
      states *= most + 1;
    }
  }

  /** Counts of each kind of everything that a length of the sheet can give, fixed pieces always among it. */
  counts(length: number): number[][] {
    const { mirrorAt, width } = this.sheet;
    if (mirrorAt !== undefined && 2 * mirrorAt !== width) throw new Error('only middle mirrors are tried');
    const found: number[][] = [];
    for (const code of this.packable(0, 0, mirrorAt ?? width, length, 1)) {
      const digits = this.radix.map((radix, index) => Math.floor(code / radix) % (this.digits[index]! + 1));
      if (digits.slice(this.kinds.length).some((bit) => bit === 0)) continue;
      const counts = digits.slice(0, this.kinds.length);
      for (const { kind } of this.sheet.fixed ?? []) counts[kind]! += 1;
      found.push(mirrorAt === undefined ? counts : counts.map((count) => 2 * count));
    }
    return found;
  }

  private packable(x0: number, y0: number, x1: number, y1: number, level: number): ReadonlySet<number> {
    const key = [x0, y0, x1, y1, this.stages === 'any' ? 0 : level].join();
    const before = this.known.get(key);
    if (before !== undefined) return before;
    const found = this.stages === 'any' ? this.anyCut(x0, y0, x1, y1) : this.levelCut(x0, y0, x1, y1, level);
    this.known.set(key, found);
    return found;
  }

  private anyCut(x0: number, y0: number, x1: number, y1: number): Set<number> {
    const found = this.singles(x0, y0, x1, y1);
    for (let x = x0 + 1; x < x1; x++)
      this.sums(found, this.packable(x0, y0, x, y1, 1), this.packable(x, y0, x1, y1, 1));
    for (let y = y0 + 1; y < y1; y++)
      this.sums(found, this.packable(x0, y0, x1, y, 1), this.packable(x0, y, x1, y1, 1));
    return found;
  }

  /** Odd levels are crosscuts, even ones lengthwise; after the last comes one that only trims. */
  private levelCut(x0: number, y0: number, x1: number, y1: number, level: number): Set<number> {
    const crosscut = level % 2 === 1;
    if (level === (this.stages as number) + 1) {
      const found = new Set([0]);
      const [from, to] = crosscut ? [y0, y1] : [x0, x1];
      for (let near = from; near < to; near++) {
        for (let far = near + 1; far <= to; far++) {
          const singles = crosscut ? this.singles(x0, near, x1, far) : this.singles(near, y0, far, y1);
          for (const code of singles) found.add(code);
        }
      }
      return found;
    }
    const found = new Set(this.packable(x0, y0, x1, y1, level + 1));
    if (crosscut) {
      for (let y = y0 + 1; y < y1; y++) {
        this.sums(found, this.packable(x0, y0, x1, y, level + 1), this.packable(x0, y, x1, y1, level));
      }
    } else {
      for (let x = x0 + 1; x < x1; x++) {
        this.sums(found, this.packable(x0, y0, x, y1, level + 1), this.packable(x, y0, x1, y1, level));
      }
    }
    return found;
  }

  private sums(found: Set<number>, near: ReadonlySet<number>, far: ReadonlySet<number>): void {
    for (const a of near) {
      for (const b of far)
        if (
          this.radix.every((radix, i) => this.digit(a, i, radix) + this.digit(b, i, radix) <= this.digits[i]!)
        )
          found.add(a + b);
    }
  }

  private digit(code: number, index: number, radix: number): number {
    return Math.floor(code / radix) % (this.digits[index]! + 1);
  }

  /** Nothing, or one piece that fills the rectangle exactly. */
  private singles(x0: number, y0: number, x1: number, y1: number): Set<number> {
    const found = new Set([0]);
    if (!this.isFree(x0, y0, x1, y1)) return found;
    for (const [index, kind] of this.kinds.entries()) {
      if (this.digits[index] === 0) continue;
      const upright = x1 - x0 === kind.width && y1 - y0 === kind.length && this.onLattice(kind, x0, y0);
      const turned = kind.quarterTurn && x1 - x0 === kind.length && y1 - y0 === kind.width && !kind.lattice;
      if (upright || turned) found.add(this.radix[index]!);
    }
    for (const [index, at] of (this.sheet.fixed ?? []).entries()) {
      const kind = this.kinds[at.kind]!;
      const [width, length] = at.turned ? [kind.length, kind.width] : [kind.width, kind.length];
      if (x0 === at.x0 && y0 === at.y0 && x1 === x0 + width && y1 === y0 + length)
        found.add(this.radix[this.kinds.length + index]!);
    }
    return found;
  }

  private isFree(x0: number, y0: number, x1: number, y1: number): boolean {
    const { mirrorAt, forbidden = [] } = this.sheet;
    const clear = (near: number, far: number) =>
      forbidden.every((box) => far <= box.x0 || near >= box.x1 || y1 <= box.y0 || y0 >= box.y1);
    return clear(x0, x1) && (mirrorAt === undefined || clear(2 * mirrorAt - x1, 2 * mirrorAt - x0));
  }

  private onLattice({ lattice, width }: Kind, x0: number, y0: number): boolean {
    const { mirrorAt } = this.sheet;
    const on = (axis: Lattice['x'], at: number) =>
      axis === undefined || axis.offsets.some((offset) => (at - offset) % axis.period === 0);
    if (mirrorAt !== undefined && !on(lattice?.x, 2 * mirrorAt - x0 - width)) return false;
    return on(lattice?.x, x0) && on(lattice?.y, y0);
  }
}

/** Copies wanted of each kind; with a mirror the next even number. */
function wanted(kinds: readonly Kind[], mirrored: boolean): number[] {
  return kinds.map(({ copies }) => (mirrored ? 2 * Math.ceil(copies / 2) : copies));
}

/** Patterns try up to the wanted copies, which on a half sheet are half as many. */
function tried(kinds: readonly Kind[], mirrored: boolean, round: (half: number) => number): Kind[] {
  return kinds.map((kind) => (mirrored ? { ...kind, copies: round(kind.copies / 2) } : kind));
}

/** The least length up to `longest`; undefined where none is long enough. */
export function bruteShortest(
  { sheet, kinds }: ShortestQuestion,
  stages: Stages,
  longest: number,
): number | undefined {
  const mirrored = sheet.mirrorAt !== undefined;
  const all = wanted(kinds, mirrored);
  const patterns = new Patterns(sheet, tried(kinds, mirrored, Math.ceil), stages);
  for (let length = 0; length <= Math.min(longest, sheet.length); length++) {
    if (patterns.counts(length).some((counts) => counts.every((count, kind) => count === all[kind])))
      return length;
  }
  return undefined;
}

/** The most value, or complete sets; undefined where the fixed pieces do not go in. */
export function bruteMost({ sheet, kinds, set }: MostQuestion, stages: Stages): number | undefined {
  const limited = kinds.map((kind) => {
    const room = Math.floor((sheet.width * sheet.length) / (kind.width * kind.length));
    return { ...kind, copies: Math.min(kind.copies, room) };
  });
  const patterns = new Patterns(sheet, tried(limited, sheet.mirrorAt !== undefined, Math.floor), stages);
  const values = patterns
    .counts(sheet.length)
    .map((counts) =>
      set === undefined
        ? counts.reduce(
            (sum, count, kind) =>
              sum + count * (kinds[kind]!.value ?? kinds[kind]!.width * kinds[kind]!.length),
            0,
          )
        : Math.min(...set.flatMap((each, kind) => (each > 0 ? [Math.floor(counts[kind]! / each)] : []))),
    );
  return values.length === 0 ? undefined : Math.max(...values);
}

/** The least cost; undefined where all sheets together do not give the pieces. Mirrored sheets all or none. */
export function bruteFewest({ sheets, kinds }: FewestQuestion, stages: Stages): number | undefined {
  const mirrored = sheets.some(({ mirrorAt }) => mirrorAt !== undefined);
  const all = wanted(kinds, mirrored);
  let best = new Map<string, number>([[all.join(), 0]]);
  for (const sheet of sheets) {
    const given = new Patterns(sheet, tried(kinds, mirrored, Math.ceil), stages).counts(sheet.length);
    const cost = sheet.cost ?? sheet.width * sheet.length;
    for (let copy = 0; copy < (sheet.copies ?? 1); copy++) {
      const after = new Map(best);
      for (const [left, spent] of best) {
        const counts = left.split(',').map(Number);
        for (const pattern of given) {
          const rest = counts.map((count, kind) => count - pattern[kind]!);
          if (rest.some((count) => count < 0)) continue;
          const key = rest.join();
          if (spent + cost < (after.get(key) ?? Number.POSITIVE_INFINITY)) after.set(key, spent + cost);
        }
      }
      best = after;
    }
  }
  return best.get(all.map(() => 0).join());
}
