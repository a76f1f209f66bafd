import { createRequire } from 'node:module';
import { faces } from '../fonts.js';

/** One file of a face for pages, with the characters for which a browser fetches it. */
export interface WebFace {
  /** Name of the file among the assets. */
  readonly name: string;
  readonly source: string;
  readonly rule: string;
}

const require = createRequire(import.meta.url);

/** The same faces as in print, packed for the web in parts: `unicode-range` as the package states it. */
const LATIN =
  'U+0000-00FF,U+0131,U+0152-0153,U+02BB-02BC,U+02C6,U+02DA,U+02DC,U+0304,U+0308,U+0329,U+2000-206F,U+20AC,U+2122,U+2191,U+2193,U+2212,U+2215,U+FEFF,U+FFFD';
const LATIN_EXT =
  'U+0100-0130,U+0132-0151,U+0154-02BA,U+02BD-02C5,U+02C7-02CC,U+02CE-02D7,U+02DD-02FF,U+1E00-1E9F,U+1EF2-1EFF,U+20B9,U+2113';
/** Signs of mathematics, which only the whole face has. */
const SIGNS =
  'U+0394,U+03A9,U+03BC,U+03C0,U+212E,U+2202,U+220F,U+2211,U+2219,U+221A,U+221E,U+222B,U+2248,U+2260,U+2264,U+2265,U+25CA,U+266A';

const CUTS = [
  ['regular', 'next', 400, 'normal'],
  ['italic', 'next', 400, 'italic'],
  ['bold', 'next', 700, 'normal'],
  ['mono', 'mono', 400, 'normal'],
] as const;

const FAMILIES = {
  next: 'Atkinson Hyperlegible Next',
  mono: 'Atkinson Hyperlegible Mono',
} as const;

/**
 * The faces of the pages.
 * @param display `optional` lays a page out once and never moves it, at the price of another face where ours comes late;
 * `swap` always ends with our face
 */
export function webFaces(display: 'optional' | 'swap'): WebFace[] {
  return CUTS.flatMap(([cut, family, weight, style]) => {
    const packed = (subset: string) =>
      require.resolve(
        `@fontsource/atkinson-hyperlegible-${family}/files/atkinson-hyperlegible-${family}-${subset}-${weight}-${style}.woff2`,
      );
    return (
      [
        [`${cut}.woff2`, packed('latin'), LATIN],
        [`${cut}-ext.woff2`, packed('latin-ext'), LATIN_EXT],
        [`${cut}.ttf`, faces[cut], SIGNS],
      ] as const
    ).map(([name, source, range]) => ({
      name,
      source,
      rule: `@font-face {
  font-family: "${FAMILIES[family]}";
  src: url("${name}");
  font-weight: ${weight};
  font-style: ${style};
  font-display: ${display};
  unicode-range: ${range};
}
`,
    }));
  });
}
