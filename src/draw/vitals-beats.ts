import type { Drawing, Mark } from './drawing.js';
import { gutter } from './ecg-row.js';
import { type EcgStrip, ecgStrip } from './ecg-strip.js';
import { inks } from './inks.js';
import { text } from './lettering.js';

/** A short piece on ECG paper with a number over each beat, and no wave marked. */
export function numberedBeats(
  strip: Omit<EcgStrip, 'beats' | 'paperSpeed'>,
  beats: readonly number[],
): Drawing {
  const seconds = strip.to - strip.from;
  const fits = (speed: number) => gutter + seconds * speed + 6 <= strip.width;
  const paperSpeed = fits(50) ? 50 : 25;
  const paper = ecgStrip({ ...strip, beats: [], paperSpeed });
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
