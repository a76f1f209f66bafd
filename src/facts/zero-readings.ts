import type { CaseText } from '../record/case-schema.js';
import type { ChannelName } from '../record/vocabulary.js';
import type { Located } from '../record/yaml-file.js';
import { asked, partOf, type Question } from './asked.js';
import type { ChannelFacts } from './case-facts.js';

/** Channels that a living patient never has at zero; many monitors write 0 where a sensor reads nothing. Common practice. */
const NEVER_ZERO: readonly ChannelName[] = ['heart rate', 'SpO2', 'systolic', 'mean', 'diastolic'];

/** Asks about zeros that would be told as the patient's: an arrest, or a sensor that read nothing. */
export function zeroReadings(
  { value, at }: Located<CaseText>,
  channels: readonly ChannelFacts[],
): Question[] {
  return channels.flatMap(({ channel, unit, patient }): Question[] => {
    const zeros = patient.filter((reading) => reading.value === 0 && !reading.computed);
    const [first] = zeros;
    if (!first || !NEVER_ZERO.includes(channel)) return [];
    const more = zeros.length > 1 ? ` and ${zeros.length - 1} more` : '';
    return [
      {
        ...asked(
          'readings of zero',
          partOf.monitor(value),
          'Empty the cells, or add "0" to "missing" of this column in the form of the table, or say under "off patient" when the sensor was off; if the heart stood still',
        ),
        ...at('monitor', 'vitals'),
        found: `${channel} 0 ${unit} on line ${first.line}${more}, told as the patient's`,
        expected: 'a reading of the patient, or nothing where the sensor read nothing',
      },
    ];
  });
}
