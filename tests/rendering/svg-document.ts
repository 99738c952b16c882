import { createSVGWindow } from 'svgdom';

/** A fresh, empty SVG document. */
export const emptySvgDocument = () => createSVGWindow().document;
