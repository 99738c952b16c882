import type { Random } from '../search/random.ts';
import type { BlockPool } from './block-pool.ts';
import { SIDE_BY_SIDE, STACKED } from './cut-forest.ts';
import { joined, type Part } from './part.ts';

/** Pairs looked at to fill what a block leaves of a slab by two others. */
const PAIRS = 8;

/** Blocks that together lie across a whole hole, from edge to edge. */
export interface Slab {
  /** STACKED: as wide as the hole, to be cut off by a crosscut. SIDE_BY_SIDE: as long as it. */
  readonly direction: typeof SIDE_BY_SIDE | typeof STACKED;
  /** Extent along the direction. */
  readonly along: number;
  readonly area: number;
  readonly pieces: number;
  /** One to three blocks: the first, and what fills the place beside it. */
  readonly blocks: readonly number[];
}

/** Every slab of the pool's hole that its blocks make and that wastes no more than the hole can spare. */
export function slabsOf(pool: BlockPool, random: Random): Slab[] {
  const found: Slab[] = [];
  for (let block = 0; block < pool.count; block++) {
    slabsWith(pool, block, STACKED, random, found);
    slabsWith(pool, block, SIDE_BY_SIDE, random, found);
  }
  return found;
}

/** A slab as a part whose leaves are piece numbers. */
export function slabPart(pool: BlockPool, { direction, blocks }: Slab): Part {
  const [lead, ...fill] = blocks.map((block) => pool.partOf(block));
  if (fill.length === 0) return lead;
  const across = direction === STACKED ? SIDE_BY_SIDE : STACKED;
  return joined(across, [lead, fill.length === 1 ? fill[0] : joined(direction, fill)]);
}

/** The slabs that a block makes: alone, with one block beside it, or with two that lie one after the other. */
function slabsWith(
  pool: BlockPool,
  block: number,
  direction: Slab['direction'],
  random: Random,
  into: Slab[],
): void {
  const { hole } = pool;
  const stacked = direction === STACKED;
  const acrossOf = stacked ? pool.width : pool.length;
  const alongOf = stacked ? pool.length : pool.width;
  const across = stacked ? hole.width : hole.length;
  const along = alongOf[block];
  const gap = across - acrossOf[block];
  offer(pool, direction, [block], into);
  if (gap === 0) return;
  const beside = fillGap(pool, direction, gap, along, block, -1);
  if (beside >= 0) offer(pool, direction, [block, beside], into);
  const list = stacked ? pool.ofWidth(gap) : pool.ofLength(gap);
  const from = list.length > 0 ? random.below(list.length) : 0;
  for (let i = 0; i < PAIRS && i < list.length; i++) {
    const one = list[(from + i) % list.length];
    const rest = along - alongOf[one];
    if (acrossOf[one] !== gap || rest <= 0 || pool.overlap(one, block)) continue;
    const two = fillGap(pool, direction, gap, rest, block, one);
    if (two >= 0) offer(pool, direction, [block, one, two], into);
  }
}

/** A block that fills a gap beside others exactly, apart from them; -1 where there is none. */
function fillGap(
  pool: BlockPool,
  direction: Slab['direction'],
  gap: number,
  along: number,
  apart: number,
  apartToo: number,
): number {
  return direction === STACKED
    ? pool.findBox(gap, along, apart, apartToo)
    : pool.findBox(along, gap, apart, apartToo);
}

/** Adds the slab of some blocks, the first of which is as long as it, unless it wastes too much. */
function offer(pool: BlockPool, direction: Slab['direction'], blocks: readonly number[], into: Slab[]): void {
  const { hole } = pool;
  const stacked = direction === STACKED;
  const along = stacked ? pool.length[blocks[0]] : pool.width[blocks[0]];
  let area = 0;
  let pieces = 0;
  for (const block of blocks) {
    area += pool.area[block];
    pieces += pool.joined[block];
  }
  if (along * (stacked ? hole.width : hole.length) - area > hole.spare) return;
  into.push({ direction, along, area, pieces, blocks });
}
