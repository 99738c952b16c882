import { findMake } from '../../makes/catalogue.ts';
import type { Plan } from '../../model/plan.ts';
import type { MayShrink } from '../../planning/mat/givings.ts';
import { parseLength } from '../../units/parse.ts';
import { likelySpelling } from '../../units/spelling.ts';
import type { Ticks } from '../../units/ticks.ts';
import { CommandProblem, EXIT } from '../exit-codes.ts';

/**
 * What follows `--may-shrink`: `bench covers by 1 in, hall runner length by 4`. The name of an order or a piece, then a
 * measure of its make, `across` or `up` where not all of its size may give, then by how much at most.
 * Throws a CommandProblem with every part that is not understood.
 */
export function readMayShrink(text: string, plan: Plan): readonly MayShrink[] {
  const read = text.split(/[;,]/).map((part) => readOne(part.trim(), plan));
  const problems = read.flatMap((own) => ('problem' in own ? [own.problem] : []));
  if (problems.length > 0) throw new CommandProblem(EXIT.badInput, problems.join('\n'));
  return read.flatMap((own) => ('may' in own ? [own.may] : []));
}

type ReadOne = { readonly may: MayShrink } | { readonly problem: string };

function readOne(written: string, plan: Plan): ReadOne {
  const refuse = (found: string, wanted: string): ReadOne => ({
    problem: `--may-shrink: found "${found}"; ${wanted} would work`,
  });
  const [, what, by] = /^(.*?)(?:\s+by\s+(.+))?$/s.exec(written)!;
  const most = by === undefined ? undefined : lengthOf(by, plan);
  if (by !== undefined && most === undefined)
    return refuse(by, plan.unit === 'in' ? 'a length such as 1 1/2 in' : 'a length such as 3 cm');
  const named = nameAtStart(what!, plan);
  if (named === undefined) {
    const names = namesIn(plan);
    const likely = likelySpelling(what!, names);
    return refuse(
      what!,
      likely === undefined ? names.map((name) => `"${name}"`).join(' or ') : `"${likely}"`,
    );
  }
  const measure = what!.slice(named.length).trim();
  const limit = most === undefined ? {} : { most };
  if (measure === '') return { may: { name: named, ...limit } };
  const known = measuresOf(named, plan);
  if (known.length === 0)
    return { problem: `--may-shrink: nothing of "${named}" may be made smaller; name another thing` };
  if (!known.includes(measure))
    return refuse(measure, `${known.map((own) => `"${own}"`).join(' or ')} of ${named}`);
  return { may: { name: named, measure, ...limit } };
}

/** The longest name that stands at the beginning, since names may be of several words. */
function nameAtStart(text: string, plan: Plan): string | undefined {
  return namesIn(plan)
    .filter((name) => text === name || text.startsWith(`${name} `))
    .sort((a, b) => b.length - a.length)[0];
}

function namesIn(plan: Plan): readonly string[] {
  return [...plan.makes, ...plan.pieces].map(({ name }) => name);
}

function measuresOf(name: string, plan: Plan): readonly string[] {
  const order = plan.makes.find((own) => own.name === name);
  if (order === undefined) return ['across', 'up'];
  const measures = Object.entries(findMake(order.make)!.spec.measures);
  const told = measures.filter(([measure, { mayGive }]) => mayGive && order.measures[measure] !== undefined);
  const sized = told.some(([, { kind }]) => kind === 'size');
  return [...told.map(([measure]) => measure), ...(sized ? ['across', 'up'] : [])];
}

function lengthOf(text: string, plan: Plan): Ticks | undefined {
  const read = parseLength(text, { unit: plan.unit, round: 'down' });
  return read.ok && read.value > 0 ? read.value : undefined;
}
