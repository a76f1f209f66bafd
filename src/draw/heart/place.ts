import type { Point } from '../drawing.js';

/** Size of the picture in mm, with room for the words on both sides. */
export const HEART = { width: 130, height: 108 } as const;

/** Where the heart's own coordinates begin in it. */
export const HEART_AT: Point = [3, 1];
