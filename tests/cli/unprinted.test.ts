import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { laywright } from '../support/run-command.ts';

let cwd: string;
beforeAll(() => {
  cwd = mkdtempSync(join(tmpdir(), 'laywright-letters-'));
});
afterAll(() => rmSync(cwd, { recursive: true, force: true }));

const told = async (cloth: string, piece: string, kind: string) => {
  const input = `plan: Letters\nunit: cm\ncloths: { ${cloth}: { width: 110, selvedge: 0, buy: yes } }\npieces: [{ name: ${piece}, count: 2, size: 20 x 20, cloth: ${cloth} }]\n`;
  const words = ['plan', '-', '--effort', '500', '--write', kind, '--out', `${kind}-${cloth}`];
  return (await laywright(words, { cwd, input })).stderr;
};

describe('names whose letters the pages do not have', () => {
  it('are told where pages are written, each once', async () => {
    expect(await told('木綿', '袋', 'pdf')).toContain(
      'The pages have no letters for "木綿", "袋", which stand as empty boxes there',
    );
    expect(await told('木綿', '袋', 'svg')).toBe('');
  });

  it('are not those in Latin, Greek or Cyrillic letters, with their marks and fractions', async () => {
    expect(await told('toile à ½ – ωμέγα', 'скатерть № 2', 'pdf')).toBe('');
  });
});
