import { describe, expect, it } from 'vitest';
import { type Changed, changeCupboard, cupboardText, undoChange } from '../../src/cli/cupboard/change.ts';
import type { Holder, Machine } from '../../src/cli/cupboard/lock.ts';
import { CommandProblem } from '../../src/cli/exit-codes.ts';
import {
  addEntry,
  correctEntry,
  noteCut,
  putBack,
  removeEntry,
  takeOut,
} from '../../src/model/cupboard-edit.ts';
import { readCupboard } from '../../src/model/cupboard-file.ts';
import { type Fault, Killed, MemoryDisk } from '../support/memory-disk.ts';

const FILE = '/cupboard/linen.yaml';

const BEGINNING = `# The Tern House: linen cupboard, counted by hand
cupboard: Linen cupboard
unit: in # inches throughout

entries:
  # bolts
  - { name: kelp end, cloth: kelp check, width: 45, length: 61, selvedge: 1/2, count: 4 } # heavy
  # remnants
  - name: gull strip
    cloth: gull stripe
    width: 11   # narrow
    length: 29
    selvedge: 0
    # keep for ties

# that is all
`;

/** What each entry comes to, worked out beside the program: name → length and count. */
type Stock = ReadonlyMap<string, string>;

interface Operation {
  readonly words: string;
  readonly run: (machine: Machine) => Promise<unknown>;
  readonly expected: Stock;
}

function randomFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    // Marsaglia, Xorshift RNGs, 2003.
    state ^= state << 13;
    state >>>= 0;
    state ^= state >>> 17;
    state ^= state << 5;
    state >>>= 0;
    return state / 2 ** 32;
  };
}

function stockOf(text: string): Stock {
  const read = readCupboard(text, { file: FILE });
  if (!read.ok) throw new Error(`the file cannot be read: ${JSON.stringify(read.issues)}\n${text}`);
  return new Map(read.value.entries.map((entry) => [entry.name, `${entry.length} x ${entry.count}`]));
}

const INCH = 8128;

/** One command at random: what it does, and what must lie in the cupboard after it. */
function operationOn(stock: Stock, undo: Stock | undefined, random: () => number, number: number): Operation {
  const names = [...stock.keys()];
  const name = names[Math.floor(random() * names.length)];
  const [length, count] = stock
    .get(name ?? '')
    ?.split(' x ')
    .map(Number) ?? [0, 0];
  const change = (
    words: string,
    edit: (text: string) => string,
    expected: Map<string, string>,
  ): Operation => {
    const changed = (text: string): Changed<undefined> => ({
      text: edit(text),
      did: words,
      result: undefined,
    });
    return { words, run: (machine) => changeCupboard(FILE, machine, changed), expected };
  };
  const choice = random();
  if (undo !== undefined && choice < 0.12)
    return { words: 'undo', run: (machine) => undoChange(FILE, machine), expected: undo };
  if (name === undefined || (choice < 0.45 && names.length < 14)) {
    const [long, several] = [1 + Math.floor(random() * 90), 1 + Math.floor(random() * 3)];
    const words = {
      ...{ name: `piece no. ${number}`, cloth: 'lime wash', width: '17', length: String(long) },
      ...{ selvedge: '0', count: String(several) },
    };
    const expected = new Map(stock).set(words.name, `${long * INCH} x ${several}`);
    return change(`add ${words.name}`, (text) => addEntry(text, words), expected);
  }
  const expected = new Map(stock);
  if (choice < 0.65) {
    // A length of its own, so that before and after can always be told apart.
    const long = 100 + number;
    const edit = (text: string) =>
      correctEntry(text, name, { length: String(long), note: `measured ${number}` });
    return change(`correct ${name}`, edit, expected.set(name, `${long * INCH} x ${count}`));
  }
  if (choice < 0.75) {
    // What booking a plan does: one copy out, its rest in, the plan noted, all in one change.
    const rest = { name: `rest no. ${number}`, cloth: 'lime wash', width: '7', length: '13', selvedge: '0' };
    const mark = number.toString(16).padStart(16, '0');
    const book = (text: string) =>
      noteCut(putBack(takeOut(text, name, 1), rest), { plan: `plan ${number}`, on: '2026-04-17', mark });
    if (count === 1) expected.delete(name);
    else expected.set(name, `${length} x ${count - 1}`);
    return change(`book plan ${number}`, book, expected.set(rest.name, `${13 * INCH} x 1`));
  }
  if (choice < 0.85) {
    if (count === 1) expected.delete(name);
    else expected.set(name, `${length} x ${count - 1}`);
    return change(`take out ${name}`, (text) => takeOut(text, name, 1), expected);
  }
  expected.delete(name);
  return change(`remove ${name}`, (text) => removeEntry(text, name), expected);
}

const asText = (stock: Stock) => JSON.stringify([...stock].sort());

describe('a cupboard under commands that are interrupted', () => {
  it('accounts for every entry after 1000 commands, killed, without power or on a full disk at random steps', async () => {
    const random = randomFrom(20_261_125);
    const memory = new MemoryDisk(random);
    memory.writeByHand(FILE, BEGINNING);
    let stock = stockOf(BEGINNING);
    /** The state that undoing must give back; undefined where nothing may be undone. */
    let before: Stock[] = [];
    let unsynced: { readonly stock: Stock; readonly before: Stock[] }[] = [];
    const counts = { done: 0, refused: 0, killedBefore: 0, killedAfter: 0, undone: 0 };
    let process = 0;
    for (let number = 1; number <= 1000; number += 1) {
      process += 1;
      const self: Holder = { host: 'here', boot: 'one', pid: process, start: '7' };
      const machine: Machine = {
        disk: memory.disk,
        self,
        isGone: (holder) => holder.pid !== self.pid,
        pause: () => Promise.resolve(),
      };
      const operation = operationOn(stock, before.at(-1), random, number);
      const fault = (['kill', 'power', 'full'] as const satisfies readonly Fault[])[
        Math.floor(random() * 3)
      ]!;
      const interrupted = random() < 0.7;
      if (interrupted) memory.failAfter(Math.floor(random() * 19), fault);
      let told: 'done' | 'refused' | 'killed' = 'done';
      let refusal = '';
      try {
        await operation.run(machine);
      } catch (problem) {
        if (!(problem instanceof Killed || problem instanceof CommandProblem)) throw problem;
        told = 'refused';
        refusal = problem.message;
      }
      // A command that is no more tells nothing, whatever it made of its end.
      if (memory.restart()) told = 'killed';
      else if (told === 'refused') expect(refusal).toContain('the disk is full. Nothing was changed.');
      const now = stockOf(cupboardText(FILE, memory.disk)!);
      const isAfter = asText(now) === asText(operation.expected);
      const isBefore = asText(now) === asText(stock);
      const where = `command ${number} (${operation.words}), ${told} by ${interrupted ? fault : 'nobody'}`;
      if (told === 'done') expect(isAfter, where).toBe(true);
      if (told === 'refused') expect(isBefore, where).toBe(true);
      // A command that was killed has told nothing yet; what it did may still go with the power.
      const untold = fault === 'power' && told === 'killed' ? unsynced : [];
      const earlier = untold.find((state) => asText(state.stock) === asText(now));
      expect(isAfter || isBefore || earlier !== undefined, where).toBe(true);
      counts[told === 'killed' ? (isAfter ? 'killedAfter' : 'killedBefore') : told] += 1;
      if (told === 'done') unsynced = [];
      else if (told === 'killed') unsynced.push({ stock, before });
      if (isAfter && operation.words === 'undo') {
        before = before.slice(0, -1);
        counts.undone += 1;
      } else if (isAfter) {
        // Undoing fills what is kept as well, so few states are asked back.
        before = [...before, stock].slice(-6);
      } else if (!isBefore) before = earlier!.before;
      stock = now;
    }
    expect(counts.done).toBeGreaterThan(300);
    for (const count of Object.values(counts)) expect(count).toBeGreaterThan(20);
    const text = cupboardText(FILE, memory.disk)!;
    for (const remark of ['counted by hand', 'inches throughout', '# bolts', '# remnants', '# that is all'])
      expect(text).toContain(remark);
  });
});
