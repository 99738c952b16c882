import { getDocument, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { beforeAll, describe, expect, it } from 'vitest';
import type { CutPlan } from '../../src/model/cut-plan.ts';
import { PDF_MARK, writePdf } from '../../src/rendering/pdf.ts';
import { testFonts } from './fonts.ts';
import { breakfastRoom, foldedBedroom, longCurtains } from './sample-plans.ts';

interface ReadPage {
  readonly size: readonly [width: number, height: number];
  readonly texts: readonly { readonly text: string; readonly x: number; readonly y: number }[];
  /** Bounds of every path, in points of the page: x and y from its upper left. */
  readonly paths: readonly (readonly [x0: number, y0: number, x1: number, y1: number])[];
}

/** Reads a file back with pdf.js, which shares nothing with what wrote it. */
async function readPdf(file: Uint8Array): Promise<ReadPage[]> {
  const loading = getDocument({ data: file.slice(), verbosity: 0, useSystemFonts: false });
  const document = await loading.promise;
  const pages: ReadPage[] = [];
  for (let number = 1; number <= document.numPages; number++) {
    const page = await document.getPage(number);
    const [x0, y0, x1, y1] = page.view as [number, number, number, number];
    const { items } = await page.getTextContent();
    const texts = items.flatMap((item) =>
      'str' in item && item.str.trim() !== ''
        ? [{ text: item.str, x: item.transform[4] as number, y: y1 - (item.transform[5] as number) }]
        : [],
    );
    const { fnArray, argsArray } = await page.getOperatorList();
    const paths = argsArray.flatMap((args, index) =>
      fnArray[index] === OPS.constructPath && args[2] ? [[...args[2]] as never] : [],
    );
    pages.push({ size: [x1 - x0, y1 - y0], texts, paths });
  }
  await loading.destroy();
  return pages;
}

const written = async (plan: CutPlan) => writePdf(plan, { fonts: testFonts() });

describe('writePdf', () => {
  let letter: ReadPage[];
  let a4: ReadPage[];
  beforeAll(async () => {
    letter = await readPdf(await written(breakfastRoom()));
    a4 = await readPdf(await written(foldedBedroom()));
  });

  it('prints on US Letter, upright or on its side', () => {
    // ANSI/ASME Y14.1, size A: 8.5 × 11 in; ISO 32000-1, 8.3.2.3: 72 units to the inch. 8.5 × 72 = 612, 11 × 72 = 792.
    for (const { size } of letter) expect(size.toSorted((a, b) => a - b)).toEqual([612, 792]);
    expect(letter[0]!.size).toEqual([612, 792]);
  });

  it('prints on A4', () => {
    // ISO 216: A4 is 210 × 297 mm; in points 595.276 × 841.890.
    for (const { size } of a4) {
      const [short, long] = size.toSorted((a, b) => a - b);
      expect(short).toBeCloseTo(595.276, 2);
      expect(long).toBeCloseTo(841.89, 2);
    }
  });

  it('draws the squares and the rule of the scale check true', () => {
    // 50 mm = 141.732 pt, 2 in = 144 pt, 100 mm = 283.465 pt (1 in = 25.4 mm = 72 pt).
    const sizes = letter[0]!.paths.map(([x0, y0, x1, y1]) => [x1 - x0, y1 - y0] as const);
    const has = (width: number, height: number) =>
      sizes.filter(([w, h]) => Math.abs(w - width) < 0.01 && Math.abs(h - height) < 0.01).length;
    expect(has(141.732, 141.732)).toBe(1);
    expect(has(144, 144)).toBe(1);
    expect(has(283.465, 0)).toBe(1);
  });

  it('writes the name of each piece where it lies, as often as it is cut', () => {
    const labels = letter[2]!.texts.filter(({ text }) => text === 'outer back' || text === 'inner back');
    // Five of each on the cloth and one of each in the key.
    expect(labels.filter(({ text }) => text === 'outer back')).toHaveLength(5);
    expect(labels.filter(({ text }) => text === 'inner back')).toHaveLength(5);
    for (const { x, y } of labels) {
      expect(x).toBeGreaterThan(36);
      expect(y).toBeLessThan(letter[2]!.size[1] - 36);
    }
  });

  it('opens with the plan, what to buy and what it costs', () => {
    const words = letter[0]!.texts.map(({ text }) => text).join(' ');
    expect(words).toContain('The Tern House: breakfast room');
    expect(words).toContain('Buy 2½ yd');
    expect(words).toContain('$35.63');
    expect(words).toContain('Left to keep');
  });

  it('warns of blade, iron and fire whatever is made', () => {
    const words = letter.flatMap(({ texts }) => texts.map(({ text }) => text));
    for (const title of ['Rotary cutter', 'Iron and fusing', 'Flammability']) {
      expect(
        words.filter((text) => text === title),
        title,
      ).toHaveLength(1);
    }
  });

  it('lists every step of every cloth with what it frees', () => {
    const words = letter.flatMap(({ texts }) => texts.map(({ text }) => text)).join(' ');
    for (const cloth of ['pebble stripe', 'sea-grass linen', 'gull dot cotton']) {
      expect(words).toContain(`Cut list: ${cloth}`);
    }
    expect(words).toContain('frees 1 × E');
  });

  it('gives the same bytes for the same plan', async () => {
    const [first, second] = [await written(longCurtains()), await written(longCurtains())];
    expect(Buffer.compare(first, second)).toBe(0);
    expect(first.length).toBeGreaterThan(10_000);
  });

  it('carries its typeface, its mark and no clock', async () => {
    const bytes = Buffer.from(await written(longCurtains())).toString('latin1');
    expect(bytes.startsWith('%PDF-1.')).toBe(true);
    expect(bytes).toMatch(/\/[A-Z]{6}\+SourceSans3-Regular/);
    expect(bytes).toMatch(/\/[A-Z]{6}\+SourceSans3-SemiBold/);
    expect(bytes).not.toContain('Helvetica');
    expect(bytes).toContain(PDF_MARK);
    expect(bytes).toContain('D:20000101000000Z');
  });
});
