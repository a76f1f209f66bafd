import type { Outcome, Problem } from '../../record/problem.js';
import { bad, good } from '../../record/problem.js';
import { refuse } from './refuse.js';
import type { WallClock } from './wall-clock.js';
import { wallClockText } from './wall-clock.js';

/** One signal of a data record; an annotation signal carries text in place of samples. */
interface EdfSignal {
  readonly label: string;
  readonly unit: string;
  readonly isAnnotations: boolean;
  /** Physical value = `offset` + `gain` * stored value. */
  readonly gain: number;
  readonly offset: number;
  /** 16-bit words in each data record. */
  readonly samplesPerRecord: number;
  /** Bytes from the start of a data record to this signal. */
  readonly byteInRecord: number;
}

/** The header of an EDF or EDF+ file (Kemp 1992; Kemp and Olivan 2003). */
export interface EdfHeader {
  readonly kind: 'EDF' | 'EDF+C' | 'EDF+D';
  /** Null where the header says that the date is not known. */
  readonly start: WallClock | null;
  readonly headerBytes: number;
  readonly recordBytes: number;
  readonly records: number;
  /** Seconds. */
  readonly recordDuration: number;
  readonly signals: readonly EdfSignal[];
}

/** Name and width in bytes of each header field, in file order (EDF, Kemp 1992, header record). */
const FIXED_FIELDS = {
  version: 8,
  patient: 80,
  recording: 80,
  startdate: 8,
  starttime: 8,
  'bytes in header record': 8,
  reserved: 44,
  'number of data records': 8,
  'duration of a data record': 8,
  'number of signals': 4,
} as const;
const SIGNAL_FIELDS = {
  label: 16,
  transducer: 80,
  'physical dimension': 8,
  'physical minimum': 8,
  'physical maximum': 8,
  'digital minimum': 8,
  'digital maximum': 8,
  prefiltering: 80,
  'samples in each data record': 8,
  reserved: 32,
} as const;
const BLOCK = 256;

const EXPORT_AGAIN = 'Export the recording again from the device or program that made it.';
const COPY_AGAIN = 'Copy the file again from the device; it was probably cut off or altered.';

interface Field {
  readonly name: string;
  readonly byte: number;
  readonly text: string;
}

/** Header of an EDF or EDF+ file (Kemp 1992; Kemp and Olivan 2003), checked against the file's size. */
export function readEdfHeader(bytes: Uint8Array, file: string): Outcome<EdfHeader> {
  const problems: Problem[] = [];
  const at = (field: Field, found: string, expected: string, mend = EXPORT_AGAIN): void => {
    problems.push({
      kind: 'an EDF header field that is not understood',
      file,
      byte: field.byte,
      field: field.name,
      found,
      expected,
      mend,
    });
  };
  const quoted = (field: Field) => `"${field.text}"`;
  const read = (name: string, byte: number, width: number): Field => ({
    name,
    byte,
    text: headerText(bytes.subarray(byte, byte + width)),
  });
  const number = (field: Field, expected: string, pattern = /^[+-]?\d+(\.\d*)?$/): number => {
    const value = pattern.test(field.text) ? Number(field.text) : Number.NaN;
    if (!Number.isFinite(value)) at(field, quoted(field), expected);
    return value;
  };
  const count = (field: Field, expected: string) => number(field, expected, /^\d+$/);

  if (bytes.length < BLOCK) {
    return bad({
      kind: 'an EDF header that is cut short',
      file,
      byte: bytes.length,
      field: 'header',
      found: `a file of ${bytes.length} bytes`,
      expected: `an EDF header of at least ${BLOCK} bytes`,
      mend: COPY_AGAIN,
    });
  }
  const fixed = fixedField(read);

  const version = fixed('version');
  if (version.text !== '0') {
    const hint = bytes[0] === 0xff ? 'a 24-bit BDF file' : quoted(version);
    at(version, hint, 'the version "0" of EDF and EDF+', 'Export the recording as EDF or EDF+.');
    return refuse(problems);
  }
  const reserved = fixed('reserved');
  const kind = kindOf(reserved.text);

  const signalCount = count(fixed('number of signals'), 'a whole number from 1 to 9999');
  if (signalCount === 0) at(fixed('number of signals'), 'no signals', 'at least one signal');
  const headerBytes = count(fixed('bytes in header record'), 'a whole number of bytes');
  if (problems.length > 0) return refuse(problems);
  if (headerBytes !== BLOCK * (signalCount + 1)) {
    at(
      fixed('bytes in header record'),
      `${headerBytes} bytes for ${signalCount} signals`,
      `${BLOCK} * (signals + 1) = ${BLOCK * (signalCount + 1)} bytes`,
    );
    return refuse(problems);
  }
  if (bytes.length < headerBytes) {
    return bad({
      kind: 'an EDF header that is cut short',
      file,
      byte: bytes.length,
      field: 'header',
      found: `a file of ${bytes.length} bytes`,
      expected: `a header of ${headerBytes} bytes, as byte 184 says`,
      mend: COPY_AGAIN,
    });
  }

  const records = number(fixed('number of data records'), 'a whole number', /^-?\d+$/);
  if (records < 0) {
    at(
      fixed('number of data records'),
      `${records}, which marks a recording that was never closed`,
      'the number of data records, at least 1',
      'End the recording on the device, then export it again.',
    );
  } else if (records === 0) {
    at(fixed('number of data records'), 'no data records', 'at least 1 data record');
  }
  const recordDuration = number(
    fixed('duration of a data record'),
    'seconds as a decimal number, for example "1" or "0.5"',
    /^\d+(\.\d*)?$/,
  );

  const signals: EdfSignal[] = [];
  let byteInRecord = 0;
  for (let index = 0; index < signalCount; index += 1) {
    const field = signalField(read, signalCount, index);
    const label = field('label').text;
    const isAnnotations = kind !== 'EDF' && label === 'EDF Annotations';
    const samplesField = field('samples in each data record');
    const samplesPerRecord = count(samplesField, 'a whole number, at least 1');
    if (samplesPerRecord === 0) at(samplesField, '0 samples', 'at least 1 sample');
    const scale = isAnnotations ? { gain: 1, offset: 0 } : scaleOf(field, number, at);
    signals.push({
      label,
      unit: field('physical dimension').text,
      isAnnotations,
      ...scale,
      samplesPerRecord,
      byteInRecord,
    });
    byteInRecord += 2 * samplesPerRecord;
  }
  if (recordDuration === 0 && signals.some((signal) => !signal.isAnnotations)) {
    at(
      fixed('duration of a data record'),
      '0 s',
      'more than 0 s, because the sampling rate is samples per record / duration',
    );
  }
  if (kind === 'EDF+D' && !signals.some((signal) => signal.isAnnotations)) {
    at(
      reserved,
      'EDF+D (with interruptions) but no "EDF Annotations" signal',
      'an "EDF Annotations" signal that says when each data record starts',
    );
  }
  const start = startOf(fixed, kind, at);
  if (problems.length > 0) return refuse(problems);

  const expectedBytes = headerBytes + records * byteInRecord;
  if (bytes.length !== expectedBytes) {
    const cut = bytes.length < expectedBytes;
    return bad({
      kind: 'an EDF file of another length',
      file,
      byte: Math.min(bytes.length, expectedBytes),
      field: 'data records',
      found: cut
        ? `the file ends after ${bytes.length} bytes`
        : `${bytes.length - expectedBytes} more bytes after the last data record`,
      expected: `${headerBytes} header bytes + ${records} data records of ${byteInRecord} bytes = ${expectedBytes} bytes`,
      mend: cut ? COPY_AGAIN : EXPORT_AGAIN,
    });
  }
  return good({
    kind,
    start,
    headerBytes,
    recordBytes: byteInRecord,
    records,
    recordDuration,
    signals,
  });
}

type Read = (name: string, byte: number, width: number) => Field;
type Report = (field: Field, found: string, expected: string, mend?: string) => void;

const fixedField = (read: Read) => (name: keyof typeof FIXED_FIELDS) =>
  read(name, offsetOf(FIXED_FIELDS, name), FIXED_FIELDS[name]);

/** All signals' labels come first, then all transducers, and so on. */
const signalField =
  (read: Read, signals: number, index: number) => (name: keyof typeof SIGNAL_FIELDS) =>
    read(
      `${name} of signal ${index + 1}`,
      BLOCK + signals * offsetOf(SIGNAL_FIELDS, name) + index * SIGNAL_FIELDS[name],
      SIGNAL_FIELDS[name],
    );

function offsetOf(widths: Readonly<Record<string, number>>, name: string): number {
  let offset = 0;
  for (const [key, width] of Object.entries(widths)) {
    if (key === name) break;
    offset += width;
  }
  return offset;
}

/** EDF asks for ASCII, yet units such as "µV" come as UTF-8 or Latin-1 in practice. */
function headerText(bytes: Uint8Array): string {
  let text: string;
  try {
    text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    text = new TextDecoder('latin1').decode(bytes);
  }
  return text.replace(/^[\s\0]+|[\s\0]+$/g, '');
}

const kindOf = (reserved: string): EdfHeader['kind'] => {
  if (reserved.startsWith('EDF+C')) return 'EDF+C';
  return reserved.startsWith('EDF+D') ? 'EDF+D' : 'EDF';
};

/** Some programs write a physical range as "1E+3", which has only one meaning. */
const PHYSICAL = /^[+-]?(\d+(\.\d*)?|\.\d+)([eE][+-]?\d+)?$/;

/**
 * The line through (digital minimum, physical minimum) and (digital maximum, physical maximum).
 * A stored value outside the digital range stays on the line: the calibration holds there too.
 */
function scaleOf(
  field: ReturnType<typeof signalField>,
  number: (field: Field, expected: string, pattern?: RegExp) => number,
  at: Report,
): { gain: number; offset: number } {
  const decimal = 'a decimal number, for example "-3.2"';
  const physicalMin = number(field('physical minimum'), decimal, PHYSICAL);
  const physicalMax = number(field('physical maximum'), decimal, PHYSICAL);
  const whole = 'a whole number from -32768 to 32767';
  const digitalMin = number(field('digital minimum'), whole, /^[+-]?\d+$/);
  const digitalMax = number(field('digital maximum'), whole, /^[+-]?\d+$/);
  if (digitalMin < -32768) at(field('digital minimum'), `${digitalMin}`, whole);
  if (digitalMax > 32767) at(field('digital maximum'), `${digitalMax}`, whole);
  if (digitalMax <= digitalMin) {
    at(field('digital maximum'), `${digitalMax}`, `more than the digital minimum, ${digitalMin}`);
  }
  if (physicalMax === physicalMin) {
    at(
      field('physical maximum'),
      `${physicalMax}, the same as the physical minimum`,
      'another value, because equal ends give no scale',
    );
  }
  const gain = (physicalMax - physicalMin) / (digitalMax - digitalMin);
  if (Math.abs(gain) === Number.POSITIVE_INFINITY && digitalMax > digitalMin) {
    at(field('physical maximum'), `${physicalMax}`, 'a physical range that a number can hold');
  }
  return { gain, offset: physicalMin - gain * digitalMin };
}

const MONTHS = 'JAN FEB MAR APR MAY JUN JUL AUG SEP OCT NOV DEC'.split(' ');

/**
 * Date and time of the start. EDF+ states the full year in the recording field ("Startdate
 * 02-MAR-2026"); the 8-character field has two digits, where 85 to 99 mean 1985 to 1999 and 00 to
 * 84 mean 2000 to 2084 (EDF+ 2.1.3, items 2 and 4). 01.01.85 comes before the format itself, so it
 * stands for a date that was removed.
 */
function startOf(
  fixed: (name: keyof typeof FIXED_FIELDS) => Field,
  kind: EdfHeader['kind'],
  at: Report,
): WallClock | null {
  const shortField = fixed('startdate');
  const recording = fixed('recording');
  const long =
    kind === 'EDF' ? null : /^Startdate (\d\d)-([A-Z]{3})-(\d{4})(?= |$)/i.exec(recording.text);
  const longDate = long && {
    year: Number(long[3]),
    month: MONTHS.indexOf(long[2]!.toUpperCase()) + 1,
    day: Number(long[1]),
  };
  const short = /^(\d\d)\.(\d\d)\.(\d\d)$/.exec(shortField.text);
  const removed = shortField.text === '' || shortField.text === '01.01.85';
  const shortYear = Number(short?.[3]);
  const shortDate = short && {
    year: shortYear + (shortYear >= 85 ? 1900 : 2000),
    month: Number(short[2]),
    day: Number(short[1]),
  };

  const midnight = { hour: 0, minute: 0, second: 0 };
  if (longDate && wallClockText({ ...longDate, ...midnight }) === null) {
    at(recording, `"${long[0]}"`, 'a date of the calendar as "Startdate dd-MMM-yyyy"');
    return null;
  }
  // After 2084 the two digits are the letters "yy".
  const lettersForYear = longDate !== null && /^\d\d\.\d\d\.yy$/i.test(shortField.text);
  const shortIsSound = shortDate && wallClockText({ ...shortDate, ...midnight }) !== null;
  if (!removed && !lettersForYear && !shortIsSound) {
    at(shortField, `"${shortField.text}"`, 'a date of the calendar as dd.mm.yy');
    return null;
  }
  if (
    longDate &&
    shortDate &&
    !removed &&
    (longDate.day !== shortDate.day ||
      longDate.month !== shortDate.month ||
      longDate.year % 100 !== shortDate.year % 100)
  ) {
    at(
      shortField,
      `"${shortField.text}", while the recording field says "${long[0]}"`,
      'the same start date in both places',
    );
    return null;
  }
  const date = longDate ?? (removed ? null : shortDate);
  if (!date) return null;

  const timeField = fixed('starttime');
  const time = /^(\d\d)\.(\d\d)\.(\d\d)$/.exec(timeField.text);
  const clock = {
    ...date,
    hour: Number(time?.[1]),
    minute: Number(time?.[2]),
    second: Number(time?.[3]),
  };
  if (!time || wallClockText(clock) === null) {
    at(timeField, `"${timeField.text}"`, 'a time of day as hh.mm.ss');
    return null;
  }
  return clock;
}
