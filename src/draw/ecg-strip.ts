import type { Drawing, Mark } from './drawing.js';
import { beyondPaper } from './ecg-beyond.js';
import { beatMarks, calibration, secondTicks, waveLabels } from './ecg-marks.js';
import { paperGrid } from './ecg-paper.js';
import { type EcgStrip, gain, gutter, type Row } from './ecg-row.js';
import { tracePieces } from './ecg-trace.js';
import { hatchedSpan, labelBelow, labelLines, spansIn } from './ecg-unreadable.js';
import { amplitudeWindow } from './ecg-window.js';
import { inks } from './inks.js';
import { text } from './lettering.js';

export type { EcgStrip, StripBeat, UnreadableSpan, Wave } from './ecg-row.js';

/** Seconds of recording that one row of paper shows, for a width in mm and a paper speed in mm/s. */
export function secondsPerRow(width: number, paperSpeed: number): number {
  return (paperAcross(width) - gutter) / paperSpeed;
}

/** Whole boxes that fit into a width, mm. */
const paperAcross = (width: number) => Math.floor((width - 1) / 5) * 5;

/** Rhythm strip on true-scale paper (1 mm fine, 5 mm bold, 10 mm = 1 mV), in as many rows as the width asks for. */
export function ecgStrip(strip: EcgStrip): Drawing {
  const across = paperAcross(strip.width);
  if (across < gutter + 20)
    throw new Error(`an ECG strip needs 31 mm of width, not ${strip.width}`);
  if (!(strip.to > strip.from)) throw new Error('an ECG strip must end after it starts');
  const rowSeconds = secondsPerRow(strip.width, strip.paperSpeed);
  const [low, high] = amplitudeWindow(strip);
  const labelled = strip.beats.some((beat) => beat.p || beat.qrs || beat.t);
  const marks: Mark[] = [...heading(strip, across)];
  let y = 5;
  for (let from = strip.from; strip.to - from > 1e-9; from += rowSeconds) {
    const to = Math.min(strip.to, from + rowSeconds);
    // The last row's paper ends with the recording, on a whole box.
    const paper = gutter + Math.ceil(((to - from) * strip.paperSpeed) / 5 - 1e-6) * 5;
    const row: Row = { strip, from, to, low, high, left: 0.5, top: y + 4.5, across: paper };
    const height = (high - low) * gain;
    const below = row.top + height;
    const spans = spansIn(row);
    marks.push(...paperGrid(row.left, row.top, paper, height));
    marks.push(...spans.flatMap((span) => hatchedSpan(row, span)));
    marks.push(...calibration(row));
    marks.push(...secondTicks(row, below));
    for (const piece of tracePieces(row)) {
      marks.push({ kind: 'line', points: piece, stroke: { colour: inks.ink, width: 0.28 } });
    }
    marks.push(...beyondPaper(row));
    marks.push(...beatMarks(row));
    let foot = below + 4.4;
    if (labelled) {
      marks.push(...waveLabels(row, foot));
      foot += 5.6;
    }
    for (const span of spans) {
      if (labelLines(row, span)) continue;
      marks.push(...labelBelow(row, span, foot));
      foot += 3.6;
    }
    y = foot + 1.2;
  }
  return { width: across + 1, height: y, marks };
}

function heading(strip: EcgStrip, across: number): Mark[] {
  const scale = `${strip.paperSpeed} mm/s · ${gain} mm/mV`;
  return [
    text([0.5, 3.6], strip.lead, { size: 3.6, weight: 'bold', colour: inks.ink }),
    text([across + 0.5, 3.6], scale, { size: 3, align: 'end', colour: inks.soft }),
  ];
}
