/** Onset, peak and end of one wave, in seconds from the first sample. */
interface Wave {
  readonly onset: number;
  readonly peak: number;
  readonly end: number;
}

/** A beat that was counted, at its QRS, in seconds from the first sample; with waves where they were found. */
export interface StripBeat {
  readonly time: number;
  readonly p?: Wave | null;
  readonly qrs?: Wave | null;
  readonly t?: Wave | null;
}

/** A stretch in which nothing may be claimed, in seconds from the first sample. */
interface UnreadableSpan {
  readonly from: number;
  readonly to: number;
  readonly why: string;
}

/** A strip and what is drawn on it. */
export interface EcgStrip {
  /** mV; NaN where the file holds no valid sample. */
  readonly samples: Float64Array;
  /** Hz. */
  readonly samplingRate: number;
  /** The stretch to draw, in seconds from the first sample. */
  readonly from: number;
  readonly to: number;
  readonly beats: readonly StripBeat[];
  readonly unreadable: readonly UnreadableSpan[];
  /** As the file names it. */
  readonly lead: string;
  /** mm/s. */
  readonly paperSpeed: 25 | 50;
  /** Room for the drawing, in mm. */
  readonly width: number;
  readonly decimalMark: '.' | ',';
}

/** mm per mV. */
export const gain = 10;
/** The pulse stands here, left of the trace, on the same paper. */
export const gutter = 10;
/** One row of paper: `left`, `top` and `across` in mm, `from` and `to` in s, `low` and `high` in mV. */
export interface Row {
  readonly strip: EcgStrip;
  readonly from: number;
  readonly to: number;
  readonly low: number;
  readonly high: number;
  readonly left: number;
  readonly top: number;
  readonly across: number;
}

/** Where a second of the strip stands on its row, mm from the left of the drawing. */
export const xOf = (row: Row, time: number) =>
  row.left + gutter + (time - row.from) * row.strip.paperSpeed;
/** Where a voltage in mV stands on its row, mm from the top of the drawing. */
export const yOf = (row: Row, value: number) => row.top + (row.high - value) * gain;
