import type { CaseText } from '../record/case-schema.js';
import type { VitalsTable } from '../record/vitals-file.js';
import type { ChannelName } from '../record/vocabulary.js';
import type { Located } from '../record/yaml-file.js';
import type { PulseReading } from '../signal/pulse/reading-pulse.js';
import type { Waveform } from '../signal/waveform.js';
import { startOf } from './strip.js';
import { timelineOf } from './timeline.js';
import { vitalsFacts } from './vitals.js';

/** The channels that tell of the pulse. The displayed heart rate is left out: it is counted on the ECG itself. */
const TELLS: Readonly<Partial<Record<ChannelName, PulseReading['of']>>> = {
  systolic: 'systolic pressure',
  mean: 'mean pressure',
  SpO2: 'oxygen saturation',
  EtCO2: 'end-tidal CO2',
};

/** Readings so long before the strip may still tell that a pressure fell, s. Own choice, not a clinical number. */
const BEFORE = 15 * 60;
/** A cuff's reading shows up to this long after it began, s. Common practice. */
const AFTER = 60;

/** The patient's own readings around a strip, on its clock; none where nobody knows when the strip began. @param timeZone that of the clinic */
export function pulseReadings(
  record: Located<CaseText>,
  index: number,
  waveform: Waveform,
  vitals: VitalsTable,
  timeZone: string,
): PulseReading[] {
  const { value, where } = record;
  const strip = value.monitor.strips[index];
  if (!strip) return [];
  const time = timelineOf(value, timeZone);
  const begins = startOf(strip, waveform, time, where('monitor', 'strips', index)).value;
  if (begins === null) return [];
  return vitalsFacts(value, vitals, time)
    .channels.flatMap(({ channel, patient }) => {
      const of = TELLS[channel];
      if (of === undefined) return [];
      const own = patient.filter(({ computed }) => !computed);
      return own.map(({ minute, value: read, line }) => ({
        second: (minute - begins) * 60,
        of,
        value: read,
        line,
      }));
    })
    .filter(({ second }) => second >= -BEFORE && second <= waveform.duration + AFTER);
}
