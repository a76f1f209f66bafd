import { leastOf, median, share } from '../filter/spread.js';
import type { BeatWaves, MarkedBeat, Patient } from '../marked-beat.js';
import { intervalLimits } from '../rhythm/interval-limits.js';
import type { ShapeFamilies } from './families.js';

/** A family this much wider than the heart's own narrow one is wide, whatever the species. Own choice, not a clinical number. */
const WIDER = 1.35;
/** Even where it is under the limits of the species. Own choice, not a clinical number. */
const FAR_WIDER = 1.55;
/** Held against a family of so many of the beats. Own choice, not a clinical number. */
const MANY = 0.2;

/** The QRS of the beats that P waves lead to, anywhere in a strip. */
export interface OwnQrs {
  /** s. */
  readonly width: number;
  /** R times of these beats. */
  readonly times: ReadonlySet<number>;
}

/** Of the largest family most of whose beats the sinus node started; null where none is, or its width cannot be seen. */
export function ownQrs(marked: readonly MarkedBeat[], { families }: ShapeFamilies): OwnQrs | null {
  const isSinus = (i: number): boolean => marked[i]?.kind === 'sinus';
  const own = families.find(({ members }) => 2 * members.filter(isSinus).length > members.length);
  if (!own || own.members.length < 2 || own.qrsDuration === null) return null;
  return { width: own.qrsDuration, times: new Set(own.members.map((i) => marked[i]!.time)) };
}

/** Whether the QRS of a family is wide; `unknown` between the limits, and where its width cannot be seen. */
export type Width = 'narrow' | 'wide' | 'unknown';

/** Width of each family: by the species' limits, else against the narrowest common family or the heart's `own` elsewhere in the strip. */
export function widthsOf(
  beats: readonly BeatWaves[],
  { families }: ShapeFamilies,
  patient: Patient,
  own: OwnQrs | null = null,
): Width[] {
  const limits = intervalLimits(patient);
  const durations = families.map(({ qrsDuration, qrsAtLeast, members }) => {
    if (qrsDuration !== null && members.length > 1) return qrsDuration;
    if (limits && qrsDuration === null && (qrsAtLeast ?? 0) > limits.wideQrs) return qrsAtLeast!;
    const single = members.flatMap((i) => {
      const qrs = beats[i]?.qrs;
      return qrs ? [qrs.end - qrs.onset] : [];
    });
    return qrsDuration ?? (single.length > 0 ? median(single) : Number.NaN);
  });
  const widthsFrom = (least: number): number[] =>
    durations.filter((value, i) => !Number.isNaN(value) && families[i]!.members.length >= least);
  const narrowest = leastOf([...widthsFrom(2), own?.width ?? Number.POSITIVE_INFINITY]);
  // A jolt may leave a few beats whose ends are misread beside all others.
  const many = leastOf([
    ...widthsFrom(Math.max(3, MANY * beats.length)),
    own?.width ?? Number.POSITIVE_INFINITY,
  ]);
  const isOwn = (i: number): boolean =>
    own !== null && share(families[i]!.members, (k) => own.times.has(beats[k]!.time)) >= 0.5;
  return durations.map((duration, i) => {
    if (Number.isNaN(duration)) return 'unknown';
    // As much wider as a beat of a ventricle is than the heart's own, where that is as narrow as a small heart's.
    if (duration > FAR_WIDER * many && !isOwn(i)) return 'wide';
    if (limits && duration <= limits.narrowQrs) return 'narrow';
    if (limits && duration > limits.wideQrs) return 'wide';
    if (duration > WIDER * narrowest && !isOwn(i)) return 'wide';
    return limits ? 'unknown' : 'narrow';
  });
}
