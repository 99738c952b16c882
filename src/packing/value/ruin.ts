/**
 * Ruin and recreate (guillotine/ruin-and-recreate.ts) with worth in place of area: what stays out costs its value.
 *
 * Strong where most of the pieces go into the sheet and single builds, each unaware of the rest, fight for copies.
 */
import type { CutForest } from '../guillotine/cut-forest.ts';
import type { FitRule } from '../guillotine/find-place.ts';
import { forestToPart, type Part } from '../guillotine/part.ts';
import { expandPieces, type Pieces } from '../guillotine/pieces.ts';
import { RuinAndRecreate } from '../guillotine/ruin-and-recreate.ts';
import type { Kind, Stages } from '../instance.ts';
import { seededRandom } from '../search/random.ts';
import { type Parts, rowOf } from './parts.ts';

export interface RuinQuestion {
  readonly kinds: readonly Kind[];
  readonly width: number;
  readonly length: number;
  readonly copies: Int32Array;
  readonly values: Float64Array;
  readonly stages: Stages;
  readonly seed: number;
}

/** More pieces than this are too many to be taken out and put back singly; then only the worthiest take part. */
const mostPieces = 3000;
/** Area of the worthiest, as a multiple of the sheet's. */
const plenty = 2;
/** The engine weighs pieces by area to this power; the worth takes the place of the area. */
const weighing = 1.2;

export class ValueRuin {
  value = 0;
  parts: Parts | undefined;
  private readonly pieces: Pieces;
  private readonly worth: Float64Array;
  private readonly engine: RuinAndRecreate;
  private readonly total: number;
  private cycle = 0;

  /** Undefined where there are no pieces. */
  static of(question: RuinQuestion): ValueRuin | undefined {
    const many = question.copies.reduce((sum, copies) => sum + copies, 0);
    if (many === 0) return undefined;
    return new ValueRuin(many <= mostPieces ? question : { ...question, copies: worthiest(question) });
  }

  private constructor({ kinds, width, length, copies, values, stages, seed }: RuinQuestion) {
    const limited = kinds.map((kind, index) => ({ ...kind, copies: copies[index]! }));
    const pieces = expandPieces(limited, { unitX: 1, unitY: 1 });
    this.worth = Float64Array.from(pieces.kind, (kind) => values[kind]!);
    const area = this.worth.map((value) => value ** (1 / weighing));
    this.pieces = { ...pieces, area };
    this.total = this.worth.reduce((sum, value) => sum + value, 0);
    this.engine = new RuinAndRecreate(this.pieces, 1, stages, seededRandom(seed));
    this.engine.reset([{ width, length }]);
  }

  /** Nodes that one iteration counts for. */
  get nodesEach(): number {
    return 8 + (this.pieces.count >> 3);
  }

  /** Fills the sheet by a few plain rules; quick, and something to start from. */
  start(): void {
    const { engine } = this;
    for (let rule = 4; rule >= 0; rule -= 1) {
      for (let order = 0; order < 5; order += 1) {
        engine.reset([{ width: engine.forest.extent[2 * this.pieces.count]!, length: this.length }]);
        engine.fill(order, rule as FitRule, 0, 1);
        this.note();
      }
    }
  }

  /** Cycles of annealing until `spend`, told of the nodes of each iteration, says so. */
  run(spend: (nodes: number) => boolean): void {
    let ended = false;
    const each = this.nodesEach;
    const check = (): boolean => {
      this.note();
      ended = spend(each);
      return ended;
    };
    while (!ended) {
      const { cycle } = this;
      this.cycle += 1;
      const settings = {
        hot: [0.3, 0.1, 0.2, 0.05][cycle % 4]!,
        iterations: 10_000 + 200 * this.pieces.count,
        mostRemoved: [6, 3, 8][cycle % 3]!,
        fragments: 0.3,
        skip: 0.02,
        growth: 1,
        refits: 0,
      };
      if (this.engine.anneal(settings, check)) {
        this.note();
        return;
      }
    }
  }

  private get length(): number {
    return this.engine.forest.extent[2 * this.pieces.count + 1]!;
  }

  private note(): void {
    const { out, outCount, forest } = this.engine;
    let value = this.total;
    for (let index = 0; index < outCount; index += 1) value -= this.worth[out[index]!]!;
    if (value <= this.value) return;
    this.value = value;
    this.parts = this.read(forest);
  }

  private read(forest: CutForest): Parts | undefined {
    const { width, kind } = this.pieces;
    const root = forestToPart(forest, 0, (piece, across) => across !== width[piece]);
    return root && partsOf(root, (piece) => kind[piece]!);
  }
}

/** Without recursion: parts are listed from the root down and built from the leaves up. */
function partsOf(root: Part, kindOf: (piece: number) => number): Parts | undefined {
  const listed: { part: Part; from: number }[] = [{ part: root, from: -1 }];
  for (let index = 0; index < listed.length; index += 1) {
    const { part } = listed[index]!;
    if (part.kind === 'join') for (const inner of part.parts) listed.push({ part: inner, from: index });
  }
  const inside: Parts[][] = listed.map(() => []);
  for (let index = listed.length - 1; index > 0; index -= 1) {
    const made = partOf(listed[index]!.part, inside[index]!, kindOf);
    if (made) inside[listed[index]!.from]!.unshift(made);
  }
  return partOf(root, inside[0]!, kindOf);
}

function partOf(part: Part, inside: readonly Parts[], kindOf: (piece: number) => number): Parts | undefined {
  if (part.kind === 'join') return rowOf(inside, part.direction === 1);
  const { width, length, turned } = part;
  return { width, length, kind: kindOf(part.piece), turned };
}

/** Copies worth most for their area, until there are plenty of them for the sheet or as many as can be borne. */
function worthiest({ kinds, copies, values, width, length }: RuinQuestion): Int32Array {
  const area = (kind: number): number => kinds[kind]!.width * kinds[kind]!.length;
  const order = kinds.map((_, kind) => kind).filter((kind) => copies[kind]! > 0);
  order.sort((a, b) => values[b]! * area(a) - values[a]! * area(b) || area(b) - area(a) || a - b);
  const taken = new Int32Array(copies.length);
  let count = 0;
  let left = plenty * width * length;
  for (const kind of order) {
    if (count >= mostPieces || left <= 0) break;
    const many = Math.min(copies[kind]!, mostPieces - count, Math.ceil(left / area(kind)));
    taken[kind] = many;
    count += many;
    left -= many * area(kind);
  }
  return taken;
}
