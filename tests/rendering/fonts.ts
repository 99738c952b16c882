import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';

/** The font files that pages are printed with. */
export function testFonts(): { readonly regular: Uint8Array; readonly bold: Uint8Array } {
  const { resolve } = createRequire(import.meta.url);
  const read = (weight: string) =>
    new Uint8Array(
      readFileSync(resolve(`@expo-google-fonts/source-sans-3/${weight}/SourceSans3_${weight}.ttf`)),
    );
  return { regular: read('400Regular'), bold: read('600SemiBold') };
}
