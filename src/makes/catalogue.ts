import { binding } from './binding.ts';
import { curtain } from './curtain.ts';
import { envelopeCover } from './envelope-cover.ts';
import type { Make } from './make.ts';
import { napkin } from './napkin.ts';
import { pillowcase } from './pillowcase.ts';
import { placeMat } from './place-mat.ts';
import { runner } from './runner.ts';
import { tablecloth } from './tablecloth.ts';
import { tie } from './tie.ts';
import { tote } from './tote.ts';
import { wrapCover } from './wrap-cover.ts';

/** Every make that a plan may name, in the order in which they are listed. */
export const makes: readonly Make[] = [
  envelopeCover,
  wrapCover,
  pillowcase,
  napkin,
  placeMat,
  runner,
  tablecloth,
  curtain,
  tote,
  tie,
  binding,
];

/** The make of that `kind`, or undefined. */
export function findMake(kind: string): Make | undefined {
  return makes.find((make) => make.spec.kind === kind);
}
