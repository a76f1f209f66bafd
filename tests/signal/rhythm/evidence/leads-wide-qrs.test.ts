import { expect, it } from 'vitest';
import type { Evidence } from '../../../../src/signal/rhythm/evidence/evidence.js';
import { leadsWideQrs } from '../../../../src/signal/rhythm/evidence/leads-wide-qrs.js';
import { intervalLimits } from '../../../../src/signal/rhythm/interval-limits.js';
import { rateRange } from '../../../../src/signal/rhythm/rate-ranges.js';
import { patientOf } from '../strips.js';

const dog = patientOf('dog');
const limits = intervalLimits(dog)!;
const beats = new Array(20).fill(null);
const tied = {
  atrial: { asked: 20, withP: 20, equalPr: 1, pr: 0.1 },
  above: beats,
  beats,
  rate: 120,
  uprightP: 1,
} as unknown as Evidence;
const leads = (evidence: object, width: number): boolean =>
  leadsWideQrs({ ...tied, ...evidence }, width, limits, rateRange(dog)) !== null;

it('a P leads to a wide QRS where each follows its P at one PR', () => {
  expect(leads({}, limits.wideQrs + 0.01)).toBe(true);
});

it('so it does where the QRS is neither narrow nor wide and the halfway to the next P lies clear of it', () => {
  expect(leads({}, limits.wideQrs - 0.005)).toBe(true);
  expect(leads({}, limits.narrowQrs - 0.005)).toBe(false);
});

it.each([
  [
    'that is not clearly wide, as a second P at its edge makes it',
    { rate: 150, atrial: { ...tied.atrial, pr: 0.12 } },
    limits.wideQrs - 0.005,
  ],
  ['from below', { uprightP: 0 }, limits.wideQrs + 0.01],
  ['in a lead of which that cannot be told', { uprightP: Number.NaN }, limits.wideQrs + 0.01],
  ['faster than the usual range', { rate: 190 }, limits.wideQrs + 0.01],
  ['at another PR now and then', { atrial: { ...tied.atrial, equalPr: 0.9 } }, 0.1],
])('no P leads to a QRS %s', (_, evidence, width) => {
  expect(leads(evidence, width)).toBe(false);
});
