import type { Cloth, ClothName } from '../cloth.ts';
import type { PanelAsked } from '../panel.ts';
import type { LoosePiece, MakeOrder, Plan } from '../plan.ts';

/** The names of all panels of a cloth, its own and those of its lengths, each once. */
export function panelNames({ panels, inHand }: Cloth): readonly string[] {
  const all = [...(panels?.areas ?? []), ...inHand.flatMap((length) => length.panels ?? [])];
  return [...new Set(all.map(({ name }) => name))];
}

/** Of several cloths, those that print every panel that is asked for. */
export function clothsPrinting(
  plan: Pick<Plan, 'cloths'>,
  choices: readonly ClothName[],
  { names }: PanelAsked,
): readonly ClothName[] {
  return choices.filter((choice) => {
    const cloth = plan.cloths.find(({ name }) => name === choice);
    const known = cloth ? panelNames(cloth) : [];
    return names.every((name) => known.includes(name));
  });
}

/**
 * The plan with every part settled whose panels only one of its cloths prints: there is nothing left to choose. Where one
 * cloth is chosen for the whole of a thing, the panel of one part settles it for all of them.
 */
export function settlePanelChoices(plan: Plan): Plan {
  return {
    ...plan,
    makes: plan.makes.map((order) => settledOrder(plan, order)),
    pieces: plan.pieces.map((piece) => settledPiece(plan, piece)),
  };
}

function settledOrder(plan: Plan, order: MakeOrder): MakeOrder {
  const { choices, whole, panels = {}, ...rest } = order;
  if (!choices) return order;
  const settled = new Map<string, ClothName>();
  for (const [part, asked] of Object.entries(panels)) {
    const [only, another] = clothsPrinting(plan, choices[part] ?? [], asked);
    if (only === undefined || another !== undefined) continue;
    for (const own of whole ? Object.keys(choices) : [part]) {
      if (!settled.has(own)) settled.set(own, only);
    }
  }
  if (settled.size === 0) return order;
  const open = Object.entries(choices).filter(([part]) => !settled.has(part));
  return {
    ...rest,
    panels,
    cloths: { ...rest.cloths, ...Object.fromEntries(settled) },
    ...(open.length > 0 && { choices: Object.fromEntries(open), ...(whole && { whole }) }),
  };
}

function settledPiece(plan: Plan, piece: LoosePiece): LoosePiece {
  const { choices, panel, ...rest } = piece;
  if (!choices || !panel) return piece;
  const [only, another] = clothsPrinting(plan, choices, panel);
  return only === undefined || another !== undefined ? piece : { ...rest, panel, cloth: only };
}
