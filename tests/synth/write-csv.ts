export interface CsvColumn {
  /** As the heading names it, for example `II`. */
  readonly label: string;
  readonly unit: string;
  /** NaN makes an empty cell. */
  readonly samples: Float64Array;
}

/**
 * A waveform table (RFC 4180 with LF line ends): `time [s]`, then a column a signal, three decimals.
 * The columns must have one length; time is the sample number over `samplingRate` Hz.
 */
export function writeCsv(samplingRate: number, columns: readonly CsvColumn[]): Uint8Array {
  const length = columns[0]?.samples.length ?? 0;
  const headings = ['time [s]', ...columns.map(({ label, unit }) => `${label} [${unit}]`)];
  const lines = Array.from({ length }, (_, i) =>
    [i / samplingRate, ...columns.map(({ samples }) => samples[i]!)].map(cell).join(','),
  );
  return new Uint8Array(Buffer.from(`${[headings.join(','), ...lines].join('\n')}\n`, 'ascii'));
}

function cell(value: number): string {
  if (Number.isNaN(value)) return '';
  const text = value.toFixed(3);
  return text === '-0.000' ? '0.000' : text;
}
