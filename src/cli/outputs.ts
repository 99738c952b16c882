import { readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import type { CutPlan } from '../model/cut-plan.ts';
import type { Plan } from '../model/plan.ts';
import { SVG_MARK } from '../rendering/svg.ts';
import type { OutputKind } from './command-records.ts';
import { markerFileNames } from './file-names.ts';
import type { OutputFile } from './write-set.ts';

export const PLAN_JSON_FILE = 'plan.json';
export const SUMMARY_FILE = 'summary.txt';
export const BOOK_FILE = 'markers.pdf';

/** Ends every summary that is written to a file; by it the file is known for ours. */
const SUMMARY_MARK = 'Planned by Laywright.';

/** Draws and words the files that were asked for. Nothing is written here. */
export async function outputFiles(
  cutPlan: CutPlan,
  kinds: readonly string[],
): Promise<readonly OutputFile[]> {
  const files: OutputFile[] = [];
  for (const kind of kinds) files.push(...(await DRAW[kind as OutputKind](cutPlan)));
  return files;
}

/** The names of those files, known before anything is planned. */
export function outputNames(plan: Plan, kinds: readonly string[]): readonly string[] {
  const names: Readonly<Record<OutputKind, readonly string[]>> = {
    svg: markerFileNames(plan.cloths.map(({ name }) => name)),
    pdf: [BOOK_FILE],
    json: [PLAN_JSON_FILE],
    text: [SUMMARY_FILE],
  };
  return kinds.flatMap((kind) => names[kind as OutputKind]);
}

const DRAW: Readonly<Record<OutputKind, (cutPlan: CutPlan) => Promise<readonly OutputFile[]>>> = {
  svg: markerFiles,
  pdf: async (cutPlan) => {
    const { writePdf } = await import('../rendering/pdf.ts');
    return [{ name: BOOK_FILE, content: await writePdf(cutPlan, { fonts: readFonts() }) }];
  },
  json: async (cutPlan) => {
    const { writePlanJson } = await import('../rendering/plan-json.ts');
    return [{ name: PLAN_JSON_FILE, content: writePlanJson(cutPlan) }];
  },
  text: async (cutPlan) => {
    const { summaryText } = await import('../rendering/tables.ts');
    return [{ name: SUMMARY_FILE, content: `${summaryText(cutPlan)}\n${SUMMARY_MARK}\n` }];
  },
};

/** Source Sans 3, to which the labels are fitted, from the package that carries it. */
export function readFonts() {
  const { resolve } = createRequire(import.meta.url);
  const read = (weight: string, file: string) =>
    readFileSync(resolve(`@expo-google-fonts/source-sans-3/${weight}/${file}.ttf`));
  return {
    regular: read('400Regular', 'SourceSans3_400Regular'),
    bold: read('600SemiBold', 'SourceSans3_600SemiBold'),
  };
}

/** One drawing a cloth, in the order of the plan. */
async function markerFiles(cutPlan: CutPlan): Promise<readonly OutputFile[]> {
  const { createSVGWindow } = await import('svgdom');
  const { drawMarker } = await import('../rendering/marker.ts');
  const { writeSvg } = await import('../rendering/svg.ts');
  const names = markerFileNames(cutPlan.plan.cloths.map(({ name }) => name));
  return cutPlan.cloths.map(({ cloth }) => ({
    name: names[cutPlan.plan.cloths.findIndex(({ name }) => name === cloth)]!,
    content: writeSvg(drawMarker(cutPlan, cloth), createSVGWindow().document),
  }));
}

/** Markers in the folder that an earlier plan left and this one did not write: cutting by them would be a mistake. */
export function earlierMarkers(folder: string, written: readonly string[]): readonly string[] {
  return readdirSync(folder)
    .filter((name) => /^marker.*\.svg$/.test(name) && !written.includes(name))
    .filter((name) => isOurs(name, readFileSync(join(folder, name))))
    .sort();
}

/** Whether a file that stands in the way was written by this program, judged by what is in it and not by its name. */
export function isOurs(name: string, content: Uint8Array): boolean {
  const text = Buffer.from(content).toString('latin1');
  if (name.endsWith('.svg')) return text.includes('<svg') && text.includes(SVG_MARK);
  if (name.endsWith('.pdf')) return text.startsWith('%PDF-') && text.includes('Drawn by Laywright');
  if (name.endsWith('.json')) return text.includes('"format": "laywright cut plan"');
  return text.trimEnd().endsWith(SUMMARY_MARK);
}
