import type { Mount } from '../model/panel.ts';
import type { ArithmeticLine, Box, InMount, PieceLine, Size } from '../model/piece.ts';
import type { PlanUnit } from '../model/plan.ts';
import { ceilTo, type Ticks, ticks } from '../units/ticks.ts';
import { line } from './arithmetic.ts';
import type { Draft } from './panels.ts';
import { writtenIn } from './sewing.ts';

/** A panel made up to the size of its front. */
export interface Mounted {
  /** The panel first, then what it is mounted with. */
  readonly drafts: readonly Draft[];
  /** Most that the panel may measure. */
  readonly room: Size;
  /** Least border that shows beside the panel's seam; absent where no strips are sewn on. */
  readonly shows?: Ticks;
  readonly arithmetic: readonly ArithmeticLine[];
  readonly assembly: readonly string[];
}

export interface ToMount {
  readonly panel: string;
  /** Upright, as it lies on the table. */
  readonly size: Size;
  readonly mount: Mount;
  readonly part: string;
  readonly front: string;
  readonly unit: PlanUnit;
}

/**
 * The pieces that make a front with a panel in its middle. The panel is cut with a seam, or a turn, beyond its print on
 * every side, so that all of it shows.
 *
 * ```
 *   ┌──────────────┐
 *   │  end strip   │     side: as long as the cut panel
 *   ├──┬────────┬──┤     end: as long as panel and sides sewn together
 *   │  │ panel  │  │
 *   ├──┴────────┴──┤
 *   │  end strip   │
 *   └──────────────┘
 * ```
 */
export function mountedOn(front: Draft, to: ToMount, mark: Ticks): Mounted {
  return to.mount.kind === 'strips' ? withStrips(front, to, mark) : onGround(front, to, mark);
}

function withStrips(front: Draft, to: ToMount, mark: Ticks): Mounted {
  const { cloth, seam } = to.mount as Extract<Mount, { kind: 'strips' }>;
  const { size } = front;
  const across = border(size.width, to.size.width, seam, mark);
  const up = border(size.length, to.size.length, seam, mark);
  const cut: Size = { width: across.panel, length: up.panel };
  const { finished } = front;
  const panel = pieceOf(front, to, 'panel', { size: cut, exactSize: cut }, [
    across.strip > 0 ? seam : finished.x0,
    up.strip > 0 ? seam : finished.y0,
    across.strip > 0 ? seam : ticks(size.width - finished.x1),
    up.strip > 0 ? seam : ticks(size.length - finished.y1),
  ]);
  const strip = (as: InMount['as'], exactSize: Size, edges: Edges) => {
    const marked = { width: ceilTo(exactSize.width, mark), length: ceilTo(exactSize.length, mark) };
    const own = pieceOf(front, to, as, { size: marked, exactSize }, edges);
    return { ...own, cloth, copies: 2 * front.copies, grain: 'either' as const };
  };
  const [outer, top] = [finished.x0, finished.y0];
  const sides =
    across.strip > 0
      ? [strip('side strip', { width: across.strip, length: up.panel }, [outer, seam, seam, seam])]
      : [];
  const ends =
    up.strip > 0
      ? [strip('end strip', { width: across.together, length: up.strip }, [outer, top, outer, seam])]
      : [];
  const shows = [
    ...(across.strip > 0 ? [across.strip - seam - outer] : []),
    ...(up.strip > 0 ? [up.strip - seam - top] : []),
  ];
  const drafts = [panel, ...sides, ...ends];
  return {
    drafts,
    room: size,
    ...(shows.length > 0 && { shows: ticks(Math.max(0, Math.min(...shows))) }),
    arithmetic: drafts.flatMap((own) => arithmeticOf(own, { to, front: size, seam, across, up })),
    assembly: assemblyOf(writtenIn(to.unit)(seam), {
      sides: sides.length > 0,
      ends: ends.length > 0,
      larger: across.together > size.width || up.together > size.length,
    }),
  };
}

/** What one direction comes to: the cut panel, the strip on either side (0 for none), and all sewn together, seams taken. */
interface Border {
  readonly panel: Ticks;
  readonly strip: Ticks;
  readonly together: Ticks;
}

function border(front: Ticks, panel: Ticks, seam: Ticks, mark: Ticks): Border {
  const cut = ceilTo(ticks(panel + 2 * seam), mark);
  if (cut >= front) return { panel: front, strip: ticks(0), together: front };
  // Each of the two seams takes its allowance from the panel and from the strip.
  const strip = ceilTo(ticks(Math.ceil((front - cut + 4 * seam) / 2)), mark);
  return { panel: cut, strip, together: ticks(cut + 2 * strip - 4 * seam) };
}

function onGround(front: Draft, to: ToMount, mark: Ticks): Mounted {
  const { cloth, turn } = to.mount as Extract<Mount, { kind: 'ground' }>;
  const exactSize = { width: ticks(to.size.width + 2 * turn), length: ticks(to.size.length + 2 * turn) };
  const size = { width: ceilTo(exactSize.width, mark), length: ceilTo(exactSize.length, mark) };
  const panel = pieceOf(front, to, 'panel', { size, exactSize }, [turn, turn, turn, turn], 'turn-under');
  const ground: Draft = {
    ...front,
    ...named(front, to, 'ground'),
    cloth,
  };
  return {
    drafts: [panel, ground],
    room: {
      width: ticks(Math.max(0, front.size.width - 2 * turn)),
      length: ticks(Math.max(0, front.size.length - 2 * turn)),
    },
    arithmetic: [
      ...WAYS.map(([way, side]) =>
        line(
          `${panel.name}, ${way}`,
          to.size[side],
          '+ 2 ×',
          turn,
          '=',
          exactSize[side],
          ...upTo(exactSize[side], size[side]),
        ),
      ),
      ...WAYS.map(([way, side]) => line(`${ground.name}, ${way}, as its front`, front.size[side])),
      ...WAYS.map(([way, side]) => {
        const beside = ticks(Math.floor((front.size[side] - to.size[side]) / 2));
        return line(
          `${ground.name}, beside the panel, ${way}`,
          '(',
          front.size[side],
          '−',
          to.size[side],
          ') ÷ 2 =',
          beside,
        );
      }),
    ],
    assembly: [
      `Turn the panel under ${writtenIn(to.unit)(turn)} all round and press it.`,
      'Lay it on the middle of its ground, up sides together, pin it, and stitch close to its edge all round.',
    ],
  };
}

const WAYS = [
  ['across', 'width'],
  ['up', 'length'],
] as const;

/** Left, bottom, right and top: how far each edge lies outside what is seen. */
type Edges = readonly [left: Ticks, bottom: Ticks, right: Ticks, top: Ticks];

function pieceOf(
  front: Draft,
  to: ToMount,
  as: InMount['as'],
  { size, exactSize }: Pick<Draft, 'size' | 'exactSize'>,
  [left, bottom, right, top]: Edges,
  kind: PieceLine['kind'] = 'seam',
): Draft {
  const finished: Box = {
    x0: left,
    y0: bottom,
    x1: ticks(Math.max(left, size.width - right)),
    y1: ticks(Math.max(bottom, size.length - top)),
  };
  const { x0, y0, x1, y1 } = finished;
  const lines: readonly PieceLine[] = [
    ...(bottom > 0 ? [{ kind, x0, y0, x1, y1: y0 }] : []),
    ...(right > 0 ? [{ kind, x0: x1, y0, x1, y1 }] : []),
    ...(top > 0 ? [{ kind, x0, y0: y1, x1, y1 }] : []),
    ...(left > 0 ? [{ kind, x0, y0, x1: x0, y1 }] : []),
  ];
  return { ...front, ...named(front, to, as), size, exactSize, finished, lines };
}

/** `front side strip`; with the panel's name behind where several are dealt out. */
function named(front: Draft, { panel, part, front: name }: ToMount, as: InMount['as']) {
  const behind = front.name === name ? '' : `, ${panel}`;
  const stem = front.id.slice(0, front.id.length - behind.length);
  return {
    id: `${stem} ${as}${behind}`,
    name: `${name} ${as}${behind}`,
    mount: { as, panel, part, front: name, makes: front.size },
  };
}

function arithmeticOf(
  own: Draft,
  {
    to,
    front,
    seam,
    across,
    up,
  }: {
    readonly to: ToMount;
    readonly front: Size;
    readonly seam: Ticks;
    readonly across: Border;
    readonly up: Border;
  },
): readonly ArithmeticLine[] {
  switch (own.mount!.as) {
    case 'panel':
      return (['width', 'length'] as const).flatMap((side) => {
        const exact = ticks(to.size[side] + 2 * seam);
        const way = side === 'width' ? 'across' : 'up';
        if (own.size[side] === front[side]) return [line(`${own.name}, ${way}, as its front`, front[side])];
        return [
          line(
            `${own.name}, ${way}`,
            to.size[side],
            '+ 2 ×',
            seam,
            '=',
            exact,
            ...upTo(exact, own.size[side]),
          ),
        ];
      });
    case 'side strip':
      return [stripLine(own.name, 'across', front.width, across, seam)];
    case 'end strip':
      return [
        line(`${own.name}, across`, across.panel, '+ 2 ×', across.strip, '− 4 ×', seam, '=', across.together),
        stripLine(own.name, 'up', front.length, up, seam),
      ].slice(across.strip > 0 ? 0 : 1);
    default:
      return [];
  }
}

/** Where the ruler's marks make a piece larger than its sum. */
function upTo(exact: Ticks, marked: Ticks): readonly (string | Ticks)[] {
  return exact === marked ? [] : ['up to', marked];
}

function stripLine(
  name: string,
  way: string,
  front: Ticks,
  { panel, strip }: Border,
  seam: Ticks,
): ArithmeticLine {
  return line(`${name}, ${way}`, '(', front, '−', panel, '+ 4 ×', seam, ') ÷ 2, on the ruler', '=', strip);
}

function assemblyOf(
  seam: string,
  { sides, ends, larger }: { readonly sides: boolean; readonly ends: boolean; readonly larger: boolean },
): readonly string[] {
  const sew = (strip: string, where: string) =>
    `Sew ${strip} ${where} with a seam of ${seam}, right sides together, and press the seams away from the panel.`;
  return [
    ...(sides ? [sew('a side strip', 'to the left and to the right of the panel')] : []),
    ...(ends
      ? [sew('an end strip', `above and below ${sides ? 'panel and side strips' : 'the panel'}`)]
      : []),
    ...(larger && (sides || ends)
      ? [
          'Cut the front true to its size, with the panel in its middle: the ruler made the strips a little wider.',
        ]
      : []),
  ];
}
