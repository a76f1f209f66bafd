import { describe, expect, it } from 'vitest';
import { analyseStrip } from '../../../src/signal/analyse.js';
import { shapeFamilies } from '../../../src/signal/beats/families.js';
import { seconds } from '../../../src/units/brands.js';
import type { BeatPlan } from '../../synth/beat-plan.js';
import { sinus } from '../../synth/rhythms/sinus.js';
import { ventricularSingles } from '../../synth/rhythms/ventricular-premature.js';
import { truthOf } from '../../synth/truth.js';
import { patientOf, renderedLeads } from '../rhythm/strips.js';

/** Two leads, in each of which a burst hides what the other one shows; the middle of the strip stands in both. */
function hiddenByTurns(plan: BeatPlan, seed: number) {
  const [one, two] = renderedLeads(plan, seed, []).map((lead, i) => {
    const samples = lead.samples.slice();
    const [from, to] = i === 0 ? [1.2, 6.1] : [13.3, 18.6];
    for (let k = from * lead.samplingRate; k < to * lead.samplingRate; k += 1) {
      samples[k] = Number.NaN;
    }
    return { ...lead, samples };
  });
  return [one!, two!];
}

describe.each(['dog', 'cat'] as const)('beats that one of two leads shows, %s', (species) => {
  it('are of the shape of the others', () => {
    const plan = sinus({ species, duration: 20, seed: 5 });
    const beats = truthOf(plan).beats.map(({ time }) => ({ time: seconds(time) }));
    const { families, of } = shapeFamilies(hiddenByTurns(plan, 5), beats);
    expect(families).toHaveLength(1);
    // The surroundings of the first or of the last may lie outside the strip, or a burst begins in them.
    expect(of.filter((family) => family < 0).length).toBeLessThanOrEqual(2);
  });

  it('prove a sinus rhythm with the others', () => {
    for (const seed of [5, 6, 7]) {
      const plan = sinus({ species, duration: 20, seed });
      const { rhythms } = analyseStrip(hiddenByTurns(plan, seed), {
        patient: patientOf(species),
        breath: {},
      });
      expect(
        rhythms.map(({ name }) => name),
        `seed ${seed}`,
      ).toEqual(['sinus rhythm']);
    }
  });

  it('are told where a ventricle began them', () => {
    for (const seed of [5, 6, 7]) {
      const plan = ventricularSingles({ species, duration: 20, seed });
      const { beats } = analyseStrip(hiddenByTurns(plan, seed), {
        patient: patientOf(species),
        breath: {},
      });
      const early = truthOf(plan).beats.filter(({ kind }) => kind === 'ventricular');
      for (const { time } of early) {
        const found = beats.find((beat) => Math.abs(beat.time - time) < 0.08);
        expect(found?.kind, `seed ${seed}, ${time.toFixed(2)} s`).toBe('ventricular premature');
      }
    }
  });
});
