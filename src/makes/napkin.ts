import type { MakeSpec } from '../model/measure.ts';
import { CORNERS, hemmedAssembly, hemmedRectangle, tableCorners, tableHem } from './hemmed-rectangle.ts';
import type { Make } from './make.ts';
import { measuresOf } from './measures.ts';
import { hasError, practiceIn } from './practice.ts';
import { writtenIn } from './sewing.ts';

const spec: MakeSpec = {
  kind: 'napkin',
  title: 'Hemmed napkin',
  summary: 'One piece, hemmed all round.',
  measures: {
    size: { mayGive: true, kind: 'size', meaning: 'Finished, across and up.' },
    hem: tableHem,
    corners: tableCorners,
  },
  parts: { napkin: { meaning: 'The whole napkin.' } },
};

export const napkin: Make = {
  spec,
  expand(order, { unit }) {
    const measures = measuresOf(order);
    const finished = measures.size('size');
    const hem = measures.hem('hem');
    const { piece, arithmetic, remarks } = hemmedRectangle(
      { name: 'napkin', part: 'napkin', finished, hem },
      practiceIn(unit),
    );
    return {
      finished,
      pieces: hasError(remarks) ? [] : [piece],
      arithmetic,
      assembly: hemmedAssembly(hem, measures.choice('corners', CORNERS), writtenIn(unit)),
      cautions: ['rotary-cutter', 'wash-and-care'],
      remarks,
    };
  },
};
