/** The one part of svgdom that is used; the package carries no types of its own. */
declare module 'svgdom' {
  export function createSVGWindow(): { readonly document: import('./svg-document.ts').SvgDocument };
}
