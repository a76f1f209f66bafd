import { excerptInto, isWhole, levelInto } from '../filter/excerpt.js';
import type { BeatWaves } from '../marked-beat.js';
import type { Channel } from '../waveform.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** Hz: fine enough for the QRS of a cat (0.04 s). */
export const SHAPE_RATE = 600;
/** Shapes are compared this far to either side of R, s: a wide QRS with its surroundings. */
export const SHAPE_HALF = 0.06;
/** R may have been placed this far off, s. */
const PLAY = 0.02;
/** Less than this share of another's size is another wave, whatever its form. */
export const SIZE = 0.5;
/** A lead that misses more beats than this share is left out of the comparison. */
const SEEN = 0.7;

const side = Math.round(SHAPE_HALF * SHAPE_RATE);
/** Shapes are shifted by up to so many steps to either side. */
export const most = Math.round(PLAY * SHAPE_RATE);
const shifts = 2 * most + 1;
/** Steps that are compared, and those with room to shift. */
const compared = 2 * side + 1;
const roomy = compared + 2 * most;

type Timed = Pick<BeatWaves, 'time'>;

/** How a beat lies on a template. */
export interface Fit {
  /** Correlation, -1 to 1; -1 where the sizes differ too much. */
  readonly alike: number;
  /** Steps by which the beat was moved. */
  readonly shift: number;
}

/**
 * The QRS of every beat, side by side in one array a lead: a day has more beats than arrays of their
 * own are cheap for. A template is what `cut` gives: the leads one after the other.
 */
export class QrsShapes {
  /** Those that show most beats; the one that shows most of them where none does. */
  readonly leads: readonly Channel[];
  /** Of each lead, `roomy` values a beat, mV. */
  readonly #rows: readonly Float64Array[];
  /** What is left of a beat's squares without each lead's mean, mV^2, at each shift. */
  readonly #powers: Float64Array;
  readonly #isSeen: Uint8Array;
  readonly #three = new Float64Array(3);

  constructor(leads: readonly Channel[], beats: readonly Timed[]) {
    const chosen = clearLeads(leads.map((lead) => rowsOn(lead, beats)));
    this.leads = chosen.map(({ lead }) => lead);
    this.#rows = chosen.map(({ rows }) => rows);
    this.#powers = new Float64Array(beats.length * shifts);
    this.#isSeen = new Uint8Array(beats.length);
    for (let beat = 0; beat < beats.length; beat += 1) this.#see(beat, chosen);
  }

  #see(beat: number, leads: readonly Rows[]): void {
    for (const { rows, isSeen } of leads) {
      if (isSeen[beat] !== 1) continue;
      this.#isSeen[beat]! += 1;
      this.#addPowers(rows, beat);
    }
  }

  /** How many of its leads show the beat whole: all, some, or none. */
  shows(beat: number): 'all' | 'some' | 'none' {
    const count = this.#isSeen[beat]!;
    return count === 0 ? 'none' : count < this.leads.length ? 'some' : 'all';
  }

  /** A template as far as the leads show it that show the beat. */
  seenWith(beat: number, template: Float64Array): Float64Array {
    if (this.shows(beat) === 'all') return template;
    const seen = template.slice();
    for (let lead = 0; lead < this.#rows.length; lead += 1) {
      const from = beat * roomy;
      const row = this.#rows[lead]!.subarray(from, from + roomy);
      if (row.every((value) => value === 0)) {
        seen.fill(0, lead * compared, (lead + 1) * compared);
      }
    }
    return seen;
  }

  /** The 0.12 s around R of all leads, each less its mean, moved by `shift` steps; 0 where a lead does not show the beat. */
  cut(beat: number, shift: number, out = this.blank()): Float64Array {
    let at = 0;
    for (const rows of this.#rows) {
      const from = beat * roomy + most + shift;
      let sum = 0;
      for (let i = from; i < from + compared; i += 1) sum += rows[i]!;
      const middle = sum / compared;
      for (let i = from; i < from + compared; i += 1) out[at++] = rows[i]! - middle;
    }
    return out;
  }

  /** A template of nothing. */
  blank(): Float64Array {
    return new Float64Array(compared * this.#rows.length);
  }

  /**
   * The shift at which the beat is most like the template, in the leads that show it: in coarse steps, then those around
   * the best.
   */
  bestFit(beat: number, whole: Float64Array): Fit {
    const template = this.seenWith(beat, whole);
    const power = dot(template, template);
    let alike = -1;
    let shift = 0;
    for (let first = -most; first <= most; first += 3 * COARSE) {
      this.#crossThree(beat, template, first, COARSE);
      for (let k = 0; k < 3; k += 1) {
        const here = this.#alikeAt(beat, power, first + k * COARSE, this.#three[k]!);
        if (here > alike) {
          alike = here;
          shift = first + k * COARSE;
        }
      }
    }
    const around = shift;
    for (const aside of [1 - COARSE, 0]) {
      const first = Math.max(-most, Math.min(most - 2, around + aside));
      this.#crossThree(beat, template, first, 1);
      for (let k = 0; k < 3; k += 1) {
        const here = this.#alikeAt(beat, power, first + k, this.#three[k]!);
        if (here > alike && first + k !== around) {
          alike = here;
          shift = first + k;
        }
      }
    }
    return { alike, shift };
  }

  #alikeAt(beat: number, power: number, shift: number, cross: number): number {
    const own = this.#powers[beat * shifts + most + shift]!;
    const ratio = own / power;
    return ratio > SIZE * SIZE && ratio < 1 / (SIZE * SIZE) ? cross / Math.sqrt(own * power) : -1;
  }

  /**
   * Scalar products of the template and the beat at three shifts, `first` and so many steps on: three sums that wait
   * for none but themselves. The template has mean 0 in each lead, so the beat's own mean need not be taken off.
   */
  #crossThree(beat: number, template: Float64Array, first: number, step: number): void {
    const from = beat * roomy + most + first;
    let one = 0;
    let two = 0;
    let three = 0;
    for (let lead = 0; lead < this.#rows.length; lead += 1) {
      const rows = this.#rows[lead]!;
      const start = lead * compared;
      for (let i = 0; i < compared; i += 1) {
        const value = template[start + i]!;
        one += rows[from + i]! * value;
        two += rows[from + i + step]! * value;
        three += rows[from + i + 2 * step]! * value;
      }
    }
    this.#three[0] = one;
    this.#three[1] = two;
    this.#three[2] = three;
  }

  #addPowers(rows: Float64Array, beat: number): void {
    const from = beat * roomy;
    let sum = 0;
    let squares = 0;
    for (let i = 0; i < roomy; i += 1) {
      const entering = rows[from + i]!;
      sum += entering;
      squares += entering * entering;
      const shift = i - compared + 1;
      if (shift < 0) continue;
      this.#powers[beat * shifts + shift]! += squares - (sum * sum) / compared;
      const leaving = rows[from + shift]!;
      sum -= leaving;
      squares -= leaving * leaving;
    }
  }
}

/** So that the coarse shifts from -`most` to `most` are nine, and two lie between neighbours. */
const COARSE = 3;

/** What one lead shows of each beat. */
interface Rows {
  readonly lead: Channel;
  readonly rows: Float64Array;
  readonly isSeen: Uint8Array;
  /** Share of the beats that it shows. */
  readonly part: number;
}

function rowsOn(lead: Channel, beats: readonly Timed[]): Rows {
  const rows = new Float64Array(beats.length * roomy);
  const isSeen = new Uint8Array(beats.length);
  const reach = (side + most) / SHAPE_RATE;
  let seen = 0;
  for (let beat = 0; beat < beats.length; beat += 1) {
    const at = beat * roomy;
    excerptInto(lead, beats[beat]!.time - reach, SHAPE_RATE, rows, at, roomy);
    const row = rows.subarray(at, at + roomy);
    if (!isWhole(row)) {
      // Counts for nothing in any sum.
      row.fill(0);
      continue;
    }
    // Wander tilts the stretch.
    levelInto(row, row);
    isSeen[beat] = 1;
    seen += 1;
  }
  return { lead, rows, isSeen, part: seen / beats.length };
}

function clearLeads(leads: readonly Rows[]): readonly Rows[] {
  const clear = leads.filter(({ part }) => part >= SEEN);
  if (clear.length > 0) return clear;
  return [...leads].sort((a, b) => b.part - a.part).slice(0, 1);
}

/** The scalar product of two shapes of one length. */
export function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i += 1) sum += a[i]! * b[i]!;
  return sum;
}
