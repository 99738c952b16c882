import { overlaps, type PageBox, type Point, type TextShape } from './shapes.ts';
import { textBox } from './text-width.ts';

/** What is already written on a drawing, so that no two labels meet. */
export class Occupied {
  readonly #boxes: PageBox[] = [];

  add(box: PageBox): void {
    this.#boxes.push(box);
  }

  addText(text: TextShape): void {
    this.add(textBox(text));
  }

  isFree(box: PageBox): boolean {
    return !this.#boxes.some((taken) => overlaps(taken, box));
  }
}

/** What a label keeps clear of: other labels, and outlines that are printed on the cloth. */
export interface Labelling {
  readonly occupied: Occupied;
  readonly outlines: readonly PageBox[];
}

/** Places around a point, nearest first, from one distance to another in points. */
export function placesAround([x, y]: Point, from: number, to: number): Point[] {
  const places: Point[] = [];
  for (let away = from; away < to; away += 3) {
    for (let turn = 0; turn < 16; turn++) {
      const angle = (turn * Math.PI) / 8;
      places.push([x + away * Math.cos(angle), y + away * Math.sin(angle)]);
    }
  }
  return places;
}
