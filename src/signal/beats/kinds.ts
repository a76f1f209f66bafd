import { countBefore } from '../filter/ascending.js';
import { differences, median, mode, quantile } from '../filter/spread.js';
import type { BeatKind, BeatWaves, MarkedBeat, Patient, Wave } from '../marked-beat.js';
import { EQUAL_PR, FARTHEST_P } from '../rhythm/interval-limits.js';
import { rateRange } from '../rhythm/rate-ranges.js';
import { isWithoutPattern } from '../rhythm/without-pattern.js';
import type { ShapeFamilies } from './families.js';
import { type OwnQrs, type Width, widthsOf } from './family-widths.js';
import { leadingPrs, shareLed, type Tie, tieOf } from './leading-p.js';
import { EARLY, endsShortOfPairs, pacesOf, usualIntervals } from './usual-intervals.js';

/** Later than this share is an escape, if nothing from above led to it. Common practice. */
const LATE = 1.2;
/**
 * P heights this far apart (share of the usual) are another P, and so many times as far as a quarter of the heights lie from
 * it at most: where the pacemaker wanders, or noise bends each P, no height is another's. Own choice, not a clinical number.
 */
const OTHER_P = { apart: 0.25, asFar: 4 };
/** Intervals that vary less than this let timing alone tell an early beat. Own choice, not a clinical number. */
const REGULAR = 0.1;

/** An early beat comes so many times as early as intervals usually differ, with a P of its own kind and without. Own choice, not a clinical number. */
const STANDS_OUT = { withOtherP: 4, alone: 6 };

interface Scene {
  readonly beats: readonly BeatWaves[];
  readonly shapes: ShapeFamilies;
  readonly patient: Patient;
  readonly widths: readonly Width[];
  /** Share of each family's beats that a P can lead to. */
  readonly led: readonly number[];
  /** The family of the heart's own beats, or -1. */
  readonly own: number;
  /** R to R before each beat as a share of the interval usual around it; NaN for the first. */
  readonly pace: readonly number[];
  /** Of each beat, whether it ends the short one of two intervals that take turns (`endsShortOfPairs`). */
  readonly isSecondOfPair: readonly boolean[];
  /** Usual interval of own beats, s. */
  readonly usual: number;
  readonly isRegular: boolean;
  /** Whether nearly all beats have one shape, and their intervals no pattern. */
  readonly isWithoutTime: boolean;
  /** How far the middle one of the intervals is off what is usual around it, as a share of that. */
  readonly off: number;
  /** PR of each beat with a P that can lead to it, s. */
  readonly pr: readonly (number | null)[];
  readonly usualPr: number;
  readonly tied: Tie;
  readonly usualPHeight: number;
  /** A P whose height is off the usual one by more, as a share of it, is another. */
  readonly otherPFrom: number;
  readonly loneP: readonly Wave[];
  /** Places of the beats of another shape that follow their P on time. */
  readonly others: readonly number[];
}

interface Verdict {
  readonly kind: BeatKind;
  readonly confidence: number;
}

/**
 * Where each beat began, by timing, P and shape. Beats ascend; `shapes` comes from the same beats; `ownQrs` is what P waves
 * lead to elsewhere in the strip, where these are a part of it.
 * A beat that cannot be told is `unclassified`; a wide beat after its P on time is `aberrant`.
 */
export function kindsOf(
  beats: readonly BeatWaves[],
  shapes: ShapeFamilies,
  loneP: readonly Wave[],
  patient: Patient,
  ownQrs: OwnQrs | null = null,
): MarkedBeat[] {
  const known = sceneOf(beats, shapes, loneP, patient, ownQrs);
  const scene = { ...known, others: othersOnTime(known) };
  const verdicts = inTheirRuns(kindsIn(scene));
  const marked: MarkedBeat[] = [];
  for (let i = 0; i < beats.length; i += 1) marked.push(markedBeat(beats[i]!, verdicts[i]!));
  return marked;
}

const markedBeat = ({ time, p, qrs, t }: BeatWaves, { kind, confidence }: Verdict): MarkedBeat => ({
  time,
  p,
  qrs,
  t,
  kind,
  confidence,
});

function othersOnTime(scene: Omit<Scene, 'others'>): number[] {
  const others: number[] = [];
  for (let i = 0; i < scene.beats.length; i += 1) if (isOtherOnTime(i, scene)) others.push(i);
  return others;
}

function kindsIn(scene: Scene): Verdict[] {
  const verdicts: Verdict[] = [];
  for (let i = 0; i < scene.beats.length; i += 1) verdicts.push(kindOf(i, scene));
  return verdicts;
}

function sceneOf(
  beats: readonly BeatWaves[],
  shapes: ShapeFamilies,
  loneP: readonly Wave[],
  patient: Patient,
  ownQrs: OwnQrs | null,
): Omit<Scene, 'others'> {
  const widths = widthsOf(beats, shapes, patient, ownQrs);
  const pr = leadingPrs(beats, FARTHEST_P[patient.species]);
  const led = shapes.families.map(({ members }) => shareLed(members, pr));
  const own = ownFamily(shapes, widths, led);
  // Where no family is narrow a branch of the bundle may be blocked in all beats: the largest shows whether P leads.
  const isOwn = areMembers(Math.max(0, own), shapes);
  const { local, usual, off } = usualIntervals(beats, isOwn);
  const { prs, heights } = ofOwnBeats(beats, pr, isOwn);
  const usualPr = mode(prs, EQUAL_PR[patient.species]).middle;
  const usualPHeight = median(heights);
  return {
    beats,
    shapes,
    patient,
    widths,
    led,
    own,
    pace: pacesOf(beats, local),
    isSecondOfPair: endsShortOfPairs(beats),
    usual,
    isRegular: off < REGULAR / 2,
    isWithoutTime: own < 0 && isOneWithoutTime(beats, shapes),
    off,
    pr,
    usualPr,
    tied: tieOf(prs, usualPr, EQUAL_PR[patient.species], isOwn.filter(Boolean).length),
    usualPHeight,
    otherPFrom: Math.max(OTHER_P.apart, OTHER_P.asFar * leastOff(heights, usualPHeight)),
    loneP,
  };
}

/** How far off the usual height the nearest quarter of the heights lie, as a share of it; 0 without any. */
function leastOff(heights: readonly number[], usual: number): number {
  const off = heights.map((height) => Math.abs(height / usual - 1)).filter(Number.isFinite);
  return off.length > 0 ? quantile(off, 0.25) : 0;
}

/** So many beats of one shape in all, and half of the intervals so far off. Own choice, not a clinical number. */
const WITHOUT_TIME = { beats: 12, oneShape: 0.9, off: 0.1 };

function isOneWithoutTime(beats: readonly BeatWaves[], { families }: ShapeFamilies): boolean {
  const { beats: least, oneShape, off } = WITHOUT_TIME;
  const same = families[0]?.members.length ?? 0;
  if (beats.length < least || same < oneShape * beats.length) return false;
  return isWithoutPattern(differences(beats.map(({ time }) => time)), off);
}

function areMembers(family: number, { of }: ShapeFamilies): boolean[] {
  const out: boolean[] = [];
  for (const other of of) out.push(other === family);
  return out;
}

/** PR, s, and the heights of P, mV. */
function ofOwnBeats(
  beats: readonly BeatWaves[],
  pr: readonly (number | null)[],
  isOwn: readonly boolean[],
): { readonly prs: readonly number[]; readonly heights: readonly number[] } {
  const prs: number[] = [];
  const heights: number[] = [];
  for (let i = 0; i < beats.length; i += 1) {
    if (isOwn[i]) addOwn(beats[i]!, pr[i]!, prs, heights);
  }
  return { prs, heights };
}

function addOwn({ p }: BeatWaves, pr: number | null, prs: number[], heights: number[]): void {
  if (pr !== null) prs.push(pr);
  if (p) heights.push(p.height);
}

/** The largest family that is narrow, led by P where any is; -1 where no family is narrow. */
function ownFamily(
  { families }: ShapeFamilies,
  widths: readonly Width[],
  led: readonly number[],
): number {
  const narrow = families.map((_, i) => i).filter((i) => widths[i] === 'narrow');
  const grown = narrow.filter((i) => families[i]!.members.length > 1);
  return grown.find((i) => led[i]! >= 0.5) ?? grown[0] ?? narrow[0] ?? -1;
}

function kindOf(i: number, scene: Scene): Verdict {
  const family = scene.shapes.of[i]!;
  if (family < 0) return { kind: 'unclassified', confidence: 0 };
  const width = scene.widths[family]!;
  const pr = scene.pr[i] ?? null;
  const hasOwnP =
    pr !== null &&
    scene.tied !== 'no' &&
    (scene.tied === 'lengthening' ||
      Math.abs(pr - scene.usualPr) <= 2 * EQUAL_PR[scene.patient.species]);
  const pace = scene.pace[i]!;
  if (scene.others.includes(i)) return otherOnTime(i, width, scene);
  if (width === 'wide') return wideKind(i, pace, hasOwnP, scene);
  if (width === 'unknown' && family !== scene.own) {
    // Neither narrow nor wide, where nothing is narrow: P tells, if it leads in time.
    const isLed = scene.own < 0 && family === 0 && hasOwnP && !(pace < EARLY);
    return isLed ? { kind: 'sinus', confidence: 0.5 } : { kind: 'unclassified', confidence: 0 };
  }
  return narrowKind(i, pace, hasOwnP, pr !== null, scene);
}

/** PR of a fusion beat is shorter than the others by up to this, s: the ventricle has begun by itself. From memory, unverified. */
const SHORTER = 0.06;
/** Less like the heart's own beat than this, and no noise makes it so. Own choice, not a clinical number. */
const UNLIKE = 0.7;

/**
 * On time, after the P of the others or one that is a little nearer, and yet of another shape: sinus node
 * and a ventricle have met, or a branch of the bundle was blocked.
 */
function isOtherOnTime(i: number, scene: Omit<Scene, 'others'>): boolean {
  const { shapes, own, tied, usualPr, patient } = scene;
  const pr = scene.pr[i] ?? null;
  const pace = scene.pace[i]!;
  if (own !== 0 || shapes.of[i]! < 1 || tied !== 'equal' || pr === null) return false;
  if (pace < EARLY || pace > LATE) return false;
  const near = 2 * EQUAL_PR[patient.species];
  if (pr > usualPr + near || pr < usualPr - Math.max(near, SHORTER)) return false;
  const off = shapes.off(i);
  return off?.isCalm === true && (off.likeOwn < UNLIKE || off.between !== null);
}

/**
 * A blocked branch makes the QRS wide, and each time the same; where two fronts meet it lies between the
 * heart's own and the ventricle's, in shape and in width, and changes from beat to beat with how far
 * either came. From memory, unverified.
 */
function otherOnTime(i: number, width: Width, { shapes, others }: Scene): Verdict {
  const family = shapes.of[i]!;
  const isBetween =
    shapes.off(i)!.between !== null ||
    others.some((other) => shapes.off(other)?.between === family);
  const changes = shapes.off(i)!.changes || others.some((other) => shapes.of[other] !== family);
  return isBetween || changes || width !== 'wide'
    ? { kind: 'fusion', confidence: isBetween ? 0.7 : 0.5 }
    : { kind: 'aberrant', confidence: 0.5 };
}

/** Beats of one shape that no jolts have bent. Own choice, not a clinical number. */
const SEVERAL = 5;

function wideKind(i: number, pace: number, hasOwnP: boolean, scene: Scene): Verdict {
  const family = scene.shapes.of[i]!;
  if (scene.own < 0) {
    // Nothing narrow to compare with: led by P each time it may be a block of a bundle branch.
    if (scene.led[family]! >= 0.7 && scene.tied !== 'no')
      return { kind: 'aberrant', confidence: 0.4 };
    // A ventricle keeps time; one shape that keeps none may be led by fibrillating atria.
    if (scene.isWithoutTime && family === 0) return { kind: 'unclassified', confidence: 0.2 };
    const range = rateRange(scene.patient);
    const rate = 60 / scene.usual;
    if (range && rate < range.low) return { kind: 'ventricular escape', confidence: 0.7 };
    return { kind: 'ventricular', confidence: 0.8 };
  }
  // Where no P leads and no interval is like another none is late.
  const keepsTime = scene.tied !== 'no' || scene.off < REGULAR;
  if (pace > LATE && keepsTime) return { kind: 'ventricular escape', confidence: 0.7 };
  if (hasOwnP && !(pace < EARLY)) {
    // A jolt makes any beat wide, though not several alike.
    const isAlone = scene.shapes.families[family]!.members.length < SEVERAL;
    const isJolted = isAlone && scene.shapes.off(i)?.isCalm === false;
    return isJolted
      ? { kind: 'unclassified', confidence: 0 }
      : { kind: 'aberrant', confidence: 0.5 };
  }
  if (pace < EARLY) return { kind: 'ventricular premature', confidence: hasOwnP ? 0.6 : 0.9 };
  // What came before the first beat is not seen; the pause after an early one is.
  if (i === 0 && scene.pace[1]! > LATE) return { kind: 'ventricular premature', confidence: 0.6 };
  return { kind: 'ventricular', confidence: 0.7 };
}

function narrowKind(
  i: number,
  pace: number,
  hasOwnP: boolean,
  hasP: boolean,
  scene: Scene,
): Verdict {
  const p = scene.beats[i]!.p;
  const otherP = p !== null && Math.abs(p.height / scene.usualPHeight - 1) > scene.otherPFrom;
  const next = scene.pace[i + 1] ?? Number.NaN;
  const before = scene.pace[i - 1] ?? Number.NaN;
  // The pause after an early beat of another shape is no wait for an escape.
  const isAfterOwn = i > 0 && scene.shapes.of[i - 1] === scene.own;
  // Alone in being short: breath shortens several intervals in a row, an early beat one.
  const isAlone =
    !(next < EARLY) && !(before < EARLY) && !(next < pace / EARLY) && !(before < pace / EARLY);
  const isInStep = areAtriaInStep(i, scene);
  const isEarly = paceOfNarrow(i, scene) < EARLY && isAlone && !isInStep;
  if (isEarly && scene.own >= 0 && scene.tied !== 'no') {
    const lead = (1 - pace) / scene.off;
    if (scene.isRegular && (otherP || !hasOwnP) && lead > STANDS_OUT.withOtherP) {
      return { kind: 'supraventricular premature', confidence: 0.85 };
    }
    if (scene.isRegular && lead > STANDS_OUT.alone) {
      return { kind: 'supraventricular premature', confidence: 0.65 };
    }
    if (otherP) return { kind: 'supraventricular premature', confidence: 0.5 };
  }
  if (
    scene.isSecondOfPair[i] &&
    scene.tied === 'equal' &&
    !isInStep &&
    !isEarlyWide(i - 1, scene)
  ) {
    return { kind: 'supraventricular premature', confidence: otherP ? 0.7 : 0.5 };
  }
  if (hasOwnP) return { kind: 'sinus', confidence: scene.tied === 'equal' ? 0.9 : 0.6 };
  if (hasP && scene.tied !== 'no') return { kind: 'unclassified', confidence: 0.2 };
  if (!hasP && pace > LATE && isAfterOwn && scene.tied !== 'no')
    return { kind: 'junctional escape', confidence: 0.6 };
  if (!hasP && scene.tied === 'no' && isSlow(scene))
    return { kind: 'junctional escape', confidence: 0.6 };
  return { kind: 'unclassified', confidence: 0.2 };
}

/** Cycles of the atria that differ by no more than this share are of one pace. Own choice, not a clinical number. */
const SAME_CYCLE = 0.12;

/** So near, in beats on either side, must a P lie that led to none: elsewhere two early beats in a row would excuse each other. Own choice, not a clinical number. */
const NEAR_DROP = 3;

/**
 * Whether the interval is only short beside those near it in which a P led to no beat: the atria keep the pace that they
 * had before or have behind it, so the P of this beat is on time.
 */
function areAtriaInStep(i: number, { beats, loneP }: Scene): boolean {
  const [last, here] = [beats[i - 1]?.p, beats[i]!.p];
  if (!last || !here) return false;
  const from = beats[Math.max(0, i - NEAR_DROP)]!.time;
  const to = beats[Math.min(beats.length - 1, i + NEAR_DROP)]!.time;
  const near = loneP.slice(
    countBefore(loneP, ({ peak }) => peak >= from),
    countBefore(loneP, ({ peak }) => peak > to),
  );
  if (near.length === 0) return false;
  const cycle = here.peak - last.peak;
  const isSame = (other: number): boolean => Math.abs(cycle / other - 1) <= SAME_CYCLE;
  const others = [...near, beats[i - 2]?.p, beats[i + 1]?.p].flatMap((p) => p?.peak ?? []);
  const before = Math.max(...others.filter((peak) => peak < last.peak));
  const after = Math.min(...others.filter((peak) => peak > here.peak));
  return isSame(last.peak - before) || isSame(after - here.peak);
}

/** An early wide beat, as a ventricle's is, or one before which nothing is seen; what comes late or on time may be a P that was counted. */
const isEarlyWide = (i: number, { shapes, widths, pace }: Scene): boolean =>
  i >= 0 && widths[shapes.of[i]!] === 'wide' && !(pace[i]! >= EARLY);

/** The pace of a beat since the last that no ventricle began early: what it puts in between makes no beat early. NaN where there is none. */
function paceOfNarrow(i: number, scene: Scene): number {
  const { pace, beats } = scene;
  let last = i - 1;
  while (isEarlyWide(last, scene)) last -= 1;
  if (last < 0) return Number.NaN;
  const { time } = beats[i]!;
  return (pace[i]! * (time - beats[last]!.time)) / (time - beats[i - 1]!.time);
}

function isSlow({ usual, patient, isRegular }: Scene): boolean {
  const range = rateRange(patient);
  return isRegular && range !== null && 60 / usual < range.low;
}

/** Three and more in a row from a ventricle are a run: `ventricular` rather than single early beats. */
function inTheirRuns(verdicts: readonly Verdict[]): Verdict[] {
  const out = [...verdicts];
  for (let from = 0; from < verdicts.length; from += 1) {
    if (!isOfRun(verdicts[from]!)) continue;
    let end = from;
    while (end < verdicts.length && isOfRun(verdicts[end]!)) end += 1;
    const isLong = end - from >= 3;
    if (isLong || verdicts[from]!.kind === 'ventricular premature') {
      const kind = isLong ? 'ventricular' : 'ventricular premature';
      for (let i = from; i < end; i += 1) out[i] = { ...verdicts[i]!, kind };
    }
    from = end;
  }
  return out;
}

const isOfRun = ({ kind }: Verdict): boolean =>
  kind === 'ventricular premature' || kind === 'ventricular';
