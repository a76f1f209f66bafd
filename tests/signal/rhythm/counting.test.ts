import { describe, expect, it } from 'vitest';
import { NORMAL } from '../../../src/signal/rhythm/rhythm.js';
import { type RhythmInput, rhythmSpans } from '../../../src/signal/rhythm/spans.js';
import { findWaves } from '../../../src/signal/waves/find-waves.js';
import { RHYTHMS } from '../../synth/rhythms/index.js';
import { truthOf } from '../../synth/truth.js';
import { blockedExceptEvery } from './more-rhythms.js';
import { CARELESS, stripFromTruth } from './strips.js';

/** The names of the stretches that bear that of a sinus rhythm. */
const normal = (strip: RhythmInput): string[] =>
  rhythmSpans(strip).flatMap(({ ruling }) =>
    ruling.kind === 'named' && NORMAL.some((name) => name === ruling.finding.name)
      ? [ruling.finding.name]
      : [],
  );

/** A strip whose beats are as listed, their waves found in the trace. */
function countedAs(strip: RhythmInput, times: readonly number[]): RhythmInput {
  const sorted = [...times].sort((a, b) => a - b);
  const beats = sorted.map((time) => ({ time: time as never, lead: 0 }));
  return { ...strip, ...findWaves(strip.leads, beats) };
}

describe.each(['dog', 'cat'] as const)('the beats of a %s, counted wrongly', (species) => {
  describe.each(['sinus', 'tall-t-sinus', 'sinus-bradycardia'] as const)('%s', (name) => {
    const plan = RHYTHMS[name]({ species, duration: 20, seed: 9501 });
    const strip = stripFromTruth(plan, 9501);
    const { beats } = truthOf(plan);
    const own = beats.map(({ time }) => time);

    it('is told as a sinus rhythm where it is counted rightly', () => {
      expect(normal(countedAs(strip, own))).toHaveLength(1);
    });

    it.each([1, 2, 5])('is not, where T of each %d. beat counts as a beat', (each) => {
      const extra = beats.flatMap(({ t }, i) => (t && i % each === 0 ? [t.peak] : []));
      expect(normal(countedAs(strip, [...own, ...extra]))).toEqual([]);
    });

    it.each([1, 2, 5])('is not, where P of each %d. beat counts as a beat', (each) => {
      const extra = beats.flatMap(({ p }, i) => (p && i % each === 0 ? [p.peak] : []));
      expect(normal(countedAs(strip, [...own, ...extra]))).toEqual([]);
    });

    it.each([2, 3])('is not, where each %d. beat is missed', (each) => {
      expect(
        normal(
          countedAs(
            strip,
            own.filter((_, i) => i % each !== 0),
          ),
        ),
      ).toEqual([]);
    });
  });
});

describe.each(['dog', 'cat'] as const)(
  'a block of a %s whose lone P waves were not marked',
  (species) => {
    it.each([2, 3, 4])('is not told as a sinus rhythm, %d P waves to a QRS', (of) => {
      for (const seed of [9601, 9602]) {
        const plan = blockedExceptEvery(of, { species, duration: 20, seed });
        const strip = { ...stripFromTruth(plan, seed, { misread: CARELESS }), loneP: [] };
        expect(normal(strip), `seed ${seed}`).toEqual([]);
      }
    });
  },
);
