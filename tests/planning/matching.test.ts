import { describe, expect, it } from 'vitest';
import { checkPlan } from '../../src/check/check-plan.ts';
import { walk } from '../../src/geometry/walk.ts';
import { expandMakes } from '../../src/makes/expand.ts';
import type { Cloth } from '../../src/model/cloth.ts';
import type { CutPlan } from '../../src/model/cut-plan.ts';
import type { Match } from '../../src/model/piece.ts';
import type { LoosePiece } from '../../src/model/plan.ts';
import { compareBuys } from '../../src/planning/compare-buys.ts';
import { makeCutPlan } from '../../src/planning/plan.ts';
import { TICKS_PER_CM, type Ticks, ticks } from '../../src/units/ticks.ts';
import { clothOf, inches, loose, planned, planOf } from './build.ts';

const cm = (count: number): Ticks => ticks(count * TICKS_PER_CM);

function matched(piece: LoosePiece, match: Match): LoosePiece {
  return { ...piece, match };
}

function sound(cloth: Partial<Cloth>, pieces: readonly LoosePiece[], effort = 20_000): CutPlan {
  const cutPlan = planned(planOf([clothOf({ direction: 'one-way', ...cloth })], pieces), effort);
  expect(checkPlan(cutPlan)).toEqual([]);
  return cutPlan;
}

function corners(cutPlan: CutPlan): readonly (readonly [number, number])[] {
  return cutPlan.cloths[0]!.lengths.flatMap((length) =>
    walk(length.tree, length.width, length.length)
      .leaves.filter(({ leaf }) => leaf.kind === 'piece')
      .map(({ box }) => [box.x0, box.y0] as const),
  );
}

describe('pieces that lie in the print in several ways', () => {
  const repeat = { along: inches(16), drop: 'straight' } as const;
  const at = (y: number): Match => ({ kind: 'point', x: inches(9), y: inches(y) });
  const a = matched(loose('a', 19, 18, 1), at(9));
  const b = matched(loose('b', 19, 14, 1), at(12));

  it('are begun for whichever of them takes less, in whatever order they are told', () => {
    for (const pieces of [
      [a, b],
      [b, a],
    ]) {
      const [cloth] = sound({ width: inches(20), repeat }, pieces).cloths;
      // b from 0 to 14 in has its motif at 12, so one of a is at 28, and it lies from 19 to 37: 37 in and a repeat. With a first
      // its motif is at 9, the next that b can have at 41: 43 in and a repeat.
      expect(cloth!.purchase).toMatchObject({ needed: inches(37 + 16), bought: inches(54) });
      expect(cloth!.answer).toBe('best');
      const plan = planOf([clothOf({ direction: 'one-way', width: inches(20), repeat })], pieces);
      const { pieces: wanted } = expandMakes(plan);
      const { buys } = compareBuys(plan, plan.cloths[0]!, wanted, {
        pack: { effort: 4000, seed: 1 },
        rungs: 1,
      })!;
      expect(buys.map(({ bought, sets }) => [bought, sets])).toEqual([[inches(54), 1]]);
    }
  });

  it('are not proven to need what only this way to begin them does', () => {
    // Two drops that are only to be like each other may begin where a ends: 18 to 36 in and 50 to 68 in. Laid on one
    // lattice with it they begin at 32 and 64 in, and end at 82 in.
    const drops = matched(loose('drop', 19, 18, 2), { kind: 'drops' });
    const [cloth] = sound({ width: inches(20), repeat }, [a, drops]).cloths;
    expect(cloth!.bound!).toBeLessThanOrEqual(inches(68 + 16));
  });

  it('beside a length that was measured, need no more bought than what is bought needs by itself', () => {
    const top = matched(loose('top', 19, 18, 4), at(9));
    const measured = {
      name: 'washed length',
      length: inches(41),
      copies: 1,
      width: inches(20),
      selvedge: { left: ticks(0), right: ticks(0) },
      crease: { kind: 'none' },
      firstMotif: inches(4),
    } as const;
    const along = { along: inches(9), drop: 'straight' } as const;
    const [cloth] = sound({ width: inches(20), repeat: along, inHand: [measured] }, [top]).cloths;
    // Its motifs are at 4, 13, 22 and 31 in, so two lie from 4 to 40 in; two more take 36 in, and a repeat of 9: 1 1/4 yd.
    expect(cloth!.purchase).toMatchObject({ needed: inches(45), bought: inches(45) });
    expect(cloth!.answer).toBe('best');
  });
});

describe('drops at one height of the repeat', () => {
  // Rule: patterned drop = ceil(drop ÷ repeat) × repeat (Encyclopaedia of Curtains, handbook, pp. 116-117, extract read);
  // the last drop needs only its plain length (arithmetic; common practice, no published source).
  it.each([
    [
      '114 in drops, 11 in repeat: 121 in each (workroom page read)',
      inches(114),
      inches(11),
      4,
      inches(3 * 121 + 114),
    ],
    ['240 cm drops, 37 cm repeat: 259 cm each (supplier sheet read)', cm(240), cm(37), 4, cm(3 * 259 + 240)],
    [
      'two drops of 100 in, 26 in repeat: 104 + 100 = 204 in (derived)',
      inches(100),
      inches(26),
      2,
      inches(204),
    ],
  ])('%s', (_, drop, repeat, count, needed) => {
    const cloth = { width: inches(54), repeat: { along: repeat, drop: 'straight' } } as const;
    const piece = { ...loose('drop', 50, 1, count), size: { width: inches(50), length: drop } };
    const plan = sound({ ...cloth, buy: { step: ticks(1) } }, [matched(piece, { kind: 'drops' })]);
    // Cut sizes are first rounded up to eighths of an inch, which only the metric drop notices.
    const rounding = plan.pieces[0]!.size.length - drop;
    expect(plan.cloths[0]!.purchase!.needed).toBe(needed + rounding);
    expect(plan.cloths[0]!.matchingCosts).toBeGreaterThan(0);
  });
});

describe('a motif in the centre', () => {
  const repeat = { along: inches(15), across: inches(13), fromEdge: inches(7), drop: 'straight' } as const;
  const front = matched(loose('front', 17, 17, 3), { kind: 'centre' });

  it('lies on a motif of the print, and a buy is reckoned for the worst start', () => {
    const plan = sound({ width: inches(54), selvedge: { left: inches(0.5), right: inches(0.5) }, repeat }, [
      front,
    ]);
    const places = corners(plan);
    expect(places).toHaveLength(3);
    for (const [x, y] of places) {
      expect((x + inches(8.5) - inches(7)) % inches(13)).toBe(0);
      expect((y - places[0]![1]) % inches(15)).toBe(0);
    }
    // By hand: motifs lie at 7, 20, 33 and 46 in. A front takes 8 1/2 in to either side, so 7 and 46 are too near the
    // edges, and 20 and 33 too near each other: one front a row. Rows of 17 in start two repeats, 30 in, apart:
    // 2 × 30 + 17 = 77 in, and 15 in more for the worst start.
    expect(plan.cloths[0]!.purchase!.needed).toBe(inches(77 + 15));
  });

  it('starts at the motif that was measured on a length in hand', () => {
    const edges = {
      width: inches(54),
      selvedge: { left: ticks(0), right: ticks(0) },
      crease: { kind: 'none' },
    } as const;
    const { buy: _, ...cloth } = clothOf({
      direction: 'one-way',
      repeat,
      inHand: [{ name: 'end', length: inches(70), copies: 1, firstMotif: inches(4.25), ...edges }],
    });
    const plan = planned(planOf([cloth], [{ ...front, count: 2 }]), 20_000);
    expect(checkPlan(plan)).toEqual([]);
    for (const [, y] of corners(plan)) expect((y + inches(8.5) - inches(4.25)) % inches(15)).toBe(0);
  });

  it('is caught by the checker one tick off, or on the wrong start', () => {
    const plan = sound({ width: inches(54), repeat }, [front]);
    const repeatOff = {
      ...plan.plan.cloths[0]!,
      repeat: { ...repeat, fromEdge: ticks(repeat.fromEdge + 1) },
    };
    const off = { ...plan, plan: { ...plan.plan, cloths: [repeatOff] } };
    expect(checkPlan(off).map((fault) => fault.code)).toContain('match-missed');
    const otherRepeat = { ...plan.plan.cloths[0]!, repeat: { ...repeat, along: ticks(repeat.along + 1) } };
    const drifted = { ...plan, plan: { ...plan.plan, cloths: [otherRepeat] } };
    expect(checkPlan(drifted).map((fault) => fault.code)).toContain('match-missed');
  });

  it('is refused by name where no motif lies far enough from the edges, and only there', () => {
    const near = { along: inches(13.5), across: inches(10), fromEdge: inches(4), drop: 'straight' } as const;
    const edges = { width: inches(18), selvedge: { left: ticks(0), right: ticks(0) } };
    const told = (piece: LoosePiece, cloth: Partial<Cloth> = {}) =>
      makeCutPlan(planOf([clothOf({ direction: 'one-way', ...edges, repeat: near, ...cloth })], [piece]), {
        effort: 500,
        seed: 1,
      }).issues.map((issue) => [issue.code, issue.path]);
    // Motifs lie 4 and 14 in from the edge; 17 in around one of them would reach over it.
    const refused = [['motif-near-edge', ['cloths', 'gull grey']]];
    expect(told({ ...front, count: 2 })).toEqual(refused);
    expect(told(matched(loose('front', 17, 17, 2), { kind: 'alike' }))).toEqual([]);
    expect(told(matched(loose('front', 8, 17, 2), { kind: 'centre' }))).toEqual([]);
    // 8 1/2 in to either side of 9 in leave the crease no room.
    const middle = { ...near, fromEdge: inches(9) };
    expect(told({ ...front, count: 2 }, { repeat: middle })).toEqual([]);
    const crease = { kind: 'keep-off', each: inches(0.5) } as const;
    expect(told(matched(loose('front', 8, 17, 2), { kind: 'centre' }), { repeat: middle, crease })).toEqual(
      refused,
    );
  });

  it('needs to know where motifs lie, and a flat lay', () => {
    const faults = (cloth: Partial<Cloth>) =>
      makeCutPlan(planOf([clothOf({ direction: 'one-way', ...cloth })], [front]), {
        effort: 500,
        seed: 1,
      }).issues.map((issue) => issue.code);
    expect(faults({})).toEqual(['match-without-repeat']);
    expect(faults({ repeat: { across: inches(13), drop: 'straight' } })).toEqual(['match-without-repeat']);
    expect(faults({ repeat, lay: 'folded' })).toEqual(['match-in-fold']);
  });
});

describe('a half drop', () => {
  // Every second column starts half a repeat higher (common practice, no published source; by hand from there).
  const repeat = { along: inches(13.5), across: inches(18), fromEdge: inches(9), drop: 'half' } as const;
  const edges = { width: inches(45), selvedge: { left: ticks(0), right: ticks(0) } };
  const front = (match: Match) => matched(loose('front', 17, 17, 2), match);

  it('is cut from columns of both heights, with no more cloth than that takes', () => {
    // Motifs lie 9 and 27 in from the edge, the second 6 3/4 in higher: fronts of 17 in lie beside each other there, and
    // 17 + 6 3/4 in hold both. One above the other in one column they would take 27 + 17 in.
    const centred = sound({ ...edges, repeat }, [front({ kind: 'centre' })]);
    expect(centred.cloths[0]!.purchase!.needed).toBe(inches(17 + 6.75 + 13.5));
    expect(centred.cloths[0]!.answer).toBe('best');
    expect(new Set(corners(centred).map(([x]) => x))).toEqual(new Set([inches(0.5), inches(18.5)]));
    const alike = sound({ ...edges, repeat }, [front({ kind: 'alike' })]);
    expect(alike.cloths[0]!.purchase!.needed).toBe(inches(17 + 6.75));
  });

  it('is caught by the checker where a column is taken for one of the other height', () => {
    const plan = sound({ ...edges, repeat }, [front({ kind: 'centre' })]);
    for (const other of [{ drop: 'straight' }, { along: ticks(repeat.along + 2) }] as const) {
      const cloth = { ...plan.plan.cloths[0]!, repeat: { ...repeat, ...other } };
      const faults = checkPlan({ ...plan, plan: { ...plan.plan, cloths: [cloth] } });
      expect(faults.map(({ code }) => code)).toContain('match-missed');
    }
  });

  it('of an odd number of ticks has its other columns too, a tick nearer', () => {
    const odd = { ...repeat, along: ticks(repeat.along + 1) };
    const centred = sound({ ...edges, repeat: odd }, [front({ kind: 'centre' })]);
    expect(centred.cloths[0]!.purchase!.needed).toBe(inches(17 + 6.75 + 13.5));
  });

  it('washed to an odd number of ticks still has its other columns', () => {
    const washing = {
      along: { numerator: 1, denominator: repeat.along },
      across: { numerator: 0, denominator: 1 },
      washed: 'before-cutting',
    } as const;
    const plan = sound({ ...edges, repeat, washing }, [front({ kind: 'alike' })]);
    const [low, high] = corners(plan)
      .map(([, y]) => y)
      .sort((a, b) => a - b);
    expect(high! - low!).toBe((repeat.along - 2) / 2);
  });
});

describe('pieces alike', () => {
  it('take the same place in the repeat as their fellows, wherever that is', () => {
    const repeat = { along: inches(9), across: inches(11), drop: 'straight' } as const;
    const plan = sound({ width: inches(45), repeat }, [matched(loose('back', 10, 8, 7), { kind: 'alike' })]);
    const [[x0, y0], ...rest] = corners(plan) as [
      readonly [number, number],
      ...(readonly [number, number])[],
    ];
    for (const [x, y] of rest) {
      expect((x - x0) % inches(11)).toBe(0);
      expect((y - y0) % inches(9)).toBe(0);
    }
    // Four columns of 11 in, two rows: 9 + 8 in.
    expect(plan.cloths[0]!.purchase!.needed).toBe(inches(17));
  });
});

describe('washed print', () => {
  it('shrinks with the cloth', () => {
    const washing = {
      along: { numerator: 1, denominator: 10 },
      across: { numerator: 0, denominator: 1 },
      washed: 'before-cutting',
    } as const;
    const piece = matched(loose('drop', 50, 10, 3), { kind: 'drops' });
    const plan = sound(
      { washing, repeat: { along: inches(10), drop: 'straight' }, buy: { step: ticks(1) } },
      [piece],
    );
    // The repeat is 9 in when washed: drops of 10 in start 18 in apart; 46 in on the table are 51.1 in at the shop.
    expect(plan.cloths[0]!.purchase!.needed).toBe(Math.ceil((inches(46) * 10) / 9));
  });
});
