import { describe, expect, it } from 'vitest';
import { analyseStrip } from '../../../src/signal/analyse.js';
import type { Evidence } from '../../../src/signal/rhythm/evidence/evidence.js';
import { idleAtria } from '../../../src/signal/rhythm/evidence/idle-atria.js';
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
const T: Bell = { at: 0.15, height: 0.25, width: 0.026 };
const NARROW = [...QRS, T];
/** Of a ventricle, or of a heart with a blocked branch. */
const WIDE: readonly Bell[] = [
  { at: -0.01, height: 1.3, width: 0.015 },
  { at: 0.03, height: 0.9, width: 0.015 },
  { at: 0.17, height: -0.5, width: 0.03 },
];

/** Waves with the time that they are counted from, s. */
type Beat = readonly [time: number, waves: readonly Bell[]];

function read(
  beats: readonly Beat[],
  duration: number,
  species: 'dog' | 'cat' = 'dog',
): StripAnalysis {
  const lead = syntheticLead({
    rate: 500,
    duration,
    beats: beats.map(([time]) => time),
    waves: (i) => beats[i]![1],
    noise: 0.004,
  });
  return analyseStrip([lead], {
    patient: patientOf(species),
    breath: { annotations: [], channels: [] },
  });
}

const names = ({ rhythms }: StripAnalysis): string[] => rhythms.map(({ name }) => name);
const events = ({ rhythms }: StripAnalysis): string[] => [
  ...new Set(rhythms.flatMap(({ within }) => within.map(({ name }) => name))),
];

/** `count` times from `from` on, as unevenly apart as fibrillating atria leave them, s. */
function uneven(from: number, count: number, usual: number, seed: number): number[] {
  const random = randomFrom(seed);
  const times = [from];
  while (times.length < count) {
    times.push(times.at(-1)! + usual * random.between(0.65, 1.45));
  }
  return times;
}

const evenly = (from: number, count: number, apart: number): number[] =>
  Array.from({ length: count }, (_, i) => from + i * apart + 0.005 * (i % 3));

it('an early P on the T that no QRS follows makes no arrhythmia of a sinus rhythm, and is told', () => {
  const beats: Beat[] = [];
  let at = 0.4;
  for (let i = 0; i < 42; i += 1) {
    const isFollowed = i % 7 === 5;
    const early: Bell = { at: 0.19, height: 0.16, width: 0.01 };
    beats.push([at, isFollowed ? [P, ...NARROW, early] : [P, ...NARROW]]);
    at += (isFollowed ? 0.98 : 0.7) + 0.006 * (i % 3);
  }
  const found = read(beats, at);
  expect(names(found)).toEqual(['sinus rhythm']);
  expect(events(found)).toEqual(['supraventricular premature complexes']);
  expect(found.rhythms[0]!.within[0]!.beats.length).toBe(6);
});

describe('a P behind the QRS', () => {
  const behind: Bell = { at: 0.075, height: -0.15, width: 0.01 };

  it('is of a junctional rhythm and no standstill of the atria', () => {
    const found = read(
      evenly(0.5, 16, 1.2).map((time): Beat => [time, [...NARROW, behind]]),
      20,
    );
    expect(names(found)).toEqual(['cannot be told']);
    expect(found.rhythms[0]!.possible).toEqual(['a junctional rhythm']);
  });

  it('is not seen where atria stand still', () => {
    const found = read(
      evenly(0.5, 16, 1.2).map((time): Beat => [time, NARROW]),
      20,
    );
    expect(names(found)).toEqual(['atrial standstill']);
  });
});

describe('fibrillating atria', () => {
  it('are told from the sinus rhythm before them', () => {
    const sinus = evenly(0.4, 20, 0.62).map((time): Beat => [time, [P, ...NARROW]]);
    const rest = uneven(sinus.at(-1)![0] + 0.45, 34, 0.42, 9401).map(
      (time): Beat => [time, NARROW],
    );
    const found = read([...sinus, ...rest], rest.at(-1)![0] + 0.5);
    expect(names(found)).toEqual(['sinus rhythm', 'atrial fibrillation']);
  });

  it('may have beats of a ventricle between theirs, early or late', () => {
    const beats = uneven(0.4, 64, 0.45, 9402).map(
      (time, i): Beat => [time, i % 9 === 4 ? WIDE : NARROW],
    );
    const found = read(beats, beats.at(-1)![0] + 0.5);
    expect(names(found)).toEqual(['atrial fibrillation']);
    expect(found.rhythms[0]!.within.map(({ name }) => name)).toEqual([
      'ventricular premature complexes',
    ]);
    expect(found.rhythms[0]!.within[0]!.beats.length).toBeGreaterThan(4);
  });

  it.each([9403, 9404, 9405, 9406, 9407, 9408, 9409, 9410, 9411, 9412])(
    'with a blocked branch are no rhythm of the ventricles, seed %i',
    (seed) => {
      const beats = uneven(0.4, 60, 0.4, seed).map((time): Beat => [time, WIDE]);
      const found = read(beats, beats.at(-1)![0] + 0.5);
      for (const name of names(found)) expect(name).not.toMatch(/ventricular/);
    },
  );
});

it('a run of a ventricle is told by how much wider it is than the sinus beats beside it, though narrower than a limit', () => {
  const SEPTAL: readonly Bell[] = [
    { at: -0.006, height: 1.2, width: 0.012 },
    { at: 0.018, height: -1, width: 0.012 },
    { at: 0.12, height: 0.4, width: 0.022 },
  ];
  const sinus = (from: number, count: number) =>
    evenly(from, count, 0.62).map((time): Beat => [time, [P, ...NARROW]]);
  const before = sinus(0.4, 18);
  const run = evenly(before.at(-1)![0] + 0.35, 26, 0.25).map((time): Beat => [time, SEPTAL]);
  const after = sinus(run.at(-1)![0] + 0.75, 18);
  const found = read([...before, ...run, ...after], after.at(-1)![0] + 0.5);
  expect(names(found)).toEqual(['sinus rhythm', 'ventricular tachycardia', 'sinus rhythm']);
});

it('broad P waves alone are no rhythm of the ventricles', () => {
  const found = read(
    evenly(0.4, 34, 0.55).map((time): Beat => [time, [{ at: 0, height: 0.26, width: 0.022 }]]),
    19,
  );
  expect(names(found)).toEqual(['cannot be told']);
  expect(found.rhythms[0]!.possible).toContain('P waves that no QRS follows');
});

it('waves of fluttering atria are no P waves that a block holds back', () => {
  const flutter = Array.from(
    { length: 4 },
    (_, i): Bell => ({
      at: -0.09 + 0.13 * i,
      height: 0.15,
      width: 0.02,
    }),
  );
  const found = read(
    Array.from({ length: 36 }, (_, i): Beat => [0.4 + 0.52 * i, [...flutter, ...QRS]]),
    19,
  );
  expect(names(found)).not.toContain('third-degree atrioventricular block');
});

it('two of three P waves without a QRS are a high-grade block though T hides one of them', () => {
  const CAT_P: Bell = { at: -0.07, height: 0.12, width: 0.009 };
  const found = read(
    Array.from({ length: 24 }, (_, i): Beat => {
      const own = [
        ...QRS.map((bell) => ({ ...bell, at: bell.at * 0.6, width: bell.width * 0.6 })),
        { at: 0.19, height: 0.3, width: 0.03 },
      ];
      const atria = [0, 0.265, 0.53].map((later) => ({ ...CAT_P, at: CAT_P.at + later }));
      return [0.4 + 0.795 * i, [...own, ...atria]];
    }),
    19.4,
    'cat',
  );
  expect(names(found)).toEqual(['second-degree atrioventricular block, high-grade']);
});

it('atria that noise may hide are not called idle', () => {
  const between = (noise: number) =>
    idleAtria({
      unmarkedAtria: () => ({ standsOut: 3, noise }),
      patient: patientOf('dog'),
    } as unknown as Evidence);
  expect(between(0.005)).toBe(3);
  expect(between(0.03)).toBeNull();
});

describe('a wide QRS that keeps the time of the sinus node in a cat', () => {
  const stroke: readonly Bell[] = [
    { at: -0.008, height: 0.5, width: 0.01 },
    { at: 0.018, height: 0.35, width: 0.012 },
    { at: 0.085, height: -0.25, width: 0.02 },
  ];
  const P: Bell = { at: -0.075, height: 0.1, width: 0.008 };
  const touching: Bell = { ...P, at: -0.067 };
  const told = (waves: readonly Bell[]) =>
    read(
      evenly(0.4, 40, 0.36).map((time): Beat => [time, waves]),
      15,
      'cat',
    );

  it('is of a ventricle where nothing stands before it', () => {
    expect(names(told(stroke))).toEqual(['accelerated idioventricular rhythm']);
  });

  it('is of a blocked branch where the line rests between a P and it', () => {
    expect(names(told([P, ...stroke]))).toEqual(['sinus rhythm']);
  });

  it('may be of either where a P touches it', () => {
    expect(names(told([touching, ...stroke]))).toEqual(['cannot be told']);
  });
});

it('an inverted P that stands near a narrow QRS of a cat may run up from the node', () => {
  const qrs = QRS.map((bell) => ({ ...bell, at: bell.at * 0.6, width: bell.width * 0.6 }));
  const t: Bell = { at: 0.09, height: 0.12, width: 0.018 };
  const told = (p: Bell) =>
    names(
      read(
        evenly(0.4, 44, 0.31).map((time): Beat => [time, [p, ...qrs, t]]),
        14,
        'cat',
      ),
    );
  expect(told({ at: -0.05, height: -0.1, width: 0.007 })).toEqual(['cannot be told']);
  expect(told({ at: -0.065, height: 0.1, width: 0.007 })).toEqual(['sinus rhythm']);
});
