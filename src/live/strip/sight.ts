import type { View } from './view.js';

/** What the tools of a strip share: which part of the paper is seen, and the way to another. */
export interface Sight {
  readonly view: View;
  readonly show: (view: View) => void;
}
