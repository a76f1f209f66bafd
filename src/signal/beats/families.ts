import type { Seconds } from '../../units/brands.js';
import { seconds } from '../../units/brands.js';
import { average, excerpt, isWhole } from '../filter/excerpt.js';
import { correlation, share } from '../filter/spread.js';
import type { BeatWaves } from '../marked-beat.js';
import type { Channel } from '../waveform.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** Beats whose QRS looks the same in all leads. */
export interface ShapeFamily {
  /** Positions of the beats in the list that was given, ascending. */
  readonly members: readonly number[];
  /** Of the averaged QRS; null where noise is too high to see where it begins and ends. */
  readonly qrsDuration: Seconds | null;
  /** Steepest slope of the averaged QRS over all leads, mV/s. */
  readonly steepness: number;
  /** Trough to peak of the averaged QRS in the lead where it is tallest, mV. */
  readonly height: number;
}

export interface ShapeFamilies {
  /** Largest first. */
  readonly families: readonly ShapeFamily[];
  /** Family of each beat as a position in `families`; -1 for a beat whose surroundings are missing. */
  readonly of: readonly number[];
  /**
   * How a beat mixes the two largest families: the share of the second, 0 to 1, where the mixture
   * fits clearly better than either alone, else null.
   */
  readonly mixture: readonly (number | null)[];
}

/** Hz: fine enough for the QRS of a cat (0.04 s). */
const RATE = 600;
/** Shapes are compared this far to either side of R, s: a wide QRS with its surroundings. */
const HALF = 0.06;
/** R may have been placed this far off, s. */
const PLAY = 0.02;
/** The averaged QRS is searched for its ends within this, s. */
const REACH = 0.12;
/**
 * Least correlation of a beat with its family, and of two families that are one. Own choice: noise
 * of 0.4 times the QRS in root mean square lowers the correlation of equal beats to 0.93; narrow and
 * wide beats of one heart stay under 0.8.
 */
const ALIKE = 0.87;
const SAME = 0.94;
/** Less than this share of the family's size is another wave, whatever its form. */
const SIZE = 0.5;

/** One beat's QRS: the leads one after the other, with room to shift. */
interface Shape {
  readonly rows: readonly Float64Array[];
}

interface Growing {
  members: { readonly beat: number; readonly shift: number }[];
  template: Float64Array;
}

const steps = Math.round(PLAY * RATE);
const side = Math.round(HALF * RATE);

/** Sorts beats by the look of their QRS. Leads in mV, beginning at the same instant. */
export function shapeFamilies(
  leads: readonly Channel[],
  beats: readonly Pick<BeatWaves, 'time'>[],
): ShapeFamilies {
  const seen = seenLeads(leads, beats);
  const shapes = beats.map(({ time }) => shapeAt(seen, time));
  const first = grown(shapes, []);
  const second = grown(
    shapes,
    first.filter(({ members }) => members.length > 1),
  );
  const merged = united(second, shapes).sort((a, b) => b.members.length - a.members.length);
  const of: number[] = beats.map(() => -1);
  merged.forEach(({ members }, family) => {
    for (const { beat } of members) of[beat] = family;
  });
  return {
    families: merged.map((family) => measured(family, seen, beats)),
    of,
    mixture: shapes.map((shape, i) => mixtureOf(shape, of[i]!, merged)),
  };
}

/** A lead that misses more beats than this share is left out of the comparison. Own choice. */
const SEEN = 0.7;

/** The leads that show most beats; the one that shows most of them where none does. */
function seenLeads(
  leads: readonly Channel[],
  beats: readonly Pick<BeatWaves, 'time'>[],
): readonly Channel[] {
  const shown = leads.map((lead) => ({
    lead,
    part: share(beats, ({ time }) => shapeAt([lead], time) !== null),
  }));
  const good = shown.filter(({ part }) => part >= SEEN);
  const best = [...shown].sort((a, b) => b.part - a.part).slice(0, 1);
  return (good.length > 0 ? good : best).map(({ lead }) => lead);
}

function shapeAt(leads: readonly Channel[], time: number): Shape | null {
  const reach = (side + steps) / RATE;
  const rows = leads.map((lead) => excerpt(lead, time - reach, time + reach, RATE)).filter(isWhole);
  return rows.length === leads.length && rows.length > 0 ? { rows } : null;
}

/** The 0.12 s around R of all leads, each less its mean, moved by `shift` steps. */
function cut({ rows }: Shape, shift: number): Float64Array {
  const length = 2 * side + 1;
  const out = new Float64Array(length * rows.length);
  rows.forEach((row, lead) => {
    const part = row.subarray(steps + shift, steps + shift + length);
    const middle = part.reduce((sum, value) => sum + value, 0) / length;
    for (let i = 0; i < length; i += 1) out[lead * length + i] = part[i]! - middle;
  });
  return out;
}

function size(values: Float64Array): number {
  return Math.sqrt(values.reduce((sum, value) => sum + value * value, 0));
}

/** Correlation of a beat, moved by `shift` steps, with a template; -1 where their sizes differ too much. */
function alikeAt({ rows }: Shape, template: Float64Array, power: number, shift: number): number {
  const length = 2 * side + 1;
  let cross = 0;
  let own = 0;
  rows.forEach((row, lead) => {
    const from = steps + shift;
    let sum = 0;
    let squares = 0;
    for (let i = 0; i < length; i += 1) {
      const value = row[from + i]!;
      sum += value;
      squares += value * value;
      // The template has mean 0 in each lead, so the beat's own mean need not be taken off here.
      cross += value * template[lead * length + i]!;
    }
    own += squares - (sum * sum) / length;
  });
  const ratio = own / power;
  if (!(ratio > SIZE * SIZE && ratio < 1 / (SIZE * SIZE))) return -1;
  return cross / Math.sqrt(own * power);
}

/** Coarse steps first, then the steps between around the best. */
const COARSE = 3;

function bestFit(shape: Shape, template: Float64Array): { alike: number; shift: number } {
  const power = dot(template, template);
  let best = { alike: -1, shift: 0 };
  const tryAt = (shift: number): void => {
    if (Math.abs(shift) > steps) return;
    const alike = alikeAt(shape, template, power, shift);
    if (alike > best.alike) best = { alike, shift };
  };
  for (let shift = -steps; shift <= steps; shift += COARSE) tryAt(shift);
  const { shift } = best;
  for (let by = 1; by < COARSE; by += 1) {
    tryAt(shift - by);
    tryAt(shift + by);
  }
  return best;
}

/** Each beat joins the family it is most like, or founds one. `seeds` lend their templates. */
function grown(shapes: readonly (Shape | null)[], seeds: readonly Growing[]): Growing[] {
  const families: Growing[] = seeds.map(({ template }) => ({ members: [], template }));
  shapes.forEach((shape, beat) => {
    if (!shape) return;
    let best = { alike: -1, shift: 0, family: null as Growing | null };
    for (const family of known(families)) {
      const fit = bestFit(shape, family.template);
      if (fit.alike > best.alike) best = { ...fit, family };
    }
    if (best.family && best.alike >= ALIKE) {
      const { members } = best.family;
      members.push({ beat, shift: best.shift });
      // Seeds stay as they are; a family that founds itself learns from its members.
      const isSeed = families.indexOf(best.family) < seeds.length;
      if (!isSeed) {
        const part = cut(shape, best.shift);
        const weight = 1 / members.length;
        best.family.template = best.family.template.map(
          (value, i) => value + (part[i]! - value) * weight,
        );
      }
    } else {
      families.push({ members: [{ beat, shift: 0 }], template: cut(shape, 0) });
    }
  });
  return families.filter(({ members }) => members.length > 0);
}

/** More single shapes than this are noise; only the latest of them are compared. Own choice. */
const MOST = 16;

function known(families: readonly Growing[]): readonly Growing[] {
  const isGrown = ({ members }: Growing): boolean => members.length !== 1;
  return families.length <= MOST
    ? families
    : [...families.filter(isGrown), ...families.filter((f) => !isGrown(f)).slice(-MOST)];
}

/** Families whose averages look the same are one. */
function united(families: readonly Growing[], shapes: readonly (Shape | null)[]): Growing[] {
  const out: Growing[] = [];
  const bySize = [...families].sort((a, b) => b.members.length - a.members.length);
  for (const family of bySize) {
    const twin = out.find(({ template }) => {
      const ratio = size(template) / size(family.template);
      return ratio > SIZE && ratio < 1 / SIZE && correlation(template, family.template) >= SAME;
    });
    if (twin) twin.members.push(...family.members);
    else out.push({ members: [...family.members], template: family.template });
  }
  for (const family of out) {
    family.members.sort((a, b) => a.beat - b.beat);
    family.template = average(family.members.map(({ beat, shift }) => cut(shapes[beat]!, shift)));
  }
  return out;
}

/**
 * Least squares of a beat by the two largest families. A fusion beat is explained by both where
 * neither explains it alone.
 */
function mixtureOf(shape: Shape | null, family: number, all: readonly Growing[]): number | null {
  const [one, two] = all;
  if (!shape || family < 2 || !one || !two || two.members.length < 2) return null;
  let best = { fit: 0, share: 0 };
  for (let shift = -steps; shift <= steps; shift += 1) {
    const part = cut(shape, shift);
    const aa = dot(one.template, one.template);
    const bb = dot(two.template, two.template);
    const ab = dot(one.template, two.template);
    const a = dot(part, one.template);
    const b = dot(part, two.template);
    const det = aa * bb - ab * ab;
    if (det <= 1e-6 * aa * bb) continue;
    const x = (a * bb - b * ab) / det;
    const y = (b * aa - a * ab) / det;
    if (x <= 0 || y <= 0) continue;
    const fit = Math.sqrt(Math.max(0, x * a + y * b) / dot(part, part));
    if (fit > best.fit) best = { fit, share: y / (x + y) };
  }
  // Both parts must count, and the mixture must fit as well as a family member would.
  return best.fit >= ALIKE + 0.05 && best.share > 0.2 && best.share < 0.8 ? best.share : null;
}

function dot(a: Float64Array, b: Float64Array): number {
  return a.reduce((sum, value, i) => sum + value * b[i]!, 0);
}

/** A QRS begins and ends where its slope has been under this share of its steepest for `REST` s. */
const EDGE = 0.1;
const REST = 0.012;
/** Slopes of remaining noise (3 standard deviations) over this share of the steepest hide the ends. */
const HIDDEN = 0.2;

function measured(
  { members }: Growing,
  leads: readonly Channel[],
  beats: readonly Pick<BeatWaves, 'time'>[],
): ShapeFamily {
  const side = Math.round(REACH * RATE);
  const rowsOf = (lead: Channel): Float64Array[] =>
    members
      .map(({ beat, shift }) => {
        const centre = beats[beat]!.time + shift / RATE;
        return excerpt(lead, centre - side / RATE, centre + side / RATE, RATE);
      })
      .filter(isWhole);
  const slope = new Float64Array(2 * side + 1);
  let noise = 0;
  let height = 0;
  for (const lead of leads) {
    const rows = rowsOf(lead);
    if (rows.length === 0) continue;
    const slopes = rows.map(slopeOf);
    const usual = average(slopes);
    const whole = average(rows).subarray(
      side - Math.round(HALF * RATE),
      side + Math.round(HALF * RATE),
    );
    height = Math.max(height, Math.max(...whole) - Math.min(...whole));
    usual.forEach((value, i) => {
      slope[i]! += value * value;
    });
    // Away from the QRS, so that a beat placed a sample off does not count as noise.
    for (const row of slopes) {
      for (let i = 0; i < row.length; i += 1) {
        if (Math.abs(i - side) < 0.06 * RATE) continue;
        noise += (row[i]! - usual[i]!) ** 2 / (row.length - 0.12 * RATE) / rows.length ** 2;
      }
    }
  }
  const steep = slope.map(Math.sqrt);
  const most = Math.max(
    0,
    ...steep.subarray(side - Math.round(HALF * RATE), side + Math.round(HALF * RATE)),
  );
  // A single beat gives no measure of its own noise.
  const hum = members.length > 1 ? 3 * Math.sqrt(noise) : 0;
  const edge = Math.max(EDGE * most, hum);
  const ends =
    most > 0 && hum <= HIDDEN * most ? [1, -1].map((way) => quietFrom(steep, side, way, edge)) : [];
  const width = ends.length === 2 ? ends[0]! + ends[1]! : Number.NaN;
  return {
    members: members.map(({ beat }) => beat),
    qrsDuration: Number.isNaN(width) ? null : seconds(width / RATE),
    steepness: most,
    height,
  };
}

/** mV/s, over two steps. */
function slopeOf(row: Float64Array): Float64Array {
  return row.map((_, i) => (((row[i + 1] ?? row[i]!) - (row[i - 1] ?? row[i]!)) * RATE) / 2);
}

/** Steps from the middle, going one way, to where the slope first rests; NaN if nowhere. */
function quietFrom(steep: Float64Array, middle: number, way: number, edge: number): number {
  const rest = Math.round(REST * RATE);
  for (let from = 1; from < middle; from += 1) {
    let quiet = 0;
    while (quiet < rest && from + quiet <= middle && steep[middle + way * (from + quiet)]! < edge) {
      quiet += 1;
    }
    if (quiet === rest) return from;
  }
  return Number.NaN;
}
