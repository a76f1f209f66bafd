import { describe, expect, it } from 'vitest';
import { analyseStrip } from '../../../src/signal/analyse.js';
import type { BeatPlan } from '../../synth/beat-plan.js';
import { sinus } from '../../synth/rhythms/sinus.js';
import { ventricularFusion } from '../../synth/rhythms/ventricular-fusion.js';
import { TEMPLATES, ventricularBeat } from '../../synth/templates.js';
import { truthOf } from '../../synth/truth.js';
import { patientOf, renderedLeads } from '../rhythm/strips.js';

const SEEDS = [41, 42, 43];
/** Beats/min at which half of a strip holds one or two of them. */
const RATES = { dog: 100, cat: 150 };

function analysed(plan: BeatPlan, seed: number) {
  if (plan.species === 'rabbit') throw new Error('no ranges');
  return analyseStrip(renderedLeads(plan, seed, []), {
    patient: patientOf(plan.species),
    breath: {},
  });
}

/** Each ninth beat is made by a ventricle as a whole, but on time and after its P: one shape, as a blocked branch gives. */
function oneWideShape(species: 'dog' | 'cat', seed: number): BeatPlan {
  const plan = sinus({ species, duration: 20, seed });
  return {
    ...plan,
    beats: plan.beats.map((beat, i) =>
      i % 9 === 5 ? { ...ventricularBeat(TEMPLATES[species], beat.time, -1), P: beat.P } : beat,
    ),
  };
}

// Fusion: on time, after P, between the two shapes, changing from beat to beat. From memory, unverified.
describe.each(['dog', 'cat'] as const)('beats of another shape on time, %s', (species) => {
  it('are fusion beats where they change, within a sinus rhythm', () => {
    for (const seed of SEEDS) {
      const plan = ventricularFusion({ species, duration: 20, seed });
      const { beats, rhythms } = analysed(plan, seed);
      const met = truthOf(plan).beats.filter(({ kind }) => kind === 'ventricular');
      const found = beats.filter(({ kind }) => kind === 'fusion');
      for (const { time } of found) {
        expect(
          met.some((beat) => Math.abs(beat.time - time) < 0.08),
          `${time}`,
        ).toBe(true);
      }
      expect(found.length, `seed ${seed}`).toBeGreaterThanOrEqual(0.6 * met.length);
      expect(
        rhythms.map(({ name }) => name),
        `seed ${seed}`,
      ).toEqual(['sinus rhythm']);
      expect(rhythms[0]?.within.map(({ name }) => name)).toEqual(['ventricular fusion complexes']);
    }
  });

  it('are fusion beats in each part of a strip whose parts show together that they change', () => {
    for (const seed of SEEDS) {
      const plan = ventricularFusion({ species, duration: 20, seed, rate: RATES[species] });
      const leads = renderedLeads(plan, seed, []);
      // Each part holds one or two.
      for (const { samples, samplingRate } of leads) {
        samples.fill(Number.NaN, 8 * samplingRate, 9.2 * samplingRate);
      }
      const { rhythms } = analyseStrip(leads, { patient: patientOf(species), breath: {} });
      const told = rhythms.filter(({ confidence }) => confidence !== null);
      expect(told.length, `seed ${seed}`).toBe(2);
      for (const { within } of told) {
        expect(within.map(({ name }) => name)).toEqual(['ventricular fusion complexes']);
      }
    }
  });

  it('are left open where all have one wide shape', () => {
    for (const seed of SEEDS) {
      const { beats, rhythms } = analysed(oneWideShape(species, seed), seed);
      expect(
        beats.filter(({ kind }) => kind === 'fusion'),
        `seed ${seed}`,
      ).toEqual([]);
      const events = rhythms.flatMap(({ within }) => within.map(({ name }) => name));
      expect(events, `seed ${seed}`).toContain('wide complexes on time');
    }
  });

  it('are none in a plain sinus rhythm', () => {
    for (const seed of SEEDS) {
      const { rhythms } = analysed(sinus({ species, duration: 20, seed }), seed);
      expect(rhythms.flatMap(({ within }) => within)).toEqual([]);
    }
  });
});
