import { describe, expect, it } from 'vitest';
import { analyseStrip } from '../../../src/signal/analyse.js';
import { randomFrom } from '../../synth/random.js';
import { RHYTHMS } from '../../synth/rhythms/index.js';
import { dogWaves, syntheticLead } from '../../tools/synthetic-strip.js';
import { ventricularStandstill } from './more-rhythms.js';
import { patientOf, renderedLeads } from './strips.js';

const read = (plan: ReturnType<typeof ventricularStandstill>, seed: number) =>
  analyseStrip(renderedLeads(plan, seed, []), {
    patient: patientOf(plan.species === 'rabbit' ? 'rabbit' : plan.species),
    breath: {},
  });

// Common practice: a beat of the ventricles has a T; P waves alone are a heart whose ventricles stand still.
describe.each(['dog', 'cat'] as const)('what no T follows, in a %s', (species) => {
  it.each([9301, 9302, 9303])('is no beat: P waves alone are told to be that, seed %i', (seed) => {
    const { rhythms, rate, because } = read(
      ventricularStandstill({ species, duration: 30, seed }),
      seed,
    );
    expect(rhythms.map(({ name }) => name)).toEqual(rhythms.map(() => 'cannot be told'));
    const long = rhythms.filter(({ from, to }) => to - from > 5);
    expect(long.length).toBeGreaterThan(0);
    for (const { possible } of long) expect(possible).toContain('P waves that no QRS follows');
    expect(rate).toBeNull();
    expect(because.rate).not.toBeNull();
  });

  it('is not asked of P waves that beats follow', () => {
    for (const name of ['sinus', 'av-block-second-fixed', 'atrial-standstill'] as const) {
      const { rhythms } = read(RHYTHMS[name]({ species, duration: 30, seed: 9304 }), 9304);
      expect(rhythms.flatMap(({ possible }) => possible)).not.toContain(
        'P waves that no QRS follows',
      );
    }
  });
});

describe('P waves alone on a line that wanders and hums', () => {
  it.each([
    [0.2, 0.12],
    [0.33, 0.12],
    [0.33, 0.2],
  ])('are no rhythm of the ventricles, %d times a second by %d mV', (often, far) => {
    const random = randomFrom(9306);
    const atria: number[] = [];
    for (let t = 0.3; t < 29.5; t += 0.53 + random.between(-0.008, 0.008)) atria.push(t);
    const lead = syntheticLead({
      rate: 250,
      duration: 30,
      beats: atria,
      waves: () => [
        { at: -0.012, height: 0.075, width: 0.016 },
        { at: 0.008, height: 0.12, width: 0.012 },
      ],
      noise: 0.006,
      seed: 5,
    });
    const samples = lead.samples.map((value, i) => {
      const t = i / 250;
      return value + far * Math.sin(often * 2 * Math.PI * t) + 0.02 * Math.sin(100 * Math.PI * t);
    });
    const { rhythms } = analyseStrip([{ ...lead, samples }], {
      patient: patientOf('dog'),
      breath: {},
    });
    expect(rhythms.map(({ name }) => name)).toEqual(rhythms.map(() => 'cannot be told'));
  });
});

describe('irregular spikes without a T', () => {
  it.each([100, 500])('are no fibrillating atria, at %i Hz', (rate) => {
    const random = randomFrom(9305);
    const beats: number[] = [];
    for (let t = 0.3; t < 39.5; t += random.between(0.35, 0.9)) beats.push(t);
    const lead = (waves: ReturnType<typeof dogWaves>) =>
      syntheticLead({ rate, duration: 40, beats, waves: () => waves, noise: 0.005 });
    const names = (waves: ReturnType<typeof dogWaves>) =>
      analyseStrip([lead(waves)], { patient: patientOf('dog'), breath: {} }).rhythms.map(
        ({ name }) => name,
      );
    const spike = [{ at: 0, height: 1, width: 0.6 / rate }];
    expect(names(spike)).not.toContain('atrial fibrillation');
    const withoutP = dogWaves(90).filter(({ at }) => at > -0.05);
    expect(names(withoutP)).toContain('atrial fibrillation');
  });
});
