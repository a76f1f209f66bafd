import { describe, expect, it } from 'vitest';
import { analyseStrip } from '../../../src/signal/analyse.js';
import { type Bell, beatTimes, syntheticLead } from '../../tools/synthetic-strip.js';
import { patientOf } from './strips.js';

const namesOf = (waves: readonly Bell[]) => {
  const lead = syntheticLead({
    rate: 250,
    duration: 20,
    beats: beatTimes(150, 0.3, 19.8, 0.02, 2),
    waves: () => waves,
    noise: 0.002,
  });
  return analyseStrip([lead], { patient: patientOf('cat'), breath: {} }).rhythms.map(
    ({ name }) => name,
  );
};

const P: Bell = { at: -0.075, height: 0.06, width: 0.009 };
const T: Bell = { at: 0.13, height: 0.05, width: 0.02 };

// Common practice: a lead may show the heart low, but P leads, QRS is by far the steepest, and T follows.
describe('a QRS that is low and that a slow filter has blurred', () => {
  const low: Bell = { at: 0, height: 0.18, width: 0.008 };

  it('is one between a gentler P and a T', () => {
    expect(namesOf([P, low, T])).toEqual(['sinus rhythm']);
  });

  it('proves nothing without a T, or where P is nearly as steep: then it may be the second tip of a P', () => {
    expect(namesOf([P, low])).not.toContain('sinus rhythm');
    expect(namesOf([{ ...P, height: 0.12 }, { ...low, height: 0.14 }, T])).not.toContain(
      'sinus rhythm',
    );
  });
});
