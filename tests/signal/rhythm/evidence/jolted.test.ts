import { describe, expect, it } from 'vitest';
import { withoutMains } from '../../../../src/signal/filter/excerpt.js';
import type { MarkedBeat } from '../../../../src/signal/marked-beat.js';
import { areStrays } from '../../../../src/signal/rhythm/evidence/counted-twice.js';
import { withoutJolted } from '../../../../src/signal/rhythm/evidence/jolted.js';
import { seconds } from '../../../../src/units/brands.js';
import { sinus } from '../../../synth/rhythms/sinus.js';
import { stripFromTruth } from '../strips.js';

/** A sinus rhythm whose beats at some places are marked without P, with or without a jolt of 1 mV there. */
function strip(places: readonly number[], jolt: boolean) {
  const { leads, beats } = stripFromTruth(
    sinus({ species: 'dog', rate: 100, seed: 5, duration: 20 }),
    5,
  );
  const marked = beats.map(
    (beat, i): MarkedBeat => ({
      ...beat,
      p: places.includes(i) ? null : beat.p,
      kind: 'sinus',
      confidence: 1,
    }),
  );
  const moved = leads.map((lead) => ({
    ...lead,
    samples: lead.samples.map((value, i) => {
      const time = i / lead.samplingRate;
      const isNear = places.some((k) => Math.abs(time - (beats[k]!.time - 0.1)) < 0.3);
      return jolt && isNear ? value + Math.sin(2 * Math.PI * 4 * time) : value;
    }),
  }));
  return { beats: marked, quiet: moved.map(withoutMains) };
}

describe('beats whose P is not marked', () => {
  it('tell nothing of the atria where a jolt bends the line before them', () => {
    const { beats, quiet } = strip([6, 7, 19], true);
    const kept = withoutJolted(beats, quiet, 0.03);
    expect(beats.filter((beat) => !kept.includes(beat)).map((beat) => beats.indexOf(beat))).toEqual(
      [6, 7, 19],
    );
  });

  it('tell against a P where the line is calm', () => {
    const { beats, quiet } = strip([6, 7, 19], false);
    expect(withoutJolted(beats, quiet, 0.03)).toEqual(beats);
  });

  it('tell against it where they are many, jolted or not', () => {
    const many = Array.from({ length: 14 }, (_, i) => 2 * i + 1);
    const { beats, quiet } = strip(many, true);
    expect(withoutJolted(beats, quiet, 0.03)).toEqual(beats);
  });
});

describe('a wave that may be no beat', () => {
  const at = (...times: number[]) => times.map((time) => ({ time: seconds(time) }));
  const even = Array.from({ length: 20 }, (_, i) => i * 0.6);

  it('is a stray where the beats on both sides of it keep their time', () => {
    const beats = at(...even.slice(0, 8), 4.4, ...even.slice(8));
    expect(areStrays([8], beats)).toBe(true);
  });

  it('is none where the next beat is late, where it is one of many, or at either end', () => {
    const late = at(...even.slice(0, 8), 4.4, ...even.slice(8).map((time) => time + 0.4));
    expect(areStrays([8], late)).toBe(false);
    expect(areStrays([3, 7, 11], at(...even))).toBe(false);
    expect(areStrays([0], at(...even))).toBe(false);
  });
});
