/**
 * Prints, panels and flaws laid over chance plans, so that they come together with folds, washing, joins, stacks and the
 * rest. Whether what is asked for can be had is left to chance.
 */
import fc from 'fast-check';
import type { Cloth, Flaw, LengthInHand, Repeat } from '../../src/model/cloth.ts';
import type { Mount, Panel, PanelAsked, Panels } from '../../src/model/panel.ts';
import type { Match, Size } from '../../src/model/piece.ts';
import type { LoosePiece, Plan } from '../../src/model/plan.ts';
import { seededRandom } from '../../src/packing/search/random.ts';
import { TICKS_PER_INCH, type Ticks, ticks } from '../../src/units/ticks.ts';
import { randomPlan } from './random-plan.ts';

/** A chance plan with prints, panels and flaws on some of its cloths. */
export function randomPrintedPlan(): fc.Arbitrary<Plan> {
  return fc
    .tuple(randomPlan(), fc.integer({ min: 1, max: 2 ** 30 }))
    .map(([plan, seed]) => withPrints(plan, seed));
}

export function withPrints(plan: Plan, seed: number): Plan {
  const chance = new Chance(seed);
  let printed = plan;
  for (const cloth of plan.cloths) {
    printed = withCloth(printed, chance.flawed(cloth));
    const kind = chance.below(5);
    if (kind < 2) printed = withRepeat(printed, cloth.name, chance);
    // Now and then a cloth has both, which goes together only where the start is known.
    if (kind === 2 || kind === 3 || (kind === 0 && chance.below(4) === 0)) {
      printed = withPanels(printed, cloth.name, chance);
    }
  }
  return printed;
}

function withCloth(plan: Plan, cloth: Cloth): Plan {
  return { ...plan, cloths: plan.cloths.map((own) => (own.name === cloth.name ? cloth : own)) };
}

function withRepeat(plan: Plan, name: string, chance: Chance): Plan {
  const cloth = plan.cloths.find((own) => own.name === name)!;
  const repeat = chance.repeat();
  const inHand = cloth.inHand.map(
    (length): LengthInHand =>
      chance.below(2) === 0 ? { ...length, firstMotif: chance.length(0, 200) } : length,
  );
  const pieces = plan.pieces.map((piece): LoosePiece => {
    if (piece.cloth !== name || chance.below(3) === 0) return piece;
    const { join: _, ...whole } = piece;
    return { ...whole, match: chance.match(piece.size, repeat) };
  });
  return { ...withCloth(plan, chance.mostlyFlat({ ...cloth, repeat, inHand })), pieces };
}

function withPanels(plan: Plan, name: string, chance: Chance): Plan {
  const cloth = plan.cloths.find((own) => own.name === name)!;
  const panels = chance.panels(cloth);
  if (panels.areas.length === 0) return plan;
  const { buy } = cloth;
  const every = panels.every;
  const sold = buy && every !== undefined && panels.sold === 'in-repeats' ? { ...buy, step: every } : buy;
  const inHand = cloth.inHand.map((length): LengthInHand => {
    const own = chance.below(4);
    if (own === 0)
      return { ...length, panels: chance.placed({ ...cloth, ...length }, length.length, panels.areas) };
    return own === 1 && every !== undefined ? { ...length, panelsBegin: chance.length(0, 250) } : length;
  });
  const pieces = plan.pieces.map((piece): LoosePiece => {
    if (piece.cloth !== name || piece.match) return piece;
    if (chance.below(2) === 0) return chance.below(4) === 0 ? piece : chance.smaller(piece);
    const { join: _, ...whole } = piece;
    return { ...whole, count: Math.min(3, piece.count), ...chance.aroundPanel(panels.areas, plan.cloths) };
  });
  const whole = chance.mostlyFlat({ ...cloth, panels, inHand, ...(sold && { buy: sold }) });
  return { ...withCloth(plan, whole), pieces };
}

/** Chance in whole sixteenths of an inch, or off them by a tick now and then. */
class Chance {
  readonly #random;

  constructor(seed: number) {
    this.#random = seededRandom(seed);
  }

  below(limit: number): number {
    return this.#random.below(limit);
  }

  /** Between two bounds in tenths of an inch. */
  length(least: number, most: number): Ticks {
    const mark = TICKS_PER_INCH / 16;
    const marks = Math.round((least + this.below(Math.max(1, most - least))) * 1.6);
    return ticks(marks * mark + (this.below(6) === 0 && marks > 0 ? this.below(5) : 0));
  }

  /** What is matched or cut around is seldom had from a folded lay. */
  mostlyFlat(cloth: Cloth): Cloth {
    return this.below(8) === 0 ? cloth : { ...cloth, lay: 'flat' };
  }

  /** A piece that finds room beside panels more often than not. */
  smaller({ join: _, ...piece }: LoosePiece): LoosePiece {
    const least = (side: Ticks) => ticks(Math.min(side, this.length(20, 70)));
    return { ...piece, size: { width: least(piece.size.width), length: least(piece.size.length) } };
  }

  flawed(cloth: Cloth): Cloth {
    const inHand = cloth.inHand.map((length): LengthInHand => {
      if (this.below(3) > 0) return length;
      const flaws = Array.from({ length: 1 + this.below(2) }, () => this.flaw(length));
      return { ...length, flaws };
    });
    return { ...cloth, inHand };
  }

  /** A box or a triangle, which may reach over the edges. */
  flaw({ width, length }: LengthInHand): Flaw {
    const [x, y] = [ticks(this.below(width)), ticks(this.below(length))];
    const [across, along] = [this.length(10, 70), this.length(10, 70)];
    const [right, far] = [ticks(x + across), ticks(y + along)];
    if (this.below(2) === 0)
      return {
        outline: [
          { x, y },
          { x: right, y },
          { x: right, y: far },
          { x, y: far },
        ],
      };
    return {
      outline: [
        { x, y },
        { x: right, y: ticks(y + this.length(1, 20)) },
        { x: ticks(x + 3), y: far },
      ],
    };
  }

  repeat(): Repeat {
    const drop = this.below(3) === 0 ? 'half' : 'straight';
    const way = this.below(3);
    return {
      drop,
      ...(way !== 1 && { along: this.length(60, 220) }),
      ...(way !== 0 && { across: this.length(60, 160) }),
      ...(this.below(3) > 0 && { fromEdge: this.length(0, 120) }),
    };
  }

  /** Mostly what the repeat can be asked for. */
  match({ width, length }: Size, repeat: Repeat): Match {
    const unsure = repeat.across !== undefined && repeat.fromEdge === undefined;
    if (unsure && this.below(8) > 0) return { kind: 'alike' };
    const drops: readonly Match[] = repeat.along === undefined ? [] : [{ kind: 'drops' }];
    const kinds: readonly Match[] = [
      ...drops,
      { kind: 'centre' },
      { kind: 'alike' },
      { kind: 'point', x: ticks(this.below(width)), y: ticks(this.below(length)) },
    ];
    return kinds[this.below(kinds.length)]!;
  }

  panels(cloth: Cloth): Panels {
    const once = cloth.buy === undefined && this.below(2) === 0;
    const every = this.length(160, 320);
    const longest = cloth.buy?.longest ?? Number.POSITIVE_INFINITY;
    return {
      areas: every > longest ? [] : this.areas(cloth, once ? (cloth.inHand[0]?.length ?? every) : every),
      ...(!once && { every }),
      sold: this.below(3) === 0 ? 'anywhere' : 'in-repeats',
      untaken: this.below(3) === 0 ? 'use' : 'keep',
    };
  }

  /** One to four panels of one or two names, apart from each other and from the selvedges. */
  areas({ width, selvedge }: Pick<Cloth, 'width' | 'selvedge'>, far: number): readonly Panel[] {
    const looks = ['gull', 'buoy'].map((name) => ({
      name,
      ...{ width: this.length(40, 110), length: this.length(40, 110) },
      turned: this.below(3) === 0 ? (this.below(4) as Panel['turned']) : (0 as const),
    }));
    const found: Panel[] = [];
    for (let number = 0; number < 1 + this.below(4); number++) {
      const look = looks[this.below(2)]!;
      const [roomX, roomY] = [width - selvedge.left - selvedge.right - look.width, far - look.length];
      if (roomX < 0 || roomY < 0) continue;
      const area = {
        ...look,
        x: ticks(selvedge.left + this.below(roomX + 1)),
        y: ticks(this.below(roomY + 1)),
      };
      if (!found.some((other) => overlap(other, area))) found.push(area);
    }
    return found;
  }

  /** Panels that look like these, somewhere else. */
  placed(cloth: Pick<Cloth, 'width' | 'selvedge'>, far: number, like: readonly Panel[]): readonly Panel[] {
    const found: Panel[] = [];
    for (const look of like) {
      const roomX = cloth.width - cloth.selvedge.left - cloth.selvedge.right - look.width;
      const roomY = far - look.length;
      if (roomX < 0 || roomY < 0) continue;
      const area = {
        ...look,
        x: ticks(cloth.selvedge.left + this.below(roomX + 1)),
        y: ticks(this.below(roomY + 1)),
      };
      if (!found.some((other) => overlap(other, area))) found.push(area);
    }
    return found;
  }

  /** Size and panel of a piece: as large as the panel or larger, rarely too small; a few are mounted. */
  aroundPanel(
    areas: readonly Panel[],
    cloths: readonly Cloth[],
  ): Pick<LoosePiece, 'size' | 'panel' | 'grain'> {
    const names = [...new Set(areas.map(({ name }) => name))];
    const asked = this.below(3) === 0 ? names : [names[this.below(names.length)]!];
    const own = areas.filter(({ name }) => asked.includes(name));
    const upright = own.map(({ turned, width, length }) =>
      turned % 2 === 0 ? { width, length } : { width: length, length: width },
    );
    const margin = () => this.length(this.below(10) === 0 ? -4 : 0, 30);
    const size = {
      width: ticks(Math.max(...upright.map(({ width }) => width)) + margin()),
      length: ticks(Math.max(...upright.map(({ length }) => length)) + margin()),
    };
    const cloth = cloths[this.below(cloths.length)]!.name;
    const depth = this.length(2, 6);
    const mounts: readonly Mount[] = [
      { kind: 'strips', cloth, seam: depth },
      { kind: 'ground', cloth, turn: depth },
    ];
    const mount = this.below(3) === 0 ? mounts[this.below(2)] : undefined;
    const panel: PanelAsked = { names: asked, ...(mount && { mount }) };
    return { size, panel, grain: 'either' };
  }
}

function overlap(a: Panel, b: Panel): boolean {
  return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.length && b.y < a.y + a.length;
}
