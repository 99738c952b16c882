import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import {
  LAYOUTS,
  layoutFiles,
  layoutNames,
  planLayout,
  schemaFiles,
  sourceNames,
} from '../layouts/rebuild.ts';
import { stepsOfLength } from '../src/planning/stack-steps.ts';

const AGAIN = 'differs from what is kept: run `npm run layouts` and read the difference';

describe('the layouts', () => {
  it('are all there', () => {
    expect(layoutNames()).toEqual(
      expect.arrayContaining([
        ...['breakfast-room', 'cupboard-lengths', 'garden-room'],
        'cupboard-odd-lengths',
        ...['landing-folded', 'lookout-bedroom', 'porch-interfacing'],
        ...['landing-joined-interfacing', 'attic-openings', 'stacked-napkins'],
        'five-rooms-two-colourways',
        ...['sun-porch-long-cuts', 'linen-room-washed', 'laundry-cut-larger'],
      ]),
    );
  });

  it('keep the schemas that are generated', () => {
    for (const { name, content } of schemaFiles()) {
      expect(readFileSync(join(LAYOUTS, name), 'utf8'), `${name} ${AGAIN}`).toBe(content);
    }
  });

  it.each(layoutNames())(
    '%s gives the files that are kept beside it, and no others are kept',
    async (name) => {
      const files = await layoutFiles(name);
      for (const file of files) {
        const kept = readFileSync(join(LAYOUTS, name, file.name), 'utf8');
        expect(kept, `${name}/${file.name}`).not.toMatch(/\b(?:undefined|NaN|Infinity)\b/);
        expect(kept === file.content, `${name}/${file.name} ${AGAIN}`).toBe(true);
      }
      const names = [...sourceNames(name), ...files.map((file) => file.name)].sort();
      expect(readdirSync(join(LAYOUTS, name)).sort()).toEqual(names);
    },
  );

  it('show what they are kept for', () => {
    const cloth = (layout: string, index: number) => planLayout(layout).cloths[index]!;
    const folded = cloth('landing-folded', 0);
    expect(folded.lengths[0]!.lay.kind).toBe('folded');
    expect(folded.surplus).toEqual([]);
    const { width, lay: aside } = cloth('stair-window-folds', 0).lengths[0]!;
    expect(aside.kind === 'folded' && 2 * aside.foldAt < width).toBe(true);
    const sources = cloth('cupboard-lengths', 0).lengths.map((length) => length.source);
    expect(sources).toContain('in-hand');
    expect(planLayout('cupboard-lengths').plan.cloths[0]!.crease.kind).toBe('keep-off');
    const blades = planLayout('sun-porch-long-cuts');
    const used = blades.cloths.flatMap((own) =>
      own.lengths.flatMap((length) => stepsOfLength(blades, own.cloth, length).map((step) => step.blade)),
    );
    expect(new Set(used)).toEqual(new Set(['rotary', 'tear', 'scissors']));
    expect(planLayout('laundry-cut-larger').pieces.every(({ washesTo }) => washesTo)).toBe(true);
    const washed = planLayout('linen-room-washed').plan.cloths;
    expect(washed[0]!.washing!.widthFromWashed).toBe(true);
    expect(washed[1]!.inHand.map((length) => length.washed)).toEqual([true, undefined]);
    expect(planLayout('garden-room').plan.unit).toBe('cm');
    expect(planLayout('lookout-bedroom').plan.cloths[0]!.direction).toBe('one-way');
    expect(planLayout('porch-interfacing').pieces.filter((piece) => piece.cloth === 'fusible')).toHaveLength(
      2,
    );
  });
});
