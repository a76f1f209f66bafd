import type { Stroke } from '../drawing.js';
import { inks } from '../inks.js';

export const ink: Stroke = { colour: inks.ink, width: 0.4 };
export const fine: Stroke = { colour: inks.ink, width: 0.25 };
export const thread: Stroke = { colour: inks.accent, width: 0.42 };
