import type { ToldBeat } from '../../signal/told-beats.js';
import type { LiveBeat } from '../contract.js';
import type { Point } from './calipers.js';
import type { Inks } from './inks.js';
import type { Pyramid } from './pyramid.js';
import type { View } from './view.js';
import type { WaveName } from './wave-marks.js';

/** A stretch of the strip with its words, s. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly words: string;
}

interface RhythmStretch extends Stretch {
  readonly named: boolean;
}

/** What is known of the strip; it never changes. */
export interface Known {
  readonly beats: readonly LiveBeat[];
  readonly told: readonly ToldBeat[];
  /** Words beside the mark of a beat; empty for the beats that need none. */
  readonly short: readonly string[];
  readonly rhythms: readonly RhythmStretch[];
  /** Runs and pauses within a rhythm. */
  readonly events: readonly Stretch[];
  readonly unreadable: readonly Stretch[];
}

/** Everything that one picture of the paper shows. */
export interface Scene {
  readonly known: Known;
  readonly pyramid: Pyramid;
  readonly view: View;
  readonly rooms: Rooms;
  readonly inks: Inks;
  readonly family: string;
  /** Device pixels a CSS pixel. */
  readonly density: number;
  readonly labels: ReadonlySet<WaveName>;
  /** Index of a beat. */
  readonly chosen: number | null;
  /** s. */
  readonly pointed: number | null;
  readonly points: readonly [Point, Point] | null;
}

/** How the height of the canvas is shared out, CSS pixels from its top. */
export interface Rooms {
  /** Where the signs of the beats begin, below the rhythm and the events. */
  readonly signs: number;
  readonly paper: number;
  /** Below the paper: letters of the waves, then the seconds. */
  readonly letters: number;
  readonly seconds: number;
  readonly bottom: number;
}

// CSS pixels: not clinical numbers.
const BAND = 24;
const SIGNS = 32;
const LETTERS = 30;
const SECONDS = 20;

export function roomsIn(height: number, hasEvents: boolean): Rooms {
  const signs = hasEvents ? 2 * BAND : BAND;
  const seconds = height - SECONDS;
  return { signs, paper: signs + SIGNS, letters: seconds - LETTERS, seconds, bottom: height };
}
