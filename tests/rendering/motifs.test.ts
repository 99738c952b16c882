import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { makes } from '../../src/makes/catalogue.ts';
import { readPlan } from '../../src/model/plan-file.ts';
import { makeCutPlan } from '../../src/planning/plan.ts';
import { drawRow } from '../../src/rendering/marker/row.ts';
import { overlaps } from '../../src/rendering/marker/shapes.ts';
import { textBox } from '../../src/rendering/marker/text-width.ts';
import { drawMarker } from '../../src/rendering/marker.ts';
import { TICKS_PER_INCH } from '../../src/units/ticks.ts';

describe('the crosses at motifs', () => {
  it.each([
    ['chart-room-panels', 'chart print'],
    ['parlour-matched', 'sea kale print'],
  ])('run into nothing that is written: %s', (name, cloth) => {
    const text = readFileSync(new URL(`../../layouts/${name}/plan.yaml`, import.meta.url), 'utf8');
    const read = readPlan(text, { file: name, makes: makes.map(({ spec }) => spec) });
    const made = read.ok ? makeCutPlan(read.value, { effort: 4000, seed: 1 }) : read;
    if (!made.ok) throw new Error(JSON.stringify(made.issues));
    const marker = drawMarker(made.value, cloth);
    const [length] = marker.lengths;
    const { y0: from, y1: to } = length!.shown;
    const row = drawRow({
      marker,
      length: length!,
      from,
      to,
      runs: 'up',
      pointsPerTick: 5 / TICKS_PER_INCH,
      id: 'row',
    });
    const texts = row.shapes.flatMap((shape) => (shape.kind === 'text' ? [textBox(shape)] : []));
    const crosses = row.shapes.flatMap((shape) =>
      shape.kind === 'lines' && shape.role === 'motif' ? shape.segments : [],
    );
    expect(crosses.length).toBeGreaterThan(10);
    for (const [x0, y0, x1, y1] of crosses) {
      const box = { x: x0, y: y0, width: x1 - x0, height: y1 - y0 };
      expect(texts.filter((own) => overlaps(own, box))).toEqual([]);
    }
  });
});
