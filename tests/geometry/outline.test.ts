import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Corner, coverBoxes, isSimpleOutline } from '../../src/geometry/outline.ts';

const corner = ([x, y]: readonly [number, number]): Corner => ({ x, y });

function covers(boxes: ReturnType<typeof coverBoxes>, { x, y }: Corner): boolean {
  return boxes.some((box) => x >= box.x0 && x <= box.x1 && y >= box.y0 && y <= box.y1);
}

describe('cover of an outline', () => {
  it('is exact where all edges run along the axes', () => {
    const step = [
      [2, 3],
      [11, 3],
      [11, 7],
      [6, 7],
      [6, 12],
      [2, 12],
    ] as const;
    expect(coverBoxes(step.map(corner))).toEqual([
      { x0: 2, y0: 3, x1: 11, y1: 7 },
      { x0: 2, y0: 7, x1: 6, y1: 12 },
    ]);
    expect(
      coverBoxes(
        [
          [5, 1],
          [9, 1],
          [9, 8],
          [5, 8],
        ].map((at) => corner(at as [number, number])),
      ),
    ).toEqual([{ x0: 5, y0: 1, x1: 9, y1: 8 }]);
  });

  it('follows a slant from outside, and wastes little', () => {
    const triangle = [
      [0, 0],
      [1200, 0],
      [0, 900],
    ].map((at) => corner(at as [number, number]));
    const boxes = coverBoxes(triangle);
    expect(boxes.length).toBeLessThanOrEqual(12);
    const area = boxes.reduce((sum, box) => sum + (box.x1 - box.x0) * (box.y1 - box.y0), 0);
    expect(area).toBeGreaterThanOrEqual((1200 * 900) / 2);
    expect(area).toBeLessThan(1.1 * ((1200 * 900) / 2));
  });

  it('covers every point of any triangle', () => {
    const at = fc.tuple(fc.integer({ min: 0, max: 5000 }), fc.integer({ min: 0, max: 5000 }));
    let simple = 0;
    fc.assert(
      fc.property(
        at,
        at,
        at,
        fc.integer({ min: 0, max: 20 }),
        fc.integer({ min: 0, max: 20 }),
        (a, b, c, s, t) => {
          const outline = [a, b, c].map(corner);
          if (!isSimpleOutline(outline)) return;
          simple += 1;
          const [u, v] = s + t > 20 ? [20 - s, 20 - t] : [s, t];
          const point = {
            x: a[0] + ((b[0] - a[0]) * u + (c[0] - a[0]) * v) / 20,
            y: a[1] + ((b[1] - a[1]) * u + (c[1] - a[1]) * v) / 20,
          };
          expect(covers(coverBoxes(outline), point)).toBe(true);
        },
      ),
      { seed: 3, numRuns: 200 },
    );
    expect(simple).toBeGreaterThan(150);
  });
});

describe('an outline', () => {
  it.each([
    [
      'a bow tie crosses itself',
      [
        [0, 0],
        [9, 7],
        [9, 0],
        [0, 7],
      ],
    ],
    [
      'a line bounds nothing',
      [
        [0, 0],
        [4, 4],
        [9, 9],
      ],
    ],
    [
      'two corners are too few',
      [
        [0, 0],
        [5, 3],
      ],
    ],
    [
      'a corner lies on another edge',
      [
        [0, 0],
        [10, 0],
        [10, 8],
        [5, 0],
        [0, 8],
      ],
    ],
    [
      'a corner is given twice',
      [
        [0, 0],
        [6, 0],
        [6, 5],
        [6, 0],
        [0, 5],
      ],
    ],
  ])('%s', (_, outline) => {
    expect(isSimpleOutline(outline.map((at) => corner(at as [number, number])))).toBe(false);
  });

  it('may turn inwards', () => {
    const arrow = [
      [0, 0],
      [8, 4],
      [0, 9],
      [3, 4],
    ].map((at) => corner(at as [number, number]));
    expect(isSimpleOutline(arrow)).toBe(true);
    expect(isSimpleOutline([...arrow].reverse())).toBe(true);
  });
});
