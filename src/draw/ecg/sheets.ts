import type { Drawing, Mark } from '../drawing.js';
import { inks } from '../inks.js';
import { text } from '../lettering.js';
import { moved } from '../moved.js';
import { timeLabel } from './marks.js';
import { type EcgPiece, type EcgStrip, ecgStripPieces, scaleOf } from './strip.js';

/** mm. */
const SIZES = { A4: [210, 297], Letter: [215.9, 279.4] } as const;
/** The papers that a strip can be printed on. */
export const PAPERS = Object.keys(SIZES) as readonly Paper[];
/** A4 of ISO 216, or US Letter of ANSI/ASME Y14.1. */
export type Paper = keyof typeof SIZES;

/** Where the running head, the strip and the foot stand, mm from the top and the bottom edge. */
const HEAD = 12;
const STRIP = 14;
const FOOT = 8;
const ABOVE_FOOT = 13;

/** What stands at the head and at the foot of every sheet. */
export interface SheetWords {
  readonly title: string;
  readonly foot: string;
}

/** A strip on whole sheets of paper, as many rows on each as fit, with its stretch and its number. */
export function ecgSheets(strip: EcgStrip, paper: Paper, words: SheetWords): Drawing[] {
  const [width, height] = SIZES[paper];
  const pieces = ecgStripPieces(strip, height - STRIP - ABOVE_FOOT);
  return pieces.map((piece, index) => {
    const left = (width - piece.width) / 2;
    const right = left + piece.width;
    const bottom = height - FOOT;
    const small = { size: 3, colour: inks.soft };
    return {
      width,
      height,
      marks: [
        text([left + 0.5, HEAD], words.title, { size: 3.6, weight: 'bold', colour: inks.ink }),
        text([right - 0.5, HEAD], stretchOf(piece, strip.to), { ...small, align: 'end' }),
        text([width / 2, HEAD], scaleOf(strip), { ...small, align: 'middle' }),
        rule(left + 0.5, right - 0.5, HEAD + 2),
        ...moved(piece.marks, left, STRIP),
        rule(left + 0.5, right - 0.5, bottom - 3.5),
        text([left + 0.5, bottom], words.foot, small),
        text([right - 0.5, bottom], `${index + 1} / ${pieces.length}`, { ...small, align: 'end' }),
      ],
    };
  });
}

/** `0:43 to 1:22` */
function stretchOf({ from, to }: EcgPiece, last: number): string {
  const at = (second: number) => timeLabel(Math.round(second), last);
  return `${at(from)} to ${at(to)}`;
}

const rule = (left: number, right: number, y: number): Mark => ({
  kind: 'line',
  points: [
    [left, y],
    [right, y],
  ],
  stroke: { colour: inks.rule, width: 0.2 },
});
