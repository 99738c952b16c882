import { stringify } from 'yaml';
import type { MakeSpec, MeasureSpec } from '../model/measure.ts';
import type { PlanUnit } from '../model/plan.ts';
import { wrapWords } from '../rendering/text-columns.ts';

/** The answers that a new plan starts from, as they were typed. */
export interface NewPlan {
  readonly name: string;
  readonly unit: PlanUnit;
  readonly make: MakeSpec;
  readonly count: number;
  /** By measure; what is not here takes its default, or is left out. */
  readonly measures: Readonly<Record<string, string>>;
  readonly cloth: string;
  readonly width: string;
}

const USUAL = {
  in: {
    mark: '1/8',
    paper: 'letter',
    keepOff: '3/4',
    selvedge: '1/2',
    price: '14.80 per yd',
    step: '1/8 yd',
  },
  cm: { mark: '0.5', paper: 'a4', keepOff: '2', selvedge: '1', price: '15.60 per m', step: '10 cm' },
} as const;

const REMARK_COLUMNS = 96;

/** A whole plan file with a remark beside every line that a person may want to change. */
export function newPlanText(plan: NewPlan, fileName: string): string {
  const usual = USUAL[plan.unit];
  return [
    '# A plan to cut by. What follows a # is a remark; change any line, then run:',
    `#   laywright plan ${fileName}`,
    '',
    `plan: ${written(plan.name)}`,
    `unit: ${plan.unit}  # what a bare number means: in or cm`,
    `ruler: ${usual.mark}  # its marks: cut sizes are rounded up to it, usable widths down`,
    `paper: ${usual.paper}  # letter or a4`,
    '',
    'cloths:',
    `  ${written(plan.cloth)}:`,
    `    width: ${written(plan.width)}  # overall, from selvedge edge to selvedge edge`,
    `    selvedge: ${usual.selvedge}  # trimmed away on each side`,
    '    direction: plain  # or two-way, one-way, nap',
    `    # crease: keep off ${usual.keepOff}  # where the bolt fold is faded; on either side`,
    `    # price: ${usual.price}`,
    `    buy: yes  # in steps of ${usual.step}; for cloth you have, write lengths instead:`,
    plan.unit === 'in' ? '    # lengths: [2 yd, 60]' : '    # lengths: [1.8 m, 150]',
    '',
    'make:',
    `  - name: ${written(`first ${plan.make.kind}`)}`,
    `    kind: ${plan.make.kind}`,
    `    count: ${plan.count}`,
    `    cloth: ${written(plan.cloth)}  # for every part; or one for each: ${clothsOfParts(plan)}`,
    ...Object.entries(plan.make.measures).flatMap(([name, measure]) => measureLines(plan, name, measure)),
    '',
  ].join('\n');
}

function clothsOfParts(plan: NewPlan): string {
  const parts = Object.keys(plan.make.parts).map((part) => `${written(part)}: ${written(plan.cloth)}`);
  return `{ ${parts.join(', ')} }`;
}

function measureLines(plan: NewPlan, name: string, measure: MeasureSpec): string[] {
  const choices = measure.kind === 'choice' ? ` One of: ${measure.choices.join(', ')}.` : '';
  const remark = wrapWords(measure.meaning + choices, REMARK_COLUMNS).map((line) => `    # ${line}`);
  const value = plan.measures[name] ?? defaultText(measure, plan.unit);
  const line = value === undefined ? `    # ${written(name)}:` : `    ${written(name)}: ${written(value)}`;
  return [...remark, line];
}

export function defaultText(measure: MeasureSpec, unit: PlanUnit): string | undefined {
  return unit === 'in' ? measure.default?.inches : measure.default?.metric;
}

/** A text as YAML writes it on one line, in quotes only where it needs them. Every value of a plan file is text. */
function written(text: string): string {
  return /^[\p{L}\p{N}][\p{L}\p{N} .,/'+-]*$/u.test(text) && !text.endsWith(' ')
    ? text
    : stringify(text, { lineWidth: 0, defaultStringType: 'QUOTE_DOUBLE' }).trimEnd();
}
