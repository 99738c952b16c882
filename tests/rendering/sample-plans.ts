import type { Cloth } from '../../src/model/cloth.ts';
import type { ClothPlan, CutPlan, LengthPlan } from '../../src/model/cut-plan.ts';
import type { CutTree, QuarterTurns, TrimKind } from '../../src/model/cut-tree.ts';
import type { PieceLine, PieceWanted } from '../../src/model/piece.ts';
import type { Plan } from '../../src/model/plan.ts';
import { TICKS_PER_CM, TICKS_PER_INCH, type Ticks, ticks } from '../../src/units/ticks.ts';

/** Hand-made cut plans of the Tern House, for drawing only: the trees are set out by the helpers below. */

type Tree = CutTree<string>;
export const inches = (count: number): Ticks => ticks(Math.round(count * TICKS_PER_INCH));
export const cm = (count: number): Ticks => ticks(Math.round(count * TICKS_PER_CM));

export const trim = (of: TrimKind): Tree => ({ kind: 'trim', of });
export const remnant: Tree = { kind: 'remnant' };
export const scrap: Tree = { kind: 'scrap' };
export const piece = (id: string, quarterTurns: QuarterTurns = 0): Tree => ({
  kind: 'piece',
  piece: id,
  quarterTurns,
});

/** Parts set side by side from their sizes; the last one takes the rest. */
export function cut(
  direction: 'crosscut' | 'lengthwise',
  ...parts: (readonly [Ticks | 'rest', Tree])[]
): Tree {
  const at: Ticks[] = [];
  let reach = 0;
  for (const [size] of parts.slice(0, -1)) {
    if (size === 'rest') throw new RangeError('only the last part may take the rest');
    reach += size;
    at.push(ticks(reach));
  }
  return { kind: 'cut', direction, at, parts: parts.map(([, tree]) => tree) };
}

export const repeat = <T>(count: number, value: T): T[] => Array.from({ length: count }, () => value);

interface PieceDraft {
  readonly letter: string;
  readonly name: string;
  readonly order: string;
  readonly cloth: string;
  readonly width: Ticks;
  readonly length: Ticks;
  readonly copies: number;
  readonly seam: Ticks;
  /** Depth of a hem on the top edge, and what is turned under it. */
  readonly hem?: readonly [visible: Ticks, under: Ticks];
}

export function wanted(draft: PieceDraft): PieceWanted {
  const { width, length, seam } = draft;
  const [visible, under] = draft.hem ?? [ticks(0), ticks(0)];
  const top = draft.hem ? ticks(length - visible - under) : ticks(length - seam);
  const right = ticks(width - seam);
  const lines: PieceLine[] = [
    { kind: 'seam', x0: seam, y0: ticks(0), x1: seam, y1: length },
    { kind: 'seam', x0: right, y0: ticks(0), x1: right, y1: length },
    { kind: 'seam', x0: ticks(0), y0: seam, x1: width, y1: seam },
  ];
  if (draft.hem) {
    lines.push({ kind: 'hem-fold', x0: ticks(0), y0: top, x1: width, y1: top });
    lines.push({
      kind: 'turn-under',
      x0: ticks(0),
      y0: ticks(length - under),
      x1: width,
      y1: ticks(length - under),
    });
  } else lines.push({ kind: 'seam', x0: ticks(0), y0: top, x1: width, y1: top });
  return {
    id: `${draft.order}/${draft.name}`,
    letter: draft.letter,
    name: draft.name,
    order: draft.order,
    cloth: draft.cloth,
    size: { width, length },
    exactSize: { width, length },
    copies: draft.copies,
    grain: 'either',
    finished: { x0: seam, y0: seam, x1: right, y1: top },
    lines,
  };
}

export function clothOf(given: Partial<Cloth> & Pick<Cloth, 'name' | 'width'>): Cloth {
  return {
    selvedge: { left: ticks(0), right: ticks(0) },
    crease: { kind: 'none' },
    direction: 'plain',
    printRuns: 'along',
    squaring: ticks(0),
    inHand: [],
    lay: 'flat',
    ...given,
  };
}

export function cutPlanOf(given: {
  readonly name: string;
  readonly unit: 'in' | 'cm';
  readonly paper: 'letter' | 'a4';
  readonly cloths: readonly Cloth[];
  readonly pieces: readonly PieceWanted[];
  readonly lengths: Readonly<Record<string, readonly LengthPlan[]>>;
  readonly rest?: Partial<CutPlan>;
  readonly clothRest?: Readonly<Record<string, Partial<ClothPlan>>>;
}): CutPlan {
  const metric = given.unit === 'cm';
  const plan: Plan = {
    name: given.name,
    unit: given.unit,
    rulerMark: metric ? ticks(320) : ticks(TICKS_PER_INCH / 8),
    paper: given.paper,
    currency: metric ? 'EUR' : '$',
    keep: metric ? { width: cm(10), length: cm(12) } : { width: inches(4), length: inches(5) },
    tools: { rulerLength: metric ? cm(60) : inches(24), mostPlies: 4 },
    cloths: given.cloths,
    makes: [],
    pieces: [],
    stages: 'any',
  };
  const cloths = given.cloths.map(
    ({ name }): ClothPlan => ({
      cloth: name,
      lengths: given.lengths[name] ?? [],
      surplus: [],
      answer: 'found',
      ...given.clothRest?.[name],
    }),
  );
  return { plan, pieces: given.pieces, joined: [], makes: [], cloths, issues: [], ...given.rest };
}

export const flat = (width: Ticks, length: Ticks, tree: Tree, name = 'bought'): LengthPlan => ({
  name,
  source: name === 'bought' ? 'bought' : 'in-hand',
  width,
  length,
  lay: { kind: 'flat' },
  tree,
});

const bedroomLetters = { front: 'A', outer: 'B', inner: 'C' } as const;

/** Breakfast room, inches: three cloths, covers with hemmed backs, napkins, a runner. */
export function breakfastRoom(): CutPlan {
  const stripe = clothOf({
    name: 'pebble stripe',
    width: inches(55.5),
    selvedge: { left: inches(0.75), right: inches(0.5) },
    direction: 'one-way',
    squaring: inches(1),
    price: { hundredths: 1425, per: inches(36) },
    buy: { step: inches(4.5) },
  });
  const plain = clothOf({
    name: 'sea-grass linen',
    width: inches(52),
    selvedge: { left: inches(0.5), right: inches(0.5) },
    crease: { kind: 'keep-off', each: inches(0.5) },
    buy: { step: inches(4.5) },
  });
  const dots = clothOf({
    name: 'gull dot cotton',
    width: inches(43),
    direction: 'two-way',
    buy: { step: inches(4.5) },
  });
  const seam = inches(0.5);
  const hem = [inches(1), inches(0.5)] as const;
  const covers = 'bench covers';
  const pieces = [
    wanted({
      letter: bedroomLetters.front,
      name: 'front',
      order: covers,
      cloth: stripe.name,
      width: inches(17.5),
      length: inches(17.5),
      copies: 5,
      seam,
    }),
    wanted({
      letter: bedroomLetters.outer,
      name: 'outer back',
      order: covers,
      cloth: plain.name,
      width: inches(17.5),
      length: inches(11.75),
      copies: 5,
      seam,
      hem,
    }),
    wanted({
      letter: bedroomLetters.inner,
      name: 'inner back',
      order: covers,
      cloth: plain.name,
      width: inches(17.5),
      length: inches(12.625),
      copies: 5,
      seam,
      hem,
    }),
    wanted({
      letter: 'D',
      name: 'napkin',
      order: 'napkins',
      cloth: dots.name,
      width: inches(13.375),
      length: inches(13.375),
      copies: 8,
      seam: inches(0.25),
    }),
    wanted({
      letter: 'E',
      name: 'runner',
      order: 'table runner',
      cloth: stripe.name,
      width: inches(16.125),
      length: inches(66),
      copies: 1,
      seam: inches(0.75),
    }),
  ];
  const front = piece(`${covers}/front`);
  const usable = inches(54.25);
  const stripeTree = cut(
    'lengthwise',
    [inches(0.75), trim('selvedge')],
    [
      usable,
      cut(
        'crosscut',
        [inches(1), trim('squaring')],
        [
          inches(17.5),
          cut(
            'lengthwise',
            [inches(17.5), front],
            [inches(17.5), front],
            [inches(17.5), front],
            ['rest', scrap],
          ),
        ],
        [
          inches(66),
          cut(
            'lengthwise',
            [inches(16.125), piece('table runner/runner')],
            [inches(17.5), cut('crosscut', [inches(17.5), front], [inches(17.5), front], ['rest', remnant])],
            ['rest', remnant],
          ),
        ],
        [inches(4.5), scrap],
        ['rest', trim('squaring')],
      ),
    ],
    ['rest', trim('selvedge')],
  );
  const outer = piece(`${covers}/outer back`);
  const inner = piece(`${covers}/inner back`);
  const half = (first: Tree, second: Tree) =>
    cut(
      'crosscut',
      [inches(12.625), first],
      [inches(11.75), second],
      [inches(12.625), first],
      [inches(11.75), second],
      [inches(12.625), first],
      ['rest', scrap],
    );
  const plainTree = cut(
    'lengthwise',
    [inches(0.5), trim('selvedge')],
    [inches(25), cut('lengthwise', [inches(17.5), half(inner, outer)], ['rest', remnant])],
    [inches(1), trim('crease')],
    [
      inches(25),
      cut(
        'lengthwise',
        [
          inches(17.5),
          cut(
            'crosscut',
            [inches(11.75), outer],
            [inches(11.75), outer],
            [inches(11.75), outer],
            [inches(12.625), inner],
            [inches(12.625), inner],
            ['rest', scrap],
          ),
        ],
        ['rest', remnant],
      ),
    ],
    ['rest', trim('selvedge')],
  );
  const napkin = piece('napkins/napkin');
  const three = cut(
    'lengthwise',
    [inches(13.375), napkin],
    [inches(13.375), napkin],
    [inches(13.375), napkin],
    ['rest', scrap],
  );
  const dotTree = cut(
    'crosscut',
    [inches(13.375), three],
    [inches(13.375), three],
    [
      inches(13.375),
      cut('lengthwise', [inches(13.375), napkin], [inches(13.375), napkin], ['rest', remnant]),
    ],
    ['rest', scrap],
  );
  return cutPlanOf({
    name: 'The Tern House: breakfast room',
    unit: 'in',
    paper: 'letter',
    cloths: [stripe, plain, dots],
    pieces,
    lengths: {
      [stripe.name]: [flat(inches(55.5), inches(90), stripeTree)],
      [plain.name]: [flat(inches(52), inches(63), plainTree)],
      [dots.name]: [flat(inches(43), inches(40.5), dotTree)],
    },
    clothRest: {
      [stripe.name]: {
        purchase: {
          needed: inches(85.5),
          bought: inches(90),
          lengths: [{ needed: inches(85.5), bought: inches(90) }],
          cost: 3563,
        },
      },
      [plain.name]: {
        purchase: {
          needed: inches(62),
          bought: inches(63),
          lengths: [{ needed: inches(62), bought: inches(63) }],
        },
      },
      [dots.name]: {
        purchase: {
          needed: inches(40.125),
          bought: inches(40.5),
          lengths: [{ needed: inches(40.125), bought: inches(40.5) }],
        },
        answer: 'best',
      },
    },
  });
}

/** Folded lay in centimetres: everything twice, mirrored at the fold. */
export function foldedBedroom(): CutPlan {
  const cloth = clothOf({
    name: 'dune twill',
    width: cm(138),
    selvedge: { left: cm(1.4), right: cm(1.4) },
    crease: { kind: 'use' },
    lay: 'folded',
    buy: { step: cm(10) },
  });
  const order = 'attic pillowcases';
  const pieces = [
    wanted({
      letter: 'A',
      name: 'front panel',
      order,
      cloth: cloth.name,
      width: cm(52.3),
      length: cm(76.8),
      copies: 6,
      seam: cm(1.5),
      hem: [cm(3), cm(1)],
    }),
    wanted({
      letter: 'B',
      name: 'flap',
      order,
      cloth: cloth.name,
      width: cm(52.3),
      length: cm(24.6),
      copies: 6,
      seam: cm(1.5),
    }),
    wanted({
      letter: 'C',
      name: 'tie',
      order,
      cloth: cloth.name,
      width: cm(4.2),
      length: cm(31.5),
      copies: 11,
      seam: cm(0.7),
    }),
  ];
  const [front, flap, tie] = pieces.map(({ id }) => piece(id)) as [Tree, Tree, Tree];
  const column = cut(
    'crosscut',
    [cm(76.8), front],
    [cm(76.8), front],
    [cm(76.8), front],
    [cm(24.6), flap],
    [cm(24.6), flap],
    [cm(24.6), flap],
    ['rest', scrap],
  );
  const ties = cut('crosscut', ...repeat(6, [cm(31.5), tie] as const), ['rest', remnant]);
  const side = (left: boolean): Tree => {
    const parts = [
      [cm(52.3), column],
      [cm(4.2), ties],
      [cm(11.1), remnant],
      [cm(1.4), trim('selvedge')],
    ] as const;
    return cut('lengthwise', ...(left ? parts.toReversed() : parts));
  };
  const tree = cut('lengthwise', [cm(69), side(true)], [cm(69), side(false)]);
  return cutPlanOf({
    name: 'The Tern House: attic bedroom',
    unit: 'cm',
    paper: 'a4',
    cloths: [cloth],
    pieces,
    lengths: { [cloth.name]: [{ ...flat(cm(138), cm(310), tree), lay: { kind: 'folded', foldAt: cm(69) } }] },
    clothRest: { [cloth.name]: { surplus: [{ piece: `${order}/tie`, copies: 1 }] } },
  });
}

/** A long one-way length of curtains in inches. */
export function longCurtains(): CutPlan {
  const cloth = clothOf({
    name: 'heron damask',
    width: inches(54),
    selvedge: { left: inches(0.625), right: inches(0.625) },
    direction: 'one-way',
    squaring: inches(0.5),
    buy: { step: inches(4.5) },
  });
  const order = 'bay curtains';
  const pieces = [
    wanted({
      letter: 'A',
      name: 'curtain',
      order,
      cloth: cloth.name,
      width: inches(51),
      length: inches(63.25),
      copies: 4,
      seam: inches(1.5),
      hem: [inches(4), inches(4)],
    }),
    wanted({
      letter: 'B',
      name: 'tieback',
      order,
      cloth: cloth.name,
      width: inches(5.125),
      length: inches(24.75),
      copies: 8,
      seam: inches(0.5),
    }),
  ];
  const [drop, tieback] = pieces.map(({ id }) => piece(id)) as [Tree, Tree];
  const row: Tree = cut('lengthwise', [inches(51), drop], ['rest', scrap]);
  const ties = cut('lengthwise', ...repeat(8, [inches(5.125), tieback] as const), ['rest', remnant]);
  const tree = cut(
    'crosscut',
    [inches(0.5), trim('squaring')],
    [
      inches(286),
      cut(
        'lengthwise',
        [inches(0.625), trim('selvedge')],
        [
          inches(52.75),
          cut(
            'crosscut',
            ...repeat(4, [inches(63.25), row] as const),
            [inches(24.75), ties],
            ['rest', scrap],
          ),
        ],
        ['rest', trim('selvedge')],
      ),
    ],
    ['rest', trim('squaring')],
  );
  return cutPlanOf({
    name: 'The Tern House: bay window',
    unit: 'in',
    paper: 'letter',
    cloths: [cloth],
    pieces,
    lengths: { [cloth.name]: [flat(inches(54), inches(288), tree)] },
  });
}

/** More than sixty small pieces of seven kinds, one turned, from a wide cloth in centimetres. */
export function manySmallPieces(): CutPlan {
  const cloth = clothOf({
    name: 'harbour check',
    width: cm(152),
    selvedge: { left: cm(1), right: cm(1.2) },
    buy: { step: cm(10) },
  });
  const order = 'keepsake bunting';
  const sizes = [
    [14.3, 18.1, 18],
    [9.7, 11.2, 22],
    [6.4, 40.3, 7],
    [21.9, 8.6, 10],
    [12.5, 12.5, 9],
    [3.1, 25.7, 6],
    [30.2, 16.6, 4],
  ] as const;
  const pieces = sizes.map(([width, length, copies], index) =>
    wanted({
      letter: 'ABCDEFG'[index]!,
      name: ['flag', 'small flag', 'strap', 'pocket', 'patch', 'loop', 'bag side'][index]!,
      order,
      cloth: cloth.name,
      width: cm(width),
      length: cm(length),
      copies,
      seam: cm(0.8),
    }),
  );
  const id = (index: number, turns: QuarterTurns = 0) => piece(pieces[index]!.id, turns);
  const rowOf = (index: number, count: number) =>
    cut('lengthwise', ...repeat(count, [cm(sizes[index]![0]), id(index)] as const), ['rest', scrap]);
  const body = cut(
    'crosscut',
    [cm(18.1), rowOf(0, 10)],
    [
      cm(18.1),
      cut(
        'lengthwise',
        ...repeat(8, [cm(14.3), id(0)] as const),
        [cm(25.7), cut('crosscut', ...repeat(5, [cm(3.1), id(5, 1)] as const), ['rest', scrap])],
        ['rest', scrap],
      ),
    ],
    [cm(11.2), rowOf(1, 15)],
    [
      cm(40.3),
      cut(
        'lengthwise',
        ...repeat(7, [cm(6.4), id(2)] as const),
        [
          cm(44),
          cut(
            'crosscut',
            ...repeat(4, [
              cm(8.6),
              cut('lengthwise', [cm(21.9), id(3)], [cm(21.9), id(3)], ['rest', scrap]),
            ] as const),
            ['rest', scrap],
          ),
        ],
        [cm(30.2), cut('crosscut', [cm(16.6), id(6)], [cm(16.6), id(6)], ['rest', scrap])],
        ['rest', remnant],
      ),
    ],
    [
      cm(16.6),
      cut(
        'lengthwise',
        [cm(30.2), id(6)],
        [cm(30.2), id(6)],
        ...repeat(6, [cm(12.5), cut('crosscut', [cm(12.5), id(4)], ['rest', scrap])] as const),
        ['rest', scrap],
      ),
    ],
    [
      cm(25.7),
      cut(
        'lengthwise',
        [cm(3.1), id(5)],
        ...repeat(3, [cm(12.5), cut('crosscut', [cm(12.5), id(4)], ['rest', scrap])] as const),
        [
          cm(43.8),
          cut(
            'crosscut',
            [cm(8.6), cut('lengthwise', [cm(21.9), id(3)], ['rest', id(3)])],
            ['rest', remnant],
          ),
        ],
        [
          cm(9.7 * 4),
          cut(
            'crosscut',
            [cm(11.2), cut('lengthwise', ...repeat(3, [cm(9.7), id(1)] as const), ['rest', id(1)])],
            [cm(11.2), cut('lengthwise', ...repeat(3, [cm(9.7), id(1)] as const), ['rest', scrap])],
            ['rest', scrap],
          ),
        ],
        ['rest', remnant],
      ),
    ],
    ['rest', scrap],
  );
  const tree = cut('lengthwise', [cm(1), trim('selvedge')], [cm(149.8), body], ['rest', trim('selvedge')]);
  return cutPlanOf({
    name: 'The Tern House: gift table',
    unit: 'cm',
    paper: 'a4',
    cloths: [cloth],
    pieces,
    lengths: { [cloth.name]: [flat(cm(152), cm(131), tree)] },
  });
}

/** Lengths in hand of two sizes, one twice over. */
export function cupboard(): CutPlan {
  const length = (name: string, width: number, long: number, copies: number) => ({
    name,
    width: inches(width),
    length: inches(long),
    copies,
    selvedge: { left: ticks(0), right: ticks(0) },
    crease: { kind: 'none' as const },
  });
  const cloth = clothOf({
    name: 'button-box scraps',
    width: inches(43),
    inHand: [length('blue quarter', 21.5, 17.75, 2), length('long end', 43, 11.5, 1)],
  });
  const order = 'lavender bags';
  const pieces = [
    wanted({
      letter: 'A',
      name: 'side',
      order,
      cloth: cloth.name,
      width: inches(6.25),
      length: inches(8.375),
      copies: 14,
      seam: inches(0.375),
    }),
    wanted({
      letter: 'B',
      name: 'ribbon casing',
      order,
      cloth: cloth.name,
      width: inches(6.25),
      length: inches(2.125),
      copies: 5,
      seam: inches(0.25),
    }),
  ];
  const [side, casing] = pieces.map(({ id }) => piece(id)) as [Tree, Tree];
  const sides = (count: number): Tree =>
    cut('lengthwise', ...repeat(count, [inches(6.25), side] as const), ['rest', scrap]);
  const quarter = cut('crosscut', [inches(8.375), sides(3)], [inches(8.375), sides(3)], ['rest', scrap]);
  const end = cut(
    'crosscut',
    [inches(8.375), sides(2)],
    [
      'rest',
      cut(
        'crosscut',
        [inches(2.125), cut('lengthwise', ...repeat(5, [inches(6.25), casing] as const), ['rest', scrap])],
        ['rest', scrap],
      ),
    ],
  );
  return cutPlanOf({
    name: 'The Tern House: linen cupboard',
    unit: 'in',
    paper: 'letter',
    cloths: [cloth],
    pieces,
    lengths: {
      [cloth.name]: [
        flat(inches(21.5), inches(17.75), quarter, 'blue quarter 1'),
        flat(inches(21.5), inches(17.75), quarter, 'blue quarter 2'),
        flat(inches(43), inches(11.5), end, 'long end'),
      ],
    },
  });
}

export const SAMPLES: Readonly<Record<string, () => CutPlan>> = {
  breakfastRoom,
  foldedBedroom,
  longCurtains,
  manySmallPieces,
  cupboard,
};
