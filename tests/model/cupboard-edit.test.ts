import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  addEntry,
  correctEntry,
  type EntryWords,
  newCupboardText,
  noteCut,
  removeEntry,
  takeOut,
} from '../../src/model/cupboard-edit.ts';
import { readCupboard } from '../../src/model/cupboard-file.ts';

const FILE = `# counted by hand
cupboard: Landing cupboard   # upstairs
unit: in

entries:
  # first shelf

  - name: kelp end   # the heavy one
    cloth: kelp check
    width: 45
    length: 1 3/4 yd
    selvedge:
      left: 1/2
      right: 3/8
    # pressed
  - { name: gull strip, cloth: gull stripe, width: 11, length: 29, selvedge: 0 }  # for ties

  # second shelf
  - note: "odd, and: stained"
    name: 'dune piece'
    cloth: dune ticking
    width: 17
    length: 23
    selvedge: 0
    count: 5

# the end
`;

function read(text: string) {
  const outcome = readCupboard(text, { file: 'c' });
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  return outcome.value;
}

/** Lines that only one of two texts has, as a difference would show them. */
function difference(before: string, after: string): { gone: string[]; come: string[] } {
  const [old, now] = [before.split('\n'), after.split('\n')];
  const come = [...now];
  const gone = old.filter((line) => {
    const at = come.indexOf(line);
    if (at >= 0) come.splice(at, 1);
    return at < 0;
  });
  return { gone, come };
}

const NEW: EntryWords = { name: 'lime end', cloth: 'lime wash', width: '31', length: '37', selvedge: '0' };

describe('an edit of the cupboard', () => {
  it('adds an entry behind the last one, and nothing else', () => {
    const after = addEntry(FILE, { ...NEW, where: 'top: left', selvedge: { left: '1/2', right: '0' } });
    expect(difference(FILE, after)).toEqual({
      gone: [],
      come: [
        ...['  - name: lime end', '    cloth: lime wash', '    width: 31', '    length: 37'],
        ...['    selvedge: { left: 1/2, right: 0 }', '    where: "top: left"'],
      ],
    });
    expect(after.indexOf('lime end')).toBeGreaterThan(after.indexOf('count: 5'));
    expect(after.indexOf('lime end')).toBeLessThan(after.indexOf('# the end'));
    expect(read(after).entries.map(({ name }) => name)).toEqual([
      ...['kelp end', 'gull strip', 'dune piece', 'lime end'],
    ]);
  });

  it.each<[string, string, EntryWords, string[], string[]]>([
    ['a plain value', 'kelp end', { width: '44 1/2' }, ['    width: 45'], ['    width: 44 1/2']],
    [
      'a name, with its remark',
      'kelp end',
      { name: 'kelp bolt' },
      ['  - name: kelp end   # the heavy one'],
      ['  - name: kelp bolt   # the heavy one'],
    ],
    [
      'a value of several lines',
      'kelp end',
      { selvedge: '1/4' },
      ['    selvedge:', '      left: 1/2', '      right: 3/8'],
      ['    selvedge: 1/4'],
    ],
    ['a new key', 'kelp end', { washed: 'yes' }, [], ['    washed: yes']],
    [
      'keys inside braces',
      'gull strip',
      { length: '28', note: 'red, blue', count: '3' },
      ['  - { name: gull strip, cloth: gull stripe, width: 11, length: 29, selvedge: 0 }  # for ties'],
      [
        '  - { name: gull strip, cloth: gull stripe, width: 11, length: 28, selvedge: 0, note: "red, blue", count: 3 }  # for ties',
      ],
    ],
    [
      'a value in quotes',
      'dune piece',
      { name: 'dune: end' },
      ["    name: 'dune piece'"],
      ['    name: "dune: end"'],
    ],
    [
      'the first key, taken away',
      'dune piece',
      { note: undefined },
      ['  - note: "odd, and: stained"', "    name: 'dune piece'"],
      ["  - name: 'dune piece'"],
    ],
    ['another key, taken away', 'dune piece', { count: undefined }, ['    count: 5'], []],
  ])('corrects %s in its place', (_, name, changes, gone, come) => {
    expect(difference(FILE, correctEntry(FILE, name, changes))).toEqual({ gone, come });
  });

  it('takes an entry out with its own lines, and leaves the remarks around it', () => {
    const after = removeEntry(FILE, 'gull strip');
    expect(difference(FILE, after).gone).toHaveLength(1);
    expect(difference(FILE, after).come).toEqual([]);
    const first = removeEntry(FILE, 'kelp end');
    expect(first).toContain('# first shelf\n');
    expect(read(first).entries.map(({ name }) => name)).toEqual(['gull strip', 'dune piece']);
  });

  it('takes copies out one by one, and the entry with the last', () => {
    const fewer = takeOut(FILE, 'dune piece', 3);
    expect(difference(FILE, fewer)).toEqual({ gone: ['    count: 5'], come: ['    count: 2'] });
    expect(read(takeOut(fewer, 'dune piece', 2)).entries.map(({ name }) => name)).not.toContain('dune piece');
    expect(() => takeOut(fewer, 'dune piece', 3)).toThrow('cannot take 3 of "dune piece" out of 2');
    expect(() => takeOut(fewer, 'nothing', 1)).toThrow('nothing');
  });

  it('empties a cupboard and fills it again', () => {
    const emptied = ['gull strip', 'dune piece', 'kelp end'].reduce(removeEntry, FILE);
    expect(read(emptied).entries).toEqual([]);
    for (const remark of ['# counted by hand', '# upstairs', '# first shelf', '# second shelf', '# the end'])
      expect(emptied).toContain(remark);
    expect(read(addEntry(emptied, NEW)).entries.map(({ name }) => name)).toEqual(['lime end']);
  });

  it('notes a plan that was cut, the first time and again', () => {
    const first = { plan: 'Porch: cushions', on: '2026-04-17', mark: '00112233aabbccdd' };
    const second = { plan: 'Hall', on: '2026-04-19', mark: 'ffeeddcc44556677' };
    const after = noteCut(noteCut(FILE, first), second);
    expect(read(after).cut).toEqual([first, second]);
    expect(difference(FILE, after).gone).toEqual([]);
  });

  it('keeps the ends of lines and the mark at the beginning that an editor wrote', () => {
    const theirs = `\ufeff${FILE.replaceAll('\n', '\r\n')}`;
    const after = takeOut(addEntry(theirs, NEW), 'dune piece', 1);
    expect(after.startsWith('\ufeff#')).toBe(true);
    expect(after.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
    expect(read(after).entries.map(({ count }) => count)).toEqual([1, 1, 4, 1]);
  });

  it.each([
    [
      'a list in brackets',
      'cupboard: c\nunit: in\nentries: [{ name: a, cloth: c, width: 3, length: 5, selvedge: 0 }] # all\n',
    ],
    [
      'a file in braces',
      '{ cupboard: c, unit: in, entries: [ { name: a, cloth: c, width: 3, length: 5, selvedge: 0 } ] }',
    ],
    [
      'dashes on lines of their own',
      'cupboard: c\nunit: in\nentries:\n  -\n    name: a\n    cloth: c\n    width: 3\n    length: 5\n    selvedge: 0\n',
    ],
    [
      'no indent',
      'cupboard: c\nunit: in\nentries:\n- name: a\n  cloth: c\n  width: 3\n  length: 5\n  selvedge: 0',
    ],
    [
      'another order',
      'entries:\n    - name: a\n      cloth: c\n      width: 3\n      length: 5\n      selvedge: 0\nunit: in\ncupboard: c',
    ],
    [
      'a key with nothing behind the entries',
      'entries:\n  - name: a\n    cloth: c\n    width: 3\n    length: 5\n    selvedge: { left: 0,\n      right: 0 }\nunit: in\n\n# why\ncupboard: >-\n  c\n',
    ],
  ])('changes a file written as %s', (_, text) => {
    const cut = { plan: 'p', on: '2026-04-17', mark: '00112233aabbccdd' };
    const changed = noteCut(addEntry(correctEntry(text, 'a', { length: '7', where: 'x, y' }), NEW), cut);
    expect(read(changed)).toMatchObject({
      name: 'c',
      entries: [{ name: 'a', length: 7 * 8128, where: 'x, y' }, { name: 'lime end' }],
      cut: [cut],
    });
    expect(read(removeEntry(changed, 'a')).entries).toHaveLength(1);
    if (text.includes('#')) expect(changed).toMatch(/# (?:all|why)/);
  });

  it('holds whatever words a person gives an entry', () => {
    const word = fc
      .stringMatching(/^[ -~äß→]{1,24}$/)
      .filter((text) => text.trim() === text && !/[\n\r\t]/.test(text));
    const words = fc.record({ name: word, cloth: word, note: word, where: word });
    fc.assert(
      fc.property(words, words, ({ name, ...rest }, other) => {
        fc.pre(!['kelp end', 'gull strip', 'dune piece', other.name].includes(name));
        fc.pre(!['kelp end', 'gull strip', 'dune piece'].includes(other.name));
        const numbered = [name, other.name].some((one) => /^dune piece \d$/.test(one));
        fc.pre(!numbered);
        const added = addEntry(FILE, { ...NEW, ...rest, name });
        expect(read(added).entries.at(-1)).toMatchObject({ name, ...rest });
        const corrected = correctEntry(added, name, other);
        expect(read(corrected).entries.at(-1)).toMatchObject(other);
        const braces = correctEntry(FILE, 'gull strip', other);
        expect(read(braces).entries[1]).toMatchObject(other);
        expect(removeEntry(corrected, other.name)).toBe(FILE);
      }),
      { numRuns: 40, seed: 4 },
    );
  });
});

describe('a new cupboard', () => {
  it('begins without entries', () => {
    expect(read(newCupboardText('Attic: chest', 'cm', 'EUR'))).toEqual({
      ...{ name: 'Attic: chest', unit: 'cm', currency: 'EUR' },
      ...{ entries: [], cut: [] },
    });
  });
});
