import { unevenness } from '../../filter/spread.js';
import type { MarkedBeat } from '../../marked-beat.js';
import { type Reason, reason } from '../../reason.js';
import { intervalLimits } from '../interval-limits.js';
import { type RateRange, rateRange } from '../rate-ranges.js';
import type { Evidence } from './evidence.js';
import { idleAtria } from './idle-atria.js';
import { areLowAndAlone } from './low-and-alone.js';
import { SHARP, sharpFrom, sharpness } from './main-family.js';

/** A rhythm of wide beats; its rate in beats/min. */
export interface WideRhythm {
  readonly rate: number;
  readonly range: RateRange;
  readonly confidence: number;
  readonly because: readonly Reason[];
}

/** Six wide beats in a row are a rhythm of their own; fewer are a run within another. Own choice, not a clinical number. */
export const OWN_RHYTHM = 6;

/** Share of the beats that are wide. Own choice, not a clinical number. */
const NEARLY_ALL = 0.85;
/**
 * P before more of the beats, at an equal distance, may lead to them; so it may where fewer were marked, if as many of those
 * are equal and more than a few. Own choice, not a clinical number.
 */
const TIED = { share: 0.7, seen: 0.3, count: 4 };

/** Half of the intervals lie nearer than this to the middle one: of a fibrillating atrium they do not for long. Own choice, not a clinical number. */
const STEADY = 0.08;
/** And three quarters nearer than this: in a short part half of the intervals of a fibrillating atrium may be alike by chance. Own choice, not a clinical number. */
const MOST_STEADY = { part: 0.75, within: 0.12 };

/**
 * Beats of a heart that dies keep no time. Slower than this share of the lowest rate they are told without, where between
 * them the line rests, as it does not over fibrillating atria. Own choice, not a clinical number.
 */
const DYING = 0.5;
/** So little, mV (standard deviation), the line moves where no atrium fibrillates. Own choice, not a clinical number. */
const AT_REST = 0.004;

/** A fast rhythm, which is worse to miss, is doubted for the sharpness of its strokes from here on, 1/s; a septal focus of a cat comes near it. Own choice, not a clinical number. */
const SHARP_FAST = 110;

const isOfVentricles = ({ kind }: MarkedBeat): boolean =>
  kind === 'ventricular' || kind === 'ventricular escape' || kind === 'ventricular premature';

/** A rhythm that ventricles keep themselves, or null: wide QRS nearly throughout, P not leading. */
export function wideRhythm(evidence: Evidence): WideRhythm | null {
  const { beats, shapes, patient, conduction, clock } = evidence;
  const limits = intervalLimits(patient);
  const range = rateRange(patient);
  if (!limits || !range || beats.length < OWN_RHYTHM) return null;
  const wide = beats.filter(isOfVentricles);
  const part = wide.length / beats.length;
  if (part < NEARLY_ALL) return null;
  const [main] = shapes.families;
  const width = main?.qrsDuration ?? main?.qrsAtLeast ?? Number.NaN;
  if (!(width > limits.wideQrs || evidence.widths[0] === 'wide')) return null;
  // By the middle interval: a jolt that was counted among so few beats would move their mean.
  const { rate } = evidence;
  // Without a time of its own it is no rhythm; the trace may be fibrillating.
  const isDying = rate < DYING * range.low && idleAtria(evidence, AT_REST) !== null;
  if (!isSteady(evidence) && !isDying) return null;
  if (areLowAndAlone(evidence)) return null;
  // P at an equal distance before most: a bundle branch block cannot be told apart.
  const seen = clock.times.length / beats.length;
  if (seen > TIED.share && conduction.led > TIED.share) return null;
  // Slow beats of one ventricle have nothing sharper to be taken for; of fast ones the doubt would cost more.
  const isSharp = (limit: number): boolean =>
    sharpness(main) > sharpFrom(limit, evidence.samplingRate);
  const isUsual = rate >= range.low && rate <= range.high;
  if (isUsual && (isTiedWhereSeen(evidence, seen) || isSharp(SHARP))) return null;
  if (rate > range.high && isSharp(SHARP_FAST)) return null;
  return {
    rate,
    range,
    confidence: part * 0.95,
    because: [
      reason('wide beats', { share: part, beats: beats.length, limit: NEARLY_ALL }),
      reason('wide QRS', { width, limit: limits.wideQrs }),
      reason('tied PR', { share: conduction.led, limit: TIED.share }),
      reason('rate beside the range', { rate, low: range.low, high: range.high }),
    ],
  };
}

function isSteady({ unevenness: half, intervals }: Evidence): boolean {
  const { part, within } = MOST_STEADY;
  return half <= STEADY && unevenness(intervals, part) <= within;
}

/** Whether the few P waves that were marked before these beats stand at one distance. @param seen P waves a beat */
function isTiedWhereSeen({ conduction: { led }, beats }: Evidence, seen: number): boolean {
  return led > TIED.seen && led * beats.length >= TIED.count && led >= TIED.share * seen;
}
