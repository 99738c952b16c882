import { type ClothedLot, LOOSE_PART } from '../../model/collection.ts';
import type { Plan } from '../../model/plan.ts';
import type { Shares } from './shares.ts';

/** Units of every share: cloth by index → how many. */
export type Dealt = readonly ReadonlyMap<number, number>[];

/** So many things in a row whose shares get these cloths, by share. */
interface Block {
  readonly count: number;
  readonly cloths: ReadonlyMap<number, number>;
}

/** Tells for every order with an open part which of its things get which cloths, in as few lots as the blocks give. */
export function lotsOf(plan: Plan, shares: Shares, dealt: Dealt): readonly ClothedLot[] {
  const orders = [
    ...plan.makes,
    ...plan.pieces.map((piece) => ({ ...piece, cloths: { [LOOSE_PART]: piece.cloth } })),
  ].filter(({ choices }) => choices !== undefined);
  return orders.flatMap(({ name, count, cloths: first }) => {
    const own = shares.shares.flatMap(({ parts }, share) =>
      parts.some((part) => shares.parts[part]!.order === name && !shares.parts[part]!.panelsOf)
        ? [share]
        : [],
    );
    const unlike = shares.clashes
      .filter(
        ({ terms, most }) =>
          most === count && terms.length > 1 && terms.every(({ share }) => own.includes(share)),
      )
      .map(({ terms }) => terms.map(({ share }) => share));
    const together = unlike[0] ?? [];
    const rows = [
      ...(together.length > 0 ? [unlikeBlocks(together, count, shares, dealt)] : []),
      ...own
        .filter((share) => !together.includes(share))
        .map((share) => plainBlocks(share, count, shares, dealt)),
    ];
    return merged(rows, count).map(
      (block): ClothedLot => ({
        order: name,
        count: block.count,
        // A part that nothing is cut for has a cloth too, so that none is missing.
        cloths: { ...first, ...Object.fromEntries(clothsOf(block, name, plan, shares)) },
      }),
    );
  });
}

function clothsOf(block: Block, order: string, plan: Plan, { shares, parts }: Shares) {
  return [...block.cloths].flatMap(([share, cloth]) =>
    shares[share]!.parts.filter((part) => parts[part]!.order === order).map(
      (part) => [parts[part]!.part, plan.cloths[cloth]!.name] as const,
    ),
  );
}

/** One share's cloths, one after the other. */
function plainBlocks(share: number, count: number, { shares }: Shares, dealt: Dealt): readonly Block[] {
  const cloths = [...dealt[share]!].filter(([, units]) => units > 0);
  return cloths.map(([cloth, units]) => ({
    count: shares[share]!.throughout ? count : units,
    cloths: new Map([[share, cloth]]),
  }));
}

/**
 * Blocks in which no cloth serves two of the shares: each takes one cloth of every share, and every cloth that is left
 * as often as there are things left. Such a matching always exists (Kőnig 1916), and goes on as long as it stays one.
 */
function unlikeBlocks(
  own: readonly number[],
  count: number,
  { shares }: Shares,
  dealt: Dealt,
): readonly Block[] {
  const left = own.map(
    (share) =>
      new Map(
        [...dealt[share]!].map(([cloth, units]) => [
          cloth,
          shares[share]!.throughout && units > 0 ? count : units,
        ]),
      ),
  );
  const blocks: Block[] = [];
  for (let things = count; things > 0; ) {
    const load = new Map<number, number>();
    for (const cloths of left)
      for (const [cloth, units] of cloths) load.set(cloth, (load.get(cloth) ?? 0) + units);
    const tight = [...load].filter(([, units]) => units === things).map(([cloth]) => cloth);
    const matched = matching(left, tight, []);
    if (!matched) throw new Error('unlike parts were dealt more of a cloth than there are things');
    let length = Math.min(...matched.map((cloth, index) => left[index]!.get(cloth)!));
    for (const [cloth, units] of load)
      if (!matched.includes(cloth)) length = Math.min(length, things - units);
    for (const [index, cloth] of matched.entries())
      left[index]!.set(cloth, left[index]!.get(cloth)! - length);
    blocks.push({ count: length, cloths: new Map(matched.map((cloth, index) => [own[index]!, cloth])) });
    things -= length;
  }
  return blocks;
}

function matching(
  left: readonly ReadonlyMap<number, number>[],
  tight: readonly number[],
  chosen: readonly number[],
): readonly number[] | undefined {
  const next = left[chosen.length];
  if (!next) return tight.every((cloth) => chosen.includes(cloth)) ? chosen : undefined;
  for (const [cloth, units] of next) {
    if (units === 0 || chosen.includes(cloth)) continue;
    const found = matching(left, tight, [...chosen, cloth]);
    if (found) return found;
  }
  return undefined;
}

/** Several rows of blocks, each of as many things, as one row that changes wherever any of them does. */
function merged(rows: readonly (readonly Block[])[], count: number): readonly Block[] {
  const ends = new Set<number>();
  for (const row of rows) {
    let at = 0;
    for (const block of row) {
      at += block.count;
      ends.add(at);
    }
  }
  ends.add(count);
  const blocks: Block[] = [];
  let from = 0;
  for (const end of [...ends].sort((one, other) => one - other)) {
    const cloths = new Map(rows.flatMap((row) => [...blockAt(row, from).cloths]));
    blocks.push({ count: end - from, cloths });
    from = end;
  }
  return blocks;
}

function blockAt(row: readonly Block[], thing: number): Block {
  let at = 0;
  for (const block of row) {
    at += block.count;
    if (thing < at) return block;
  }
  throw new Error('fewer things were dealt than there are');
}
