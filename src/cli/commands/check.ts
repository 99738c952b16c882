import type { Issue } from '../../model/issue.ts';
import type { PlanUnit } from '../../model/plan.ts';
import { foreseen } from '../../planning/foreseen.ts';
import { writeJson } from '../../rendering/json-text.ts';
import { cupboardForPlan } from '../cupboard/read-cupboard.ts';
import { CommandProblem, EXIT, type ExitCode } from '../exit-codes.ts';
import { exitCodeOf } from '../exit-of-issues.ts';
import type { OptionValues } from '../option-records.ts';
import { placeIssues } from '../place-issues.ts';
import { issueLine, readOutcome, refuseCupboard, unitOf } from '../read-plan-text.ts';
import { readText, type TextRead } from '../read-text.ts';
import { say, show, type Terminal } from '../terminal.ts';

interface Checked {
  readonly file: string;
  readonly unit: PlanUnit;
  readonly issues: readonly Issue[];
}

/** A file that cannot be read, or whose cupboard cannot. */
interface Unread {
  readonly file: string;
  readonly problem: string;
}

/** Reads each plan, works out its makes, and reports; here the problems are the result, so they go to standard output. */
export async function runCheck(
  operands: readonly string[],
  options: OptionValues,
  terminal: Terminal,
): Promise<ExitCode> {
  const checked: (Checked | Unread)[] = [];
  const named = typeof options.cupboard === 'string' ? options.cupboard : undefined;
  for (const file of operands) checked.push(await readAndCheck(file, named, terminal));
  const read = checked.filter((own): own is Checked => 'issues' in own);
  const unread = checked.filter((own): own is Unread => 'problem' in own);
  if (options.json === true) show(terminal, asJson(checked));
  else {
    if (read.length > 0) show(terminal, asText(read));
    for (const { problem } of unread) say(terminal, problem);
  }
  const unsound = read.filter((own) => !isSound(own));
  if (unread.length > 0) return EXIT.badInput;
  return unsound.length === 0 ? EXIT.done : exitCodeOf(unsound.flatMap(({ issues }) => issues));
}

/** One file that cannot be read does not hide what is to be told of the others. */
async function readAndCheck(
  file: string,
  named: string | undefined,
  terminal: Terminal,
): Promise<Checked | Unread> {
  try {
    return checkOne(await readText(file, terminal), named);
  } catch (problem) {
    if (problem instanceof CommandProblem) return { file, problem: problem.message };
    throw problem;
  }
}

function checkOne(read: TextRead, named: string | undefined): Checked {
  refuseCupboard(read);
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
function asJson(checked: readonly (Checked | Unread)[]): string {
  return writeJson(
    checked.map((own) =>
      'problem' in own
        ? unreadJson(own)
        : {
            file: own.file,
            ok: isSound(own),
            issues: own.issues.map((issue) => ({
              code: issue.code,
              severity: issue.severity,
              path: issue.path,
              place: issue.place && { line: issue.place.line, column: issue.place.column },
              message: issueLine(issue, own.unit),
            })),
          },
    ),
  );
}

function unreadJson({ file, problem }: Unread) {
  return { file, ok: false, issues: [{ code: 'unread', severity: 'error', path: [], message: problem }] };
}
