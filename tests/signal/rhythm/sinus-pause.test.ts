import { describe, expect, it } from 'vitest';
import { analyseStrip } from '../../../src/signal/analyse.js';
import { dogWaves, syntheticLead } from '../../tools/synthetic-strip.js';
import { patientOf } from './strips.js';

/** Events within what was named, of beats that come after intervals which a time of the strip, s, tells. */
function within(intervalAt: (time: number) => number): string[] {
  const beats: number[] = [];
  for (let t = 0.4; t < 58; t += intervalAt(t)) beats.push(t);
  const lead = syntheticLead({
    rate: 500,
    duration: 60,
    beats,
    waves: () => dogWaves(90),
    noise: 0.004,
  });
  const { rhythms } = analyseStrip([lead], { patient: patientOf('dog'), breath: {} });
  expect(rhythms.some(({ name }) => name.startsWith('sinus'))).toBe(true);
  return rhythms.flatMap((rhythm) => rhythm.within.map(({ name }) => name));
}

/** A little life, so that no interval is the same twice. */
const about = (interval: number, time: number) => interval * (1 + 0.012 * Math.sin(37 * time));

// Common practice: a pause stands out from the intervals before it and after it.
describe('a sinus pause', () => {
  it('is none where the rate only slows down', () => {
    const slowing = (time: number) => about(0.5 + 0.65 / (1 + Math.exp(-(time - 30) / 3)), time);
    expect(within(slowing)).not.toContain('sinus pause');
  });

  it('is told where one interval lasts more than two of its neighbours, at either rate', () => {
    const paused = (time: number) =>
      [14, 44].some((at) => time >= at && time < at + 0.6) ? 1.7 : about(0.6, time);
    expect(within(paused)).toContain('sinus pause');
  });
});
