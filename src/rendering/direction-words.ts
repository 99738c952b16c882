import type { Cloth } from '../model/cloth.ts';

/** How the direction of a cloth is told wherever a cloth is described. */
export const DIRECTION_WORDS: Readonly<Record<Cloth['direction'], string>> = {
  plain: 'plain',
  'two-way': 'two-way print',
  'one-way': 'one-way print',
  nap: 'nap',
};
