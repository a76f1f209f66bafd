import { type Seconds, seconds } from '../../../units/brands.js';
import { stretchOf } from '../../filter/ascending.js';
import { differences, median, mostOf } from '../../filter/spread.js';
import type { BeatWaves, Wave } from '../../marked-beat.js';
import type { Channel } from '../../waveform.js';
import { FARTHEST_P } from '../interval-limits.js';
import type { Strip } from './evidence.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** Stretches of a strip, laid side by side: what they say of a heart that went on beating in between. */
export interface LaidTogether {
  readonly strip: Strip;
  readonly duration: Seconds;
  /** By how much each of them was moved, s. */
  readonly shifts: readonly number[];
  /** Places of the stretches that were laid together among those given. */
  readonly parts: readonly number[];
  /** Places, in the strip laid together, of the first beat of each of them and of the one after its last. */
  readonly beatsOf: readonly (readonly [number, number])[];
}

/** A beat within so many usual intervals of either end of a stretch, or within the longest that is seen, else it does not go on as before. */
const SILENT = 1.5;
/** What is kept of a stretch before its first beat and after its last, as shares of a usual interval: together one. */
const KEPT = { before: 0.4, after: 0.6 };

interface Part {
  readonly from: number;
  readonly to: number;
  readonly beats: readonly BeatWaves[];
}

/**
 * The stretches as one strip without the time between them: the first beat of each follows the last of the
 * one before after the usual interval, so that what is read from beats and from the trace between them can be
 * weighed together. Nothing is said of the time that is left out. A first beat whose P would lie outside is
 * left out, and so is a stretch that holds no beat or a silence at one of its ends. Null where fewer than two are left.
 */
export function laidTogether(
  strip: Strip,
  stretches: readonly { readonly from: number; readonly to: number }[],
): LaidTogether | null {
  const inside = stretches.map(({ from, to }) => ({
    from,
    to,
    beats: withTheirP(
      strip,
      from,
      stretchOf(strip.beats, ({ time }) => time, from, to),
    ),
  }));
  const intervals = inside.flatMap(({ beats }) => differences(beats.map(({ time }) => time)));
  const usual = median(intervals);
  const silence = Math.max(SILENT * usual, mostOf(intervals));
  const kept = [...inside.keys()].filter((k) => !isSilent(inside[k]!, silence));
  if (!(usual > 0) || kept.length < 2) return null;
  const parts = kept.map((k): Part => {
    const { from, to, beats } = inside[k]!;
    const first = beats[0]!.time;
    const last = beats.at(-1)!.time;
    return {
      from: Math.max(from, first - KEPT.before * usual),
      to: Math.min(to, last + KEPT.after * usual),
      beats,
    };
  });
  // Whole samples of the first lead, lest the waves drift against the trace.
  const rate = strip.leads[0]?.samplingRate ?? 1;
  const whole = (time: number): number => Math.round(time * rate) / rate;
  const shifts: number[] = [];
  let end = 0;
  for (const { from, beats } of parts) {
    const at = shifts.length === 0 ? 0 : end + usual - (beats[0]!.time - from);
    const shift = whole(at - from);
    shifts.push(shift);
    end = beats.at(-1)!.time + shift;
  }
  const last = parts.at(-1)!;
  const duration = last.to + shifts.at(-1)!;
  const moved = <T>(cut: (part: Part) => readonly T[], by: (item: T, shift: number) => T): T[] =>
    parts.flatMap((part, k) => cut(part).map((item) => by(item, shifts[k]!)));
  const lay = (lead: Channel): Channel => laidLead(lead, parts, shifts, duration);
  const firsts = parts.map((_, k) =>
    parts.slice(0, k).reduce((sum, { beats }) => sum + beats.length, 0),
  );
  return {
    strip: {
      leads: strip.leads.map(lay),
      quiet: strip.quiet.map(lay),
      beats: moved(({ beats }) => beats, movedBeat),
      loneP: moved(
        ({ from, to }) => stretchOf(strip.loneP, ({ peak }) => peak, from, to),
        movedWave,
      ),
      patient: strip.patient,
      breath: strip.breath,
      pulses: [],
    },
    duration: seconds(duration),
    shifts,
    parts: kept,
    beatsOf: parts.map(({ beats }, k) => [firsts[k]!, firsts[k]! + beats.length]),
  };
}

function withTheirP(strip: Strip, from: number, beats: readonly BeatWaves[]): readonly BeatWaves[] {
  const [first] = beats;
  const isCut = first && !first.p && first.time - from < FARTHEST_P[strip.patient.species];
  return isCut ? beats.slice(1) : beats;
}

function isSilent({ from, to, beats }: Part, silence: number): boolean {
  const first = beats[0];
  const last = beats.at(-1);
  return !first || !last || first.time - from > silence || to - last.time > silence;
}

function laidLead(
  lead: Channel,
  parts: readonly Part[],
  shifts: readonly number[],
  duration: number,
): Channel {
  const { samplingRate, samples } = lead;
  const out = new Float64Array(Math.ceil(duration * samplingRate)).fill(Number.NaN);
  parts.forEach(({ from, to }, k) => {
    const by = Math.round(shifts[k]! * samplingRate);
    const first = Math.max(0, Math.ceil(from * samplingRate));
    const end = Math.min(samples.length, Math.floor(to * samplingRate));
    for (let i = first; i < end; i += 1) {
      if (i + by >= 0 && i + by < out.length) out[i + by] = samples[i]!;
    }
  });
  return { ...lead, samples: out };
}

function movedBeat({ time, p, qrs, t }: BeatWaves, shift: number): BeatWaves {
  return {
    time: seconds(time + shift),
    p: p && movedWave(p, shift),
    qrs: qrs && movedWave(qrs, shift),
    t: t && movedWave(t, shift),
  };
}

function movedWave(wave: Wave, shift: number): Wave {
  return {
    ...wave,
    onset: seconds(wave.onset + shift),
    peak: seconds(wave.peak + shift),
    end: seconds(wave.end + shift),
  };
}
