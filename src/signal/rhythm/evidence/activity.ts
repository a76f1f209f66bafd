import { excerptInto, isWhole, level } from '../../filter/excerpt.js';
import { median } from '../../filter/spread.js';
import type { Channel } from '../../waveform.js';

// Frequencies and sizes of fibrillation are from memory, unverified; the rest of the constants of this file are choices of the method: not clinical numbers.

/** What a stretch of trace does as a whole, whether or not it has beats. Middle of its 2 s windows. */
export interface Activity {
  /** Root mean square between 1.5 and 40 Hz, mV, in the liveliest lead. */
  readonly strength: number;
  /** Share of the power between 1.5 and 40 Hz that lies between 2.5 and 10 Hz, and between 2.5 and 14 Hz. */
  readonly concentration: number;
  readonly swiftness: number;
  /** Fourth moment over the squared second: 3 for restless waves, high where QRS stand out. */
  readonly peakedness: number;
  /** Highest correlation of the trace with itself 0.15 to 1 s later: near 1 where beats repeat. */
  readonly repeats: number;
  /** Fourth moment over the squared second of the slope: 3 and less for waves alone, high where a QRS rises among them. */
  readonly strokes: number;
}

const RATE = 100;
const WINDOW = 2;

/**
 * Null for less than one window, or where samples are missing throughout. What is asked of it is worked out when it
 * is asked.
 */
export function activity(leads: readonly Channel[], from: number, to: number): Activity | null {
  const [first, ...others] = leads.flatMap((lead) => StretchActivity.of(lead, from, to) ?? []);
  if (!first) return null;
  return others.reduce((most, next) => (next.strength > most.strength ? next : most), first);
}

/** Where each 2 s begins, half overlapping, s. */
function windowStarts(from: number, to: number): number[] {
  const starts: number[] = [];
  for (let start = from; start + WINDOW <= to + 1e-9; start += WINDOW / 2) starts.push(start);
  return starts;
}

/** The 2 s from `start` on at `RATE`; null where samples are missing. */
function windowAt(lead: Channel, start: number): WindowActivity | null {
  const row = new Float64Array(LENGTH);
  excerptInto(lead, start, RATE, row, 0, LENGTH);
  return isWhole(row) ? new WindowActivity(row) : null;
}

/**
 * Restless without pattern. Own choices, wide of both sides: fibrillation moves at 3 to 10 Hz, in small hearts to 14
 * (from memory, unverified), so most of its power lies there; a restless wave has a peakedness near 3 (a
 * trace with QRS over 6, wide and fast ones near 4 but they repeat); under 0.05 mV it cannot be told
 * from an idle line.
 */
export const RESTLESS = {
  strength: 0.05,
  concentration: 0.7,
  peakedness: 4.2,
  repeats: 0.9,
} as const;

/** Whether a trace without QRS moves as fibrillation does, and not as noise or an idle line. */
export function isRestless(found: Activity): boolean {
  return (
    // Found soonest, and enough to tell a trace with QRS from a restless one.
    found.peakedness <= RESTLESS.peakedness &&
    found.strength >= RESTLESS.strength &&
    shareOfFibrillation(found) >= RESTLESS.concentration &&
    found.repeats <= RESTLESS.repeats
  );
}

/**
 * Whether the waves stand alone, so that power up to 14 Hz is theirs. A small heart, or one that has just begun, fibrillates
 * faster than 10 Hz; elsewhere muscles and the foot of QRS have power there too.
 */
export const areAlone = ({ peakedness, strokes }: Activity): boolean =>
  peakedness <= UNDULATING.peakedness && strokes <= UNDULATING.strokes;

/** Share of the power that lies where fibrillation moves. */
const shareOfFibrillation = (found: Activity): number =>
  areAlone(found) ? found.swiftness : found.concentration;

/**
 * Waves alone, without a QRS and without rest, whether or not they come back: as in torsade de pointes and ventricular
 * flutter. Nearly all of the power lies where those move, and neither a wave nor a stroke stands out more than in noise
 * of that band, so that no beat hides among the waves of a jolt. Own choices, like those of what is restless.
 */
export const UNDULATING = {
  strength: 0.1,
  concentration: 0.86,
  peakedness: 3,
  strokes: 3.5,
} as const;

/** Whether a trace is waves alone. */
export function isUndulating(found: Activity): boolean {
  return (
    found.peakedness <= UNDULATING.peakedness &&
    found.strength >= UNDULATING.strength &&
    found.concentration >= UNDULATING.concentration &&
    found.strokes <= UNDULATING.strokes
  );
}

/** Stretches of the first lead that shows them in which every window is restless, or waves alone; `least` s and longer. */
export function restlessStretches(
  leads: readonly Channel[],
  from: number,
  to: number,
  least: number,
): { readonly from: number; readonly to: number }[] {
  for (const lead of leads) {
    const out: { from: number; to: number }[] = [];
    for (const start of windowStarts(from, to)) addIfRestless(lead, start, out);
    const long = out.filter((stretch) => stretch.to - stretch.from >= least);
    if (long.length > 0) return long;
  }
  return [];
}

function addIfRestless(lead: Channel, start: number, out: { from: number; to: number }[]): void {
  // Nearly every window is told by this alone.
  if (!(peakednessAt(lead, start) <= RESTLESS.peakedness)) return;
  const window = windowAt(lead, start);
  if (!window || !(isRestless(window) || isUndulating(window))) return;
  const last = out.at(-1);
  if (last && start <= last.to) last.to = start + WINDOW;
  else out.push({ from: start, to: start + WINDOW });
}

/** Of the windows of each lead, by their beginnings: a stretch is asked for as a whole after its windows were. */
const peakednesses = new WeakMap<Channel, Map<number, number>>();

/** Of the window from `start` on; NaN where samples are missing. */
function peakednessAt(lead: Channel, start: number): number {
  let ofLead = peakednesses.get(lead);
  if (!ofLead) {
    ofLead = new Map();
    peakednesses.set(lead, ofLead);
  }
  let peakedness = ofLead.get(start);
  if (peakedness === undefined) {
    peakedness = windowAt(lead, start)?.peakedness ?? Number.NaN;
    ofLead.set(start, peakedness);
  }
  return peakedness;
}

/** Of one window. */
class WindowActivity implements Activity {
  #power: Power | undefined;

  constructor(private readonly row: Float64Array) {}

  get strength(): number {
    return Math.sqrt(this.power().total);
  }

  get concentration(): number {
    const { total, middle } = this.power();
    return total > 0 ? middle / total : 0;
  }

  get swiftness(): number {
    const { total, swift } = this.power();
    return total > 0 ? swift / total : 0;
  }

  get peakedness(): number {
    return peakednessOf(slowLess(this.row));
  }

  get repeats(): number {
    return repetition(slowLess(this.row));
  }

  get strokes(): number {
    return peakednessOf(slopeOf(this.row));
  }

  private power(): Power {
    this.#power ??= powerOf(level(this.row));
    return this.#power;
  }
}

/** The middle of the windows of a stretch of one lead. The windows are cut anew each time: a day of them fills memory. */
class StretchActivity implements Activity {
  readonly #middles = new Map<keyof Activity, number>();

  private constructor(
    private readonly lead: Channel,
    private readonly from: number,
    private readonly to: number,
  ) {}

  /** Null where there is no whole window. */
  static of(lead: Channel, from: number, to: number): StretchActivity | null {
    const isSeen = windowStarts(from, to).some((start) => windowAt(lead, start));
    return isSeen ? new StretchActivity(lead, from, to) : null;
  }

  get strength(): number {
    return this.middle('strength');
  }

  get concentration(): number {
    return this.middle('concentration');
  }

  get swiftness(): number {
    return this.middle('swiftness');
  }

  get peakedness(): number {
    return this.middle('peakedness');
  }

  get repeats(): number {
    return this.middle('repeats');
  }

  get strokes(): number {
    return this.middle('strokes');
  }

  private middle(measure: keyof Activity): number {
    const known = this.#middles.get(measure);
    if (known !== undefined) return known;
    const values: number[] = [];
    for (const start of windowStarts(this.from, this.to)) {
      if (measure === 'peakedness') {
        const peakedness = peakednessAt(this.lead, start);
        if (!Number.isNaN(peakedness)) values.push(peakedness);
        continue;
      }
      const window = windowAt(this.lead, start);
      if (window) values.push(window[measure]);
    }
    const middle = median(values);
    this.#middles.set(measure, middle);
    return middle;
  }
}

const LENGTH = WINDOW * RATE;
/** A recording has too many windows for arrays of their own. */
const WAVES = new Float64Array(LENGTH);
/** Hann window: without it the edges smear slow wander over all frequencies. */
const HANN = Float64Array.from(
  { length: LENGTH },
  (_, i) => 0.5 - 0.5 * Math.cos((2 * Math.PI * i) / (LENGTH - 1)),
);
/** Lines of the spectrum, half a cycle apart: 1.5 to 40 Hz as cycles a window. */
const LINES = { from: 1.5 * WINDOW, to: 40 * WINDOW };
const MIDDLE_LINES = { from: 2.5 * WINDOW, to: 10 * WINDOW };
const SWIFT_LINES = { to: 14 * WINDOW };
/** One turn in `LENGTH` steps. */
const COSINE = Float64Array.from({ length: LENGTH }, (_, i) =>
  Math.cos((2 * Math.PI * i) / LENGTH),
);
const SINE = Float64Array.from({ length: LENGTH }, (_, i) => Math.sin((2 * Math.PI * i) / LENGTH));

/** mV squared between 1.5 and 40 Hz, and the parts of it between 2.5 and 10 Hz, and 2.5 and 14 Hz. */
interface Power {
  readonly total: number;
  readonly middle: number;
  readonly swift: number;
}

function powerOf(row: Float64Array): Power {
  // A cosine runs back as it came and a sine turns over: mirrored samples share their factor.
  const half = LENGTH / 2;
  const even = new Float64Array(half + 1);
  const odd = new Float64Array(half + 1);
  even[0] = row[0]! * HANN[0]!;
  even[half] = row[half]! * HANN[half]!;
  for (let i = 1; i < half; i += 1) {
    const one = row[i]! * HANN[i]!;
    const other = row[LENGTH - i]! * HANN[LENGTH - i]!;
    even[i] = one + other;
    odd[i] = one - other;
  }
  let total = 0;
  let middle = 0;
  let swift = 0;
  const two = new Float64Array(2);
  for (let line = LINES.from; line <= LINES.to; line += 2) {
    powerOfTwo(even, odd, line, two);
    for (let k = 0; k < 2 && line + k <= LINES.to; k += 1) {
      total += two[k]!;
      if (line + k < MIDDLE_LINES.from) continue;
      if (line + k <= MIDDLE_LINES.to) middle += two[k]!;
      if (line + k <= SWIFT_LINES.to) swift += two[k]!;
    }
  }
  return { total, middle, swift };
}

/** The power of a line of the spectrum and of the next, whose sums do not wait for each other. */
function powerOfTwo(even: Float64Array, odd: Float64Array, line: number, out: Float64Array): void {
  let re = 0;
  let im = 0;
  let nextRe = 0;
  let nextIm = 0;
  for (let i = 0, step = 0, next = 0; i < even.length; i += 1) {
    re += even[i]! * COSINE[step]!;
    im += odd[i]! * SINE[step]!;
    nextRe += even[i]! * COSINE[next]!;
    nextIm += odd[i]! * SINE[next]!;
    step += line;
    if (step >= LENGTH) step -= LENGTH;
    next += line + 1;
    if (next >= LENGTH) next -= LENGTH;
  }
  // The window keeps 3/8 of the power.
  const scale = LENGTH * LENGTH * 0.375;
  out[0] = (2 * (re * re + im * im)) / scale;
  out[1] = (2 * (nextRe * nextRe + nextIm * nextIm)) / scale;
}

/** Less the mean of the half second around; holds until the next is asked for. */
function slowLess(row: Float64Array): Float64Array {
  const side = Math.round(RATE / 4);
  const { length } = row;
  const out = WAVES;
  let sum = 0;
  for (let end = 0; end < side; end += 1) sum += row[end]!;
  for (let i = 0; i < length; i += 1) {
    const end = i + side + 1;
    const from = i - side;
    if (end <= length) sum += row[end - 1]!;
    if (from > 0) sum -= row[from - 1]!;
    out[i] = row[i]! - sum / (Math.min(end, length) - Math.max(from, 0));
  }
  return out;
}

/** From each sample to the next; holds until waves are asked for again. */
function slopeOf(row: Float64Array): Float64Array {
  const out = WAVES.subarray(1);
  for (let i = 1; i < row.length; i += 1) out[i - 1] = row[i]! - row[i - 1]!;
  return out;
}

function peakednessOf(waves: Float64Array): number {
  let second = 0;
  let fourth = 0;
  for (let i = 0; i < waves.length; i += 1) {
    const square = waves[i]! * waves[i]!;
    second += square;
    fourth += square * square;
  }
  return second > 0 ? (fourth * waves.length) / (second * second) : 0;
}

/** The highest correlation with itself 0.15 to 1 s later. */
function repetition(waves: Float64Array): number {
  const { length } = waves;
  const squares = new Float64Array(length + 1);
  for (let i = 0; i < length; i += 1) squares[i + 1] = squares[i]! + waves[i]! * waves[i]!;
  let most = 0;
  for (let lag = Math.round(0.15 * RATE); lag <= RATE; lag += 1) {
    const shared = length - lag;
    let cross = 0;
    for (let i = 0; i < shared; i += 1) cross += waves[i]! * waves[i + lag]!;
    const size = squares[shared]! * (squares[length]! - squares[lag]!);
    if (size > 0) most = Math.max(most, cross / Math.sqrt(size));
  }
  return most;
}
