import type { SheetTree } from '../result.ts';
import type { Item } from './items.ts';

/** What a part of a tree holds. */
export interface LeafCounts {
  readonly pieces: number;
  readonly leftovers: number;
  /** Whether a piece in it is fixed or on a lattice. */
  readonly held: boolean;
}

const ONE_LEFTOVER: LeafCounts = { pieces: 0, leftovers: 1, held: false };

/** What parts hold. Trees are never changed, so that what was counted is kept for as long as the tree lives. */
export class Leaves {
  private readonly known = new WeakMap<SheetTree, LeafCounts>();
  private readonly single: readonly LeafCounts[];

  constructor(items: readonly Item[]) {
    this.single = items.map(({ place, lattice }) => ({
      pieces: 1,
      leftovers: 0,
      held: place !== undefined || lattice !== undefined,
    }));
  }

  of(root: SheetTree): LeafCounts {
    if (root.kind === 'piece') return this.single[root.piece]!;
    if (root.kind !== 'cut') return ONE_LEFTOVER;
    const before = this.known.get(root);
    if (before !== undefined) return before;
    const open: SheetTree[] = [root];
    while (open.length > 0) {
      const tree = open[open.length - 1] as Extract<SheetTree, { kind: 'cut' }>;
      let [pieces, leftovers, held, waiting] = [0, 0, false, false];
      for (const part of tree.parts) {
        const counts = part.kind === 'cut' ? this.known.get(part) : this.of(part);
        if (counts === undefined) {
          open.push(part);
          waiting = true;
        } else {
          pieces += counts.pieces;
          leftovers += counts.leftovers;
          held ||= counts.held;
        }
      }
      if (waiting) continue;
      this.known.set(tree, { pieces, leftovers, held });
      open.pop();
    }
    return this.known.get(root)!;
  }
}
