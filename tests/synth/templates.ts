import type { BeatKind, PlannedBeat, Species, Wave } from './beat-plan.js';
import { EDGE_IN_WIDTHS } from './truth.js';

/**
 * Lead II measures of one species. Dog and cat lie inside the reference-range table (Table 2.4) of
 * Small Animal Internal Medicine, 6th ed.; the shape numbers between those limits are our own choice.
 * The rabbit's figures are from memory, unverified.
 */
export interface SpeciesTemplate {
  readonly species: Species;
  /** Ordinary sinus rate under anesthesia, beats/min. */
  readonly restingRate: number;
  /** mV and s. */
  readonly p: { readonly height: number; readonly duration: number };
  /** P onset to QRS onset at the resting rate, s, and the range it is kept in. */
  readonly pr: Held;
  readonly q: Wave;
  readonly r: Wave;
  readonly s: Wave;
  /** mV and s. */
  readonly t: { readonly height: number; readonly duration: number };
  /** QRS onset to T end at the resting rate, s, and the range it is kept in. */
  readonly qt: Held;
  /** QRS duration of a beat that starts in a ventricle, s. */
  readonly ventricularQrs: number;
}

interface Held {
  readonly atRest: number;
  readonly least: number;
  readonly most: number;
}

export const TEMPLATES: Readonly<Record<Species, SpeciesTemplate>> = {
  dog: {
    species: 'dog',
    restingRate: 90,
    p: { height: 0.24, duration: 0.04 },
    pr: { atRest: 0.1, least: 0.06, most: 0.13 },
    q: { amplitude: -0.12, centre: -0.0155, rise: 0.0042, fall: 0.0042 },
    r: { amplitude: 1.6, centre: 0, rise: 0.0062, fall: 0.0062 },
    s: { amplitude: -0.22, centre: 0.0165, rise: 0.0044, fall: 0.0044 },
    t: { height: 0.28, duration: 0.085 },
    qt: { atRest: 0.22, least: 0.15, most: 0.25 },
    ventricularQrs: 0.095,
  },
  cat: {
    species: 'cat',
    restingRate: 160,
    p: { height: 0.12, duration: 0.035 },
    pr: { atRest: 0.072, least: 0.05, most: 0.09 },
    q: { amplitude: -0.06, centre: -0.011, rise: 0.0028, fall: 0.0028 },
    r: { amplitude: 0.62, centre: 0, rise: 0.0044, fall: 0.0044 },
    s: { amplitude: -0.09, centre: 0.0115, rise: 0.003, fall: 0.003 },
    t: { height: 0.14, duration: 0.06 },
    qt: { atRest: 0.16, least: 0.12, most: 0.18 },
    ventricularQrs: 0.07,
  },
  rabbit: {
    species: 'rabbit',
    restingRate: 210,
    p: { height: 0.07, duration: 0.028 },
    pr: { atRest: 0.055, least: 0.04, most: 0.07 },
    q: { amplitude: -0.03, centre: -0.0085, rise: 0.0024, fall: 0.0024 },
    r: { amplitude: 0.34, centre: 0, rise: 0.0036, fall: 0.0036 },
    s: { amplitude: -0.09, centre: 0.009, rise: 0.0026, fall: 0.0026 },
    t: { height: 0.09, duration: 0.05 },
    qt: { atRest: 0.13, least: 0.1, most: 0.15 },
    ventricularQrs: 0.055,
  },
};

/** What may differ from the template in one beat. */
export interface BeatChange {
  /** Defaults to `sinus`. */
  readonly kind?: Exclude<BeatKind, 'ventricular'>;
  /** False leaves the P wave out. Defaults to true. */
  readonly withP?: boolean;
  /** Fixed PR interval, s, in place of the template's (AV block). */
  readonly pr?: number;
  /** Factor on the P height. */
  readonly pFactor?: number;
  /** Factor on the Q, R and S heights. */
  readonly qrsFactor?: number;
  /** T height over R height, in place of the template's. */
  readonly tToR?: number;
}

/**
 * A beat that reaches the ventricles by the normal road, R at `time` s, after an RR interval of `rr` s.
 * PR and QT shorten with the RR interval by its fourth and third root (the third root after Fridericia,
 * whose rule is human; here it only gives a lifelike slope inside the species' range).
 */
export function conductedBeat(
  template: SpeciesTemplate,
  time: number,
  rr: number,
  change: BeatChange = {},
): PlannedBeat {
  const pace = (rr * template.restingRate) / 60;
  const qrsFactor = change.qrsFactor ?? 1;
  const R = scaled(template.r, qrsFactor);
  const tHeight = change.tToR === undefined ? template.t.height : change.tToR * R.amplitude;
  const onset = template.q.centre - EDGE_IN_WIDTHS * template.q.rise;
  const pr = change.pr ?? held(template.pr, Math.sqrt(Math.sqrt(pace)));
  const qt = held(template.qt, Math.cbrt(pace));
  return {
    time,
    kind: change.kind ?? 'sinus',
    P:
      change.withP === false
        ? null
        : pWave(template, change.pFactor ?? 1, onset - pr + template.p.duration / 2),
    Q: scaled(template.q, qrsFactor),
    R,
    S: scaled(template.s, qrsFactor),
    T: waveEndingAt(onset + qt, tHeight, template.t.duration),
  };
}

/** A P wave of the species centred `centre` s from its reference. */
export function pWave(template: SpeciesTemplate, factor: number, centre: number): Wave {
  const width = template.p.duration / (2 * EDGE_IN_WIDTHS);
  return { amplitude: template.p.height * factor, centre, rise: width, fall: width };
}

/**
 * A beat that starts in a ventricle: wide, no P wave, T against the QRS and running on from it.
 * `direction` -1 turns it upside down (the other ventricle).
 */
export function ventricularBeat(
  template: SpeciesTemplate,
  time: number,
  direction: 1 | -1 = 1,
): PlannedBeat {
  const wide = template.ventricularQrs;
  const height = direction * template.r.amplitude * 1.15;
  const onset = -0.355 * wide;
  const tEnd = onset + template.qt.atRest + 0.6 * wide;
  const width = (share: number): number => (share * wide) / EDGE_IN_WIDTHS;
  return {
    time,
    kind: 'ventricular',
    P: null,
    Q: null,
    R: { amplitude: height, centre: 0, rise: width(0.355), fall: width(0.47) },
    S: { amplitude: -0.15 * height, centre: 0.43 * wide, rise: width(0.215), fall: width(0.215) },
    // T begins before the S wave is over: there is no flat ST segment.
    T: waveEndingAt(tEnd, -0.42 * height, tEnd - 0.45 * wide),
  };
}

/** A T wave climbs more slowly than it falls. */
function waveEndingAt(end: number, amplitude: number, duration: number): Wave {
  const rise = (0.58 * duration) / EDGE_IN_WIDTHS;
  const fall = (0.42 * duration) / EDGE_IN_WIDTHS;
  return { amplitude, centre: end - EDGE_IN_WIDTHS * fall, rise, fall };
}

function scaled(wave: Wave, factor: number): Wave {
  return { ...wave, amplitude: wave.amplitude * factor };
}

function held(range: Held, factor: number): number {
  return Math.min(range.most, Math.max(range.least, range.atRest * factor));
}
