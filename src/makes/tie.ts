import type { MakeSpec } from '../model/measure.ts';
import { ticks } from '../units/ticks.ts';
import type { Make } from './make.ts';
import { measuresOf } from './measures.ts';
import { practiceIn, seamPractice } from './practice.ts';
import { writtenIn } from './sewing.ts';
import { STRAP_FOLDS, type Strap, strapArithmetic, strapAssembly, strapFold, strapPiece } from './strap.ts';

const spec: MakeSpec = {
  kind: 'tie',
  title: 'Tie',
  summary: 'One narrow strap on the straight grain, to tie or to hang by.',
  measures: {
    length: { mayGive: true, kind: 'length', least: 'positive', meaning: 'Finished, end to end.' },
    width: {
      kind: 'length',
      least: 'positive',
      default: { inches: '1/2', metric: '1.2' },
      meaning: 'Finished.',
    },
    ends: {
      kind: 'length',
      least: 'zero',
      default: { inches: '1/2', metric: '1.2' },
      meaning: 'Added at each end, to be turned in or sewn in.',
    },
    fold: strapFold,
    'seam allowance': {
      kind: 'length',
      least: 'zero',
      default: { inches: '1/4', metric: '0.7' },
      meaning: 'Of the long seam, where the tie is turned through.',
    },
  },
  parts: { tie: { meaning: 'The whole tie.' } },
};

export const tie: Make = {
  spec,
  expand(order, { unit }) {
    const measures = measuresOf(order);
    const strap: Strap = {
      name: 'tie',
      part: 'tie',
      perMake: 1,
      length: measures.length('length'),
      width: measures.length('width'),
      end: measures.length('ends'),
      fold: measures.choice('fold', STRAP_FOLDS),
      allowance: measures.length('seam allowance'),
    };
    return {
      finished: { width: strap.width, length: ticks(strap.length) },
      pieces: [strapPiece(strap)],
      arithmetic: strapArithmetic(strap),
      assembly: [...strapAssembly(strap, writtenIn(unit)), 'Turn in the free ends and stitch them.'],
      cautions: ['rotary-cutter'],
      remarks: strap.fold === 'turned through' ? seamPractice(practiceIn(unit), strap.allowance) : [],
    };
  },
};
