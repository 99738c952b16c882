/** Fills one sheet piece by piece in a given order, each at its best place; quick, and without a way back. */
import { CutForest } from '../guillotine/cut-forest.ts';
import { type FitOptions, type FitRule, OpenNodes, type Place } from '../guillotine/find-place.ts';
import { forestToPart, type Part } from '../guillotine/part.ts';
import { sortByFallingKey } from '../guillotine/piece-orders.ts';
import type { Pieces } from '../guillotine/pieces.ts';
import type { Random } from '../search/random.ts';

export class QuickFill {
  private readonly pieces: Pieces;
  private readonly random: Random;
  private readonly fit: Omit<FitOptions, 'rule'>;
  private readonly forest: CutForest;
  private readonly open: OpenNodes;
  private readonly order: Int32Array;
  private readonly key: Float64Array;
  private readonly place: Place = { node: -1, width: 0, length: 0, score: 0 };

  constructor(pieces: Pieces, stages: 2 | 3 | 'any', random: Random) {
    this.pieces = pieces;
    this.random = random;
    this.fit = { deepest: stages === 'any' ? Infinity : 2, trimOnly: stages === 2, skip: 0.02, growth: 1 };
    this.forest = new CutForest(pieces.count, 1);
    this.open = new OpenNodes(this.forest);
    this.order = new Int32Array(pieces.count);
    this.key = new Float64Array(pieces.count);
  }

  /**
   * Pieces worth most for their area (to the given power, with noise) first; worthless ones stay out. Returns the
   * worth of what went in.
   */
  fill(
    sheet: { readonly width: number; readonly length: number },
    worth: Float64Array,
    { power, noise, rule }: { power: number; noise: number; rule: FitRule },
  ): number {
    const { pieces, forest, order, key, random, place, open } = this;
    let count = 0;
    for (let piece = 0; piece < pieces.count; piece++) {
      if (!(worth[piece]! > 0)) continue;
      key[piece] = (worth[piece]! / pieces.area[piece]! ** power) * (1 + noise * random.unit());
      order[count++] = piece;
    }
    sortByFallingKey(order, count, key);
    forest.setSheet(0, sheet.width, sheet.length);
    forest.clear();
    open.collect({ width: 0, length: 0 });
    const fit: FitOptions = { ...this.fit, rule };
    let total = 0;
    let missed = -1;
    for (let i = 0; i < count; i++) {
      const piece = order[i]!;
      if (pieces.shape[piece] === missed) continue;
      place.node = -1;
      place.score = Infinity;
      open.find(pieces.width[piece]!, pieces.length[piece]!, fit, random.unit, place);
      if (pieces.turnable[piece] === 1) {
        open.find(pieces.length[piece]!, pieces.width[piece]!, fit, random.unit, place);
      }
      if (place.node < 0) {
        missed = pieces.shape[piece]!;
        continue;
      }
      forest.place(piece, place.node, place.width, place.length);
      open.addCreated();
      total += worth[piece]!;
    }
    return total;
  }

  /** What `fill` laid last. */
  part(): Part | undefined {
    return forestToPart(this.forest, 0, (piece, width) => width !== this.pieces.width[piece]);
  }
}
