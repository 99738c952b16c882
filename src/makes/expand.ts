import { panelsLie } from '../geometry/panels.ts';
import type { Cloth } from '../model/cloth.ts';
import type { Issue, Path } from '../model/issue.ts';
import type { PanelAsked } from '../model/panel.ts';
import type { ArithmeticLine, MakeSheet, OpeningSplit, PieceWanted, Size } from '../model/piece.ts';
import type { LoosePiece, MakeOrder, Plan } from '../model/plan.ts';
import { wordLoss } from '../model/shrinkage.ts';
import { ceilTo, type Ticks, ticks } from '../units/ticks.ts';
import { line } from './arithmetic.ts';
import { findMake } from './catalogue.ts';
import { allAround, cutRectangle, cutSize, raw } from './edges.ts';
import type { MadeUp, PieceOfMake, Remark } from './make.ts';
import { leavesOpening, type MadeUpSplit, madeUpSplit, type PieceOfSplit } from './openings.ts';
import { type Draft, type WithPanels, withPanels } from './panels.ts';
import { type AsPanel, cutLarger, largerLines, matchLarger } from './wash-to-come.ts';

export interface Expanded {
  readonly pieces: readonly PieceWanted[];
  readonly sheets: readonly MakeSheet[];
  readonly issues: readonly Issue[];
}

/**
 * From a validated plan to the rectangles to cut: the pieces of every make in the order of the plan, then the loose pieces.
 *
 * Cut sizes are rounded up to the ruler's marks here, before anything is packed, so that what is planned can be cut.
 * Seams and hems keep their depth from the cut edge; what rounding adds goes to the finished outline.
 * An order with an error among its issues has no pieces.
 *
 * @param openings by order, for those that leave it to the plan which way their covers close; all level unless said
 */
export function expandMakes(plan: Plan, openings: ReadonlyMap<string, OpeningSplit> = new Map()): Expanded {
  const taken = new Set<string>();
  const drafts: Draft[] = [];
  const sheets: MakeSheet[] = [];
  const issues: Issue[] = [];
  for (const [index, order] of plan.makes.entries()) {
    const split = leavesOpening(order)
      ? (openings.get(order.name) ?? { level: order.count, upright: 0 })
      : undefined;
    const madeUp = split
      ? madeUpSplit(order, split, (settled) => expandOrder(settled, plan))
      : wholeOrder(order, expandOrder(order, plan));
    issues.push(...madeUp.remarks.map((remark) => issueOf(remark, index)));
    const clothFor = (piece: PieceOfMake) => clothNamed(plan, clothOf(order, piece));
    const pieces = madeUp.pieces
      .filter((piece) => clothOf(order, piece) !== undefined)
      .map((piece) =>
        cutLarger(piece, clothFor(piece), asPanel(order.panels?.[piece.part], clothFor(piece))),
      );
    const cut = pieces.map((piece) => panelled(draftOfMake(order, piece, plan), order, piece, index, plan));
    drafts.push(...cut.flatMap((own) => own.drafts));
    issues.push(...cut.flatMap((own) => own.issues));
    issues.push(...pieces.flatMap((piece) => upsideDown(order, piece, index, plan)));
    const sewn = [...Object.values(order.cloths), ...mountCloths(Object.values(order.panels ?? {}))];
    issues.push(...shrinksApart(order.name, sewn, ['make', index, 'cloth'], plan));
    const sheet = mountedFirst(sheetOf(order, { ...madeUp, pieces }, plan), cut);
    sheets.push(split ? { ...sheet, openings: split } : sheet);
  }
  for (const [index, piece] of plan.pieces.entries()) {
    const context = { ...plan, part: '', path: ['pieces', index, 'panel'] };
    const own = withPanels(draftOfLoose(piece, plan), piece.panel, context);
    drafts.push(...own.drafts);
    issues.push(...own.issues);
    if (piece.panel?.mount) {
      const sewn = [piece.cloth, ...mountCloths([piece.panel])];
      issues.push(...shrinksApart(piece.name, sewn, ['pieces', index, 'panel'], plan));
    }
    if (own.assembly.length > 0) sheets.push(mountedFirst(sheetOfLoose(piece), [own]));
  }
  const pieces = drafts.map((draft, index) => ({
    ...draft,
    id: unused(draft.id, taken),
    letter: letterOf(index),
  }));
  return { pieces, sheets, issues };
}

/** A, B, ... Z, AA, AB, ... for 0, 1, ... */
export function letterOf(index: number): string {
  const rest = Math.floor(index / 26);
  const last = String.fromCharCode(65 + (index % 26));
  return rest === 0 ? last : letterOf(rest - 1) + last;
}

/** The piece with the panel that its part asks for. */
function panelled(
  draft: Draft,
  order: MakeOrder,
  { part }: PieceOfSplit,
  index: number,
  plan: Plan,
): WithPanels {
  return withPanels(draft, order.panels?.[part], { ...plan, part, path: ['make', index, 'panel', part] });
}

/** A front is mounted before anything is sewn to it. */
function mountedFirst(sheet: MakeSheet, cut: readonly WithPanels[]): MakeSheet {
  const arithmetic = cut.flatMap((own) => own.arithmetic);
  const assembly = cut.flatMap((own) => own.assembly);
  return {
    ...sheet,
    arithmetic: [...sheet.arithmetic, ...arithmetic],
    assembly: [...assembly, ...sheet.assembly],
    ...(assembly.length > 0 && { mounting: { arithmetic, assembly } }),
  };
}

function expandOrder(order: MakeOrder, plan: Plan): MadeUp {
  const make = findMake(order.make);
  if (make === undefined) throw new Error(`order "${order.name}": no make of the kind "${order.make}"`);
  return make.expand(order, { unit: plan.unit, rulerMark: plan.rulerMark });
}

/** Undefined where an optional part has no cloth, so that its piece is left out. */
function clothOf(order: MakeOrder, piece: PieceOfMake): string | undefined {
  const cloth = order.cloths[piece.part];
  if (cloth === undefined && findMake(order.make)?.spec.parts[piece.part]?.optional !== true) {
    throw new Error(`order "${order.name}": no cloth for the part "${piece.part}"`);
  }
  return cloth;
}

/** How a piece lies that is cut around panels; where those of several names lie differently, it is told elsewhere. */
function asPanel(asked: PanelAsked | undefined, cloth: Cloth | undefined): AsPanel {
  if (!asked || !cloth) return undefined;
  const lie = panelsLie(cloth, asked.names);
  return lie === 'both' ? 'upright' : lie;
}

function clothNamed({ cloths }: Plan, cloth: string | undefined): Cloth | undefined {
  return cloths.find(({ name }) => name === cloth);
}

function wholeOrder({ count }: MakeOrder, madeUp: MadeUp): MadeUpSplit {
  return { ...madeUp, pieces: madeUp.pieces.map((piece) => ({ ...piece, covers: count })) };
}

/** A piece that stands both ways up when sewn is not for a cloth that has an up. */
function upsideDown(order: MakeOrder, piece: PieceOfMake, index: number, plan: Plan): readonly Issue[] {
  const cloth = clothNamed(plan, clothOf(order, piece));
  if (piece.bothWaysUp !== true || (cloth?.direction !== 'one-way' && cloth?.direction !== 'nap')) return [];
  return [
    {
      code: 'part-upside-down',
      severity: 'warning',
      path: ['make', index],
      details: { piece: `${order.name}/${piece.name}`, cloth: cloth.name },
    },
  ];
}

function draftOfMake(order: MakeOrder, piece: PieceOfSplit, plan: Plan): Draft {
  const cloth = clothNamed(plan, clothOf(order, piece));
  const match = order.matches?.[piece.part];
  return {
    id: `${order.name}/${piece.name}`,
    name: piece.name,
    order: order.name,
    cloth: clothOf(order, piece)!,
    copies: piece.covers * piece.perMake,
    grain: piece.grain,
    ...(piece.join === undefined ? {} : { join: piece.join }),
    ...(piece.opening === undefined ? {} : { opening: piece.opening }),
    ...(piece.bothWaysUp === undefined ? {} : { bothWaysUp: piece.bothWaysUp }),
    ...(match === undefined ? {} : { match: matchLarger(match, piece, cloth) }),
    ...(piece.washesTo === undefined ? {} : { washesTo: piece.washesTo }),
    ...(order.onFold?.includes(piece.part) ? { onFold: true as const } : {}),
    ...onMarks(piece, plan.rulerMark),
  };
}

function draftOfLoose(piece: LoosePiece, plan: Plan): Draft {
  const cloth = clothNamed(plan, piece.cloth);
  const upright = { finished: piece.size, edges: allAround(raw), grain: piece.grain };
  const larger: Pick<PieceOfMake, 'washesTo'> & typeof upright = cutLarger(
    upright,
    cloth,
    asPanel(piece.panel, cloth),
  );
  return {
    id: piece.name,
    name: piece.name,
    order: piece.name,
    cloth: piece.cloth,
    copies: piece.count,
    grain: larger.grain,
    ...(piece.join === undefined ? {} : { join: piece.join }),
    ...(piece.match === undefined ? {} : { match: matchLarger(piece.match, larger, cloth) }),
    ...(larger.washesTo === undefined ? {} : { washesTo: larger.washesTo }),
    ...(piece.onFold && { onFold: piece.onFold }),
    ...onMarks(larger, plan.rulerMark),
  };
}

function onMarks(
  piece: Pick<PieceOfMake, 'finished' | 'edges' | 'folds'>,
  mark: Ticks,
): Pick<PieceWanted, 'size' | 'exactSize' | 'finished' | 'lines'> {
  const exactSize = cutSize(piece.finished, piece.edges);
  const size = sizeOnMarks(exactSize, mark);
  const grown = {
    width: ticks(piece.finished.width + size.width - exactSize.width),
    length: ticks(piece.finished.length + size.length - exactSize.length),
  };
  const { finished, lines } = cutRectangle(grown, piece.edges, piece.folds);
  return { size, exactSize, finished, lines };
}

function sizeOnMarks(exact: Size, mark: Ticks): Size {
  return { width: ceilTo(exact.width, mark), length: ceilTo(exact.length, mark) };
}

function sheetOf(order: MakeOrder, madeUp: MadeUp, plan: Plan): MakeSheet {
  const isLarger = madeUp.pieces.some(({ washesTo }) => washesTo !== undefined);
  return {
    order: order.name,
    make: order.make,
    count: order.count,
    title: findMake(order.make)!.spec.title,
    finished: madeUp.finished,
    arithmetic: [
      ...madeUp.arithmetic,
      ...madeUp.pieces.flatMap((piece) => {
        const cloth = clothNamed(plan, clothOf(order, piece));
        return piece.washesTo && cloth
          ? largerLines(
              { ...piece, washesTo: piece.washesTo },
              cloth,
              plan.rulerMark,
              asPanel(order.panels?.[piece.part], cloth),
            )
          : roundingLines(piece, plan.rulerMark);
      }),
    ],
    assembly: isLarger ? [...madeUp.assembly, WASHES_TO_SIZE] : madeUp.assembly,
    cautions: madeUp.cautions,
  };
}

/** Nothing is sewn of a loose piece but what mounts its panel. */
function sheetOfLoose({ name, count, size }: LoosePiece): MakeSheet {
  const none = { arithmetic: [], assembly: [], cautions: [] };
  return {
    order: name,
    make: 'piece',
    count,
    title: 'Piece with its panel mounted',
    finished: size,
    loose: true,
    ...none,
  };
}

const WASHES_TO_SIZE =
  'Sewn so, it is larger than its finished size, and comes to it in the wash: wash and dry it as it will be washed later.';

/** Parts sewn to each other that are cut for different washes pucker once they are washed. */
function shrinksApart(order: string, sewn: readonly string[], path: Path, plan: Plan): readonly Issue[] {
  const cloths = [...new Set(sewn)].flatMap((name) => clothNamed(plan, name) ?? []);
  if (!cloths.some(({ washing }) => washing?.cutLarger)) return [];
  const washes = cloths.map(({ washing }) =>
    washing?.washed === 'after-sewing' && washing.cutLarger
      ? [wordLoss(washing.along), wordLoss(washing.across)].join(' ')
      : 'none',
  );
  if (new Set(washes).size < 2) return [];
  const details = { order, cloths: cloths.map(({ name }) => name) };
  return [{ code: 'shrinks-apart', severity: 'warning', path, details }];
}

/** What panels are mounted with. */
function mountCloths(asked: readonly PanelAsked[]): readonly string[] {
  return asked.flatMap(({ mount }) => (mount ? [mount.cloth] : []));
}

/** Tells where the ruler's marks make a piece larger than its arithmetic. */
function roundingLines(piece: PieceOfMake, mark: Ticks): readonly ArithmeticLine[] {
  const exact = cutSize(piece.finished, piece.edges);
  const marked = sizeOnMarks(exact, mark);
  const what = (way: string) => `${piece.name}, ${way}, on the ruler`;
  return [
    ...(exact.width === marked.width ? [] : [line(what('across'), exact.width, 'up to', marked.width)]),
    ...(exact.length === marked.length ? [] : [line(what('up'), exact.length, 'up to', marked.length)]),
  ];
}

function issueOf({ severity, measure, sentence, figures }: Remark, index: number): Issue {
  return {
    code: 'make-practice',
    severity,
    path: ['make', index, measure],
    details: { sentence, figures },
  };
}

function unused(wanted: string, taken: Set<string>): string {
  let id = wanted;
  for (let number = 2; taken.has(id); number += 1) id = `${wanted} (${number})`;
  taken.add(id);
  return id;
}
