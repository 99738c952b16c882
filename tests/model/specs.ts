import type { MakeSpec } from '../../src/model/measure.ts';

/** Made-up makes that between them ask for every kind of measure. */
export const specs: readonly MakeSpec[] = [
  {
    kind: 'envelope-cover',
    title: 'Envelope cover',
    summary: 'a cover that closes with two overlapping backs',
    measures: {
      size: { kind: 'size', meaning: 'Finished size.' },
      seam: {
        kind: 'length',
        least: 'positive',
        meaning: 'Seam allowance.',
        default: { inches: '1/2', metric: '1.2' },
      },
      hem: { kind: 'hem', meaning: 'Hem of the backs.', default: { inches: '1 + 1/2', metric: '2.5 + 1' } },
      'smaller by': { kind: 'length', meaning: 'Smaller than the pad.', optional: true },
      pad: { kind: 'size', meaning: 'The pad that is at hand.', optional: true },
      opening: {
        kind: 'choice',
        meaning: 'How it closes.',
        choices: ['level', 'upright', 'either'],
        default: { inches: 'level', metric: 'level' },
      },
    },
    parts: {
      front: { meaning: 'The side that is seen.' },
      backs: { meaning: 'Both backs.' },
      interfacing: { meaning: 'Behind the front.', optional: true },
    },
  },
  {
    kind: 'curtain',
    title: 'Curtain',
    summary: 'a flat curtain',
    measures: {
      drop: { kind: 'length', least: 'positive', meaning: 'Finished drop.' },
      fullness: {
        kind: 'factor',
        least: '1',
        most: '3.5',
        meaning: 'Cloth to rail.',
        default: { inches: '2 1/4', metric: '2.25' },
      },
      widths: { kind: 'count', least: 2, meaning: 'Joined widths.', default: { inches: '3', metric: '4' } },
      lined: { kind: 'yes-no', meaning: 'Whether it is lined.', default: { inches: 'no', metric: 'no' } },
    },
    parts: { panel: { meaning: 'The curtain.' } },
  },
];
