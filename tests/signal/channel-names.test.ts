import { describe, expect, it } from 'vitest';
import { inTradeNames } from '../../src/signal/channel-names.js';
import { ecgText, leadName } from '../../src/signal/lead-name.js';
import type { Channel } from '../../src/signal/waveform.js';
import { hertz, seconds } from '../../src/units/brands.js';

const channel = (label: string, unit = 'mV'): Channel => ({
  label,
  unit,
  samplingRate: hertz(250),
  samples: new Float64Array(8),
});

const named = (channels: readonly Channel[], read: string) => {
  const told = inTradeNames(
    { format: 'EDF', channels, annotations: [], startsAt: null, duration: seconds(1) },
    read,
  );
  return { read: told.read, labels: told.waveform.channels.map(({ label }) => label) };
};

describe('the channels of a strip', () => {
  it('bear the names of the trade, whatever somebody typed at the recorder', () => {
    const channels = [
      channel('MLII'),
      channel('V10'),
      channel('II Bertha Quince'),
      channel('ABP Bertha', 'mmHg'),
      channel('Bertha', 'bpm'),
    ];
    expect(named(channels, 'II Bertha Quince')).toEqual({
      read: 'ECG',
      labels: ['ECG', 'II', 'V10', 'ABP'],
    });
  });

  it('are kept apart where two would have one name, that which is read with the plain one', () => {
    const channels = [channel('MLII'), channel('II'), channel('ECG II')];
    expect(named(channels, 'II').labels).toEqual(['II', 'II (2)', 'II (3)']);
  });
});

it.each([
  ['MLII', 'II'],
  ['ecg avr', 'aVR'],
  ['Lead V10', 'V10'],
  ['II (2)', 'II'],
  ['V11', null],
  ['II Bertha', null],
  ['ECG', null],
])('the label "%s" names the lead %s', (label, lead) => {
  expect(leadName(label)).toBe(lead);
});

it('a lead is written as signal files write it', () => {
  expect(['ECG', 'II', 'II (2)'].map(ecgText)).toEqual(['ECG', 'ECG II', 'ECG II (2)']);
});
