import { describe, expect, it } from 'vitest';
import { detectBeats } from '../../../src/signal/beats/detect.js';
import { avBlockFixed, avBlockLengthening } from '../../synth/rhythms/av-block.js';
import { sinus } from '../../synth/rhythms/sinus.js';
import { truthOf } from '../../synth/truth.js';
import { matchBeats } from '../../tools/match-beats.js';
import { renderedLeads } from '../rhythm/strips.js';

/** mV, root mean square. */
const MUSCLE = [{ kind: 'muscle', amplitude: 0.015 }] as const;

/** Every seventh QRS as good as nothing, its P and T as ever. */
function withLowBeats(species: 'dog' | 'cat', seed: number) {
  const plan = sinus({ species, duration: 20, seed, rate: species === 'dog' ? 110 : 180 });
  return {
    ...plan,
    beats: plan.beats.map((beat, i) =>
      i % 7 === 4
        ? {
            ...beat,
            Q: null,
            S: null,
            R: { ...beat.R, amplitude: 0.05 * beat.R.amplitude },
          }
        : beat,
    ),
  };
}

describe.each(['dog', 'cat'] as const)(
  'a gap of two intervals with a P half-way, %s',
  (species) => {
    it.each([[[]], [MUSCLE]])('holds a beat where a T follows (noise %j)', (noises) => {
      for (const seed of [3, 4]) {
        const plan = withLowBeats(species, seed);
        const found = detectBeats(renderedLeads(plan, seed, noises)).map(({ time }) => time);
        const times = truthOf(plan).beats.map(({ time }) => time);
        const { missed, extra } = matchBeats(times, found, 0.08);
        expect({ missed, extra }, `seed ${seed}`).toEqual({ missed: [], extra: [] });
      }
    });

    // A P that is blocked stirs no ventricle, so that no T follows.
    it.each([
      ['each third P is blocked', avBlockFixed],
      ['each fifth P is blocked', avBlockLengthening],
    ])('holds none where %s', (_, rhythm) => {
      for (const seed of [3, 4, 5, 6, 7, 8, 9, 10]) {
        const plan = rhythm({ species, duration: 30, seed });
        const found = detectBeats(renderedLeads(plan, seed, MUSCLE)).map(({ time }) => time);
        const times = truthOf(plan).beats.map(({ time }) => time);
        expect(matchBeats(times, found, 0.08).extra, `seed ${seed}`).toEqual([]);
      }
    });
  },
);
