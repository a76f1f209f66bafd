import { describe, expect, it } from 'vitest';
import type { BeatWaves } from '../../../../src/signal/marked-beat.js';
import { laidTogether } from '../../../../src/signal/rhythm/evidence/laid-together.js';
import { hertz, seconds } from '../../../../src/units/brands.js';
import { patientOf } from '../strips.js';

const beat = (time: number): BeatWaves => ({ time: seconds(time), p: null, qrs: null, t: null });

/** What is laid together of two stretches, s, of a strip with beats at these times. */
const parts = (times: readonly number[], ...stretches: readonly (readonly [number, number])[]) =>
  laidTogether(
    {
      leads: [
        { label: 'II', unit: 'mV', samplingRate: hertz(250), samples: new Float64Array(20 * 250) },
      ],
      quiet: [],
      beats: times.map(beat),
      loneP: [],
      patient: patientOf('dog'),
      breath: 'cannot tell',
      pulses: [],
    },
    stretches.map(([from, to]) => ({ from, to })),
  )?.parts ?? [];

const even = [1, 1.4, 1.8, 2.2, 2.6, 3];

describe('stretches between bursts of noise', () => {
  it('are no part of what goes on where one ends in a silence', () => {
    expect(parts([...even, 6.5, 6.9, 7.3, 7.7], [0.6, 3.3], [6.1, 8.6])).toEqual([]);
  });

  it('are where the heart pauses for as long between beats that are seen', () => {
    expect(parts([...even, 6.5, 7.5, 7.9, 8.3], [0.6, 3.3], [6.1, 9.2])).toEqual([0, 1]);
  });
});
