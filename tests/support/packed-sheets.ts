/**
 * Judges the sheets of an answer against the question that was asked, from the cut trees alone.
 *
 * Positions are derived from the trees here and nowhere else; nothing of the engine is used.
 */
import type { FewestQuestion, Kind, MostQuestion, ShortestQuestion } from '../../src/packing/instance.ts';
import type { PackedSheet, SheetTree } from '../../src/packing/result.ts';

type Asked =
  | { readonly ask: 'shortest'; readonly body: ShortestQuestion }
  | { readonly ask: 'fits'; readonly body: ShortestQuestion }
  | { readonly ask: 'most'; readonly body: MostQuestion }
  | { readonly ask: 'fewest'; readonly body: FewestQuestion };

/** Everything wrong with an answer, in words; empty when it is sound. */
export function packedSheetFaults(
  asked: Asked,
  answer: { readonly value: number; readonly bound: number; readonly sheets: readonly PackedSheet[] },
): string[] {
  const { kinds } = asked.body;
  const faults: string[] = [];
  const counts = kinds.map(() => 0);
  for (const sheet of answer.sheets) treeFaults(sheet, kinds, counts, faults);
  kinds.forEach((kind, index) => {
    const most = asked.ask === 'most';
    if (most ? counts[index]! > kind.copies : counts[index] !== kind.copies) {
      faults.push(`kind ${index}: ${counts[index]} cut, ${kind.copies} ${most ? 'allowed' : 'wanted'}`);
    }
  });
  const value = worthOf(asked, answer.sheets, counts);
  if (value !== answer.value) faults.push(`value ${answer.value} claimed, the cuts give ${value}`);
  const beyond = asked.ask === 'most' ? answer.value > answer.bound : answer.value < answer.bound;
  if (beyond) faults.push(`value ${answer.value} lies beyond the bound ${answer.bound}`);
  return faults;
}

function worthOf(asked: Asked, sheets: readonly PackedSheet[], counts: readonly number[]): number {
  if (asked.ask === 'shortest' || asked.ask === 'fits') {
    const { sheet } = asked.body;
    const used = sheets[0];
    if (sheets.length > 1 || !used) return Number.NaN;
    if (used.width !== sheet.width || used.length > sheet.length) return Number.NaN;
    return used.length;
  }
  if (asked.ask === 'most') {
    const { sheet, kinds, set } = asked.body;
    if (sheets.some(({ width, length }) => width !== sheet.width || length !== sheet.length)) {
      return Number.NaN;
    }
    if (set) {
      return Math.min(...set.map((each, k) => (each > 0 ? Math.floor(counts[k]! / each) : Infinity)));
    }
    return kinds.reduce((sum, kind, k) => sum + counts[k]! * (kind.value ?? kind.width * kind.length), 0);
  }
  const opened = asked.body.sheets.map(() => 0);
  let cost = 0;
  for (const { sheet, width, length } of sheets) {
    const given = asked.body.sheets[sheet];
    if (!given || given.width !== width || given.length !== length) return Number.NaN;
    opened[sheet]! += 1;
    if (opened[sheet]! > (given.copies ?? 1)) return Number.NaN;
    cost += given.cost ?? given.width * given.length;
  }
  return cost;
}

/** Walks one tree with an explicit stack, counting the pieces. */
function treeFaults(sheet: PackedSheet, kinds: readonly Kind[], counts: number[], faults: string[]): void {
  const open: { tree: SheetTree; width: number; length: number }[] = [sheet];
  while (open.length > 0) {
    const { tree, width, length } = open.pop()!;
    if (!(width > 0 && length > 0)) faults.push(`a part of ${width} × ${length}`);
    if (tree.kind === 'piece') {
      const kind = kinds[tree.piece];
      if (!kind) {
        faults.push(`a piece of kind ${tree.piece}, which was not asked for`);
        continue;
      }
      counts[tree.piece]! += 1;
      const turned = tree.quarterTurns % 2 === 1;
      if (turned && !kind.quarterTurn) faults.push(`kind ${tree.piece} is turned, which it may not be`);
      const fits = turned
        ? kind.length === width && kind.width === length
        : kind.width === width && kind.length === length;
      if (!fits) faults.push(`kind ${tree.piece} lies in a part of ${width} × ${length}`);
    }
    if (tree.kind !== 'cut') continue;
    const whole = tree.direction === 'lengthwise' ? width : length;
    const marks = [0, ...tree.at, whole];
    if (tree.parts.length !== tree.at.length + 1)
      faults.push('a cut with parts and positions that do not match');
    tree.parts.forEach((part, index) => {
      const size = marks[index + 1]! - marks[index]!;
      open.push(
        tree.direction === 'lengthwise'
          ? { tree: part, width: size, length }
          : { tree: part, width, length: size },
      );
    });
  }
}
