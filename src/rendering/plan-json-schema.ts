import { z } from 'zod';

/**
 * The document that `plan.json` holds, as one definition: its type and its JSON Schema both come from here.
 * Every length is written twice: exactly, in ticks of 1/320 mm, and as the user reads it.
 * x runs across the cloth, y along its length, both from the lower left of the opened length.
 */
export const PLAN_JSON_VERSION = 1;

const length = z
  .strictObject({
    ticks: z.int().min(0).describe('1/320 mm each'),
    shown: z.string().describe("in the plan's own unit"),
  })
  .meta({ id: 'length' });

const size = z
  .strictObject({ width: length, length, shown: z.string() })
  .meta({ id: 'size', description: 'width across and length up the piece as it stands upright' });

const count = z.int().min(0);

const box = { x: length, y: length, width: length, length };

const money = z
  .strictObject({ hundredths: z.int().min(0), shown: z.string() })
  .meta({ id: 'money', description: "hundredths of the currency's unit" });

const leaves = [
  z.strictObject({
    kind: z.literal('piece'),
    piece: z.string(),
    quarterTurns: z.literal([0, 1, 2, 3]).describe('counter-clockwise, from upright'),
  }),
  z.strictObject({ kind: z.literal('remnant') }),
  z.strictObject({ kind: z.literal('scrap') }),
  z.strictObject({
    kind: z.literal('trim'),
    of: z.enum(['selvedge', 'crease', 'squaring', 'cut-to-size']),
  }),
] as const;

export type TreeJson =
  | z.infer<(typeof leaves)[number]>
  | {
      kind: 'cut';
      direction: 'crosscut' | 'lengthwise';
      at: z.infer<typeof length>[];
      parts: TreeJson[];
    };

const tree: z.ZodType<TreeJson> = z
  .union([
    ...leaves,
    z.strictObject({
      kind: z.literal('cut'),
      direction: z.enum(['crosscut', 'lengthwise']),
      at: z.array(length).describe("from the part's own near edge; one fewer than parts"),
      parts: z.array(z.lazy(() => tree)),
    }),
  ])
  .meta({ id: 'tree', description: 'the length as a tree of straight edge-to-edge cuts' });

const perCent = z.number().min(0).max(100).describe('per cent, rounded down to a hundredth');

const placed = z.strictObject({
  piece: z.string(),
  letter: z.string(),
  ...box,
  quarterTurns: z.literal([0, 1, 2, 3]),
});

const leftover = z.strictObject({ kind: z.enum(['remnant', 'scrap']), ...box, shown: z.string() });

const step = z.strictObject({
  number: count,
  begins: z
    .literal(true)
    .optional()
    .describe('cuts where the print begins: its setting is the most that may go'),
  action: z.enum(['crosscut', 'cut-lengthwise']),
  blade: z
    .enum(['rotary', 'scissors', 'tear'])
    .describe('not rotary where neither the ruler nor a fold reaches'),
  plies: count.describe('under the blade, where they are most'),
  reachFolds: z.literal([0, 1, 2]).describe('folds that shorten the line until the ruler reaches'),
  mirrorAt: length.optional().describe('folded here, so that the settings count from the fold'),
  settings: z.array(length).describe('in the order of the hands, each from the edge the cut before it left'),
  measures: z
    .array(z.enum(['ruler', 'mat', 'tape']))
    .optional()
    .describe('by what each setting is measured, where the width of the ruler is known'),
  squareAfter: count.optional().describe('cuts after which the fold is laid true again'),
  oneByOne: count
    .optional()
    .describe('cloths of a stack that this is done to one by one, before they are stacked'),
  passes: count,
  todo: z.string(),
  spread: z.string(),
  frees: z.string(),
});

const lengthOfCloth = z.strictObject({
  name: z.string(),
  source: z.enum(['bought', 'in-hand']),
  width: length,
  length,
  lay: z.union([
    z.strictObject({ kind: z.literal('flat') }),
    z.strictObject({ kind: z.literal('folded'), foldAt: length.describe('x of the opened cloth') }),
  ]),
  oneSpread: z.literal(true).optional().describe('laid once for all cuts'),
  begins: z
    .strictObject({
      within: length.describe('the most that goes for it, as the tree is drawn: a repeat'),
      motif: length
        .optional()
        .describe('from the cut to the first motif; absent where pieces are only to be alike'),
      column: length
        .optional()
        .describe('of a half drop: from the left edge to a column of the motifs meant'),
      words: z.string(),
    })
    .optional()
    .describe('where the start of a matched print is not known: its first step cuts where the print begins'),
  tree,
  placed: z.array(placed),
  leftovers: z
    .array(leftover)
    .describe(
      'as they hang together when all is cut: remnants by their usable cloth, shown on the marks; trim is in the tree only',
    ),
  turnFirst: z
    .string()
    .optional()
    .describe('of a length that is turned about before it is folded: how; all measures are as it lies then'),
  endToTest: z
    .string()
    .optional()
    .describe('where no step squares the near end: how to see that it is straight'),
  foldFirst: z.string().optional().describe('of a folded lay: how it is folded before the first cut'),
  upToMark: z
    .string()
    .optional()
    .describe('where plies of a cloth with an up are folded end to end: what to mark first'),
  steps: z
    .array(step)
    .describe('the order of work; empty for all but the first layer of a stack, whose steps cut every layer'),
  panels: z
    .array(
      z.strictObject({
        name: z.string(),
        ...box,
        quarterTurns: z.literal([0, 1, 2, 3]).describe('counter-clockwise, from how the picture stands'),
        state: z.enum(['taken', 'left', 'cut']).describe('left: whole in one leftover'),
        piece: z.string().optional().describe('that is cut around it'),
      }),
    )
    .optional()
    .describe('printed panels, where the cloth has any'),
});

const cloth = z.strictObject({
  cloth: z.string(),
  answer: z.enum(['best', 'found']).describe('best: no plan of this kind needs less cloth, proven'),
  bound: length.optional().describe('least length that any plan can need'),
  ways: z
    .array(
      z.strictObject({
        lay: z.enum(['flat', 'folded', 'part-folded']),
        chosen: z.boolean(),
        bought: length,
        cost: money.optional(),
        cuts: count,
        folds: count,
        spare: count.describe('pieces cut beyond what is wanted'),
      }),
    )
    .optional()
    .describe(
      'where there are several: ways to lay it of which none is better in every respect, least cloth first',
    ),
  purchase: z
    .strictObject({
      needed: length,
      bought: length,
      cost: money.optional(),
      lengths: z
        .array(
          z.strictObject({
            needed: length,
            bought: length,
            ask: z.string(),
            counter: z
              .string()
              .optional()
              .describe('how the shop is to cut it, where printed panels are cut around'),
          }),
        )
        .describe('what to ask for at the counter, one entry a length'),
    })
    .optional(),
  measured: z
    .array(
      z.strictObject({
        length: z.string().describe('by its name'),
        size,
        before: length.optional().describe('its length before washing, where that was told'),
        words: z.string(),
      }),
    )
    .optional()
    .describe('present where the cloth was washed and measured, and planned as it was measured'),
  surplus: z.array(z.strictObject({ piece: z.string(), copies: count })),
  markerEfficiency: perCent.describe('wanted pieces ÷ (length used × usable width)'),
  utilisation: perCent.describe('wanted pieces ÷ all the cloth bought or opened'),
  pieces: count.describe('copies cut, spares included'),
  remnants: z
    .array(size)
    .describe(
      'usable sizes of keepable leftovers, largest first; selvedges that are still on them are not counted',
    ),
  cuts: count.describe('passes of the blade'),
  folds: count,
  lengths: z.array(lengthOfCloth),
});

const piece = z.strictObject({
  id: z.string(),
  letter: z.string(),
  name: z.string(),
  order: z.string(),
  cloth: z.string(),
  copies: count,
  cutSize: size.describe("rounded up to the ruler's marks"),
  exactSize: size.describe('before that rounding'),
  washesTo: size
    .optional()
    .describe('cut larger for a wash to come: the finished size that it then comes to'),
  grain: z.enum(['lengthwise', 'crosswise', 'either']),
  opening: z
    .enum(['level', 'upright'])
    .optional()
    .describe('which way its cover closes, where the plan chose'),
  panel: z.string().optional().describe('the printed panel in its middle'),
  mount: z
    .strictObject({
      as: z.enum(['panel', 'side strip', 'end strip', 'ground']),
      panel: z.string(),
      makes: size.describe('the front that they make together'),
    })
    .optional()
    .describe('what it does in mounting a panel'),
});

const make = z.strictObject({
  order: z.string(),
  make: z.string(),
  title: z.string(),
  count,
  finished: size,
  loose: z
    .literal(true)
    .optional()
    .describe('no make: a loose piece whose panel is mounted, finished at its cut size'),
  arithmetic: z.array(z.string()),
  assembly: z.array(z.string()),
  openings: z
    .strictObject({ level: count, upright: count })
    .optional()
    .describe('how many close which way, where the order leaves it to the plan'),
});

const joined = z
  .strictObject({
    piece: z.string(),
    letter: z.string(),
    cloth: z.string(),
    copies: count,
    cutSize: size.describe('once joined'),
    by: z.enum(['seam', 'lap']),
    allowance: length.describe('seam: of each edge; lap: how far one part lies over the other'),
    columns: z.array(length).describe('widths of the parts, left to right'),
    rows: z.array(length).describe('lengths of the parts, bottom to top'),
    parts: z.array(z.string()).describe('ids, row by row from the lower left'),
    steps: z.array(
      z.strictObject({
        first: z.string().describe('letters joined already; lies over the second in a lap'),
        second: z.string(),
        lines: z.enum(['upright', 'level']),
        depth: length.describe('seam: from each edge to the stitches; lap: all of the lap'),
        gives: size,
        words: z.string(),
      }),
    ),
  })
  .meta({ description: 'a piece larger than its cloth, and what joins to what in order' });

const stackOfCloths = z
  .strictObject({
    layers: z
      .array(z.strictObject({ cloth: z.string(), length: z.string() }))
      .describe('lengths by name, from the lowest up, one ply each'),
    edge: z.enum(['left', 'right']).describe('at which they are aligned'),
    taken: z.boolean().describe('false: each is cut by itself, and this is what a stack would do'),
    sectionsFirst: z
      .literal(true)
      .optional()
      .describe(
        'each cloth is crosscut into sections by itself, before like sections are laid on each other',
      ),
    cutsApart: count.describe('passes of the blade, each cut by itself'),
    cutsStacked: count,
    withScissors: count.describe('of cutsStacked, since no fold brings them within the ruler'),
    extraBought: z.array(z.int()).describe('ticks more that are bought, layer by layer; below 0 is less'),
    extraCost: z.int().optional().describe('hundredths; left out unless all that is bought has a price'),
    words: z.string(),
  })
  .meta({ description: 'cloths that are cut as one, whose trees agree but for what lies beside the pieces' });

/** Money, or where some cloth has no price, the length bought. */
const amount = z.strictObject({ cost: money.optional(), length: length.optional() });

const choice = z
  .strictObject({
    lots: z
      .array(z.strictObject({ order: z.string(), count, cloths: z.record(z.string(), z.string()) }))
      .describe('so many things of an order with the cloth of each part, in the order of sewing'),
    answer: z.enum(['best', 'found']).describe('best: no choice that keeps the rules costs less, proven'),
    total: amount.describe('of all that is bought'),
    bound: amount.describe('no choice that keeps the rules costs less'),
  })
  .describe('which cloths were chosen where the plan left them open');

const oneUse = {
  name: z.string(),
  make: z.string(),
  source: z
    .enum(['list', 'plan', 'usual'])
    .describe("the maker's list, an order of the plan, or a usual size"),
  finished: size,
  count,
};

const useAcross = z.strictObject({
  ...oneUse,
  proven: z.boolean().describe('no more can be had'),
  joined: z.boolean(),
  from: z.array(z.strictObject({ cloth: z.string(), lengths: z.array(z.string()) })),
  worth: money,
});

const uses = z.strictObject({
  cloth: z.string(),
  left: z.array(
    z.strictObject({
      name: z.string(),
      size: size.describe('with the selvedges that are still on it'),
      usable: size.describe('without them').optional(),
      motifAcross: length
        .optional()
        .describe('from its left edge to a column of motifs, where that is known'),
      motifAlong: length.optional().describe('from its near end to the first motif there'),
      of: z.string().optional().describe('the length that it is left of, and where it lies on it'),
      x: length.optional(),
      y: length.optional(),
    }),
  ),
  uses: z
    .array(
      z.strictObject({
        ...oneUse,
        proven: z.boolean().describe('no more can be had'),
        joined: z.boolean(),
        from: z.array(z.string()).describe('leftovers by name'),
        takes: perCent.describe('pieces ÷ all that is left of the cloth, rounded down'),
        worth: money,
      }),
    )
    .describe('best first'),
  together: z.strictObject({ uses: z.array(z.strictObject(oneUse)), worth: money }).optional(),
  more: z
    .array(
      z.strictObject({
        ...oneUse,
        without: count.describe('what the leftovers give without buying more'),
        more: length.describe('beyond what the plan buys'),
        alone: length.describe('what they would take by themselves'),
        cost: money.optional(),
      }),
    )
    .describe('smallest addition first'),
});

const remark = z.strictObject({
  code: z.string(),
  severity: z.enum(['warning', 'note']),
  path: z.array(z.union([z.string(), z.int()])),
  message: z.string(),
});

const cupboard = z
  .strictObject({
    name: z.string(),
    cutBefore: count.describe('plans cut from it before this one was made'),
    file: z.string().optional().describe('its file, seen from where the plan was made'),
    takenOut: z.array(
      z.strictObject({
        entry: z.string(),
        cloth: z.string(),
        width: length,
        length: length.describe('along the lengthwise grain, before any washing'),
        copies: count,
      }),
    ),
    putBack: z
      .array(
        z.strictObject({
          cloth: z.string(),
          entry: z.string().optional().describe('the entry that it is left of'),
          width: length,
          length,
          selvedge: z.strictObject({ left: length, right: length }),
          crease: z.union([
            z.strictObject({ kind: z.enum(['none', 'use']) }),
            z.strictObject({
              ...{ kind: z.literal('keep-off'), each: length },
              at: length.optional().describe('from the left edge of the leftover, where it is not midway'),
            }),
          ]),
          direction: z.enum(['plain', 'two-way', 'one-way', 'nap']),
          printRuns: z.enum(['along', 'across']),
          washed: z.boolean(),
          panels: z
            .array(
              z.strictObject({
                name: z.string(),
                ...box,
                quarterTurns: z.literal([0, 1, 2, 3]),
              }),
            )
            .optional()
            .describe('of cloth with printed panels: those that lie whole on it'),
        }),
      )
      .describe('keepable leftovers, the edges that no cut takes away counted in their width'),
  })
  .describe('present where a cupboard was named: what changes in it once the cutting is done');

export const planJsonSchema = z
  .strictObject({
    format: z.literal('laywright cut plan'),
    version: z.literal(PLAN_JSON_VERSION),
    name: z.string(),
    note: z.string().optional(),
    unit: z.enum(['in', 'cm']),
    ticksPerMillimetre: z.literal(320),
    rulerMark: length,
    currency: z.string(),
    pieces: z.array(piece),
    joined: z.array(joined),
    stacks: z.array(stackOfCloths),
    makes: z.array(make),
    choice: choice.optional(),
    cloths: z.array(cloth),
    totals: z.strictObject({
      pieces: count,
      cuts: count,
      folds: count,
      remnants: count,
      cost: money.optional().describe('left out unless every cloth that is bought has a price'),
    }),
    uses: z
      .array(uses)
      .optional()
      .describe('what the leftovers could become, where the plan lists what it would like'),
    usesAcross: z
      .array(useAcross)
      .optional()
      .describe('what leftovers of several cloths could become together, dearest first'),
    remarks: z.array(remark),
    cupboard: cupboard.optional(),
  })
  .meta({ title: 'A cut plan of Laywright' });

export type PlanJson = z.infer<typeof planJsonSchema>;

/** The JSON Schema (draft 2020-12) of `plan.json`. */
export function planJsonSchemaDocument(): object {
  return z.toJSONSchema(planJsonSchema, { target: 'draft-2020-12' });
}
