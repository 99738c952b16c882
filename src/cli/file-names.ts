import { basename, extname } from 'node:path';
import { STANDARD_INPUT } from './read-text.ts';

const MOST_LETTERS = 60;

/** Where the files go unless told otherwise: `breakfast-room-marker` after `any/breakfast-room.yaml`. */
export function outputFolder(planFile: string): string {
  const stem = planFile === STANDARD_INPUT ? '' : fileWord(basename(planFile, extname(planFile)));
  return stem === '' ? 'laywright-marker' : `${stem}-marker`;
}

/** One file name a cloth, told apart on every disk: small letters and digits of any script, numbered where two agree. */
export function markerFileNames(cloths: readonly string[]): readonly string[] {
  const taken = new Set<string>();
  return cloths.map((cloth) => {
    const word = fileWord(cloth);
    const stem = word === '' ? 'marker' : `marker-${word}`;
    let name = `${stem}.svg`;
    for (let number = 2; taken.has(name); number += 1) name = `${stem}-${number}.svg`;
    taken.add(name);
    return name;
  });
}

/** `Gull stripe, 54 in` → `gull-stripe-54-in`. */
export function fileWord(text: string): string {
  const words = text
    .normalize('NFC')
    .toLowerCase()
    .match(/[\p{L}\p{M}\p{N}]+/gu);
  return [...(words ?? []).join('-')].slice(0, MOST_LETTERS).join('').replace(/-$/, '');
}
