import type { PlainBox } from '../geometry/walk.ts';
import type { LengthPlan } from '../model/cut-plan.ts';
import type { CutTree } from '../model/cut-tree.ts';
import type { PieceId } from '../model/piece.ts';
import { type Ticks, ticks } from '../units/ticks.ts';
import { partsOf } from './joined.ts';

/** What lies on the table once a length is begun where its print asks: all of it where it does not ask. */
export interface Begun {
  readonly tree: CutTree<PieceId>;
  readonly box: PlainBox<Ticks>;
  /** Where the beginning is cut, from the near end as it is drawn; absent where nothing has to be begun. */
  readonly cutAt?: Ticks;
}

/**
 * A length without what goes at its near end until its print begins. That cut is made whatever lies beside it, since all
 * else is measured from there.
 */
export function begun({
  tree,
  width,
  length,
  begins,
}: Pick<LengthPlan, 'tree' | 'width' | 'length' | 'begins'>): Begun {
  const box = { x0: ticks(0), y0: ticks(0), x1: width, y1: length };
  if (!begins) return { tree, box };
  if (tree.kind !== 'cut' || tree.direction !== 'crosscut')
    throw new RangeError('a length that is begun in its print has no first crosscut');
  const [cutAt, ...later] = tree.at;
  const [, ...parts] = partsOf(tree, box);
  const at = later.map((own) => ticks(own - cutAt!));
  const rest: CutTree<PieceId> =
    parts.length === 1 ? parts[0]!.tree : { ...tree, at, parts: parts.map((part) => part.tree) };
  return { tree: rest, box: { ...box, y0: cutAt! }, cutAt: cutAt! };
}
