/**
 * The few inks of every figure and every sheet. Nothing is told by hue alone: in black and white
 * the accent prints as a dark grey, and the greys stay apart.
 */
export const inks = {
  ink: '#000000',
  /** Second voice: addresses, captions, axis numbers. 8.6 : 1 on white. */
  soft: '#4a4a4a',
  /** Third shade, for the third line of a chart and its name. 5.2 : 1 on white, 4.5 : 1 on the tint. */
  faint: '#6d6d6d',
  /** The one accent. 7.5 : 1 on white. */
  accent: '#0b5d66',
  rule: '#b5aea6',
  tint: '#f3f0ec',
  /** A stretch that the text speaks of. */
  shade: '#e6e1da',
  paper: '#ffffff',
  gridFine: '#e4ddd4',
  gridBold: '#c9bfb3',
} as const;

/** The family that figures name; the page and the printer load the same face under this name. */
export const family = 'Atkinson Hyperlegible Next';

/** Inks of a figure that may be drawn on another ground than paper. */
export type Inks = Readonly<Record<keyof typeof inks, string>>;
