import { CommandProblem, EXIT } from './exit-codes.ts';
import type { OptionValues } from './option-records.ts';

/** All cloths that something is cut from, or the one that `--cloth` names. Throws a CommandProblem where it names none of them. */
export function clothNamed(names: readonly string[], wanted: OptionValues[string]): readonly string[] {
  if (typeof wanted !== 'string') return names;
  if (names.includes(wanted)) return [wanted];
  throw new CommandProblem(
    EXIT.badInput,
    `--cloth: the plan cuts nothing from "${wanted}"; ${names.map((name) => `"${name}"`).join(' or ')} would work`,
  );
}
