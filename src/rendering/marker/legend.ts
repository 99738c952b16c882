import type { Marker } from '../marker.ts';
import { BLADE_DASHES, INK, LINES, PAPER, QUIET, type Stroke, TINT } from '../theme.ts';
import { dotRows, wasteHatch } from './hatch.ts';
import { arrowShapes, clothPointer } from './pieces.ts';
import type { Block } from './row.ts';
import { moved, type PageBox, type Segment, type Shape } from './shapes.ts';
import { textWidth } from './text-width.ts';

const SAMPLE = { width: 24, height: 9, gap: 5, between: 16, line: 14, size: 8 } as const;

interface LegendEntry {
  readonly words: string;
  readonly sample: (box: PageBox) => readonly Shape[];
}

/** What each line and hatch of this marker means; only what the marker shows. `parted`: some length goes on in a further row. Wraps to a width in points. */
export function legendBlock(marker: Marker, width: number, parted: boolean): Block {
  let [x, y] = [0, 0];
  const shapes: Shape[] = [];
  for (const { words, sample } of entries(marker, parted)) {
    const needs = SAMPLE.width + SAMPLE.gap + textWidth(words, SAMPLE.size);
    if (x > 0 && x + needs > width) [x, y] = [0, y + SAMPLE.line];
    const box = { x, y: y + 1, width: SAMPLE.width, height: SAMPLE.height };
    shapes.push(...sample(box), {
      kind: 'text',
      role: 'legend',
      text: words,
      x: x + SAMPLE.width + SAMPLE.gap,
      y: y + 8.5,
      size: SAMPLE.size,
      weight: 'regular',
      anchor: 'start',
      ink: INK,
    });
    x += needs + SAMPLE.between;
  }
  return { width, height: y + SAMPLE.line, shapes };
}

function entries(marker: Marker, parted: boolean): LegendEntry[] {
  const leftovers = new Set(marker.lengths.flatMap((length) => length.leftovers.map(({ kind }) => kind)));
  const lines = new Set(
    marker.lengths.flatMap(({ pieces }) => pieces.flatMap((piece) => piece.lines.map(({ kind }) => kind))),
  );
  const found: LegendEntry[] = [{ words: 'cut, in the order of its number', sample: cutSample }];
  const blades = new Set(marker.lengths.flatMap(({ cuts }) => cuts.map(({ blade }) => blade)));
  if (blades.has('scissors')) found.push({ words: 'cut with scissors', sample: bladeSample('scissors') });
  if (blades.has('tear')) found.push({ words: 'torn along a thread', sample: bladeSample('tear') });
  if (lines.has('seam')) found.push({ words: 'seam', sample: lineSample(LINES.seam) });
  if (lines.has('hem-fold')) found.push({ words: 'hem fold', sample: lineSample(LINES['hem-fold']) });
  if (lines.has('turn-under')) found.push({ words: 'turned under', sample: lineSample(LINES['turn-under']) });
  if (lines.has('fold')) found.push({ words: 'fold line', sample: lineSample(LINES.fold) });
  if (lines.has('join')) found.push({ words: 'join', sample: lineSample(LINES.join) });
  if (marker.lengths.some(({ fold }) => fold !== undefined))
    found.push({ words: 'fold of the lay', sample: lineSample(LINES.foldEdge) });
  if (marker.lengths.some(({ crease, fold }) => crease !== undefined && fold === undefined)) {
    found.push({ words: 'bolt crease', sample: lineSample(LINES.crease) });
  }
  if (marker.lengths.some(({ flaws }) => flaws.length > 0))
    found.push({ words: 'flaw', sample: lineSample(LINES.flaw) });
  if (marker.lengths.some(({ overTo }) => overTo !== undefined))
    found.push({ words: 'edge of the upper ply', sample: lineSample(LINES.crease) });
  if (marker.lengths.some(({ panels }) => panels.length > 0))
    found.push({ words: 'printed panel', sample: lineSample(LINES.panel) });
  if (marker.lengths.some(({ motifs }) => motifs.length > 0))
    found.push({ words: 'centre of a motif', sample: crossSample });
  if (leftovers.has('remnant')) found.push({ words: 'remnant to keep', sample: remnantSample });
  if (leftovers.has('scrap')) found.push({ words: 'scrap', sample: wasteSample(false) });
  if ([...leftovers].some((kind) => kind !== 'remnant' && kind !== 'scrap')) {
    found.push({ words: 'trim: selvedge, crease strip, squared ends', sample: wasteSample(true) });
  }
  found.push({ words: 'top of the piece', sample: upSample });
  if (marker.lengths.some(({ pieces }) => pieces.some(({ under }) => under))) {
    found.push({ words: 'upper ply / lower ply, where they differ', sample: bothSample });
  }
  const { bothWays } = clothPointer(marker.cloth);
  found.push({
    words: bothWays ? 'grain' : marker.cloth.direction === 'nap' ? 'nap runs up' : 'print runs up',
    sample: arrowSample(bothWays),
  });
  if (parted) {
    found.push({ words: 'marks that meet where a length goes on', sample: matchSample });
  }
  return found;
}

const middle = (box: PageBox) => ({ x: box.x + box.width / 2, y: box.y + box.height / 2 });

const lineSample =
  (stroke: Stroke) =>
  (box: PageBox): Shape[] => [
    { kind: 'lines', segments: [[box.x, middle(box).y, box.x + box.width, middle(box).y]], stroke },
  ];

const bladeSample = (blade: 'scissors' | 'tear') =>
  lineSample({ ...LINES.cut[0], dash: BLADE_DASHES[blade]! });
const crossSample = (box: PageBox): Shape[] => {
  const { x, y } = middle(box);
  const segments: Segment[] = [
    [x - 3, y, x + 3, y],
    [x, y - 3, x, y + 3],
  ];
  return [{ kind: 'lines', segments, stroke: LINES.motif }];
};

const cutSample = (box: PageBox): Shape[] => {
  const { x, y } = middle(box);
  return [
    ...lineSample(LINES.cut[0])(box),
    { kind: 'circle', x, y, radius: 4.6, fill: INK, stroke: { width: 0.6, ink: PAPER } },
  ];
};

const remnantSample = (box: PageBox): Shape[] => [
  { kind: 'rect', ...box, fill: PAPER, stroke: LINES.hairline },
  { kind: 'dots', points: dotRows(box, 5), radius: 0.42, ink: QUIET },
];

const wasteSample =
  (trim: boolean) =>
  (box: PageBox): Shape[] => [
    { kind: 'rect', ...box, fill: TINT, stroke: LINES.hairline },
    { ...wasteHatch(box, trim), role: 'legend-sample' } as Shape,
  ];

const bothSample = (box: PageBox): Shape[] => {
  const { x } = middle(box);
  const text = 'A / B';
  return [{ kind: 'text', x, y: box.y + 7.5, text, size: 9, weight: 'bold', anchor: 'middle', ink: INK }];
};

const upSample = (box: PageBox): Shape[] => {
  const { x, y } = middle(box);
  return [
    {
      kind: 'polygon',
      points: [
        [x, y - 3],
        [x + 3.7, y + 3],
        [x - 3.7, y + 3],
      ],
      fill: INK,
    },
  ];
};

const arrowSample =
  (bothWays: boolean) =>
  (box: PageBox): Shape[] => {
    const { x, y } = middle(box);
    return [...arrowShapes([x, y], [1, 0], box.width - 2, bothWays).shapes].map((shape) =>
      moved(shape, 0, 0),
    );
  };

const matchSample = (box: PageBox): Shape[] => {
  const { x, y } = middle(box);
  return [
    {
      kind: 'polygon',
      points: [
        [x, y - 4],
        [x + 4, y],
        [x, y + 4],
        [x - 4, y],
      ],
      fill: PAPER,
      stroke: { width: 1, ink: INK },
    },
  ];
};
