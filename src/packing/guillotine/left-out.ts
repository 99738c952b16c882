import type { CutForest } from './cut-forest.ts';

/** The pieces that lie on no sheet; the first `count` of `list`. */
export class LeftOut {
  readonly list: Int32Array;
  count = 0;

  constructor(pieces: number) {
    this.list = new Int32Array(pieces);
  }

  /** All pieces. */
  fill(): void {
    this.count = this.list.length;
    for (let i = 0; i < this.count; i++) this.list[i] = i;
  }

  /** Takes a piece out of a forest and lists it here. */
  takeOut(forest: CutForest, piece: number): void {
    forest.remove(piece);
    this.list[this.count++] = piece;
  }

  /** Strikes off those that have been placed. */
  strikePlaced(forest: CutForest): void {
    let left = 0;
    for (let i = 0; i < this.count; i++) {
      if (!forest.isPlaced(this.list[i])) this.list[left++] = this.list[i];
    }
    this.count = left;
  }

  /** Sum of a measure over the pieces left out. */
  sum(measure: Float64Array): number {
    let sum = 0;
    for (let i = 0; i < this.count; i++) sum += measure[this.list[i]];
    return sum;
  }

  copyFrom(other: LeftOut): void {
    this.list.set(other.list);
    this.count = other.count;
  }
}
