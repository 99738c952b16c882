import { PassThrough } from 'node:stream';
import { describe, expect, it } from 'vitest';
import { fileWord, markerFileNames, outputFolder } from '../../src/cli/file-names.ts';
import { isOurs } from '../../src/cli/outputs.ts';
import { showProgress } from '../../src/cli/progress.ts';
import { columnsOf, mayEmphasise, type Terminal } from '../../src/cli/terminal.ts';

function terminalOf(isTTY: boolean, environment: Terminal['environment'], columns?: number) {
  const stream = () => Object.assign(new PassThrough(), { isTTY, ...(columns !== undefined && { columns }) });
  const errors = stream();
  let said = '';
  errors.on('data', (chunk: Buffer) => {
    said += chunk.toString();
  });
  const terminal: Terminal = { input: stream(), output: stream(), errors, environment };
  return { terminal, said: () => said };
}

describe('bold headings', () => {
  // NO_COLOR is honoured when present and not empty (no-color.org).
  it.each([
    [true, {}, true],
    [true, { NO_COLOR: '' }, true],
    [true, { NO_COLOR: '1' }, false],
    [true, { TERM: 'dumb' }, false],
    [false, {}, false],
  ])('on a terminal: %s, with %j: %s', (isTTY, environment, bold) => {
    expect(mayEmphasise(terminalOf(isTTY, environment).terminal)).toBe(bold);
  });

  it('fill the terminal, up to a width that can be read', () => {
    expect(columnsOf(terminalOf(true, {}, 47).terminal)).toBe(47);
    expect(columnsOf(terminalOf(true, {}, 300).terminal)).toBe(120);
    expect(columnsOf(terminalOf(false, {}).terminal)).toBe(80);
    expect(columnsOf(terminalOf(true, {}, 0).terminal)).toBe(80);
  });
});

describe('progress', () => {
  const report = { kind: 'progress', progress: { cloth: 'oat linen', nodes: 1234 } } as const;

  it('is one line on a terminal that is written over and cleared', async () => {
    const { terminal, said } = terminalOf(true, {}, 40);
    const progress = showProgress(terminal);
    progress.show(report);
    progress.show(report);
    progress.clear();
    await new Promise(setImmediate);
    const line = '\rPlanning "oat linen", 0 s. Ctrl-C keeps';
    expect(said()).toBe(`${line}${line}\r${' '.repeat(39)}\r`);
  });

  it('knows no trouble on a terminal that nobody has sized', async () => {
    const { terminal, said } = terminalOf(true, {}, 0);
    const progress = showProgress(terminal);
    progress.show(report);
    progress.clear();
    await new Promise(setImmediate);
    expect(said()).toContain('Ctrl-C keeps the best so far.');
  });

  it('is nothing at all elsewhere', async () => {
    const { terminal, said } = terminalOf(false, {});
    const progress = showProgress(terminal);
    progress.show(report);
    progress.clear();
    await new Promise(setImmediate);
    expect(said()).toBe('');
  });
});

describe('names of files', () => {
  it('hold letters and digits of any script, and no way out of the folder', () => {
    expect(fileWord('Möwe & 海, 54 in')).toBe('möwe-海-54-in');
    expect(fileWord('../../etc/passwd')).toBe('etc-passwd');
    expect(fileWord('…')).toBe('');
    expect(fileWord('x'.repeat(300))).toHaveLength(60);
  });

  it('tell cloths apart that come to the same word', () => {
    expect(markerFileNames(['Kelp', 'kelp!', '…', '?', 'kelp 2'])).toEqual([
      'marker-kelp.svg',
      'marker-kelp-2.svg',
      'marker.svg',
      'marker-2.svg',
      'marker-kelp-2-2.svg',
    ]);
  });

  it('of the folder follow the plan file', () => {
    expect(outputFolder('plans/Breakfast room.yaml')).toBe('breakfast-room-marker');
    expect(outputFolder('-')).toBe('laywright-marker');
    expect(outputFolder('.yaml')).toBe('yaml-marker');
  });
});

describe('a file in the way', () => {
  it.each([
    ['marker.svg', '<svg><title>Marker of x, one to 8, drawn by Laywright</title></svg>', true],
    ['marker.svg', '<svg><title>A gull</title></svg>', false],
    ['markers.pdf', '%PDF-1.3 ... /Creator (Drawn by Laywright) ... %%EOF', true],
    ['markers.pdf', '%PDF-1.3 ... /Creator (Somebody) ... %%EOF', false],
    ['plan.json', '{\n  "format": "laywright cut plan",\n  "version": 1\n}', true],
    ['plan.json', '{ "format": "another" }', false],
    ['summary.txt', 'Pantry\n...\nPlanned by Laywright.\n', true],
    ['summary.txt', 'Notes on what was Planned by Laywright. Mine.\n', false],
  ])('%s with %s: ours %s', (name, content, ours) => {
    expect(isOurs(name, new TextEncoder().encode(content))).toBe(ours);
  });
});
