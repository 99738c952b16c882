import { FRACTION_GLYPHS } from '../units/format.ts';

/** Sentences worded elsewhere, with the typeface's own signs for halves, quarters and eighths: `54 1/4 in` as `54¼ in`. */
export function withGlyphs(sentence: string): string {
  return sentence.replace(
    /(?:(?<=\d) )?(?<![\d/])([1357]\/8|[13]\/4|1\/2)(?![\d/])/g,
    (written, fraction: string) => FRACTION_GLYPHS[fraction] ?? written,
  );
}
