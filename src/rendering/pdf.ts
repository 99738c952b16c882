import PDFDocument from 'pdfkit';
import type { CutPlan } from '../model/cut-plan.ts';
import type { Page } from './marker/shapes.ts';
import { composePages } from './pdf/compose.ts';
import { paintPage } from './pdf/paint.ts';

/** Words by which a file is known for ours. */
export const PDF_MARK = 'Drawn by Laywright';

export interface PdfExtras {
  /** TrueType files of the typeface that labels are fitted to: Source Sans 3, Regular and SemiBold. */
  readonly fonts: { readonly regular: Uint8Array; readonly bold: Uint8Array };
}

/** The same instant in every file, so that the same plan gives the same bytes. */
const SET_DATE = new Date(Date.UTC(2000, 0, 1));

/**
 * Prints a plan as one PDF on the plan's paper: what to buy, a marker for each cloth, cut lists, steps, sums, assembly and
 * cautions. One unit of its pages is 1/72 inch (ISO 32000-1, 8.3.2.3).
 */
export async function writePdf(cutPlan: CutPlan, extras: PdfExtras): Promise<Uint8Array> {
  return writePages(composePages(cutPlan), cutPlan.plan.name, extras);
}

/** Prints pages as they are drawn, under a title. */
export async function writePages(
  pages: readonly Page[],
  title: string,
  { fonts }: PdfExtras,
): Promise<Uint8Array> {
  const drawing = new PDFDocument({
    autoFirstPage: false,
    // Given here so that no typeface of the library's own is loaded.
    font: fonts.regular as never,
    lang: 'en',
    displayTitle: true,
    info: {
      Title: title,
      Creator: PDF_MARK,
      Producer: PDF_MARK,
      CreationDate: SET_DATE,
    },
  });
  drawing.registerFont('regular', fonts.regular as never);
  drawing.registerFont('bold', fonts.bold as never);
  const file = collected(drawing);
  for (const page of pages) {
    drawing.addPage({ size: [page.width, page.height], margin: 0 });
    paintPage(drawing, page);
  }
  drawing.end();
  return file;
}

function collected(drawing: PDFKit.PDFDocument): Promise<Uint8Array> {
  const chunks: Uint8Array[] = [];
  return new Promise((resolve, reject) => {
    drawing.on('data', (chunk: Uint8Array) => chunks.push(chunk));
    drawing.on('error', reject);
    drawing.on('end', () => {
      const file = new Uint8Array(chunks.reduce((total, { length }) => total + length, 0));
      let at = 0;
      for (const chunk of chunks) {
        file.set(chunk, at);
        at += chunk.length;
      }
      resolve(file);
    });
  });
}
