import { expect, it } from 'vitest';
import type { LiveVitals } from '../../../src/live/contract.js';
import { saying } from '../../../src/live/saying.js';
import { minutesOf, nearest, readingAt } from '../../../src/live/vitals/reading.js';
import { sampleVitals } from '../../draw/vitals/sample.js';
import { demo } from '../../facts/demo.js';

const say = saying(demo.content.languages.get('en')?.live ?? {});
const chart = sampleVitals();
const vitals: LiveVitals = {
  chart,
  series: chart.series.map(({ label }) => ({ name: label, unit: 'u' })),
  events: ['induction', 'first incision', 'remark: clips moved', 'bleeding', 'extubation'],
  low: { limit: 60, minutes: 15, area: 120 },
};
const shownAt = (label: string, minute: number) =>
  chart.series.find((one) => one.label === label)?.readings.find((one) => one.minute === minute)
    ?.value;

it('reads every series at a minute, and nothing in between', () => {
  expect(minutesOf(vitals).slice(0, 3)).toEqual([0, 5, 10]);
  expect(nearest(minutesOf(vitals), 12.4)).toBe(10);
  expect(nearest(minutesOf(vitals), 12.6)).toBe(15);
  const { title, values } = readingAt(vitals, 40, say);
  expect(title).toBe('Minute 40');
  expect(values).toHaveLength(chart.series.length);
  expect(values).toContain(`mean: ${shownAt('mean', 40)} u`);
});

it('says what is not the patient’s, and where nothing was read', () => {
  expect(readingAt(vitals, 5, say).values).toContain('SpO2: 61 u, not the patient’s');
  expect(readingAt(vitals, 55, say).values).toContain('end-tidal CO2: no reading');
});

it('names the events since the reading before, and the burden of low pressure while it is low', () => {
  expect(readingAt(vitals, 25, say).notes).toEqual(['Event 3, minute 22: remark: clips moved']);
  expect(readingAt(vitals, 35, say).notes).toEqual([
    'Mean pressure under 60 mmHg here. In the whole record, as if each low reading held until the next: 15 min, 120 mmHg·min under it.',
    'Event 4, minute 33: bleeding',
  ]);
  // Low from the first low reading to the last; the one after it is not.
  expect(readingAt(vitals, 45, say).notes).toHaveLength(1);
  expect(readingAt(vitals, 50, say).notes).toEqual([]);
});
