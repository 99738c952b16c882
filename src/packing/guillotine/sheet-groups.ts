/**
 * Fewest or cheapest sheets for very many pieces: sheets are filled one after the other, and then emptied, one at a
 * time, into a few others. No step looks at more than some hundreds of pieces.
 */
import { QuickFill } from '../columns/quick-fill.ts';
import type { Budget } from '../search/budget.ts';
import { type Random, seededRandom } from '../search/random.ts';
import type { FitRule } from './find-place.ts';
import { forestToPart, type Part, renumbered } from './part.ts';
import { type Pieces, somePieces } from './pieces.ts';
import { groupSettings, RuinAndRecreate } from './ruin-and-recreate.ts';
import type { OpenedSheet, SheetSearchOptions } from './sheet-search.ts';

/** Pieces offered to one sheet: at least, at most, and until their area is so much of the sheet's. */
const LEAST_OFFERED = 60;
const MOST_OFFERED = 500;
const OFFERED_AREA = 2.5;
/** Sheets into which one is emptied, and most pieces in all of them. */
const MOST_OTHERS = 5;
const MOST_PIECES = 160;

interface Filled extends OpenedSheet {
  readonly pieces: readonly number[];
  readonly area: number;
}

export class SheetGroups {
  best = Infinity;
  readonly bound: number;
  private filled: Filled[] = [];
  private readonly pieces: Pieces;
  private readonly options: SheetSearchOptions;
  private readonly random: Random;
  private readonly budget: Budget;

  constructor(pieces: Pieces, options: SheetSearchOptions) {
    this.pieces = pieces;
    this.options = options;
    this.bound = options.bound;
    this.budget = options.budget;
    this.random = seededRandom(options.seed);
  }

  get bestSheets(): readonly OpenedSheet[] {
    return this.filled;
  }

  /** False where the sheets at hand did not hold all pieces this way. */
  run(): boolean {
    if (!this.fillAll()) return false;
    while (this.best > this.bound && !this.budget.ended && this.filled.length > 1) this.emptyOne();
    return true;
  }

  private fillAll(): boolean {
    const { pieces, options } = this;
    const { sheets } = options;
    const rate = ({ cost, width, length }: (typeof sheets)[number]): number => cost / (width * length);
    const order = sheets.map((_, kind) => kind).sort((a, b) => rate(sheets[a]) - rate(sheets[b]) || a - b);
    const copies = sheets.map((sheet) => sheet.copies);
    const left = Array.from({ length: pieces.count }, (_, piece) => piece);
    left.sort((a, b) => pieces.area[b] - pieces.area[a] || a - b);
    const filled: Filled[] = [];
    let rest = left;
    for (const kind of order) {
      while (copies[kind] > 0 && rest.length > 0) {
        const sheet = this.fillOne(kind, rest);
        if (sheet === undefined) break;
        copies[kind]--;
        filled.push(sheet);
        const taken = new Set(sheet.pieces);
        rest = rest.filter((piece) => !taken.has(piece));
      }
    }
    if (rest.length > 0) return false;
    this.filled = filled;
    this.note();
    return true;
  }

  /** Half of what is offered are the largest pieces left, the other half come from all the rest. */
  private fillOne(kind: number, left: readonly number[]): Filled | undefined {
    const { pieces, random, options } = this;
    const sheet = options.sheets[kind];
    const fitting = left.filter((piece) => fits(pieces, piece, sheet));
    const wanted = OFFERED_AREA * sheet.width * sheet.length;
    const offered: number[] = [];
    let area = 0;
    const offer = (piece: number): void => {
      offered.push(piece);
      area += pieces.area[piece];
    };
    let at = 0;
    while (
      at < fitting.length &&
      offered.length < MOST_OFFERED / 2 &&
      (offered.length < LEAST_OFFERED / 2 || area < wanted / 2)
    )
      offer(fitting[at++]);
    const step = Math.max(1, (fitting.length - at) / (MOST_OFFERED - offered.length));
    const more = Math.max(step, (fitting.length - at) / Math.max(1, offered.length));
    for (let index = at; index < fitting.length; index += more) offer(fitting[Math.floor(index)]);
    if (offered.length === 0) return undefined;
    const some = somePieces(pieces, offered);
    const fill = new QuickFill(some, options.stages, random);
    let best: Part | undefined;
    let most = 0;
    for (const rule of [0, 1, 2] as FitRule[]) {
      this.budget.spendMany(1 + (offered.length >> 3));
      const worth = fill.fill(sheet, some.area, {
        power: rule === 1 ? 0.3 : 0,
        noise: rule === 0 ? 0 : 0.3,
        rule,
      });
      if (worth <= most) continue;
      most = worth;
      best = fill.part();
    }
    if (best === undefined) return undefined;
    return this.filledWith(
      kind,
      renumbered(best, (piece) => offered[piece]),
    );
  }

  /** Takes the pieces of a sheet that is little used into a few others, as many of them as will go. */
  private emptyOne(): void {
    const { random, options, pieces, budget } = this;
    const { sheets } = options;
    const byArea = this.filled
      .map((_, index) => index)
      .sort((a, b) => this.filled[a].area - this.filled[b].area);
    const source = byArea[Math.min(byArea.length - 1, random.below(2))];
    const others: number[] = [];
    const members = [...this.filled[source].pieces];
    const wanted = 2 + random.below(MOST_OTHERS - 1);
    for (let draw = 0; draw < 4 * wanted && others.length < wanted; draw++) {
      const other = random.below(this.filled.length);
      const many = members.length + this.filled[other].pieces.length;
      if (
        other === source ||
        others.includes(other) ||
        many > Math.max(MOST_PIECES, 2 * this.filled[source].pieces.length)
      )
        continue;
      others.push(other);
      members.push(...this.filled[other].pieces);
    }
    if (budget.spend() || others.length === 0) return;
    const own = new Map(members.map((piece, index) => [piece, index]));
    const some = somePieces(pieces, members);
    const engine = new RuinAndRecreate(some, others.length + 1, options.stages, random);
    engine.reset([...others.map((other) => sheets[this.filled[other].sheet]), { width: 0, length: 0 }]);
    for (const [slot, other] of others.entries()) {
      engine.put([renumbered(this.filled[other].part, (piece) => own.get(piece)!)], slot);
    }
    const settings = groupSettings(2000 + 60 * members.length, random);
    const all = engine.anneal(settings, budget.spend);
    if (!all && engine.outArea >= this.filled[source].area) return;
    const slots = [...others];
    if (!all) {
      slots.push(source);
      engine.openSheet(others.length, sheets[this.filled[source].sheet]);
      engine.fill(0, 0, 0, 1);
      if (engine.outCount > 0) return;
    }
    const fresh = slots.flatMap((index, slot) => {
      const part = forestToPart(engine.forest, slot, (piece, width) => width !== some.width[piece]);
      const kind = this.filled[index].sheet;
      return part === undefined
        ? []
        : [
            this.filledWith(
              kind,
              renumbered(part, (piece) => members[piece]),
            ),
          ];
    });
    const gone = new Set([source, ...others]);
    this.filled = [...this.filled.filter((_, index) => !gone.has(index)), ...fresh];
    this.note();
  }

  private filledWith(sheet: number, part: Part): Filled {
    const own: number[] = [];
    const open = [part];
    for (let next = open.pop(); next !== undefined; next = open.pop()) {
      if (next.kind === 'piece') own.push(next.piece);
      else open.push(...next.parts);
    }
    return { sheet, part, pieces: own, area: own.reduce((sum, piece) => sum + this.pieces.area[piece], 0) };
  }

  private note(): void {
    const { sheets, onBetter } = this.options;
    const cost = this.filled.reduce((sum, { sheet }) => sum + sheets[sheet].cost, 0);
    if (cost >= this.best) return;
    this.best = cost;
    onBetter(cost, this.bound);
  }
}

function fits(
  pieces: Pieces,
  piece: number,
  sheet: { readonly width: number; readonly length: number },
): boolean {
  const { width, length, turnable } = pieces;
  if (width[piece] <= sheet.width && length[piece] <= sheet.length) return true;
  return turnable[piece] === 1 && length[piece] <= sheet.width && width[piece] <= sheet.length;
}
