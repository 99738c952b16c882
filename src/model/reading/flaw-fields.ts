import { type Ticks, ticks } from '../../units/ticks.ts';
import type { Flaw } from '../cloth.ts';
import { either, keyed, listOf, type Problem, type ReadingContext } from './fields.ts';
import { length, size } from './scalars.ts';

/** Holes, stains and cut-away corners of a length in hand. */
export function flawsDefinition(context: ReadingContext) {
  const meaning =
    'Holes, stains and cut-away corners: each a box by where it begins and its size, or an outline by its corners.';
  const words = {
    wanted:
      'a list of { from edge: 5, from end: 12, size: 3 x 4 } or { outline: [[0, 0], [14, 0], [0, 11]] }',
    example: '[{ from edge: 5, from end: 12, size: 3 x 4 }]',
  };
  const place = (from: string) =>
    length({ meaning: `Where it begins, from the ${from}.`, round: 'down', example: '5' }, context);
  const boxed = keyed(
    {
      'from edge': place('left outer edge'),
      'from end': place('near end'),
      size: size('How far it reaches across and along.', context, '3 x 4'),
    },
    words,
  ).transform((written): Flaw => boxOf(written['from edge'], written['from end'], written.size));
  return listOf(either(boxed, outlined(context, words), words), words).meta({ description: meaning });
}

function outlined(context: ReadingContext, words: { readonly wanted: string; readonly example: string }) {
  const measure = length(
    { meaning: 'Across from the left outer edge, then along from the near end.' },
    context,
  );
  const pair = { wanted: 'two lengths, across and along, such as [14, 0]', example: '[14, 0]' };
  const corner = listOf(measure, pair).superRefine((lengths, issues) => {
    if (lengths.length === 2) return;
    const problem: Problem = {
      code: 'out-of-range',
      details: { found: `${lengths.length} lengths`, wanted: pair.wanted },
    };
    issues.addIssue({ code: 'custom', message: '', params: { problem } });
  });
  const corners = listOf(corner, { wanted: 'at least three corners', example: '[[0, 0], [14, 0], [0, 11]]' })
    .superRefine((found, issues) => {
      if (found.length >= 3) return;
      const problem: Problem = {
        code: 'out-of-range',
        details: { found: `${found.length} corners`, wanted: 'at least three' },
      };
      issues.addIssue({ code: 'custom', message: '', params: { problem } });
    })
    .meta({ description: 'Its corners in order, none twice.' });
  return keyed({ outline: corners }, words).transform(
    ({ outline }): Flaw => ({ outline: outline.map(([x, y]) => ({ x: x!, y: y! })) }),
  );
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
