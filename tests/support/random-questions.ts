import type { Box, Kind, Lattice, Sheet } from '../../src/packing/instance.ts';
import { type Random, seededRandom } from '../../src/packing/search/random.ts';

/** What a random tiny question may have in it. */
export interface Ingredients {
  readonly turns?: boolean;
  readonly creases?: boolean;
  readonly flaws?: boolean;
  readonly holes?: boolean;
  readonly lattices?: boolean;
  readonly mirror?: boolean;
  readonly fixed?: boolean;
  readonly pieces?: number;
}

export interface TinyQuestion {
  readonly sheet: Sheet & { readonly length: number };
  readonly kinds: readonly Kind[];
  readonly random: Random;
}

/** A question small enough for `bruteForce`: a sheet up to 9 by 11 and up to six pieces, the same for the same seed. */
export function tinyQuestion(seed: number, has: Ingredients): TinyQuestion {
  const random = seededRandom(seed);
  const between = (low: number, high: number) => low + random.below(high - low + 1);
  const width = has.mirror ? 2 * between(3, 5) : between(5, 9);
  const length = between(6, 10);
  const kinds: Kind[] = [];
  let left = between(2, has.pieces ?? 5);
  while (left > 0 && kinds.length < 3) {
    const copies = between(1, left);
    left -= copies;
    kinds.push(tinyKind(random, has, { copies, most: has.mirror ? width / 2 : width }));
  }
  const forbidden: Box[] = [];
  if (has.creases && random.below(3) > 0) {
    const x0 = between(1, width - 2);
    forbidden.push({ x0, y0: 0, x1: x0 + 1, y1: Number.POSITIVE_INFINITY });
  }
  if (has.flaws && random.below(3) > 0) {
    const y0 = between(1, length - 2);
    forbidden.push({ x0: 0, y0, x1: width, y1: y0 + 1 });
  }
  if (has.holes) {
    for (let hole = between(0, 2); hole > 0; hole--) {
      const [x0, y0] = [between(0, width - 1), between(0, length - 1)];
      forbidden.push({ x0, y0, x1: x0 + between(1, 2), y1: y0 + between(1, 2) });
    }
  }
  const sheet: Sheet = {
    width,
    length,
    ...(forbidden.length > 0 ? { forbidden } : {}),
    ...(has.mirror ? { mirrorAt: width / 2 } : {}),
  };
  if (!has.fixed || random.below(3) === 0) return { sheet, kinds, random };
  const kind = random.below(kinds.length);
  const turned = kinds[kind]!.quarterTurn && random.below(2) === 0;
  const [wide, long] = turned
    ? [kinds[kind]!.length, kinds[kind]!.width]
    : [kinds[kind]!.width, kinds[kind]!.length];
  if (wide > width || long > length) return { sheet, kinds, random };
  const fixed = [{ kind, x0: between(0, width - wide), y0: between(0, length - long), turned }];
  return { sheet: { ...sheet, fixed }, kinds, random };
}

function tinyKind(
  random: Random,
  has: Ingredients,
  { copies, most }: { copies: number; most: number },
): Kind {
  const width = 1 + random.below(Math.min(5, most));
  const length = 1 + random.below(5);
  const value = 1 + random.below(12) + width * length;
  if (has.lattices && random.below(2) === 0) {
    const axis = (): { period: number; offsets: number[] } => {
      const period = 2 + random.below(3);
      return { period, offsets: [random.below(period)] };
    };
    const lattice: Lattice =
      random.below(2) === 0
        ? { y: axis() }
        : random.below(2) === 0
          ? { x: axis() }
          : { x: axis(), y: axis() };
    return { width, length, copies, value, quarterTurn: false, lattice };
  }
  return { width, length, copies, value, quarterTurn: has.turns === true && random.below(2) === 0 };
}
