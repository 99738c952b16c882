/**
 * Plain shelf rules, the floor that any packer must clear: next-fit, first-fit and best-fit decreasing height
 * (Coffman, Garey, Johnson & Tarjan 1980). Pieces are taken by falling length; each shelf is as long as its first piece.
 */
export interface Rectangle {
  readonly width: number;
  readonly length: number;
  readonly value: number;
}

export type ShelfRule = 'next' | 'first' | 'best';

export interface Shelf {
  length: number;
  room: number;
  value: number;
}

export function shelvesOf(rectangles: readonly Rectangle[], width: number, rule: ShelfRule): Shelf[] {
  const shelves: Shelf[] = [];
  const falling = [...rectangles].sort((a, b) => b.length - a.length || b.width - a.width);
  for (const rectangle of falling) {
    const shelf = chooseShelf(shelves, rectangle.width, rule);
    if (shelf) {
      shelf.room -= rectangle.width;
      shelf.value += rectangle.value;
    } else {
      shelves.push({ length: rectangle.length, room: width - rectangle.width, value: rectangle.value });
    }
  }
  return shelves;
}

function chooseShelf(shelves: readonly Shelf[], width: number, rule: ShelfRule): Shelf | undefined {
  const candidates = rule === 'next' ? shelves.slice(-1) : shelves;
  let best: Shelf | undefined;
  for (const shelf of candidates) {
    if (shelf.room < width) continue;
    if (rule !== 'best') return shelf;
    if (!best || shelf.room < best.room) best = shelf;
  }
  return best;
}

/** Shelves into sheets, first fit (hybrid first fit; Chung, Garey & Johnson 1982). */
export function sheetsOfShelves(shelves: readonly Shelf[], length: number): number {
  const rooms: number[] = [];
  for (const shelf of shelves) {
    const sheet = rooms.findIndex((room) => room >= shelf.length);
    if (sheet >= 0) rooms[sheet]! -= shelf.length;
    else rooms.push(length - shelf.length);
  }
  return rooms.length;
}
