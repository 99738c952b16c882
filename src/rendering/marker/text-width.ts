import type { PageBox, TextShape } from './shapes.ts';

/**
 * Advance widths of the typeface in thousandths of its size, so that labels are fitted without measuring on a device.
 * Read from Source Sans 3 (SIL Open Font License), Regular and SemiBold; a test holds them to the font file.
 */
const SIGNS =
  ' !"#$%&\'()*+,-./0123456789:;<=>?@ABCDEFGHIJKLMNOPQRSTUVWXYZ[\\]^_`abcdefghijklmnopqrstuvwxyz{|}~¢£¥§°±²³·¼½¾×÷⅛⅜⅝⅞⅓⅔–—‘’“”•…€→↑−≤≥ßæøåłđþðıœ';
const REGULAR =
  '200 289 426 497 497 824 609 249 303 303 418 497 249 311 249 350 497 497 497 497 497 497 497 497 497 497 249 249 497 497 497 425 847 543 588 571 615 527 494 617 652 263 479 579 486 727 647 664 566 664 569 534 536 645 515 786 513 476 539 303 350 303 497 500 542 504 553 456 555 496 292 504 544 246 247 495 255 829 547 542 555 555 347 419 338 544 467 719 446 467 425 303 241 303 497 497 497 497 497 331 497 367 367 249 781 808 796 497 497 804 821 821 801 804 821 480 800 249 249 426 426 304 948 497 619 619 497 497 497 576 778 542 504 298 562 555 544 247 839';
const BOLD =
  '200 315 482 513 513 841 639 275 324 324 438 513 275 322 275 344 513 513 513 513 513 513 513 513 513 513 275 275 513 513 513 444 875 558 597 576 625 538 510 628 663 282 494 597 502 745 657 674 582 674 592 545 546 655 536 800 541 501 540 324 344 324 513 500 549 516 563 462 564 507 317 520 558 262 263 522 271 843 560 549 564 564 373 431 361 556 495 748 481 495 443 324 255 324 513 513 513 513 513 348 513 372 372 275 795 827 807 513 513 821 835 835 815 821 835 480 800 275 275 482 482 325 964 513 618 618 513 513 513 604 780 549 516 329 564 564 552 262 830';

const WIDTHS = { regular: widthsOf(REGULAR), bold: widthsOf(BOLD) } as const;

/** The widest of the letters, for signs that are in no table. */
const UNKNOWN = 900;

/** How far letters reach above and below the baseline, in parts of the size. */
export const ASCENT = 0.74;
export const DESCENT = 0.22;
export const CAP_HEIGHT = 0.66;

/** Width of a line of text in points. Letters with marks count as their plain letter. */
export function textWidth(text: string, size: number, weight: 'regular' | 'bold' = 'regular'): number {
  let thousandths = 0;
  for (const sign of text) thousandths += signWidth(sign, WIDTHS[weight]);
  return (thousandths * size) / 1000;
}

/** The box that a text takes up on its page. */
export function textBox(text: TextShape): PageBox {
  const width = textWidth(text.text, text.size, text.weight);
  const back = text.anchor === 'start' ? 0 : text.anchor === 'middle' ? width / 2 : width;
  const height = (ASCENT + DESCENT) * text.size;
  return text.turned
    ? { x: text.x - ASCENT * text.size, y: text.y + back - width, width: height, height: width }
    : { x: text.x - back, y: text.y - ASCENT * text.size, width, height };
}

/** Breaks words into lines no wider than `width`; a single word that is wider is broken where it must. */
export function wrap(
  text: string,
  width: number,
  size: number,
  weight: 'regular' | 'bold' = 'regular',
): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/[ \n\t]+/).filter((part) => part !== '')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (textWidth(longer, size, weight) <= width) {
      line = longer;
      continue;
    }
    if (line !== '') lines.push(line);
    line = word;
    while (textWidth(line, size, weight) > width) {
      const fits = fitting(line, width, size, weight);
      lines.push(line.slice(0, fits));
      line = line.slice(fits);
    }
  }
  if (line !== '') lines.push(line);
  return lines;
}

/** Shortens a line to a width, with an ellipsis where something was left off. */
export function shorten(
  text: string,
  width: number,
  size: number,
  weight: 'regular' | 'bold' = 'regular',
): string {
  if (textWidth(text, size, weight) <= width) return text;
  const room = width - textWidth('…', size, weight);
  return `${text.slice(0, fitting(text, room, size, weight)).trimEnd()}…`;
}

/** How many code units of a text fit in a width; at least one sign, so that breaking always moves on. */
function fitting(text: string, width: number, size: number, weight: 'regular' | 'bold'): number {
  let end = 0;
  let taken = 0;
  for (const sign of text) {
    taken += (signWidth(sign, WIDTHS[weight]) * size) / 1000;
    if (end > 0 && taken > width) break;
    end += sign.length;
  }
  return end;
}

function signWidth(sign: string, widths: ReadonlyMap<string, number>): number {
  const known = widths.get(sign);
  if (known !== undefined) return known;
  const plain = sign.normalize('NFKD')[0]!;
  return widths.get(plain) ?? UNKNOWN;
}

function widthsOf(table: string): ReadonlyMap<string, number> {
  const widths = table.split(' ').map(Number);
  return new Map([...SIGNS].map((sign, index) => [sign, widths[index]!]));
}
