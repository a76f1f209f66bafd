import { inks } from '../inks.js';

/**
 * The tones of the heart. Muscle at rest, excited and recovering differ in hue and hardly in lightness, so that a fast
 * heart does not flash (WCAG 2.2, 2.3.1); what happens is told by the shape of the front and in words as well.
 */
export const heartInks = {
  muscle: '#d9c5ba',
  excited: '#efb54e',
  recovering: '#a9d3c6',
  /** The back wall of an atrium, behind its hollow, when excited. */
  excitedBack: '#f8dca6',
  outline: '#4f4039',
  /** Hollows and vessels of the right side, then of the left. */
  venous: '#dfe5ec',
  vein: '#b9c4d1',
  arterial: '#f6e6e0',
  artery: '#dcb7ab',
  path: inks.accent,
  current: '#8a3d00',
  halo: inks.paper,
} as const;
