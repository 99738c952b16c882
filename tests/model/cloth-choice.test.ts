import { describe, expect, it } from 'vitest';
import { makes } from '../../src/makes/catalogue.ts';
import { wordIssue } from '../../src/model/messages.ts';
import { readPlan } from '../../src/model/plan-file.ts';
import { planOfText } from '../support/collection-plan.ts';

const CLOTHS = `
plan: Porch
unit: in
cloths:
  gull stripe: { width: 54, selvedge: 1/2, buy: yes, groups: [faces] }
  oat linen: { width: 57, selvedge: 5/8, buy: yes, groups: [plains] }
  wet sand: { width: 60, selvedge: 3/4, buy: yes, groups: [faces, plains] }
`;

const cover = (rest: string) => `${CLOTHS}make:
  - { name: seat covers, kind: envelope-cover, count: 7, size: 16 x 18, ${rest} }
`;

const order = (rest: string) => planOfText(cover(rest)).makes[0]!;

describe('cloths to choose from', () => {
  it('are a name, a list, a group, or a list of both, in the order in which the plan has its cloths', () => {
    const { cloths, choices, whole } = order(
      'cloth: { front: [wet sand, gull stripe], backs: group plains, interfacing: oat linen }',
    );
    expect(cloths).toEqual({ front: 'gull stripe', backs: 'oat linen', interfacing: 'oat linen' });
    expect(choices).toEqual({ front: ['gull stripe', 'wet sand'], backs: ['oat linen', 'wet sand'] });
    expect(whole).toBeUndefined();
    const mixed = order('cloth: { front: [gull stripe, group plains], backs: oat linen }');
    expect(mixed.choices).toEqual({ front: ['gull stripe', 'oat linen', 'wet sand'] });
  });

  it('stand for all parts that must have a cloth where no part is told', () => {
    const { choices, whole } = order('cloth: group faces');
    expect(choices).toEqual({ front: ['gull stripe', 'wet sand'], backs: ['gull stripe', 'wet sand'] });
    expect(whole).toBe(true);
  });

  it('are no choice where a list or a group comes to one cloth', () => {
    const one = order('cloth: [oat linen]');
    expect(one).toMatchObject({ cloths: { front: 'oat linen', backs: 'oat linen' } });
    expect([one.choices, one.whole]).toEqual([undefined, undefined]);
  });

  it('may be given for a loose piece', () => {
    const plan = planOfText(`${CLOTHS}pieces: [{ name: tie, count: 3, size: 2 x 9, cloth: group faces }]\n`);
    expect(plan.pieces[0]).toMatchObject({ cloth: 'gull stripe', choices: ['gull stripe', 'wet sand'] });
  });
});

describe('rules', () => {
  const none = { oneCloth: [], alike: [], unlike: [], noClothTwice: [] };
  const open = 'cloth: { front: group faces, backs: group plains }';

  it('of an order make it a set of its own', () => {
    const plan = planOfText(cover(`${open}, rules: { one cloth: [front], unlike: [front, backs] }`));
    const rules = { ...none, oneCloth: ['front'], unlike: ['front', 'backs'] };
    expect(plan.sets).toEqual([{ name: 'seat covers', orders: ['seat covers'], rules }]);
  });

  it('of the plan go for every set that has none', () => {
    const text = `${CLOTHS}rules: { no cloth twice: [front] }
sets:
  bench: { alike: [front, backs] }
  floor: { }
make:
  - { name: left, kind: envelope-cover, count: 2, size: 16 x 18, ${open}, set: bench }
  - { name: round, kind: envelope-cover, count: 5, size: 20 x 20, ${open}, set: floor }
  - { name: right, kind: envelope-cover, count: 3, size: 17 x 19, ${open}, set: bench }
  - { name: lone, kind: envelope-cover, count: 4, size: 14 x 12, ${open} }
`;
    expect(planOfText(text).sets).toEqual([
      { name: 'bench', orders: ['left', 'right'], rules: { ...none, alike: ['front', 'backs'] } },
      { name: 'floor', orders: ['round'], rules: { ...none, noClothTwice: ['front'] } },
      { name: 'lone', orders: ['lone'], rules: { ...none, noClothTwice: ['front'] } },
    ]);
  });
});

describe('what is not understood is told with what would work', () => {
  it.each([
    [
      'cloth: any of gull stripe',
      'write the cloths to choose from as a list, such as [gull stripe, oat linen]',
    ],
    [
      'cloth: [gull strip, oat linen]',
      'cloth[1]: there is no cloth called "gull strip" in this plan; likely "gull stripe"',
    ],
    ['cloth: [ ]', 'write one cloth at least, such as [gull stripe, oat linen]'],
    ['cloth: [oat linen, oat linen]', 'found "oat linen"; write each cloth once'],
    ['cloth: group plain', 'no cloth of this plan belongs to a group "plain"; likely "plains"'],
    ['cloth: { front: group hats, backs: oat linen }', 'there is faces and plains'],
    ['cloth: oat linen, set: bench', 'there is no set "bench" under sets; write sets: { bench: { } }'],
    ['cloth: oat linen, rules: { one cloht: [front] }', '"one cloht" is not known here; likely "one cloth"'],
    [
      'cloth: oat linen, rules: { one cloth: [fornt] }',
      'found "fornt" (likely "front"); write front, backs or interfacing',
    ],
    ['cloth: oat linen, rules: { unlike: [front] }', 'write two parts at least, such as [front, backs]'],
    ['cloth: oat linen, rules: { one cloth: [ ] }', 'write one part at least, such as [front]'],
  ])('%s', (rest, words) => {
    const read = readPlan(cover(rest), { file: 'porch.yaml', makes: makes.map((make) => make.spec) });
    expect(read.ok).toBe(false);
    const errors = read.issues.filter(({ severity }) => severity === 'error');
    expect(errors).toHaveLength(1);
    expect(wordIssue(errors[0]!, 'in')).toContain(words);
    expect(wordIssue(errors[0]!, 'in')).toMatch(/^porch\.yaml:\d+:\d+ make\[1\]\./);
  });

  it('a set with rules beside those of its order', () => {
    const text = cover('cloth: oat linen, set: bench, rules: { one cloth: [front] }');
    const read = readPlan(text.replace('make:', 'sets: { bench: { } }\nmake:'), {
      file: 'porch.yaml',
      makes: makes.map((make) => make.spec),
    });
    expect(read.issues.map(({ code, details }) => [code, details])).toEqual([
      ['rules-beside-set', { set: 'bench' }],
    ]);
  });
});
