import type { Cloth, LengthInHand, Worth } from '../model/cloth.ts';
import type { Issue } from '../model/issue.ts';
import { wordDetails } from '../model/messages.ts';
import type { Plan } from '../model/plan.ts';
import { readWorth } from '../model/reading/worth-scalars.ts';
import { type NamedSet, wantedOf } from '../planning/named-set.ts';
import { parseLength } from '../units/parse.ts';
import { likelySpelling } from '../units/spelling.ts';
import { CommandProblem, EXIT } from './exit-codes.ts';

/** `6.50 per sq yd`: what a keepable leftover is worth. */
export function readWorthOption(text: string, { unit, currency }: Plan): Worth {
  const read = readWorth(text, { unit, currency });
  if (read.ok) return read.value;
  const issue = { ...read.problem, severity: 'error', path: [] } as Issue;
  throw refused('worth', wordDetails(issue, unit).replace(/\.$/, ''));
}

/** `2 window seat covers, 6 napkins`: what makes up one set, each an order or a loose piece of the plan. */
export function readSet(text: string, plan: Plan): NamedSet {
  const wanted = wantedOf(plan);
  const set = new Map<string, number>();
  for (const part of partsOf(text)) {
    const [, digits, name] = /^(\d+)\s*(?:x|×)?\s+(\S.*)$/.exec(part) ?? [];
    if (digits === undefined || name === undefined)
      throw refused('set', `"${part}" does not say how many of what; "${exampleSet(wanted)}" would work`);
    const each = Number(digits);
    if (!wanted.has(name))
      throw refused('set', `the plan makes no "${name}"; ${hint(name, [...wanted.keys()])}`);
    if (set.has(name)) throw refused('set', `"${name}" stands there twice; name it once, with its number`);
    if (each < 1 || each > wanted.get(name)!)
      throw refused(
        'set',
        `${each} of "${name}" are no part of the ${wanted.get(name)} that the plan makes; 1 to ${wanted.get(name)} would work`,
      );
    set.set(name, each);
  }
  return set;
}

function exampleSet(wanted: NamedSet): string {
  return [...wanted.keys()]
    .slice(0, 2)
    .map((name) => `1 ${name}`)
    .join(', ');
}

/** `gull stripe 2 yd; oat linen 60`: the lengths that are here, each of the whole width of its cloth. */
export function readHere(text: string, plan: Plan): ReadonlyMap<string, readonly LengthInHand[]> {
  const here = new Map<string, LengthInHand[]>();
  const names = plan.cloths.map(({ name }) => name);
  for (const part of partsOf(text)) {
    const cloth = [...plan.cloths]
      .sort((one, other) => other.name.length - one.name.length)
      .find(({ name }) => part.startsWith(name) && /^(?::|\s)/.test(part.slice(name.length)));
    if (names.includes(part))
      throw refused(
        'here',
        `"${part}" tells no length; "${part} ${plan.unit === 'in' ? '1 1/2 yd' : '1.5 m'}" would work`,
      );
    if (!cloth)
      throw refused(
        'here',
        `"${part}" begins with no cloth of this plan; ${hint(part.replace(/[\d:].*$/, '').trim(), names)}`,
      );
    const own = here.get(cloth.name) ?? [];
    here.set(cloth.name, [
      ...own,
      lengthHere(part.slice(cloth.name.length).replace(/^\s*:?\s*/, ''), cloth, own.length, plan),
    ]);
  }
  return here;
}

function lengthHere(text: string, cloth: Cloth, before: number, { unit }: Plan): LengthInHand {
  const read = parseLength(text, { unit, round: 'down' });
  if (!read.ok || read.value === 0)
    throw refused(
      'here',
      `"${text}" is no length of "${cloth.name}"; "${cloth.name} ${unit === 'in' ? '1 1/2 yd' : '1.4 m'}" would work`,
    );
  const { width, selvedge, crease } = cloth;
  return {
    name: before === 0 ? 'what is here' : `what is here, ${before + 1}`,
    length: read.value,
    width,
    selvedge,
    crease,
    copies: 1,
  };
}

/** What stands between commas or semicolons. */
export function partsOf(text: string): readonly string[] {
  return text.split(/[,;]/).map((part) => part.trim());
}

function hint(found: string, known: readonly string[]): string {
  const likely = likelySpelling(found, known);
  return `${(likely === undefined ? known : [likely]).map((name) => `"${name}"`).join(' or ')} would work`;
}

/** `--option: message`. */
export function refused(option: string, message: string): CommandProblem {
  return new CommandProblem(EXIT.badInput, `--${option}: ${message}`);
}
