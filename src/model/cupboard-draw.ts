import { likelySpelling } from '../units/spelling.ts';
import type { Cloth, ClothDirection, ClothName, LengthInHand } from './cloth.ts';
import { type Cupboard, type CupboardEntry, copyNames } from './cupboard.ts';
import type { Issue, IssueDetails, Path } from './issue.ts';
import type { Plan } from './plan.ts';
import { toPanel } from './reading/panel-fields.ts';
import { beforeWashing } from './shrinkage.ts';
import { turnedAlong } from './turned-length.ts';

/** Where a plan says that a cloth may be cut from the cupboard: from one entry, or from every entry of a cloth. */
export interface CupboardDraw {
  readonly cloth: ClothName;
  readonly takes: 'entry' | 'every-entry-of';
  readonly name: string;
  readonly path: Path;
}

export interface DrawnPlan {
  readonly plan: Plan;
  readonly issues: readonly Issue[];
}

type Fault = IssueDetails['cupboard-draw']['fault'];

/**
 * The plan with the cupboard's entries among the lengths in hand of the cloths that draw on them. An entry asked for by
 * name that cannot serve is an error; one that only came with all of its cloth is left out with a warning.
 */
export function drawFromCupboard(
  plan: Plan,
  draws: readonly CupboardDraw[],
  cupboard: Cupboard | undefined,
): DrawnPlan {
  if (cupboard === undefined) {
    return { plan, issues: draws.map((draw) => issueOf(draw, 'no-cupboard', draw.name, 'error')) };
  }
  const drawing = new Drawing(plan, cupboard);
  for (const draw of inOrderOfNames(draws)) drawing.take(draw);
  return drawing.result();
}

/** What is asked for by name is given first, so that nothing that took all of a cloth stands in its way. */
function inOrderOfNames(draws: readonly CupboardDraw[]): readonly CupboardDraw[] {
  return [
    ...draws.filter(({ takes }) => takes === 'entry'),
    ...draws.filter(({ takes }) => takes === 'every-entry-of'),
  ];
}

class Drawing {
  readonly #plan: Plan;
  readonly #cupboard: Cupboard;
  readonly #issues: Issue[] = [];
  readonly #taken = new Map<string, ClothName>();
  readonly #lengths = new Map<ClothName, LengthInHand[]>();
  readonly #worthCounts: boolean;

  constructor(plan: Plan, cupboard: Cupboard) {
    this.#plan = plan;
    this.#cupboard = cupboard;
    const currencies = new Set([plan.currency, cupboard.currency].filter((currency) => currency !== ''));
    this.#worthCounts = currencies.size < 2;
  }

  take(draw: CupboardDraw): void {
    const { entries } = this.#cupboard;
    const found = entries.filter((entry) =>
      draw.takes === 'entry' ? entry.name === draw.name : entry.cloth === draw.name,
    );
    if (found.length === 0) this.#nothingFound(draw);
    for (const entry of found) this.#takeEntry(entry, draw);
  }

  result(): DrawnPlan {
    const cloths = this.#plan.cloths.map((cloth) => ({
      ...cloth,
      inHand: [...cloth.inHand, ...(this.#lengths.get(cloth.name) ?? [])],
    }));
    const { name, cut } = this.#cupboard;
    const plan = { ...this.#plan, cloths, cupboard: { name, cutBefore: cut.length } };
    return { plan, issues: this.#issues };
  }

  #nothingFound(draw: CupboardDraw): void {
    const { entries } = this.#cupboard;
    const byName = draw.takes === 'entry';
    const known = [...new Set(entries.map((entry) => (byName ? entry.name : entry.cloth)))];
    const likely = likelySpelling(draw.name, known);
    const hint = { known, ...(likely === undefined ? {} : { likely }) };
    // An empty place in the cupboard is no slip of the pen: what is needed can be bought.
    const severity = byName || likely !== undefined ? 'error' : 'warning';
    this.#issues.push(issueOf(draw, byName ? 'no-entry' : 'nothing-of-it', draw.name, severity, hint));
  }

  #takeEntry(entry: CupboardEntry, draw: CupboardDraw): void {
    const cloth = this.#plan.cloths.find(({ name }) => name === draw.cloth)!;
    const takenBy = this.#taken.get(entry.name);
    if (takenBy === draw.cloth) return;
    const lengths = this.#lengths.get(draw.cloth) ?? [];
    const fault = takenBy === undefined ? this.#faultOf(entry, cloth, lengths) : 'twice';
    if (fault !== undefined) {
      const more = takenBy === undefined ? {} : { takenBy };
      const severity = draw.takes === 'entry' ? 'error' : 'warning';
      this.#issues.push(issueOf(draw, fault, entry.name, severity, { ...more, found: entry.direction }));
      return;
    }
    if (entry.worth !== undefined && !this.#worthCounts && !this.#taken.has(entry.name))
      this.#issues.push(issueOf(draw, 'currency', entry.name, 'warning'));
    this.#taken.set(entry.name, draw.cloth);
    this.#lengths.set(draw.cloth, [...lengths, lengthOn(cloth, entry, this.#worthCounts)]);
  }

  #faultOf(entry: CupboardEntry, cloth: Cloth, drawn: readonly LengthInHand[]): Fault | undefined {
    if (entry.grain === 'unknown') return 'grain';
    if (!directionServes(entry, cloth)) return 'direction';
    const length = lengthOf(entry, false);
    if (length.length <= 2 * cloth.squaring) return 'too-short';
    const names = [...cloth.inHand, ...drawn].flatMap((own) => copyNames(own.name, own.copies));
    return copyNames(length.name, length.copies).some((name) => names.includes(name))
      ? 'name-taken'
      : undefined;
  }
}

/** How much a direction forbids. A pile and a one-way print forbid the same turns. */
const STRICTNESS: Readonly<Record<ClothDirection, number>> = { plain: 0, 'two-way': 1, 'one-way': 2, nap: 2 };

/** A plan for one-way cloth can be cut from plain cloth, never the other way round; and the prints must run alike. */
function directionServes(entry: CupboardEntry, cloth: Cloth): boolean {
  if (entry.direction === undefined || entry.direction === 'plain') return true;
  if (STRICTNESS[entry.direction] > STRICTNESS[cloth.direction]) return false;
  const written = entry.printRuns ?? 'along';
  const across = (written === 'across') !== (entry.grain === 'crosswise');
  return (cloth.printRuns === 'across') === across;
}

/** An entry as a length of the plan: its length along the lengthwise grain. */
export function lengthOf(entry: CupboardEntry, worthCounts: boolean): LengthInHand {
  const { width, length, selvedge, crease, count, flaws } = entry;
  const lies = {
    ...{ name: entry.name, length, width, selvedge, crease, copies: count },
    ...(flaws === undefined ? {} : { flaws }),
  };
  return {
    ...(entry.grain === 'crosswise' ? turnedAlong(lies) : lies),
    ...(entry.washed ? { washed: true as const } : {}),
    ...(worthCounts && entry.worth !== undefined ? { worth: entry.worth } : {}),
    entry: { name: entry.name, ...(entry.where === undefined ? {} : { where: entry.where }) },
  };
}

/** The same as a length of a cloth, which says how it is printed. */
function lengthOn(cloth: Cloth, entry: CupboardEntry, worthCounts: boolean): LengthInHand {
  const { panels, panelsBegin: begin, washed } = entry;
  const loss = washed && cloth.washing?.washed === 'before-cutting' ? cloth.washing.along : undefined;
  const runs = entry.printRuns ?? cloth.printRuns;
  return {
    ...lengthOf(entry, worthCounts),
    ...(panels && { panels: panels.map((panel) => toPanel(panel, runs)) }),
    // Panels of the cloth are told as bought, so where they begin on a washed length is worked back.
    ...(begin !== undefined && { panelsBegin: loss ? beforeWashing(begin, loss) : begin }),
  };
}

interface Hint {
  readonly known?: readonly string[];
  readonly likely?: string;
  readonly takenBy?: ClothName;
  readonly found?: string | undefined;
}

function issueOf(
  { cloth, path }: CupboardDraw,
  fault: Fault,
  name: string,
  severity: 'error' | 'warning',
  { known = [], likely, takenBy, found }: Hint = {},
): Issue {
  const details = {
    ...{ fault, name, cloth, known },
    ...(likely === undefined ? {} : { likely }),
    ...(takenBy === undefined ? {} : { takenBy }),
    ...(found === undefined ? {} : { found }),
  };
  return { code: 'cupboard-draw', severity, path, details };
}
