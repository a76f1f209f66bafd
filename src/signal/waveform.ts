import type { Hertz, Seconds } from '../units/brands.js';

/** One recorded channel: an ECG lead, a capnogram, a pressure wave. */
export interface Channel {
  /** As the file names it, for example `II` or `ECG II`. */
  readonly label: string;
  /** As the file states it, for example `mV`; a channel without a stated unit has the empty string. */
  readonly unit: string;
  readonly samplingRate: Hertz;
  /** Physical values in `unit`; NaN where the file holds no valid sample. */
  readonly samples: Float64Array;
}

/** A remark stored in the file, at seconds after its first sample. */
export interface Annotation {
  readonly onset: Seconds;
  readonly duration: Seconds | null;
  readonly text: string;
}

/** A waveform file, whatever its format was. */
export interface Waveform {
  readonly format: 'EDF' | 'EDF+' | 'WFDB' | 'CSV';
  readonly channels: readonly Channel[];
  readonly annotations: readonly Annotation[];
  /**
   * Local wall-clock time of the first sample as `YYYY-MM-DDTHH:MM:SS[.fff]`, or as `HH:MM:SS[.fff]` where the file states no
   * date; null where it states no time.
   */
  readonly startsAt: string | null;
  readonly duration: Seconds;
}
