import type { PlainBox } from '../geometry/walk.ts';
import type { LengthPlan, PrintBegin } from '../model/cut-plan.ts';
import type { CutTree, TrimKind } from '../model/cut-tree.ts';
import type { PieceId } from '../model/piece.ts';
import { type Ticks, ticks } from '../units/ticks.ts';
import { begun } from './begin.ts';
import { FoldSide } from './fold-side.ts';
import { partsOf } from './joined.ts';
import { foldsOf, type Spread, settingsOf, spreadFor, squaringEvery } from './spread.ts';
import { type Blade, type MeasuredBy, measuredBy, type ToolsOnCloth, tearsIntoFlaw } from './tool-reach.ts';
import { upperPly } from './upper-ply.ts';

type Tree = CutTree<PieceId>;

/** One turn at the mat: alike parts, one direction, the blade passing once for each setting and each stack. */
export interface CuttingStep {
  readonly number: number;
  readonly action: 'crosscut' | 'cut-lengthwise';
  /** True for the first cut of a length, which only squares its end. */
  readonly squaresEnd: boolean;
  /** Of that cut, where it begins the print: then its setting is the most that may go. */
  readonly begins?: PrintBegin;
  /** The first cuts after it, of all that is left of the length. */
  readonly ofRest?: true;
  /** Parts that are cut alike in this step, on the spread cloth. */
  readonly parts: readonly PlainBox<Ticks>[];
  readonly spread: Spread;
  /** Ruler settings in the order of the hands, each from the edge the cut before it left. 0 is the fold itself. */
  readonly settings: readonly Ticks[];
  /** What each setting takes away, where it is only trim. */
  readonly trims: readonly (TrimKind | undefined)[];
  /** Passes of the blade. */
  readonly strokes: number;
  /** Not `rotary` where even folding does not bring the cut within the ruler. */
  readonly blade: Blade;
  /** By what each setting is measured; absent where the plan does not say how wide the ruler is. */
  readonly measures?: readonly MeasuredBy[];
  /** On folded cloth: so many cuts after which the fold is laid true again. Absent where the cuts are few. */
  readonly squareAfter?: number;
  /** Where a setting along the length is measured from the fold of the lay: in all its parts, or in those that lie at it. */
  readonly fromFold?: 'all' | 'some';
  /** In a stack: to so many of its cloths this is done, one by one, before they are laid on each other. */
  readonly oneByOne?: number;
  /** Every line this step cuts, on the spread cloth; of a folded lay, on its upper ply. */
  readonly lines: readonly PlainBox<Ticks>[];
  /** Pieces that this step frees, all plies counted. */
  readonly frees: readonly { readonly piece: PieceId; readonly copies: number }[];
  /** Keepable leftovers that this step frees from the last piece they hung on, all plies counted. */
  readonly remnants: number;
}

/** A part on the table that still has to be cut up, or only to be slit along the fold. */
interface Part {
  readonly tree: Tree;
  readonly box: PlainBox<Ticks>;
  /** Whether its edge at the fold has been slit already. */
  readonly slit: boolean;
}

/** Parts of one key are alike: of one size, in as many plies, and cut alike now, whatever comes of them after. */
interface Waiting extends Part {
  readonly key: string;
}

/**
 * The order of work for one length, read off its cut tree. A cut is made only where a piece lies on one of its sides:
 * a leftover keeps its selvedge until it is used. Parts that are cut alike come together, stacked as far as the
 * maker's most plies allow; a part whose cuts mirror each other is folded first and both are cut at once. On a folded
 * lay the fold is slit where pieces of both plies meet in it.
 *
 * @param sections tools for cutting the length across into its sections, where they serve otherwise then
 */
export function cuttingSteps(
  length: LengthPlan,
  tools: ToolsOnCloth,
  { sections = tools }: { readonly sections?: ToolsOnCloth } = {},
): readonly CuttingStep[] {
  const fold = length.lay.kind === 'folded' ? new FoldSide(length, length.lay.foldAt) : undefined;
  const near = fold?.at ?? ticks(0);
  const upper = fold ? upperPly(length.tree, length.width, length.length, near) : length.tree;
  const table = new Table(length, { tools, sections }, fold);
  const { tree, box, cutAt } = begun({ ...length, tree: upper });
  if (cutAt !== undefined)
    table.begin({ tree: upper, box: { ...box, x0: near, y0: ticks(0) }, slit: false }, cutAt);
  const whole = { tree, box: { ...box, x0: near }, slit: false };
  let waiting: readonly Waiting[] = holdsPiece(tree) ? [table.laid(whole)] : [];
  while (waiting.length > 0) {
    const next = largest(waiting).key;
    const alike = waiting.filter(({ key }) => key === next);
    waiting = [...waiting.filter(({ key }) => key !== next), ...table.cutAlike(alike)];
  }
  return table.steps;
}

/** Writes down what is done to one length, step by step. */
class Table {
  readonly steps: CuttingStep[] = [];
  readonly #length: LengthPlan;
  readonly #tools: ToolsOnCloth;
  readonly #sections: ToolsOnCloth;
  readonly #fold: FoldSide | undefined;
  readonly #remnants: readonly PlainBox<Ticks>[];

  constructor(
    length: LengthPlan,
    { tools, sections }: { readonly tools: ToolsOnCloth; readonly sections: ToolsOnCloth },
    fold: FoldSide | undefined,
  ) {
    this.#length = length;
    this.#tools = tools;
    this.#sections = sections;
    this.#fold = fold;
    this.#remnants = remnantsOf(length, tools);
  }

  /** The cut that begins the print; nothing is folded end to end for it, nor any other cut made with it. */
  begin(whole: Part, cutAt: Ticks): void {
    this.#write([whole], [cutAt], []);
    this.steps[0] = { ...this.steps[0]!, begins: this.#length.begins! };
  }

  /** A part put on the table, with what it has in common with the parts that can be cut together with it. */
  laid(part: Part): Waiting {
    const { tree, box, slit } = part;
    const size = `${box.x1 - box.x0} ${box.y1 - box.y0} ${this.#doubledIn(box, slit)}`;
    const edges = this.#edgesOf(part);
    const direction = tree.kind === 'cut' ? tree.direction : '';
    const cuts = `${direction} ${edges.join(',')} ${trimsOf(tree, box, edges).join(',')}`;
    return { ...part, key: `${size} ${cuts} ${this.#isFlawed(part, edges)}` };
  }

  /** Only where tearing would be welcome. */
  #isFlawed({ tree, box }: Part, edges: readonly Ticks[]): boolean {
    const crosscut = tree.kind === 'cut' && tree.direction === 'crosscut';
    const lines = edges.map((edge) => lineAt(box, crosscut, edge));
    return this.#tools.tears === true && tearsIntoFlaw(lines, this.#tools);
  }

  /** Where a part is cut now: along the fold itself, and where its own cuts have a piece beside them. */
  #edgesOf({ tree, box, slit }: Part): readonly Ticks[] {
    const slits = this.#slits({ tree, box, slit });
    return [...(slits ? [ticks(0)] : []), ...(tree.kind === 'cut' ? madeCuts(tree, box) : [])];
  }

  #slits({ tree, box, slit }: Part): boolean {
    return !slit && (this.#fold?.slitsHere(tree, box) ?? false);
  }

  /** The near edge of a part is the fold itself until that is slit. */
  #fromFold(group: readonly Part[]): Pick<CuttingStep, 'fromFold'> {
    const atFold = group.filter(({ box, slit }) => !slit && box.x0 === this.#fold?.at).length;
    if (atFold === 0) return {};
    return { fromFold: atFold === group.length ? 'all' : 'some' };
  }

  #doubledIn(box: PlainBox<Ticks>, slit: boolean): number {
    return this.#fold?.doubledIn(box, slit) ?? 0;
  }

  /** Cuts one group of alike parts, and returns the parts that still hold pieces to be freed. */
  cutAlike(group: readonly Waiting[]): readonly Waiting[] {
    const edges = this.#edgesOf(group[0]!);
    const freed = group.flatMap((own) => this.#partsAfter(own));
    const goesOn = (part: Part) => (part.tree.kind === 'cut' ? holdsPiece(part.tree) : this.#needsSlit(part));
    if (edges.length > 0)
      this.#write(
        group,
        edges,
        freed.filter((part) => !goesOn(part)),
      );
    return freed.filter(goesOn).map((part) => this.laid(part));
  }

  #partsAfter(own: Part): readonly Part[] {
    if (own.tree.kind !== 'cut') return [{ ...own, slit: true }];
    const slit = own.slit || this.#slits(own);
    return partsOf(own.tree, own.box).map(({ tree, box }) => ({ tree, box, slit }));
  }

  #needsSlit(part: Part): boolean {
    return part.tree.kind === 'piece' && this.#slits(part);
  }

  #write(group: readonly Part[], edges: readonly Ticks[], done: readonly Part[]): void {
    const { tree, box, slit } = group[0]!;
    const crosscut = tree.kind === 'cut' && tree.direction === 'crosscut';
    const cutLength = crosscut ? box.x1 - box.x0 : box.y1 - box.y0;
    const action = crosscut ? 'crosscut' : 'cut-lengthwise';
    const trims = trimsOf(tree, box, edges);
    const squared = trims[0] !== 'squaring';
    const { oneSpread = false } = this.#length;
    const width = box.x1 - box.x0;
    const doubled = this.#doubledIn(box, slit);
    const flawed = this.#isFlawed(group[0]!, edges);
    const cut = { action, width, doubled, edges, cutLength } as const;
    const part = { ...cut, alike: group.length, squared, flawed, oneSpread };
    const tools = crosscut && this.steps.length === 0 ? this.#sections : this.#tools;
    const { blade, ...spread } = spreadFor(edges, part, tools);
    const settings = settingsOf(edges, spread);
    // A tear is snipped at one end; all else is marked at both.
    const line = blade === 'tear' ? Number.POSITIVE_INFINITY : cutLength / 2 ** spread.reachFolds;
    const measures = settings.flatMap((setting) => measuredBy(setting, line, tools) ?? []);
    const squareAfter = squaringEvery(spread, settings.length);
    this.steps.push({
      number: this.steps.length + 1,
      action,
      squaresEnd: !squared,
      ...(this.steps[0]?.begins && this.steps.length === 1 && { ofRest: true as const }),
      parts: group.map((own) => own.box),
      spread,
      settings,
      trims: spread.mirrorAt === undefined ? trims : settings.map(() => undefined),
      strokes: settings.length * Math.ceil(group.length / spread.stacked),
      blade,
      ...(measures.length > 0 && { measures }),
      ...(squareAfter !== undefined && { squareAfter }),
      ...(!crosscut && edges[0] !== 0 && spread.mirrorAt === undefined && this.#fromFold(group)),
      lines: group.flatMap((own) => edges.map((edge) => lineAt(own.box, crosscut, edge))),
      frees: counted(done.flatMap((part) => this.#piecesOf(part))),
      remnants: this.#remnantsIn(done.filter((part) => !holdsPiece(part.tree))),
    });
  }

  #piecesOf({ tree, box }: Part): readonly PieceId[] {
    if (tree.kind !== 'piece') return [];
    const lower = this.#fold?.lowerPieceAt(box);
    return lower === undefined ? [tree.piece] : [tree.piece, lower];
  }

  /** Leftovers of either ply whose near corner lies in one of the parts; the far part reaches as far as the wider ply does. */
  #remnantsIn(parts: readonly Part[]): number {
    const foldAt = this.#fold?.at ?? 0;
    const inside = (x: number, y: number) =>
      parts.some(
        ({ box }) =>
          x >= box.x0 && (x < box.x1 || box.x1 === this.#length.width) && y >= box.y0 && y < box.y1,
      );
    return this.#remnants.filter((own) => {
      const near = this.#fold && own.x1 <= foldAt ? 2 * foldAt - own.x1 : Math.max(own.x0, foldAt);
      return inside(near, own.y0);
    }).length;
  }
}

/**
 * Every leftover as it is told: what lies on either side of a kept-off crease is one, as long as no cut parts it; of a length
 * with flaws only the remnants themselves are known to be sound, so each stands by itself.
 */
function remnantsOf(length: LengthPlan, { flaws = [] }: ToolsOnCloth): readonly PlainBox<Ticks>[] {
  const found: PlainBox<Ticks>[] = [];
  const whole = { x0: ticks(0), y0: ticks(0), x1: length.width, y1: length.length };
  const waiting: { readonly tree: Tree; readonly box: PlainBox<Ticks> }[] = [
    { tree: length.tree, box: whole },
  ];
  for (let next = waiting.pop(); next; next = waiting.pop()) {
    if (next.tree.kind === 'remnant') found.push(next.box);
    if (next.tree.kind !== 'cut') continue;
    const parts = [...partsOf(next.tree, next.box)];
    for (const [index, part] of parts.entries()) {
      const [strip, beyond] = [parts[index + 1], parts[index + 2]];
      const meet = part.tree.kind === 'remnant' && beyond?.tree.kind === 'remnant' && isCrease(strip?.tree);
      if (flaws.length > 0 || !meet) {
        waiting.push(part);
        continue;
      }
      // The part beyond the strip is met next, and then stands for both.
      parts[index + 2] = { ...beyond, box: { ...beyond.box, x0: part.box.x0 } };
    }
  }
  return found;
}

function isCrease(tree: Tree | undefined): boolean {
  return tree?.kind === 'trim' && tree.of === 'crease';
}

/** Folds made for one step, on each cloth that it is done to. */
export function foldsIn({ spread, oneByOne = 1 }: CuttingStep): number {
  return foldsOf(spread) * oneByOne;
}

/** Distances from the near edge at which a cut is really made: those with a piece on one side or the other. */
function madeCuts(node: Extract<Tree, { kind: 'cut' }>, box: PlainBox<Ticks>): readonly Ticks[] {
  const parts = partsOf(node, box);
  return node.at.filter((_, cut) => holdsPiece(parts[cut]!.tree) || holdsPiece(parts[cut + 1]!.tree));
}

/** For each cut, the kind of trim it takes away from the near edge or leaves at the far one. */
function trimsOf(
  tree: Tree,
  box: PlainBox<Ticks>,
  edges: readonly Ticks[],
): readonly (TrimKind | undefined)[] {
  if (tree.kind !== 'cut') return edges.map(() => undefined);
  const parts = partsOf(tree, box);
  return edges.map((edge) => {
    const before = parts[tree.at.indexOf(edge)]?.tree;
    return before?.kind === 'trim' ? before.of : undefined;
  });
}

function lineAt(box: PlainBox<Ticks>, crosscut: boolean, edge: Ticks): PlainBox<Ticks> {
  if (crosscut) {
    const y = ticks(box.y0 + edge);
    return { x0: box.x0, y0: y, x1: box.x1, y1: y };
  }
  const x = ticks(box.x0 + edge);
  return { x0: x, y0: box.y0, x1: x, y1: box.y1 };
}

/** The largest part is cut up first, so that alike parts of it and of others lie on the table together. */
function largest(parts: readonly Waiting[]): Waiting {
  const area = ({ box }: Waiting) => (box.x1 - box.x0) * (box.y1 - box.y0);
  return parts.reduce((most, part) => (area(part) > area(most) ? part : most));
}

/** Whether any piece is cut from this part. */
export function holdsPiece(tree: Tree): boolean {
  return tree.kind === 'piece' || (tree.kind === 'cut' && tree.parts.some(holdsPiece));
}

function counted(pieces: readonly PieceId[]): CuttingStep['frees'] {
  const counts = new Map<PieceId, number>();
  for (const piece of pieces) counts.set(piece, (counts.get(piece) ?? 0) + 1);
  return [...counts].map(([piece, copies]) => ({ piece, copies }));
}
