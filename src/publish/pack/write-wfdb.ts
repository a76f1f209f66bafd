interface WfdbSignal {
  /** For example `II`. */
  readonly description: string;
  readonly unit: string;
  /** ADC units for one physical unit. */
  readonly gain: number;
  /** Physical values in `unit`, NaN where missing; values beyond the ADC range are held at its edge. */
  readonly samples: Float64Array;
}

export interface WfdbContent {
  /** Record name: letters, digits, underscores. */
  readonly name: string;
  readonly format: 16 | 212;
  /** Hz. */
  readonly samplingRate: number;
  /** `YYYY-MM-DDTHH:MM:SS`, local time; null leaves base time and base date out. */
  readonly startsAt: string | null;
  /** All of one length, at least one. */
  readonly signals: readonly WfdbSignal[];
}

/**
 * A WFDB record, written from the WFDB Applications Guide's header and signal-file pages (header(5),
 * signal(5), PhysioNet): one signal file in format 16 or 212, with initial values and checksums.
 * The most negative number of the format marks a missing sample.
 */
export function writeWfdb(content: WfdbContent): { hea: Uint8Array; dat: Uint8Array } {
  const { name, format, signals } = content;
  const bits = format === 16 ? 16 : 12;
  const digital = signals.map((signal) => digitised(signal, bits));
  const length = digital[0]?.length ?? 0;
  if (digital.some((samples) => samples.length !== length)) {
    throw new RangeError('The signals of a WFDB record must have one length');
  }
  const record = [
    name,
    signals.length,
    content.samplingRate,
    length,
    ...(content.startsAt === null ? [] : startFields(content.startsAt)),
  ];
  const specifications = signals.map(({ gain, unit, description }, i) =>
    [
      `${name}.dat`,
      format,
      `${gain}(0)/${unit}`,
      bits,
      0,
      digital[i]![0] ?? 0,
      checksum(digital[i]!),
      0,
      description,
    ].join(' '),
  );
  const interleaved = Int16Array.from(
    { length: length * signals.length },
    (_, i) => digital[i % signals.length]![Math.floor(i / signals.length)]!,
  );
  const hea = `${[record.join(' '), ...specifications].join('\n')}\n`;
  return {
    hea: new TextEncoder().encode(hea),
    dat: format === 16 ? inFormat16(interleaved) : inFormat212(interleaved),
  };
}

/** Base time and base date. */
function startFields(startsAt: string): string[] {
  const found = /^(\d{4})-(\d\d)-(\d\d)T(\d\d:\d\d:\d\d)$/.exec(startsAt);
  if (!found) throw new RangeError(`Not a time as YYYY-MM-DDTHH:MM:SS: ${startsAt}`);
  const [, year, month, day, time] = found;
  return [time as string, `${day}/${month}/${year}`];
}

function digitised({ samples, gain }: WfdbSignal, bits: 12 | 16): Int16Array {
  const most = 2 ** (bits - 1) - 1;
  return Int16Array.from(samples, (value) =>
    Number.isNaN(value) ? -most - 1 : Math.min(most, Math.max(-most, Math.round(value * gain))),
  );
}

/** Sum of all samples, kept to 16 bits with a sign. */
function checksum(samples: Int16Array): number {
  return (samples.reduce((sum, value) => (sum + value) | 0, 0) << 16) >> 16;
}

/** Two bytes a sample, low byte first. */
function inFormat16(samples: Int16Array): Uint8Array {
  const bytes = new DataView(new ArrayBuffer(2 * samples.length));
  samples.forEach((value, i) => {
    bytes.setInt16(2 * i, value, true);
  });
  return new Uint8Array(bytes.buffer);
}

/**
 * Three bytes a pair: low byte of the first; high four bits of the second over those of the first;
 * low byte of the second. An odd last sample is paired with a zero.
 */
function inFormat212(samples: Int16Array): Uint8Array {
  const bytes = new Uint8Array(3 * Math.ceil(samples.length / 2));
  for (let pair = 0; 2 * pair < samples.length; pair += 1) {
    const one = samples[2 * pair]! & 0xfff;
    const two = (samples[2 * pair + 1] ?? 0) & 0xfff;
    bytes.set([one & 0xff, ((two >> 8) << 4) | (one >> 8), two & 0xff], 3 * pair);
  }
  return bytes;
}
