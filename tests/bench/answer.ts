/** Puts one question to the engine under a time limit and has the independent checker judge the answer. */
import type { PackOptions } from '../../src/packing/instance.ts';
import type { PackResult } from '../../src/packing/result.ts';
import { packedSheetFaults } from '../support/packed-sheets.ts';
import type { BenchQuestion } from './families.ts';

/** What `--json` writes, one per question and seed. */
export interface BenchRecord {
  readonly family: string;
  readonly instance: string;
  readonly question: string;
  readonly seed: number;
  readonly value: number | string | null;
  readonly best: number | string | null;
  readonly bound: number | null;
  readonly proven: boolean;
  readonly milliseconds: number;
  readonly nodes: number;
  /** The answer passed the independent checker; an answer that says "impossible" or "unknown" has nothing to check. */
  readonly checked: boolean;
  /** Gap to the published best in per cent, below zero when better; null where there is no number to compare with. */
  readonly gap: number | null;
  readonly free: boolean;
  readonly fault?: string;
}

type Ask = (question: never, options: PackOptions) => PackResult;

/** The engine's doors: the file and the function for each way of asking. */
const doors: Record<BenchQuestion['ask'], readonly [file: string, name: string]> = {
  shortest: ['shortest.ts', 'shortestLength'],
  fits: ['shortest.ts', 'canCutAll'],
  most: ['most.ts', 'mostFromSheet'],
  fewest: ['fewest.ts', 'fewestSheets'],
};

async function doorOf(ask: BenchQuestion['ask']): Promise<Ask> {
  const [file, name] = doors[ask];
  const module = (await import(`../../src/packing/${file}`)) as Record<string, Ask>;
  const door = module[name];
  if (!door) throw new Error(`src/packing/${file} has no ${name}`);
  return door;
}

export async function answer(question: BenchQuestion, seconds: number, seed: number): Promise<BenchRecord> {
  const door = await doorOf(question.ask);
  const start = performance.now();
  const deadline = start + seconds * 1000;
  const result = door(question.body as never, {
    effort: Number.MAX_SAFE_INTEGER,
    seed,
    stop: () => performance.now() >= deadline,
  });
  const milliseconds = performance.now() - start;
  return judge(question, seed, result, milliseconds);
}

function judge(question: BenchQuestion, seed: number, result: PackResult, milliseconds: number): BenchRecord {
  const feasible = result.status === 'best' || result.status === 'found';
  const fault = feasible ? packedSheetFaults(question, result)[0] : undefined;
  const decides = question.ask === 'fits';
  const letter = feasible ? 'F' : result.status === 'impossible' ? 'N' : 'X';
  const value = decides ? letter : feasible ? result.value : null;
  const proven = decides ? letter !== 'X' : result.status === 'best' || result.status === 'impossible';
  return {
    family: question.family,
    instance: question.instance,
    question: question.question,
    seed,
    value,
    best: question.published,
    bound: decides || result.status === 'impossible' ? null : result.bound,
    proven,
    milliseconds: Math.round(milliseconds * 10) / 10,
    nodes: result.nodes,
    checked: fault === undefined,
    gap: gapOf(question, value, proven),
    free: question.free,
    ...(fault === undefined ? {} : { fault }),
  };
}

function gapOf(question: BenchQuestion, value: number | string | null, proven: boolean): number | null {
  const best = question.published;
  if (typeof value === 'number' && typeof best === 'number') {
    const worse = question.ask === 'most' ? best - value : value - best;
    return (100 * worse) / best;
  }
  return value === best && proven ? 0 : null;
}
