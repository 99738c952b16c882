/**
 * Plans every layout again, or those that are named, and writes what each gives beside its plan file: `npm run layouts`,
 * or `npm run layouts -- breakfast-room`, then read the difference.
 * The test of the layouts plans them too, and compares.
 */
import {
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  realpathSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { PassThrough } from 'node:stream';
import { fileURLToPath } from 'node:url';
import type { OutputKind } from '../src/cli/command-records.ts';
import { bookPlan, planIn } from '../src/cli/cupboard/booking.ts';
import { CUPBOARD_UNLESS_SAID, cupboardForPlan } from '../src/cli/cupboard/read-cupboard.ts';
import { outputFiles, PLAN_JSON_FILE } from '../src/cli/outputs.ts';
import { runProgram } from '../src/cli/program.ts';
import { provenCutPlan } from '../src/cli/proven-plan.ts';
import type { OutputFile } from '../src/cli/write-set.ts';
import { makes } from '../src/makes/catalogue.ts';
import { cupboardSchemaDocument } from '../src/model/cupboard-schema.ts';
import type { CutPlan } from '../src/model/cut-plan.ts';
import { readPlan } from '../src/model/plan-file.ts';
import { planReferenceText } from '../src/model/plan-reference.ts';
import { planSchemaDocument } from '../src/model/plan-schema.ts';
import { refit } from '../src/planning/mat/refit.ts';
import { DEFAULT_EFFORT } from '../src/planning/plan.ts';
import { writeJson } from '../src/rendering/json-text.ts';
import { planJsonSchemaDocument } from '../src/rendering/plan-json-schema.ts';
import { refitText } from '../src/rendering/refit-text.ts';
import { shoppingList } from '../src/rendering/shopping.ts';
import { shoppingText } from '../src/rendering/shopping-text.ts';

export const LAYOUTS = fileURLToPath(new URL('.', import.meta.url));
export const PLAN_FILE = 'plan.yaml';
export const KEPT_KINDS: readonly OutputKind[] = ['svg', 'json', 'text'];

/** Folders of `layouts/`, one a worked plan. */
export function layoutNames(): readonly string[] {
  return readdirSync(LAYOUTS, { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .map((entry) => entry.name)
    .sort();
}

/** Plans one layout as the command does when nothing else is asked. Throws with the problems when it cannot be planned. */
export function planLayout(name: string): CutPlan {
  const file = join(LAYOUTS, name, PLAN_FILE);
  const specs = makes.map((make) => make.spec);
  const text = readFileSync(file, 'utf8');
  const cupboard = cupboardForPlan({ text, file }, undefined);
  const read = readPlan(text, { file, makes: specs, ...(cupboard && { cupboard }) });
  if (!read.ok) throw new Error(`${file} cannot be read: ${JSON.stringify(read.issues)}`);
  const outcome = provenCutPlan(read.value, { effort: DEFAULT_EFFORT, seed: 1 });
  if (!outcome.ok) throw new Error(`${file} cannot be planned: ${JSON.stringify(outcome.issues)}`);
  return outcome.value;
}

/** A plan as it was asked for, before it had to change at the mat to become the plan beside it. */
export const ASKED_FILE = 'asked.yaml';
/** What was offered then. */
const OFFERS_FILE = 'offers.txt';

/** What a layout is made from: its plan file and, where there are any, its cupboard and the plan as it was asked for. */
export function sourceNames(name: string): readonly string[] {
  return [PLAN_FILE, CUPBOARD_UNLESS_SAID, ASKED_FILE].filter((file) =>
    existsSync(join(LAYOUTS, name, file)),
  );
}

/** What would make a plan fit that its cloth no longer holds, as the command tells it. */
function offersFor(name: string): readonly OutputFile[] {
  if (!sourceNames(name).includes(ASKED_FILE)) return [];
  const file = join(LAYOUTS, name, ASKED_FILE);
  const read = readPlan(readFileSync(file, 'utf8'), { file, makes: makes.map((make) => make.spec) });
  if (!read.ok) throw new Error(`${file} cannot be read: ${JSON.stringify(read.issues)}`);
  const options = { effort: DEFAULT_EFFORT, seed: 1 };
  const found = refit(read.value, { ...options, make: (plan) => provenCutPlan(plan, options) });
  if (!found.ok) throw new Error(`${file} cannot be planned: ${JSON.stringify(found.issues)}`);
  return [{ name: OFFERS_FILE, content: `${refitText(found.value, read.value, ASKED_FILE, 100)}\n` }];
}

/** Everything that is kept beside the plan file of a layout; of a cupboard, also what it holds once the plan is cut. */
export async function layoutFiles(name: string): Promise<readonly OutputFile[]> {
  const cutPlan = planLayout(name);
  const files = [
    ...(await outputFiles(cutPlan, KEPT_KINDS)),
    ...(await answers(name, cutPlan)),
    ...offersFor(name),
  ];
  if (!sourceNames(name).includes(CUPBOARD_UNLESS_SAID)) return files;
  const file = join(LAYOUTS, name, CUPBOARD_UNLESS_SAID);
  const json = files.find((own) => own.name === PLAN_JSON_FILE)!;
  const plan = planIn({ text: String(json.content), file: json.name });
  const { text } = bookPlan({ text: readFileSync(file, 'utf8'), file }, plan, { on: '2026-05-09' });
  return [...files, { name: 'cupboard-after.yaml', content: text }];
}

/** What other commands say of a layout, kept under a name beside it. */
const ANSWERS: Readonly<Record<string, readonly (readonly [file: string, words: readonly string[]])[]>> = {
  'one-yard-against-two': [
    ['buys.txt', ['buys', '--lengths', '1 yd, 2 yd']],
    ['ladder.txt', ['buys']],
    ['yield.txt', ['yield', '--here', 'dulse plaid 2 yd', '--listed']],
  ],
};

async function answers(name: string, cutPlan: CutPlan): Promise<readonly OutputFile[]> {
  const files: OutputFile[] = [];
  if (cutPlan.plan.goods) {
    files.push({ name: 'shopping.txt', content: `${shoppingText(shoppingList(cutPlan), 80, 'shop')}\n` });
  }
  for (const [file, [command, ...options]] of ANSWERS[name] ?? []) {
    const words = [command!, join(LAYOUTS, name, PLAN_FILE), ...options];
    files.push({ name: file, content: await said(words) });
    if (command === 'buys' && options.length === 0) files.push(...(await charts(words)));
  }
  return files;
}

/** The charts that the command draws, by way of a folder that is thrown away. */
async function charts(words: readonly string[]): Promise<readonly OutputFile[]> {
  const folder = mkdtempSync(join(tmpdir(), 'laywright-charts-'));
  try {
    await said([...words, '--out', folder]);
    const drawings = readdirSync(folder).filter((name) => name.endsWith('.svg'));
    return drawings.map((name) => ({ name, content: readFileSync(join(folder, name), 'utf8') }));
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** What a command prints. Throws where it fails. */
async function said(words: readonly string[]): Promise<string> {
  const [output, errors] = [new PassThrough(), new PassThrough()];
  const terminal = { input: new PassThrough(), output, errors, environment: {} };
  const exitCode = await runProgram(words, '', terminal);
  if (exitCode !== 0) throw new Error(`${words.join(' ')}: ${String(errors.read())}`);
  return String(output.read());
}

/** The reference of plan files, and the JSON Schemas that are kept for editors and for readers of `plan.json`. */
export function schemaFiles(): readonly OutputFile[] {
  const specs = makes.map((make) => make.spec);
  const heading =
    '# Every key of a plan file\n\nWritten by `npm run layouts` from the definition that reads plan files.\n\n';
  return [
    { name: 'plan-file.md', content: heading + planReferenceText(specs) },
    { name: 'plan-file.schema.json', content: writeJson(planSchemaDocument(specs)) },
    { name: 'cut-plan.schema.json', content: writeJson(planJsonSchemaDocument()) },
    { name: 'cupboard.schema.json', content: writeJson(cupboardSchemaDocument()) },
  ];
}

/** Plans everything before it writes anything. */
async function rebuild(names: readonly string[]): Promise<void> {
  const planned: (readonly [string, readonly OutputFile[]])[] = [['.', schemaFiles()]];
  for (const name of names) planned.push([name, await layoutFiles(name)]);
  for (const [folder, files] of planned) {
    for (const file of files) writeFileSync(join(LAYOUTS, folder, file.name), file.content);
    process.stdout.write(`${folder}: ${files.map((file) => file.name).join(', ')}\n`);
  }
}

if (process.argv[1] !== undefined && realpathSync(process.argv[1]) === fileURLToPath(import.meta.url)) {
  const named = process.argv.slice(2);
  await rebuild(named.length === 0 ? layoutNames() : named);
}
