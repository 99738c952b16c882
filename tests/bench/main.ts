/** `npm run bench -- FILE...`: puts published instances to the engine and prints what it reaches. */
import { fork } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { answer, type BenchRecord, type Limits } from './answer.ts';
import { baselinesOf } from './baselines.ts';
import { type BenchQuestion, type Family, questionsOf, readFamily } from './families.ts';
import { heading, row, summary } from './table.ts';

interface Task {
  readonly question: BenchQuestion;
  readonly seed: number;
  readonly limits: Limits;
}

const usage = `npm run bench -- FILE...: puts published instances to the engine and prints what it reaches.
Files are in the format of fixtures/published/README.md.

  --seconds S     most seconds for an instance (10)
  --only KEYS     only these questions, such as sp_OG,bp_RG
  --match TEXT    only instances whose name holds this text
  --seeds N       how many seeds (1)
  --jobs N        how many processes side by side (1)
  --clock KIND    wall, or processor: time in which this process ran (wall)
  --json FILE     also write the records, as one array
  --no-baselines  leave out the other packers
  --help          print this
`;

/** Ends with one clear line for what the caller got wrong, and the usage. */
function refuse(fault: string): never {
  console.error(`${fault}\n\n${usage}`);
  process.exit(2);
}

function readArguments() {
  try {
    return parseArgs(accepted);
  } catch (error) {
    return refuse((error as Error).message);
  }
}

const accepted = {
  allowPositionals: true,
  options: {
    seconds: { type: 'string', default: '10' },
    only: { type: 'string' },
    match: { type: 'string' },
    seeds: { type: 'string', default: '1' },
    jobs: { type: 'string', default: '1' },
    clock: { type: 'string', default: 'wall' },
    json: { type: 'string' },
    'no-baselines': { type: 'boolean', default: false },
    help: { type: 'boolean', default: false },
  },
} as const;

const { values: options, positionals: files } = readArguments();

function numberOf(name: 'seconds' | 'seeds' | 'jobs'): number {
  const value = Number(options[name]);
  if (!(value > 0)) refuse(`--${name}: "${options[name]}" is no number above zero`);
  return value;
}

function tasks(): Task[] {
  const { clock } = options;
  if (clock !== 'wall' && clock !== 'processor') refuse(`--clock: "${clock}" is neither wall nor processor`);
  const limits: Limits = { seconds: numberOf('seconds'), clock };
  const only = options.only?.split(',');
  const wanted = (question: BenchQuestion) =>
    (!only || only.includes(question.question)) &&
    (options.match === undefined || question.instance.includes(options.match));
  return files
    .flatMap((file) => questionsOf(readOrRefuse(file)))
    .filter(wanted)
    .flatMap((question) =>
      Array.from({ length: numberOf('seeds') }, (_, index) => ({ question, seed: index + 1, limits })),
    );
}

function readOrRefuse(file: string): Family {
  try {
    return readFamily(file);
  } catch (error) {
    return refuse(`${file}: ${(error as Error).message}`);
  }
}

function perform({ question, seed, limits }: Task): BenchRecord {
  try {
    return answer(question, limits, seed);
  } catch (error) {
    throw new Error(`${question.family} ${question.instance} ${question.question}, seed ${seed}`, {
      cause: error,
    });
  }
}

/** Runs the tasks in `jobs` child processes; each asks for the next when it is done. */
function performAll(all: readonly Task[], done: (record: BenchRecord, task: Task) => void): Promise<void> {
  const jobs = Math.min(numberOf('jobs'), all.length);
  let next = 0;
  const workers = Array.from({ length: jobs }, async () => {
    const child =
      jobs > 1 ? fork(fileURLToPath(import.meta.url), [], { serialization: 'advanced' }) : undefined;
    while (next < all.length) {
      const task = all[next]!;
      next += 1;
      if (!child) {
        done(perform(task), task);
        continue;
      }
      const record = await new Promise<BenchRecord>((resolve, reject) => {
        child.once('message', (message) => resolve(message as BenchRecord));
        child.once('exit', () => reject(new Error(`a worker ended during ${task.question.instance}`)));
        child.send(task, () => {});
      });
      child.removeAllListeners('exit');
      done(record, task);
    }
    child?.disconnect();
  });
  return Promise.all(workers).then(() => {});
}

/** A child process, started by `performAll`, answers one question per message. */
if (process.send) {
  process.on('message', (task: Task) => process.send?.(perform(task)));
} else if (options.help) {
  console.log(usage);
} else {
  const all = tasks();
  if (all.length === 0) refuse('no question to ask: name files, and see that --only and --match leave some');
  const records: BenchRecord[] = [];
  console.log(heading());
  await performAll(all, (record, { question }) => {
    records.push(record);
    console.log(row(record, options['no-baselines'] ? undefined : baselinesOf(question)));
  });
  console.log('');
  for (const line of summary(records)) console.log(line);
  if (options.json !== undefined) writeFileSync(options.json, `${JSON.stringify(records)}\n`);
  if (records.some((record) => !record.checked)) process.exitCode = 1;
}
