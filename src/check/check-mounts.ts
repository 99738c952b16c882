import type { PanelAsked } from '../model/panel.ts';
import type { PieceWanted, Size } from '../model/piece.ts';
import type { Ticks } from '../units/ticks.ts';
import type { Report } from './plan-fault.ts';

export interface MountsAsked {
  readonly asked: PanelAsked;
  /** The cloth that the panels are printed on. */
  readonly cloth: string;
  readonly mark: Ticks;
  /** Cut size of the front where the plan says it; that of a make is the make's business. */
  readonly front?: Size;
}

/**
 * That the pieces of one front are what the plan asks of panels: each name dealt in its turn, and with every mounted panel
 * the strips or the ground that make it up to its front, from the cloth named for them.
 *
 * @param pieces all that belong to one front; each is accounted for
 */
export function checkMounts(pieces: readonly PieceWanted[], to: MountsAsked, report: Report): void {
  const { names, mount } = to.asked;
  const panels = pieces.filter(({ panel }) => panel);
  const total = panels.reduce((sum, { copies }) => sum + copies, 0);
  for (const [index, name] of names.entries()) {
    const found = panels.reduce((sum, piece) => sum + (piece.panel!.name === name ? piece.copies : 0), 0);
    // In turn: one after the other, the first again after the last.
    const wanted = Math.floor(total / names.length) + (index < total % names.length ? 1 : 0);
    if (found !== wanted) report('panel-dealt', { panel: name, found, wanted });
  }
  for (const piece of panels) {
    const fault = (what: string) => report('mount-wrong', { what }, { piece: piece.id });
    const { front } = to;
    if (piece.cloth !== to.cloth) fault('the cloth of the panel');
    if (!names.includes(piece.panel!.name)) fault('a panel that is not asked for');
    const makes = mount ? piece.mount?.makes : piece.exactSize;
    if (!makes) fault('its front');
    else if (front && (makes.width < front.width || makes.length < front.length))
      fault('the size of its front');
    const rest = pieces.filter((own) => own.mount?.panel === piece.panel!.name && own !== piece);
    if (mount && piece.mount) checkMounted(piece, rest, to, fault);
    else if (rest.length > 0 || piece.mount) fault('what it is mounted with');
  }
  const accounted = pieces.filter(({ panel, mount: own }) => panel || (own && names.includes(own.panel)));
  if (accounted.length < pieces.length || panels.length === 0) report('mount-wrong', { what: 'its pieces' });
}

function checkMounted(
  panel: PieceWanted,
  rest: readonly PieceWanted[],
  { asked: { mount }, mark }: MountsAsked,
  fault: (what: string) => void,
): void {
  const { makes } = panel.mount!;
  const one = (as: string) => {
    const found = rest.filter((own) => own.mount!.as === as);
    if (found.length > 1) fault(`more than one ${as}`);
    return found[0];
  };
  if (rest.some(({ cloth }) => cloth !== mount!.cloth)) fault('the cloth it is mounted with');
  if (mount!.kind === 'ground') {
    const ground = one('ground');
    if (rest.length !== 1 || !ground || ground.copies !== panel.copies || !isSame(ground.size, makes))
      fault('its ground');
    return;
  }
  const [side, end] = [one('side strip'), one('end strip')];
  const seams = 4 * mount!.seam;
  if (rest.length !== [side, end].filter(Boolean).length) fault('its strips');
  if ([side, end].some((strip) => strip && strip.copies !== 2 * panel.copies))
    fault('the number of its strips');
  // Sewn together, two strips and the panel lose two seams of two allowances each.
  const across = side ? panel.size.width + 2 * side.size.width - seams : panel.size.width;
  const up = end ? panel.size.length + 2 * end.size.length - seams : panel.size.length;
  if (!reaches(across, makes.width, mark) || !reaches(up, makes.length, mark))
    fault('the width of its strips');
  if (side && side.size.length !== panel.size.length) fault('the length of its side strips');
  if (end && (end.size.width < across || end.size.width >= across + mark))
    fault('the length of its end strips');
}

/** As large as the front, and by less than two marks of the ruler and two halves of a tick larger. */
function reaches(found: number, wanted: number, mark: number): boolean {
  return found >= wanted && found <= wanted + 2 * mark;
}

function isSame(one: Size, other: Size): boolean {
  return one.width === other.width && one.length === other.length;
}
