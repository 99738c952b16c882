import { describe, expect, it } from 'vitest';
import type { ClothChoice } from '../../src/model/collection.ts';
import type { Plan } from '../../src/model/plan.ts';
import { choiceProof, choiceRows, perCentUp } from '../../src/rendering/choice-words.ts';
import { planJson } from '../../src/rendering/plan-json.ts';
import { planJsonSchema } from '../../src/rendering/plan-json-schema.ts';
import { summaryText } from '../../src/rendering/tables.ts';
import { ticks } from '../../src/units/ticks.ts';
import { collectionPlan } from '../support/collection-plan.ts';

const cutPlan = collectionPlan();
const { plan } = cutPlan;
const choice: ClothChoice = cutPlan.choice!;

describe('the choice of cloths in words', () => {
  it('tells which thing gets which cloths, alike things once', () => {
    expect(choiceRows(cutPlan)).toEqual([
      ['lookout mats', 'all 5: front gull grey, lining foam'],
      ['porch mats', '1: front gull grey; 2: front foam'],
      ['hall mats', 'all 3: gull grey'],
      ['tie', 'all 7: gull grey'],
    ]);
  });

  it('counts things on from lot to lot', () => {
    const lots = [
      { order: 'tie', count: 4, cloths: { piece: 'kelp' } },
      { order: 'tie', count: 1, cloths: { piece: 'foam' } },
      { order: 'tie', count: 2, cloths: { piece: 'gull grey' } },
    ];
    expect(choiceRows({ ...cutPlan, choice: { ...choice, lots } })).toEqual([
      ['tie', '1 to 4: kelp; 5: foam; 6 to 7: gull grey'],
    ]);
  });

  it('says what is proven, and never less than how far it may be off', () => {
    const proof = (changes: Partial<ClothChoice>) => choiceProof({ ...choice, ...changes }, plan);
    expect(proof({ total: 5120, bound: 5120 })).toBe('no other choice costs less than 51.20, proven');
    // 5120 / 5000 is 2.4 % over, 5121 a little more.
    expect(proof({ total: 5120, bound: 5000 })).toBe(
      'no choice costs less than 50.00; this one is within 2.4 % of that',
    );
    expect(proof({ total: 5121, bound: 5000 })).toContain('within 2.5 %');
    expect(perCentUp(7, 0)).toBe('100.0');
    const length = { measure: 'length', total: 8128 * 63, bound: 8128 * 63 } as const;
    expect(proof(length)).toBe('no other choice buys less than 63 in, proven');
  });

  it('says that the bound takes lengths in hand as free where one has a worth', () => {
    const cloths = plan.cloths.map((cloth, index) =>
      index > 0
        ? cloth
        : {
            ...cloth,
            inHand: [
              { name: 'end', width: cloth.width, length: ticks(9999), worth: { hundredths: 9, per: 9 } },
            ],
          },
    );
    const weighed = { ...plan, cloths } as Plan;
    expect(choiceProof({ ...choice, total: 5120, bound: 5000 }, weighed)).toBe(
      'no choice costs less than 50.00, with lengths in hand taken as free even where they have a worth; ' +
        'this one is within 2.4 % of that',
    );
  });

  it('stands in the summary and in the JSON', () => {
    const summary = summaryText(cutPlan);
    expect(summary).toContain('Cloths chosen\n  lookout mats      all 5: front gull grey, lining foam\n');
    const json = planJson(cutPlan);
    expect(planJsonSchema.safeParse(json).success).toBe(true);
    expect(json.choice).toMatchObject({
      answer: choice.bound === choice.total ? 'best' : 'found',
      total: { cost: { hundredths: choice.total } },
      bound: { cost: { hundredths: choice.bound } },
    });
    expect(json.choice!.lots[0]).toEqual({
      order: 'lookout mats',
      count: 5,
      cloths: { front: 'gull grey', lining: 'foam' },
    });
  });
});
