import type { Kind } from '../packing/instance.ts';
import type { Copy, PieceKind } from './kinds.ts';

/** The kinds that all layers of a stack share, with each layer's own copies of them in the same order. */
export interface CommonKinds {
  readonly kinds: readonly Kind[];
  /** Layer by layer. */
  readonly copies: readonly (readonly PieceKind[])[];
}

/** Copies of one size, whichever way round: those that must lie upright or level on the cloth, and those that may do either. */
interface OneSize {
  readonly short: number;
  readonly long: number;
  /** Short side across the cloth. */
  readonly along: readonly Copy[];
  /** Long side across the cloth. */
  readonly across: readonly Copy[];
  readonly free: readonly FreeCopy[];
}

interface FreeCopy extends Copy {
  /** Whether, unturned, its short side lies across the cloth. */
  readonly stands: boolean;
}

/**
 * What several cloths that want the same sizes as often can be cut into as one: where a piece may lie only one way on
 * one of them, the others follow. Undefined where sizes or counts differ.
 */
export function commonKinds(layers: readonly (readonly PieceKind[])[]): CommonKinds | undefined {
  const sized = layers.map(bySize);
  const [first, ...others] = sized;
  if (!first || others.some((own) => own.size !== first.size)) return undefined;
  const kinds: Kind[] = [];
  const copies: PieceKind[][] = layers.map(() => []);
  for (const key of first.keys()) {
    const sizes = sized.map((own) => own.get(key));
    if (!sizes.every((own) => own !== undefined && countOf(own) === countOf(sizes[0]!))) return undefined;
    const along = Math.max(...sizes.map((own) => own!.along.length));
    const across = Math.max(...sizes.map((own) => own!.across.length));
    const free = countOf(sizes[0]!) - along - across;
    if (free < 0) return undefined;
    const { short, long } = sizes[0]!;
    const shared: readonly Kind[] = [
      { width: short, length: long, copies: along, quarterTurn: false },
      { width: long, length: short, copies: across, quarterTurn: false },
      { width: short, length: long, copies: free, quarterTurn: true },
    ];
    const wanted = shared.filter((kind) => kind.copies > 0);
    kinds.push(...wanted);
    for (const [layer, own] of sizes.entries()) {
      const dealt = shareOut(own!, along, across);
      const lists = [dealt.along, dealt.across, dealt.free].filter((list) => list.length > 0);
      copies[layer]!.push(...wanted.map((kind, index) => ({ kind, copies: lists[index]! })));
    }
  }
  return { kinds, copies };
}

/** Sizes and counts as a word that cloths which may be cut alike have in common. */
export function sizesWanted(kinds: readonly PieceKind[]): string {
  return [...bySize(kinds)]
    .map(([key, own]) => `${key}: ${countOf(own)}`)
    .sort()
    .join(', ');
}

function bySize(kinds: readonly PieceKind[]): ReadonlyMap<string, OneSize> {
  const sizes = new Map<string, OneSize>();
  for (const { kind, copies } of kinds) {
    const [short, long] = [Math.min(kind.width, kind.length), Math.max(kind.width, kind.length)];
    const key = `${short} x ${long}`;
    const known = sizes.get(key) ?? { short, long, along: [], across: [], free: [] };
    const stands = kind.width === short;
    const list = kind.quarterTurn ? 'free' : stands ? 'along' : 'across';
    const added = kind.quarterTurn ? copies.map((copy) => ({ ...copy, stands })) : copies;
    sizes.set(key, { ...known, [list]: [...known[list], ...added] });
  }
  return sizes;
}

const countOf = ({ along, across, free }: OneSize): number => along.length + across.length + free.length;

/** Free copies first make up what other layers must lay one way; the rest stay free. */
function shareOut(own: OneSize, along: number, across: number) {
  const free = [...own.free];
  const taken = (count: number, stands: boolean): readonly Copy[] =>
    free.splice(0, count).map((copy) => ({
      piece: copy.piece,
      turns: copy.stands === stands ? 0 : 1,
    }));
  const fixed = {
    along: [...own.along, ...taken(along - own.along.length, true)],
    across: [...own.across, ...taken(across - own.across.length, false)],
  };
  const rest = free.map(
    (copy): Copy =>
      copy.stands
        ? { piece: copy.piece, turns: 0, whenTurned: 1 }
        : { piece: copy.piece, turns: 1, whenTurned: 0 },
  );
  return { ...fixed, free: rest };
}
