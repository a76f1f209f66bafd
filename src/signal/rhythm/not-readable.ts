import type { Unreadable } from '../quality/span.js';

/** Why a stretch carries no rhythm, in the words of the trade. Never classified. */
export const notReadable: Readonly<Record<Unreadable, string>> = {
  'no samples': 'the file holds no samples here',
  'flat line': 'a flat line',
  clipped: 'the trace runs off its scale',
  noise: 'noise that hides the waves',
};
