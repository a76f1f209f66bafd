import type { Mark, Point } from '../drawing.js';

/** What the owner sees holding the skin. */
export type SkinClosure =
  | 'stitches'
  | 'crossed stitches'
  | 'running stitch'
  | 'staples'
  | 'buried'
  | 'glue'
  | 'open';

/** What a label points at. */
export type Feature = 'edges' | 'holder' | 'around' | 'fluid';

/** A wound, and where on it each feature is seen. */
export interface DrawnWound {
  readonly marks: readonly Mark[];
  readonly at: Readonly<Record<Feature, Point>>;
}
