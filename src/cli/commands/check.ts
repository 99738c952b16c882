import type { Issue } from '../../model/issue.ts';
import type { PlanUnit } from '../../model/plan.ts';
import { foreseen } from '../../planning/foreseen.ts';
import { writeJson } from '../../rendering/json-text.ts';
import { cupboardForPlan } from '../cupboard/read-cupboard.ts';
import { EXIT, type ExitCode } from '../exit-codes.ts';
import type { OptionValues } from '../option-records.ts';
import { placeIssues } from '../place-issues.ts';
import { issueLine, readOutcome, unitOf } from '../read-plan-text.ts';
import { readText, type TextRead } from '../read-text.ts';
import { show, type Terminal } from '../terminal.ts';

interface Checked {
  readonly file: string;
  readonly unit: PlanUnit;
  readonly issues: readonly Issue[];
}

/** Reads each plan, works out its makes, and reports; here the problems are the result, so they go to standard output. */
export async function runCheck(
  operands: readonly string[],
  options: OptionValues,
  terminal: Terminal,
): Promise<ExitCode> {
  const checked: Checked[] = [];
  const named = typeof options.cupboard === 'string' ? options.cupboard : undefined;
  for (const file of operands) checked.push(checkOne(await readText(file, terminal), named));
  show(terminal, options.json === true ? asJson(checked) : asText(checked));
  return checked.every(isSound) ? EXIT.done : EXIT.badInput;
}

function checkOne(read: TextRead, named: string | undefined): Checked {
  const outcome = readOutcome(read, cupboardForPlan(read, named));
  if (!outcome.ok) return { file: read.file, unit: unitOf(read), issues: outcome.issues };
  const issues = foreseen(outcome.value);
  return {
    file: read.file,
    unit: outcome.value.unit,
    issues: [...outcome.issues, ...placeIssues(issues, read)],
  };
}

function isSound(checked: Checked): boolean {
  return checked.issues.every((issue) => issue.severity !== 'error');
}

function asText(checked: readonly Checked[]): string {
  return checked
    .map((own) => {
      const lines = own.issues.map((issue) => issueLine(issue, own.unit));
      return isSound(own)
        ? [...lines, `${own.file}: understood; nothing stands in the way of planning it.`].join('\n')
        : lines.join('\n');
    })
    .join('\n');
}

/** One record a file: `file`, `ok`, and its `issues`, each with code, severity, path, place and message. */
function asJson(checked: readonly Checked[]): string {
  return writeJson(
    checked.map((own) => ({
      file: own.file,
      ok: isSound(own),
      issues: own.issues.map((issue) => ({
        code: issue.code,
        severity: issue.severity,
        path: issue.path,
        place: issue.place && { line: issue.place.line, column: issue.place.column },
        message: issueLine(issue, own.unit),
      })),
    })),
  );
}
