import type { Outcome } from '../../record/problem.js';
import { bad, good } from '../../record/problem.js';

/** A time-stamped annotation list: one moment and the remarks made there (EDF+ 2.2.2). */
export interface TimedRemarks {
  /** Seconds after the start time in the header; may be negative. */
  readonly onset: number;
  readonly duration: number | null;
  /** The first remark of a data record's first list is empty: it only keeps time (EDF+ 2.2.4). */
  readonly texts: readonly string[];
}

const DURATION_FOLLOWS = '\x15';
const REMARK_ENDS = '\x14';

const isSeconds = (text: string, pattern: RegExp) =>
  pattern.test(text) && Number.isFinite(Number(text));

/**
 * The lists in one annotation signal of one data record, in file order. Each is
 * `onset [0x15 duration] 0x14 remark 0x14 ... 0x14 0x00`, and unused bytes are 0. `byte` is the
 * signal's place in the file, for problems.
 */
export function readTimedRemarks(
  signal: Uint8Array,
  file: string,
  byte: number,
): Outcome<readonly TimedRemarks[]> {
  const lists: TimedRemarks[] = [];
  let start = 0;
  while (start < signal.length) {
    if (signal[start] === 0) {
      start += 1;
      continue;
    }
    const zero = signal.indexOf(0, start);
    const end = zero < 0 ? signal.length : zero;
    const text = new TextDecoder('utf-8', { ignoreBOM: true }).decode(signal.subarray(start, end));
    // A broken UTF-8 byte shows as U+FFFD; it must not cost the reader the whole recording.
    const [moment = '', ...texts] = text.split(REMARK_ENDS);
    const [onset = '', duration = null, ...surplus] = moment.split(DURATION_FOLLOWS);
    const isStamp =
      isSeconds(onset, /^[+-]\d+(\.\d*)?$/) &&
      (duration === null || isSeconds(duration, /^\d+(\.\d*)?$/)) &&
      surplus.length === 0;
    const isClosed = zero >= 0 && texts.at(-1) === '';
    if (!isStamp || !isClosed) {
      return bad({
        kind: 'EDF annotations that are not understood',
        file,
        byte: byte + start,
        field: 'EDF Annotations',
        found: isClosed
          ? `the time stamp "${moment.slice(0, 40).replace(DURATION_FOLLOWS, ' for ')}"`
          : 'an annotation list without its end mark (bytes 20, 0)',
        expected: 'signed seconds such as "+12.5", then each remark ended by byte 20, then byte 0',
        mend: 'Export the recording again from the device or program that made it.',
      });
    }
    lists.push({
      onset: Number(onset),
      duration: duration === null ? null : Number(duration),
      texts: texts.slice(0, -1),
    });
    start = end + 1;
  }
  return good(lists);
}
