import type { Outcome, Problem } from '../../record/problem.js';
import { bad, good } from '../../record/problem.js';
import { refuse } from './refuse.js';
import { wallClockText } from './wall-clock.js';

/** A header file as text, with the path under which the user knows it. */
export interface HeaderText {
  readonly file: string;
  readonly text: string;
}

/** A signal line of a WFDB header (PhysioNet, header(5)). */
export interface WfdbSignal {
  /** 1-based line of the header that specifies the signal. */
  readonly line: number;
  readonly fileName: string;
  readonly format: 16 | 212;
  readonly samplesPerFrame: number;
  /** Samples of this signal that come before sample 0. */
  readonly skew: number;
  readonly byteOffset: number;
  /** Physical value = (stored value - `baseline`) / `gain`. */
  readonly gain: number;
  readonly baseline: number;
  readonly unit: string;
  readonly initialValue: number | null;
  readonly checksum: number | null;
  readonly label: string;
}

/** A WFDB header: its record line and its signal lines (PhysioNet, header(5)). */
export interface WfdbHeader {
  /** Frames a second. */
  readonly frameRate: number;
  /** Frames in the record; null where the header leaves it open. */
  readonly frames: number | null;
  readonly startsAt: string | null;
  readonly signals: readonly WfdbSignal[];
}

/** header(5): "if it is missing, a value of 250 is assumed". */
const DEFAULT_RATE = 250;
/** header(5): a gain that is zero or missing may be taken as 200 units per physical unit. */
const DEFAULT_GAIN = 200;
/** header(5): "lines (which may not contain more than 255 characters each, including the linefeed)". */
const LONGEST_LINE = 254;
const FLOAT = String.raw`[-+]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][-+]?\d+)?`;

/** Header of a one-segment record (PhysioNet, WFDB header file format, header(5)). */
export function readWfdbHeader({ file, text }: HeaderText): Outcome<WfdbHeader> {
  const problems: Problem[] = [];
  const lines = text
    .split(/\r\n|\n|\r/)
    .map((content, index) => ({ line: index + 1, content: content.trim() }))
    .filter(({ content }) => content !== '' && !content.startsWith('#'));
  const tooLong = lines.find(({ content }) => content.length > LONGEST_LINE);
  if (tooLong) {
    return bad({
      kind: 'a WFDB header that is not complete',
      file,
      line: tooLong.line,
      found: `a line of ${tooLong.content.length} characters`,
      expected: `at most ${LONGEST_LINE} characters`,
      mend: 'Copy the header file again from where the record comes from.',
    });
  }
  const [recordLine, ...signalLines] = lines;
  if (!recordLine) {
    return bad({
      kind: 'a WFDB header that is not complete',
      file,
      line: 1,
      found: 'no record line',
      expected: 'a line with record name, number of signals and sampling frequency',
      mend: 'Copy the header file again from where the record comes from.',
    });
  }
  const record = readRecordLine(recordLine.content, recordLine.line, file, problems);
  if (!record) return refuse(problems);
  if (signalLines.length < record.signalCount) {
    return bad({
      kind: 'a WFDB header that is not complete',
      file,
      line: lines.at(-1)!.line,
      field: 'number of signals',
      found: `${signalLines.length} signal lines`,
      expected: `${record.signalCount}, as line ${recordLine.line} says`,
      mend: 'Copy the header file again; its end is probably missing.',
    });
  }
  const signals: WfdbSignal[] = [];
  // header(5): "Any extra signal specification lines are not read".
  for (const [index, { line, content }] of signalLines.slice(0, record.signalCount).entries()) {
    const label = `record ${record.name}, signal ${index}`;
    const signal = readSignalLine(content, line, file, label, problems);
    if (signal) signals.push(signal);
  }
  const all = problems.concat(groupProblems(signals, file));
  if (all.length > 0) return refuse(all);
  return good({
    frameRate: record.frameRate,
    frames: record.frames,
    startsAt: record.startsAt,
    signals,
  });
}

/** The fields of a record line in their order (header(5)); "number of segments" is part of the first. */
const RECORD_FIELDS = [
  'number of segments',
  'number of signals',
  'sampling frequency',
  'number of samples per signal',
  'base time and date',
];

/** The fields of a signal line in their order (header(5)); the second says several things. */
const SIGNAL_FIELDS = [
  ['file name'],
  ['format', 'samples per frame', 'skew'],
  ['ADC gain'],
  ['ADC resolution'],
  ['ADC zero'],
  ['initial value'],
  ['checksum'],
  ['block size'],
];

/** Where a field of a line stands; a line without it has no place for it. */
function fieldPlace(content: string, index: number): Pick<Problem, 'column' | 'end'> {
  const field = [...content.matchAll(/\S+/g)][index];
  if (!field) return {};
  return { column: field.index + 1, end: field.index + 1 + field[0].length };
}

interface RecordLine {
  readonly name: string;
  readonly signalCount: number;
  readonly frameRate: number;
  readonly frames: number | null;
  readonly startsAt: string | null;
}

function readRecordLine(
  content: string,
  line: number,
  file: string,
  problems: Problem[],
): RecordLine | null {
  const [name = '', signalCount = '', rate, frames, time, date] = content.split(/[ \t]+/);
  const report = (field: string, found: string, expected: string, mend: string): null => {
    problems.push({
      kind: 'a WFDB record line that is not understood',
      file,
      line,
      ...fieldPlace(content, RECORD_FIELDS.indexOf(field)),
      field,
      found,
      expected,
      mend,
    });
    return null;
  };
  const MEND = 'Correct the record line or copy the header file again.';
  if (name.includes('/')) {
    return report(
      'number of segments',
      `the record "${name}", made of several segments`,
      'a record of one segment',
      'Name the header of one segment in the case record.',
    );
  }
  if (!/^\d+$/.test(signalCount) || Number(signalCount) === 0) {
    return report('number of signals', `"${signalCount}"`, 'a whole number, at least 1', MEND);
  }
  const frequency =
    rate === undefined
      ? [String(DEFAULT_RATE), String(DEFAULT_RATE)]
      : new RegExp(`^(${FLOAT})(?:/${FLOAT}(?:\\(${FLOAT}\\))?)?$`).exec(rate);
  const frameRate = Number(frequency?.[1]);
  if (!(frameRate > 0) || !Number.isFinite(frameRate)) {
    return report('sampling frequency', `"${rate}"`, 'a number above 0, for example 360', MEND);
  }
  if (frames !== undefined && !/^\d+$/.test(frames)) {
    return report('number of samples per signal', `"${frames}"`, 'a whole number', MEND);
  }
  const startsAt = time === undefined ? null : startOf(time, date);
  if (time !== undefined && date !== undefined && startsAt === null) {
    return report('base time and date', `"${time} ${date}"`, 'HH:MM:SS DD/MM/YYYY', MEND);
  }
  return {
    name,
    signalCount: Number(signalCount),
    frameRate,
    frames: frames === undefined || Number(frames) === 0 ? null : Number(frames),
    startsAt,
  };
}

/** header(5) takes this time where none is stated, so without a date it states nothing. */
const UNSTATED = '00:00:00';

/** Date and time, or the time alone where there is no date; null where they are not understood. */
function startOf(time: string, date: string | undefined): string | null {
  if (date === undefined) {
    // Any day serves: only the time is kept.
    const alone = startOf(time, '01/01/2000')?.split('T')[1] ?? null;
    return alone === UNSTATED ? null : alone;
  }
  const clock = /^(\d{1,2}):(\d{1,2}):(\d{1,2})(\.\d+)?$/.exec(time);
  const day = /^(\d{1,2})\/(\d{1,2})\/(\d{4})$/.exec(date);
  if (!clock || !day) return null;
  return wallClockText(
    {
      year: Number(day[3]),
      month: Number(day[2]),
      day: Number(day[1]),
      hour: Number(clock[1]),
      minute: Number(clock[2]),
      second: Number(clock[3]),
    },
    Number(clock[4] ?? 0),
  );
}

function readSignalLine(
  content: string,
  line: number,
  file: string,
  defaultLabel: string,
  problems: Problem[],
): WfdbSignal | null {
  const before = problems.length;
  const report = (field: string, found: string, expected: string, mend?: string): void => {
    problems.push({
      kind: 'a WFDB signal line that is not understood',
      file,
      line,
      ...fieldPlace(
        content,
        SIGNAL_FIELDS.findIndex((names) => names.includes(field)),
      ),
      field,
      found,
      expected,
      mend: mend ?? 'Correct this signal line or copy the header file again.',
    });
  };
  // The description is all that follows the eighth field, spaces included.
  const fields = /^(\S+)((?:[ \t]+\S+){0,7})(?:[ \t]+(.*))?$/.exec(content);
  const fileName = fields?.[1] ?? '';
  const [format = '', gain, resolution, zero, initialValue, checksum, blockSize] = (
    fields?.[2] ?? ''
  )
    .trim()
    .split(/[ \t]+/);
  const label = fields?.[3]?.trim() || defaultLabel;

  if (!isPlainFileName(fileName)) {
    report(
      'file name',
      `"${fileName}"`,
      'the name of a file beside the header, without a folder',
      'Put the signal file beside its header and write only its name here.',
    );
  }
  const form = /^(\d+)(?:x(\d+))?(?::(\d+))?(?:\+(\d+))?$/.exec(format);
  if (!form) report('format', `"${format}"`, 'a format such as 16, 212, 16x2 or 16+512');
  const code = Number(form?.[1]);
  if (form && code !== 16 && code !== 212) {
    report(
      'format',
      `the storage format ${code}`,
      'format 16 or 212',
      'Convert the record to format 16 or 212, or export it as EDF.',
    );
  }
  const samplesPerFrame = Number(form?.[2] ?? 1);
  const skew = Number(form?.[3] ?? 0);
  if (samplesPerFrame === 0) report('samples per frame', '0', 'at least 1');
  if (skew > 0 && samplesPerFrame > 1) {
    // header(5) counts a skew in samples without saying of which rate.
    report(
      'skew',
      `a skew of ${skew} with ${samplesPerFrame} samples per frame`,
      'a skew only on a signal with one sample per frame',
      'Convert the record so that each signal has a file of its own.',
    );
  }
  const scale = new RegExp(`^(${FLOAT})(?:\\(([-+]?\\d+)\\))?(?:/(\\S+))?$`).exec(gain ?? '0');
  if (!scale || !Number.isFinite(Number(scale[1]))) {
    report('ADC gain', `"${gain}"`, 'units per physical unit, for example 200(0)/mV');
  }
  const whole = (field: string, value: string | undefined): number | null => {
    if (value === undefined) return null;
    if (/^[-+]?\d{1,15}$/.test(value)) return Number(value);
    report(field, `"${value}"`, 'a whole number');
    return null;
  };
  whole('ADC resolution', resolution);
  const adcZero = whole('ADC zero', zero) ?? 0;
  const initial = whole('initial value', initialValue);
  const sum = whole('checksum', checksum);
  whole('block size', blockSize);
  if (problems.length > before || !scale) return null;
  return {
    line,
    fileName,
    format: code === 16 ? 16 : 212,
    samplesPerFrame,
    skew,
    byteOffset: Number(form?.[4] ?? 0),
    gain: Number(scale[1]) || DEFAULT_GAIN,
    baseline: scale[2] === undefined ? adcZero : Number(scale[2]),
    unit: scale[3] ?? 'mV',
    initialValue: initial,
    checksum: sum,
    label,
  };
}

/** A name that cannot lead out of the header's folder; "-" and "~" are no files at all in header(5). */
const isPlainFileName = (name: string): boolean =>
  /^[^/\\:\0]+$/.test(name) && !['.', '..', '-', '~'].includes(name);

/** Signals that share a file stand on lines in a row and share format and preamble (header(5)). */
function groupProblems(signals: readonly WfdbSignal[], file: string): Problem[] {
  const problems: Problem[] = [];
  const firstOf = new Map<string, WfdbSignal>();
  for (const [index, signal] of signals.entries()) {
    const first = firstOf.get(signal.fileName);
    if (!first) {
      firstOf.set(signal.fileName, signal);
      continue;
    }
    const place = {
      kind: 'a WFDB signal line that is not understood',
      file,
      line: signal.line,
      mend: 'Correct the header or copy it again.',
    } as const;
    if (signals[index - 1]?.fileName !== signal.fileName) {
      problems.push({
        ...place,
        field: 'file name',
        found: `"${signal.fileName}" again, after signals of another file`,
        expected: 'all signals of one file on lines in a row',
      });
    }
    if (signal.format !== first.format || signal.byteOffset !== first.byteOffset) {
      problems.push({
        ...place,
        field: 'format',
        found: `format ${signal.format}+${signal.byteOffset}`,
        expected: `${first.format}+${first.byteOffset}, as on line ${first.line} for the same file`,
      });
    }
  }
  return problems;
}
