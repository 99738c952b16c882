import type { ArithmeticLine } from '../model/piece.ts';
import { line } from './arithmetic.ts';
import { cutSize, takenBy } from './edges.ts';
import type { PieceOfMake } from './make.ts';
import { hemming, type Written } from './sewing.ts';
import { strapAssembly } from './strap.ts';
import type { Tote } from './tote.ts';

export function toteArithmetic(bag: Tote, body: PieceOfMake): readonly ArithmeticLine[] {
  const { finished, depth, halfDepth, onePiece, lined, allowance, topHem } = bag;
  const cut = cutSize(body.finished, body.edges);
  const top = takenBy(body.edges.top);
  const hem = line('top hem takes up', topHem.visible, '+', topHem.under, '=', top);
  const half = line('half the depth', depth, '÷ 2 =', halfDepth);
  const up = onePiece
    ? line(`${body.name}, up`, '2 ×', finished.length, '+', depth, '+ 2 ×', top, '=', cut.length)
    : line(`${body.name}, up`, finished.length, '+', halfDepth, '+', top, '+', allowance, '=', cut.length);
  return [
    ...(lined ? [] : [hem]),
    ...(depth === 0 ? [] : [half]),
    line(`${body.name}, across`, finished.width, '+ 2 ×', halfDepth, '+ 2 ×', allowance, '=', cut.width),
    up,
  ];
}

export function toteAssembly(bag: Tote, written: Written): readonly string[] {
  const { onePiece, depth, allowance, lined } = bag;
  const seams = onePiece ? 'side seams' : 'side and bottom seams';
  const fold = onePiece ? 'Fold the body across, face in' : 'Lay the body panels face to face';
  return [
    ...strapAssembly(bag.handle, written),
    `${fold}, and stitch the ${seams} ${written(allowance)} from the edge.`,
    ...(depth === 0 ? [] : [boxing(bag, written)]),
    ...(lined ? linedTop(bag, written) : hemmedTop(bag, written)),
  ];
}

function boxing({ halfDepth, onePiece, depth }: Tote, written: Written): string {
  const meet = onePiece ? 'the side seam on the middle of the bottom' : 'the side seam on the bottom seam';
  return `Box each lower corner: lay ${meet}, stitch square across it ${written(halfDepth)} from the point of the seams, ${written(depth)} long, and trim.`;
}

function hemmedTop({ topHem, handle, handleGap }: Tote, written: Written): readonly string[] {
  return [
    `Hem the top: ${hemming(topHem, written)}, with the handle ends ${written(handle.end)} deep under it, ${written(handleGap)} apart on each side.`,
    'Turn the handles up and stitch them again at the top edge.',
  ];
}

function linedTop(
  { allowance, handle, handleGap, depth, onePiece }: Tote,
  written: Written,
): readonly string[] {
  const where = onePiece ? 'in one side seam' : 'in the bottom seam';
  return [
    `Sew the lining likewise${depth === 0 ? '' : ', corners boxed too'}, with a gap to turn through ${where}.`,
    `Pin the handle ends face down to the right side of the bag, ${written(handle.end)} past the top seam line, ${written(handleGap)} apart on each side.`,
    `Put the bag, face out, into the lining, face in, and stitch round the top ${written(allowance)} from the edge.`,
    'Turn the bag through the gap, close it, push the lining down, and stitch round the top edge.',
  ];
}
