import type { ReadStrip } from '../../facts/strip.js';
import { statedBreaths } from '../../signal/breath/stated-breaths.js';
import { ecgText, leadName } from '../../signal/lead-name.js';
import { toMillivolt } from '../../signal/millivolt.js';
import type { Channel } from '../../signal/waveform.js';
import { writeEdf } from './write-edf.js';
import { writeWfdb } from './write-wfdb.js';

/** A strip without its own header: the samples, under labels of the trade alone. */
export interface StripFiles {
  /** Labels in the order of the EDF+ file. */
  readonly channels: readonly string[];
  /** Null where EDF+ cannot hold the samples. */
  readonly edf: Uint8Array | null;
  /** Samples a channel at the end that fill no record of the EDF+ file, in seconds. */
  readonly cut: number;
  readonly hea: Uint8Array;
  readonly dat: Uint8Array;
}

/** Units of chest impedance as plain ASCII, as EDF asks. */
const ASCII_UNITS: Readonly<Record<string, string>> = {
  ohm: 'Ohm',
  '\u03a9': 'Ohm',
  '\u2126': 'Ohm',
};

/**
 * A strip as EDF+ and WFDB. Nothing of the old file's header or remarks goes along: of the remarks only the marks of
 * single breaths are kept, as the word "breath".
 * @param strip its channels bear the names of the trade (`signal/channel-names`)
 * @param name of the WFDB record: letters, digits, underscores
 */
export function stripFiles({ waveform, lead }: ReadStrip, name: string): StripFiles {
  const read = { ...lead, label: ecgText(lead.label) };
  const others = waveform.channels.flatMap((channel): Channel[] => {
    if (channel.label === lead.label) return [];
    if (leadName(channel.label) === null) {
      return [{ ...channel, unit: ASCII_UNITS[channel.unit] ?? channel.unit }];
    }
    const millivolt = toMillivolt(channel, '');
    return millivolt.ok ? [{ ...millivolt.value, label: ecgText(channel.label) }] : [];
  });
  const channels = [read, ...others];
  const layout = channels.some(({ samples }) => samples.some(Number.isNaN))
    ? null
    : recordLayout(channels);
  return {
    channels: channels.map(({ label }) => label),
    edf: layout && edfOf(channels, layout, statedBreaths(waveform.annotations)),
    cut: layout ? lead.samples.length / lead.samplingRate - layout.records * layout.seconds : 0,
    ...wfdbOf(
      channels.filter(
        ({ label, samplingRate, samples }) =>
          label.startsWith('ECG') &&
          samplingRate === lead.samplingRate &&
          samples.length === lead.samples.length,
      ),
      name,
    ),
  };
}

interface Layout {
  readonly seconds: number;
  readonly records: number;
}

/** Lengths of a record that are tried in turn, s. Not a clinical number. */
const SECONDS = [1, 2, 4, 5, 0.5, 0.4, 0.25, 0.2, 0.1];
/** EDF asks for at most this many bytes in a record. Not a clinical number. */
const LARGEST_RECORD = 61_440;

/** The records that hold all samples of all channels; else those of 1 s, which may leave a rest; null where none fit. */
function recordLayout(channels: readonly Channel[]): Layout | null {
  const fits = (seconds: number) =>
    channels.every(({ samplingRate }) => Number.isInteger(round(samplingRate * seconds))) &&
    channels.reduce((sum, { samplingRate }) => sum + 2 * samplingRate * seconds, 0) <
      LARGEST_RECORD;
  const whole = SECONDS.filter(fits)
    .map((seconds) => ({ seconds, counts: channels.map((one) => recordsOf(one, seconds)) }))
    .find(({ counts }) => counts.every((n) => Number.isInteger(n) && n === counts[0]));
  if (whole) return { seconds: whole.seconds, records: whole.counts[0] as number };
  const [seconds] = SECONDS.filter(fits);
  if (seconds === undefined) return null;
  const records = Math.floor(Math.min(...channels.map((one) => recordsOf(one, seconds))));
  return records > 0 ? { seconds, records } : null;
}

const recordsOf = ({ samples, samplingRate }: Channel, seconds: number): number =>
  round(samples.length / (samplingRate * seconds));

/** Products of decimal rates such as 0.1 · 250 carry noise in their last digits. */
const round = (value: number): number => Number(value.toFixed(9));

/** All 16 bits but one value, so that zero stays zero. Not a clinical number. */
const MOST = 32_767;

function edfOf(
  channels: readonly Channel[],
  { seconds, records }: Layout,
  breaths: readonly number[],
): Uint8Array {
  return writeEdf({
    startsAt: null,
    recordSeconds: seconds,
    signals: channels.map(({ label, unit, samplingRate, samples }) => {
      const range = rangeOf(samples);
      return {
        label,
        unit,
        samplingRate,
        samples: samples.slice(0, round(samplingRate * seconds) * records),
        physicalMin: -range,
        physicalMax: range,
        digitalMin: -MOST,
        digitalMax: MOST,
      };
    }),
    annotations: breaths
      .filter((onset) => onset < records * seconds)
      .map((onset) => ({ onset, text: 'breath' })),
  });
}

function wfdbOf(leads: readonly Channel[], name: string): { hea: Uint8Array; dat: Uint8Array } {
  return writeWfdb({
    name,
    format: 16,
    samplingRate: (leads[0] as Channel).samplingRate,
    startsAt: null,
    signals: leads.map(({ label, unit, samples }) => ({
      description: label,
      unit,
      gain: Math.floor(MOST / rangeOf(samples)),
      samples,
    })),
  });
}

/** The largest size among samples, up to two digits above it. */
function rangeOf(samples: Float64Array): number {
  let most = 0;
  for (const value of samples) if (Math.abs(value) > most) most = Math.abs(value);
  if (most === 0) return 1;
  const step = 10 ** (Math.floor(Math.log10(most)) - 1);
  return Number((Math.ceil(most / step) * step).toPrecision(3));
}
