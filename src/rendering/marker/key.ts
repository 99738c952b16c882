import { formatSize } from '../../units/format.ts';
import type { Marker, MarkerKind } from '../marker.ts';
import { INK, LINES, PAPER, SOFT, weaveOf } from '../theme.ts';
import { swatchWeave } from './hatch.ts';
import type { Block } from './row.ts';
import type { Shape, TextShape } from './shapes.ts';
import { shorten, textWidth } from './text-width.ts';

const ENTRY = { height: 15, swatch: 22, least: 168, most: 300, gap: 18 } as const;

/** What each letter is: weave, letter, name, cut size and how many; in as many columns as a width in points has room for. More than `mostKinds` are left to the cut list. */
export function keyBlock(marker: Marker, width: number, mostKinds = Number.POSITIVE_INFINITY): Block {
  const columns = Math.max(
    1,
    Math.min(marker.kinds.length, Math.floor((width + ENTRY.gap) / (ENTRY.least + ENTRY.gap))),
  );
  if (marker.kinds.length > mostKinds) return referral(width);
  const rows = Math.ceil(marker.kinds.length / columns);
  const column = Math.min(ENTRY.most, (width - ENTRY.gap * (columns - 1)) / columns);
  const shapes = marker.kinds.flatMap((kind, index) => {
    const x = Math.floor(index / rows) * (column + ENTRY.gap);
    return keyEntry(kind, x, (index % rows) * ENTRY.height, column, marker.unit);
  });
  return { width, height: rows * ENTRY.height, shapes };
}

function referral(width: number): Block {
  const text = 'The cut list says what each letter is.';
  const style = { size: 8.5, weight: 'regular', anchor: 'start', ink: INK } as const;
  return {
    width,
    height: ENTRY.height,
    shapes: [{ kind: 'text', role: 'key', x: 0, y: 10.2, text, ...style }],
  };
}

function keyEntry(kind: MarkerKind, x: number, y: number, width: number, unit: 'in' | 'cm'): Shape[] {
  const { piece } = kind;
  const swatch = { x, y: y + 1.5, width: ENTRY.swatch, height: 11 };
  const end = `${formatSize(piece.size, { unit, fractions: 'glyph' })}  ×${countWords(kind)}`;
  const letter = textWidth(piece.letter, 9, 'bold');
  const name = x + ENTRY.swatch + 5 + Math.max(letter, 9) + 5;
  const room = x + width - textWidth(end, 8.5) - 6 - name;
  const text = (given: Omit<TextShape, 'kind' | 'y' | 'role'>): TextShape => ({
    kind: 'text',
    role: 'key',
    y: y + 10.2,
    ...given,
  });
  return [
    { kind: 'rect', ...swatch, fill: PAPER },
    ...swatchWeave(swatch, weaveOf(kind.index)).map((shape): Shape => ({ ...shape, role: 'key-weave' })),
    { kind: 'rect', ...swatch, stroke: LINES.rule },
    text({ x: x + ENTRY.swatch + 5, text: piece.letter, size: 9, weight: 'bold', anchor: 'start', ink: INK }),
    ...(room > 12
      ? [
          text({
            x: name,
            text: nameWords(piece, room),
            size: 8.5,
            weight: 'regular' as const,
            anchor: 'start' as const,
            ink: INK,
          }),
        ]
      : []),
    text({ x: x + width, text: end, size: 8.5, weight: 'regular', anchor: 'end', ink: SOFT }),
  ];
}

/** Name, order and panel where they have room and are not in the name already, else the name alone. */
function nameWords({ name, order, panel }: MarkerKind['piece'], room: number): string {
  const around = panel && !name.endsWith(panel.name) ? `, around ${panel.name}` : '';
  const both = name.startsWith(order) ? name : `${name}, ${order}`;
  const fullest = [`${both}${around}`, `${name}${around}`, both].find(
    (words) => textWidth(words, 8.5) <= room,
  );
  return fullest ?? shorten(name, room, 8.5);
}

/** `7`, or `8, laid double` where each shape that is drawn yields two. */
export function countWords(kind: MarkerKind): string {
  return kind.drawn > 0 && kind.drawn * 2 === kind.copies ? `${kind.copies}, laid double` : `${kind.copies}`;
}
