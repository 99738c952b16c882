import type { Kind, Sheet } from './instance.ts';

/** Whether places in the sheet matter: something is fixed, forbidden or mirrored there, or lies on a lattice. */
export function isPositional(sheets: readonly Sheet[], kinds: readonly Kind[]): boolean {
  const held = (sheet: Sheet): boolean =>
    (sheet.forbidden?.length ?? 0) > 0 || (sheet.fixed?.length ?? 0) > 0 || sheet.mirrorAt !== undefined;
  return sheets.some(held) || kinds.some(({ copies, lattice }) => copies > 0 && lattice !== undefined);
}
