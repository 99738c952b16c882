import { describe, expect, it } from 'vitest';
import type { Cloth } from '../../src/model/cloth.ts';
import type { LengthPlan } from '../../src/model/cut-plan.ts';
import type { QuarterTurns } from '../../src/model/cut-tree.ts';
import type { Block } from '../../src/rendering/marker/row.ts';
import { drawRow } from '../../src/rendering/marker/row.ts';
import type { PageBox, Point, Shape } from '../../src/rendering/marker/shapes.ts';
import { drawMarker, type Marker } from '../../src/rendering/marker.ts';
import { TICKS_PER_INCH, ticks } from '../../src/units/ticks.ts';
import { boundsOf } from './page-faults.ts';
import {
  clothOf,
  cut,
  cutPlanOf,
  flat,
  foldedBedroom,
  inches,
  longCurtains,
  piece,
  remnant,
  wanted,
} from './sample-plans.ts';

/** Ten points to the inch of cloth, so that places are read off at a glance. */
const SCALE = 10 / TICKS_PER_INCH;

const draw = (marker: Marker, runs: 'up' | 'right'): Block => {
  const length = marker.lengths[0]!;
  const { y0: from, y1: to } = length.shown;
  return drawRow({ marker, length, from, to, runs, pointsPerTick: SCALE, id: 'row-1' });
};

const withRole = (block: Block, role: string): Shape[] => block.shapes.filter((shape) => shape.role === role);

const rectOf = (block: Block, role: string): PageBox => {
  const [found] = withRole(block, role);
  if (found?.kind !== 'rect') throw new Error(`no ${role}`);
  return found;
};

/** Places in inches from the upper left of the cloth as it is drawn. */
const inInches = (block: Block, [x, y]: Point): Point => {
  const ground = rectOf(block, 'ground');
  return [round((x - ground.x) / 10), round((y - ground.y) / 10)];
};

const round = (value: number) => Math.round(value * 1e6) / 1e6;

/** One piece of 12 × 8 in with a seam of 1/2 in, cut from the near left corner of 20 in of a cloth 16 in wide. */
function onePiece(
  quarterTurns: QuarterTurns,
  cloth: Partial<Cloth> = {},
  lay: LengthPlan['lay'] = { kind: 'flat' },
) {
  const own = clothOf({ name: 'foam', width: inches(16), ...cloth });
  const draft = {
    letter: 'A',
    name: 'pad',
    order: 'perch pads',
    cloth: own.name,
    copies: 1,
    seam: inches(0.5),
  };
  const pad = wanted({ ...draft, width: inches(12), length: inches(8) });
  const [across, along] = quarterTurns % 2 === 0 ? [12, 8] : [8, 12];
  const row = cut('lengthwise', [inches(across), piece(pad.id, quarterTurns)], ['rest', remnant]);
  const tree = cut('crosscut', [inches(along), row], ['rest', remnant]);
  const length = { ...flat(inches(16), inches(20), tree), lay };
  const plan = cutPlanOf({
    name: 'The Tern House: terrace',
    unit: 'in',
    paper: 'letter',
    cloths: [own],
    pieces: [pad],
    lengths: { [own.name]: [length] },
  });
  return drawMarker(plan, own.name);
}

describe('drawRow', () => {
  it('lays the length to the right or upwards, and mirrors neither', () => {
    const right = draw(onePiece(0), 'right');
    const up = draw(onePiece(0), 'up');
    const size = (block: Block, role: string) => {
      const { x, y, width, height } = rectOf(block, role);
      const [left, top] = inInches(block, [x, y]);
      return [left, top, round(width / 10), round(height / 10)];
    };
    expect(size(right, 'ground')).toEqual([0, 0, 20, 16]);
    expect(size(up, 'ground')).toEqual([0, 0, 16, 20]);
    // Near and left is the upper left corner with the length to the right, the lower left one with it upwards.
    expect(size(right, 'piece')).toEqual([0, 0, 8, 12]);
    expect(size(up, 'piece')).toEqual([0, 12, 12, 8]);
  });

  it.each([
    [0, [6, 12]],
    [1, [0, 14]],
    [2, [6, 20]],
    [3, [8, 14]],
  ] as const)('marks the top of a piece turned by %i quarters', (turns, middleOfTop) => {
    const block = draw(onePiece(turns), 'up');
    const [mark] = withRole(block, 'up');
    if (mark?.kind !== 'polygon') throw new Error('no mark');
    const [x, y] = inInches(block, mark.points[0]!);
    expect(Math.hypot(x - middleOfTop[0], y - middleOfTop[1])).toBeLessThan(0.2);
  });

  it('draws the seam lines of a turned piece inside it', () => {
    const block = draw(onePiece(1), 'up');
    const [seams] = withRole(block, 'seam');
    if (seams?.kind !== 'lines') throw new Error('no seams');
    const drawn = seams.segments.map(([a, b, c, d]) => [
      ...inInches(block, [a, b]),
      ...inInches(block, [c, d]),
    ]);
    // The piece lies from 0 to 8 in across and from 8 to 20 in down; half an inch inside each edge.
    expect(drawn.map((line) => line.map(Number))).toEqual(
      expect.arrayContaining([
        [0, 19.5, 8, 19.5],
        [0, 8.5, 8, 8.5],
        [7.5, 20, 7.5, 8],
        [0.5, 20, 0.5, 8],
      ]),
    );
    expect(drawn).toHaveLength(4);
  });

  it.each([
    ['one-way', 'along', 'up', [0, -1]],
    ['one-way', 'along', 'right', [1, 0]],
    ['nap', 'across', 'up', [-1, 0]],
    ['one-way', 'across', 'right', [0, -1]],
  ] as const)('points where a %s %s runs, the length %s', (direction, printRuns, runs, way) => {
    const block = draw(onePiece(printRuns === 'along' ? 0 : 1, { direction, printRuns }), runs);
    const arrows = withRole(block, 'print-up');
    expect(arrows.length).toBeGreaterThan(0);
    expect(withRole(block, 'grain')).toEqual([]);
    for (const arrow of arrows) {
      if (arrow.kind !== 'lines') throw new Error('no arrow');
      const [x0, y0, x1, y1] = arrow.segments[0]!;
      expect([Math.sign(round(x1 - x0)), Math.sign(round(y1 - y0))].map((sign) => sign + 0)).toEqual(way);
    }
  });

  it('shows the grain both ways on cloth without a direction', () => {
    const block = draw(onePiece(0), 'up');
    expect(withRole(block, 'print-up')).toEqual([]);
    expect(withRole(block, 'grain').length).toBeGreaterThan(0);
    expect(withRole(block, 'arrow-head').length).toBe(2 * withRole(block, 'grain').length);
  });

  it('measures a cut that crosses the cloth from the start, and one along it from the left edge', () => {
    const block = draw(onePiece(0), 'up');
    const measures = withRole(block, 'cut-measure').map((shape) => shape.kind === 'text' && shape.text);
    expect(measures.toSorted()).toEqual(['12', '8']);
  });

  it('lays a fold along the left edge, and measures from it', () => {
    const block = draw(drawMarker(foldedBedroom(), 'dune twill'), 'up');
    const [fold] = withRole(block, 'fold-edge');
    if (fold?.kind !== 'lines') throw new Error('no fold');
    const ground = rectOf(block, 'ground');
    const [x0, y0, x1, y1] = fold.segments[0]!;
    expect([x0, x1]).toEqual([ground.x, ground.x]);
    expect(Math.abs(y1 - y0)).toBeCloseTo(ground.height, 6);
    expect(ground.width).toBeCloseTo((69 / 2.54) * 10, 6);
    expect(withRole(block, 'edge-word').map((shape) => shape.kind === 'text' && shape.text)).toContain(
      'fold',
    );
  });

  it('marks where a parted length goes on, at the same places across in both rows', () => {
    const marker = drawMarker(longCurtains(), 'heron damask');
    const length = marker.lengths[0]!;
    const request = { marker, length, runs: 'right', pointsPerTick: SCALE / 2 } as const;
    const before = drawRow({ ...request, from: ticks(0), to: inches(127), id: 'row-1' });
    const after = drawRow({ ...request, from: inches(127), to: inches(288), id: 'row-2' });
    const across = (block: Block) => {
      const ground = rectOf(block, 'ground');
      return withRole(block, 'match-mark').map((mark) => {
        const { y, height } = boundsOf(mark);
        return round(y + height / 2 - ground.y);
      });
    };
    expect(across(before)).toHaveLength(2);
    expect(across(after)).toEqual(across(before));
    expect(withRole(before, 'broken-edge')).toHaveLength(1);
    // Cuts are measured from the start of the length in every row: 1/2 in and four drops of 63 1/4 in.
    const measures = withRole(after, 'cut-measure').map((shape) => shape.kind === 'text' && shape.text);
    expect(measures).toContain('253½');
    const heading = withRole(after, 'row-heading').map((shape) => shape.kind === 'text' && shape.text);
    expect(heading.join(' ').replaceAll('\u00a0', ' ')).toContain('length 127 to 288 in');
  });
});
