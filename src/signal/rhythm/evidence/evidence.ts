import { type Seconds, seconds } from '../../../units/brands.js';
import { type ShapeFamilies, shapeFamilies } from '../../beats/families.js';
import { type OwnQrs, type Width, widthsOf } from '../../beats/family-widths.js';
import { kindsOf } from '../../beats/kinds.js';
import { stretchOf } from '../../filter/ascending.js';
import { beatToBeatChange, differences, median, share, unevenness } from '../../filter/spread.js';
import { isLeadII } from '../../lead-name.js';
import type { BeatWaves, MarkedBeat, Patient, Wave } from '../../marked-beat.js';
import { type Pulse, type PulseVerdict, pulseOver, pulsesIn } from '../../pulse/pulse.js';
import type { Reason } from '../../reason.js';
import type { Channel } from '../../waveform.js';
import { EQUAL_PR } from '../interval-limits.js';
import { type Activity, activity } from './activity.js';
import {
  type AtrialClock,
  type AtrialEvidence,
  atrialClock,
  atrialEvidence,
  coherenceOf,
  placesBeforeOnset,
  placesBeforeQrs,
} from './atrial.js';
import { shownBesideQrs } from './beside-qrs.js';
import { type BetweenBeats, betweenBeats } from './between-beats.js';
import { type BlockedEarlyP, blockedEarlyP } from './blocked-early-p.js';
import { type ClockedP, clockedP } from './clocked-p.js';
import { type ConductionEvidence, conductionEvidence } from './conduction.js';
import { areStrays, countedTwice } from './counted-twice.js';
import { halfwayAtria } from './halfway-atria.js';
import { withoutJolted } from './jolted.js';
import { lateTallT } from './late-t.js';
import { looseP } from './loose-p.js';
import { isPAfterQrs } from './p-after-qrs.js';
import { beatsInStepWithP, beatsWithoutQrs, earlyWithoutT, pAsBeats } from './p-as-beats.js';
import { averageRecovery } from './recovery.js';
import { beginningOfP } from './rise-of-p.js';
import { seenP } from './seen-p.js';
import { type BendsBetween, standsOutBetweenBeats } from './unmarked-atria.js';
import { isWaveBeforeQrs } from './wave-before-qrs.js';

/** Whether the beats go with the breath. */
export type BreathVerdict = 'linked' | 'not linked' | 'cannot tell';

/** A strip with all that was found in it, as the rhythms need it. */
export interface Strip {
  /** mV, beginning at the same instant. */
  readonly leads: readonly Channel[];
  /** The same leads without power-line hum (`withoutMains`). */
  readonly quiet: readonly Channel[];
  readonly beats: readonly BeatWaves[];
  /** Of all the beats on these leads, where they have been sorted already. */
  readonly shapes?: ShapeFamilies;
  /** The same beats with their kinds, where those have been told already. */
  readonly marked?: readonly MarkedBeat[];
  /** What P waves lead to anywhere in the strip, where that is known. */
  readonly own?: OwnQrs | null;
  readonly loneP: readonly Wave[];
  readonly patient: Patient;
  readonly breath: BreathVerdict;
  readonly pulses: readonly Pulse[];
}

/** All that is known of one stretch, computed once; every rhythm reads the same. */
export interface Evidence {
  readonly from: Seconds;
  readonly to: Seconds;
  readonly patient: Patient;
  /** Hz, of the lead that shows most. */
  readonly samplingRate: number;
  readonly beats: readonly MarkedBeat[];
  readonly shapes: ShapeFamilies;
  /** Of each family, beside what P waves lead to elsewhere in the strip. */
  readonly widths: readonly Width[];
  /** Beats that a ventricle did not start, as far as their kinds tell. */
  readonly above: readonly MarkedBeat[];
  /** R to R, s. */
  readonly intervals: readonly number[];
  /** 60 / median interval, beats/min; NaN under two beats. */
  readonly rate: number;
  /** Middle distance of the intervals from their middle one, and from the one before, as fractions. */
  readonly unevenness: number;
  readonly beatToBeat: number;
  readonly atrial: AtrialEvidence;
  /** The trace where a P would stand at the species' usual PR, whether or not one was marked. */
  readonly beforeQrs: Pick<AtrialEvidence, 'coherence' | 'coherentShare' | 'height' | 'noise'>;
  /** The same before the beginning of each QRS, whoever began it: where QRS is wide that is far before R. */
  readonly beforeOnset: () => Pick<AtrialEvidence, 'coherence' | 'height'>;
  readonly clock: AtrialClock;
  /** Share of a P that stands halfway between those of the clock, which may be every second one (`halfwayAtria`). */
  readonly halfwayAtria: () => number;
  readonly between: BetweenBeats;
  /** Share of a P that shows halfway where QRS begins or ends, at the least (`shownBesideQrs`). */
  readonly besideQrs: () => number;
  /** The same as `between.hiddenP`, told by what keeps the time of the atria (`clockedP`). */
  readonly clockedP: () => ClockedP;
  /** The same, told cycle by cycle of a P that keeps no time (`looseP`). */
  readonly looseP: () => number;
  /** Of the P of the sinus beats, s, and the line at rest before it (`beginningOfP`). */
  readonly riseOfP: number;
  readonly restBeforeP: number;
  /** Share of the P waves that point up, where the first lead is lead II; NaN elsewhere. */
  readonly uprightP: number;
  /** How far unmarked bends between beats stand out, 3 for noise, and what noise hides there; null where it cannot be seen. */
  readonly unmarkedAtria: () => BendsBetween | null;
  /** P waves too early for the ventricles to follow (`blockedEarlyP`). */
  readonly blockedEarlyP: () => BlockedEarlyP;
  /** Whether a wave as short as a P stands between QRS and T (`isPAfterQrs`). */
  readonly pAfterQrs: () => boolean;
  /** Height of the T wave that follows the beats on average, mV (`averageRecovery`). */
  readonly recovery: () => number;
  /** Whether a wave as short as a P stands before the QRS of all beats, marked or not (`isWaveBeforeQrs`). */
  readonly waveBeforeQrs: () => boolean;
  /** Places of beats that may be T or P waves counted as beats (`countedTwice`, `pAsBeats`, `beatsInStepWithP`, `beatsWithoutQrs`, `earlyWithoutT`). */
  readonly countedTwice: readonly number[];
  /** Share of the beats with a T too late and too tall to be one (`lateTallT`). */
  readonly lateTallT: number;
  /** The same stretch without those, where they are strays (`areStrays`); null otherwise. */
  readonly withoutStrays: () => Evidence | null;
  readonly conduction: ConductionEvidence;
  /** Null for less than 2 s. Worked out when it is first asked for. */
  readonly activity: () => Activity | null;
  readonly breath: BreathVerdict;
  /** What other channels say of the pulse, and each of them with its time. */
  readonly pulse: PulseVerdict;
  readonly pulseBecause: readonly Reason[];
}

/** Middle of the usual P before R, s: within the PR ranges of dog and cat. From memory, unverified. */
const USUAL_P: Record<Patient['species'], number> = {
  dog: 0.095,
  cat: 0.07,
  rabbit: 0.05,
  ferret: 0.05,
};

/** And before QRS begins, s. From memory, unverified. */
const BEFORE_ONSET: Record<Patient['species'], number> = {
  dog: 0.06,
  cat: 0.05,
  rabbit: 0.035,
  ferret: 0.035,
};

/** What rhythms are told by, for the stretch of a strip from one second to another. */
export function evidenceOf(strip: Strip, from: number, to: number): Evidence {
  const inside = stretchOf(strip.beats, ({ time }) => time, from, to);
  const loneP = stretchOf(strip.loneP, ({ peak }) => peak, from, to);
  const isWhole = inside.length === strip.beats.length && loneP.length === strip.loneP.length;
  const shapes = (isWhole && strip.shapes) || shapeFamilies(strip.leads, inside);
  const beats =
    (isWhole && strip.shapes && strip.marked) ||
    withFusion(kindsOf(inside, shapes, loneP, strip.patient, strip.own), strip.marked);
  const seen = seenP(loneP, beats, strip.leads, strip.quiet);
  const above = beats.filter(isFromAbove);
  const intervals = differences(beats.map(timeOf));
  const twice = [
    ...new Set([
      ...countedTwice(beats, shapes, strip.patient),
      ...pAsBeats(beats, shapes, strip.leads),
      ...beatsInStepWithP(beats, shapes),
      ...beatsWithoutQrs(beats, shapes),
      ...earlyWithoutT(beats),
    ]),
  ].sort((a, b) => a - b);
  // The P of an early beat looks otherwise, by definition.
  const onTime = withoutJolted(
    above.filter(isOnTime),
    strip.quiet,
    2 * EQUAL_PR[strip.patient.species],
  );
  const clock = atrialClock(beats, seen.confirmed);
  const beginning = beginningOfP(onTime, strip.leads);
  let known: Activity | null | undefined;
  let clocked: ClockedP | undefined;
  let loose: number | undefined;
  let early: BlockedEarlyP | undefined;
  return {
    activity: () => {
      if (known === undefined) known = activity(strip.leads, from, to);
      return known;
    },
    unmarkedAtria: () => standsOutBetweenBeats(beats, strip.quiet),
    from: seconds(from),
    to: seconds(to),
    patient: strip.patient,
    beats,
    shapes,
    widths: widthsOf(beats, shapes, strip.patient, strip.own),
    above,
    intervals,
    rate: 60 / median(intervals),
    unevenness: unevenness(intervals),
    beatToBeat: beatToBeatChange(intervals),
    atrial: atrialEvidence(onTime, strip.quiet, strip.patient),
    beforeQrs: coherenceOf(strip.quiet, placesBeforeQrs(above, USUAL_P[strip.patient.species])),
    beforeOnset: () =>
      coherenceOf(strip.quiet, placesBeforeOnset(beats, BEFORE_ONSET[strip.patient.species])),
    clock,
    clockedP: () => {
      clocked ??= clockedP(beats, strip.leads);
      return clocked;
    },
    looseP: () => {
      loose ??= looseP(beats, strip.leads);
      return loose;
    },
    besideQrs: () => shownBesideQrs(above, strip.leads),
    halfwayAtria: () => halfwayAtria(clock, beats, strip.quiet),
    blockedEarlyP: () => {
      early ??= blockedEarlyP(beats, strip.quiet);
      return early;
    },
    pAfterQrs: () => isPAfterQrs(above, strip.quiet),
    samplingRate: Math.max(0, ...strip.leads.map(({ samplingRate }) => samplingRate)),
    recovery: () => averageRecovery(beats, strip.quiet),
    waveBeforeQrs: () => isWaveBeforeQrs(beats, strip.quiet),
    countedTwice: twice,
    lateTallT: lateTallT(beats, strip.patient),
    withoutStrays: () => {
      if (twice.length === 0 || !areStrays(twice, beats)) return null;
      const kept = inside.filter((_, i) => !twice.includes(i));
      const { shapes: _, marked: __, ...rest } = strip;
      return evidenceOf({ ...rest, beats: kept, loneP }, from, to);
    },
    riseOfP: beginning.rise,
    restBeforeP: beginning.rest,
    uprightP: isLeadII(strip.leads[0]) ? share(onTime.flatMap(heightOfP), isUp) : Number.NaN,
    between: betweenBeats(beats, strip.leads, strip.quiet, strip.patient),
    conduction: conductionEvidence(beats, seen, strip.quiet, strip.patient),
    breath: strip.breath,
    pulse: pulseOver(strip.pulses, from, to),
    pulseBecause: pulsesIn(strip.pulses, from, to).flatMap(({ because }) => because),
  };
}

/**
 * Of wide beats on time in a part of a strip, those that all of its beats show to be fusion beats are so: a part may hold
 * too few to see that they change, or what they lie between.
 */
function withFusion(
  part: readonly MarkedBeat[],
  whole: readonly MarkedBeat[] | undefined,
): readonly MarkedBeat[] {
  if (!whole || !part.some(isAberrant)) return part;
  const fused = new Map(
    whole.flatMap((beat) => (beat.kind === 'fusion' ? [[beat.time, beat]] : [])),
  );
  return part.map((beat) => (isAberrant(beat) ? (fused.get(beat.time) ?? beat) : beat));
}

const isAberrant = ({ kind }: MarkedBeat): boolean => kind === 'aberrant';

const timeOf = ({ time }: MarkedBeat): number => time;

const heightOfP = ({ p }: MarkedBeat): number[] =>
  p && Number.isFinite(p.height) ? [p.height] : [];
const isUp = (height: number): boolean => height > 0;

const isOnTime = ({ kind }: MarkedBeat): boolean => kind !== 'supraventricular premature';

/** Whether no ventricle started the beat, as far as its kind tells. */
export const isFromAbove = ({ kind }: MarkedBeat): boolean =>
  kind !== 'ventricular' &&
  kind !== 'ventricular premature' &&
  kind !== 'ventricular escape' &&
  kind !== 'fusion';
