import { envelopeCover } from './envelope-cover.ts';
import type { Make } from './make.ts';
import { napkin } from './napkin.ts';

/** Every make that a plan may name, in the order in which they are listed. */
export const makes: readonly Make[] = [envelopeCover, napkin];

/** The make of that `kind`, or undefined. */
export function findMake(kind: string): Make | undefined {
  return makes.find((make) => make.spec.kind === kind);
}
