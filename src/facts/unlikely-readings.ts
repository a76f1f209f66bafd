import type { CaseText } from '../record/case-schema.js';
import type { ChannelName } from '../record/vocabulary.js';
import type { Located } from '../record/yaml-file.js';
import { asked, partOf, type Question } from './asked.js';
import type { ChannelFacts } from './case-facts.js';

/**
 * What a patient that comes home hardly ever has, in the channel's unit: a digit that slipped, two columns that were
 * exchanged, or a sensor that read something else. Own choice, not a clinical number: far beyond every limit at which
 * somebody acts. Zeros are asked about by themselves.
 */
const LIKELY: Readonly<Partial<Record<ChannelName, readonly [least: number, most: number]>>> = {
  'heart rate': [20, 400],
  SpO2: [50, 100],
  systolic: [30, 280],
  mean: [20, 230],
  EtCO2: [8, 100],
  agent: [0, 10],
  temperature: [30, 43],
};

/** A unit that a reading may have been read in, for whoever looks for the slip. Common practice: air out of the lung holds some 5 % of CO2. */
const WRONG_UNIT: Readonly<Partial<Record<ChannelName, (value: number) => string | null>>> = {
  EtCO2: (value) =>
    value >= 2 && value < 8
      ? 'If the monitor tells kPa, title the column "EtCO2 [kPa]"; of %, write mmHg. '
      : null,
};

/** Asks about readings that would be told as the patient's. */
export function unlikelyReadings(
  { value, at }: Located<CaseText>,
  channels: readonly ChannelFacts[],
): Question[] {
  return channels.flatMap(({ channel, unit, patient }): Question[] => {
    const [least, most] = LIKELY[channel] ?? [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
    const odd = patient.filter(
      (reading) =>
        !reading.computed && reading.value !== 0 && (reading.value < least || reading.value > most),
    );
    const [first] = odd;
    if (!first) return [];
    const more = odd.length > 1 ? ` and ${odd.length - 1} more` : '';
    return [
      {
        ...asked(
          'readings that hardly a patient has',
          partOf.monitor(value),
          `${WRONG_UNIT[channel]?.(first.value) ?? ''}Mend the cells or the titles, or say under "off patient" when the sensor was off; if it is true`,
        ),
        ...at('monitor', 'vitals'),
        found: `${channel} ${first.value} ${unit} on line ${first.line}${more}, told as the patient's`,
        expected: `${least} to ${most} ${unit}, beyond which a digit, a column or a sensor is more likely wrong than the patient`,
      },
    ];
  });
}
