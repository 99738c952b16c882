import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import published from '../../fixtures/published/trade/makes.json' with { type: 'json' };
import {
  allAround,
  cutRectangle,
  cutSize,
  type Edge,
  hemmed,
  join,
  raw,
  seam,
  takenBy,
} from '../../src/makes/edges.ts';
import { quarterTurned } from '../../src/makes/turned.ts';
import { TICKS_PER_INCH, ticks } from '../../src/units/ticks.ts';
import { inches } from './support.ts';

// School models: M. McGlauflin, Handicraft for Girls (1910), read in the full text (Gutenberg 34854).
const school = published['hem-school-1910'].values;

describe('school models of 1910', () => {
  const hem = ([under, visible]: readonly number[]): Edge =>
    hemmed({ visible: inches(visible), under: inches(under) });

  test('towel: side hems of 1/4 and 1/4 in, end hems of 1/4 and 1 in', () => {
    const finished = { width: inches(14), length: inches(27) };
    const [side, end] = [hem(school.towel_side_in), hem(school.towel_end_in)];
    expect(cutSize(finished, { left: side, right: side, top: end, bottom: end })).toEqual({
      width: inches(14 + 2 * 0.5),
      length: inches(27 + 2 * 1.25),
    });
  });

  test('bag: seams of 1/4 in, a hem of 1 in at the top', () => {
    const finished = { width: inches(9), length: inches(11) };
    const sides = seam(inches(school.bag_seam_in));
    const top = hem([0.25, school.bag_hem_in]);
    expect(cutSize(finished, { left: sides, right: sides, bottom: sides, top })).toEqual({
      width: inches(9.5),
      length: inches(11 + 0.25 + 1.25),
    });
  });
});

const someLength = fc.integer({ min: 0, max: 40 * TICKS_PER_INCH }).map(ticks);
const someEdge: fc.Arbitrary<Edge> = fc.oneof(
  fc.constant(raw),
  someLength.map(seam),
  someLength.map(join),
  fc.record({ visible: someLength, under: someLength }).map(hemmed),
);
const someEdges = fc.record({ bottom: someEdge, top: someEdge, left: someEdge, right: someEdge });
const someSize = fc.record({ width: someLength, length: someLength });

test('finished outline + what the edges take up = exact cut size', () => {
  fc.assert(
    fc.property(someSize, someEdges, (finishedSize, edges) => {
      const { size, finished } = cutRectangle(finishedSize, edges);
      expect(finished.x0).toBe(takenBy(edges.left));
      expect(size.width - finished.x1).toBe(takenBy(edges.right));
      expect(finished.y0).toBe(takenBy(edges.bottom));
      expect(size.length - finished.y1).toBe(takenBy(edges.top));
      expect(finished.x1 - finished.x0).toBe(finishedSize.width);
      expect(finished.y1 - finished.y0).toBe(finishedSize.length);
    }),
  );
});

test('a hem shows its fold at the finished edge and its turn-under nearer the cut edge', () => {
  const hem = { visible: inches(1.25), under: inches(0.375) };
  const { lines } = cutRectangle(
    { width: inches(13), length: inches(8) },
    { bottom: raw, top: raw, left: raw, right: hemmed(hem) },
  );
  const up = { y0: 0, y1: inches(8) };
  expect(lines).toEqual([
    { kind: 'hem-fold', x0: inches(13), x1: inches(13), ...up },
    { kind: 'turn-under', x0: inches(14.25), x1: inches(14.25), ...up },
  ]);
});

test('a hem with nothing turned under is folded once, an edge that takes up nothing has no line', () => {
  const size = { width: inches(13), length: inches(8) };
  const kinds = (edge: Edge) =>
    cutRectangle(size, { ...allAround(raw), top: edge }).lines.map(({ kind }) => kind);
  expect(kinds(hemmed({ visible: inches(1), under: ticks(0) }))).toEqual(['hem-fold']);
  expect(kinds(hemmed({ visible: ticks(0), under: ticks(0) }))).toEqual([]);
  expect(kinds(seam(ticks(0)))).toEqual([]);
  expect(kinds(seam(inches(0.5)))).toEqual(['seam']);
  expect(kinds(join(inches(0.5)))).toEqual(['join']);
});

test('a quarter turn carries edges and folds along; four of them give the piece back', () => {
  fc.assert(
    fc.property(someSize, someEdges, someLength, (finished, edges, inside) => {
      const piece = {
        name: 'case',
        part: 'case',
        perMake: 1,
        grain: 'either',
        finished,
        edges,
        folds: [{ edge: 'top', inside }],
      } as const;
      const turned = quarterTurned(piece);
      const [upright, lying] = [cutSize(finished, edges), cutSize(turned.finished, turned.edges)];
      expect(lying).toEqual({ width: upright.length, length: upright.width });
      expect(turned.edges.right).toBe(edges.top);
      expect(turned.folds).toEqual([{ edge: 'right', inside }]);
      expect(quarterTurned(quarterTurned(quarterTurned(turned)))).toEqual(piece);
    }),
  );
});
