import { type FittedLabel, fitLabel, type LabelChoice } from './labels.ts';
import { inset, overlaps, type PageBox, within } from './shapes.ts';

/** Kept between a label and an outline that it must not touch, in points. */
const CLEAR = 1.2;

/**
 * Sets the fullest label that fits in the middle of a box, across none of the outlines that are printed there: in the middle of
 * all of it where that is clear, else inside an outline or beside them. Where nothing is clear, the middle of the box.
 */
export function fitLabelClear(
  room: PageBox,
  outlines: readonly PageBox[],
  choices: readonly LabelChoice[],
  role: string,
): FittedLabel | undefined {
  const usual = fitLabel(room, choices, role);
  const near = outlines.filter((outline) => overlaps(grown(outline), room));
  if (!usual || !near.some((outline) => crosses(usual.box, outline))) return usual;
  let best: FittedLabel | undefined;
  for (const own of clearRooms(room, near)) {
    const label = fitLabel(own, choices, role);
    if (label && (!best || label.choice < best.choice)) best = label;
  }
  return best ?? usual;
}

/** Whether a box lies across an outline, or so near that it touches it. */
export function crosses(box: PageBox, outline: PageBox): boolean {
  return overlaps(box, grown(outline)) && !within(box, shrunk(outline));
}

/** The boxes of a room that no outline crosses, none within another, largest first. In O(n⁴) for n outlines, which are few. */
export function clearRooms(room: PageBox, outlines: readonly PageBox[]): readonly PageBox[] {
  const edges = outlines.map(grown);
  const inX = (x: number) => Math.min(Math.max(x, room.x), room.x + room.width);
  const inY = (y: number) => Math.min(Math.max(y, room.y), room.y + room.height);
  const xs = rising([
    room.x,
    room.x + room.width,
    ...edges.flatMap((box) => [inX(box.x), inX(box.x + box.width)]),
  ]);
  const ys = rising([
    room.y,
    room.y + room.height,
    ...edges.flatMap((box) => [inY(box.y), inY(box.y + box.height)]),
  ]);
  const beside = pairs(xs).flatMap(([x, right]) =>
    pairs(ys).map(([y, low]): PageBox => ({ x, y, width: right - x, height: low - y })),
  );
  const inside = outlines.flatMap((outline) => shared(shrunk(outline), room) ?? []);
  const free = [...beside.filter((box) => !edges.some((edge) => overlaps(edge, box))), ...inside];
  const largest = free.sort((a, b) => b.width * b.height - a.width * a.height);
  return largest.filter((box, index) => !largest.slice(0, index).some((other) => within(box, other)));
}

const pairs = (values: readonly number[]): readonly (readonly [number, number])[] =>
  values.flatMap((low, index) => values.slice(index + 1).map((high) => [low, high] as const));

const rising = (values: readonly number[]): readonly number[] => [...new Set(values)].sort((a, b) => a - b);

const grown = (box: PageBox): PageBox => inset(box, -CLEAR);
const shrunk = (box: PageBox): PageBox => inset(box, CLEAR);

function shared(a: PageBox, b: PageBox): PageBox | undefined {
  const [x, y] = [Math.max(a.x, b.x), Math.max(a.y, b.y)];
  const width = Math.min(a.x + a.width, b.x + b.width) - x;
  const height = Math.min(a.y + a.height, b.y + b.height) - y;
  return width > 0 && height > 0 ? { x, y, width, height } : undefined;
}
