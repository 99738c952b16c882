import { describe, expect, it } from 'vitest';
import { walk } from '../../src/geometry/walk.ts';
import type { CutPlan } from '../../src/model/cut-plan.ts';
import type { Box } from '../../src/model/piece.ts';
import { cuttingSteps } from '../../src/planning/steps.ts';
import { stretches } from '../../src/rendering/marker/rows.ts';
import { turnBox, turnSegment, upSide } from '../../src/rendering/marker/turns.ts';
import { drawMarker } from '../../src/rendering/marker.ts';
import { ticks } from '../../src/units/ticks.ts';
import {
  breakfastRoom,
  clothOf,
  cm,
  cut,
  cutPlanOf,
  flat,
  foldedBedroom,
  inches,
  longCurtains,
  piece,
  SAMPLES,
  wanted,
} from './sample-plans.ts';

const box = (x0: number, y0: number, x1: number, y1: number) => ({
  x0: ticks(x0),
  y0: ticks(y0),
  x1: ticks(x1),
  y1: ticks(y1),
});

const lengthsOf = (plan: CutPlan) =>
  plan.cloths.flatMap((clothPlan) => {
    const marker = drawMarker(plan, clothPlan.cloth);
    return clothPlan.lengths.map((length, index) => ({ length, drawn: marker.lengths[index]! }));
  });

const overlaps = (one: Box, other: Box): boolean =>
  one.x0 < other.x1 && other.x0 < one.x1 && one.y0 < other.y1 && other.y0 < one.y1;

describe('drawMarker', () => {
  it.each(Object.entries(SAMPLES))('places every leaf of %s where the walk does', (_, make) => {
    for (const { length, drawn } of lengthsOf(make())) {
      const half = length.lay.kind === 'folded' ? length.lay.foldAt : 0;
      const leaves = walk(length.tree, length.width, length.length).leaves.filter(
        ({ box }) => box.x0 >= half,
      );
      const pieces = leaves.filter(({ leaf }) => leaf.kind === 'piece');
      const others = leaves.filter(({ leaf }) => leaf.kind !== 'piece');
      expect(drawn.pieces.map((own) => own.box)).toEqual(pieces.map((own) => own.box));
      expect(drawn.pieces.map((own) => own.kind.piece.id)).toEqual(
        pieces.map(({ leaf }) => leaf.kind === 'piece' && leaf.piece),
      );
      const kept = drawn.leftovers.filter(({ kind }) => kind === 'remnant').map((own) => own.box);
      const isIn = (one: Box, whole: Box) =>
        one.x0 >= whole.x0 && one.x1 <= whole.x1 && one.y0 >= whole.y0 && one.y1 <= whole.y1;
      // A remnant has grown over what still hangs on to it; all else is drawn as it is walked.
      for (const { leaf, box } of others) {
        if (leaf.kind === 'remnant') expect(kept.filter((own) => isIn(box, own))).toHaveLength(1);
      }
      const apart = others.filter(
        ({ leaf, box }) =>
          leaf.kind === 'trim' || (leaf.kind === 'scrap' && !kept.some((own) => isIn(box, own))),
      );
      const rest = drawn.leftovers.filter(({ kind }) => kind !== 'remnant');
      expect(rest.map((own) => own.box)).toEqual(apart.map((own) => own.box));
      for (const own of kept) expect(pieces.some((piece) => overlaps(own, piece.box))).toBe(false);
      expect(drawn.shown).toEqual(box(half, 0, length.width, length.length));
    }
  });

  it.each(Object.entries(SAMPLES))('draws every cut of the steps of %s under its number', (_, make) => {
    const plan = make();
    for (const { length, drawn } of lengthsOf(plan)) {
      const steps = cuttingSteps(length, plan.plan.tools);
      const lines = steps.flatMap(({ number, lines }) => lines.map((line) => ({ number, ...line })));
      expect(drawn.cuts.map(({ step, x0, y0, x1, y1 }) => ({ number: step, x0, y0, x1, y1 }))).toEqual(lines);
      expect(lines.length).toBeGreaterThan(0);
    }
  });

  it('counts a folded lay double, and its spare', () => {
    const kinds = drawMarker(foldedBedroom(), 'dune twill').kinds;
    const counts = kinds.map(({ piece, copies, drawn, surplus }) => [piece.name, copies, drawn, surplus]);
    expect(counts).toEqual([
      ['front panel', 6, 3, 0],
      ['flap', 6, 3, 0],
      ['tie', 12, 6, 1],
    ]);
  });

  it('names the piece of the lower ply where it is another', () => {
    const cloth = clothOf({ name: 'tide wool', width: inches(20), lay: 'folded' });
    const draft = { order: 'hot pads', cloth: cloth.name, width: inches(9), length: inches(7), copies: 1 };
    const pieces = [
      wanted({ ...draft, letter: 'A', name: 'face', seam: inches(0.5) }),
      wanted({ ...draft, letter: 'B', name: 'lining', seam: inches(0.25) }),
    ];
    const [face, lining] = pieces.map(({ id }) => piece(id)) as [never, never];
    const scrapOf = { kind: 'scrap' } as const;
    const side = (tree: never, mirrored: boolean) => {
      const parts = [[inches(9), tree] as const, [inches(1), scrapOf] as const];
      return cut('lengthwise', ...(mirrored ? parts.toReversed() : parts));
    };
    const tree = cut('lengthwise', [inches(10), side(lining, true)], ['rest', side(face, false)]);
    const length = {
      ...flat(inches(20), inches(7), tree),
      lay: { kind: 'folded' as const, foldAt: inches(10) },
    };
    const plan = cutPlanOf({
      name: 'The Tern House: kitchen',
      unit: 'in',
      paper: 'letter',
      cloths: [cloth],
      pieces,
      lengths: { [cloth.name]: [length] },
    });
    const [only] = drawMarker(plan, cloth.name).lengths[0]!.pieces;
    expect([only!.kind.piece.name, only!.under?.piece.name]).toEqual(['face', 'lining']);
  });

  it('shows the bolt fold midway between the outer edges', () => {
    const marker = drawMarker(breakfastRoom(), 'sea-grass linen');
    expect(marker.lengths[0]!.crease).toBe(inches(26));
    expect(drawMarker(breakfastRoom(), 'gull dot cotton').lengths[0]!.crease).toBeUndefined();
  });

  it('refuses a cloth that nothing is cut from', () => {
    expect(() => drawMarker(breakfastRoom(), 'velvet')).toThrow('nothing from a cloth named "velvet"');
  });
});

describe('turns', () => {
  // A piece 30 across and 50 up whose lower left corner lies at (1000, 2000); a box 2..7 across and 11..24 up in it.
  const size = { width: ticks(30), length: ticks(50) };
  const at = { x0: ticks(1000), y0: ticks(2000) };
  const inner = box(2, 11, 7, 24);
  it.each([
    [0, 'far', box(1002, 2011, 1007, 2024)],
    [1, 'left', box(1026, 2002, 1039, 2007)],
    [2, 'near', box(1023, 2026, 1028, 2039)],
    [3, 'right', box(1011, 2023, 1024, 2028)],
  ] as const)(
    'places the inside of a piece turned by %i quarters, its top to the %s',
    (quarterTurns, side, placed) => {
      expect(turnBox(inner, { size, quarterTurns, at })).toEqual(placed);
      expect(upSide(quarterTurns)).toBe(side);
    },
  );

  it('keeps the ends of a line in order', () => {
    const line = turnSegment(box(0, 11, 30, 11), { size, quarterTurns: 1, at });
    expect(line).toEqual(box(1039, 2000, 1039, 2030));
  });
});

describe('stretches', () => {
  it('parts a long length at cuts right across it, where it has them', () => {
    const [length] = drawMarker(longCurtains(), 'heron damask').lengths;
    // Half an inch squared off, then two drops of 63 1/4 in.
    expect(stretches(length!, inches(170), inches(1))).toEqual([
      { from: 0, to: inches(127) },
      { from: inches(127), to: inches(288) },
    ]);
  });

  it('parts as few pieces as it can where something lies across every cut', () => {
    const [length] = drawMarker(foldedBedroom(), 'dune twill').lengths;
    // At 153.6 cm a panel ends and one tie lies across; at 157.5 and at 189 cm a tie ends and one panel lies across.
    expect(stretches(length!, cm(200), cm(1))[0]).toEqual({ from: 0, to: cm(189) });
    expect(stretches(length!, cm(156), cm(1))[0]).toEqual({ from: 0, to: cm(153.6) });
  });

  it('stops short where that parts fewer', () => {
    const [length] = drawMarker(breakfastRoom(), 'pebble stripe').lengths;
    // Fronts end at 18 1/2 in; at 36 and at 53 1/2 in others end beside a runner that lies across.
    expect(stretches(length!, inches(54), inches(1))[0]).toEqual({ from: 0, to: inches(18.5) });
  });

  it('goes on a whole mark where no piece ends within reach, and covers all of the length', () => {
    const [length] = drawMarker(longCurtains(), 'heron damask').lengths;
    const parts = stretches(length!, inches(40.5), inches(1));
    expect(parts[0]).toEqual({ from: 0, to: inches(40) });
    for (const [index, part] of parts.entries()) {
      expect(part.from).toBe(index === 0 ? 0 : parts[index - 1]!.to);
      expect(part.to - part.from).toBeLessThanOrEqual(inches(40.5));
    }
    expect(parts.at(-1)!.to).toBe(inches(288));
  });
});
