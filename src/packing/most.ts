import { commonDivisor, scaleOf } from './guillotine/pieces.ts';
import type { Kind, MostQuestion, PackOptions } from './instance.ts';
import type { PackResult } from './result.ts';
import { Budget } from './search/budget.ts';
import { mostValue } from './value/most-value.ts';
import { sheetTree } from './value/sheet-trees.ts';

/**
 * Most total value from one sheet, copies limited or not.
 *
 * Lengths and values are whole numbers, values above 0; both in the caller's units.
 */
export function mostFromSheet(question: MostQuestion, options: PackOptions): PackResult {
  const { sheet, kinds } = question;
  const budget = new Budget(options);
  const fitting = kinds.map((kind) => ({
    ...kind,
    copies: worthOf(kind) > 0 && fits(kind, sheet) ? kind.copies : 0,
  }));
  const scale = scaleOf(fitting);
  const width = Math.floor(sheet.width / scale.unitX);
  const length = Math.floor(sheet.length / scale.unitY);
  const scaled = fitting.map((kind) => ({
    ...kind,
    width: kind.width / scale.unitX,
    length: kind.length / scale.unitY,
  }));
  const values = Float64Array.from(kinds, worthOf);
  const step = fitting.reduce(
    (unit, kind, index) => (kind.copies > 0 ? commonDivisor(unit, values[index]!) : unit),
    0,
  );
  if (step === 0) return nothing(question);
  const { stages = 'any', seed } = options;
  const answer = mostValue({ kinds: scaled, width, length, values, step, stages, seed }, budget);
  const tree = sheetTree(answer.parts, { x: scale.unitX, y: scale.unitY }, sheet);
  return {
    status: answer.value === answer.bound ? 'best' : 'found',
    value: answer.value,
    bound: answer.bound,
    sheets: [{ sheet: 0, width: sheet.width, length: sheet.length, tree }],
    nodes: budget.nodes,
  };
}

function worthOf(kind: Kind): number {
  return kind.value ?? kind.width * kind.length;
}

function fits(kind: Kind, sheet: { readonly width: number; readonly length: number }): boolean {
  const upright = kind.width <= sheet.width && kind.length <= sheet.length;
  return upright || (kind.quarterTurn && kind.length <= sheet.width && kind.width <= sheet.length);
}

function nothing({ sheet }: MostQuestion): PackResult {
  const { width, length } = sheet;
  const empty = { sheet: 0, width, length, tree: { kind: 'remnant' } } as const;
  return { status: 'best', value: 0, bound: 0, sheets: [empty], nodes: 0 };
}
