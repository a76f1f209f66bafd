import { median } from '../filter/spread.js';
import type { BeatWaves, Patient } from '../marked-beat.js';
import { intervalLimits } from '../rhythm/interval-limits.js';
import type { ShapeFamilies } from './families.js';

/** A family this much wider than the heart's own narrow one is wide, whatever the species. Own choice, not a clinical number. */
const WIDER = 1.35;

/** Whether the QRS of a family is wide; `unknown` between the limits, and where its width cannot be seen. */
export type Width = 'narrow' | 'wide' | 'unknown';

/** Width of each family: by the species' limits, else against the narrowest common family. */
export function widthsOf(
  beats: readonly BeatWaves[],
  { families }: ShapeFamilies,
  patient: Patient,
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
