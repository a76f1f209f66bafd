/** Writes EDF files byte by byte for tests, field by field as the specification lists them (Kemp 1992). */
interface EdfSignalParts {
  label: string;
  dimension?: string;
  physicalMin?: string;
  physicalMax?: string;
  digitalMin?: string;
  digitalMax?: string;
  /** As the header states it; by default the length of the first data record's data. */
  samplesPerRecord?: string;
  /** One entry a data record: stored values, or the text of an annotation signal (`bytes` long). */
  data: readonly (readonly number[] | string)[];
  /** Bytes an annotation signal takes in each data record. */
  bytes?: number;
}

export interface EdfParts {
  version?: string;
  patient?: string;
  recording?: string;
  startdate?: string;
  starttime?: string;
  headerBytes?: string;
  reserved?: string;
  records?: string;
  duration?: string;
  signalCount?: string;
  signals: readonly EdfSignalParts[];
}

export function buildEdf(parts: EdfParts): Uint8Array {
  const { signals } = parts;
  const records = signals[0]?.data.length ?? 0;
  const width = (signal: EdfSignalParts) => signal.bytes ?? 2 * (signal.data[0]?.length ?? 0);
  const column = (size: number, text: (signal: EdfSignalParts) => string) =>
    signals.map((signal) => pad(text(signal), size)).join('');
  const header = [
    pad(parts.version ?? '0', 8),
    pad(parts.patient ?? 'X X X X', 80),
    pad(parts.recording ?? 'Startdate X X X X', 80),
    pad(parts.startdate ?? '02.03.26', 8),
    pad(parts.starttime ?? '09.15.00', 8),
    pad(parts.headerBytes ?? `${256 * (signals.length + 1)}`, 8),
    pad(parts.reserved ?? '', 44),
    pad(parts.records ?? `${records}`, 8),
    pad(parts.duration ?? '1', 8),
    pad(parts.signalCount ?? `${signals.length}`, 4),
    column(16, (signal) => signal.label),
    column(80, () => ''),
    column(8, (signal) => signal.dimension ?? ''),
    column(8, (signal) => signal.physicalMin ?? '-1'),
    column(8, (signal) => signal.physicalMax ?? '1'),
    column(8, (signal) => signal.digitalMin ?? '-32768'),
    column(8, (signal) => signal.digitalMax ?? '32767'),
    column(80, () => ''),
    column(8, (signal) => signal.samplesPerRecord ?? `${width(signal) / 2}`),
    column(32, () => ''),
  ].join('');
  const bytes = [...Buffer.from(header, 'latin1')];
  for (let record = 0; record < records; record += 1) {
    for (const signal of signals) {
      const data = signal.data[record]!;
      if (typeof data === 'string') {
        const text = Buffer.from(data, 'utf-8');
        bytes.push(...text, ...new Array<number>(width(signal) - text.length).fill(0));
      } else {
        for (const value of data) bytes.push(value & 0xff, (value >> 8) & 0xff);
      }
    }
  }
  return Uint8Array.from(bytes);
}

const pad = (text: string, size: number) => text.padEnd(size).slice(0, size);

/** A time-stamped annotation list of EDF+ 2.2.2; `remarks(0, '')` keeps a data record's time. */
export const remarks = (onset: string, ...texts: readonly string[]) =>
  `${onset}\x14${texts.map((text) => `${text}\x14`).join('')}\0`;
