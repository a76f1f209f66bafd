import { prOf } from '../../beats/leading-p.js';
import { average, excerptInto, isWhole, level, valuesBetween } from '../../filter/excerpt.js';
import { median } from '../../filter/spread.js';
import type { MarkedBeat } from '../../marked-beat.js';
import type { Channel } from '../../waveform.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** Where a P stands before R, s, and Hz. */
const BEFORE = { from: 0.2, to: 0.035 };
const RATE = 150;
/** Beats with their P that tell what is usual there. */
const ASKED = 48;
const ENOUGH = 6;
/** Of the height of the usual P there, root mean square: a P that is not there leaves half as much. */
const OF_P = 0.6;
/** So many times as much as the beats with their P differ from each other. */
const OVER_USUAL = 4;
/** More of the beats than this share are no few that were jolted. */
const FEW = 0.3;
/**
 * A jolt passes within this, s, from the first of the beats that it hides to the last. What goes on for longer may be a
 * rhythm of its own: it has no P either, and bends the trace as much. (Shorter runs of early beats are parted from the
 * rhythm around them by their time, `foreign-rows.ts`.)
 */
const PASSES = 1.2;

/**
 * The beats less those whose P a jolt of the leads hides: without P, or with one at another distance than `near` (s)
 * from the usual one, where the trace before QRS is bent out of the usual by more than a P that is missing would do.
 * Such a beat tells nothing of the atria, for or against. All of them where these would be more than few; those that
 * follow one another for long stay.
 */
export function withoutJolted(
  beats: readonly MarkedBeat[],
  quiet: readonly Channel[],
  near: number,
): readonly MarkedBeat[] {
  const usualPr = median(beats.map(prOf).filter((pr) => pr !== null));
  const isUsual = (beat: MarkedBeat): boolean => {
    const pr = prOf(beat);
    return pr !== null && Math.abs(pr - usualPr) <= near;
  };
  const others = beats.filter((beat) => !isUsual(beat));
  const usual = beats.filter(isUsual);
  if (others.length === 0 || others.length > FEW * beats.length || usual.length < ENOUGH) {
    return beats;
  }
  const views = quiet.flatMap((lead) => viewOf(lead, usual) ?? []);
  const clearest = views.sort((a, b) => b.height - a.height)[0];
  if (!clearest) return beats;
  const bent = new Set(others.filter((beat) => clearest.isBent(beat)));
  const jolted = apartFromRows(beats, bent);
  return jolted.size === 0 ? beats : beats.filter((beat) => !jolted.has(beat));
}

/** Of some of the beats, those that do not follow one another for longer than a jolt lasts. */
function apartFromRows(
  beats: readonly MarkedBeat[],
  some: ReadonlySet<MarkedBeat>,
): ReadonlySet<MarkedBeat> {
  const apart = new Set<MarkedBeat>();
  let row: MarkedBeat[] = [];
  for (const beat of [...beats, null]) {
    if (beat && some.has(beat)) {
      row.push(beat);
      continue;
    }
    const lasts = row.length > 0 ? row.at(-1)!.time - row[0]!.time : 0;
    if (lasts <= PASSES) for (const each of row) apart.add(each);
    row = [];
  }
  return apart;
}

interface View {
  readonly height: number;
  readonly isBent: (beat: MarkedBeat) => boolean;
}

/** What a lead shows before the usual beats; null where too few of them can be seen. */
function viewOf(lead: Channel, usual: readonly MarkedBeat[]): View | null {
  const each = Math.max(1, Math.floor(usual.length / ASKED));
  const rows = usual.flatMap((beat, i) => (i % each === 0 ? (rowBefore(lead, beat) ?? []) : []));
  if (rows.length < ENOUGH) return null;
  const mean = average(rows);
  const height = Math.max(...mean) - Math.min(...mean);
  const limit = Math.max(
    OVER_USUAL * median(rows.map((row) => distance(row, mean))),
    OF_P * height,
  );
  return {
    height,
    isBent: (beat) => {
      const row = rowBefore(lead, beat);
      return row !== null && distance(row, mean) > limit;
    },
  };
}

/** Less its straight line; null where it cannot be read. */
function rowBefore(lead: Channel, { time }: MarkedBeat): Float64Array | null {
  const row = new Float64Array(valuesBetween(-BEFORE.from, -BEFORE.to, RATE));
  excerptInto(lead, time - BEFORE.from, RATE, row, 0, row.length);
  return isWhole(row) ? level(row) : null;
}

/** Root of the mean squared difference. */
function distance(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i += 1) sum += (a[i]! - b[i]!) ** 2;
  return Math.sqrt(sum / a.length);
}
