import type { MakeSpec } from '../model/measure.ts';
import { ceilDiv, sum, ticks } from '../units/ticks.ts';
import { line } from './arithmetic.ts';
import { allAround, raw } from './edges.ts';
import type { Make } from './make.ts';
import { measuresOf } from './measures.ts';

const spec: MakeSpec = {
  kind: 'binding',
  title: 'Straight-grain binding',
  summary: 'Strips to be joined and sewn round the edge of something rectangular.',
  measures: {
    size: { kind: 'size', meaning: 'What is bound, across and up.' },
    'strip width': {
      kind: 'length',
      least: 'positive',
      default: { inches: '2 1/2', metric: '6.5' },
      meaning: 'What each strip is cut to.',
    },
    'strip length': {
      kind: 'length',
      least: 'positive',
      meaning: 'How long each strip is cut, such as the usable width of the cloth.',
    },
    // 10 in for joins and corners: common practice, no published source.
    'joining allowance': {
      kind: 'length',
      least: 'zero',
      default: { inches: '10', metric: '25' },
      meaning: 'For all joins and corners together.',
    },
  },
  parts: { binding: { meaning: 'All strips.' } },
};

/** Strips = (2 × width + 2 × length + joining allowance) / strip length, rounded up. */
export const binding: Make = {
  spec,
  expand(order) {
    const measures = measuresOf(order);
    const { width, length } = measures.size('size');
    const strip = { width: measures.length('strip length'), length: measures.length('strip width') };
    const joining = measures.length('joining allowance');
    const whole = sum([width, width, length, length, joining]);
    const strips = ceilDiv(whole, strip.width);
    return {
      finished: { width, length },
      pieces: [
        {
          name: 'strip',
          part: 'binding',
          perMake: strips,
          finished: strip,
          edges: allAround(raw),
          grain: 'either',
        },
      ],
      arithmetic: [
        line('binding, all round', '2 ×', width, '+ 2 ×', length, '+', joining, '=', whole),
        line('strips give', `${strips} ×`, strip.width, '=', ticks(strips * strip.width)),
      ],
      assembly: [
        'Join the strips end to end, and press the seams open.',
        'Sew the binding round the edge, mitre its corners, turn it over the edge, and sew it down behind.',
      ],
      cautions: ['rotary-cutter'],
      remarks: [],
    };
  },
};
