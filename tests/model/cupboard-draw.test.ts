import { describe, expect, it } from 'vitest';
import { makes } from '../../src/makes/catalogue.ts';
import { readCupboard } from '../../src/model/cupboard-file.ts';
import { wordIssue } from '../../src/model/messages.ts';
import { cupboardNamedIn, readPlan } from '../../src/model/plan-file.ts';
import { TICKS_PER_INCH, TICKS_PER_YARD } from '../../src/units/ticks.ts';

const CUPBOARD = `cupboard: Linen
unit: in
currency: $
worth: 5.20 per sq yd
entries:
  - { name: kelp end, cloth: kelp check, width: 45, length: 61, selvedge: 1/2, washed: yes, where: shelf, count: 2 }
  - { name: kelp across, cloth: kelp check, width: 33, length: 17, selvedge: 0, grain: crosswise, direction: two-way, print runs: across }
  - { name: kelp oddment, cloth: kelp check, width: 31, length: 29, selvedge: 0, grain: unknown }
  - { name: gull end, cloth: gull stripe, width: 54, length: 23, selvedge: 1/2, direction: one-way }
  - { name: gull sliver, cloth: gull stripe, width: 41, length: 1, selvedge: 0 }
`;

function planWith(lengths: readonly string[], cloth = 'direction: two-way\n    squaring: 1/2'): string {
  return `plan: Pantry
unit: in
currency: $
cloths:
  main cloth:
    width: 45
    selvedge: 1/2
    ${cloth}
    lengths:
${lengths.map((length) => `      - ${length}\n`).join('')}pieces:
  - { name: shelf cloth, count: 3, size: 13 x 29, cloth: main cloth }
`;
}

function drawn(text: string, cupboard: string | undefined = CUPBOARD) {
  const read = cupboard === undefined ? undefined : readCupboard(cupboard, { file: 'c.yaml' });
  if (read !== undefined && !read.ok) throw new Error(JSON.stringify(read.issues));
  const options = { file: 'p.yaml', makes: makes.map((make) => make.spec) };
  const outcome = readPlan(text, { ...options, ...(read && { cupboard: read.value }) });
  return {
    ok: outcome.ok,
    issues: outcome.issues.map((issue) => wordIssue(issue, 'in')),
    inHand: outcome.ok ? outcome.value.cloths[0]!.inHand : [],
    cupboard: outcome.ok ? outcome.value.cupboard : undefined,
  };
}

const inches = (count: number) => count * TICKS_PER_INCH;
const names = (text: string) => drawn(text).inHand.map(({ name }) => name);

describe('drawing on the cupboard', () => {
  it('takes a crease where the entry says it lies', () => {
    const placed = CUPBOARD.replace('washed: yes,', 'washed: yes, crease: keep off 1 at 20,');
    const { inHand, issues } = drawn(planWith(['from cupboard: kelp end']), placed);
    expect(issues).toEqual([]);
    expect(inHand[0]!.crease).toEqual({ kind: 'keep-off', each: inches(1), at: inches(20) });
  });

  it('takes an entry by its name, with all that it says', () => {
    const { inHand, cupboard, issues } = drawn(planWith(['from cupboard: kelp end', '19']));
    expect(issues).toEqual([]);
    expect(cupboard).toEqual({ name: 'Linen', cutBefore: 0 });
    expect(inHand).toEqual([
      {
        ...{ name: 'length 2', length: inches(19), width: inches(45), copies: 1 },
        selvedge: { left: inches(1 / 2), right: inches(1 / 2) },
        crease: { kind: 'none' },
      },
      {
        ...{ name: 'kelp end', length: inches(61), width: inches(45), copies: 2, washed: true },
        selvedge: { left: inches(1 / 2), right: inches(1 / 2) },
        crease: { kind: 'none' },
        worth: { hundredths: 520, per: TICKS_PER_YARD ** 2 },
        entry: { name: 'kelp end', where: 'shelf' },
      },
    ]);
  });

  it('lays a length that was measured across the grain along it, print and all', () => {
    expect(drawn(planWith(['from cupboard: kelp across'])).inHand).toMatchObject([
      { name: 'kelp across', width: inches(17), length: inches(33) },
    ]);
    const across = planWith(['from cupboard: kelp across'], 'direction: two-way\n    print runs: across');
    expect(drawn(across).issues).toEqual([expect.stringContaining('"kelp across" is two-way, and')]);
  });

  it('turns flaws with the length that they are in', () => {
    const flaw = 'flaws: [{ from edge: 3, from end: 5, size: 2 x 7 }]';
    const spoilt = CUPBOARD.replace('kelp across,', `kelp across, ${flaw},`).replace(
      'kelp end,',
      `kelp end, ${flaw},`,
    );
    const boxOf = (name: string) => {
      const { outline } = drawn(planWith([`from cupboard: ${name}`]), spoilt).inHand[0]!.flaws![0]!;
      const [xs, ys] = [outline.map(({ x }) => x), outline.map(({ y }) => y)];
      return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)].map(
        (at) => at / TICKS_PER_INCH,
      );
    };
    expect(boxOf('kelp end')).toEqual([3, 5, 5, 12]);
    // Of 33 in across and 17 in along, measured across the grain: x = 17 - y, y = x.
    expect(boxOf('kelp across')).toEqual([5, 3, 12, 5]);
  });

  it('takes all of a cloth, but for what cannot serve, and nothing twice', () => {
    const all = planWith(['all from cupboard: kelp check', 'from cupboard: kelp across']);
    expect(names(all)).toEqual(['kelp across', 'kelp end']);
    expect(drawn(all).issues).toEqual([
      expect.stringMatching(/^p.yaml:11:28 warning: .*which grain "kelp oddment" runs along is not known/),
    ]);
  });

  it('tells of every entry that cannot serve', () => {
    const { ok, issues } = drawn(planWith(['all from cupboard: gull stripe', '33']));
    expect([ok, issues]).toEqual([
      true,
      [expect.stringMatching(/"gull end" is one-way/), expect.stringMatching(/"gull sliver" is used up/)],
    ]);
  });

  it('takes what is less strict than the plan, never what is stricter', () => {
    const from = ['from cupboard: gull end', 'from cupboard: kelp end'];
    expect(names(planWith(from, 'direction: nap'))).toEqual(['gull end', 'kelp end']);
    expect(names(planWith(from, 'direction: one-way'))).toEqual(['gull end', 'kelp end']);
    for (const direction of ['two-way', 'plain']) {
      expect(drawn(planWith(from, `direction: ${direction}`)).issues).toEqual([
        expect.stringMatching(
          /^p.yaml:\d+:24 cloths.*"gull end" is one-way, and "main cloth" is planned otherwise/,
        ),
      ]);
    }
  });

  it('does not weigh amounts of another currency', () => {
    const other = CUPBOARD.replace('currency: $', 'currency: EUR');
    const { inHand, issues } = drawn(planWith(['from cupboard: kelp end']), other);
    expect(inHand[0]).not.toHaveProperty('worth');
    expect(issues).toEqual([expect.stringMatching(/warning: .*count in different currencies/)]);
  });

  it('can go on without what is used up', () => {
    const used = CUPBOARD.replace(/ {2}- \{ name: gull.*\n/g, '');
    const { ok, inHand, issues } = drawn(planWith(['all from cupboard: gull stripe', '33']), used);
    expect([ok, inHand.length]).toEqual([true, 1]);
    expect(issues).toEqual([
      expect.stringMatching(/warning: .*no "gull stripe" lies in the cupboard; there is kelp/),
    ]);
  });

  it.each<[string, readonly string[], RegExp]>([
    [
      'an entry that is not there',
      ['from cupboard: kelp edn'],
      /no entry "kelp edn" lies.*likely "kelp end"/,
    ],
    ['a cloth misspelt', ['all from cupboard: gul stripe'], /no "gul stripe" lies.*likely "gull stripe"/],
    [
      'an unknown grain',
      ['from cupboard: kelp oddment'],
      /which grain "kelp oddment" runs along is not known/,
    ],
    ['nothing left after squaring', ['from cupboard: gull sliver'], /"gull sliver" is used up by squaring/],
    [
      'a name that is taken',
      ['{ name: kelp end 2, length: 19 }', 'from cupboard: kelp end'],
      /"main cloth" has a length called "kelp end" already/,
    ],
    [
      'measures of its own',
      ['{ from cupboard: kelp end, length: 3 }'],
      /found "length"; write from cupboard alone/,
    ],
    [
      'both ways at once',
      ['{ from cupboard: kelp end, all from cupboard: kelp check }'],
      /found "all from cupboard"; write from cupboard alone/,
    ],
    ['no name', ['from cupboard:'], /from cupboard: missing; write from cupboard: end of bolt/],
    ['neither a length nor an entry', ['{ width: 20, selvedge: 0 }'], /length: missing/],
  ])('refuses %s', (_, lengths, message) => {
    const { ok, issues } = drawn(planWith(lengths));
    expect([ok, issues]).toEqual([false, [expect.stringMatching(message)]]);
    expect(issues[0]).toMatch(/^p.yaml:1[012]:\d+ /);
  });

  it('refuses to draw when no cupboard is named, and one length for two cloths', () => {
    const options = { file: 'p.yaml', makes: makes.map((make) => make.spec) };
    const alone = readPlan(planWith(['from cupboard: kelp end']), options);
    expect([alone.ok, alone.issues.map(({ code }) => code)]).toEqual([false, ['cupboard-draw']]);
    const second =
      '  other cloth: { width: 45, selvedge: 0, lengths: [{ from cupboard: kelp end }] }\npieces:';
    const both = planWith(['from cupboard: kelp end'], 'direction: plain').replace('pieces:', second);
    const { ok, issues } = drawn(both);
    expect([ok, issues.filter((line) => !line.includes('warning'))]).toEqual([
      false,
      [expect.stringMatching(/other cloth.lengths\[1\].*"kelp end" is drawn on by "main cloth" already/)],
    ]);
  });
});

describe('the cupboard that a plan names', () => {
  it.each([
    ['plan: p\ncupboard: linen/c.yaml\n', 'linen/c.yaml'],
    ['plan: p\n', undefined],
    ['plan: [', undefined],
    ['', undefined],
  ])('in %j', (text, named) => {
    expect(cupboardNamedIn(text)).toBe(named);
  });
});
