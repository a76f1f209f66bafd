import type { Drawing, Mark } from '../drawing.js';
import { inks } from '../inks.js';
import { text } from '../lettering.js';
import { trace, waveOf } from './beat.js';
import { accent, LETTER, lettered, line, pen, WIDTH } from './pointed.js';

/** What the two rows of marks count. */
export interface CountedTwiceWords {
  /** Above: what a device counts that takes T for a beat. */
  readonly shown: string;
  /** Below: the beats. */
  readonly true: string;
}

const HEIGHT = 44;
const frame = { left: 3, right: WIDTH - 3, baseline: 29, speed: 33, gain: 9.5 } as const;
/** R peaks, s from the left edge. */
const PEAKS = [0.3, 0.93, 1.56, 2.19] as const;
/** mV: nearly as tall as R. */
const TALL_T = 1.15;

/** A strip with tall T: two marks a beat above it, one below. */
export function countedTwice(words: CountedTwiceWords): Drawing {
  const x = (time: number) => frame.left + time * frame.speed;
  const t = waveOf('t').at;
  const twice = PEAKS.flatMap((peak) => [peak, peak + t]);
  return {
    width: WIDTH,
    height: HEIGHT,
    marks: [
      ...lettered([frame.left, 4], words.shown, { room: WIDTH - 6, bold: true }),
      ...counted(twice.map(x), 11.5, inks.ink, -1),
      line(trace(frame, PEAKS, TALL_T), { ...pen, width: 0.5 }),
      ...counted(PEAKS.map(x), 34, inks.accent, 1),
      ...lettered([frame.left, 42.6], words.true, { room: WIDTH - 6, bold: true }),
    ],
  };
}

/** Numbered ticks, the numbers above (-1) or below (1) them. */
function counted(places: readonly number[], y: number, colour: string, side: 1 | -1): Mark[] {
  return places.flatMap((x, i): Mark[] => [
    line(
      [
        [x, y - 1],
        [x, y + 1],
      ],
      { ...accent, colour, width: 0.7 },
    ),
    text([x, side < 0 ? y - 1.8 : y + 1.6 + LETTER * 0.72], String(i + 1), {
      size: LETTER,
      align: 'middle',
      colour,
    }),
  ]);
}
