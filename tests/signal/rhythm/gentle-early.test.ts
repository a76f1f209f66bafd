import { describe, expect, it } from 'vitest';
import { analyseStrip } from '../../../src/signal/analyse.js';
import { NORMAL } from '../../../src/signal/rhythm/rhythm.js';
import type { StripAnalysis } from '../../../src/signal/strip-analysis.js';
import { randomFrom } from '../../synth/random.js';
import { type Bell, syntheticLead } from '../../tools/synthetic-strip.js';
import { patientOf } from './strips.js';

const P: Bell = { at: -0.1, height: 0.2, width: 0.01 };
const QRS: readonly Bell[] = [
  { at: -0.018, height: -0.15, width: 0.005 },
  { at: 0, height: 1.4, width: 0.0075 },
  { at: 0.018, height: -0.25, width: 0.006 },
];
const SINUS: readonly Bell[] = [P, ...QRS, { at: 0.15, height: 0.25, width: 0.026 }];
/** Of a ventricle: as tall as the others, rising and falling as slowly as a T, with a T of its own. */
const GENTLE: readonly Bell[] = [
  { at: 0, height: 1.4, width: 0.024 },
  { at: 0.17, height: -0.45, width: 0.03 },
];
const WIDE: readonly Bell[] = [
  { at: -0.01, height: 1.3, width: 0.014 },
  { at: 0.025, height: 0.9, width: 0.014 },
  { at: 0.17, height: -0.3, width: 0.025 },
];

/** Waves with the time that they are counted from, s. */
type Beat = readonly [time: number, waves: readonly Bell[]];

const read = (beats: readonly Beat[], duration = beats.at(-1)![0] + 0.6): StripAnalysis =>
  analyseStrip(
    [
      syntheticLead({
        rate: 500,
        duration,
        beats: beats.map(([time]) => time),
        waves: (i) => beats[i]![1],
        noise: 0.004,
      }),
    ],
    { patient: patientOf('dog'), breath: { annotations: [], channels: [] } },
  );

const names = ({ rhythms }: StripAnalysis): string[] => rhythms.map(({ name }) => name);
const early = ({ rhythms }: StripAnalysis, name: string): number[] =>
  rhythms.flatMap(({ within }) => within.flatMap((w) => (w.name === name ? w.beats : [])));
const ofVentricle = (found: StripAnalysis): number[] =>
  early(found, 'ventricular premature complexes');
const isCounted = ({ beats }: StripAnalysis, time: number): boolean =>
  beats.some((beat) => Math.abs(beat.time - time) < 0.06);

/** A sinus node at 0.62 s; behind each beat that is asked an early one of a ventricle, and a pause. */
function withEarly(count: number, after: (i: number) => boolean, waves = GENTLE, at = 0.36) {
  const beats: Beat[] = [];
  const times: number[] = [];
  let time = 0.4;
  for (let i = 0; i < count; i += 1) {
    beats.push([time, SINUS]);
    if (after(i)) {
      times.push(time + at + 0.005 * (i % 3));
      beats.push([times.at(-1)!, waves]);
    }
    time += (after(i) ? 1.24 : 0.62) + 0.006 * (i % 3);
  }
  return { beats, times };
}

describe('the early beat of a ventricle that is as gentle as a T', () => {
  it('is counted and told where it comes now and then', () => {
    const { beats, times } = withEarly(36, (i) => i % 6 === 3);
    const found = read(beats);
    expect(times.filter((time) => !isCounted(found, time))).toEqual([]);
    expect(new Set(names(found))).toEqual(new Set(['sinus rhythm']));
    expect(ofVentricle(found).length).toBe(times.length);
  });

  it('is counted and told where it comes after each second beat', () => {
    const { beats, times } = withEarly(24, (i) => i % 2 === 1);
    const found = read(beats);
    expect(times.filter((time) => !isCounted(found, time))).toEqual([]);
    expect(ofVentricle(found).length).toBe(times.length);
  });

  it('is known after each beat by the T that follows it', () => {
    const steeper = [{ ...GENTLE[0]!, width: 0.021 }, GENTLE[1]!];
    const { beats, times } = withEarly(18, () => true, steeper, 0.31);
    const found = read(beats);
    expect(times.filter((time) => !isCounted(found, time))).toEqual([]);
    for (const name of names(found)) expect(name).not.toMatch(/block/);
  });
});

describe('a run of gentle early beats', () => {
  const withRun = (...run: (readonly Bell[])[]): StripAnalysis => {
    const beats: Beat[] = [];
    let time = 0.4;
    for (let i = 0; i < 40; i += 1) {
      beats.push([time, SINUS]);
      if (i === 20) {
        for (const waves of run) {
          time += 0.36;
          beats.push([time, waves]);
        }
      }
      time += (i === 20 ? 0.32 : 0.47) + 0.004 * (i % 3);
    }
    return read(beats);
  };

  it('is told with all its beats', () => {
    const found = withRun(GENTLE, GENTLE, GENTLE);
    expect(early(found, 'run of ventricular tachycardia').length).toBe(3);
  });

  it('is told with its first beat, though that is lower than the others', () => {
    const lower = GENTLE.map((bell) => ({ ...bell, height: 0.78 * bell.height }));
    const found = withRun(lower, GENTLE, GENTLE);
    expect(early(found, 'run of ventricular tachycardia').length).toBe(3);
  });

  it('is no sinus rhythm though too low to be counted, where the node starts anew behind it', () => {
    const low: readonly Bell[] = [
      { at: -0.02, height: 0.65, width: 0.024 },
      { at: 0.12, height: -0.16, width: 0.026 },
    ];
    const { rhythms } = withRun(low);
    const normal = rhythms.filter(
      ({ name, from, to }) => NORMAL.some((each) => each === name) && from < 10.1 && to > 10.5,
    );
    const isTold = normal.every(({ within }) => within.length > 0);
    expect(normal.length === 0 || isTold).toBe(true);
  });
});

it('a T as tall as its QRS is no beat, though it comes a little sooner or later', () => {
  const random = randomFrom(9501);
  const beats: Beat[] = [];
  for (let time = 0.4; time < 18; time += random.between(0.55, 0.75)) {
    beats.push([time, [P, ...QRS, { at: random.between(0.14, 0.18), height: 1.3, width: 0.024 }]]);
  }
  expect(read(beats).beats.length).toBe(beats.length);
});

it('the sinus beat after the early beat of a ventricle is no early beat of the atria', () => {
  const beats: Beat[] = [];
  let time = -0.1;
  for (let i = 0; i < 12; i += 1) {
    if (i > 0) beats.push([time, SINUS]);
    beats.push([time + 0.43, WIDE]);
    // Some lie between two sinus beats on time; the others hold the next one up.
    time += i < 2 || i === 3 ? 0.765 : 1.53 + 0.006 * (i % 3);
  }
  const found = read(beats);
  expect(early(found, 'supraventricular premature complexes')).toEqual([]);
});

describe('a P that is not followed', () => {
  /** Half as tall as a beat and behind the T: too little to be counted. */
  const low: readonly Bell[] = [
    { at: 0.17, height: 0.75, width: 0.03 },
    { at: 0.3, height: -0.35, width: 0.03 },
  ];
  const droppedWith = (more: readonly Bell[]): StripAnalysis => {
    const beats: Beat[] = [];
    for (let i = 0; i < 36; i += 1) {
      const time = 0.4 + 0.6 * i + 0.005 * (i % 3);
      const isBlocked = i % 5 === 4;
      const isBefore = i % 5 === 3;
      beats.push([time, isBlocked ? [P] : isBefore ? [...SINUS, ...more] : SINUS]);
    }
    return read(beats, 22.4);
  };

  it('is blocked where the ventricles have recovered as behind the other beats', () => {
    expect(names(droppedWith([]))).toEqual(['second-degree atrioventricular block, constant PR']);
  });

  it('is no proof of a block where another wave stands behind the beat before', () => {
    const found = droppedWith(low);
    const isTold = ofVentricle(found).length > 0;
    for (const name of names(found)) expect(name).not.toMatch(/block/);
    if (!isTold) expect(found.rhythms[0]!.possible).toContain('premature beats on the T wave');
  });
});

describe('wide beats of one shape without any pattern', () => {
  const uneven = (from: number, count: number, usual: number, seed: number): number[] => {
    const random = randomFrom(seed);
    const times = [from];
    while (times.length < count) times.push(times.at(-1)! + usual * random.between(0.65, 1.45));
    return times;
  };

  it.each([9511, 9512, 9513])('are led by fibrillating atria, seed %i', (seed) => {
    const found = read(uneven(0.4, 44, 0.52, seed).map((time): Beat => [time, WIDE]));
    expect(names(found)).toEqual(['atrial fibrillation']);
    expect(found.rhythms[0]!.within).toEqual([]);
  });

  it('are of no fibrillating atria where P leads to them', () => {
    const led = [{ ...P, at: -0.15 }, ...WIDE];
    const found = read(uneven(0.4, 44, 0.6, 9514).map((time): Beat => [time, led]));
    expect(names(found)).not.toContain('atrial fibrillation');
  });

  it('are of no fibrillating atria where they are as slow as a dying heart', () => {
    const found = read(uneven(0.6, 20, 1.7, 9515).map((time): Beat => [time, WIDE]));
    for (const name of names(found)) {
      expect(name).not.toBe('atrial fibrillation');
      expect(NORMAL).not.toContain(name);
    }
  });
});
