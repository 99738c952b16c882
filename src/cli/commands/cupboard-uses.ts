import type { Cupboard } from '../../model/cupboard.ts';
import type { Plan } from '../../model/plan.ts';
import { usesInCupboard } from '../../planning/leftovers/left-in-cupboard.ts';
import { usesText } from '../../rendering/uses.ts';
import { writeUsesJson } from '../../rendering/uses-json.ts';
import { TICKS_PER_CM, TICKS_PER_INCH, TICKS_PER_MM, ticks } from '../../units/ticks.ts';
import { CUPBOARD_UNLESS_SAID, cupboardIn } from '../cupboard/read-cupboard.ts';
import { EXIT, type ExitCode } from '../exit-codes.ts';
import type { OptionValues } from '../option-records.ts';
import { planOf } from '../read-plan-text.ts';
import { readText } from '../read-text.ts';
import { columnsOf, say, show, type Terminal } from '../terminal.ts';
import { refuseUnknownCloth } from './cupboard-list.ts';
import { usesOptions } from './uses.ts';

/** Tells what the entries of the cupboard could become. */
export async function runCupboardUses(
  operands: readonly string[],
  options: OptionValues,
  terminal: Terminal,
): Promise<ExitCode> {
  const cupboard = cupboardIn(String(options.cupboard ?? CUPBOARD_UNLESS_SAID));
  const cloth = operands[0];
  if (cloth !== undefined) refuseUnknownCloth(cloth, cupboard);
  const plan =
    typeof options.plan === 'string'
      ? planOf(await readText(options.plan, terminal), terminal, cupboard)
      : planWithout(cupboard);
  const uses = usesInCupboard(cupboard, plan, cloth, usesOptions(options));
  if (options.json === true) show(terminal, writeUsesJson(cupboard.name, uses, plan));
  else show(terminal, usesText(uses, plan, columnsOf(terminal)));
  sayUnwashed(cupboard, cloth, plan, terminal);
  return EXIT.done;
}

/** The habits of a plan, where no plan is named. */
function planWithout({ name, unit, currency }: Cupboard): Plan {
  const keep = unit === 'in' ? ticks(6 * TICKS_PER_INCH) : ticks(15 * TICKS_PER_CM);
  return {
    ...{ name, unit, currency, keep: { width: keep, length: keep } },
    rulerMark: unit === 'in' ? ticks(TICKS_PER_INCH / 8) : ticks(TICKS_PER_MM),
    paper: unit === 'in' ? 'letter' : 'a4',
    stages: 'any',
    tools: {
      rulerLength: unit === 'in' ? ticks(24 * TICKS_PER_INCH) : ticks(60 * TICKS_PER_CM),
      mostPlies: 4,
    },
    ...{ cloths: [], makes: [], pieces: [] },
  };
}

/** How much a cloth shrinks only a plan knows. */
function sayUnwashed(cupboard: Cupboard, cloth: string | undefined, plan: Plan, terminal: Terminal): void {
  const unwashed = cupboard.entries
    .filter((entry) => (cloth === undefined || entry.cloth === cloth) && !entry.washed)
    .filter((entry) => plan.cloths.find(({ name }) => name === entry.cloth)?.washing === undefined);
  if (unwashed.length === 0) return;
  const names = unwashed.map(({ name }) => `"${name}"`).join(', ');
  say(
    terminal,
    `Taken at their size, though not washed yet: ${names}. Wash and measure them first where they shrink.`,
  );
}
