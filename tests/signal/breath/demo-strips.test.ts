import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { good } from '../../../src/record/problem.js';
import type { BreathEvidence } from '../../../src/signal/breath/breaths.js';
import { findBreaths } from '../../../src/signal/breath/find-breaths.js';
import { linkToBreath } from '../../../src/signal/breath/link.js';
import { ecgLeads } from '../../../src/signal/ecg-lead.js';
import { readWaveform } from '../../../src/signal/files/read.js';
import type { Waveform } from '../../../src/signal/waveform.js';
import { DEMO_TRUTH, type DemoCase } from '../../synth/demo-waveforms.js';
import { everything, stated } from './strips.js';

function strip(
  name: DemoCase,
  file: string,
): { waveform: Waveform; ecg: NonNullable<BreathEvidence['ecg']> } {
  const read = readWaveform(join('demo-data/cases', name, file), (path) =>
    good(new Uint8Array(readFileSync(path))),
  );
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  const leads = ecgLeads(read.value, 'II', { file });
  if (!leads.ok) throw new Error(JSON.stringify(leads.problems));
  return { waveform: read.value, ecg: { lead: leads.value[0], beats: DEMO_TRUTH[name].beats } };
}

const timesOf = (name: DemoCase) => DEMO_TRUTH[name].beats.map(({ time }) => ({ time }));

describe('the demonstration strip whose beats go with the ventilator', () => {
  const { waveform, ecg } = strip('juniper', 'strip.edf');
  const truth = DEMO_TRUTH.juniper;
  const period = (truth.breaths[1]?.time ?? Number.NaN) - (truth.breaths[0]?.time ?? Number.NaN);
  const linkFrom = (evidence: BreathEvidence) =>
    linkToBreath(timesOf('juniper'), findBreaths(evidence), everything(truth.duration));

  it('is linked by the remarks of the file', () => {
    const breaths = findBreaths({ ...waveform, ecg });
    expect(breaths.source).toBe('stated');
    expect(breaths.times).toHaveLength(truth.breaths.length);
    const link = linkFrom({ ...waveform, ecg });
    expect(link).toMatchObject({
      verdict: 'linked',
      doubt: null,
      breaths: truth.breaths.length - 1,
    });
    expect(link.cluster?.clustered).toBe(true);
    // Planned: beats crowd most as inspiration ends, a third into the breath.
    expect(link.cluster?.afterInspiration).toBeGreaterThan(0.28);
    expect(link.cluster?.afterInspiration).toBeLessThan(0.45);
    expect(link.swing?.slowestRate).toBeLessThan(70);
    expect(link.swing?.fastestRate).toBeGreaterThan(110);
    expect(link.follow).toBeGreaterThan(0.7);
  });

  it('is linked by its capnogram alone, whose breaths are true to 50 ms', () => {
    const breaths = findBreaths({ channels: waveform.channels });
    expect(breaths.source).toBe('capnogram');
    for (const [i, { time }] of truth.breaths.entries()) {
      expect(Math.abs((breaths.times?.[i] ?? Number.NaN) - time)).toBeLessThan(0.05);
    }
    expect(linkFrom({ channels: waveform.channels }).verdict).toBe('linked');
  });

  it('is linked by the rate of the ventilator alone, at the pace that was set', () => {
    const link = linkFrom({ ventilatorRate: 60 / period, ecg });
    expect(link).toMatchObject({ verdict: 'linked', source: 'ventilator rate' });
    expect(Math.abs((link.period as number) - period)).toBeLessThan(0.02 * period);
  });

  it('is not called free of the breath where a wrong rate is stated', () => {
    expect(linkFrom({ ventilatorRate: 60 / period + 3, ecg })).toMatchObject({
      verdict: 'cannot tell',
      doubt: 'another pace is stronger',
    });
  });
});

describe('the demonstration strips whose beats do not', () => {
  it.each(['bramble', 'clover'] as const)('are not linked: %s', (name) => {
    const { waveform, ecg } = strip(name, 'strip.edf');
    const duration = everything(DEMO_TRUTH[name].duration);
    const planned = linkToBreath(timesOf(name), stated(DEMO_TRUTH[name].breaths), duration);
    expect(planned.verdict).toBe('not linked');
    // The files themselves tell nothing sure of the breath.
    const found = linkToBreath(timesOf(name), findBreaths({ ...waveform, ecg }), duration);
    expect(found.verdict).toBe('cannot tell');
  });

  it.each([
    ['pumpernickel', 'strip.hea'],
    ['saffron', 'strip.csv'],
    ['tucker', 'strip.hea'],
  ] as const)('are not linked either: %s', (name, file) => {
    const { waveform, ecg } = strip(name, file);
    const duration = everything(DEMO_TRUTH[name].duration);
    const evidence = { ...waveform, ecg, ventilatorRate: name === 'tucker' ? 12 : null };
    const beats = DEMO_TRUTH[name].beats.map(({ time, kind }) => ({
      time,
      kind: kind === 'ventricular' ? ('ventricular premature' as const) : ('sinus' as const),
    }));
    expect(linkToBreath(beats, findBreaths(evidence), duration).verdict).not.toBe('linked');
    expect(linkToBreath(beats, stated(DEMO_TRUTH[name].breaths), duration).verdict).not.toBe(
      'linked',
    );
  });
});
