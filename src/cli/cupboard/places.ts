import { randomBytes } from 'node:crypto';
import { realpathSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';

/** Where a cupboard's file and everything that keeps it safe lie: in one hidden folder beside it. */
export interface Places {
  /** As it was asked for, for messages. */
  readonly shown: string;
  readonly file: string;
  readonly folder: string;
  readonly kept: string;
  readonly lock: string;
}

export function placesOf(shown: string): Places {
  const file = followed(shown);
  const folder = dirname(file);
  const kept = join(folder, `.${basename(file)}.kept`);
  return { shown, file, folder, kept, lock: join(kept, 'lock') };
}

/** A name that no file has yet. What ends in `.part` was never finished. */
export function partIn({ kept }: Places): string {
  return join(kept, `${process.pid}-${randomBytes(6).toString('hex')}.part`);
}

/** The file itself where a link was given, so that the link is not put out by a rename. */
function followed(file: string): string {
  try {
    return realpathSync(file);
  } catch {
    return file;
  }
}
