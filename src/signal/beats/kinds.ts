import { median, mode, share } from '../filter/spread.js';
import type { BeatKind, BeatWaves, MarkedBeat, Patient, Wave } from '../marked-beat.js';
import { EQUAL_PR, FARTHEST_P, intervalLimits } from '../rhythm/interval-limits.js';
import { rateRange } from '../rhythm/rate-ranges.js';
import type { ShapeFamilies } from './families.js';

/** Earlier than this share of the local interval is premature. Common practice: clearly early. */
const EARLY = 0.85;
/** Later than this share is an escape, if nothing from above led to it. Common practice. */
const LATE = 1.2;
/** A family this much wider than the heart's own narrow one is wide, whatever the species. Own choice, not a clinical number. */
const WIDER = 1.35;
/** P heights this far apart (share of the usual) are another P. Own choice, not a clinical number. */
const OTHER_P = 0.25;
/** Intervals that vary less than this let timing alone tell an early beat. Own choice, not a clinical number. */
const REGULAR = 0.1;

type Width = 'narrow' | 'wide' | 'unknown';

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
  /** Usual interval of own beats, s. */
  readonly usual: number;
  readonly isRegular: boolean;
  /** PR of each beat with a P that can lead to it, s. */
  readonly pr: readonly (number | null)[];
  readonly usualPr: number;
  /** Whether P and QRS are tied: most PR are equal, or they lengthen step by step. */
  readonly tied: 'equal' | 'lengthening' | 'no';
  readonly usualPHeight: number;
  readonly loneP: readonly Wave[];
  /** Places of the beats of another shape that follow their P on time. */
  readonly others: readonly number[];
}

interface Verdict {
  readonly kind: BeatKind;
  readonly confidence: number;
}

/**
 * Where each beat began, by timing, P and shape. Beats ascend; `shapes` comes from the same beats.
 * A beat that cannot be told is `unclassified`; a wide beat after its P on time is `aberrant`.
 */
export function kindsOf(
  beats: readonly BeatWaves[],
  shapes: ShapeFamilies,
  loneP: readonly Wave[],
  patient: Patient,
): MarkedBeat[] {
  const known = sceneOf(beats, shapes, loneP, patient);
  const scene = { ...known, others: [...beats.keys()].filter((i) => isOtherOnTime(i, known)) };
  const verdicts = inTheirRuns(beats.map((_, i) => kindOf(i, scene)));
  return beats.map(({ time, p, qrs, t }, i) => ({ time, p, qrs, t, ...verdicts[i]! }));
}

/** P onset to QRS onset, s; R stands in where the QRS onset was not found. */
export function prOf({ time, p, qrs }: BeatWaves): number | null {
  return p ? (qrs?.onset ?? time) - p.onset : null;
}

function sceneOf(
  beats: readonly BeatWaves[],
  shapes: ShapeFamilies,
  loneP: readonly Wave[],
  patient: Patient,
): Omit<Scene, 'others'> {
  const widths = widthsOf(beats, shapes, patient);
  const farthest = FARTHEST_P[patient.species];
  const pr = beats.map((beat) => {
    const value = prOf(beat);
    return value !== null && value > 0 && value <= farthest ? value : null;
  });
  const led = shapes.families.map(({ members }) => share(members, (i) => pr[i] !== null));
  const own = ownFamily(shapes, widths, led);
  const isOwn = beats.map((_, i) => shapes.of[i] === own);
  const { local, usual, isRegular } = usualIntervals(beats, isOwn);
  const prs = pr.filter((value, i) => value !== null && isOwn[i]) as number[];
  const usualPr = mode(prs, EQUAL_PR[patient.species]).middle;
  const heights = beats.flatMap(({ p }, i) => (p && isOwn[i] ? [p.height] : []));
  return {
    beats,
    shapes,
    patient,
    widths,
    led,
    own,
    pace: beats.map(({ time }, i) =>
      i === 0 ? Number.NaN : (time - beats[i - 1]!.time) / local[i]!,
    ),
    usual,
    isRegular,
    pr,
    usualPr,
    tied: tieOf(prs, usualPr, EQUAL_PR[patient.species], isOwn.filter(Boolean).length),
    usualPHeight: median(heights),
    loneP,
  };
}

/** Width of each family: by the species' limits, else against the narrowest common family. */
function widthsOf(
  beats: readonly BeatWaves[],
  { families }: ShapeFamilies,
  patient: Patient,
): Width[] {
  const limits = intervalLimits(patient);
  const durations = families.map(({ qrsDuration, members }) => {
    if (qrsDuration !== null && members.length > 1) return qrsDuration;
    const single = members.flatMap((i) => {
      const qrs = beats[i]?.qrs;
      return qrs ? [qrs.end - qrs.onset] : [];
    });
    return qrsDuration ?? (single.length > 0 ? median(single) : Number.NaN);
  });
  const common = durations.filter((_, i) => families[i]!.members.length > 1);
  const narrowest = Math.min(...common.filter((value) => !Number.isNaN(value)));
  return durations.map((duration) => {
    if (Number.isNaN(duration)) return 'unknown';
    if (limits && duration <= limits.narrowQrs) return 'narrow';
    if (limits && duration > limits.wideQrs) return 'wide';
    if (duration > WIDER * narrowest) return 'wide';
    return limits ? 'unknown' : 'narrow';
  });
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

/** Intervals between beats of the heart's own family around each beat, s. */
function usualIntervals(
  beats: readonly BeatWaves[],
  isOwn: readonly boolean[],
): { local: number[]; usual: number; isRegular: boolean } {
  const own: { at: number; gap: number }[] = [];
  const around: { at: number; gap: number }[] = [];
  for (let i = 1; i < beats.length; i += 1) {
    const gap = beats[i]!.time - beats[i - 1]!.time;
    if (isOwn[i] && isOwn[i - 1]) own.push({ at: i, gap });
    // Own, foreign, own: with a full pause the two gaps together are two cycles.
    else if (isOwn[i] && isOwn[i - 2] && i > 1) {
      around.push({ at: i, gap: (beats[i]!.time - beats[i - 2]!.time) / 2 });
    }
  }
  const all = beats.slice(1).map(({ time }, i) => ({ at: i + 1, gap: time - beats[i]!.time }));
  const known = own.length >= 3 ? own : around.length >= 3 ? around : all;
  const usual = median(known.map(({ gap }) => gap));
  const local = localIntervals(known, beats.length);
  const off = known.map(({ gap, at }) => Math.abs(gap - local[at]!) / local[at]!);
  return { local, usual, isRegular: median(off) < REGULAR / 2 };
}

/** So many of the nearest intervals say what is usual around a beat. Own choice, not a clinical number. */
const NEAREST = 8;

/** The middle one of the intervals nearest to each of `count` beats, of equally near ones the earlier. `known` ascends. */
function localIntervals(
  known: readonly { readonly at: number; readonly gap: number }[],
  count: number,
): number[] {
  const gaps = Float64Array.from(known, gapOf);
  const out: number[] = [];
  let from = 0;
  for (let i = 0; i < count; i += 1) {
    // The nearest lie side by side, and move on with the beat.
    while (from + NEAREST < known.length && known[from + NEAREST]!.at - i < i - known[from]!.at) {
      from += 1;
    }
    out.push(median(gaps.subarray(from, from + NEAREST)));
  }
  return out;
}

const gapOf = ({ gap }: { readonly gap: number }): number => gap;

/** A P before fewer of the own beats than this is chance. Own choice, not a clinical number. */
const LED = 0.5;

function tieOf(
  prs: readonly number[],
  usual: number,
  near: number,
  ownBeats: number,
): Scene['tied'] {
  if (prs.length < 3 || prs.length < LED * ownBeats) return 'no';
  if (share(prs, (pr) => Math.abs(pr - usual) <= near) >= 0.6) return 'equal';
  const steps = prs.slice(1).map((pr, i) => pr - prs[i]!);
  const falls = steps.filter((step) => step < -near).length;
  const rises = steps.filter((step) => step > 0).length;
  return rises >= 0.6 * steps.length && rises >= 2 * falls ? 'lengthening' : 'no';
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
  if (width === 'unknown' && family !== scene.own) return { kind: 'unclassified', confidence: 0 };
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

function wideKind(i: number, pace: number, hasOwnP: boolean, scene: Scene): Verdict {
  const family = scene.shapes.of[i]!;
  if (scene.own < 0) {
    // Nothing narrow to compare with: led by P each time it may be a block of a bundle branch.
    if (scene.led[family]! >= 0.7 && scene.tied !== 'no')
      return { kind: 'aberrant', confidence: 0.4 };
    const range = rateRange(scene.patient);
    const rate = 60 / scene.usual;
    if (range && rate < range.low) return { kind: 'ventricular escape', confidence: 0.7 };
    return { kind: 'ventricular', confidence: 0.8 };
  }
  if (pace > LATE) return { kind: 'ventricular escape', confidence: 0.7 };
  if (hasOwnP && !(pace < EARLY)) {
    // A jolt makes any beat wide.
    const isJolted = scene.shapes.off(i)?.isCalm === false;
    return isJolted
      ? { kind: 'unclassified', confidence: 0 }
      : { kind: 'aberrant', confidence: 0.5 };
  }
  if (pace < EARLY) return { kind: 'ventricular premature', confidence: hasOwnP ? 0.6 : 0.9 };
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
  const otherP = p !== null && Math.abs(p.height / scene.usualPHeight - 1) > OTHER_P;
  const next = scene.pace[i + 1] ?? Number.NaN;
  const before = scene.pace[i - 1] ?? Number.NaN;
  // The pause after an early beat of another shape is no wait for an escape.
  const isAfterOwn = i > 0 && scene.shapes.of[i - 1] === scene.own;
  // Alone in being short: breath shortens several intervals in a row, an early beat one.
  const isAlone =
    !(next < EARLY) && !(before < EARLY) && !(next < pace / EARLY) && !(before < pace / EARLY);
  const isEarly = pace < EARLY && isAlone;
  if (isEarly && scene.own >= 0 && scene.tied !== 'no') {
    if (scene.isRegular && (otherP || !hasOwnP)) {
      return { kind: 'supraventricular premature', confidence: 0.85 };
    }
    if (scene.isRegular) return { kind: 'supraventricular premature', confidence: 0.65 };
    if (otherP) return { kind: 'supraventricular premature', confidence: 0.5 };
  }
  if (hasOwnP) return { kind: 'sinus', confidence: scene.tied === 'equal' ? 0.9 : 0.6 };
  if (hasP && scene.tied !== 'no') return { kind: 'unclassified', confidence: 0.2 };
  if (!hasP && pace > LATE && isAfterOwn && scene.tied !== 'no')
    return { kind: 'junctional escape', confidence: 0.6 };
  if (!hasP && scene.tied === 'no' && isSlow(scene))
    return { kind: 'junctional escape', confidence: 0.6 };
  return { kind: 'unclassified', confidence: 0.2 };
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
