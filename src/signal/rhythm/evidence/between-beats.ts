import { average, excerpt } from '../../filter/excerpt.js';
import { quantile } from '../../filter/spread.js';
import type { MarkedBeat } from '../../marked-beat.js';
import type { Channel } from '../../waveform.js';

// Lengths of P and QT follow Table 2.4 of Small Animal Internal Medicine, 6th ed.; the constants built on them are choices of the method: not clinical numbers.

/** What the trace shows between beats, beyond the waves that were marked. */
export interface BetweenBeats {
  /**
   * Strongest average wave bent like the P, as a share of the P, halfway or at thirds between the P
   * waves of neighbouring beats: where a P lies that is not followed each second or third time. 0
   * where there is no P to compare with, or where atria would have to go faster than a sinus node.
   *
   * Not seen: atria faster than a sinus node's (over 220 in a dog, 280 in a cat) of which each second
   * wave is followed, where the other one lies in T. Such a stretch passes for a sinus rhythm.
   */
  readonly hiddenP: number;
  /** Tallest deflection in the long pauses, as a share of the usual QRS: a beat that was missed. */
  readonly tallestInPause: number;
  /** The same in the middle one of all intervals: each second beat was missed. */
  readonly usuallyBetween: number;
}

/** Intervals over this share of the short ones are pauses. Own choice, under the 2 of a missed beat. */
const LONG = 1.6;

interface Pair {
  readonly before: MarkedBeat;
  readonly beat: MarkedBeat;
}

/**
 * @param fastest the most that a sinus node is taken to do, beats/min
 * @param qrsHeight trough to peak of the usual QRS in `quiet`, mV
 */
export function betweenBeats(
  beats: readonly MarkedBeat[],
  leads: readonly Channel[],
  quiet: readonly Channel[],
  fastest: number,
): BetweenBeats {
  const pairs = beats
    .slice(1)
    .map((beat, i): Pair => ({ before: beats[i]!, beat }))
    .filter(({ before, beat }) => isFromAbove(before) && isFromAbove(beat));
  const gapOf = ({ before, beat }: Pair): number => beat.time - before.time;
  const short = quantile(pairs.map(gapOf), 0.25);
  const long = pairs.filter((pair) => gapOf(pair) > LONG * short);
  const hidden = (among: readonly Pair[]): number => hiddenP(among, beats, leads, 60 / fastest);
  return {
    hiddenP: Math.max(hidden(pairs), hidden(long)),
    // In one long pause a single beat may have been missed; in all intervals each second one.
    tallestInPause: Math.max(...deflections(long, beats, quiet), 0),
    usuallyBetween: quantile([0, ...deflections(pairs, beats, quiet)], 0.5),
  };
}

const isFromAbove = ({ kind }: MarkedBeat): boolean =>
  kind === 'sinus' || kind === 'unclassified' || kind === 'junctional escape';

/** Hz: fine enough to tell the bend of a P from that of a T. */
const RATE = 500;
/** A P (0.035 to 0.04 s) has lost most of its height this far from its peak, a T has not; s. */
const BEND = 0.012;
/** Atria need not wait exactly alike after a beat; s. */
const PLAY = 0.015;
/** After R, s: nearer than this a QRS would be taken for a P. */
const CLEAR_OF_QRS = 0.07;

function hiddenP(
  pairs: readonly Pair[],
  beats: readonly MarkedBeat[],
  leads: readonly Channel[],
  shortest: number,
): number {
  const own = beats.flatMap(({ p }) => (p ? [p.peak as number] : []));
  if (own.length < 3) return 0;
  const places = [2, 3].flatMap((parts) =>
    Array.from({ length: parts - 1 }, (_, k) =>
      pairs.flatMap(({ before, beat }) => {
        if (!before.p || !beat.p) return [];
        const cycle = (beat.p.peak - before.p.peak) / parts;
        const place = before.p.peak + cycle * (k + 1);
        const isClear = place > before.time + CLEAR_OF_QRS;
        // Faster atria than a sinus node's are looked for only where no T can be taken for their P.
        const mayBeP = cycle >= shortest || (before.t !== null && place > before.t.end);
        return isClear && mayBeP ? [place] : [];
      }),
    ),
  );
  let most = 0;
  for (const lead of leads) {
    const power = bendAt(lead, own);
    if (!(power > 0)) continue;
    // Fewer than four do not average noise away.
    for (const times of places) {
      if (times.length >= 4) most = Math.max(most, bendAt(lead, times) / power);
    }
  }
  return most;
}

/** How sharply the average around given instants is bent, the way that a P is, at best; mV. */
function bendAt(lead: Channel, times: readonly number[]): number {
  const reach = PLAY + BEND;
  const rows = times
    .map((time) => excerpt(lead, time - reach, time + reach, RATE))
    .filter((row) => row.every((value) => !Number.isNaN(value)));
  if (rows.length < 3) return 0;
  const row = average(rows);
  const by = Math.round(BEND * RATE);
  let most = 0;
  for (let i = by; i + by < row.length; i += 1) {
    most = Math.max(most, Math.abs(row[i]! - (row[i - by]! + row[i + by]!) / 2));
  }
  return most;
}

/** Half of the surroundings that a QRS is held against, s, so that wander does not count. */
const AROUND = 0.05;

/** T is over by then in a dog and a cat (QT to 0.25 s) where its end is not marked, s after R. */
const T_OVER = 0.25;

/** For each pair the tallest deflection between T and P, as a share of the usual QRS. */
function deflections(
  pairs: readonly Pair[],
  beats: readonly MarkedBeat[],
  quiet: readonly Channel[],
): number[] {
  const usual = quiet.map((lead) =>
    quantile(
      beats.map(({ time }) => tallest(lead, time - AROUND - 0.02, time + AROUND + 0.02)),
      0.5,
    ),
  );
  return pairs.map(({ before, beat }) => {
    const from = (before.t?.end ?? before.time + T_OVER) + 0.02;
    const to = (beat.p?.onset ?? beat.time - 0.1) - 0.02;
    return Math.max(
      ...quiet.map((lead, i) => (usual[i]! > 0 ? tallest(lead, from, to) / usual[i]! : 0)),
    );
  });
}

/** Farthest that a lead lies from the mean of its values `AROUND` before and after, mV. */
function tallest(lead: Channel, from: number, to: number): number {
  if (to - from < 2 * AROUND) return 0;
  const row = excerpt(lead, from, to, 300);
  const reach = Math.round(AROUND * 300);
  let most = 0;
  for (let i = reach; i + reach < row.length; i += 1) {
    const off = Math.abs(row[i]! - (row[i - reach]! + row[i + reach]!) / 2);
    if (off > most) most = off;
  }
  return most;
}
