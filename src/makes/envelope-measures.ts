import type { Hem, MakeSpec } from '../model/measure.ts';
import type { ArithmeticLine, Size } from '../model/piece.ts';
import { type Ticks, ticks } from '../units/ticks.ts';
import { line } from './arithmetic.ts';
import type { EnvelopeBacks } from './envelope-backs.ts';
import type { Remark } from './make.ts';
import type { Measures } from './measures.ts';
import { OPENING, OPENING_CHOICE, OPENINGS, type Opening } from './openings.ts';
import { hemPractice, nothingLeft, type Practice, seamPractice, usual, warning } from './practice.ts';

const PAD = 'pad';

/** What the covers call for besides cloth. */
export const coverNeeds: NonNullable<MakeSpec['needs']> = [{ what: 'pad', size: 'size', kept: PAD }];

/** What every cover with an envelope opening asks for. */
export const coverMeasures: MakeSpec['measures'] = {
  size: { mayGive: true, kind: 'size', meaning: 'The pad, across and up as it stands.' },
  'smaller than pad': {
    kind: 'length',
    least: 'zero',
    default: { inches: '0', metric: '0' },
    meaning:
      'How much smaller the finished cover is than the pad, each way. Often 1 in for a fibre pad and 2 in for feather; 0 where the size is that of the cover.',
  },
  [PAD]: {
    kind: 'size',
    optional: true,
    meaning:
      'The pad that is at hand, where it is not of the size above: a cover that had to be made smaller keeps its pad, which sits tighter.',
  },
  'seam allowance': {
    kind: 'length',
    least: 'zero',
    default: { inches: '1/2', metric: '1.5' },
    meaning: 'From the seam to the cut edge.',
  },
  hem: {
    kind: 'hem',
    default: { inches: '1 + 1/2', metric: '2.5 + 1' },
    meaning: 'The hem of each back: what is seen, and what is turned under it.',
  },
  [OPENING]: {
    kind: 'choice',
    choices: [...OPENINGS, 'either'],
    default: { inches: 'level', metric: 'level' },
    meaning:
      'Which way the opening runs as the cover stands; `either` lets the plan choose whichever takes less cloth.',
  },
  [OPENING_CHOICE]: {
    kind: 'choice',
    choices: ['whole set', 'each cover'],
    default: { inches: 'whole set', metric: 'whole set' },
    meaning:
      'Where the opening is `either`: whether all covers of the order close one way, or each as takes less cloth.',
  },
  lap: {
    kind: 'length',
    least: 'positive',
    optional: true,
    meaning:
      'By how much the finished backs lie over each other. Left out, it follows from both back depths, or is a quarter of the cover.',
  },
  'outer back depth': {
    kind: 'length',
    least: 'positive',
    optional: true,
    meaning: 'From the seam of the back that lies outside to its folded edge. Left out, it follows.',
  },
  'inner back depth': {
    kind: 'length',
    least: 'positive',
    optional: true,
    meaning: 'From the seam of the back that lies inside to its folded edge. Left out, it follows.',
  },
};

export interface Cover {
  readonly pad: Size;
  /** The pad that is at hand, where it has another size. */
  readonly padAtHand?: Size;
  readonly smaller: Ticks;
  readonly finished: Size;
  readonly allowance: Ticks;
  readonly hem: Hem;
  readonly opening: Opening;
  /** Finished measure across the opening: up the cover for a level one. */
  readonly depth: Ticks;
}

/** The measures that every envelope-back cover shares. */
export function measured(measures: Measures): Cover {
  const pad = measures.size('size');
  const smaller = measures.length('smaller than pad');
  // Which way an opening left open runs is settled before; alone, the make shows it level.
  const asked = measures.choice(OPENING, [...OPENINGS, 'either']);
  const opening = asked === 'either' ? 'level' : asked;
  const padAtHand = measures.optionalSize(PAD);
  const finished = { width: ticks(pad.width - smaller), length: ticks(pad.length - smaller) };
  return {
    pad,
    ...(padAtHand && { padAtHand }),
    smaller,
    finished,
    allowance: measures.length('seam allowance'),
    hem: measures.hem('hem'),
    opening,
    depth: opening === 'level' ? finished.length : finished.width,
  };
}

export function coverRemarks(cover: Cover, practice: Practice): readonly Remark[] {
  const { pad, smaller, finished, allowance } = cover;
  return [
    ...nothingLeft(
      'smaller than pad',
      'A pad of {width} by {length} leaves no cover when that is {smaller} smaller: make the difference less.',
      { width: pad.width, length: pad.length, smaller },
      [finished.width, finished.length],
    ),
    ...seamPractice(practice, allowance),
    ...padFit(cover, practice),
  ];
}

/** How a pad sits that is not of the planned size: a cover is made 1 in smaller than a fibre pad, 2 in than feather (common practice). */
function padFit({ padAtHand: pad, finished }: Cover, { unit }: Practice): readonly Remark[] {
  if (!pad) return [];
  const over = [ticks(pad.width - finished.width), ticks(pad.length - finished.length)];
  const [most, least] = [ticks(Math.max(...over)), ticks(Math.min(...over))];
  const usually = {
    fibre: usual(unit, { inches: 1, millimetres: 25 }),
    feather: usual(unit, { inches: 2, millimetres: 50 }),
  };
  const size = { width: pad.width, length: pad.length };
  const told = 'usual are {fibre} for a fibre pad and {feather} for feather';
  if (most > usually.feather) {
    const sentence = `The pad of {width} by {length} is {by} larger than the cover and may strain the seams; ${told}. A smaller pad would sit better.`;
    return [warning(PAD, sentence, { ...size, ...usually, by: most })];
  }
  if (most > 0) {
    const sentence = `The pad of {width} by {length} sits tighter: the cover is {by} smaller; ${told}.`;
    return [warning(PAD, sentence, { ...size, ...usually, by: most })];
  }
  const loose = 'The pad of {width} by {length} sits loose: the cover is {by} larger.';
  return least < 0 ? [warning(PAD, loose, { ...size, by: ticks(-least) })] : [];
}

/** From the pad to the finished cover, where the two differ. */
export function shrinkArithmetic({ pad, smaller, finished }: Cover): readonly ArithmeticLine[] {
  if (smaller === 0) return [];
  return [
    line('cover, across', pad.width, '-', smaller, '=', finished.width),
    line('cover, up', pad.length, '-', smaller, '=', finished.length),
  ];
}

/** The shallower back is the first that a hem is too deep for. */
export function backHems(
  { hem }: Cover,
  { outer, inner }: EnvelopeBacks,
  practice: Practice,
): readonly Remark[] {
  const [room, piece] = outer < inner ? [outer, 'outer back'] : [inner, 'inner back'];
  return hemPractice(practice, { measure: 'hem', hem, room, piece });
}
