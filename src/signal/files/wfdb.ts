import type { Outcome, Problem } from '../../record/problem.js';
import { bad, good } from '../../record/problem.js';
import { hertz, seconds } from '../../units/brands.js';
import type { Channel, Waveform } from '../waveform.js';
import { beside } from './beside.js';
import { refuse } from './refuse.js';
import type { HeaderText, WfdbHeader, WfdbSignal } from './wfdb-header.js';
import { readWfdbHeader } from './wfdb-header.js';

/**
 * Reads a PhysioNet WFDB record: its header and the signal files that the header names, by name.
 * Sources: header(5) and signal(5) of the WFDB documentation; storage formats 16 and 212.
 * Samples that the file marks as invalid, and those that a skew moves past the end, are NaN.
 */
export function readWfdb(
  header: HeaderText,
  signals: ReadonlyMap<string, Uint8Array>,
): Outcome<Waveform> {
  const parsed = readWfdbHeader(header);
  if (!parsed.ok) return parsed;
  const problems: Problem[] = [];
  const channels: Channel[] = [];
  let frames = parsed.value.frames;
  for (const group of groupsByFile(parsed.value.signals)) {
    const read = readGroup(group, parsed.value, frames, header.file, signals);
    if (read.ok) {
      frames = read.value.frames;
      channels.push(...read.value.channels);
    } else problems.push(...read.problems);
  }
  if (problems.length > 0) return refuse(problems);
  return good({
    format: 'WFDB',
    channels,
    annotations: [],
    startsAt: parsed.value.startsAt,
    duration: seconds((frames ?? 0) / parsed.value.frameRate),
  });
}

type Group = readonly [WfdbSignal, ...WfdbSignal[]];

function groupsByFile(signals: readonly WfdbSignal[]): readonly Group[] {
  const groups = new Map<string, [WfdbSignal, ...WfdbSignal[]]>();
  for (const signal of signals) {
    const group = groups.get(signal.fileName);
    if (group) group.push(signal);
    else groups.set(signal.fileName, [signal]);
  }
  return [...groups.values()];
}

/** The channels of one signal file, where samples of all its signals alternate frame by frame. */
function readGroup(
  group: Group,
  header: WfdbHeader,
  expectedFrames: number | null,
  headerFile: string,
  signals: ReadonlyMap<string, Uint8Array>,
): Outcome<{ frames: number; channels: readonly Channel[] }> {
  const [{ fileName, format, byteOffset, line }] = group;
  const file = beside(headerFile, fileName);
  const bytes = signals.get(fileName);
  if (!bytes) {
    return bad({
      kind: 'a file that the record names is not there',
      file: headerFile,
      line,
      field: 'file name',
      found: `no file "${fileName}" beside the header`,
      expected: 'the signal file that this line names',
      mend: `Put ${fileName} beside the header.`,
    });
  }
  const frameSize = group.reduce((sum, signal) => sum + signal.samplesPerFrame, 0);
  const size = checkSize(bytes.length, file, format, byteOffset, frameSize, expectedFrames);
  if (!size.ok) return size;
  const frames = size.value;

  const samplesBytes = bytes.subarray(byteOffset);
  const stored = format === 16 ? stored16(samplesBytes) : stored212(samplesBytes);
  const invalid = format === 16 ? -32768 : -2048;
  const channels: Channel[] = [];
  const problems: Problem[] = [];
  let offsetInFrame = 0;
  for (const signal of group) {
    const { samplesPerFrame, skew } = signal;
    const at = (index: number) =>
      stored(
        Math.floor(index / samplesPerFrame) * frameSize + offsetInFrame + (index % samplesPerFrame),
      );
    const count = frames * samplesPerFrame;
    const samples = new Float64Array(count).fill(Number.NaN);
    let sum = 0;
    for (let index = 0; index < count; index += 1) {
      const value = at(index);
      sum = (sum + value) | 0;
      if (index >= skew && value !== invalid) {
        samples[index - skew] = (value - signal.baseline) / signal.gain;
      }
    }
    const first = count > 0 ? at(0) : null;
    problems.push(...integrityProblems(signal, header, headerFile, first, sum));
    channels.push({
      label: signal.label,
      unit: signal.unit,
      samplingRate: hertz(header.frameRate * samplesPerFrame),
      samples,
    });
    offsetInFrame += samplesPerFrame;
  }
  return problems.length > 0 ? refuse(problems) : good({ frames, channels });
}

/** Frames in a signal file, or why its size does not fit the header. */
function checkSize(
  fileBytes: number,
  file: string,
  format: 16 | 212,
  byteOffset: number,
  frameSize: number,
  expectedFrames: number | null,
): Outcome<number> {
  const available = Math.max(0, fileBytes - byteOffset);
  const problem = (byte: number, found: string, expected: string, mend: string) =>
    bad({
      kind: 'a WFDB signal file of another length',
      file,
      byte,
      field: 'samples',
      found,
      expected,
      mend,
    });
  const COPY_AGAIN = 'Copy the signal file and its header again, as a pair.';
  if (expectedFrames === null) {
    const held = format === 16 ? available / 2 : samplesIn212(available);
    const surplus = held % frameSize;
    // A writer may pad an odd count in format 212 with one sample to fill the last pair.
    const isPadding = format === 212 && surplus === 1 && frameSize > 1;
    if (held === 0 || (surplus !== 0 && !isPadding)) {
      return problem(
        fileBytes,
        `${held} samples`,
        `whole frames of ${frameSize} samples, at least one`,
        COPY_AGAIN,
      );
    }
    return good(Math.floor(held / frameSize));
  }
  const samples = expectedFrames * frameSize;
  const needed = format === 16 ? 2 * samples : bytesIn212(samples);
  const padded = format === 16 ? needed : 3 * Math.ceil(samples / 2);
  const expected = `${samples} samples = ${needed} bytes after byte ${byteOffset}`;
  if (available < needed) return problem(fileBytes, `${available} bytes`, expected, COPY_AGAIN);
  if (available > padded) {
    return problem(
      byteOffset + needed,
      `${available - needed} more bytes after the last sample`,
      expected,
      COPY_AGAIN,
    );
  }
  return good(expectedFrames);
}

/** Two samples take three bytes; an odd last one takes two (signal(5), format 212). */
const bytesIn212 = (samples: number) => Math.ceil((samples * 3) / 2);
const samplesIn212 = (bytes: number) => Math.floor((bytes * 2) / 3);

type Stored = (index: number) => number;

/** Two's complement, low byte first (signal(5), format 16). */
const stored16 =
  (bytes: Uint8Array): Stored =>
  (index) =>
    ((bytes[2 * index]! | (bytes[2 * index + 1]! << 8)) << 16) >> 16;

/**
 * Pairs of 12-bit two's complement samples in three bytes: the first has byte 0 and the low half of
 * byte 1 (as its high bits), the second byte 2 and the high half of byte 1 (signal(5), format 212).
 */
const stored212 =
  (bytes: Uint8Array): Stored =>
  (index) => {
    const pair = 3 * (index >> 1);
    const shared = bytes[pair + 1]!;
    const value =
      index % 2 === 0
        ? bytes[pair]! | ((shared & 0x0f) << 8)
        : bytes[pair + 2]! | ((shared & 0xf0) << 4);
    return (value << 20) >> 20;
  };

/** The header's own proof of the samples: the first value and the 16-bit sum (header(5)). */
function integrityProblems(
  signal: WfdbSignal,
  header: WfdbHeader,
  file: string,
  first: number | null,
  sum: number,
): Problem[] {
  const problems: Problem[] = [];
  const problem = (field: string, found: string, expected: string): void => {
    problems.push({
      kind: 'WFDB samples that were altered',
      file,
      line: signal.line,
      field,
      found,
      expected,
      mend: `Copy ${signal.fileName} and its header again, as a pair; one of them was altered.`,
    });
  };
  const { checksum, initialValue, label } = signal;
  // header(5): without the number of samples the checksum is not verified, and 0 holds its place.
  const isProof = header.frames !== null;
  if (initialValue !== null && (isProof || initialValue !== 0) && signal.skew === 0) {
    if (first !== initialValue) {
      problem('initial value', `a first sample of ${first} in "${label}"`, `${initialValue}`);
    }
  }
  const sum16 = (sum << 16) >> 16;
  if (isProof && checksum !== null && sum16 !== (checksum << 16) >> 16) {
    problem('checksum', `samples of "${label}" that add up to ${sum16}`, `${checksum}`);
  }
  return problems;
}
