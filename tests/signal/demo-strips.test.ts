import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { good } from '../../src/record/problem.js';
import { analyseStrip } from '../../src/signal/analyse.js';
import { readWaveform } from '../../src/signal/files/read.js';
import { toMillivolt } from '../../src/signal/millivolt.js';
import { kilogram } from '../../src/units/brands.js';
import { DEMO_TRUTH, type DemoCase, demoWaveforms } from '../synth/demo-waveforms.js';
import { matchBeats } from '../tools/match-beats.js';

const demoData = join(import.meta.dirname, '../../demo-data');
const strips = demoWaveforms()
  .map(({ path }) => path)
  .filter((path) => !path.endsWith('.dat'))
  .map((path) => [path, path.split('/')[1] as DemoCase] as const);

function leadsOf(path: string) {
  const read = readWaveform(join(demoData, path), (file) => good(readFileSync(file)));
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.value.channels.flatMap((channel) => {
    const inMv = toMillivolt(channel, path);
    return inMv.ok ? [inMv.value] : [];
  });
}

describe('the strips of the demonstration clinic', () => {
  it.each(strips)('%s: every planned beat, no other, the planned rate', (path, name) => {
    const truth = DEMO_TRUTH[name];
    const leads = leadsOf(path);
    expect(leads.length).toBeGreaterThan(0);
    const { beats, rate, quality } = analyseStrip(leads, {
      patient: { species: 'dog', weight: kilogram(10), ageYears: null, anesthetised: true },
      breath: {},
    });
    const match = matchBeats(
      truth.beats.map(({ time }) => time),
      beats.map(({ time }) => time),
      0.03,
    );
    expect({ missed: match.missed, extra: match.extra }).toEqual({ missed: [], extra: [] });
    expect(rate!.mean).toBeCloseTo(truth.meanRate, 1);
    expect(quality.readable).toBe(1);
  });
});
