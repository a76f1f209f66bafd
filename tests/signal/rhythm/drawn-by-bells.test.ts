import { describe, expect, it } from 'vitest';
import { analyseStrip } from '../../../src/signal/analyse.js';
import { NORMAL } from '../../../src/signal/rhythm/rhythm.js';
import type { StripAnalysis } from '../../../src/signal/strip-analysis.js';
import type { Channel } from '../../../src/signal/waveform.js';
import { type Bell, syntheticLead } from '../../tools/synthetic-strip.js';
import { patientOf } from './strips.js';

const P: Bell = { at: -0.1, height: 0.2, width: 0.01 };
const NARROW: readonly Bell[] = [
  { at: -0.018, height: -0.15, width: 0.005 },
  { at: 0, height: 1.4, width: 0.0075 },
  { at: 0.018, height: -0.25, width: 0.006 },
  { at: 0.14, height: 0.2, width: 0.024 },
];
/** Of a ventricle, with a T the other way that follows at once. */
const WIDE: readonly Bell[] = [
  { at: 0, height: 1.2, width: 0.022 },
  { at: 0.035, height: 0.5, width: 0.018 },
  { at: 0.105, height: -1, width: 0.028 },
];
/** Of a ventricle too, steeper and with its T apart. */
const STEEPER: readonly Bell[] = [
  { at: -0.01, height: 1.3, width: 0.015 },
  { at: 0.03, height: 0.9, width: 0.015 },
  { at: 0.19, height: -0.5, width: 0.03 },
];
/** The same in the usual rhythm, its P as long before it begins. */
const BLOCKED_BRANCH: readonly Bell[] = [{ ...P, at: -0.14 }, ...STEEPER];

/** Beats with their waves; R times in s. */
type Beat = readonly [time: number, waves: readonly Bell[]];

const every = (interval: number, from: number, count: number, waves: readonly Bell[]): Beat[] =>
  Array.from({ length: count }, (_, i): Beat => [from + i * interval + 0.006 * (i % 3), waves]);

const leadOf = (beats: readonly Beat[], duration: number): Channel =>
  syntheticLead({
    rate: 500,
    duration,
    beats: beats.map(([time]) => time),
    waves: (i) => beats[i]![1],
    noise: 0.004,
  });

const read = (lead: Channel, species: 'dog' | 'cat' = 'dog'): StripAnalysis =>
  analyseStrip([lead], { patient: patientOf(species), breath: { annotations: [], channels: [] } });

const names = ({ rhythms }: StripAnalysis): string[] => rhythms.map(({ name }) => name);
const events = ({ rhythms }: StripAnalysis): string[] => [
  ...new Set(rhythms.flatMap(({ within }) => within.map(({ name }) => name))),
];
/** Normal stretches that reach into a time, s. */
const normalIn = ({ rhythms }: StripAnalysis, from: number, to: number): string[] =>
  rhythms
    .filter((r) => NORMAL.some((name) => name === r.name) && r.from < to && r.to > from)
    .map(({ name }) => name);

describe('gentle wide beats', () => {
  it('are no normal rhythm where a run of them begins a strip', () => {
    const run = every(0.31, 0.12, 5, WIDE);
    const found = read(leadOf([...run, ...every(0.68, 2.1, 25, [P, ...NARROW])], 19));
    expect(normalIn(found, 0.4, 1.3)).toEqual([]);
  });

  it('are a tachycardia though T follows them at once', () => {
    expect(names(read(leadOf(every(0.3, 0.2, 62, WIDE), 19)))).toEqual(['ventricular tachycardia']);
  });

  it('are no normal rhythm where they end a stretch and were not counted', () => {
    const low: readonly Bell[] = [
      { at: 0, height: -0.95, width: 0.03 },
      { at: 0.12, height: 0.4, width: 0.03 },
    ];
    const sinus = every(0.68, 0.4, 14, [P, ...NARROW]);
    const found = read(leadOf([...sinus, ...every(0.3, 9.9, 3, low)], 10.9));
    const counted = found.beats.filter(({ time }) => time > 9.7).length;
    expect(counted === 3 || normalIn(found, 10, 10.9).length === 0).toBe(true);
  });

  it('follow their P where a branch of the bundle is blocked, and this is told', () => {
    const found = read(leadOf(every(0.56, 0.4, 34, BLOCKED_BRANCH), 19.5));
    expect(names(found)).toEqual(['sinus rhythm']);
    expect(events(found)).toEqual(['wide complexes on time']);
  });

  it('are not led by a P from below', () => {
    const fromBelow = BLOCKED_BRANCH.map((bell) =>
      bell.at === -0.14 ? { ...bell, height: -bell.height } : bell,
    );
    const found = read(leadOf(every(0.56, 0.4, 34, fromBelow), 19.5));
    expect(normalIn(found, 0, 19.5)).toEqual([]);
  });

  it('drop beats as narrow ones do', () => {
    const atria = Array.from({ length: 40 }, (_, i) => 0.5 + 0.55 * i);
    const beats = atria.map(
      (time, i): Beat => [time, i % 4 === 3 ? [BLOCKED_BRANCH[0]!] : BLOCKED_BRANCH],
    );
    expect(names(read(leadOf(beats, 22.5)))).toEqual([
      'second-degree atrioventricular block, constant PR',
    ]);
  });

  it('are told where they come on time without a P of their own', () => {
    const beats = every(0.62, 0.4, 40, [P, ...NARROW]).map(
      ([time, waves], i): Beat => (i % 9 === 5 ? [time, STEEPER] : [time, waves]),
    );
    const found = read(leadOf(beats, 25.5));
    expect(names(found)).toEqual(['sinus rhythm']);
    expect(events(found).length).toBeGreaterThan(0);
  });

  it('after each beat are not taken for its T, so that half of the beats are no rate', () => {
    const late: readonly Bell[] = [
      { at: 0.3, height: 0.9, width: 0.035 },
      { at: 0.4, height: -0.5, width: 0.03 },
    ];
    const found = read(leadOf(every(1.05, 0.5, 22, [P, ...NARROW, ...late]), 24));
    const isHalf = found.rate !== null && found.rate.mean < 70;
    expect(isHalf).toBe(false);
  });
});

describe('a sinus rhythm', () => {
  it('is named though its P has two tips', () => {
    const tips: readonly Bell[] = [
      { at: -0.116, height: 0.15, width: 0.011 },
      { at: -0.087, height: 0.2, width: 0.011 },
    ];
    expect(names(read(leadOf(every(0.75, 0.4, 25, [...tips, ...NARROW]), 19.5)))).toEqual([
      'sinus rhythm',
    ]);
  });

  it('is named from six beats where chance would hardly give them one PR', () => {
    expect(names(read(leadOf(every(1.5, 0.6, 6, [P, ...NARROW]), 9.5)))).toEqual([
      'sinus bradycardia',
    ]);
  });

  it('ends where the next beat does not come', () => {
    const lead = leadOf(every(0.6, 0.4, 20, [P, ...NARROW]), 14.6);
    expect(normalIn(read(lead), 12.5, 14.6)).toEqual([]);
  });

  it('with an early atrial beat after each other one is no sinus arrhythmia', () => {
    const beats = Array.from(
      { length: 26 },
      (_, i): Beat => [
        0.5 + Math.floor(i / 2) * 1.2 + (i % 2) * 0.44,
        [{ ...P, height: i % 2 === 0 ? 0.2 : 0.12 }, ...NARROW],
      ],
    );
    const found = read(leadOf(beats, 16.2));
    expect(events(found)).toEqual(['supraventricular premature complexes']);
    expect(names(found)).not.toContain('sinus arrhythmia');
  });
});

it('an idle line that a coarse converter steps is not clipped', () => {
  const samples = Float64Array.from(
    { length: 6000 },
    (_, i) => 0.0025 * Math.round((0.01 * Math.sin((2 * Math.PI * i) / 2500)) / 0.0025),
  );
  const found = read({ ...leadOf([], 12), samples });
  expect(found.quality.spans.map(({ why }) => why)).not.toContain('clipped');
});
