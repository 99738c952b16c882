import { overlaps, type PageBox, type TextShape } from './shapes.ts';
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
