import type { Drawing, Mark } from './drawing.js';
import { gutter } from './ecg-row.js';
import { type EcgStrip, ecgStrip } from './ecg-strip.js';
import { inks } from './inks.js';
import { text } from './lettering.js';

/** Room for the heading of a strip, mm. Not a clinical number. */
const NARROWEST = 51;

/** A short piece on ECG paper with a number over each beat, and no wave marked. */
export function numberedBeats(
  strip: Omit<EcgStrip, 'beats' | 'paperSpeed'>,
  beats: readonly number[],
): Drawing {
  const seconds = strip.to - strip.from;
  // As wide as its paper, in whole boxes.
  const across = (speed: number) => 5 * Math.ceil((gutter + seconds * speed) / 5) + 1;
  const paperSpeed = across(50) <= strip.width ? 50 : 25;
  const width = Math.min(strip.width, Math.max(NARROWEST, across(paperSpeed)));
  const paper = ecgStrip({ ...strip, beats: [], paperSpeed, width });
  const numbers = beats.map(
    (time, index): Mark =>
      text([0.5 + gutter + (time - strip.from) * paperSpeed, 8.8], String(index + 1), {
        size: 3.6,
        weight: 'bold',
        align: 'middle',
        colour: inks.ink,
      }),
  );
  return { ...paper, marks: [...paper.marks, ...numbers] };
}
