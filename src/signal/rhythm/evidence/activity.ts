import { excerpt, level } from '../../filter/excerpt.js';
import { median } from '../../filter/spread.js';
import type { Channel } from '../../waveform.js';

// Frequencies and sizes of fibrillation are from memory, unverified; the rest of the constants of this file are choices of the method: not clinical numbers.

/** What a stretch of trace does as a whole, whether or not it has beats. Middle of its 2 s windows. */
export interface Activity {
  /** Root mean square between 1.5 and 40 Hz, mV, in the liveliest lead. */
  readonly strength: number;
  /** Share of the power between 1.5 and 40 Hz that lies between 2.5 and 10 Hz. */
  readonly concentration: number;
  /** Fourth moment over the squared second: 3 for restless waves, high where QRS stand out. */
  readonly peakedness: number;
  /** Highest correlation of the trace with itself 0.15 to 1 s later: near 1 where beats repeat. */
  readonly repeats: number;
}

const RATE = 100;
const WINDOW = 2;

/** Null for less than one window, or where samples are missing throughout. */
export function activity(leads: readonly Channel[], from: number, to: number): Activity | null {
  const perLead = leads.flatMap((lead) => {
    const windows = windowsOf(lead, from, to).flatMap(({ of }) => (of ? [of] : []));
    if (windows.length === 0) return [];
    const middle = (of: (window: Activity) => number): number => median(windows.map(of));
    return [
      {
        strength: middle((w) => w.strength),
        concentration: middle((w) => w.concentration),
        peakedness: middle((w) => w.peakedness),
        repeats: middle((w) => w.repeats),
      },
    ];
  });
  return perLead.sort((a, b) => b.strength - a.strength)[0] ?? null;
}

/** Each 2 s, half overlapping; null where samples are missing. */
function windowsOf(
  lead: Channel,
  from: number,
  to: number,
): { from: number; of: Activity | null }[] {
  const out: { from: number; of: Activity | null }[] = [];
  for (let start = from; start + WINDOW <= to + 1e-9; start += WINDOW / 2) {
    const row = excerpt(lead, start, start + WINDOW, RATE).subarray(0, LENGTH);
    const isWhole = row.every((value) => !Number.isNaN(value));
    out.push({ from: start, of: isWhole ? windowActivity(row) : null });
  }
  return out;
}

/**
 * Restless without pattern. Own choices, wide of both sides: fibrillation moves at 3 to 10 Hz (from
 * memory, unverified), so most of its power lies there; a restless wave has a peakedness near 3 (a
 * trace with QRS over 6, wide and fast ones near 4 but they repeat); under 0.05 mV it cannot be told
 * from an idle line.
 */
export const RESTLESS = {
  strength: 0.05,
  concentration: 0.7,
  peakedness: 4.2,
  repeats: 0.9,
} as const;

export function isRestless({ strength, concentration, peakedness, repeats }: Activity): boolean {
  return (
    strength >= RESTLESS.strength &&
    concentration >= RESTLESS.concentration &&
    peakedness <= RESTLESS.peakedness &&
    repeats <= RESTLESS.repeats
  );
}

/** Stretches of the first lead that shows them in which every window is restless; `least` s and longer. */
export function restlessStretches(
  leads: readonly Channel[],
  from: number,
  to: number,
  least: number,
): { readonly from: number; readonly to: number }[] {
  for (const lead of leads) {
    const out: { from: number; to: number }[] = [];
    for (const window of windowsOf(lead, from, to)) {
      if (!window.of || !isRestless(window.of)) continue;
      const last = out.at(-1);
      if (last && window.from <= last.to) last.to = window.from + WINDOW;
      else out.push({ from: window.from, to: window.from + WINDOW });
    }
    const long = out.filter((stretch) => stretch.to - stretch.from >= least);
    if (long.length > 0) return long;
  }
  return [];
}

function windowActivity(row: Float64Array): Activity {
  const { total, middle } = power(level(row));
  const waves = slowLess(row);
  const second = meanOf(waves, (x) => x * x);
  return {
    strength: Math.sqrt(total),
    concentration: total > 0 ? middle / total : 0,
    peakedness: second > 0 ? meanOf(waves, (x) => x ** 4) / second ** 2 : 0,
    repeats: repetition(waves),
  };
}

const LENGTH = WINDOW * RATE;
/** Lines of the spectrum, Hz: half a cycle apart. */
const LINES = Array.from({ length: 78 }, (_, k) => 1.5 + k / WINDOW);
/** Hann window: without it the edges smear slow wander over all frequencies. */
const HANN = Float64Array.from(
  { length: LENGTH },
  (_, i) => 0.5 - 0.5 * Math.cos((2 * Math.PI * i) / (LENGTH - 1)),
);
const WAVES = LINES.map((frequency) => {
  const angles = Array.from({ length: LENGTH }, (_, i) => (2 * Math.PI * frequency * i) / RATE);
  return { frequency, cos: angles.map(Math.cos), sin: angles.map(Math.sin) };
});

/** mV squared between 1.5 and 40 Hz, and the part of it between 2.5 and 10 Hz. */
function power(row: Float64Array): { total: number; middle: number } {
  let total = 0;
  let middle = 0;
  for (const { frequency, cos, sin } of WAVES) {
    let re = 0;
    let im = 0;
    for (let i = 0; i < LENGTH; i += 1) {
      const x = row[i]! * HANN[i]!;
      re += x * cos[i]!;
      im += x * sin[i]!;
    }
    // The window keeps 3/8 of the power.
    const line = (2 * (re * re + im * im)) / (LENGTH * LENGTH * 0.375);
    total += line;
    if (frequency >= 2.5 && frequency <= 10) middle += line;
  }
  return { total, middle };
}

/** Less the mean of the half second around. */
function slowLess(row: Float64Array): Float64Array {
  const side = Math.round(RATE / 4);
  return row.map((value, i) => {
    let sum = 0;
    let count = 0;
    for (let k = Math.max(0, i - side); k <= Math.min(row.length - 1, i + side); k += 1) {
      sum += row[k]!;
      count += 1;
    }
    return value - sum / count;
  });
}

function repetition(row: Float64Array): number {
  let most = 0;
  for (let lag = Math.round(0.15 * RATE); lag <= RATE; lag += 1) {
    let cross = 0;
    let one = 0;
    let two = 0;
    for (let i = 0; i + lag < row.length; i += 1) {
      cross += row[i]! * row[i + lag]!;
      one += row[i]! ** 2;
      two += row[i + lag]! ** 2;
    }
    if (one * two > 0) most = Math.max(most, cross / Math.sqrt(one * two));
  }
  return most;
}

function meanOf(row: Float64Array, of: (x: number) => number): number {
  return row.reduce((sum, x) => sum + of(x), 0) / row.length;
}
