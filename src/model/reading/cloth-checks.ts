import { sum, type Ticks, ticks } from '../../units/ticks.ts';
import type { Cloth, Crease, LengthInHand, Selvedges } from '../cloth.ts';
import type { Path } from '../issue.ts';
import { beforeWashing } from '../shrinkage.ts';
import { turnedAlong } from '../turned-length.ts';
import type { WrittenCloth, WrittenLength } from './cloth-fields.ts';
import type { Problem } from './fields.ts';
import { toRepeat } from './match-fields.ts';
import { panelFaults } from './panel-checks.ts';
import { toPanel, toPanels } from './panel-fields.ts';
import { outsideFaults } from './places-on-cloth.ts';
import { outOfRange } from './scalars.ts';
import { asBeforeWashing, toWashing, washedWidth, washingFaults } from './washed-measures.ts';

/** A problem and where it lies, from the cloth down. */
export interface Located {
  readonly path: Path;
  readonly problem: Problem;
}

/** What is wrong with a cloth of which every single value is right. Empty when all is well. */
export function clothFaults(cloth: WrittenCloth): readonly Located[] {
  const squaring = cloth.squaring ?? ticks(0);
  const faults = usableFaults({ ...cloth, crease: cloth.crease ?? NO_CREASE }, []);
  if (cloth.buy === undefined && (cloth.lengths ?? []).length === 0) {
    faults.push({ path: [], problem: { code: 'no-cloth-source', details: { example: 'buy: yes' } } });
  }
  faults.push(...foldFaults(cloth));
  const fromEdge = cloth.repeat?.['from edge'];
  if (fromEdge !== undefined && fromEdge >= cloth.width) {
    const details = { what: 'the first motif', width: cloth.width };
    faults.push({ path: ['repeat', 'from edge'], problem: { code: 'outside-cloth', details } });
  }
  const longest = cloth.buy?.longest;
  if (longest !== undefined && cloth.buy !== undefined) {
    faults.push(...fits('step', cloth.buy.step, longest, ['buy', 'longest'], 'may be equal'));
    faults.push(...fits('squaring', ticks(2 * squaring), longest, ['squaring'], 'must be less'));
  }
  faults.push(...washingFaults(cloth));
  for (const [index, written] of (cloth.lengths ?? []).entries()) {
    faults.push(...lengthFaults(written, cloth, squaring, ['lengths', index]));
  }
  // Where the edges are in doubt, so is all that lies between them.
  if (faults.length === 0) {
    faults.push(...panelFaults(cloth, (index) => withDefaults(cloth.lengths![index]!, cloth)));
  }
  return faults;
}

/** A fold is measured from the edge that is folded over, so it lies in the left half; and a flat cloth has none. */
function foldFaults(cloth: WrittenCloth): readonly Located[] {
  const foldAt = cloth['fold at'];
  if (foldAt === undefined) return [];
  if (cloth.lay === 'flat') {
    const details = { found: 'fold at', wanted: 'lay: folded beside it, or no fold at' };
    return [{ path: ['fold at'], problem: { code: 'out-of-range', details } }];
  }
  const usable = usableFaults({ ...cloth, crease: NO_CREASE }, []);
  if (usable.length > 0) return [];
  const half = ticks(Math.floor(cloth.width / 2));
  if (foldAt > half) return fits('fold', foldAt, half, ['fold at'], 'may be equal');
  return fits('fold-edge', cloth.selvedge.left, foldAt, ['fold at'], 'must be less');
}

function lengthFaults(
  written: WrittenLength,
  cloth: WrittenCloth,
  squaring: Ticks,
  path: Path,
): readonly Located[] {
  if (isDrawn(written)) return drawFaults(written, path);
  if (written.length === undefined) return [missing([...path, 'length'], '60')];
  const faults = [...fits('squaring', ticks(2 * squaring), written.length, path, 'must be less')];
  const ownWidth = written.width !== undefined && written.width !== cloth.width;
  // A narrower length was cut from the cloth: which edges it kept is nothing to guess at.
  if (ownWidth && written.selvedge === undefined) {
    faults.push(missing([...path, 'selvedge'], '{ left: 1, right: 0 }'));
  }
  const inherits = ownWidth && written.grain !== 'crosswise';
  if (inherits && written.crease === undefined && cloth.crease?.kind === 'keep-off') {
    faults.push(missing([...path, 'crease'], 'none'));
  }
  if (written.grain === 'crosswise') faults.push(...crosswiseFaults(written, path));
  if (faults.length === 0)
    faults.push(
      ...outsideFaults({ ...written, ...withDefaults(written, cloth), length: written.length }, path),
    );
  const ownUsable = ownWidth || written.selvedge !== undefined || written.crease !== undefined;
  if (faults.length > 0 || !ownUsable) return faults;
  return usableFaults(withDefaults(written, cloth), path);
}

/** Selvedge and crease run along the cloth, so that none lies along a length that was cut across it. */
function crosswiseFaults(written: WrittenLength, path: Path): readonly Located[] {
  if (written.width === undefined) return [missing([...path, 'width'], '20')];
  for (const key of ['first motif', 'panels', 'panels begin'] as const) {
    if (written[key] === undefined) continue;
    const wanted = `${key} only for a length that runs along the cloth`;
    return [{ path: [...path, key], problem: outOfRange(key, wanted).problem }];
  }
  const { left, right } = written.selvedge ?? { left: 0, right: 0 };
  const hasEdges = left > 0 || right > 0 || (written.crease ?? NO_CREASE).kind !== 'none';
  const wanted = 'lengthwise and change width and length over: selvedge and crease run along the length';
  return hasEdges ? [{ path: [...path, 'grain'], problem: outOfRange('crosswise', wanted).problem }] : [];
}

/** Whether a length is the cupboard's: then all its measures are told there. */
export function isDrawn(written: WrittenLength): boolean {
  return written['from cupboard'] !== undefined || written['all from cupboard'] !== undefined;
}

function drawFaults(written: WrittenLength, path: Path): readonly Located[] {
  const draws = written['from cupboard'] === undefined ? 'all from cupboard' : 'from cupboard';
  const others = Object.entries(written).filter(([key, value]) => key !== draws && value !== undefined);
  const wanted = `${draws} alone: the cupboard knows the rest`;
  return others.map(([key]) => ({
    path: [...path, key],
    problem: { code: 'out-of-range', details: { found: key, wanted } },
  }));
}

export interface Edges {
  readonly width: Ticks;
  readonly selvedge: Selvedges;
  readonly crease: Crease;
}

export function usableFaults({ width, selvedge, crease }: Edges, path: Path): Located[] {
  const selvedges = sum([selvedge.left, selvedge.right]);
  const faults = [...fits('selvedges', selvedges, width, [...path, 'selvedge'], 'must be less')];
  if (crease.kind === 'keep-off' && crease.at !== undefined && crease.at >= width) {
    const wanted = 'a place inside the width of this length';
    faults.push({
      path: [...path, 'crease'],
      problem: outOfRange('a crease beyond its edge', wanted).problem,
    });
  }
  if (faults.length === 0 && crease.kind === 'keep-off') {
    const usable = ticks(width - selvedges);
    faults.push(...fits('crease', ticks(2 * crease.each), usable, [...path, 'crease'], 'must be less'));
  }
  return faults;
}

function fits(
  lost: 'selvedges' | 'crease' | 'squaring' | 'step' | 'fold' | 'fold-edge',
  takes: Ticks,
  available: Ticks,
  path: Path,
  limit: 'must be less' | 'may be equal',
): readonly Located[] {
  if (takes < available || (limit === 'may be equal' && takes === available)) return [];
  return [{ path, problem: { code: 'nothing-usable', details: { lost, takes, available } } }];
}

function missing(path: Path, example: string): Located {
  return { path, problem: { code: 'missing', details: { field: String(path[path.length - 1]), example } } };
}

const NO_CREASE: Crease = { kind: 'none' };

function withDefaults(written: WrittenLength, cloth: WrittenCloth): Edges {
  return {
    width: written.width ?? (written.washed === true ? washedWidth(cloth) : cloth.width),
    selvedge: written.selvedge ?? cloth.selvedge,
    // Across the cloth there is no crease to inherit.
    crease: written.crease ?? (written.grain === 'crosswise' ? undefined : cloth.crease) ?? NO_CREASE,
  };
}

/** Panels that are sold in repeats are sold in nothing less. */
function termsOf({ buy, panels }: WrittenCloth): NonNullable<Cloth['buy']> {
  if (panels?.every === undefined || panels.sold === 'anywhere') return buy!;
  return { ...buy!, step: panels.every };
}

/** Panels of the cloth are told as bought, so where they begin on a washed length is worked back. */
function beginAsBought({ washed }: WrittenLength, { washing }: WrittenCloth, begin: Ticks): Ticks {
  return washed === true && washing?.washed === 'before-cutting'
    ? beforeWashing(begin, washing.along)
    : begin;
}

/** What a length in hand is called where the plan gives it no name. */
export function lengthName(index: number): string {
  return `length ${index + 1}`;
}

/** The cloth with everything filled in that was left out, its measures as they are before washing. */
export function toCloth(name: string, asWritten: WrittenCloth, rulerMark: Ticks): Cloth {
  const written = asBeforeWashing(asWritten, rulerMark);
  const printRuns = written['print runs'] ?? 'along';
  return {
    name,
    width: written.width,
    selvedge: written.selvedge,
    crease: written.crease ?? NO_CREASE,
    direction: written.direction ?? 'plain',
    printRuns,
    squaring: written.squaring ?? ticks(0),
    inHand: (written.lengths ?? []).flatMap((length, index): readonly LengthInHand[] => {
      if (length.length === undefined) return [];
      const own = {
        name: length.name ?? lengthName(index),
        length: length.length,
        copies: length.count ?? 1,
        ...(length.flaws === undefined ? {} : { flaws: length.flaws }),
        ...(length.panels === undefined
          ? {}
          : { panels: length.panels.map((panel) => toPanel(panel, printRuns)) }),
        ...(length['panels begin'] === undefined
          ? {}
          : { panelsBegin: beginAsBought(length, written, length['panels begin']) }),
        ...(length.washed === true ? { washed: true as const } : {}),
        ...(length['first motif'] === undefined ? {} : { firstMotif: length['first motif'] }),
        ...withDefaults(length, written),
      };
      return [length.grain === 'crosswise' ? turnedAlong(own) : own];
    }),
    lay: written.lay ?? (written['fold at'] === undefined ? 'flat' : 'folded'),
    ...(written['fold at'] === undefined ? {} : { foldAt: written['fold at'] }),
    ...(written['one spread'] === true ? { oneSpread: true as const } : {}),
    ...(written['tears true'] === true && { tearsTrue: true as const }),
    ...(asWritten.washing === undefined ? {} : { washing: toWashing(asWritten.washing) }),
    ...(written.repeat === undefined ? {} : { repeat: toRepeat(written.repeat) }),
    ...(written.panels === undefined ? {} : { panels: toPanels(written.panels, printRuns) }),
    ...(written.price === undefined ? {} : { price: written.price }),
    ...(written.buy === undefined ? {} : { buy: termsOf(written) }),
    ...(written.groups === undefined ? {} : { groups: written.groups }),
    ...(written.note === undefined ? {} : { note: written.note }),
    ...(written.shop === undefined ? {} : { shop: written.shop }),
    ...(written['leftover worth'] === undefined ? {} : { leftoverWorth: written['leftover worth'] }),
  };
}
