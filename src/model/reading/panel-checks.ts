import { likelySpelling } from '../../units/spelling.ts';
import { type Ticks, ticks } from '../../units/ticks.ts';
import type { Cloth } from '../cloth.ts';
import type { Issue, IssueDetails, Path } from '../issue.ts';
import type { Panel, PanelAsked } from '../panel.ts';
import type { Plan } from '../plan.ts';
import type { Edges, Located } from './cloth-checks.ts';
import { SHOP_STEP, type WrittenCloth } from './cloth-fields.ts';
import { clothsPrinting, panelNames } from './panel-choices.ts';
import type { WrittenPanel } from './panel-fields.ts';

/** What is wrong with the panels of a cloth and of its lengths, each of which is written rightly. */
export function panelFaults(cloth: WrittenCloth, edgesOf: (index: number) => Edges): readonly Located[] {
  const { panels } = cloth;
  const faults: Located[] = [];
  if (panels) {
    const path = panels.isList ? ['panels'] : ['panels', 'areas'];
    const whole = { ...cloth, crease: { kind: 'none' } as const };
    faults.push(...areaFaults(panels.areas ?? [], whole, panels.every, path));
    faults.push(...motifFaults(cloth));
    const { buy } = cloth;
    if (buy && (panels.areas ?? []).length > 0) {
      if (panels.every === undefined) {
        faults.push(fault('without-every', panels.areas![0]!.name, ['panels']));
      } else if (panels.sold !== 'anywhere' && !isUsualStep(buy.step) && buy.step !== panels.every) {
        const details = { length: panels.every };
        faults.push(fault('step', panels.areas![0]!.name, ['buy', 'step'], details));
      } else if (buy.longest !== undefined && buy.longest < panels.every) {
        const details = { lost: 'step' as const, takes: panels.every, available: buy.longest };
        faults.push({ path: ['buy', 'longest'], problem: { code: 'nothing-usable', details } });
      }
    }
  }
  for (const [index, length] of (cloth.lengths ?? []).entries()) {
    const own = { ...edgesOf(index) };
    faults.push(...areaFaults(length.panels ?? [], own, length.length, ['lengths', index, 'panels']));
    const begin = length['panels begin'];
    if (begin !== undefined) faults.push(...beginFaults(cloth, ['lengths', index, 'panels begin']));
  }
  return faults;
}

/** A motif has its place beside panels only where both come again together. */
function motifFaults({ panels, repeat, washing }: WrittenCloth): readonly Located[] {
  if (panels?.['first motif'] === undefined) return [];
  const refused = (found: string, wanted: string): readonly Located[] => [
    { path: ['panels', 'first motif'], problem: { code: 'out-of-range', details: { found, wanted } } },
  ];
  const { every } = panels;
  if (every === undefined)
    return refused('first motif', 'every: first, so that it is known from where it counts');
  if (repeat?.along === undefined)
    return refused(
      'first motif',
      'repeat: { along: ... } under the cloth first, in which a motif has its place',
    );
  const alike = washing?.measured?.repeat === washing?.measured?.panels;
  if (panels['first motif'] >= every)
    return refused('first motif', 'a place before the panels come again, less than every');
  if (!alike || every % repeat.along === 0) return [];
  return refused(
    'first motif',
    'every: a whole number of times repeat along, or no first motif: else it lies elsewhere in each',
  );
}

/** Where panels begin is only asked of those that come again. */
export function beginFaults({ panels }: WrittenCloth, path: Path): readonly Located[] {
  if (panels?.every !== undefined) return [];
  const wanted =
    'panels: { every: ..., areas: [...] } under the cloth first, since only what comes again begins';
  return [{ path, problem: { code: 'out-of-range', details: { found: 'panels begin', wanted } } }];
}

const isUsualStep = (step: Ticks): boolean => Object.values(SHOP_STEP).includes(step as never);

/** Panels lie between the selvedges and within their repeat, apart from each other; those of one name are alike. */
export function areaFaults(
  areas: readonly WrittenPanel[],
  { width, selvedge }: Edges,
  far: Ticks | undefined,
  path: Path,
): readonly Located[] {
  return areas.flatMap((area, index): readonly Located[] => {
    const at = [...path, index];
    const [x, y] = [area['from edge'], area['from end']];
    const outside =
      x < selvedge.left ||
      x + area.size.width > width - selvedge.right ||
      (far !== undefined && y + area.size.length > far);
    if (outside) {
      const room = {
        width: ticks(Math.max(0, width - selvedge.left - selvedge.right)),
        length: far ?? ticks(0),
      };
      return [fault('outside', area.name, at, { room, ...(far !== undefined && { length: far }) })];
    }
    const before = areas.slice(0, index);
    const over = before.find((other) => overlap(area, other));
    if (over) return [fault('overlaps', area.name, at, { other: over.name })];
    const alike = before.find((other) => other.name === area.name);
    const differs =
      alike &&
      (alike.size.width !== area.size.width ||
        alike.size.length !== area.size.length ||
        alike.up !== area.up);
    return differs ? [fault('sizes-differ', area.name, at)] : [];
  });
}

function overlap(a: WrittenPanel, b: WrittenPanel): boolean {
  return (
    a['from edge'] < b['from edge'] + b.size.width &&
    b['from edge'] < a['from edge'] + a.size.width &&
    a['from end'] < b['from end'] + b.size.length &&
    b['from end'] < a['from end'] + a.size.length
  );
}

type Details = IssueDetails['panel-fault'];

function fault(kind: Details['fault'], panel: string, path: Path, more: Partial<Details> = {}): Located {
  return { path, problem: { code: 'panel-fault', details: { fault: kind, panel, cloth: '', ...more } } };
}

/** What pieces ask of panels that their cloths do not have, or that does not go together with what else they ask. */
export function panelsAskedFaults(plan: Plan): readonly Issue[] {
  const orders = plan.makes.flatMap(({ name, panels = {}, cloths, choices = {}, matches = {} }, index) =>
    Object.entries(panels).map(([part, asked]) => ({
      ...{ piece: `${name}/${part}`, asked, path: ['make', index, 'panel', part] as Path },
      ...{ cloth: cloths[part], open: choices[part], matched: matches[part] !== undefined },
    })),
  );
  const loose = plan.pieces.flatMap(({ name, panel, cloth, choices, match }, index) =>
    panel
      ? [
          {
            ...{ piece: name, asked: panel, path: ['pieces', index, 'panel'] as Path, cloth },
            ...{ open: choices, matched: match !== undefined },
          },
        ]
      : [],
  );
  const asking = [...orders, ...loose].flatMap(
    ({ piece, asked, path, cloth: name, open, matched }): readonly Issue[] => {
      const cloth = plan.cloths.find((own) => own.name === name);
      // An optional part without a cloth is left out, and its panel with it.
      if (!cloth) return [];
      const first = { piece, panel: asked.names[0]!, cloth: cloth.name };
      const issue = (details: Details): readonly Issue[] => [
        { code: 'panel-fault', severity: 'error', path, details },
      ];
      if (matched) return issue({ ...first, fault: 'with-match' });
      // What one cloth alone prints has been settled.
      if (open) return issue({ ...first, fault: 'with-choice', known: clothsPrinting(plan, open, asked) });
      return unknownPanels(asked, cloth, (panel, more) => ({ ...first, panel, ...more })).flatMap(issue);
    },
  );
  return [...alikeFaults(plan), ...asking];
}

/** Two lengths are measured by two rulers, or by hands a week apart: so much (2 mm) is no difference. */
const ALIKE = 640;

/** Panels of one name are alike on all lengths of a cloth. */
function alikeFaults({ cloths }: Plan): readonly Issue[] {
  return cloths.flatMap(({ name, panels, inHand }) => {
    const asBought = new Map((panels?.areas ?? []).map((area) => [area.name, area]));
    // What is measured on washed cloth has shrunk, so that it is like others that are washed.
    const washed = new Map<string, Panel>();
    return inHand.flatMap((length, index) =>
      (length.panels ?? []).flatMap((area, place): readonly Issue[] => {
        const known = length.washed ? washed : asBought;
        const other = known.get(area.name) ?? area;
        known.set(area.name, other);
        const same =
          Math.abs(other.width - area.width) <= ALIKE &&
          Math.abs(other.length - area.length) <= ALIKE &&
          other.turned === area.turned;
        // Within one list it has been told already.
        if (same || length.panels!.includes(other)) return [];
        const details = { fault: 'sizes-differ' as const, panel: area.name, cloth: name };
        return [
          {
            code: 'panel-fault',
            severity: 'error',
            path: ['cloths', name, 'lengths', index, 'panels', place],
            details,
          },
        ];
      }),
    );
  });
}

function unknownPanels(
  { names }: PanelAsked,
  cloth: Cloth,
  details: (panel: string, more: Pick<Details, 'fault'> & Partial<Details>) => Details,
): readonly Details[] {
  const known = panelNames(cloth);
  if (known.length === 0) return [details(names[0]!, { fault: 'no-panels' })];
  return names
    .filter((own) => !known.includes(own))
    .map((own) => {
      const likely = likelySpelling(own, known);
      return details(own, { fault: 'unknown', known, ...(likely !== undefined && { other: likely }) });
    });
}
