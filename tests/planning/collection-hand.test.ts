import { describe, expect, it } from 'vitest';
import { checkPlan } from '../../src/check/check-plan.ts';
import type { ClothChoice } from '../../src/model/collection.ts';
import type { CutPlan } from '../../src/model/cut-plan.ts';
import { makeCutPlan } from '../../src/planning/plan.ts';
import { cutPlanOf, planOfText } from '../support/collection-plan.ts';

/**
 * Lined mats of 12 x 17 with seams of 1/2: each layer is cut 13 x 18. Neither cloth may be turned.
 *
 * gull: 40 wide, three layers across (39). In steps of 9: a row of 18 costs 2 × $3 = $6.
 * kelp: 30 wide, two layers across (26). In steps of 9: a row of 18 costs 2 × $2.50 = $5.
 */
const text = (order: string, more: { readonly gull?: string; readonly cloths?: string } = {}) => `
plan: Mats
unit: in
cloths:
  gull: { width: 40, selvedge: 0, direction: one-way, price: 12 per yd, buy: { step: 9 }${more.gull ?? ''} }
  kelp: { width: 30, selvedge: 0, direction: one-way, price: 10 per yd, buy: { step: 9 } }
  plain backing: { width: 44, selvedge: 0, direction: one-way, price: 7 per yd, buy: { step: 9 } }
${more.cloths ?? ''}
make:
  - name: mats
    kind: place-mat
    size: 12 x 17
    seam allowance: 1/2
${order}
`;

function chosen(order: string, more?: Parameters<typeof text>[1]): ClothChoice {
  const cutPlan: CutPlan = cutPlanOf(planOfText(text(order, more)));
  expect(checkPlan(cutPlan)).toEqual([]);
  return cutPlan.choice!;
}

const lots = ({ lots: own }: ClothChoice) =>
  own.map(({ count, cloths }) => [count, ...Object.values(cloths)]);

describe('against arithmetic by hand', () => {
  const backing = 'lining: plain backing';

  it('splits five fronts where two cloths come to less than either', () => {
    // gull 5: 2 rows, $12. kelp 5: 3 rows, $15. gull 4 + kelp 1: $12 + $5 = $17. gull 3 + kelp 2: $6 + $5 = $11.
    // gull 2 + kelp 3 and gull 1 + kelp 4: $6 + $10 = $16. Backing: 3 across 44, 5 layers in 2 rows, 4 × $1.75 = $7.
    const choice = chosen(`    count: 5\n    cloth: { front: [gull, kelp], ${backing} }`);
    expect(lots(choice)).toEqual([
      [3, 'gull', 'plain backing'],
      [2, 'kelp', 'plain backing'],
    ]);
    expect(choice).toMatchObject({ measure: 'money', total: 1100 + 700, bound: 1100 + 700 });
  });

  it('keeps all fronts to one cloth where that is ruled', () => {
    // The better of $12 and $15.
    const choice = chosen(
      `    count: 5\n    cloth: { front: [gull, kelp], ${backing} }\n    rules: { one cloth: [front] }`,
    );
    expect(lots(choice)).toEqual([[5, 'gull', 'plain backing']]);
    expect(choice).toMatchObject({ total: 1200 + 700, bound: 1200 + 700 });
  });

  it('lines every mat with the other cloth where its parts are to differ', () => {
    // Each mat takes one layer of each: 3 of gull in a row, $6; 3 of kelp in 2 rows, $10.
    const choice = chosen(
      '    count: 3\n    cloth: { front: [gull, kelp], lining: [gull, kelp] }\n    rules: { unlike: [front, lining] }',
    );
    for (const { cloths } of choice.lots) expect(new Set(Object.values(cloths)).size).toBe(2);
    expect(choice).toMatchObject({ total: 1600, bound: 1600 });
  });

  it('cuts each mat whole from one cloth where one list stands for all parts', () => {
    // gull 6: 2 rows, $12. kelp 6: 3 rows, $15. gull 2 + kelp 4: $6 + $10 = $16. gull 4 + kelp 2: $12 + $5 = $17.
    const choice = chosen(
      '    count: 3\n    cloth: { front: [gull, kelp], lining: [gull, kelp] }\n    rules: { alike: [front, lining] }',
    );
    expect(lots(choice)).toEqual([[3, 'gull', 'gull']]);
    expect(choice).toMatchObject({ total: 1200, bound: 1200 });
  });

  it('gives no two mats the same front where no cloth may serve twice', () => {
    // One row each of gull ($6), kelp ($5), and of the backing 1 front and 3 linings: 4 layers in 2 rows, $7.
    const choice = chosen(
      `    count: 3\n    cloth: { front: [gull, kelp, plain backing], ${backing} }\n    rules: { no cloth twice: [front] }`,
    );
    expect(lots(choice).map(([, front]) => front)).toEqual(['gull', 'kelp', 'plain backing']);
    expect(choice).toMatchObject({ total: 600 + 500 + 700, bound: 600 + 500 + 700 });
  });

  it('uses what is in hand first, for nothing', () => {
    // 18 of gull in hand hold three fronts; the other two cost a row of kelp, $5.
    const choice = chosen(`    count: 5\n    cloth: { front: [gull, kelp], ${backing} }`, {
      gull: ', lengths: [18]',
    });
    expect(lots(choice)).toEqual([
      [3, 'gull', 'plain backing'],
      [2, 'kelp', 'plain backing'],
    ]);
    expect(choice).toMatchObject({ total: 500 + 700, bound: 500 + 700 });
  });

  it('takes any cloth of a group', () => {
    // The muslin alone is in the group: 2 across 29, 4 fronts in 2 rows, 4 × $1 = $4.
    const choice = chosen(`    count: 4\n    cloth: { front: [gull, group thin], ${backing} }`, {
      cloths:
        '  muslin: { width: 29, selvedge: 0, direction: one-way, price: 4 per yd, buy: { step: 9 }, groups: [thin] }',
    });
    expect(lots(choice)).toEqual([[4, 'muslin', 'plain backing']]);
    expect(choice).toMatchObject({ total: 400 + 700, bound: 400 + 700 });
  });

  it('buys the least length where no cloth has a price', () => {
    const unpriced = text('    count: 5\n    cloth: [gull, kelp]').replace(/, price: [^,]*/g, '');
    const { choice } = cutPlanOf(planOfText(unpriced));
    // Hemmed mats here: 12 x 17 with hems of 3/4 is 13 1/2 x 18 1/2, so gull holds 2 a row: rows of 18 1/2, 37 and 55 1/2.
    // gull 5: 3 rows, 55 1/2, 63 bought. kelp holds 2 a row as well.
    expect(choice!.measure).toBe('length');
    expect(choice!.total).toBe(choice!.bound);
    expect(choice!.total / (9 * 25.4 * 320)).toBe(7);
  });

  it('warns where only some cloths have a price', () => {
    const some = text(`    count: 2\n    cloth: { front: [gull, kelp], ${backing} }`).replace(
      ', price: 10 per yd',
      '',
    );
    const outcome = makeCutPlan(planOfText(some), { effort: 40_000, seed: 3 });
    expect(outcome.ok).toBe(true);
    expect(outcome.issues.map(({ code, details }) => [code, details])).toEqual([
      ['choice-by-length', { unpriced: ['kelp'] }],
    ]);
  });

  it('holds rules where every part has its cloth already, too', () => {
    const two = (lining: string) =>
      text(
        `    count: 2\n    cloth: { front: gull, lining: ${lining} }\n    rules: { unlike: [front, lining] }`,
      );
    const kept = makeCutPlan(planOfText(two('kelp')), { effort: 20_000, seed: 3 });
    expect([kept.ok, kept.ok && kept.value.choice]).toEqual([true, undefined]);
    const wide = makeCutPlan(planOfText(two('kelp').replace('12 x 17', '33 x 17')), {
      effort: 20_000,
      seed: 3,
    });
    expect(wide.issues.map(({ code }) => code)).toEqual(['too-wide']);
    const broken = makeCutPlan(planOfText(two('gull')), { effort: 20_000, seed: 3 });
    expect(broken.issues.map(({ code, details }) => [code, details])).toEqual([
      ['no-choice', { sets: ['mats'] }],
    ]);
  });

  it('names the set alone whose rules leave no choice, not others that have rules, and where it stands', () => {
    const plan = (one: string, other: string) => `plan: Two sets
unit: in
cloths:
  gull: { width: 43, selvedge: 0, buy: yes }
  kelp: { width: 43, selvedge: 0, buy: yes }
sets: { attic: { no cloth twice: [front, backs] }, hall: { ${other} } }
make:
  - { name: attic covers, kind: envelope-cover, count: ${one}, size: 16 x 16, cloth: [gull, kelp], set: attic }
  - { name: hall covers, kind: envelope-cover, count: 2, size: 16 x 16, cloth: { front: [gull, kelp], backs: kelp }, set: hall }
`;
    const told = (one: string, other: string) => {
      const outcome = makeCutPlan(planOfText(plan(one, other)), { effort: 20_000, seed: 3 });
      return outcome.issues.flatMap(({ code, details, path }) =>
        code === 'no-choice' ? [[details, path]] : [],
      );
    };
    // Three things of two parts cannot take a cloth each from two.
    expect(told('3', 'one cloth: [front]')).toEqual([[{ sets: ['attic'] }, ['sets', 'attic']]]);
    expect(told('3', 'no cloth twice: [front, backs]')).toEqual([
      [{ sets: ['attic', 'hall'] }, ['sets', 'attic']],
    ]);
  });

  it('says where no choice keeps the rules, and where no cloth holds a piece', () => {
    const fail = (order: string) => {
      const outcome = makeCutPlan(planOfText(text(order)), { effort: 40_000, seed: 3 });
      expect(outcome.ok).toBe(false);
      return outcome.issues.map(({ code, details }) => [code, details]);
    };
    expect(
      fail('    count: 3\n    cloth: { front: [gull, kelp] }\n    rules: { no cloth twice: [front] }'),
    ).toEqual([['no-choice', { sets: ['mats'] }]]);
    const wide = text('    count: 1\n    cloth: { front: [gull, kelp] }').replace('12 x 17', '41 x 17');
    const outcome = makeCutPlan(planOfText(wide), { effort: 40_000, seed: 3 });
    expect(outcome.issues.map(({ code, details }) => [code, details])).toEqual([
      ['no-cloth-holds', { piece: 'mats/front', cloths: ['gull', 'kelp'] }],
    ]);
  });
});
