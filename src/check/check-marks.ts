import type { CutNode } from '../model/cut-tree.ts';
import type { Box, PieceId } from '../model/piece.ts';
import { type Ticks, ticks } from '../units/ticks.ts';
import { isCut, type PlacedPart } from './placed-tree.ts';
import type { Report } from './plan-fault.ts';
import type { Span, TableCloth } from './table-cloth.ts';

/**
 * That the hands find every cut on a ruler mark. A cut that takes trim away follows the trim, wherever that ends. Any other
 * cut inside usable cloth lies a whole number of marks from the near edge of the part it cuts, from where usable cloth
 * begins in that part, or from a cut of the same part that took trim away. On a folded lay one half is the other seen in
 * a mirror, so a lengthwise cut may be measured from the far edge instead. In a stack of cloths a lengthwise cut may be
 * measured from where the cloth that they have in common begins.
 */
export function checkMarks(
  parts: readonly PlacedPart[],
  table: TableCloth,
  mark: Ticks,
  foldAt: Ticks | undefined,
  report: Report,
  stackEdges: readonly number[] = [],
): void {
  const outer = { from: table.left, to: ticks(table.width - table.right) };
  const across = table.across.flatMap((span) => splitAt(span, foldAt));
  for (const { tree, box } of parts.filter(isCut)) {
    const lengthwise = tree.direction === 'lengthwise';
    const spans = lengthwise ? across : [table.along];
    const widest = lengthwise ? outer : table.along;
    const mirrored = lengthwise && foldAt !== undefined;
    const [near, far] = lengthwise ? [box.x0, box.x1] : [box.y0, box.y1];
    const lines = cutLines(tree, box);
    const trimmed = lines.filter((_, index) => takesTrim(tree, index));
    for (const at of lines) {
      const span = spans.find(({ from, to }) => from < at && at < to);
      if (span === undefined || trimmed.includes(at)) continue;
      const nearEdges = [Math.max(near, span.from), Math.max(near, widest.from)];
      const farEdges = mirrored ? [Math.min(far, span.to), Math.min(far, widest.to)] : [];
      const shared = lengthwise ? stackEdges : [];
      if ([...nearEdges, ...farEdges, ...trimmed, ...shared].some((edge) => (at - edge) % mark === 0))
        continue;
      const figures = { direction: tree.direction, at, from: ticks(nearEdges[0]!), mark };
      report('cut-off-marks', figures, { box });
    }
  }
}

function takesTrim({ parts }: CutNode<PieceId>, index: number): boolean {
  return parts[index]?.kind === 'trim' || parts[index + 1]?.kind === 'trim';
}

/** Where the cuts of a node lie on the opened length: x of lengthwise cuts, y of crosscuts. */
export function cutLines({ direction, at }: CutNode<PieceId>, box: Box): readonly Ticks[] {
  const near = direction === 'lengthwise' ? box.x0 : box.y0;
  return at.map((position) => ticks(near + position));
}

function splitAt({ from, to }: Span, foldAt: Ticks | undefined): readonly Span[] {
  if (foldAt === undefined || foldAt <= from || foldAt >= to) return [{ from, to }];
  return [
    { from, to: foldAt },
    { from: foldAt, to },
  ];
}
