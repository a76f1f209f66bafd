import { describe, expect, it } from 'vitest';
import type { MarkedBeat } from '../../../src/signal/marked-beat.js';
import { untoldEnds } from '../../../src/signal/rhythm/untold-ends.js';
import type { Channel } from '../../../src/signal/waveform.js';
import { hertz, type Seconds } from '../../../src/units/brands.js';

const beatAt = (time: number): MarkedBeat => ({
  time: time as Seconds,
  p: null,
  qrs: null,
  t: null,
  kind: 'sinus',
  confidence: 1,
});

/** Beats at 120/min from half a second on. */
const beatsFor = (seconds: number): MarkedBeat[] =>
  Array.from({ length: 2 * seconds }, (_, index) => beatAt(0.5 + index / 2));

it('leaves a day of even beats whole', () => {
  const day = 24 * 3600;
  expect(untoldEnds(beatsFor(day), [], { from: 0, to: day + 1 })).toEqual([]);
});

it('cuts where the next beat does not come', () => {
  expect(untoldEnds(beatsFor(20), [], { from: 0, to: 25 })).toEqual([20 + 0.3]);
});

describe('a few beats of a ventricle at the end of a sinus rhythm', () => {
  const rate = 500;
  const escapes = [12, 14.5].map((time): MarkedBeat => ({ ...beatAt(time), kind: 'ventricular' }));
  const beats = [...beatsFor(10), ...escapes];
  /** A stroke of 1 mV at each beat, and waves of a fifth of a second between `from` and `to`. */
  const lead = (from: number, to: number): Channel => ({
    label: 'II',
    unit: 'mV',
    samplingRate: hertz(rate),
    samples: Float64Array.from({ length: 16 * rate }, (_, i) => {
      const time = i / rate;
      const stroke = beats.some((beat) => Math.abs(beat.time - time) < 0.02) ? 1 : 0;
      const isWave = time > from && time < to;
      return stroke + (isWave ? Math.sin((2 * Math.PI * time) / 0.2) : 0);
    }),
  });

  it('belong to it where the line between them rests', () => {
    expect(untoldEnds(beats, [lead(0, 0)], { from: 0, to: 16 })).toEqual([]);
  });

  it('do not where waves as tall as a QRS begin before them: the sinus rhythm ends with its last beat', () => {
    expect(untoldEnds(beats, [lead(10.4, 15.5)], { from: 0, to: 16 })).toEqual([10 + 0.3]);
  });

  it('belong to it as far as no such waves stand before them', () => {
    expect(untoldEnds(beats, [lead(12.6, 14)], { from: 0, to: 16 })).toEqual([12 + 0.3]);
  });

  it('at its beginning likewise', () => {
    const turned = [
      ...escapes.map((beat) => ({ ...beat, time: (beat.time - 11) as Seconds })),
      ...beatsFor(10).map((beat) => ({ ...beat, time: (beat.time + 5) as Seconds })),
    ];
    const waves = Float64Array.from({ length: 16 * rate }, (_, i) => {
      const time = i / rate;
      const stroke = turned.some((beat) => Math.abs(beat.time - time) < 0.02) ? 1 : 0;
      return stroke + (time > 1.6 && time < 3 ? Math.sin((2 * Math.PI * time) / 0.2) : 0);
    });
    const cut = untoldEnds(turned, [{ ...lead(0, 0), samples: waves }], { from: 0, to: 16 });
    expect(cut).toEqual([3.5 - 0.3]);
  });
});
