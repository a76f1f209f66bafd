import type { Outcome, Problem } from '../../record/problem.js';
import { good } from '../../record/problem.js';
import { hertz, seconds } from '../../units/brands.js';
import type { Annotation, Channel, Waveform } from '../waveform.js';
import { readTimedRemarks } from './edf-annotations.js';
import type { EdfHeader } from './edf-header.js';
import { readEdfHeader } from './edf-header.js';
import { MOST_PROBLEMS, refuse } from './refuse.js';
import { wallClockText } from './wall-clock.js';

/**
 * The most that a file with interruptions may unfold to once its gaps are filled. A gap costs a few
 * bytes in the file but memory here, so without a limit a small damaged file could exhaust it.
 */
const LONGEST_SPAN = 24 * 3600;
const MOST_SAMPLES = 32 * 1024 * 1024;

/**
 * Reads EDF (Kemp 1992) and EDF+ (Kemp and Olivan 2003). Units stay as the file states them; an
 * interruption (EDF+D) becomes NaN, so that a sample's index divided by its rate is its time.
 */
export function readEdf(bytes: Uint8Array, file: string): Outcome<Waveform> {
  const header = readEdfHeader(bytes, file);
  if (!header.ok) return header;
  const remarks = readRecordStartsAndAnnotations(bytes, header.value, file);
  if (!remarks.ok) return remarks;
  const { starts, annotations } = remarks.value;
  const { kind, records, recordDuration, start, signals } = header.value;
  const firstStart = starts[0] ?? 0;
  const span =
    kind === 'EDF+D'
      ? starts[records - 1]! - firstStart + recordDuration
      : records * recordDuration;

  const channels: Channel[] = signals
    .filter((signal) => !signal.isAnnotations)
    .map((signal) => {
      const samplingRate = signal.samplesPerRecord / recordDuration;
      const placeOf = (record: number) =>
        kind === 'EDF+D'
          ? Math.round((starts[record]! - firstStart) * samplingRate)
          : record * signal.samplesPerRecord;
      const samples = new Float64Array(placeOf(records - 1) + signal.samplesPerRecord);
      if (kind === 'EDF+D') samples.fill(Number.NaN);
      const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
      for (let record = 0; record < records; record += 1) {
        const byte =
          header.value.headerBytes + record * header.value.recordBytes + signal.byteInRecord;
        const place = placeOf(record);
        for (let index = 0; index < signal.samplesPerRecord; index += 1) {
          const stored = view.getInt16(byte + 2 * index, true);
          samples[place + index] = signal.offset + signal.gain * stored;
        }
      }
      return {
        label: signal.label,
        unit: signal.unit,
        samplingRate: hertz(samplingRate),
        samples,
      };
    });
  return good({
    format: kind === 'EDF' ? 'EDF' : 'EDF+',
    channels,
    annotations,
    startsAt: start && wallClockText(start, firstStart),
    duration: seconds(span),
  });
}

/**
 * When each data record starts (seconds after the header's start time; empty where the file has no
 * annotation signal, so records simply follow each other) and the remarks, timed from the first sample.
 */
function readRecordStartsAndAnnotations(
  bytes: Uint8Array,
  header: EdfHeader,
  file: string,
): Outcome<{ starts: readonly number[]; annotations: readonly Annotation[] }> {
  const starts: number[] = [];
  const found: { onset: number; duration: number | null; text: string }[] = [];
  const problems: Problem[] = [];
  // When all records so far have ended, so that small overlaps cannot add up.
  let ended = Number.NEGATIVE_INFINITY;
  const timekeeper = header.signals.findIndex((signal) => signal.isAnnotations);
  for (let record = 0; record < header.records && problems.length < MOST_PROBLEMS; record += 1) {
    for (const [index, signal] of header.signals.entries()) {
      if (!signal.isAnnotations) continue;
      const byte = header.headerBytes + record * header.recordBytes + signal.byteInRecord;
      const lists = readTimedRemarks(
        bytes.subarray(byte, byte + 2 * signal.samplesPerRecord),
        file,
        byte,
      );
      if (!lists.ok) {
        problems.push(...lists.problems);
        continue;
      }
      if (index === timekeeper) {
        const first = lists.value[0];
        if (first?.texts[0] !== '') {
          problems.push({
            kind: 'EDF annotations that are not understood',
            file,
            byte,
            field: 'EDF Annotations',
            found: `data record ${record + 1} does not say when it starts`,
            expected: 'an annotation list with an empty first remark, for example "+0", 20, 20, 0',
            mend: 'Export the recording again from the device or program that made it.',
          });
          continue;
        }
        starts.push(first.onset);
        const problem = startProblem(starts, ended, header, file, byte);
        if (problem) problems.push(problem);
        ended = Math.max(ended, first.onset) + header.recordDuration;
      }
      for (const { onset, duration, texts } of lists.value) {
        for (const text of texts) if (text !== '') found.push({ onset, duration, text });
      }
    }
  }
  if (problems.length > 0) return refuse(problems);
  const first = starts[0] ?? 0;
  const annotations = found.map(({ onset, duration, text }) => ({
    onset: seconds(onset - first),
    duration: duration === null ? null : seconds(duration),
    text,
  }));
  annotations.sort((one, other) => one.onset - other.onset);
  return good({ starts, annotations });
}

/** What is wrong with the newest data record's start, given those before it and when they `ended`. */
function startProblem(
  starts: readonly number[],
  ended: number,
  header: EdfHeader,
  file: string,
  byte: number,
): Problem | null {
  const record = starts.length;
  const newest = starts[record - 1]!;
  const { kind, recordDuration, signals } = header;
  const problem = (found: string, expected: string, mend: string): Problem => ({
    kind: 'EDF data records out of time',
    file,
    byte,
    field: 'EDF Annotations',
    found,
    expected,
    mend,
  });
  const channels = signals.filter((signal) => !signal.isAnnotations);
  // Starts are printed with few decimals; within one sample of the fastest channel is the same time.
  const fastest = Math.max(1, ...channels.map((signal) => signal.samplesPerRecord));
  const tolerance = recordDuration / fastest;
  if (record > 1 && kind === 'EDF+C' && channels.length > 0) {
    const expected = starts[0]! + (record - 1) * recordDuration;
    if (Math.abs(newest - expected) > tolerance) {
      return problem(
        `data record ${record} starts at ${newest} s`,
        `${expected} s, because the header says EDF+C, without interruptions`,
        'Export the recording again, as EDF+D if it was interrupted.',
      );
    }
  }
  if (record > 1 && kind === 'EDF+D') {
    if (newest < ended - tolerance) {
      return problem(
        `data record ${record} starts at ${newest} s`,
        `${ended} s or later, when data record ${record - 1} has ended`,
        'Export the recording again from the device or program that made it.',
      );
    }
    const span = newest - starts[0]! + recordDuration;
    const samples = channels.reduce(
      (sum, signal) => sum + (span / recordDuration) * signal.samplesPerRecord,
      0,
    );
    if (span > LONGEST_SPAN || samples > MOST_SAMPLES) {
      return problem(
        `data record ${record} starts ${newest - starts[0]!} s after the first`,
        `at most ${LONGEST_SPAN / 3600} hours and ${MOST_SAMPLES} samples, gaps included`,
        'Export only the part of the recording that belongs to this case.',
      );
    }
  }
  return null;
}
