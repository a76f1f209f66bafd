import { lastAtOrBefore } from './last-at.js';
import type { ElectricalRecord } from './phase.js';

/** Changes of a picture a second that are safe for eyes and brain. Source: WCAG 2.2, 2.3.1, three flashes. */
const FLASHES = 3;

/** Seconds of the strip to show in a second: as wanted, or slower where more than three beats a second would pass. */
export function paceAt({ beats }: ElectricalRecord, second: number, wanted: number): number {
  const index = lastAtOrBefore(beats, second, ({ time }) => time);
  const around = [index - 1, index, index + 1].flatMap((i) => {
    const [one, next] = [beats[i], beats[i + 1]];
    return one && next ? [next.time - one.time] : [];
  });
  return Math.min(wanted, FLASHES * Math.min(...around, Number.POSITIVE_INFINITY));
}
