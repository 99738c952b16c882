import type { Cloth, Fraction, LengthInHand } from '../model/cloth.ts';
import type { QuarterTurns } from '../model/cut-tree.ts';
import type { PanelAsked } from '../model/panel.ts';
import type { Box, PieceId, PieceWanted } from '../model/piece.ts';
import { type Ticks, ticks } from '../units/ticks.ts';
import { isOver } from './check-flaws.ts';
import type { PlacedPart } from './placed-tree.ts';
import type { Report } from './plan-fault.ts';
import { afterWashing, inside, type TableCloth, usableCells } from './table-cloth.ts';

/** A printed panel as it lies on one length on the table. */
export interface PanelFound {
  readonly name: string;
  readonly turned: QuarterTurns;
  readonly box: Box;
  /** On usable cloth without a flaw, so that it can be kept. */
  readonly whole: boolean;
}

type Source = LengthInHand | { readonly bought: number };

/** Whether the panels of a cloth are held to: one is asked for, or those that are not must stay whole. */
export function holdsPanels(cloth: Cloth, wanted: Iterable<PieceWanted>): boolean {
  const has =
    (cloth.panels?.areas.length ?? 0) > 0 || cloth.inHand.some(({ panels }) => (panels?.length ?? 0) > 0);
  if (!has) return false;
  return keepsPanels(cloth) || [...wanted].some((piece) => piece.cloth === cloth.name && piece.panel);
}

function keepsPanels({ panels }: Cloth): boolean {
  return panels?.untaken !== 'use';
}

/** The panels of one length, worked out anew from what the plan says of the cloth. */
export function panelsOnTable(
  cloth: Cloth,
  source: Source,
  table: TableCloth,
  flaws: Parameters<typeof isOver>[1][],
): readonly PanelFound[] {
  const inHand = 'bought' in source ? undefined : source;
  const own = inHand?.panels;
  // A length that was washed when its own panels were measured shrinks them no more; those of the cloth are as bought.
  const settled = own !== undefined && inHand?.washed === true;
  const washing = cloth.washing?.washed === 'before-cutting' && !settled ? cloth.washing : undefined;
  const every = own ? undefined : cloth.panels?.every;
  const start = own ? 0 : (inHand?.panelsBegin ?? 0);
  const cells = usableCells(table);
  const found: PanelFound[] = [];
  for (const { name, turned, x, y, width, length } of own ?? cloth.panels?.areas ?? []) {
    // The last repeat that may begin before the near end and still leave a panel whole.
    let near: number = start + y;
    if (every !== undefined) near -= every * Math.floor(near / every);
    for (;;) {
      const box: Box = {
        x0: washing ? afterWashing(x, washing.across) : x,
        y0: washing ? afterWashing(ticks(near), washing.along) : ticks(near),
        x1: washing ? up(x + width, washing.across) : ticks(x + width),
        y1: washing ? up(near + length, washing.along) : ticks(near + length),
      };
      if (box.y1 > table.length) break;
      const whole = cells.some((cell) => inside(box, cell)) && !flaws.some((outline) => isOver(box, outline));
      found.push({ name, turned, box, whole });
      if (every === undefined) break;
      near += every;
    }
  }
  return found;
}

/** What is left after washing, up to a whole tick. */
function up(value: number, { numerator, denominator }: Fraction): Ticks {
  const left = BigInt(value) * BigInt(denominator - numerator);
  const by = BigInt(denominator);
  return ticks(Number((left + by - 1n) / by));
}

/** How far from the end of a bought length panels are certain: where a shop cuts anywhere in the repeat, a whole one less. */
export function panelReserve(cloth: Cloth, wanted: Iterable<PieceWanted>): number {
  const { panels, buy, washing } = cloth;
  if (!buy || panels?.every === undefined || panels.sold !== 'anywhere') return 0;
  if (!holdsPanels(cloth, wanted)) return 0;
  return washing?.washed === 'before-cutting' ? up(panels.every, washing.along) : panels.every;
}

export interface PanelsChecked {
  /** Panels that lie whole in one leftover. */
  readonly left: readonly Box[];
  /** The far edge of what must not be cut beside the last pieces. */
  readonly reach: number;
}

/**
 * That each piece with a panel holds it whole, in its middle to the tick (an odd one to the right and to the top of the
 * upright piece) and the right way up; and that every other panel, where panels are to stay whole, lies in one leftover.
 */
export function checkPanels(
  parts: readonly PlacedPart[],
  panels: readonly PanelFound[],
  asked: {
    readonly cloth: Cloth;
    readonly wanted: ReadonlyMap<PieceId, PieceWanted>;
    readonly asks: (piece: PieceWanted) => PanelAsked | undefined;
    /** The far end of panels that are certain to be there. */
    readonly certain: number;
    readonly reach: number;
  },
  report: Report,
): PanelsChecked {
  const taken = new Set<PanelFound>();
  for (const { tree, box } of parts) {
    const piece = tree.kind === 'piece' ? asked.wanted.get(tree.piece) : undefined;
    if (tree.kind !== 'piece' || !piece?.panel) continue;
    const inPiece = panels.filter(({ name, box: own }) => name === piece.panel!.name && inside(own, box));
    const where = { piece: piece.id, box };
    const centred = inPiece.find((own) => isCentred(own, box)) ?? inPiece[0];
    if (!centred) {
      report('panel-missing', { panel: piece.panel.name }, where);
      continue;
    }
    taken.add(centred);
    if (!isCentred(centred, box)) report('panel-off-centre', { panel: centred.name, at: centred.box }, where);
    if (tree.quarterTurns !== centred.turned) {
      report(
        'panel-turned',
        { panel: centred.name, found: tree.quarterTurns, wanted: centred.turned },
        where,
      );
    }
    checkMargins(piece, centred, box, asked.asks(piece), report);
  }
  if (!keepsPanels(asked.cloth)) return { left: [], reach: asked.reach };
  const free = panels.filter((own) => own.whole && !taken.has(own));
  const remnants = parts.filter(({ tree }) => tree.kind === 'remnant');
  for (const { name, box } of free) {
    if (box.y1 > asked.certain || remnants.some((part) => inside(box, part.box))) continue;
    report('panel-cut', { panel: name }, { box });
  }
  let { reach } = asked;
  for (;;) {
    const cut = free.find(({ box }) => box.y1 <= asked.certain && box.y0 < reach && box.y1 > reach);
    if (!cut) break;
    reach = cut.box.y1;
  }
  return { left: free.map(({ box }) => box), reach };
}

/** Upright, the margins at the left and at the bottom are the lesser ones, by no more than a tick. */
function isCentred({ box, turned }: PanelFound, piece: Box): boolean {
  const near = [box.x0 - piece.x0, box.y0 - piece.y0];
  const far = [piece.x1 - box.x1, piece.y1 - box.y1];
  // Counter-clockwise: the upright left and bottom come to lie near or far, across and along.
  const leftIsNear = turned === 0 || turned === 1;
  const bottomIsNear = turned === 0 || turned === 3;
  const sideways = turned % 2 === 1;
  const [across, along] = sideways ? [1, 0] : [0, 1];
  const left = leftIsNear ? [near[across]!, far[across]!] : [far[across]!, near[across]!];
  const bottom = bottomIsNear ? [near[along]!, far[along]!] : [far[along]!, near[along]!];
  return [left, bottom].every(([lesser, other]) => other! - lesser! === 0 || other! - lesser! === 1);
}

/** A mounted panel has its seam, or its turn, beyond its print wherever something is sewn to it. */
function checkMargins(
  piece: PieceWanted,
  { box, turned }: PanelFound,
  own: Box,
  asked: PanelAsked | undefined,
  report: Report,
): void {
  const { mount } = asked ?? {};
  if (!mount || !piece.mount) return;
  const { makes } = piece.mount;
  const depth = mount.kind === 'strips' ? mount.seam : mount.turn;
  const across = Math.min(box.x0 - own.x0, own.x1 - box.x1);
  const along = Math.min(box.y0 - own.y0, own.y1 - box.y1);
  const [side, top] = turned % 2 === 0 ? [across, along] : [along, across];
  const sewn = {
    side: mount.kind === 'ground' || piece.size.width < makes.width,
    top: mount.kind === 'ground' || piece.size.length < makes.length,
  };
  for (const [found, needs] of [
    [side, sewn.side],
    [top, sewn.top],
  ] as const) {
    if (needs && found < depth)
      report('panel-margin', { found: ticks(found), wanted: depth }, { piece: piece.id });
  }
}
