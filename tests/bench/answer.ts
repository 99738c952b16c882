/** Puts one question to the engine under a time limit and has the independent checker judge the answer. */
import { checkPacking, type PackingAsked } from '../../src/check/check-packing.ts';
import type { PackOptions } from '../../src/packing/instance.ts';
import { fewestSheets, mostFromSheet, shortestLength } from '../../src/packing/pack.ts';
import type { PackResult } from '../../src/packing/result.ts';
import { canCutAll } from '../../src/packing/shortest.ts';
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

const doors: Record<BenchQuestion['ask'], Ask> = {
  shortest: shortestLength as Ask,
  fits: canCutAll as Ask,
  most: mostFromSheet as Ask,
  fewest: fewestSheets as Ask,
};

export interface Limits {
  readonly seconds: number;
  readonly clock: Clock;
}

/** Seconds on the wall, or of processor time, which other work on the machine does not eat into. */
export type Clock = 'wall' | 'processor';

function milliseconds(clock: Clock): number {
  if (clock === 'wall') return performance.now();
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}

export function answer(question: BenchQuestion, limits: Limits, seed: number): BenchRecord {
  const door = doors[question.ask];
  const start = milliseconds(limits.clock);
  const deadline = start + limits.seconds * 1000;
  const result = door(question.body as never, {
    effort: Number.MAX_SAFE_INTEGER,
    seed,
    stop: () => milliseconds(limits.clock) >= deadline,
  });
  return judge(question, seed, result, milliseconds(limits.clock) - start);
}

function askedOf({ ask, body }: BenchQuestion): PackingAsked {
  return {
    ask: ask === 'fits' ? 'shortest' : ask,
    sheets: 'sheets' in body ? body.sheets : [body.sheet],
    kinds: body.kinds,
    stages: 'any',
  };
}

function judge(question: BenchQuestion, seed: number, result: PackResult, taken: number): BenchRecord {
  const feasible = result.status === 'best' || result.status === 'found';
  const problem = feasible ? checkPacking(askedOf(question), result)[0] : undefined;
  const fault = problem && JSON.stringify(problem);
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
    milliseconds: Math.round(taken * 10) / 10,
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
