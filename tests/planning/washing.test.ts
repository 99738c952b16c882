import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkPlan } from '../../src/check/check-plan.ts';
import { afterWashing, beforeWashing } from '../../src/cloth/washing.ts';
import { makes } from '../../src/makes/catalogue.ts';
import type { Cloth, Fraction } from '../../src/model/cloth.ts';
import type { CutPlan } from '../../src/model/cut-plan.ts';
import { wordIssue } from '../../src/model/messages.ts';
import { readPlan } from '../../src/model/plan-file.ts';
import { mostBeforeWashing, upAfterWashing, wordLoss } from '../../src/model/shrinkage.ts';
import { makeCutPlan } from '../../src/planning/plan.ts';
import { arithmeticText, planJson } from '../../src/rendering/plan-json.ts';
import { ticks } from '../../src/units/ticks.ts';
import { changed } from '../support/changed.ts';
import { cm, inches } from '../support/plan-parts.ts';

const specs = makes.map((make) => make.spec);

function clothOf(body: string): Cloth {
  const text = `
plan: The linen room
unit: cm
ruler: 1 mm
cloths:
  oat linen: { ${body} }
pieces:
  - { name: band, count: 2, size: 20 x 30, cloth: oat linen }
`;
  const read = readPlan(text, { file: 'linen.yaml', makes: specs });
  if (!read.ok) throw new Error(read.issues.map((issue) => wordIssue(issue, 'cm')).join('\n'));
  return read.value.cloths[0]!;
}

const WASH = 'along: 7 %, across: 3 %, washed: before-cutting';

describe('a measure that was taken on washed cloth', () => {
  it('comes back to the tick, whatever the loss', () => {
    const loss = fc
      .tuple(fc.integer({ min: 1, max: 997 }), fc.integer({ min: 0, max: 500 }))
      .map(([denominator, part]): Fraction => {
        return { numerator: Math.floor((denominator * part) / 1000), denominator };
      });
    fc.assert(
      fc.property(loss, fc.integer({ min: 0, max: 3_000_000 }), (part, own) => {
        const measured = ticks(own);
        expect(afterWashing(beforeWashing(measured, part), part)).toBe(measured);
        expect(upAfterWashing(mostBeforeWashing(measured, part), part)).toBe(measured);
      }),
    );
  });

  it.each([
    ['width', 'width: 133, selvedge: 1, buy: yes', (cloth: Cloth) => cloth.width, 133, 'across'],
    ['repeat', 'width: 140, selvedge: 1, repeat: { along: 31.7 }, buy: yes', alongOf, 31.7, 'along'],
    [
      'repeat',
      'width: 140, selvedge: 1, repeat: { across: 22.9, from edge: 11.3 }, buy: yes',
      acrossOf,
      22.9,
      'across',
    ],
    [
      'repeat',
      'width: 140, selvedge: 1, repeat: { across: 22.9, from edge: 11.3 }, buy: yes',
      edgeOf,
      11.3,
      'across',
    ],
  ] as const)('%s, as %s', (what, body, measureOf, measured, way) => {
    const asBought = clothOf(`${body}, washing: { ${WASH} }`);
    const asWashed = clothOf(`${body}, washing: { ${WASH}, measured: { ${what}: after } }`);
    expect(measureOf(asBought)).toBe(cm(measured));
    expect(measureOf(asWashed)).toBe(beforeWashing(cm(measured), asWashed.washing![way]));
    expect(afterWashing(measureOf(asWashed)!, asWashed.washing![way])).toBe(cm(measured));
    const told = clothOf(`${body}, washing: { ${WASH}, measured: { ${what}: before } }`);
    expect(measureOf(told)).toBe(cm(measured));
  });

  it('panels keep their far edges, and how far apart they begin', () => {
    const body =
      'width: 140, selvedge: 1, panels: { every: 61.3, areas: [{ name: gull, from edge: 4.1, from end: 7.7, size: 40.9 x 38.3 }] }, buy: yes';
    const { washing, panels } = clothOf(`${body}, washing: { ${WASH}, measured: { panels: after } }`);
    const { along, across } = washing!;
    const { x, y, width, length } = panels!.areas[0]!;
    expect([afterWashing(x, across), afterWashing(y, along)]).toEqual([cm(4.1), cm(7.7)]);
    expect(upAfterWashing(ticks(x + width), across)).toBe(cm(4.1 + 40.9));
    expect(upAfterWashing(ticks(y + length), along)).toBe(cm(7.7 + 38.3));
    expect(upAfterWashing(panels!.every!, along)).toBe(cm(61.3));
  });
});

const alongOf = (cloth: Cloth) => cloth.repeat!.along!;
const acrossOf = (cloth: Cloth) => cloth.repeat!.across!;
const edgeOf = (cloth: Cloth) => cloth.repeat!.fromEdge!;

describe('strips that are trimmed away', () => {
  const body = 'width: 140, selvedge: { left: 2, right: 0 }, crease: keep off 3, buy: yes';

  it('are as they are trimmed at the table, unless they were measured before the wash', () => {
    const table = clothOf(`${body}, washing: { along: 7 %, across: 10 %, washed: before-cutting }`);
    expect([table.selvedge.left, table.crease]).toEqual([cm(2), { kind: 'keep-off', each: cm(3) }]);
    const shrunk = clothOf(
      `${body}, lengths: [{ length: 90, width: 60, selvedge: 1, crease: none }, { length: 80, width: 50, selvedge: 1, crease: none, washed: yes }], washing: { along: 7 %, across: 10 %, washed: before-cutting, measured: { selvedge: before, crease: before } }`,
    );
    expect([shrunk.selvedge.left, shrunk.selvedge.right]).toEqual([cm(1.8), 0]);
    expect(shrunk.crease).toEqual({ kind: 'keep-off', each: cm(2.7) });
    expect(shrunk.inHand.map(({ selvedge }) => selvedge.left)).toEqual([cm(0.9), cm(1)]);
  });

  it('go up to a mark of the ruler, and never beyond what they were', () => {
    const of = (selvedge: string) =>
      clothOf(
        `width: 140, selvedge: ${selvedge}, buy: yes, washing: { along: 0 %, across: 3 %, washed: before-cutting, measured: { selvedge: before } }`,
      ).selvedge.left;
    expect(of('2')).toBe(cm(2)); // 1.94, up to the millimetre
    expect(of('4')).toBe(cm(3.9)); // 3.88
    expect(of('0.95 mm')).toBe(cm(0.095));
  });
});

describe('a length in hand that is washed already', () => {
  it('keeps the width of the cloth once washed, or its own', () => {
    const lengths =
      'lengths: [{ length: 90, washed: yes }, { length: 80, width: 51, selvedge: 0, washed: yes }, 70]';
    const asBought = clothOf(`width: 140, selvedge: 1, ${lengths}, washing: { ${WASH} }`);
    expect(asBought.inHand.map(({ width, washed }) => [width, washed])).toEqual([
      [afterWashing(cm(140), { numerator: 3, denominator: 100 }), true],
      [cm(51), true],
      [cm(140), undefined],
    ]);
    const asWashed = clothOf(
      `width: 140, selvedge: 1, ${lengths}, washing: { ${WASH}, measured: { width: after } }`,
    );
    expect(asWashed.inHand[0]!.width).toBe(cm(140));
    expect(asWashed.inHand[2]!.width).toBe(asWashed.width);
  });
});

describe('the print of a length that is washed already', () => {
  const planOn = (lengths: string, cloth: string, asks: string): CutPlan => {
    const text = `
plan: The linen room
unit: cm
ruler: 1 mm
cloths:
  print: { width: 140, selvedge: 1, direction: one-way, ${cloth}, lengths: [{ name: old, ${lengths} }], washing: { along: 6 %, across: 4 %, washed: before-cutting } }
pieces:
  - { name: front, count: 2, size: 44 x 44, cloth: print, ${asks} }
`;
    const read = readPlan(text, { file: 'linen.yaml', makes: specs });
    if (!read.ok) throw new Error(read.issues.map((issue) => wordIssue(issue, 'cm')).join('\n'));
    const outcome = makeCutPlan(read.value, { effort: 2_000, seed: 4 });
    if (!outcome.ok) throw new Error(outcome.issues.map((issue) => wordIssue(issue, 'cm')).join('\n'));
    expect(checkPlan(outcome.value)).toEqual([]);
    return outcome.value;
  };
  const fronts = (cutPlan: CutPlan) =>
    planJson(cutPlan).cloths[0]!.lengths[0]!.placed.map(({ x, y }) => [x.ticks, y.ticks]);

  it('has shrunk with it: 32 and 27.5 cm are 30.08 and 26.4 cm, from a motif that was measured on it', () => {
    const repeat = 'repeat: { along: 32, across: 27.5, from edge: 14 }';
    const found = fronts(planOn('length: 150, washed: yes, first motif: 11', repeat, 'match: centre'));
    for (const [x, y] of found) {
      // Motifs lie from 14 × 0.96 cm across and 11 cm along.
      expect((x! + cm(22) - cm(13.44)) % cm(26.4)).toBe(0);
      expect((y! + cm(22) - cm(11)) % cm(30.08)).toBe(0);
    }
    expect(found).toHaveLength(2);
  });

  it('begins its panels where they were seen to begin on it', () => {
    const panels =
      'panels: { every: 60, areas: [{ name: gull, from edge: 10, from end: 5, size: 40 x 40 }] }';
    const cutPlan = planOn('length: 140, washed: yes, panels begin: 9.4', panels, 'panel: gull');
    // 9.4 + 5 × 0.94 cm to 9.4 + 45 × 0.94 cm, in the middle of 44 cm; the next 56.4 cm on.
    expect(fronts(cutPlan).map(([, y]) => y! / cm(1))).toEqual([
      expect.closeTo(9.4 + 25 * 0.94 - 22, 1),
      expect.closeTo(9.4 + 85 * 0.94 - 22, 1),
    ]);
  });
});

describe('cut larger for a wash to come', () => {
  const text = (cloths: string, orders: string) => `
plan: The linen room
unit: in
cloths:
${cloths}
${orders}
`;
  const planned = (written: string): CutPlan => {
    const read = readPlan(written, { file: 'linen.yaml', makes: specs });
    if (!read.ok) throw new Error(read.issues.map((issue) => wordIssue(issue, 'in')).join('\n'));
    const outcome = makeCutPlan(read.value, { effort: 4_000, seed: 4 });
    if (!outcome.ok) throw new Error(outcome.issues.map((issue) => wordIssue(issue, 'in')).join('\n'));
    expect(checkPlan(outcome.value)).toEqual([]);
    return outcome.value;
  };
  const linen = (along: string, across: string, more = '') =>
    `  oat linen: { width: 57, selvedge: 5/8, ${more}buy: yes, washing: { along: ${along}, across: ${across}, washed: after-sewing, cut larger: yes } }`;
  const codes = (cutPlan: CutPlan) => checkPlan(cutPlan).map(({ code }) => code);

  // To have L after a shrinkage s, cut L ÷ (1 − s), not L × (1 + s): 72 in at 10 % is 80 in, and not 79 1/5 in. The
  // formula is that of W. H. Dooley, Textiles (1914), Determination of Shrinkage, solved for the original; AATCC 135 and
  // ISO 5077 define it alike (from memory).
  it.each([
    ['3 %', 72, 74.227],
    ['5 %', 72, 75.789],
    ['10 %', 72, 80],
  ])('a drop that shrinks by %s comes to %i in from %f in', (loss, wanted, cut) => {
    const orders = `pieces: [{ name: drop, count: 1, size: 20 x ${wanted}, cloth: oat linen }]`;
    const [drop] = planned(text(linen(loss, '0 %'), orders)).pieces;
    expect(drop!.exactSize.length / inches(1)).toBeCloseTo(cut, 3);
    // Up to an eighth.
    expect(drop!.size.length).toBe(inches(Math.ceil(cut * 8) / 8));
    expect(drop!.exactSize.width).toBe(inches(20));
    expect(drop!.washesTo).toEqual({ width: inches(20), length: inches(wanted) });
  });

  it('keeps seams and hems as deep as they are sewn, and shows the sum', () => {
    const orders =
      'make: [{ name: napkins, kind: napkin, count: 4, size: 18 x 18, hem: 1/2 + 1/4, cloth: oat linen }]';
    const cutPlan = planned(text(linen('10 %', '10 %'), orders));
    const [napkin] = cutPlan.pieces;
    // 18 ÷ 0.9 = 20, and a hem of 3/4 in on each side.
    expect(napkin!.exactSize).toEqual({ width: inches(21.5), length: inches(21.5) });
    expect(napkin!.grain).toBe('either');
    const sums = cutPlan.makes[0]!.arithmetic.map((line) => arithmeticText(line, cutPlan.plan));
    expect(sums.filter((sum) => sum.includes('wash to come'))).toEqual([
      expect.stringMatching(/, across, for the wash to come: 18 ÷ \(1 − 10 %\) \+ 1 1\/2 up to 21 1\/2$/),
      expect.stringMatching(/, up, for the wash to come: 18 ÷ \(1 − 10 %\) \+ 1 1\/2 up to 21 1\/2$/),
    ]);
    expect(cutPlan.makes[0]!.assembly.at(-1)).toContain('comes to it in the wash');
    expect(planJson(cutPlan).pieces[0]!.washesTo!.shown).toBe('18 x 18 in');
  });

  it('holds pieces one way where the losses differ, and says so', () => {
    const orders = `pieces:
  - { name: mat, count: 2, size: 18 x 27, cloth: oat linen }
  - { name: band, count: 2, size: 18 x 27, cloth: oat linen, grain: crosswise }`;
    const cutPlan = planned(text(linen('10 %', '4 %'), orders));
    expect(cutPlan.pieces.map(({ grain, exactSize }) => [grain, exactSize])).toEqual([
      ['lengthwise', { width: inches(18.75), length: inches(30) }],
      ['crosswise', { width: inches(20), length: inches(28.125) }],
    ]);
    const note = cutPlan.issues.find(({ code }) => code === 'cut-larger')!;
    expect([note.severity, note.details]).toEqual([
      'note',
      { cloth: 'oat linen', along: '10 %', across: '4 %', held: true },
    ]);
    expect(cutPlan.issues.map(({ code }) => code)).not.toContain('will-shrink');
    expect(codes(changed(cutPlan, ['pieces', 0, 'grain'], () => 'either'))).toContain('washed-grain-open');
  });

  it('follows the print where that runs across', () => {
    const orders = 'pieces: [{ name: mat, count: 2, size: 18 x 27, cloth: oat linen }]';
    const across = linen('10 %', '4 %', 'direction: one-way, print runs: across, ');
    expect(planned(text(across, orders)).pieces[0]!.exactSize).toEqual({
      width: inches(20),
      length: inches(28.125),
    });
  });

  it('is proven to the tick, both ways', () => {
    const orders = `make: [{ name: covers, kind: envelope-cover, count: 2, size: 17 x 17, cloth: oat linen }]
pieces: [{ name: mat, count: 2, size: 13 x 19, cloth: oat linen }]`;
    const cutPlan = planned(text(linen('7 %', '3 %'), orders));
    for (const [index, piece] of cutPlan.pieces.entries()) {
      for (const side of ['width', 'length'] as const) {
        const edge = side === 'width' ? 'x1' : 'y1';
        const off = (path: readonly (string | number)[], by: number) =>
          codes(changed(cutPlan, ['pieces', index, ...path], (own) => (own as number) + by));
        expect(piece.washesTo).toBeDefined();
        // A tick less of what is sewn than the wash needs, or a tick more asked of it.
        expect(off(['exactSize', side], 1)).toContain('washed-too-large');
        expect(off(['finished', edge], -1)).toContain('washed-too-small');
        expect(off(['exactSize', side], -1)).toContain('washed-too-small');
        expect(off(['washesTo', side], 1).join(' ')).toMatch(/washed-(too-small|size-misread)/);
      }
    }
    const { washesTo: _, ...bare } = cutPlan.pieces[0]!;
    expect(codes(changed(cutPlan, ['pieces', 0], () => bare))).toContain('washed-size-missing');
    const plain = changed(cutPlan, ['plan', 'cloths', 0, 'washing', 'cutLarger'], () => undefined);
    expect(codes(plain)).toContain('washed-size-unasked');
  });

  it('warns where the parts of one thing do not shrink alike', () => {
    const other = '  tide stripe: { width: 54, selvedge: 1/2, buy: yes }';
    const order = (backs: string) =>
      `make: [{ name: covers, kind: envelope-cover, count: 2, size: 17 x 17, cloth: { front: oat linen, backs: ${backs} } }]`;
    const apart = planned(text(`${linen('7 %', '3 %')}\n${other}`, order('tide stripe')));
    expect(apart.issues.map(({ code }) => code)).toContain('shrinks-apart');
    const alike = planned(text(linen('7 %', '3 %'), order('oat linen')));
    expect(alike.issues.map(({ code }) => code)).not.toContain('shrinks-apart');
  });

  it('tells losses as a person wrote them, or as the swatch gave them', () => {
    expect(wordLoss({ numerator: 3, denominator: 100 })).toBe('3 %');
    expect(wordLoss({ numerator: 1, denominator: 40 })).toBe('2.5 %');
    expect(wordLoss({ numerator: 7, denominator: 248 })).toBe('7/248');
  });
});
