import type { Point } from '../drawing.js';
import { thinned } from '../thinned.js';
import { type Row, xOf, yOf } from './row.js';

/** Columns of 0.1 mm: finer than a printer's dot at 254 dpi, so no deflection is lost. */
const column = 0.1;

/** mm, less than a tenth of the trace's own width: 0.8 ms or 2 µV at 25 mm/s and 10 mm/mV. Not a clinical number. */
const UNSEEN = 0.02;

/**
 * The trace of one row as unbroken polylines in mm, thinned to the lowest and highest sample of each 0.1 mm column,
 * and of these to what the eye can tell. It breaks where there is no sample, in unreadable spans, and where it leaves the paper.
 */
export function tracePieces(row: Row): Point[][] {
  const { samples, samplingRate, unreadable } = row.strip;
  const pieces: Point[][] = [];
  let piece: Point[] = [];
  const close = () => {
    if (piece.length > 1) pieces.push(thinned(piece, UNSEEN));
    piece = [];
  };
  const last = Math.min(samples.length - 1, Math.floor(row.to * samplingRate + 1e-9));
  let i = Math.max(0, Math.ceil(row.from * samplingRate - 1e-9));
  while (i <= last) {
    const gathered = new Gathered();
    const end = Math.floor(xOf(row, i / samplingRate) / column + 1e-6) + 1;
    let broken = false;
    for (; i <= last && xOf(row, i / samplingRate) / column + 1e-6 < end; i++) {
      const time = i / samplingRate;
      const value = samples[i] ?? Number.NaN;
      const hidden = unreadable.some((span) => time >= span.from && time <= span.to);
      if (hidden || !Number.isFinite(value)) {
        broken = true;
        break;
      }
      gathered.add(time, value);
    }
    for (const { time, value } of gathered.extremes()) {
      const held = Math.min(row.high, Math.max(row.low, value));
      piece.push([round(xOf(row, time)), round(yOf(row, held))]);
    }
    if (broken) {
      close();
      i++;
    }
  }
  close();
  return pieces;
}

interface Sample {
  readonly time: number;
  readonly value: number;
}

class Gathered {
  private low: Sample | null = null;
  private high: Sample | null = null;

  add(time: number, value: number): void {
    if (!this.low || value < this.low.value) this.low = { time, value };
    if (!this.high || value > this.high.value) this.high = { time, value };
  }

  /** In order of time, so that the line never runs backwards. */
  extremes(): readonly Sample[] {
    if (!this.low || !this.high) return [];
    if (this.low.time === this.high.time) return [this.low];
    return this.low.time < this.high.time ? [this.low, this.high] : [this.high, this.low];
  }
}

const round = (mm: number) => Math.round(mm * 100) / 100;
