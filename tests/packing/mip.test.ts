import highsModule from 'highs';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Kind, Sheet } from '../../src/packing/instance.ts';
import { fewestSheets, mostFromSheet, shortestLength } from '../../src/packing/pack.ts';
import { seededRandom } from '../../src/packing/search/random.ts';
import { expectSoundSheet } from '../support/expect-sound-sheet.ts';

/*
 * Two stages against integer programmes, solved by HiGHS: levels of pieces, each begun by its tallest, after
 * A. Lodi, S. Martello, D. Vigo, "Models and bounds for two-dimensional level packing problems", Journal of
 * Combinatorial Optimization 8 (2004) 363-379 (strip and bins), and A. Lodi, M. Monaci, "Integer linear programming
 * models for 2-staged two-dimensional knapsack problems", Mathematical Programming 94 (2003) 257-278 (value), with one
 * set of variables more for columns either side of a kept-off crease.
 */

// The package is CommonJS: its loader is the module itself, while its types name it `default`.
const loadHighs = highsModule as unknown as typeof highsModule.default;
type Highs = Awaited<ReturnType<typeof loadHighs>>;
let highs: Highs;
beforeAll(async () => {
  highs = await loadHighs();
});

interface Piece {
  readonly width: number;
  readonly length: number;
  readonly value: number;
}

interface LevelModel {
  readonly ask: 'shortest' | 'most' | 'fewest';
  readonly pieces: readonly Piece[];
  /** Widths of the columns; one where there is no crease. */
  readonly columns: readonly number[];
  readonly length: number;
}

/** The model in LP format. x_i_j_s: piece j lies in column s of the level that piece i begins; q_k, z_k_i: sheets. */
function levelModel({ ask, pieces, columns, length }: LevelModel): string {
  const all = pieces.map((_, index) => index);
  const slots = columns.map((_, column) => column);
  const rows: string[] = [];
  const binaries = new Set<string>();
  const x = (i: number, j: number, s: number) => name('x', i, j, s);
  const name = (letter: string, ...at: number[]) => {
    const variable = [letter, ...at].join('_');
    binaries.add(variable);
    return variable;
  };
  for (const j of all) {
    const places = all.slice(0, j + 1).flatMap((i) => slots.map((s) => x(i, j, s)));
    rows.push(`${places.join(' + ')} ${ask === 'most' ? '<=' : '='} 1`);
  }
  for (const i of all) {
    rows.push(`${slots.map((s) => x(i, i, s)).join(' + ')} - ${name('y', i)} = 0`);
    for (const s of slots) {
      const widths = all.slice(i).map((j) => `${pieces[j]!.width} ${x(i, j, s)}`);
      rows.push(`${widths.join(' + ')} - ${columns[s]} ${name('y', i)} <= 0`);
    }
  }
  const lengths = all.map((i) => `${pieces[i]!.length} ${name('y', i)}`).join(' + ');
  let objective = lengths;
  if (ask === 'most') {
    rows.push(`${lengths} <= ${length}`);
    objective = all
      .flatMap((j) =>
        all.slice(0, j + 1).flatMap((i) => slots.map((s) => `${pieces[j]!.value} ${x(i, j, s)}`)),
      )
      .join(' + ');
  }
  if (ask === 'fewest') {
    for (const i of all) {
      const sheets = [name('q', i), ...all.slice(0, i).map((k) => name('z', k, i))];
      rows.push(`${sheets.join(' + ')} - ${name('y', i)} = 0`);
      const above = all.slice(i + 1).map((j) => `${pieces[j]!.length} ${name('z', i, j)} +`);
      rows.push(`${above.join(' ')} ${pieces[i]!.length} ${name('q', i)} <= ${length}`);
    }
    for (const k of all) {
      for (const i of all.slice(k + 1)) rows.push(`${name('z', k, i)} - ${name('q', k)} <= 0`);
    }
    objective = all.map((k) => name('q', k)).join(' + ');
  }
  const numbered = rows.map((row, index) => ` c${index}: ${row}`).join('\n');
  const sense = ask === 'most' ? 'Maximize' : 'Minimize';
  return `${sense}\n obj: ${objective}\nSubject To\n${numbered}\nBinary\n ${[...binaries].join(' ')}\nEnd`;
}

function solved(model: LevelModel): number {
  const sorted = [...model.pieces].sort((a, b) => b.length - a.length);
  const solution = highs.solve(levelModel({ ...model, pieces: sorted }));
  expect(solution.Status).toBe('Optimal');
  return Math.round(solution.ObjectiveValue);
}

function randomKinds(seed: number, most: number): Kind[] {
  const random = seededRandom(seed);
  return Array.from({ length: 4 }, () => ({
    width: 12 + random.below(most - 12),
    length: 9 + random.below(40),
    copies: 1 + random.below(2),
    quarterTurn: false,
    value: 100 + random.below(900),
  }));
}

function piecesOf(kinds: readonly Kind[]): Piece[] {
  return kinds.flatMap(({ copies, width, length, value }) =>
    Array.from({ length: copies }, () => ({ width, length, value: value! })),
  );
}

const EFFORT = 1e6;

describe('two stages against integer programmes', () => {
  for (const crease of [false, true]) {
    const columns = crease ? [61, 48] : [109];
    const sheet = (length: number): Sheet => ({
      width: 109 + (crease ? 5 : 0),
      length,
      ...(crease ? { forbidden: [{ x0: 61, y0: 0, x1: 66, y1: length }] } : {}),
    });
    const where = crease ? 'either side of a crease' : 'on a plain sheet';

    it(`shortest length ${where}`, () => {
      for (let seed = 1; seed <= 12; seed++) {
        const kinds = randomKinds(seed, crease ? 45 : 70);
        const question = { sheet: sheet(Number.POSITIVE_INFINITY), kinds };
        const result = shortestLength(question, { effort: EFFORT, seed, stages: 2 });
        expectSoundSheet('shortest', question, result, 2);
        expect(result.status).toBe('best');
        expect(result.value).toBe(solved({ ask: 'shortest', pieces: piecesOf(kinds), columns, length: 0 }));
      }
    });

    it(`most value ${where}`, () => {
      let partial = 0;
      for (let seed = 21; seed <= 32; seed++) {
        const kinds = randomKinds(seed, crease ? 45 : 70);
        const question = { sheet: sheet(59), kinds };
        const result = mostFromSheet(question, { effort: EFFORT, seed, stages: 2 });
        expectSoundSheet('most', question, result, 2);
        expect(result.value).toBe(solved({ ask: 'most', pieces: piecesOf(kinds), columns, length: 59 }));
        if (result.value < piecesOf(kinds).reduce((sum, { value }) => sum + value, 0)) partial += 1;
      }
      expect(partial).toBeGreaterThan(2);
    });

    it(`fewest sheets ${where}`, () => {
      const counts = new Set<number>();
      for (let seed = 41; seed <= 52; seed++) {
        const kinds = randomKinds(seed, crease ? 45 : 70);
        const question = { sheets: [{ ...sheet(57), copies: 9, cost: 1 }], kinds };
        const result = fewestSheets(question, { effort: EFFORT, seed, stages: 2 });
        expectSoundSheet('fewest', question, result, 2);
        expect(result.status).toBe('best');
        expect(result.value).toBe(solved({ ask: 'fewest', pieces: piecesOf(kinds), columns, length: 57 }));
        counts.add(result.value);
      }
      expect(counts.size).toBeGreaterThan(1);
    });
  }
});
