import type { Seconds } from '../../units/brands.js';
import { correlation } from '../filter/spread.js';
import type { BeatWaves } from '../marked-beat.js';
import type { Channel } from '../waveform.js';
import { measured } from './family-measures.js';
import { type OffShape, offShapes } from './off-shapes.js';
import { dot, QrsShapes, SHAPE_RATE, SIZE } from './qrs-shapes.js';
import { undisturbed } from './undisturbed.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** Beats whose QRS looks the same in all leads. */
export interface ShapeFamily {
  /** Positions of the beats in the list that was given, ascending. */
  readonly members: readonly number[];
  /** Of the averaged QRS; null where noise is too high to see where it begins and ends. */
  readonly qrsDuration: Seconds | null;
  /**
   * How long its main deflection lasts, which the QRS is no shorter than, where T follows at once and hides its end; null
   * where that cannot be seen.
   */
  readonly qrsAtLeast: Seconds | null;
  /** Steepest slope of the averaged QRS over all leads, mV/s. */
  readonly steepness: number;
  /** Trough to peak of the averaged QRS in the lead where it is tallest, mV. */
  readonly height: number;
}

/** The beats of a strip sorted by the shape of their QRS. */
export interface ShapeFamilies {
  /** Largest first. */
  readonly families: readonly ShapeFamily[];
  /** Family of each beat as a position in `families`; -1 for a beat whose surroundings are missing. */
  readonly of: readonly number[];
  /** How a beat stands to the largest family; null for a member of that. Worked out when it is asked. */
  readonly off: (beat: number) => OffShape | null;
}

/**
 * Least correlation of a beat with its family, and of two families that are one. Own choice: noise
 * of 0.4 times the QRS in root mean square lowers the correlation of equal beats to 0.93; narrow and
 * wide beats of one heart stay under 0.8.
 */
const ALIKE = 0.87;
const SAME = 0.94;

interface Growing {
  members: Member[];
  template: Float64Array;
}

/** A beat, and by how many steps it was moved to fit. */
interface Member {
  readonly beat: number;
  readonly shift: number;
}

/** Sorts beats by the look of their QRS. Leads in mV, beginning at the same instant. */
export function shapeFamilies(
  leads: readonly Channel[],
  beats: readonly Pick<BeatWaves, 'time'>[],
): ShapeFamilies {
  const shapes = new QrsShapes(leads, beats);
  const seen: number[] = [];
  const seenInPart: number[] = [];
  for (let beat = 0; beat < beats.length; beat += 1) {
    const shown = shapes.shows(beat);
    if (shown !== 'none') (shown === 'all' ? seen : seenInPart).push(beat);
  }
  const first = grown(shapes, seen, []);
  const second = grown(
    shapes,
    seen,
    first.filter(({ members }) => members.length > 1),
  );
  addSeenInPart(shapes, seenInPart, second);
  const merged = united(second, shapes).sort((a, b) => b.members.length - a.members.length);
  const of = new Array<number>(beats.length).fill(-1);
  for (let family = 0; family < merged.length; family += 1) {
    for (const { beat } of merged[family]!.members) of[beat] = family;
  }
  return {
    families: merged.map(({ members }) => ({
      members: members.map(placeOf),
      ...measured(centresOf(members, beats), shapes.leads),
    })),
    of,
    off: offShapes(
      of,
      merged,
      shapes,
      undisturbed(shapes.leads, beats, merged[0]?.members.map(({ beat }) => beat) ?? []),
    ),
  };
}

const placeOf = ({ beat }: Member): number => beat;
const byPlace = (a: Member, b: Member): number => a.beat - b.beat;

/** Times (s) at which the members lie over each other. */
function centresOf(
  members: readonly Member[],
  beats: readonly Pick<BeatWaves, 'time'>[],
): number[] {
  const centres: number[] = [];
  for (const { beat, shift } of members) centres.push(beats[beat]!.time + shift / SHAPE_RATE);
  return centres;
}

/** Each beat joins the family it is most like, or founds one. `seeds` lend their templates. */
function grown(shapes: QrsShapes, beats: readonly number[], seeds: readonly Growing[]): Growing[] {
  const families: Growing[] = seeds.map(({ template }) => ({ members: [], template }));
  const fixed = new Set(families);
  const part = shapes.blank();
  for (const beat of beats) sortIn(beat, families, fixed, shapes, part);
  return families.filter(({ members }) => members.length > 0);
}

/** What some leads do not show, as under a burst of noise, joins a family that is known, which learns nothing from it. */
function addSeenInPart(shapes: QrsShapes, beats: readonly number[], families: Growing[]): void {
  const part = shapes.blank();
  for (const beat of beats) sortIn(beat, families, new Set(families), shapes, part);
}

/** `part` is laid out here. */
function sortIn(
  beat: number,
  families: Growing[],
  fixed: ReadonlySet<Growing>,
  shapes: QrsShapes,
  part: Float64Array,
): void {
  let alike = -1;
  let shift = 0;
  let best: Growing | null = null;
  for (const family of known(families)) {
    const fit = shapes.bestFit(beat, family.template);
    if (!(fit.alike > alike)) continue;
    alike = fit.alike;
    shift = fit.shift;
    best = family;
  }
  if (best && alike >= ALIKE) {
    best.members.push({ beat, shift });
    // Seeds stay as they are; a family that founds itself learns from its members.
    if (!fixed.has(best)) learn(best, shapes.cut(beat, shift, part));
  } else {
    families.push({ members: [{ beat, shift: 0 }], template: shapes.cut(beat, 0) });
  }
}

/** The template becomes the mean of all members, the latest among them. */
function learn({ members, template }: Growing, part: Float64Array): void {
  const weight = 1 / members.length;
  for (let i = 0; i < template.length; i += 1) {
    template[i]! += (part[i]! - template[i]!) * weight;
  }
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
function united(families: readonly Growing[], shapes: QrsShapes): Growing[] {
  const out: Growing[] = [];
  const bySize = [...families].sort((a, b) => b.members.length - a.members.length);
  for (const family of bySize) {
    const twin = out.find(({ template }) => {
      const ratio = sizeOf(template) / sizeOf(family.template);
      return ratio > SIZE && ratio < 1 / SIZE && correlation(template, family.template) >= SAME;
    });
    if (twin) for (const member of family.members) twin.members.push(member);
    else out.push({ members: [...family.members], template: family.template });
  }
  for (const family of out) {
    family.members.sort(byPlace);
    family.template = averageOf(family, shapes);
  }
  return out;
}

function averageOf({ members }: Growing, shapes: QrsShapes): Float64Array {
  const whole = members.filter(({ beat }) => shapes.shows(beat) === 'all');
  const averaged = whole.length > 0 ? whole : members;
  const out = shapes.blank();
  const part = shapes.blank();
  for (const { beat, shift } of averaged) add(out, shapes.cut(beat, shift, part));
  for (let i = 0; i < out.length; i += 1) out[i]! /= averaged.length;
  return out;
}

function add(sum: Float64Array, values: Float64Array): void {
  for (let i = 0; i < sum.length; i += 1) sum[i]! += values[i]!;
}

const sizeOf = (values: Float64Array): number => Math.sqrt(dot(values, values));
