import { describe, expect, it } from 'vitest';
import { CutForest } from '../../src/packing/guillotine/cut-forest.ts';
import { type FitOptions, OpenNodes } from '../../src/packing/guillotine/find-place.ts';
import { packLayers } from '../../src/packing/guillotine/layers.ts';
import { paretoShortest } from '../../src/packing/guillotine/pareto-shortest.ts';
import { forestToPart, partToTree } from '../../src/packing/guillotine/part.ts';
import { expandPieces, scaleOf, totalArea } from '../../src/packing/guillotine/pieces.ts';
import { fullSheetSets } from '../../src/packing/guillotine/sheet-sets.ts';
import type { Kind } from '../../src/packing/instance.ts';
import { Budget } from '../../src/packing/search/budget.ts';
import { seededRandom } from '../../src/packing/search/random.ts';
import { expectSoundSheet } from '../support/expect-sound-sheet.ts';

const fit: FitOptions = { rule: 0, deepest: Number.POSITIVE_INFINITY, trimOnly: false, skip: 0, growth: 1 };

/** Free space and pieces of every cut node must add up to it; throws where they do not. */
function checkForest(forest: CutForest): number {
  let placedArea = 0;
  const visit = (node: number): number => {
    const width = forest.extent[2 * node];
    const length = forest.extent[2 * node + 1];
    if (node < forest.pieces) {
      placedArea += width * length;
      return width * length;
    }
    const way = forest.direction[node];
    let along = forest.free[node];
    let covered = forest.free[node] * forest.extent[2 * node + 1 - way];
    expect(forest.free[node]).toBeGreaterThanOrEqual(0);
    for (let part = forest.first[node]; part >= 0; part = forest.next[part]) {
      expect(forest.parent[part]).toBe(node);
      expect(forest.extent[2 * part + 1 - way]).toBe(forest.extent[2 * node + 1 - way]);
      if (part >= forest.pieces) expect(forest.direction[part]).toBe(1 - way);
      along += forest.extent[2 * part + way];
      covered += visit(part);
    }
    expect(along).toBe(forest.extent[2 * node + way]);
    return covered;
  };
  const sheet = forest.pieces;
  expect(visit(sheet)).toBe(forest.extent[2 * sheet] * forest.extent[2 * sheet + 1]);
  return placedArea;
}

describe('CutForest', () => {
  it('adds up after every one of many random placings and removals, and gives sound trees', () => {
    const random = seededRandom(11);
    const kinds: Kind[] = Array.from({ length: 24 }, () => ({
      width: 3 + random.below(17),
      length: 2 + random.below(13),
      copies: 1,
      quarterTurn: false,
    }));
    const pieces = expandPieces(kinds, { unitX: 1, unitY: 1 });
    const forest = new CutForest(pieces.count, 1);
    const open = new OpenNodes(forest);
    forest.setSheet(0, 41, 37);
    forest.clear();
    let placings = 0;
    let refusals = 0;
    for (let step = 0; step < 1200; step++) {
      const piece = random.below(pieces.count);
      if (forest.isPlaced(piece)) {
        forest.remove(piece);
      } else {
        const place = { node: -1, width: 0, length: 0, score: Number.POSITIVE_INFINITY };
        open.collect({ width: pieces.width[piece], length: pieces.length[piece] });
        open.find(pieces.width[piece], pieces.length[piece], fit, random.unit, place);
        if (place.node < 0) {
          refusals++;
        } else {
          placings++;
          forest.place(piece, place.node, place.width, place.length);
        }
      }
      const area = checkForest(forest);
      let wanted = 0;
      for (let i = 0; i < pieces.count; i++) if (forest.isPlaced(i)) wanted += pieces.area[i];
      expect(area).toBe(wanted);
    }
    expect(placings).toBeGreaterThan(300);
    expect(refusals).toBeGreaterThan(10);

    const part = forestToPart(forest, 0, () => false);
    expect(part).toBeDefined();
    if (part === undefined) return;
    const size = { width: 41, length: 37 };
    const tree = partToTree(part, { unitX: 1, unitY: 1 }, size, (piece) => pieces.kind[piece]);
    const cut = kinds.filter((_, i) => forest.isPlaced(i));
    const value = cut.reduce((sum, { width, length }) => sum + width * length, 0);
    const body = { sheet: size, kinds };
    const answer = {
      status: 'found',
      value,
      bound: 41 * 37,
      sheets: [{ sheet: 0, ...size, tree }],
      nodes: 0,
    } as const;
    expectSoundSheet('most', body, answer);
  });

  it('is empty again when everything has been taken out', () => {
    const forest = new CutForest(3, 1);
    forest.setSheet(0, 19, 23);
    forest.clear();
    forest.place(0, 3, 7, 5);
    const shelf = forest.parent[0];
    forest.place(1, shelf, 6, 11);
    forest.place(2, shelf, 4, 3);
    expect(forest.free[3]).toBe(23 - 11);
    for (const piece of [1, 0, 2]) forest.remove(piece);
    expect(forest.free[3]).toBe(23);
    expect(forest.first[3]).toBe(-1);
  });
});

describe('paretoShortest', () => {
  const budget = (): Budget => new Budget({ effort: 1e9, seed: 1 });
  const piece = (width: number, length: number, copies: number, turnable: boolean) => ({
    width,
    length,
    copies,
    turnable,
  });

  it('finds the same length by counts and by bit masks', () => {
    const random = seededRandom(5);
    for (let round = 0; round < 30; round++) {
      const kinds = Array.from({ length: 4 }, (_, i) =>
        piece(2 + random.below(7), 3 + random.below(8), i === 0 ? 4 : 1 + random.below(2), round % 2 === 0),
      );
      const single = kinds.flatMap((kind) =>
        Array.from({ length: kind.copies }, () => ({ ...kind, copies: 1 })),
      );
      const counts = paretoShortest(kinds, 13, 60, budget());
      const masks = paretoShortest(single, 13, 60, budget());
      expect(counts.status).toBe('best');
      if (counts.status !== 'best' || masks.status !== 'best') continue;
      expect(masks.part.length).toBe(counts.part.length);
      expect(paretoShortest(kinds, 13, counts.part.length - 1, budget()).status).toBe('none');
    }
  });
});

describe('packLayers', () => {
  it('lays every piece once, within the width, no piece longer than the first of its layer', () => {
    const random = seededRandom(8);
    const kinds: Kind[] = Array.from({ length: 900 }, () => ({
      width: 20 + random.below(290),
      length: 15 + random.below(301),
      copies: 1,
      quarterTurn: random.below(2) === 0,
    }));
    const pieces = expandPieces(kinds, scaleOf(kinds));
    const layers = packLayers(pieces, 1009, 'longer side along');
    expect(layers.flatMap((layer) => layer.map((entry) => entry.piece)).sort((a, b) => a - b)).toEqual(
      Array.from({ length: 900 }, (_, i) => i),
    );
    for (const layer of layers) {
      expect(layer.reduce((sum, { width }) => sum + width, 0)).toBeLessThanOrEqual(1009);
      for (const { length } of layer) expect(length).toBeLessThanOrEqual(layer[0].length);
    }
    const used = layers.reduce((sum, layer) => sum + layer[0].length, 0);
    expect(used).toBeLessThan((totalArea(pieces) / 1009) * 1.02);
  });
});

describe('fullSheetSets', () => {
  it('lists each choice below the cost to which nothing can be added, and no other', () => {
    const sheets = [
      { width: 5, length: 4, cost: 3, copies: 2 },
      { width: 7, length: 3, cost: 4, copies: 1 },
      { width: 2, length: 9, cost: 2, copies: 3 },
    ];
    const below = 11;
    const wanted: number[][] = [];
    for (let a = 0; a <= 2; a++) {
      for (let b = 0; b <= 1; b++) {
        for (let c = 0; c <= 3; c++) {
          const cost = 3 * a + 4 * b + 2 * c;
          const full =
            (a === 2 || cost + 3 >= below) &&
            (b === 1 || cost + 4 >= below) &&
            (c === 3 || cost + 2 >= below);
          if (cost < below && full && 20 * a + 21 * b + 18 * c >= 62) wanted.push([a, b, c]);
        }
      }
    }
    const found = fullSheetSets(sheets, 62, below, 1000).map(({ counts }) => [...counts]);
    expect(found.sort()).toEqual(wanted.sort());
    expect(wanted.length).toBeGreaterThan(2);
  });
});
