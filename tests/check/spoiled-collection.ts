/** A sound choice of cloths, spoiled in one figure or one rule each, with every code the checker must then report. */
import type { ClothRules } from '../../src/model/collection.ts';
import { NO_RULES } from '../../src/model/collection.ts';
import type { CutPlan } from '../../src/model/cut-plan.ts';
import { changed, moved } from '../support/changed.ts';
import { collectionPlan } from '../support/collection-plan.ts';
import { bench, type Path, type Spoiled, spoiled, to } from './spoiled.ts';

/**
 * Chosen: 5 lookout mats of gull grey lined with foam; porch mats, 1 of gull grey and 1 of foam; 3 hall mats all of gull
 * grey; 7 ties of gull grey.
 */
export const collection = collectionPlan();

const lot = (index: number): Path => ['choice', 'lots', index];

/** The same choice under other rules for one of its sets. */
const ruled = (set: string, rules: Partial<ClothRules>): CutPlan =>
  changed(collection, ['plan', 'sets'], (sets: { name: string; orders: string[] }[]) => [
    ...sets.filter(({ name }) => name !== set),
    {
      name: set,
      orders: sets.find(({ name }) => name === set)?.orders ?? [set],
      rules: { ...NO_RULES, ...rules },
    },
  ]);

const piece = (id: string) => collection.pieces.findIndex((own) => own.id === id);

export const spoiledCollections: readonly Spoiled[] = [
  spoiled('the choice is not told', changed(collection, ['choice'], to(undefined)), 'choice-missing'),
  spoiled(
    'a choice is told where none was open',
    changed(bench, ['choice'], to({ lots: [], measure: 'money', total: 0, bound: 0 })),
    'choice-unasked',
  ),
  spoiled(
    'a choice is told for an order that does not exist',
    changed(collection, [...lot(0), 'order'], to('attic mats')),
    ...(['choice-unasked', 'choice-lots'] as const),
  ),
  spoiled(
    'cloths are told for one more than is ordered',
    moved(collection, [...lot(4), 'count'], 1),
    ...(['choice-lots', 'choice-pieces'] as const),
  ),
  spoiled(
    'a part without a cloth',
    changed(collection, [...lot(0), 'cloths', 'lining'], to(undefined)),
    ...(['choice-part', 'choice-pieces'] as const),
  ),
  spoiled(
    'a cloth for a part that the make does not have',
    changed(collection, [...lot(4), 'cloths', 'fringe'], to('kelp')),
    'choice-part',
  ),
  spoiled(
    'a cloth that the part may not be cut from',
    changed(collection, ['plan', 'makes', 0, 'choices', 'lining'], to(['kelp', 'gull grey'])),
    'choice-cloth',
  ),
  spoiled(
    'a lot told from another cloth than its pieces',
    changed(collection, [...lot(4), 'cloths', 'piece'], to('kelp')),
    'choice-pieces',
  ),
  spoiled(
    'a piece that claims another part',
    changed(collection, ['pieces', piece('lookout mats/lining'), 'part'], to('front')),
    'choice-pieces',
  ),
  spoiled('fronts of a set from two cloths', ruled('porch mats', { oneCloth: ['front'] }), 'choice-rule'),
  spoiled('parts that should be alike', ruled('lookout', { alike: ['front', 'lining'] }), 'choice-rule'),
  spoiled('parts that should differ', ruled('hall mats', { unlike: ['front', 'lining'] }), 'choice-rule'),
  spoiled('a cloth that serves twice in a set', ruled('lookout', { noClothTwice: ['front'] }), 'choice-rule'),
  spoiled(
    'a whole thing from two cloths',
    changed(collection, ['plan', 'makes', 0, 'whole'], to(true)),
    // Its rule that front and lining differ goes before it.
  ),
  spoiled(
    'a whole thing from two cloths, without a rule that asks for it',
    changed(ruled('lookout', {}), ['plan', 'makes', 0, 'whole'], to(true)),
    'choice-rule',
  ),
  spoiled(
    'a rule that breaks though no cloth was open',
    changed(bench, ['plan', 'sets'], (): unknown => [
      {
        name: 'all',
        orders: bench.plan.makes.map(({ name }) => name),
        rules: {
          ...NO_RULES,
          unlike: Object.keys(bench.plan.makes[0]!.cloths),
          noClothTwice: Object.keys(bench.plan.makes[0]!.cloths),
        },
      },
    ]),
    'choice-rule',
  ),
  spoiled('a sum a hundredth too high', moved(collection, ['choice', 'total'], 1), 'choice-total'),
  spoiled('a length told as money', changed(collection, ['choice', 'measure'], to('length')), 'choice-total'),
  spoiled(
    'a bound above the sum',
    changed(collection, ['choice', 'bound'], to(collection.choice!.total + 1)),
    'choice-bound',
  ),
];
