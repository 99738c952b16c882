/**
 * Plans that mix what cloth can ask for, as much as one plan may hold: folds, tools, creases and edges, washing, direction and
 * openings, matched prints, printed panels, flaws, joins, and cloths that could be stacked. Small pieces on roomy cloth, so that
 * most can be planned; what cannot has to say why.
 */
import type { Cloth, Crease, Flaw, Fraction, LengthInHand, Repeat, Washing } from '../../src/model/cloth.ts';
import { foldedAtCreases } from '../../src/model/fold-at-crease.ts';
import type { Mount, Panel, Panels } from '../../src/model/panel.ts';
import type { Match, Size } from '../../src/model/piece.ts';
import type { LoosePiece, MakeOrder, Plan, Tools } from '../../src/model/plan.ts';
import { seededRandom } from '../../src/packing/search/random.ts';
import { TICKS_PER_CM, TICKS_PER_INCH, TICKS_PER_YARD, type Ticks, ticks } from '../../src/units/ticks.ts';

const CLOTH_NAMES = ['tide stripe', 'shingle linen', 'gorse plain', 'dune ticking'];

/** As a plan file would give it: what is folded right of its middle lies turned about, where it can be. */
export function mixedPlan(seed: number): Plan {
  return foldedAtCreases(new Mix(seed).plan()).plan;
}

/** What a cloth is printed with, and how it is laid. */
type Role = 'matched' | 'panelled' | 'folded' | 'plain';

class Mix {
  readonly #random;
  readonly #mark: Ticks;
  readonly #unit: Plan['unit'];
  #names = 0;

  constructor(seed: number) {
    this.#random = seededRandom(seed);
    this.#unit = this.#chance(2) ? 'in' : 'cm';
    const inch = this.#pick([8, 4]);
    this.#mark = ticks(this.#unit === 'in' ? TICKS_PER_INCH / inch : TICKS_PER_CM / this.#pick([10, 5]));
  }

  plan(): Plan {
    const roles = this.#roles();
    const cloths = roles.map((role, index) => this.#cloth(CLOTH_NAMES[index]!, role));
    const twins = roles.length > 2 && this.#chance(2);
    const [first, second] = cloths.slice(-2);
    const laid = twins
      ? [...cloths.slice(0, -2), ...[first!, second!].map((cloth) => this.#forStack(cloth, first!))]
      : cloths;
    const own = laid.slice(0, twins ? -2 : undefined);
    const pieces = [
      ...own.flatMap((cloth, index) => this.#pieces(cloth, roles[index]!, laid)),
      ...(twins ? this.#alike([first!, second!]) : []),
    ];
    return {
      name: 'a mixed plan',
      unit: this.#unit,
      rulerMark: this.#mark,
      paper: 'letter',
      currency: '¤',
      keep: { width: this.#inches(5, 9), length: this.#inches(7, 12) },
      tools: this.#tools(),
      cloths: laid,
      makes: this.#orders(own),
      pieces,
      stages: this.#pick(['any', 'any', 3] as const),
      stacks: {
        take: this.#pick(['where-free', 'always'] as const),
        edge: this.#pick(['left', 'right'] as const),
      },
    };
  }

  #below(limit: number): number {
    return this.#random.below(Math.max(1, Math.floor(limit)));
  }

  /** Once in so many times. */
  #chance(of: number): boolean {
    return this.#below(of) === 0;
  }

  #pick<T>(of: readonly T[]): T {
    return of[this.#below(of.length)]!;
  }

  /** In whole small marks of the unit, now and then a tick or two beside them. */
  #inches(least: number, most: number): Ticks {
    const mark = this.#unit === 'in' ? TICKS_PER_INCH / 16 : TICKS_PER_CM / 10;
    const [from, to] = [least, most].map((inches) => Math.round((inches * TICKS_PER_INCH) / mark));
    const off = this.#chance(8) ? 1 + this.#below(2) : 0;
    return ticks((from! + this.#below(to! - from! + 1)) * mark + off);
  }

  #roles(): readonly Role[] {
    const roles: readonly Role[] = ['matched', 'panelled', 'folded', 'plain'];
    return Array.from({ length: 2 + this.#below(3) }, () => this.#pick(roles));
  }

  #tools(): Tools {
    return {
      rulerLength: this.#inches(10, 26),
      rulerMark: this.#mark,
      mostPlies: this.#pick([1, 2, 4, 4] as const),
      ...(this.#chance(2) && { rulerWidth: this.#inches(4, 8) }),
      ...(this.#chance(2) && { mat: { width: this.#inches(14, 20), length: this.#inches(20, 30) } }),
      longCuts: this.#pick(['scissors', 'tear', 'tear-or-scissors', 'neither'] as const),
    };
  }

  #cloth(name: string, role: Role): Cloth {
    const width = this.#inches(36, 60);
    const body: Cloth = {
      name,
      width,
      selvedge: { left: this.#edge(), right: this.#edge() },
      crease: this.#crease(),
      direction: this.#pick(['plain', 'two-way', 'one-way', 'nap'] as const),
      printRuns: this.#pick(['along', 'along', 'across'] as const),
      squaring: this.#chance(2) ? this.#inches(0.5, 1.5) : ticks(0),
      lay: 'flat',
      inHand: [],
      ...(this.#chance(2) && { washing: this.#washing() }),
      ...(this.#chance(2) && { tearsTrue: true }),
      ...(this.#chance(2) && { price: { hundredths: 900, per: ticks(TICKS_PER_YARD) } }),
    };
    const supply = this.#pick(['buy', 'both', 'both', 'both', 'in hand'] as const);
    const inHand = supply === 'buy' ? [] : this.#lengths(body, supply === 'in hand' ? 3 : 1);
    const step = ticks(this.#unit === 'in' ? TICKS_PER_YARD / 8 : 10 * TICKS_PER_CM);
    const cloth: Cloth = { ...body, inHand, ...(supply !== 'in hand' && { buy: { step } }) };
    if (role === 'matched') return this.#printed(cloth);
    if (role === 'panelled') return this.#withPanels(cloth);
    return role === 'folded' ? this.#folded(cloth) : cloth;
  }

  #edge(): Ticks {
    return this.#chance(4) ? ticks(0) : this.#inches(0.25, 1);
  }

  #crease(): Crease {
    const kind = this.#pick(['none', 'use', 'keep-off'] as const);
    return kind === 'keep-off' ? { kind, each: this.#inches(0.25, 1.25) } : { kind };
  }

  #washing(): Washing {
    const loss = (): Fraction =>
      this.#chance(2)
        ? { numerator: this.#below(7), denominator: 100 }
        : { numerator: this.#below(30), denominator: 487 };
    const washed = this.#pick(['before-cutting', 'before-cutting', 'after-sewing'] as const);
    const larger = washed === 'after-sewing' && this.#chance(2);
    return { along: loss(), across: loss(), washed, ...(larger && { cutLarger: true }) };
  }

  #lengths(cloth: Cloth, least: number): readonly LengthInHand[] {
    return Array.from({ length: Math.min(3, least + this.#below(2)) }, (_, index): LengthInHand => {
      const width = ticks(
        this.#chance(2) ? cloth.width : Math.floor(cloth.width * (0.7 + 0.1 * this.#below(3))),
      );
      const length = this.#inches(50, 110);
      const crease = this.#chance(2) ? cloth.crease : this.#crease();
      const at = ticks(Math.floor(width * (0.3 + 0.1 * this.#below(4))));
      return {
        name: ['roll end', 'oddment', 'old curtain'][index]!,
        ...{ length, width, copies: 1 },
        selvedge: this.#chance(2) ? cloth.selvedge : { left: this.#edge(), right: this.#edge() },
        crease: crease.kind === 'keep-off' && this.#chance(2) ? { ...crease, at } : crease,
        ...(this.#chance(2) && { flaws: [this.#flaw(width, length)] }),
        ...(this.#chance(5) && { washed: true }),
      };
    });
  }

  /** A box or a triangle, which may reach over the edges. */
  #flaw(width: Ticks, length: Ticks): Flaw {
    const [x, y] = [ticks(this.#below(width)), ticks(this.#below(length))];
    const [right, far] = [ticks(x + this.#inches(1, 6)), ticks(y + this.#inches(1, 6))];
    const near = { x, y };
    const box = [near, { x: right, y }, { x: right, y: far }, { x, y: far }];
    return {
      outline: this.#chance(2) ? box : [near, { x: right, y: ticks(y + 300) }, { x: ticks(x + 3), y: far }],
    };
  }

  #printed(cloth: Cloth): Cloth {
    const way = this.#below(3);
    const repeat: Repeat = {
      drop: this.#chance(4) && way === 2 ? 'half' : 'straight',
      ...(way !== 1 && { along: this.#inches(6, 16) }),
      ...(way !== 0 && { across: this.#inches(6, 14), fromEdge: this.#inches(2, 6) }),
    };
    const inHand = cloth.inHand.map(
      (length): LengthInHand => (this.#chance(2) ? { ...length, firstMotif: this.#inches(0, 14) } : length),
    );
    const printed = { ...cloth, inHand, repeat };
    return repeat.across === undefined && this.#chance(3) ? this.#folded(printed) : printed;
  }

  /** Folded down its middle, off it, for a piece that asks for it only, or laid once for all its cuts. */
  #folded(cloth: Cloth): Cloth {
    const how = this.#below(4);
    const foldAt = ticks(this.#mark * Math.floor((cloth.width * (20 + this.#below(28))) / 100 / this.#mark));
    return {
      ...cloth,
      // A kept-off crease leaves a fold beside it only now and then.
      ...(cloth.crease.kind === 'keep-off' && this.#chance(2) && { crease: { kind: 'use' } }),
      ...(how < 3 && { lay: 'folded' }),
      ...(how < 2 && { foldAt }),
      ...(this.#chance(3) && { oneSpread: true }),
    };
  }

  #withPanels(cloth: Cloth): Cloth {
    const every = ticks(this.#mark * Math.floor(this.#inches(18, 32) / this.#mark));
    const look = { width: this.#inches(5, 9), length: this.#inches(5, 9) };
    const turned = this.#chance(4) ? this.#pick([1, 2, 3] as const) : 0;
    const room = Math.floor((cloth.width - cloth.selvedge.left - cloth.selvedge.right) / 2);
    const areas = [0, 1].flatMap((column): Panel[] => {
      const slack = [room - look.width, every - look.length];
      if (slack.some((own) => own <= 0) || (column === 1 && this.#chance(3))) return [];
      const x = ticks(cloth.selvedge.left + column * room + this.#below(slack[0]!));
      return [
        { name: this.#chance(2) ? 'gull' : 'buoy', ...look, x, y: ticks(this.#below(slack[1]!)), turned },
      ];
    });
    const sold = cloth.buy && this.#chance(3) ? 'anywhere' : 'in-repeats';
    const panels: Panels = { areas, every, sold, untaken: this.#pick(['use', 'use', 'keep'] as const) };
    const inHand = cloth.inHand.map(
      (length): LengthInHand => (this.#chance(3) ? { ...length, panelsBegin: this.#inches(0, 18) } : length),
    );
    const buy = cloth.buy && { buy: { step: sold === 'in-repeats' ? every : cloth.buy.step } };
    return { ...cloth, inHand, panels, ...buy };
  }

  #forStack(cloth: Cloth, like: Cloth): Cloth {
    const { panels: _, repeat: __, foldAt: ___, ...plain } = cloth;
    const flawless = plain.inHand.map(({ flaws: _, ...length }) => length);
    return { ...plain, lay: 'flat', squaring: like.squaring, inHand: flawless };
  }

  #pieceName(): string {
    this.#names += 1;
    return `piece ${this.#names}`;
  }

  #size(most = 13): Size {
    return { width: this.#inches(3, most), length: this.#inches(4, most) };
  }

  /** Every cloth has two or three pieces, each with what its cloth can be asked for. */
  #pieces(cloth: Cloth, role: Role, cloths: readonly Cloth[]): readonly LoosePiece[] {
    return Array.from({ length: 1 + this.#below(3) }, (_, index): LoosePiece => {
      const piece: LoosePiece = {
        ...{ name: this.#pieceName(), count: 1 + this.#below(3), size: this.#size(), cloth: cloth.name },
        grain: cloth.direction === 'plain' && this.#chance(3) ? 'lengthwise' : 'either',
      };
      const ask = index === 0 || this.#chance(3);
      if (ask && role === 'matched') return { ...piece, match: this.#match(cloth.repeat!, piece.size) };
      if (ask && role === 'panelled') return this.#aroundPanel(piece, cloth, cloths);
      if (ask && role === 'folded' && this.#chance(2)) return this.#onFold(piece);
      return this.#chance(4) ? this.#larger(piece, cloth) : piece;
    });
  }

  /** What the repeat can be asked for. */
  #match(repeat: Repeat, size: Size): Match {
    const matches: readonly Match[] = [
      { kind: 'centre' },
      { kind: 'alike' },
      { kind: 'point', x: ticks(this.#below(size.width)), y: ticks(this.#below(size.length)) },
      ...(repeat.along === undefined ? [] : [{ kind: 'drops' } as const]),
    ];
    return this.#pick(matches);
  }

  #aroundPanel(piece: LoosePiece, { panels }: Cloth, cloths: readonly Cloth[]): LoosePiece {
    const [look] = panels?.areas ?? [];
    if (!look) return piece;
    const side = (own: Ticks) => ticks(own + this.#inches(0.5, 1.5));
    const upright = look.turned % 2 === 0 ? look : { width: look.length, length: look.width };
    const cloth = this.#pick(cloths).name;
    const mounts: readonly Mount[] = [
      { kind: 'strips', cloth, seam: this.#inches(0.25, 0.5) },
      { kind: 'ground', cloth, turn: this.#inches(0.25, 0.5) },
    ];
    const mount = this.#chance(3) ? this.#pick(mounts) : undefined;
    return {
      ...piece,
      count: 1,
      grain: 'either',
      size: { width: side(upright.width), length: side(upright.length) },
      panel: { names: [look.name], ...(mount && { mount }) },
    };
  }

  /** Half of it falls on a mark, so that it can be set from a fold. */
  #onFold(piece: LoosePiece): LoosePiece {
    const even = (side: Ticks) => ticks(2 * this.#mark * Math.ceil(side / (2 * this.#mark)));
    const { width, length } = piece.size;
    return {
      ...piece,
      count: 1 + this.#below(2),
      size: { width: even(width), length: even(length) },
      onFold: true,
    };
  }

  /** Larger than its cloth one way, so that it has to be joined. */
  #larger(piece: LoosePiece, cloth: Cloth): LoosePiece {
    const across = ticks(Math.floor(cloth.width * (1.05 + 0.1 * this.#below(5))));
    const sideways = cloth.direction !== 'plain' && cloth.printRuns === 'across';
    const along = this.#inches(4, 9);
    return {
      ...piece,
      count: 1,
      size: sideways ? { width: along, length: across } : { width: across, length: along },
      grain: sideways ? 'crosswise' : 'lengthwise',
      join: {
        by: this.#pick(['seam', 'lap'] as const),
        allowance: this.#inches(0.25, 0.75),
        lines: 'either',
        mostJoins: 2 + this.#below(3),
        narrowest: this.#inches(2, 4),
        clearMiddle: this.#chance(2),
      },
    };
  }

  #alike(cloths: readonly Cloth[]): readonly LoosePiece[] {
    const size = this.#size(14);
    const count = 3 + this.#below(6);
    return cloths.map(({ name }) => ({ name: this.#pieceName(), count, size, cloth: name, grain: 'either' }));
  }

  /** Covers whose backs may close either way. */
  #orders(cloths: readonly Cloth[]): readonly MakeOrder[] {
    const plain = cloths.filter(({ panels, foldAt }) => !panels && !foldAt);
    if (plain.length === 0 || !this.#chance(2)) return [];
    const [front, backs] = [this.#pick(plain), this.#pick(plain)];
    return [
      {
        ...{ name: 'landing covers', make: 'envelope-cover', count: 2 + this.#below(3) },
        cloths: { front: front.name, backs: backs.name },
        ...(front.repeat?.along !== undefined &&
          this.#chance(2) && { matches: { front: { kind: 'alike' } } }),
        measures: {
          size: { width: this.#inches(8, 12), length: this.#inches(8, 12) },
          'smaller than pad': 0,
          'seam allowance': ticks(TICKS_PER_INCH / 2),
          hem: { visible: ticks(TICKS_PER_INCH), under: ticks(TICKS_PER_INCH / 2) },
          opening: this.#pick(['either', 'either', 'level'] as const),
          'opening choice': this.#pick(['whole set', 'each cover'] as const),
          lap: this.#inches(3, 5),
        },
      },
    ];
  }
}
