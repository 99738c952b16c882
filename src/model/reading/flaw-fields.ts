import { type Ticks, ticks } from '../../units/ticks.ts';
import type { Flaw } from '../cloth.ts';
import { keyed, listOf, type Problem, type ReadingContext } from './fields.ts';
import { length, size } from './scalars.ts';

/** Holes, stains and cut-away corners of a length in hand. */
export function flawsDefinition(context: ReadingContext) {
  const meaning =
    'Holes, stains and cut-away corners: each a box by where it begins and its size, or an outline by its corners.';
  const box = '{ from edge: 5, from end: 12, size: 3 x 4 }';
  const place = (from: string) =>
    length(
      { meaning: `Where its box begins, from the ${from}.`, round: 'down', example: '5' },
      context,
    ).optional();
  const flaw = keyed(
    {
      'from edge': place('left outer edge'),
      'from end': place('near end'),
      size: size('How far its box reaches across and along.', context, '3 x 4').optional(),
      outline: corners(context).optional(),
    },
    {
      wanted: `a box such as ${box}, or an outline such as { outline: [[0, 0], [14, 0], [0, 11]] }`,
      example: box,
    },
  )
    .superRefine((written, issues) => {
      const report = (path: string, problem: Problem) =>
        issues.addIssue({ code: 'custom', path: [path], message: '', params: { problem } });
      for (const key of BOX_KEYS) {
        const given = written[key] !== undefined;
        if (written.outline !== undefined && given) {
          report(key, {
            code: 'out-of-range',
            details: { found: key, wanted: 'either an outline or a box' },
          });
        } else if (written.outline === undefined && !given) {
          report(key, { code: 'missing', details: { field: key, example: key === 'size' ? '3 x 4' : '5' } });
        }
      }
    })
    .transform((written): Flaw => {
      if (written.outline) return { outline: written.outline.map(([x, y]) => ({ x: x!, y: y! })) };
      return boxOf(written['from edge']!, written['from end']!, written.size!);
    });
  return listOf(flaw, { wanted: `a list such as [${box}]`, example: `[${box}]` }).meta({
    description: meaning,
  });
}

const BOX_KEYS = ['from edge', 'from end', 'size'] as const;

function corners(context: ReadingContext) {
  const measure = length(
    { meaning: 'Across from the left outer edge, then along from the near end.' },
    context,
  );
  const pair = { wanted: 'two lengths, across and along, such as [14, 0]', example: '[14, 0]' };
  const corner = listOf(measure, pair).superRefine((lengths, issues) => {
    if (lengths.length === 2) return;
    const details = { found: `${lengths.length} lengths`, wanted: pair.wanted };
    issues.addIssue({ code: 'custom', message: '', params: { problem: { code: 'out-of-range', details } } });
  });
  return listOf(corner, { wanted: 'at least three corners', example: '[[0, 0], [14, 0], [0, 11]]' })
    .superRefine((found, issues) => {
      if (found.length >= 3) return;
      const details = { found: `${found.length} corners`, wanted: 'at least three' };
      issues.addIssue({
        code: 'custom',
        message: '',
        params: { problem: { code: 'out-of-range', details } },
      });
    })
    .meta({ description: 'Its corners in order, each once.' });
}

function boxOf(
  x: Ticks,
  y: Ticks,
  { width, length }: { readonly width: Ticks; readonly length: Ticks },
): Flaw {
  const [right, far] = [ticks(x + width), ticks(y + length)];
  return {
    outline: [
      { x, y },
      { x: right, y },
      { x: right, y: far },
      { x, y: far },
    ],
  };
}
