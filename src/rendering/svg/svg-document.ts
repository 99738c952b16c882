/** What an SVG document of any place offers here: a browser's own, or one made in Node. */
export interface SvgDocument {
  readonly documentElement: object;
  readonly defaultView: object | null;
}
