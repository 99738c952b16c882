const GLYPHS: Readonly<Record<string, string>> = {
  '1/8': '⅛',
  '1/4': '¼',
  '3/8': '⅜',
  '1/2': '½',
  '5/8': '⅝',
  '3/4': '¾',
  '7/8': '⅞',
};

/** Sentences worded elsewhere, with the typeface's own signs for halves, quarters and eighths: `54 1/4 in` as `54¼ in`. */
export function withGlyphs(sentence: string): string {
  return sentence.replace(
    /(?:(?<=\d) )?(?<![\d/])([1357]\/8|[13]\/4|1\/2)(?![\d/])/g,
    (written, fraction: string) => GLYPHS[fraction] ?? written,
  );
}
