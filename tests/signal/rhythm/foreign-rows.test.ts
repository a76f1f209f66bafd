import { describe, expect, it } from 'vitest';
import { analyseStrip } from '../../../src/signal/analyse.js';
import type { BeatKind, MarkedBeat, Wave } from '../../../src/signal/marked-beat.js';
import { withoutJolted } from '../../../src/signal/rhythm/evidence/jolted.js';
import { foreignRows } from '../../../src/signal/rhythm/foreign-rows.js';
import { NORMAL } from '../../../src/signal/rhythm/rhythm.js';
import type { StripContext } from '../../../src/signal/strip-analysis.js';
import { kilogram, millivolt, seconds } from '../../../src/units/brands.js';
import { type Bell, dogWaves, syntheticLead } from '../../tools/synthetic-strip.js';

const dog: StripContext = {
  patient: { species: 'dog', weight: kilogram(25), ageYears: null, anesthetised: true },
  breath: {},
};
const RATE = 400;

/** A beat of a ventricle that is hardly wider than the heart's own, with T the other way. */
const fromBelow: readonly Bell[] = [
  { at: 0, height: 2, width: 0.011 },
  { at: 0.02, height: -0.2, width: 0.008 },
  { at: 0.13, height: -0.7, width: 0.025 },
];

/** Sinus beats at 95 a minute over a minute, less those from one second to the other. */
function sinusBut(gaps: readonly (readonly [number, number])[]): number[] {
  const times: number[] = [];
  for (let t = 0.4; t < 59.5; t += 0.63) {
    if (!gaps.some(([from, to]) => t > from && t < to)) times.push(t);
  }
  return times;
}

/** Seconds of [from, to] that stand under a normal name. */
function normally(rhythms: ReturnType<typeof analyseStrip>['rhythms'], from: number, to: number) {
  return rhythms
    .filter(({ name }) => NORMAL.some((each) => each === name))
    .reduce((sum, r) => sum + Math.max(0, Math.min(to, r.to) - Math.max(from, r.from)), 0);
}

describe('beats that are no part of the rhythm around them', () => {
  it('are parted from it where they run without P, though their QRS looks like the others', () => {
    const starts = [8, 20, 32, 44, 52];
    const runs = starts.flatMap((start) => [0, 0.25, 0.5, 0.75].map((later) => start + later));
    const own = sinusBut(starts.map((start) => [start - 0.3, start + 1.5] as const));
    const beats = [...own, ...runs].sort((a, b) => a - b);
    const lead = syntheticLead({
      rate: RATE,
      duration: 60,
      beats,
      waves: (i) => (runs.includes(beats[i]!) ? fromBelow : dogWaves(95)),
      noise: 0.004,
    });
    const { rhythms } = analyseStrip([lead], dog);
    for (const start of starts) {
      const told = rhythms
        .flatMap(({ within }) => within)
        .some(({ beats: of }) => of.some((time) => time > start - 0.1 && time < start + 0.9));
      // The cut lies between two beats, and may lie between the first two of the run.
      expect(told ? 0 : normally(rhythms, start, start + 0.75)).toBeLessThan(0.2);
    }
    expect(normally(rhythms, 0, 60)).toBeGreaterThan(30);
  });

  it('are one row where nothing from above started them, early or late by turns as in a fibrillating trace', () => {
    const kinds: BeatKind[] = [
      'ventricular premature',
      'ventricular escape',
      'unclassified',
      'fusion',
      'supraventricular premature',
      'ventricular',
    ];
    const beats = Array.from({ length: 40 }, (_, i): MarkedBeat => {
      const time = seconds(i * 0.5);
      const kind = i < 12 || i >= 30 ? 'sinus' : kinds[i % 6]!;
      return { time, p: null, qrs: null, t: null, kind, confidence: 0.9 };
    });
    expect(foreignRows(beats).map(({ at, members }) => [at, members.length])).toEqual([[12, 18]]);
    // A few of them are told within the rhythm around them.
    expect(foreignRows(beats.slice(0, 14))).toEqual([]);
  });

  it('are no few jolted ones where they follow one another for longer than a jolt lasts', () => {
    const jolted = [10, 25, 26, 27, 28, 29, 30];
    // The six that follow one another come early, and a pause comes after them.
    const times = Array.from({ length: 44 }, (_, i) =>
      i < 25 || i > 30 ? 0.5 + i * 0.5 : 0.5 + 24 * 0.5 + (i - 24) * 0.3,
    );
    const lead = syntheticLead({
      rate: RATE,
      duration: 23,
      beats: times,
      waves: (i) =>
        jolted.includes(i) ? [{ at: -0.08, height: -1.5, width: 0.03 }] : dogWaves(120),
      noise: 0.004,
    });
    const beats = times.map((time, i): MarkedBeat => {
      const p = { onset: time - 0.13, peak: time - 0.1, end: time - 0.07 } as Wave;
      const isHidden = jolted.includes(i);
      return {
        time: seconds(time),
        p: isHidden ? null : { ...p, height: millivolt(0.2), confidence: 1 },
        qrs: null,
        t: null,
        kind: isHidden ? 'unclassified' : 'sinus',
        confidence: 0.9,
      };
    });
    const asked = withoutJolted(beats, [lead], 0.03).map(({ time }) => times.indexOf(time));
    expect(asked).not.toContain(10);
    expect(asked).toEqual(expect.arrayContaining([25, 26, 27, 28, 29, 30]));
  });
});
