import { describe, expect, it } from 'vitest';
import { summaryText } from '../../src/rendering/tables.ts';
import { foldedPlan, smallPlan } from '../support/plans.ts';

const ESCAPE = '\u001b';

describe('the summary', () => {
  it('tells each cloth and then the whole', () => {
    expect(summaryText(smallPlan())).toMatchInlineSnapshot(`
      "landing bench
      In centimetres, cut sizes on the ruler's marks of 0.1 cm; width x length.

      tide stripe: 150 cm wide, one-way print
        Buy                0.6 m for ¤11.39 (the cuts need 56.3 cm)
        First              Wash, dry and press it first, as it will be washed later:
                           150 cm wide is reckoned to come out 147 cm wide. Measure it
                           again before you cut.
        Marker efficiency  98.7 % of the usable length cut into
        Utilisation        83.6 % of all the cloth, edges and leftovers counted
        Pieces             5
        Left to keep       nothing large enough
        Work               10 cuts, 2 folds
        Could it be less   no, proven

           Piece                 Cut size  Copies
        A  bench covers/front  36 x 50 cm       3
        B  bench covers/wrap   35 x 24 cm       2

      shingle linen: 138 cm wide, plain
        Use                oddment 1, 80 x 60 cm
        Use                oddment 2, 80 x 60 cm
        Marker efficiency  98.6 % of the usable length cut into
        Utilisation        53.6 % of all the cloth, edges and leftovers counted
        Pieces             4
        Left to keep       2: 79.1 x 24.6 cm each; selvedges left on not counted
        Work               10 cuts, 2 folds
        Could it be less   perhaps

           Piece     Cut size  Copies
        C  napkin  33 x 39 cm       4

      In all
        To pay        ¤11.39
        Pieces        9
        Left to keep  2 remnants
        Work          20 cuts, 4 folds"
    `);
  });

  it('tells spares and folds of a folded lay', () => {
    const text = summaryText(foldedPlan(), { columns: 90 });
    expect(text).toContain(
      'Spare              1 more of porch covers/front than wanted, from the folded lay',
    );
    expect(text).toMatch(/Work +\d+ cuts, \d+ fold/);
  });

  it.each([24, 33, 40, 61, 80, 120])('keeps within %d columns wherever a word allows it', (columns) => {
    for (const line of summaryText(smallPlan(), { columns }).split('\n')) {
      const longestWord = Math.max(
        ...line
          .trim()
          .split(' ')
          .map((word) => word.length),
      );
      expect(line.length).toBeLessThanOrEqual(Math.max(columns, longestWord + 22));
    }
  });

  it('loses no figure on a narrow terminal', () => {
    const words = (text: string) => new Set(text.replace(/copies|copy|,/gi, ' ').split(/\s+/));
    const narrow = words(summaryText(smallPlan(), { columns: 30 }).replace(/:/g, ''));
    for (const word of words(summaryText(smallPlan()).replace(/:/g, ''))) {
      if (!['Piece', 'Cut', 'size'].includes(word)) expect(narrow).toContain(word);
    }
  });

  it('sets headings in bold only when asked', () => {
    expect(summaryText(smallPlan())).not.toContain(ESCAPE);
    const bold = summaryText(smallPlan(), { emphasis: true });
    expect(bold).toContain(`${ESCAPE}[1mlanding bench${ESCAPE}[0m\n`);
    expect(bold.replaceAll(`${ESCAPE}[1m`, '').replaceAll(`${ESCAPE}[0m`, '')).toBe(summaryText(smallPlan()));
  });
});
