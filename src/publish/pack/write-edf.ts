export interface EdfSignal {
  readonly label: string;
  /** Physical dimension, for example `mV`. */
  readonly unit: string;
  /** Hz; times `recordSeconds` it must be a whole number. */
  readonly samplingRate: number;
  /** Physical values in `unit`; values beyond the range are held at its edge. */
  readonly samples: Float64Array;
  readonly physicalMin: number;
  readonly physicalMax: number;
  readonly digitalMin: number;
  readonly digitalMax: number;
  readonly transducer?: string;
  readonly prefiltering?: string;
}

export interface EdfAnnotation {
  /** s from the first sample. */
  readonly onset: number;
  /** s; left out where the event has no length. */
  readonly duration?: number;
  readonly text: string;
}

export interface EdfContent {
  /** `YYYY-MM-DDTHH:MM:SS`, local time, years 1985 to 2084; null where the date must not be told. */
  readonly startsAt: string | null;
  /** Defaults to `X X X X`: code, sex, birth date and name all unknown. */
  readonly patient?: string;
  readonly signals: readonly EdfSignal[];
  /** Defaults to 1 s. */
  readonly recordSeconds?: number;
  /** Given, even empty, they make the file EDF+C; left out, it is plain EDF. */
  readonly annotations?: readonly EdfAnnotation[];
}

/**
 * An EDF file (Kemp et al. 1992) or an uninterrupted EDF+ file (Kemp and Olivan 2003), written from
 * those specifications. The signals must last a whole number of records. Throws RangeError where the
 * content cannot be told in the format.
 */
export function writeEdf(content: EdfContent): Uint8Array {
  const recordSeconds = content.recordSeconds ?? 1;
  const first = content.signals[0];
  if (!first) throw new RangeError('An EDF file needs a signal');
  const records = Math.round(first.samples.length / (first.samplingRate * recordSeconds));
  const columns = content.signals.map((signal) => columnOf(signal, recordSeconds, records));
  if (content.annotations) {
    columns.push(annotationColumn(content.annotations, recordSeconds, records));
  }
  const header = headerOf(content, columns, records, recordSeconds);
  const bodies = Array.from({ length: records }, (_, i) =>
    columns.map((column) => column.record(i)),
  );
  return concatenated([header, ...bodies.flat()]);
}

/** One signal as the header and the data records need it. */
interface Column {
  readonly label: string;
  readonly transducer: string;
  readonly unit: string;
  readonly physical: readonly [string, string];
  readonly digital: readonly [string, string];
  readonly prefiltering: string;
  readonly samplesInRecord: number;
  readonly record: (index: number) => Uint8Array;
}

/**
 * Start as the header tells it: recording field, date, time. Parts that must be made anonymous are a single X (EDF+,
 * 2.1.3, item 4); the short date field has no X, so it holds its clipping date (item 2), on which no such file was made.
 */
function startFields(startsAt: string | null): readonly [long: string, date: string, time: string] {
  if (startsAt === null) return ['Startdate X X X X', '01.01.85', '00.00.00'];
  const found = /^(\d{4})-(\d\d)-(\d\d)T(\d\d):(\d\d):(\d\d)$/.exec(startsAt);
  if (!found) throw new RangeError(`Not a time as YYYY-MM-DDTHH:MM:SS: ${startsAt}`);
  const [, year = '', month, day, hour, minute, second] = found;
  return [
    `Startdate ${day}-${MONTHS[Number(month) - 1]}-${year} X X X`,
    `${day}.${month}.${year.slice(2)}`,
    `${hour}.${minute}.${second}`,
  ];
}

const MONTHS = 'JAN FEB MAR APR MAY JUN JUL AUG SEP OCT NOV DEC'.split(' ');

function headerOf(
  content: EdfContent,
  columns: readonly Column[],
  records: number,
  recordSeconds: number,
): Uint8Array {
  const [startdate, date, time] = startFields(content.startsAt);
  const each = (width: number, of: (column: Column) => string): string =>
    columns.map((column) => field(of(column), width)).join('');
  return ascii(
    [
      field('0', 8),
      field(content.patient ?? 'X X X X', 80),
      field(startdate, 80),
      date,
      time,
      field(String(256 * (columns.length + 1)), 8),
      field(content.annotations ? 'EDF+C' : '', 44),
      field(String(records), 8),
      field(String(recordSeconds), 8),
      field(String(columns.length), 4),
      each(16, ({ label }) => label),
      each(80, ({ transducer }) => transducer),
      each(8, ({ unit }) => unit),
      each(8, ({ physical }) => physical[0]),
      each(8, ({ physical }) => physical[1]),
      each(8, ({ digital }) => digital[0]),
      each(8, ({ digital }) => digital[1]),
      each(80, ({ prefiltering }) => prefiltering),
      each(8, ({ samplesInRecord }) => String(samplesInRecord)),
      each(32, () => ''),
    ].join(''),
  );
}

function columnOf(signal: EdfSignal, recordSeconds: number, records: number): Column {
  const samplesInRecord = signal.samplingRate * recordSeconds;
  if (!Number.isInteger(samplesInRecord) || signal.samples.length !== samplesInRecord * records) {
    throw new RangeError(`${signal.label} does not fill ${records} records of ${recordSeconds} s`);
  }
  const step = (signal.physicalMax - signal.physicalMin) / (signal.digitalMax - signal.digitalMin);
  const digitise = (value: number): number => {
    if (Number.isNaN(value)) throw new RangeError(`${signal.label}: EDF has no missing sample`);
    const digital = signal.digitalMin + Math.round((value - signal.physicalMin) / step);
    return Math.min(signal.digitalMax, Math.max(signal.digitalMin, digital));
  };
  return {
    label: signal.label,
    transducer: signal.transducer ?? '',
    unit: signal.unit,
    physical: [String(signal.physicalMin), String(signal.physicalMax)],
    digital: [String(signal.digitalMin), String(signal.digitalMax)],
    prefiltering: signal.prefiltering ?? '',
    samplesInRecord,
    record: (index) => {
      const bytes = new DataView(new ArrayBuffer(2 * samplesInRecord));
      for (let i = 0; i < samplesInRecord; i += 1) {
        bytes.setInt16(2 * i, digitise(signal.samples[index * samplesInRecord + i]!), true);
      }
      return new Uint8Array(bytes.buffer);
    },
  };
}

/** Each record opens with the list that keeps its time, then lists what begins within it. */
function annotationColumn(
  annotations: readonly EdfAnnotation[],
  recordSeconds: number,
  records: number,
): Column {
  const last = records - 1;
  const lists = Array.from({ length: records }, (_, i) => {
    const within = annotations.filter(
      ({ onset }) => Math.min(last, Math.max(0, Math.floor(onset / recordSeconds))) === i,
    );
    return utf8([timeKeeping(i * recordSeconds), ...within.map(annotationList)].join(''));
  });
  const size = 2 * Math.ceil(Math.max(...lists.map(({ length }) => length)) / 2);
  return {
    label: 'EDF Annotations',
    transducer: '',
    unit: '',
    physical: ['-1', '1'],
    digital: ['-32768', '32767'],
    prefiltering: '',
    samplesInRecord: size / 2,
    record: (index) => {
      const bytes = new Uint8Array(size);
      bytes.set(lists[index]!);
      return bytes;
    },
  };
}

function timeKeeping(seconds: number): string {
  return `${signed(seconds)}\x14\x14\x00`;
}

function annotationList({ onset, duration, text }: EdfAnnotation): string {
  const lasting = duration === undefined ? '' : `\x15${decimal(duration)}`;
  return `${signed(onset)}${lasting}\x14${text}\x14\x00`;
}

function signed(seconds: number): string {
  return seconds < 0 ? decimal(seconds) : `+${decimal(seconds)}`;
}

/** At most a millisecond's detail, no exponent. */
function decimal(seconds: number): string {
  return String(Number(seconds.toFixed(3)));
}

function field(text: string, width: number): string {
  if (text.length > width) throw new RangeError(`"${text}" is longer than ${width} characters`);
  return text.padEnd(width, ' ');
}

function ascii(text: string): Uint8Array {
  if (/[^\x20-\x7e]/.test(text)) throw new RangeError('An EDF header is printable US-ASCII');
  return utf8(text);
}

function utf8(text: string): Uint8Array {
  return new TextEncoder().encode(text);
}

function concatenated(parts: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}
