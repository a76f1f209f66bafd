import type { Drawing, Mark } from '../drawing.js';
import { gutter } from '../ecg/row.js';
import { type EcgStrip, ecgStrip } from '../ecg/strip.js';
import { inks } from '../inks.js';
import { text } from '../lettering.js';

/** Room for the heading of a strip, mm. Not a clinical number. */
const NARROWEST = 51;

/** Where a moment stands on the paper of `numberedBeats`, in mm. */
interface NumberedPaper {
  /** Width of the drawing. */
  readonly width: number;
  /** From the left edge to the first moment. */
  readonly left: number;
  /** mm/s. */
  readonly paperSpeed: 25 | 50;
}

/** The paper for a piece of so many seconds: as wide as its trace, in whole boxes. @param room mm */
export function numberedPaper(seconds: number, room: number): NumberedPaper {
  const across = (speed: number) => 5 * Math.ceil((gutter + seconds * speed) / 5) + 1;
  const paperSpeed = across(50) <= room ? 50 : 25;
  const width = Math.min(room, Math.max(NARROWEST, across(paperSpeed)));
  return { width, left: 0.5 + gutter, paperSpeed };
}

/** A short piece on one row of ECG paper with a number over each beat, and no wave marked. */
export function numberedBeats(
  strip: Omit<EcgStrip, 'beats' | 'paperSpeed'>,
  beats: readonly number[],
): Drawing {
  const { width, left, paperSpeed } = numberedPaper(strip.to - strip.from, strip.width);
  const paper = ecgStrip({ ...strip, beats: [], paperSpeed, width });
  const numbers = beats.map(
    (time, index): Mark =>
      text([left + (time - strip.from) * paperSpeed, 8.8], String(index + 1), {
        size: 3.6,
        weight: 'bold',
        align: 'middle',
        colour: inks.ink,
      }),
  );
  return { ...paper, marks: [...paper.marks, ...numbers] };
}
