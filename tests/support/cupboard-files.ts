/** The Tern House: a cupboard as a person keeps it, and a plan that draws on it. */
export const CUPBOARD = `# The Tern House: linen cupboard
cupboard: Linen cupboard
unit: in
currency: $
entries:
  # bolts
  - name: kelp end
    cloth: kelp check
    width: 45
    length: 1 3/4 yd   # 63 in
    selvedge: 1/2
    washed: yes
    where: top shelf
    since: 2026-02-17
    count: 2
  - { name: kelp strip, cloth: kelp check, width: 17, length: 41, selvedge: { left: 1/2, right: 0 } } # thin
  - { name: gull end, cloth: gull stripe, width: 54, length: 20 1/2, selvedge: 1/2, direction: one-way }
`;

export const PLAN = `plan: Pantry
unit: in
currency: $
cupboard: cupboard.yaml
cloths:
  kelp check:
    width: 45
    selvedge: 1/2
    washing: { along: 10 %, across: 5 %, washed: before-cutting }
    price: 8.40 per yd
    buy: yes
    lengths:
      - from cupboard: kelp end
pieces:
  - { name: shelf cloth, count: 3, size: 13 x 29, cloth: kelp check, grain: lengthwise }
`;

/** Lines that a text has and another has not. */
export function linesNew(before: string, after: string): readonly string[] {
  const old = before.split('\n');
  return after.split('\n').filter((line) => !old.includes(line));
}
