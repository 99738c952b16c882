/** Plans from text, with a cloth that was measured, for tests of what happens at the mat. */
import { makes } from '../../src/makes/catalogue.ts';
import { wordIssue } from '../../src/model/messages.ts';
import type { Plan } from '../../src/model/plan.ts';
import { readPlan } from '../../src/model/plan-file.ts';

/** A plan of one cloth without edges, sold by the quarter yard, and what is wanted from it. */
export function measuredText(measured: string, wanted: string, cloth = ''): string {
  return `plan: The net loft
unit: in
currency: $
cloths:
  sail grey:
    { width: 40, selvedge: 0, price: 12.00 per yd, buy: { step: 1/4 yd }, measured: ${measured}${cloth} }
${wanted}
`;
}

export function planFrom(text: string): Plan {
  const read = readPlan(text, { file: 'plan.yaml', makes: makes.map(({ spec }) => spec) });
  if (!read.ok) throw new Error(messagesOf(text).join('\n'));
  return read.value;
}

export function messagesOf(text: string): readonly string[] {
  const read = readPlan(text, { file: 'plan.yaml', makes: makes.map(({ spec }) => spec) });
  return read.issues.map((issue) => wordIssue(issue, 'in'));
}
