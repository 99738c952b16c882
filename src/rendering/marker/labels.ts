import { INK, PAPER } from '../theme.ts';
import type { PageBox, Shape, TextShape } from './shapes.ts';
import { ASCENT, CAP_HEIGHT, DESCENT, textWidth } from './text-width.ts';

export interface LabelLine {
  readonly text: string;
  readonly size: number;
  readonly weight: 'regular' | 'bold';
}

/** Lines from the fullest to the barest; the first set that fits is used. */
export type LabelChoice = readonly LabelLine[];

const LEADING = 1.16;
/** White kept around a label so that hatch and seam lines do not touch it: little where the label is little. */
const haloOf = (lines: LabelChoice): number => Math.min(1.6, 0.14 * lines[0]!.size);

export interface FittedLabel {
  readonly shapes: readonly Shape[];
  readonly box: PageBox;
  /** Which of the choices it is; the lower, the fuller. */
  readonly choice: number;
}

/**
 * Sets the fullest label that fits in the middle of a box: upright, or turned where the box is tall and narrow and has
 * upright room for no more than the barest words. Undefined where not even those fit.
 */
export function fitLabel(
  room: PageBox,
  choices: readonly LabelChoice[],
  role: string,
): FittedLabel | undefined {
  const sizes = choices.map(blockSize);
  const fits = (width: number, height: number) =>
    sizes.findIndex((size) => size.width <= width && size.height <= height);
  const isBare = (index: number) =>
    choices[index]!.length === 1 && choices[index]![0]!.text === choices.at(-1)![0]!.text;
  const upright = fits(room.width, room.height);
  // A turned line leaves a fifth of its side free for the numbers of cuts, unless there is no other way.
  const share = upright < 0 ? 1 : 0.8;
  const turned = room.height > 1.4 * room.width ? fits(share * room.height, room.width) : -1;
  const turns = turned >= 0 && (upright < 0 || (isBare(upright) && turned < upright));
  const chosen = turns ? turned : upright;
  if (chosen < 0) return undefined;
  return { ...setLabel(room, choices[chosen]!, sizes[chosen]!, turns, role), choice: chosen };
}

/** What to write on a piece, from all of it at a good size down to its letter alone. */
export function pieceChoices(letter: string, name: string, order: string, size: string): LabelChoice[] {
  const choices: LabelChoice[] = [];
  const bold = (text: string, points: number): LabelLine => ({ text, size: points, weight: 'bold' });
  const plain = (text: string, points: number): LabelLine => ({ text, size: points, weight: 'regular' });
  for (const big of [30, 24, 20]) {
    const small = Math.max(8.5, big * 0.4);
    if (!name.startsWith(order)) {
      choices.push([bold(letter, big), bold(name, small), plain(order, small * 0.9), plain(size, small)]);
    }
    choices.push([bold(letter, big), bold(name, small), plain(size, small)]);
  }
  choices.push([bold(letter, 17), bold(name, 7.5), plain(size, 7.5)]);
  for (const big of [22, 18, 14]) choices.push([bold(letter, big), plain(size, Math.max(7, big * 0.42))]);
  choices.push([bold(`${letter}  ${name}  ${size}`, 8.5)], [bold(`${letter}  ${size}`, 8.5)]);
  choices.push([bold(letter, 11), plain(size, 6.5)]);
  for (const big of [16, 13, 11, 9.5, 8]) choices.push([bold(letter, big)]);
  choices.push([bold(`${letter}  ${size}`, 6.5)]);
  for (const big of [7, 6, 5, 4.5]) choices.push([bold(letter, big)]);
  return choices;
}

export function remnantChoices(size: string): LabelChoice[] {
  const plain = (text: string, points: number): LabelLine => ({ text, size: points, weight: 'regular' });
  return [
    [plain('remnant', 9), plain(size, 9)],
    [plain(`remnant ${size}`, 8)],
    [plain('remnant', 7), plain(size, 7)],
    [plain(size, 7)],
    [plain(size, 6)],
  ];
}

const blockSize = (lines: LabelChoice) => ({
  width: Math.max(...lines.map((line) => textWidth(line.text, line.size, line.weight))) + 2 * haloOf(lines),
  // A line alone has its halo in the room for tails that capitals have not got.
  height: blockHeight(lines) + (lines.length > 1 ? 2 * haloOf(lines) : 0),
});

/** From the top of the first line's capitals to the foot of the last line. */
function blockHeight(lines: LabelChoice): number {
  const first = lines[0]!;
  const steps = lines.slice(1).reduce((total, line, index) => total + stepTo(line, lines[index]!), 0);
  return ASCENT * first.size + steps + DESCENT * lines.at(-1)!.size;
}

/** From a baseline to the next, so that even the tails of the line above stay clear. */
const stepTo = (line: LabelLine, above: LabelLine): number =>
  Math.max(LEADING * line.size, DESCENT * above.size + ASCENT * line.size);

function setLabel(
  room: PageBox,
  lines: LabelChoice,
  size: { readonly width: number; readonly height: number },
  turned: boolean,
  role: string,
): Omit<FittedLabel, 'choice'> {
  const [width, height] = turned ? [size.height, size.width] : [size.width, size.height];
  const box = {
    x: room.x + (room.width - width) / 2,
    y: room.y + (room.height - height) / 2,
    width,
    height,
  };
  const shapes: Shape[] = [{ kind: 'rect', role: 'halo', ...box, fill: PAPER }];
  let down = haloOf(lines) + ASCENT * lines[0]!.size;
  // A letter alone stands in the middle by its capitals, not by the room for tails it has not got.
  if (lines.length === 1) down = size.height / 2 + (CAP_HEIGHT * lines[0]!.size) / 2;
  for (const [index, line] of lines.entries()) {
    if (index > 0) down += stepTo(line, lines[index - 1]!);
    const at = turned
      ? { x: box.x + down, y: box.y + box.height / 2, turned: true }
      : { x: box.x + box.width / 2, y: box.y + down };
    const text: TextShape = { kind: 'text', role, ...at, ...line, anchor: 'middle', ink: INK };
    shapes.push(text);
  }
  return { shapes, box };
}
