import type { BlockKind } from './pareto.ts';
import type { Part } from './part.ts';
import type { Pieces } from './pieces.ts';

/** Pieces of the same shape as one kind with copies, and which pieces each of these stands for. */
export function blockKinds(pieces: Pieces): { kinds: BlockKind[]; membersOf: number[][] } {
  const membersOf: number[][] = [];
  for (let piece = 0; piece < pieces.count; piece++) {
    const shape = pieces.shape[piece];
    membersOf[shape] ??= [];
    membersOf[shape].push(piece);
  }
  const kinds = membersOf.map((members) => ({
    width: pieces.width[members[0]],
    length: pieces.length[members[0]],
    copies: members.length,
    turnable: pieces.turnable[members[0]] === 1,
  }));
  return { kinds, membersOf };
}

/** Replaces the kinds on the leaves by single pieces, each used once. Pieces of a shape may lie the other way round. */
export function withMembers(part: Part, membersOf: readonly (readonly number[])[], pieces: Pieces): Part {
  const taken = membersOf.map(() => 0);
  const top: Part[] = [];
  const waiting: { part: Part; into: Part[] }[] = [{ part, into: top }];
  for (let task = waiting.pop(); task !== undefined; task = waiting.pop()) {
    const { part: from, into } = task;
    if (from.kind === 'piece') {
      const piece = membersOf[from.piece][taken[from.piece]++];
      into.push({ ...from, piece, turned: pieces.width[piece] !== from.width });
      continue;
    }
    const parts: Part[] = [];
    into.push({ ...from, parts });
    for (const child of from.parts) waiting.push({ part: child, into: parts });
  }
  return top[0];
}
