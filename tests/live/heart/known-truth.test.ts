import { describe, expect, it } from 'vitest';
import { type ElectricalRecord, phaseAt } from '../../../src/live/heart/phase.js';
import { analyseStrip } from '../../../src/signal/analyse.js';
import { patientOf, renderedLeads } from '../../signal/rhythm/strips.js';
import { RHYTHMS, type RhythmName } from '../../synth/rhythms/index.js';
import { type Truth, truthOf } from '../../synth/truth.js';

/** A generated strip, read as any other, beside what it was made from (model: McSharry and others 2003). */
function read(rhythm: RhythmName, seed = 11): { record: ElectricalRecord; truth: Truth } {
  const plan = RHYTHMS[rhythm]({ species: 'dog', duration: 30, seed });
  const record = analyseStrip(renderedLeads(plan, seed, []), {
    patient: patientOf('dog'),
    breath: {},
  });
  return { record, truth: truthOf(plan) };
}

/** Away from the edges of the strip, where nothing is claimed. */
const inner = <T extends { readonly peak: number }>(waves: readonly (T | null)[]): T[] =>
  waves.flatMap((wave) => (wave && wave.peak > 2 && wave.peak < 27 ? [wave] : []));

const shareOf = <T>(all: readonly T[], holds: (one: T) => boolean): number =>
  all.filter(holds).length / all.length;

describe('on a strip of which the truth is known', () => {
  it('sinus: the atria at every P, the ventricles by the branches at every QRS, recovery at every T', () => {
    const { record, truth } = read('sinus');
    const [p, qrs, t] = (['p', 'qrs', 't'] as const).map((name) =>
      inner(truth.beats.map((beat) => beat[name])),
    );
    expect(qrs?.length).toBeGreaterThan(20);
    expect(shareOf(p ?? [], ({ peak }) => phaseAt(record, peak).step === 'atria')).toBe(1);
    expect(shareOf(qrs ?? [], ({ peak }) => phaseAt(record, peak).step === 'ventricles')).toBe(1);
    expect(shareOf(t ?? [], ({ peak }) => phaseAt(record, peak).step === 'recovery')).toBe(1);
  });

  it('second-degree block: the current of a P without QRS stops in the node, that of the others does not', () => {
    const { record, truth } = read('av-block-second-fixed');
    const lone = inner(truth.lonePWaves);
    expect(lone.length).toBeGreaterThan(3);
    expect(shareOf(lone, ({ end }) => phaseAt(record, end + 0.05).node === 'blocked')).toBe(1);
    const led = inner(truth.beats.map(({ p }) => p));
    expect(shareOf(led, ({ end }) => phaseAt(record, end + 0.05).node === 'blocked')).toBe(0);
  });

  it('third-degree block: no QRS comes by way of a P', () => {
    const { record, truth } = read('av-block-third');
    const qrs = inner(truth.beats.map((beat) => beat.qrs));
    expect(qrs.length).toBeGreaterThan(5);
    for (const { peak } of qrs) {
      expect(['ventricularOwn', 'junction', 'unclassified']).toContain(phaseAt(record, peak).step);
    }
  });

  it('early beats of the ventricles: never by the bundle', () => {
    const { record, truth } = read('ventricular-singles');
    const early = truth.beats.filter(({ kind, time }) => kind !== 'sinus' && time > 2 && time < 27);
    expect(early.length).toBeGreaterThan(1);
    for (const { time } of early) {
      expect(phaseAt(record, time)).toMatchObject({
        step: 'ventricularEarly',
        branches: 'not used',
      });
    }
  });

  it.each([
    'ventricular-fibrillation',
    'asystole',
    'ventricular-tachycardia',
    'atrial-fibrillation',
  ] as const)('%s: the sinus node is never shown to lead', (rhythm) => {
    const { record } = read(rhythm);
    for (let second = 0; second < 30; second += 0.01) {
      const { step, atria } = phaseAt(record, second);
      expect(step).not.toBe('atria');
      expect(atria).not.toMatchObject({ from: 'sinus node' });
      if (rhythm !== 'atrial-fibrillation') expect(step).not.toBe('ventricles');
    }
  });
});
