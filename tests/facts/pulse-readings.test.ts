import { describe, expect, it } from 'vitest';
import { pulseReadings } from '../../src/facts/pulse-readings.js';
import { readCase } from '../../src/record/read-case.js';
import type { VitalsTable } from '../../src/record/vitals-file.js';
import type { Waveform } from '../../src/signal/waveform.js';
import { seconds } from '../../src/units/brands.js';
import { accepted, CASE, changed, KEYS } from '../record/sample.js';

const STRIP = '  strips:\n    - { file: a.edf, lead: II }\nclosure:\n';
const record = (off = '') =>
  accepted(
    readCase(
      changed(CASE, ['closure:\n', STRIP], ['  off patient:\n', `  off patient:\n${off}`]),
      'case.yaml',
      KEYS,
    ),
  );
/** Anesthesia begins at 09:10; the strip at 09:40. */
const waveform: Waveform = {
  format: 'EDF',
  channels: [],
  annotations: [],
  startsAt: '2026-03-09T09:40:00',
  duration: seconds(60),
};
const table: VitalsTable = {
  channels: ['systolic', 'mean', 'heart rate', 'SpO2', 'EtCO2', 'temperature'],
  rows: [
    { line: 2, minute: 5, values: { mean: 80 } },
    { line: 3, minute: 25, values: { systolic: 96, mean: 71, 'heart rate': 90, SpO2: 98 } },
    { line: 4, minute: 31, values: { mean: 18, EtCO2: 3, temperature: 37 } },
    { line: 5, minute: 36, values: { mean: 70 } },
  ],
};

describe('readings that tell of the pulse', () => {
  it('stand on the clock of the strip, from a quarter of an hour before it to a minute after', () => {
    expect(pulseReadings(record(), 0, waveform, table, 'America/Chicago')).toEqual([
      { second: -300, of: 'systolic pressure', value: 96, line: 3 },
      { second: -300, of: 'mean pressure', value: 71, line: 3 },
      { second: 60, of: 'mean pressure', value: 18, line: 4 },
      { second: -300, of: 'oxygen saturation', value: 98, line: 3 },
      { second: 60, of: 'end-tidal CO2', value: 3, line: 4 },
    ]);
  });

  it('leave out what a sensor showed while it was off the patient', () => {
    const off = '    - { channel: SpO2, from: 09:30, why: the clip had slipped }\n';
    const readings = pulseReadings(record(off), 0, waveform, table, 'America/Chicago');
    expect(readings).toHaveLength(4);
    expect(readings.map(({ of }) => of)).not.toContain('oxygen saturation');
  });

  it('are none where nobody knows when the strip began', () => {
    expect(
      pulseReadings(record(), 0, { ...waveform, startsAt: null }, table, 'America/Chicago'),
    ).toEqual([]);
  });
});
