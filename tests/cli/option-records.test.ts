import { describe, expect, it } from 'vitest';
import { COMMANDS, EFFORT_UNLESS_SET } from '../../src/cli/command-records.ts';
import {
  defaultOf,
  type OptionRecord,
  optionHelp,
  optionSyntax,
  readOption,
} from '../../src/cli/option-records.ts';
import { DEFAULT_EFFORT } from '../../src/planning/plan.ts';

const number: OptionRecord = {
  name: 'seconds',
  kind: 'number',
  placeholder: 'seconds',
  meaning: 'stop after so long',
  lower: 3,
  default: 7,
  upper: 41,
};
const kinds: OptionRecord = {
  name: 'write',
  kind: 'choices',
  placeholder: 'kinds',
  meaning: 'which files',
  choices: ['svg', 'pdf', 'json'],
  default: ['svg', 'json'],
  nothing: 'nothing',
};
const paper: OptionRecord = {
  name: 'paper',
  kind: 'choice',
  placeholder: 'size',
  meaning: 'paper',
  choices: ['letter', 'a4'],
};

describe('an option as a record', () => {
  it('takes numbers from its lower to its upper limit, both included', () => {
    expect(readOption(number, '3')).toEqual({ ok: true, value: 3 });
    expect(readOption(number, '41')).toEqual({ ok: true, value: 41 });
  });

  it.each(['2', '42', '', '7.5', '-7', '1e1', 'seven', '0x7', ' 7'])('refuses "%s" as a number', (typed) => {
    expect(readOption(number, typed)).toEqual({
      ok: false,
      message: `--seconds: found "${typed}"; a whole number from 3 to 41 would work`,
    });
  });

  it('reads a list of choices, each once, and the word for none', () => {
    expect(readOption(kinds, 'json, svg,json')).toEqual({ ok: true, value: ['json', 'svg'] });
    expect(readOption(kinds, 'nothing')).toEqual({ ok: true, value: [] });
  });

  it('names every choice when one is not known', () => {
    expect(readOption(kinds, 'svg,png')).toEqual({
      ok: false,
      message:
        '--write: found "svg,png"; any of svg, pdf and json with commas between, or nothing, would work',
    });
    expect(readOption(paper, 'a5')).toEqual({
      ok: false,
      message: '--paper: found "a5"; letter or a4 would work',
    });
  });

  it('tells limits and default in its help', () => {
    expect(optionSyntax(number)).toBe('--seconds <seconds>');
    expect(optionHelp(number)).toBe('stop after so long (3 to 41; default: 7)');
    expect(optionHelp(kinds)).toBe('which files (svg, pdf, json; or nothing; default: svg,json)');
    expect(optionHelp({ ...kinds, default: [] })).toContain('; default: nothing)');
    expect(optionHelp(paper)).toBe('paper (letter or a4)');
  });
});

describe('the records of the commands', () => {
  const options = COMMANDS.flatMap((command) => command.options);

  it('have defaults that they would themselves take', () => {
    for (const option of options) {
      const value = defaultOf(option);
      if (value === undefined || typeof value === 'boolean') continue;
      const none = option.kind === 'choices' ? option.nothing : '';
      const typed = Array.isArray(value) ? value.join(',') || none : String(value);
      expect(readOption(option, typed)).toEqual({ ok: true, value });
    }
    expect(options.filter((option) => defaultOf(option) !== undefined).length).toBeGreaterThan(5);
  });

  it('search as long as the planner does by itself', () => {
    expect(EFFORT_UNLESS_SET).toBe(DEFAULT_EFFORT);
  });
});
