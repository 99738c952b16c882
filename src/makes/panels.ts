import { panelSize, panelsLie } from '../geometry/panels.ts';
import type { Cloth } from '../model/cloth.ts';
import type { Issue, Path } from '../model/issue.ts';
import type { PanelAsked } from '../model/panel.ts';
import type { ArithmeticLine, PieceWanted, Size } from '../model/piece.ts';
import type { PlanUnit } from '../model/plan.ts';
import { type Ticks, ticks } from '../units/ticks.ts';
import { type Mounted, mountedOn } from './mounting.ts';
import { shrinksAlike } from './wash-to-come.ts';

/** A piece before ids are made unique and letters given. */
export type Draft = Omit<PieceWanted, 'letter'>;

export interface WithPanels {
  readonly drafts: readonly Draft[];
  readonly issues: readonly Issue[];
  readonly arithmetic: readonly ArithmeticLine[];
  readonly assembly: readonly string[];
}

export interface PanelContext {
  readonly cloths: readonly Cloth[];
  readonly rulerMark: Ticks;
  readonly unit: PlanUnit;
  /** Part of the make; empty for a loose piece. */
  readonly part: string;
  /** Where the plan asks for the panel. */
  readonly path: Path;
}

/**
 * A piece that is cut around a printed panel, or around several dealt out in turn; with its strips or its ground where the
 * panel is mounted. A piece with a panel is never joined.
 */
export function withPanels(front: Draft, asked: PanelAsked | undefined, context: PanelContext): WithPanels {
  const none = { drafts: [front], issues: [], arithmetic: [], assembly: [] };
  const cloth = context.cloths.find(({ name }) => name === front.cloth);
  if (!asked || !cloth) return none;
  const apart = washTurns(front, asked, cloth, context.path);
  if (apart.length > 0) return { ...none, drafts: [], issues: apart };
  const { join: _, ...whole } = front;
  const several = asked.names.length > 1;
  const dealt = asked.names.flatMap((panel, index): readonly WithPanels[] => {
    const copies = Math.floor((front.copies - index + asked.names.length - 1) / asked.names.length);
    if (copies <= 0) return [];
    const named = (text: string) => (several ? `${text}, ${panel}` : text);
    const own = { ...whole, id: named(front.id), name: named(front.name), copies };
    return [oneFront(own, panel, { asked, cloth, front: front.name, context })];
  });
  const said = new Set<string>();
  return {
    drafts: dealt.flatMap(({ drafts }) => drafts),
    issues: dealt.flatMap(({ issues }) => issues),
    arithmetic: dealt.flatMap(({ arithmetic }) => arithmetic),
    assembly: dealt
      .flatMap(({ assembly }) => assembly)
      .filter((sentence) => !said.has(sentence) && said.add(sentence)),
  };
}

function oneFront(
  own: Draft,
  panel: string,
  {
    asked,
    cloth,
    front,
    context,
  }: {
    readonly asked: PanelAsked;
    readonly cloth: Cloth;
    readonly front: string;
    readonly context: PanelContext;
  },
): WithPanels {
  const inPiece = { name: panel, part: context.part, front };
  const plain = { drafts: [{ ...own, panel: inPiece }], issues: [], arithmetic: [], assembly: [] };
  const size = panelSize(cloth, panel);
  // What is unknown has been told when the plan was read.
  if (!size) return plain;
  const { mount } = asked;
  const mounted =
    mount &&
    mountedOn(
      inMount(own),
      { panel, size, mount, part: context.part, front, unit: context.unit },
      context.rulerMark,
    );
  const room = mounted?.room ?? own.size;
  if (size.width > room.width || size.length > room.length) {
    return { ...plain, drafts: [], issues: [tooLarge(own, panel, size, room, cloth, context.path)] };
  }
  if (!mounted) return plain;
  const [around, ...rest] = mounted.drafts;
  return {
    drafts: [{ ...around!, panel: inPiece }, ...rest],
    issues: thinBorder(own, panel, mounted, context.path),
    arithmetic: mounted.arithmetic,
    assembly: mounted.assembly,
  };
}

/** Panels that lie different ways round shrink differently as they stand, so no one size comes out right for them. */
function washTurns(front: Draft, { names }: PanelAsked, cloth: Cloth, path: Path): readonly Issue[] {
  const { washing } = cloth;
  if (!washing?.cutLarger || shrinksAlike(washing) || panelsLie(cloth, names) !== 'both') return [];
  const panel = names[0]!;
  const other = names.find((name) => panelsLie(cloth, [name]) !== panelsLie(cloth, [panel]));
  const details = {
    fault: 'wash-turns' as const,
    ...{ panel, cloth: cloth.name, piece: front.id },
    ...(other !== undefined && { other }),
  };
  return [{ code: 'panel-fault', severity: 'error', path, details }];
}

/** What a front is made up of comes to no size of its own in the wash: only together they do. */
function inMount({ washesTo: _, ...own }: Draft): Draft {
  return own;
}

function tooLarge(own: Draft, panel: string, size: Size, room: Size, cloth: Cloth, path: Path): Issue {
  const details = { fault: 'too-large' as const, panel, cloth: cloth.name, piece: own.id, size, room };
  return { code: 'panel-fault', severity: 'error', path, details };
}

/** A border narrower than this is hard to sew and hardly seen; common practice, no published source. */
const THINNEST = ticks(2032);

function thinBorder(own: Draft, panel: string, { shows }: Mounted, path: Path): readonly Issue[] {
  if (shows === undefined || shows >= THINNEST) return [];
  return [{ code: 'thin-border', severity: 'warning', path, details: { piece: own.id, panel, shows } }];
}
