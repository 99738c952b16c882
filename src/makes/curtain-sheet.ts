import type { ArithmeticLine } from '../model/piece.ts';
import { sum, ticks } from '../units/ticks.ts';
import { line } from './arithmetic.ts';
import type { Curtain } from './curtain.ts';
import type { CurtainWidths } from './curtain-widths.ts';
import { takenByHem } from './edges.ts';
import { hemming, type Written } from './sewing.ts';

export function curtainArithmetic(curtain: Curtain, widths: CurtainWidths): readonly ArithmeticLine[] {
  const { covers, thousandths, curtains, length, heading, sideHem, bottomHem } = curtain;
  const [head, side, bottom] = [heading, sideHem, bottomHem].map(takenByHem);
  const fullness = String(thousandths / 1000);
  return [
    line('flat width of each curtain', covers, `× ${fullness} ÷ ${curtains} =`, widths.asked),
    line('heading takes up', heading.visible, '+', heading.under, '=', head),
    line('side hem takes up', sideHem.visible, '+', sideHem.under, '=', side),
    line('bottom hem takes up', bottomHem.visible, '+', bottomHem.under, '=', bottom),
    ...widthLines(curtain, widths),
    line('cut length', length, '+', head, '+', bottom, '=', sum([length, head, bottom])),
  ];
}

function widthLines(
  { sideHem, allowance }: Curtain,
  { number, each, asked, flat, given }: CurtainWidths,
): readonly ArithmeticLine[] {
  const side = takenByHem(sideHem);
  if (given) {
    const seams = number === 1 ? [] : [`- ${number - 1} × 2 ×`, allowance];
    return [line('flat width made', `${number} ×`, each, ...seams, '- 2 ×', side, '=', flat)];
  }
  if (number === 1) return [line('cut width', asked, '+ 2 ×', side, '=', each)];
  const seamed = ticks(asked + 2 * side + (number - 1) * 2 * allowance);
  return [
    line('all widths of a curtain', asked, '+ 2 ×', side, `+ ${number - 1} × 2 ×`, allowance, '=', seamed),
    line('each width, cut', seamed, `÷ ${number} =`, each),
  ];
}

export function curtainAssembly(
  curtain: Curtain,
  { number }: CurtainWidths,
  mayJoin: boolean,
  written: Written,
): readonly string[] {
  const { curtains, heading, sideHem, bottomHem, allowance } = curtain;
  // A width that is made up lies at the outer edge (common practice, no published source); its parts fit on either side.
  const outermost =
    mayJoin && curtains > 1
      ? [
          'Where the widths of a curtain are not alike on both sides, let the narrow one hang at the outer edge: join it to the left in a curtain that hangs left, to the right in one that hangs right.',
        ]
      : [];
  const joining =
    number === 1
      ? []
      : [
          `Join the ${number} widths of each curtain side by side, all up sides together, with seams ${written(allowance)} from the edge.`,
        ];
  return [
    ...joining,
    ...outermost,
    `Hem both sides: ${hemming(sideHem, written)}.`,
    `Hem the lower edge: ${hemming(bottomHem, written)}.`,
    `Turn the heading down: ${hemming(heading, written)}, with the tape or the slot that the rail needs.`,
  ];
}
