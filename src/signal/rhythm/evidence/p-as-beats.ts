import type { ShapeFamilies } from '../../beats/families.js';
import { average, valuesBetween, wholeExcerpts } from '../../filter/excerpt.js';
import { correlation, median } from '../../filter/spread.js';
import type { MarkedBeat } from '../../marked-beat.js';
import type { Channel } from '../../waveform.js';
import { aheadOf, HALF, hasP, usualP } from './usual-p.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** Hz: sixteen points on a P. */
const RATE = 250;
/** Fewer P waves or beats tell nothing. */
const ENOUGH = 3;
/** So much like the P of the other beats, and so many times as high, is one of them. */
const ALIKE = 0.95;
const SIZE = { least: 0.67, most: 1.5 };
/** A beat counts from any point of a flat top; s. */
const OFF = 0.008;

/**
 * Places of beats that are P waves by their look: of the shape and size of those that lead to the other beats, and no P
 * before them. Waves of the same atria look alike, and no QRS looks like them. Where they were counted as beats, a block
 * that does not let them through would pass for early beats of a ventricle.
 */
export function pAsBeats(
  beats: readonly MarkedBeat[],
  shapes: ShapeFamilies,
  leads: readonly Channel[],
): number[] {
  const led = beats.filter(hasP);
  if (led.length < 2 * ENOUGH || led.length === beats.length) return [];
  const groups = shapes.families
    .map(({ members }) => members.filter((i) => !beats[i]!.p))
    .filter((members) => members.length >= ENOUGH);
  if (groups.length === 0) return [];
  const ahead = median(led.map(aheadOf));
  const views = leads.flatMap((lead) => {
    const usual = usualP(lead, led, ahead, RATE);
    return usual ? [{ lead, p: usual.whole, height: heightOf(usual.whole) }] : [];
  });
  const clearest = views.sort((a, b) => b.height - a.height)[0];
  if (!clearest) return [];
  return groups
    .filter((members) =>
      isAlike(
        clearest.lead,
        members.map((i) => beats[i]!.time),
        clearest.p,
      ),
    )
    .flat()
    .sort((a, b) => a - b);
}

function isAlike(lead: Channel, times: readonly number[], p: Float64Array): boolean {
  const steps = Math.round(OFF * RATE);
  const length = valuesBetween(-HALF, HALF, RATE);
  const starts = times.map((time) => time - HALF - steps / RATE);
  const rows = wholeExcerpts(lead, starts, length + 2 * steps, RATE);
  if (rows.length < ENOUGH) return false;
  const mean = average(rows);
  for (let from = 0; from <= 2 * steps; from += 1) {
    const seen = mean.subarray(from, from + length);
    if (correlation(seen, p) < ALIKE) continue;
    const size = heightOf(seen) / heightOf(p);
    if (size >= SIZE.least && size <= SIZE.most) return true;
  }
  return false;
}

/** Of the middle over the mean of both ends. */
const heightOf = (row: Float64Array): number =>
  Math.abs(row[(row.length - 1) / 2]! - (row[0]! + row.at(-1)!) / 2);
