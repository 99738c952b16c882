import { readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { planJson, writePlanJson } from '../../src/rendering/plan-json.ts';
import { planJsonSchemaDocument } from '../../src/rendering/plan-json-schema.ts';
import { foldedPlan, freshFoldPlan, smallPlan } from '../support/plans.ts';

const SCHEMA_FILE = new URL('../../layouts/cut-plan.schema.json', import.meta.url);
const validate = new Ajv2020({ strict: true, allErrors: true }).compile(planJsonSchemaDocument());

describe('plan.json', () => {
  it('has a kept schema that is the one generated from its definition', () => {
    expect(JSON.parse(readFileSync(SCHEMA_FILE, 'utf8'))).toEqual(planJsonSchemaDocument());
  });

  it.each([
    ['flat, bought and in hand', smallPlan()],
    ['folded at the crease', foldedPlan()],
    ['folded afresh', freshFoldPlan()],
  ])('keeps to its schema: %s', (_name, cutPlan) => {
    expect(validate(JSON.parse(writePlanJson(cutPlan))) || validate.errors).toBe(true);
  });

  it('has a schema that refuses a key it does not know, a missing one and a length that is no whole tick', () => {
    const good = () => JSON.parse(writePlanJson(smallPlan()));
    expect(validate({ ...good(), colour: 'red' })).toBe(false);
    expect(validate({ ...good(), totals: undefined })).toBe(false);
    const bent = good();
    bent.cloths[0].lengths[0].placed[0].x.ticks += 0.5;
    expect(validate(bent)).toBe(false);
    const turned = good();
    turned.cloths[0].lengths[0].placed[0].quarterTurns = 4;
    expect(validate(turned)).toBe(false);
  });

  it('places every piece in ticks and in words, from the lower left of the opened cloth', () => {
    const [stripe, linen] = planJson(smallPlan()).cloths;
    // Second front: right of the selvedge (1 cm) and one front (36 cm), above the squared end (2 cm); 3200 ticks a cm.
    expect(stripe!.lengths[0]!.placed[1]).toEqual({
      piece: 'bench covers/front',
      letter: 'A',
      x: { ticks: 37 * 3200, shown: '37 cm' },
      y: { ticks: 2 * 3200, shown: '2 cm' },
      width: { ticks: 36 * 3200, shown: '36 cm' },
      length: { ticks: 50 * 3200, shown: '50 cm' },
      quarterTurns: 2,
    });
    expect(linen!.lengths.map((length) => length.placed.length)).toEqual([2, 2]);
    expect(linen!.lengths[1]!.leftovers.find((left) => left.kind === 'remnant')?.shown).toBe(
      '79.1 x 24.6 cm',
    );
  });

  it('carries the tree itself, from which all positions can be read again', () => {
    const [fold] = planJson(foldedPlan()).cloths[0]!.lengths;
    expect(fold!.lay).toEqual({ kind: 'folded', foldAt: { ticks: 22 * 8128, shown: '22 in' } });
    expect(fold!.tree).toMatchObject({
      kind: 'cut',
      direction: 'crosscut',
      at: [{ shown: '1/4 in' }, { shown: '20 1/4 in' }, { shown: '40 1/4 in' }],
      parts: [
        { of: 'squaring' },
        { direction: 'lengthwise' },
        { direction: 'lengthwise' },
        { of: 'squaring' },
      ],
    });
  });

  it('tells what to buy, the spares and the cost', () => {
    const document = planJson(foldedPlan());
    expect(document.cloths[0]!.purchase).toEqual({
      needed: { ticks: 40.5 * 8128, shown: '40 1/2 in' },
      bought: { ticks: 40.5 * 8128, shown: '40 1/2 in' },
      cost: { hundredths: 1457, shown: '¤14.57' },
      lengths: [
        {
          needed: { ticks: 40.5 * 8128, shown: '40 1/2 in' },
          bought: { ticks: 40.5 * 8128, shown: '40 1/2 in' },
          ask: '1 1/8 yd',
        },
      ],
    });
    expect(document.cloths[0]!.surplus).toEqual([{ piece: 'porch covers/front', copies: 1 }]);
    // Three of 19 x 20 in wanted; the marker is 40 in long and 2 x (22 - 7/8) in wide, the cloth 40 1/2 x 44 in.
    expect(document.cloths[0]!.markerEfficiency).toBe(Math.floor((1140 / (40 * 42.25)) * 10000) / 100);
    expect(document.cloths[0]!.utilisation).toBe(Math.floor((1140 / (40.5 * 44)) * 10000) / 100);
    expect(document.totals).toMatchObject({ pieces: 4, cost: { hundredths: 1457 } });
  });

  it('leaves the cost out when something that is bought has no price', () => {
    const cutPlan = smallPlan();
    const { cost: _cost, ...withoutCost } = cutPlan.cloths[0]!.purchase!;
    const unpriced = { ...cutPlan, cloths: [{ ...cutPlan.cloths[0]!, purchase: withoutCost }] };
    expect(planJson(unpriced).totals).not.toHaveProperty('cost');
    expect(planJson(cutPlan).totals.cost?.hundredths).toBe(1139);
  });

  it('gives the same bytes for the same plan, and leaves the plan as it was', () => {
    const cutPlan = smallPlan();
    const before = JSON.stringify(cutPlan);
    expect(writePlanJson(cutPlan)).toBe(writePlanJson(smallPlan()));
    expect(JSON.stringify(cutPlan)).toBe(before);
    expect(JSON.parse(writePlanJson(cutPlan))).toEqual(JSON.parse(JSON.stringify(planJson(cutPlan))));
  });
});
