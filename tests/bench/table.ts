/** Prints the rows and the summary lines of a bench run; all figures come from the records. */
import type { BenchRecord } from './answer.ts';
import { type Baselines, baselineNames } from './baselines.ts';

const columns = [
  ['instance', 18],
  ['question', 11],
  ['value', 9],
  ['published', 9],
  ['gap %', 7],
  ['bound', 9],
  ['proven', 6],
  ['seconds', 8],
  ['nodes', 11],
] as const;

export function heading(): string {
  const names = [
    ...columns.map(([name, width]) => name.padStart(width)),
    ...baselineNames.map((n) => n.padStart(8)),
  ];
  return names.join(' ');
}

export function row(record: BenchRecord, baselines: Baselines | undefined): string {
  const cells = [
    record.instance,
    record.question,
    show(record.value),
    show(record.best) + (record.free ? '*' : ''),
    record.gap === null ? '-' : record.gap.toFixed(3),
    show(record.bound),
    record.proven ? 'yes' : '-',
    (record.milliseconds / 1000).toFixed(2),
    String(record.nodes),
  ].map((cell, index) => cell.padStart(columns[index]![1]));
  const beside = baselineNames.map((name) => show(baselines?.[name] ?? null).padStart(8));
  const fault = record.checked ? '' : `  REFUSED: ${record.fault}`;
  return [...cells, ...beside].join(' ') + fault;
}

function show(value: number | string | null): string {
  if (value === null) return '-';
  return typeof value === 'number' && !Number.isInteger(value) ? value.toFixed(2) : String(value);
}

/** One line per family and question: instances, mean gap, equal, better, proven, mean and longest time. */
export function summary(records: readonly BenchRecord[]): string[] {
  const groups = new Map<string, BenchRecord[]>();
  for (const record of records) {
    const name = `${record.family} ${record.question}${record.free ? ' (published figure: free placement)' : ''}`;
    groups.set(name, [...(groups.get(name) ?? []), record]);
  }
  return [...groups].map(([name, group]) => `${name}: ${summarise(group)}`);
}

function summarise(group: readonly BenchRecord[]): string {
  const counted = group.filter((record) => record.checked);
  const gaps = counted.flatMap((record) => (record.gap === null ? [] : [record.gap]));
  const mean = gaps.reduce((sum, gap) => sum + gap, 0) / gaps.length;
  const times = group.map((record) => record.milliseconds / 1000);
  const instances = new Set(group.map((record) => record.instance)).size;
  const values = counted.flatMap((record) => (typeof record.value === 'number' ? [record.value] : []));
  return [
    `${instances} instances${group.length > instances ? ` (${group.length} runs)` : ''}`,
    `mean gap ${gaps.length > 0 ? `${mean.toFixed(3)} %` : '-'}`,
    `${gaps.filter((gap) => gap === 0).length} equal`,
    `${gaps.filter((gap) => gap < 0).length} better`,
    `${counted.filter((record) => record.proven).length} proven`,
    `total ${values.reduce((sum, value) => sum + value, 0)}`,
    `mean ${(times.reduce((sum, time) => sum + time, 0) / times.length).toFixed(2)} s`,
    `longest ${Math.max(...times).toFixed(2)} s`,
    ...(counted.length < group.length ? [`${group.length - counted.length} REFUSED by the checker`] : []),
    ...(gaps.length < group.length ? [`${group.length - gaps.length} without an answer to compare`] : []),
  ].join(', ');
}
