import { describe, expect, it } from 'vitest';
import { findBreaths } from '../../../src/signal/breath/find-breaths.js';
import { linkToBreath } from '../../../src/signal/breath/link.js';
import { normalVariant } from '../../../src/signal/breath/normal-variant.js';
import type { BeatWaves, Patient } from '../../../src/signal/marked-beat.js';
import { kilogram } from '../../../src/units/brands.js';
import type { BeatPlan } from '../../synth/beat-plan.js';
import { atrialFibrillation } from '../../synth/rhythms/atrial-fibrillation.js';
import { breathLinkedSinus } from '../../synth/rhythms/breath-linked-sinus.js';
import { sinus, tallT } from '../../synth/rhythms/sinus.js';
import { ventricularSingles } from '../../synth/rhythms/ventricular-premature.js';
import { beatsOf, everything, stated, wavesOf } from './strips.js';

const DOG: Patient = {
  species: 'dog',
  weight: kilogram(22),
  ageYears: 7,
  anesthetised: true,
};
const setting = { species: 'dog', duration: 60, seed: 11, breathsPerMinute: 10 } as const;

const linked = breathLinkedSinus(setting);
const link = linkToBreath(beatsOf(linked), stated(linked.breaths), everything(60));
const waves = wavesOf(linked);

/** The linked strip with one beat changed. */
const withBeat = (index: number, change: (beat: BeatWaves) => Partial<BeatWaves>): BeatWaves[] =>
  waves.map((beat, i) => (i === index ? { ...beat, ...change(beat) } : beat));

const missingOf = (plan: BeatPlan) =>
  normalVariant(
    linkToBreath(beatsOf(plan), stated(plan.breaths), everything(60)),
    wavesOf(plan),
    DOG,
  ).missing;

describe('a normal variant', () => {
  it('is told where the timing is proven and every beat has a normal P, QRS and T', () => {
    expect(link.verdict).toBe('linked');
    expect(normalVariant(link, waves, DOG)).toEqual({ isNormalVariant: true, missing: [] });
    const cat = breathLinkedSinus({ ...setting, species: 'cat' });
    const catLink = linkToBreath(beatsOf(cat), stated(cat.breaths), everything(60));
    const patient = { ...DOG, species: 'cat', weight: kilogram(4) } as const;
    expect(normalVariant(catLink, wavesOf(cat), patient).missing).toEqual([]);
  });

  it('is not told of a beat that does not go with the breath', () => {
    expect(missingOf(sinus(setting))).toEqual(['timing that goes with the breath']);
  });

  it('is not told of atrial fibrillation or ventricular beats, linked or not', () => {
    expect(normalVariant(link, wavesOf(atrialFibrillation(setting)), DOG).missing).toEqual(
      expect.arrayContaining(['a P wave on every beat', 'a constant PR interval']),
    );
    expect(normalVariant(link, wavesOf(ventricularSingles(setting)), DOG).missing).toEqual(
      expect.arrayContaining([
        'a P wave on every beat',
        'a narrow QRS',
        'a QRS of one shape',
        'T waves of one direction',
      ]),
    );
  });

  it('is not told where T stands nearly as tall as R', () => {
    expect(normalVariant(link, wavesOf(tallT(setting)), DOG).missing).toEqual([
      'T waves of ordinary height',
    ]);
  });

  it('is not told where one beat among many lacks its P, comes after another PR, or has no T', () => {
    expect(
      normalVariant(
        link,
        withBeat(30, () => ({ p: null })),
        DOG,
      ).missing,
    ).toEqual(['a P wave on every beat']);
    expect(
      normalVariant(
        link,
        withBeat(30, () => ({ t: null })),
        DOG,
      ).missing,
    ).toEqual(['a T wave on every beat']);
    const early = withBeat(30, ({ p }) => ({
      p: p && { ...p, onset: (p.onset - 0.06) as typeof p.onset },
    }));
    expect(normalVariant(link, early, DOG).missing).toEqual(['a constant PR interval']);
  });

  it('is not told from a breath that was only read from the ECG, nor without beats', () => {
    const guessed = { ...link, source: 'ecg' } as const;
    expect(normalVariant(guessed, waves, DOG).missing).toEqual([
      'a breath recorded apart from the ECG',
    ]);
    const none = normalVariant(linkToBreath([], findBreaths({}), []), [], DOG);
    expect(none.isNormalVariant).toBe(false);
    expect(none.missing).toContain('enough marked beats');
  });

  it('is not told of a species without a published QRS limit at hand', () => {
    const rabbit = { ...DOG, species: 'rabbit' } as const;
    expect(normalVariant(link, waves, rabbit).missing).toEqual([
      'a published QRS limit for the species',
    ]);
  });
});
