import { describe, expect, it } from 'vitest';
import { analyseStrip } from '../../../../src/signal/analyse.js';
import { type Bell, dogWaves, syntheticLead } from '../../../tools/synthetic-strip.js';
import { patientOf } from '../strips.js';

/** A wide, tall beat of a ventricle, its T the other way. */
const WIDE: readonly Bell[] = [
  { at: 0, height: 1.9, width: 0.022 },
  { at: 0.045, height: -0.3, width: 0.015 },
  { at: 0.2, height: -0.6, width: 0.03 },
];

/** Sinus beats at 100 a minute; at every seventh something stands on T, 0.19 s after R, and the sinus beats go on in time. */
function read(onT: readonly Bell[]) {
  const own = Array.from({ length: 66 }, (_, i) => 0.4 + 0.6 * i + 0.004 * Math.sin(5 * i));
  const early = own.filter((_, i) => i % 7 === 5).map((time) => time + 0.19);
  const beats = [...own, ...early].sort((a, b) => a - b);
  const isEarly = new Set(early);
  const lead = syntheticLead({
    rate: 400,
    duration: 40,
    beats,
    waves: (i) => (isEarly.has(beats[i]!) ? onT : dogWaves(100)),
    noise: 0.004,
  });
  return { early, ...analyseStrip([lead], { patient: patientOf('dog'), breath: {} }) };
}

// Common practice: a ventricular premature beat that falls on T may start a fibrillation, and is told as what it is.
describe('a wave where T stands', () => {
  it('is a premature beat where it is taller by far than the T of the others', () => {
    const { early, rhythms } = read(WIDE);
    const told = rhythms
      .flatMap(({ within }) => within)
      .filter(({ name }) => name === 'ventricular premature complexes')
      .flatMap(({ beats }) => beats);
    for (const time of early) {
      expect(
        told.some((each) => Math.abs(each - time) < 0.05),
        `${time} s`,
      ).toBe(true);
    }
  });

  it('is none where it is no taller than they are', () => {
    const { rhythms } = read([{ at: 0, height: 0.2, width: 0.02 }]);
    const told = rhythms.flatMap(({ within }) => within.map(({ name }) => name));
    expect(told).not.toContain('ventricular premature complexes');
  });
});
