import type { Budget } from '../search/budget.ts';
import type { Random } from '../search/random.ts';
import { type Part, renumbered } from './part.ts';
import { type Pieces, somePieces } from './pieces.ts';
import { groupSettings, RuinAndRecreate } from './ruin-and-recreate.ts';
import { exchange, lengthOf, partOf, piecesOf, sectionsOf } from './sections.ts';

/** Pieces in a group: at least, and how many more at most. */
const LEAST = 24;
const MORE = 48;
/** A group with more pieces than this is left alone. */
const MOST = 160;

export interface GroupSetting {
  readonly width: number;
  readonly stages: 2 | 3 | 'any';
  readonly budget: Budget;
  readonly random: Random;
}

/**
 * Takes a few sections of a strip (parts of its first cuts), with some dozens of pieces, and tries to put their pieces
 * into a shorter strip of their own. What that saves, the whole strip saves. The strip must hold all its pieces; it
 * does afterwards too. Returns the length saved.
 */
export function shortenGroup(engine: RuinAndRecreate, pieces: Pieces, setting: GroupSetting): number {
  const { random, budget, width, stages } = setting;
  const { forest } = engine;
  const stack = new Int32Array(pieces.count + 1);
  const sections = sectionsOf(forest);
  const chosen: number[] = [];
  const members: number[] = [];
  const wanted = LEAST + random.below(MORE);
  while (members.length < wanted && sections.length > 0) {
    const index = random.below(sections.length);
    const [section] = sections.splice(index, 1);
    const below = piecesOf(forest, section, stack);
    if (members.length + below.length > MOST) continue;
    chosen.push(section);
    members.push(...below);
  }
  if (members.length < 2) return 0;
  const own = new Map(members.map((piece, index) => [piece, index]));
  const some = somePieces(pieces, members);
  const group = new RuinAndRecreate(some, 1, stages, random);
  const length = chosen.reduce((sum, section) => sum + lengthOf(forest, section), 0);
  group.reset([{ width, length }]);
  group.put(
    chosen.map((section) => renumbered(partOf(forest, section, pieces), (piece) => own.get(piece) ?? -1)),
  );
  let best: readonly Part[] | undefined;
  let saved = 0;
  for (;;) {
    group.setLength(length - saved - Math.max(1, Math.floor(length / 400)));
    const settings = groupSettings(3000 + 100 * members.length, random);
    if (!group.anneal(settings, budget.spend)) break;
    saved = length - group.usedLength;
    best = sectionsOf(group.forest).map((section) => partOf(group.forest, section, some));
  }
  if (best === undefined) return 0;
  exchange(
    engine,
    chosen,
    best.map((part) => renumbered(part, (index) => members[index])),
  );
  return saved;
}
