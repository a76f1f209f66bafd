import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { runInNewContext } from 'node:vm';
import { gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { LIVE_CASE, type LiveCase } from '../../src/live/contract.js';
import { readCounts } from '../../src/live/counts.js';
import { good } from '../../src/record/problem.js';
import { readWaveform } from '../../src/signal/files/read.js';
import { demoSite } from '../demo-site.js';

const site = join(await demoSite(), 'public');
const cases = readdirSync(site, { recursive: true, encoding: 'utf8' })
  .filter((path) => path.endsWith('teaching.data.js'))
  .map((path) => dirname(path));

const textOf = (name: string) => readFileSync(join(site, name, 'teaching.data.js'), 'utf8');

function dataOf(name: string): LiveCase {
  const globals: { [LIVE_CASE]?: LiveCase } = {};
  runInNewContext(textOf(name), { globalThis: globals });
  return globals[LIVE_CASE] as LiveCase;
}

describe.each(cases)('what the page of %s hands to its scripts', (name) => {
  const { strips, words, rhythms } = dataOf(name);

  it('has the samples of the anonymized record, under its labels', () => {
    for (const [index, { lead, others }] of strips.entries()) {
      const file = join(site, name, `ecg_${index + 1}.hea`);
      // Without consent to the record no other lead is handed over either.
      if (!existsSync(file)) {
        expect(others).toEqual([]);
        continue;
      }
      const read = readWaveform(file, (path) => good(new Uint8Array(readFileSync(path))), {});
      if (!read.ok) throw new Error(JSON.stringify(read.problems));
      const channels = read.value.channels.filter(({ label }) => label.startsWith('ECG'));
      expect([lead, ...others].map(({ label }) => label)).toEqual(
        channels.map(({ label }) => label),
      );
      for (const [place, each] of [lead, ...others].entries()) {
        const channel = channels[place] as (typeof channels)[number];
        expect(each.samplingRate).toBe(channel.samplingRate);
        const counts = readCounts(each.counts);
        expect(counts).toHaveLength(channel.samples.length);
        const most = counts.reduce(
          (worst, count, at) =>
            Math.max(worst, Math.abs(count * each.step - (channel.samples[at] as number))),
          0,
        );
        // Half a microvolt of rounding here, and the step of the record's own file.
        expect(most).toBeLessThan(0.001);
      }
    }
  });

  it('tells times to 0.1 ms and no height that no script uses', () => {
    for (const { analysis } of strips) {
      const text = JSON.stringify(analysis.beats);
      expect(text).not.toMatch(/\d\.\d{5}/);
      expect(text).not.toContain('height');
    }
  });

  it('has words for each reason, kind and rhythm that it holds', () => {
    for (const { analysis } of strips) {
      for (const { why } of analysis.quality.spans) {
        if (why !== '') expect(words[`strip.why.${why}`]).toBeTruthy();
      }
      for (const { kind } of analysis.beats) expect(words[`strip.kind.${kind}`]).toBeTruthy();
      for (const { name: rhythm, confidence, within } of analysis.rhythms) {
        if (confidence !== null) expect(rhythms[rhythm]).toBeTruthy();
        for (const event of within) expect(rhythms[event.name]).toBeTruthy();
      }
    }
  });

  it('stays below 60 KB compressed', () => {
    expect(gzipSync(textOf(name)).length).toBeLessThan(60_000);
  });
});
