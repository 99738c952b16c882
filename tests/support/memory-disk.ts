import type { Disk } from '../../src/cli/cupboard/disk.ts';

/** The command was killed, or the power failed: from here on nothing is done any more. */
export class Killed extends Error {}

interface FileOnDisk {
  text: string;
}

export type Fault = 'kill' | 'power' | 'full';

/**
 * A disk in memory that fails at a chosen step. Names in a folder are lost with the power unless the folder was synced;
 * which of them is chance, told by `chance`. `writeNew` syncs content, as the real one does.
 *
 *   kill: the step is not done, nor any after it · power: likewise, and unsynced names are lost · full: the step fails once
 */
export class MemoryDisk {
  /** What every process sees. */
  #names = new Map<string, FileOnDisk>();
  /** What would be found after a loss of power. */
  #safe = new Map<string, FileOnDisk>();
  #stepsLeft = Number.POSITIVE_INFINITY;
  #fault: Fault = 'kill';
  #dead = false;
  readonly #chance: () => number;

  constructor(chance: () => number) {
    this.#chance = chance;
  }

  /** Lets so many steps that change the disk pass, then fails. */
  failAfter(steps: number, fault: Fault): void {
    this.#stepsLeft = steps;
    this.#fault = fault;
  }

  /** The machine is up again; tells whether it had failed. */
  restart(): boolean {
    const wasDead = this.#dead;
    this.#dead = false;
    this.#stepsLeft = Number.POSITIVE_INFINITY;
    return wasDead;
  }

  /** Writes as a person's editor would, on the disk at once. */
  writeByHand(path: string, text: string): void {
    this.#names.set(path, { text });
    this.#safe.set(path, { text });
  }

  readonly disk: Disk = {
    read: (path) => {
      this.#look();
      return this.#names.get(path)?.text;
    },
    list: (folder) => {
      this.#look();
      return [...this.#names.keys()]
        .filter((path) => path.startsWith(`${folder}/`) && !path.slice(folder.length + 1).includes('/'))
        .map((path) => path.slice(folder.length + 1));
    },
    makeFolder: () => this.#look(),
    writeNew: (path, text) => {
      if (this.#names.has(path)) throw failure('EEXIST');
      this.#step();
      this.#names.set(path, { text });
    },
    link: (from, to) => {
      const file = this.#there(from);
      if (this.#names.has(to)) throw failure('EEXIST');
      this.#step();
      this.#names.set(to, file);
    },
    rename: (from, to) => {
      const file = this.#there(from);
      this.#step();
      this.#names.set(to, file);
      this.#names.delete(from);
    },
    remove: (path) => {
      this.#step();
      this.#names.delete(path);
    },
    syncFolder: (folder) => {
      this.#step();
      for (const path of new Set([...this.#names.keys(), ...this.#safe.keys()])) {
        if (path.slice(0, path.lastIndexOf('/')) === folder) this.#keep(path);
      }
    },
  };

  #there(path: string): FileOnDisk {
    this.#look();
    const file = this.#names.get(path);
    if (file === undefined) throw failure('ENOENT');
    return file;
  }

  #look(): void {
    if (this.#dead) throw new Killed();
  }

  #step(): void {
    this.#look();
    this.#stepsLeft -= 1;
    if (this.#stepsLeft >= 0) return;
    this.#stepsLeft = Number.POSITIVE_INFINITY;
    if (this.#fault === 'full') throw failure('ENOSPC');
    this.#dead = true;
    if (this.#fault === 'power') this.#losePower();
    throw new Killed();
  }

  /** Each change of a name since the last sync is on the disk or is not, as chance has it. */
  #losePower(): void {
    for (const path of new Set([...this.#names.keys(), ...this.#safe.keys()])) {
      if (this.#names.get(path) !== this.#safe.get(path) && this.#chance() < 0.5) this.#keep(path);
    }
    this.#names = new Map(this.#safe);
  }

  #keep(path: string): void {
    const file = this.#names.get(path);
    if (file === undefined) this.#safe.delete(path);
    else this.#safe.set(path, file);
  }
}

function failure(code: string): Error {
  return Object.assign(new Error(code), { code });
}
