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

/**
 * Replaces shapes on the leaves by single pieces taken off `members`, and leaves out what there is no piece for;
 * undefined where nothing remains. Blocks keep their sizes, so that what is left out is free space. Own stack.
 */
export function firstMembers(part: Part, members: readonly number[][], pieces: Pieces): Part | undefined {
  const done = new Map<Part, Part | undefined>();
  const waiting: { part: Part; entered: boolean }[] = [{ part, entered: false }];
  for (let task = waiting.pop(); task !== undefined; task = waiting.pop()) {
    const { part: from } = task;
    if (from.kind === 'piece') {
      const piece = members[from.piece]!.pop();
      const own =
        piece === undefined ? undefined : { ...from, piece, turned: pieces.width[piece] !== from.width };
      done.set(from, own);
    } else if (task.entered) {
      const parts = from.parts.flatMap((child) => done.get(child) ?? []);
      done.set(from, parts.length === 0 ? undefined : { ...from, parts });
    } else {
      waiting.push({ part: from, entered: true });
      for (const child of from.parts) waiting.push({ part: child, entered: false });
    }
  }
  return done.get(part);
}
