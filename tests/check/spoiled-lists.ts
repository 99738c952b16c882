/** Sound plans spoiled in what is listed, bought or joined, by one figure each, with every code the checker must then report. */
import { changed, moved } from '../support/changed.ts';
import { cm, inches } from '../support/plan-parts.ts';
import { bench, cloth, folded, joined, type Path, type Spoiled, spoiled, to, twice } from './spoiled.ts';

const purchase: Path = ['cloths', 0, 'purchase'];

export const spoiledPurchases: readonly Spoiled[] = [
  spoiled(
    'nothing is bought',
    changed(folded, purchase, to(undefined)),
    ...(['purchase-missing', 'bound-without-purchase'] as const),
  ),
  spoiled(
    'a bound stands where nothing is bought',
    changed(bench, ['cloths', 1, 'bound'], to(cm(3))),
    'bound-without-purchase',
  ),
  spoiled(
    'more lengths are bought than are cut',
    changed(twice, ['cloths', 0, 'lengths'], (lengths: unknown[]) => [
      { ...(lengths[0] as object), name: 'bought' },
    ]),
    ...(['purchase-lengths', 'pieces-short', 'surplus-unreal'] as const),
  ),
  spoiled(
    'the need is a tick more than its lengths',
    moved(bench, [...purchase, 'needed'], 1),
    'purchase-total',
  ),
  spoiled(
    'what is bought is a tick more than its lengths',
    moved(bench, [...purchase, 'bought'], 1),
    ...(['purchase-total', 'best-unproven'] as const),
  ),
  spoiled(
    'cloth is bought that is not for sale',
    changed(twice, [...cloth(0), 'buy'], to(undefined)),
    'purchase-not-sold',
  ),
  spoiled(
    'the need is a tick short of the washing reserve',
    moved(moved(bench, [...purchase, 'needed'], -1), [...purchase, 'lengths', 0, 'needed'], -1),
    'needed-wrong',
  ),
  spoiled(
    'what is bought is not whole steps',
    moved(bench, [...cloth(0), 'buy', 'step'], 1),
    ...(['bought-wrong', 'best-unproven'] as const),
  ),
  spoiled(
    'what is bought is a tick longer than is sold',
    changed(bench, [...cloth(0), 'buy', 'longest'], to(cm(60) - 1)),
    'bought-too-long',
  ),
  spoiled(
    'two lengths are bought where one is sold',
    changed(twice, [...cloth(0), 'buy', 'longest'], to(inches(81))),
    'bought-apart',
  ),
  spoiled('the cost is a hundredth off', moved(bench, [...purchase, 'cost'], 1), 'cost-wrong'),
  spoiled(
    'there is a cost without a price',
    changed(bench, [...cloth(0), 'price'], to(undefined)),
    'cost-wrong',
  ),
  spoiled(
    'there is no cost in spite of a price',
    changed(bench, [...purchase, 'cost'], to(undefined)),
    'cost-wrong',
  ),
  spoiled('no bound is stated', changed(bench, ['cloths', 0, 'bound'], to(undefined)), 'bound-missing'),
  spoiled(
    'the bound is a tick above the need',
    changed(bench, ['cloths', 0, 'bound'], to(cm(56.25) + 1)),
    'bound-over-needed',
  ),
  spoiled(
    'best is claimed where a step less might do',
    changed(bench, ['cloths', 0, 'bound'], to(cm(50))),
    'best-unproven',
  ),
];

export const spoiledLists: readonly Spoiled[] = [
  spoiled(
    'a cloth is cut that the plan does not have',
    changed(bench, ['cloths', 0, 'cloth'], to('mist')),
    ...(['cloth-unknown', 'cloth-left-out'] as const),
  ),
  spoiled(
    'a cloth is listed twice',
    changed(bench, ['cloths'], (cloths: unknown[]) => [cloths[0], ...cloths]),
    'cloth-repeated',
  ),
  spoiled(
    'the cloths are out of order',
    changed(bench, ['cloths'], (cloths: unknown[]) => [...cloths].reverse()),
    'cloth-out-of-order',
  ),
  spoiled(
    'a cloth is left out',
    changed(bench, ['cloths'], (cloths: unknown[]) => cloths.slice(0, 1)),
    'cloth-left-out',
  ),
];

export const spoiledOrders: readonly Spoiled[] = [
  spoiled(
    'a loose piece is planned a tick too small',
    moved(bench, ['plan', 'pieces', 0, 'size', 'length'], 1),
    ...(['loose-piece-unmet', 'piece-unasked'] as const),
  ),
  spoiled(
    'a loose piece is asked for once more',
    moved(bench, ['plan', 'pieces', 0, 'count'], 1),
    ...(['loose-piece-unmet', 'piece-unasked'] as const),
  ),
  spoiled(
    'an order has no pieces',
    changed(bench, ['plan', 'makes'], (orders: object[]) => [
      ...orders,
      { ...orders[0], name: 'bolsters', count: 2 },
    ]),
    'order-unmet',
  ),
  spoiled(
    'the pieces do not serve every one of an order',
    changed(folded, ['plan', 'makes', 0, 'count'], to(2)),
    'order-misread',
  ),
  spoiled(
    'an order names another cloth',
    changed(folded, ['plan', 'makes', 0, 'cloths', 'front'], to('mist')),
    'order-misread',
  ),
];

/** Another rule, in the plan and in the piece alike, so that only the join itself is at fault. */
const ruled = (key: string, value: unknown) =>
  [
    ['joined', 0, 'piece', 'join', key],
    ['plan', 'pieces', 0, 'join', key],
  ].reduce((plan, path) => changed(plan, path, to(value)), joined);

export const spoiledJoins: readonly Spoiled[] = [
  spoiled(
    'a joined piece is cut whole as well',
    changed(joined, ['pieces'], (pieces: unknown[]) => [
      ...pieces,
      { ...joined.joined[0]!.piece, copies: 0 },
    ]),
    ...(['joined-piece-cut', 'piece-unasked'] as const),
  ),
  spoiled(
    'a part is a mark narrower than it must be',
    changed(joined, ['joined', 0, 'columns', 1], to(cm(41))),
    ...(['join-parts', 'join-extents'] as const),
  ),
  spoiled(
    'a part is a tick shorter than the piece',
    moved(joined, ['joined', 0, 'rows', 0], -1),
    ...(['join-parts', 'join-extents'] as const),
  ),
  spoiled(
    'a part is out of its place',
    changed(joined, ['pieces', 1, 'partOf', 'index'], to(0)),
    'join-parts',
  ),
  spoiled(
    'a part is listed for no join',
    changed(joined, ['joined', 0, 'parts'], to(['banner/part 1'])),
    ...(['join-parts', 'join-lines', 'part-of-nothing'] as const),
  ),
  spoiled(
    'a part stands in two places of the join',
    changed(joined, ['joined', 0, 'parts', 1], to('banner/part 1')),
    ...(['join-parts', 'join-lines', 'part-of-nothing'] as const),
  ),
  spoiled(
    'one copy more is joined than is wanted',
    changed(changed(joined, ['joined', 0, 'copies'], to(2)), ['pieces'], (pieces: object[]) =>
      pieces.map((piece) => ({ ...piece, copies: 2 })),
    ),
    ...(['join-copies', 'pieces-short'] as const),
  ),
  spoiled(
    'a join is drawn a tick off',
    moved(moved(joined, ['pieces', 1, 'lines', 0, 'x0'], 1), ['pieces', 1, 'lines', 0, 'x1'], 1),
    'join-lines',
  ),
  spoiled(
    'a part lies over where it ought to lie under',
    changed(joined, ['pieces', 1, 'lines', 0, 'meets', 'side'], to('over')),
    'join-lines',
  ),
  spoiled('a join is not drawn', changed(joined, ['pieces', 0, 'lines'], to([])), 'join-lines'),
  spoiled(
    'the lap needs a mark less',
    ruled('allowance', cm(1)),
    ...(['join-extents', 'join-lines'] as const),
  ),
  spoiled(
    'the lap needs a mark more, for one tick',
    ruled('allowance', cm(1.5) + 1),
    ...(['join-extents', 'join-lines'] as const),
  ),
  spoiled(
    'cloth is seamed where the parts allow for a lap',
    ruled('by', 'seam'),
    ...(['join-extents', 'join-lines'] as const),
  ),
  spoiled(
    'no join is allowed',
    [
      ['joined', 0, 'piece', 'join'],
      ['plan', 'pieces', 0, 'join'],
    ].reduce((plan, path) => changed(plan, path, to(undefined)), joined),
    'join-against-rule',
  ),
  spoiled(
    'the plan allows no join, whatever the piece says',
    changed(joined, ['plan', 'pieces', 0, 'join'], to(undefined)),
    ...(['loose-piece-unmet', 'piece-unasked'] as const),
  ),
  spoiled('there is one join too many', ruled('mostJoins', 0), 'join-against-rule'),
  spoiled('the join runs the wrong way', ruled('lines', 'level'), 'join-against-rule'),
  spoiled('a part is a tick too narrow for its rule', ruled('narrowest', cm(41.5) + 1), 'join-against-rule'),
  spoiled(
    'a lap touches the middle that must be clear',
    changed(joined, ['joined', 0, 'columns'], to([cm(46.5), cm(45)])),
    ...(['join-against-rule', 'join-parts'] as const),
  ),
];
