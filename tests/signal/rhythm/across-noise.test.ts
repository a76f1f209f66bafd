import { describe, expect, it } from 'vitest';
import { analyseStrip } from '../../../src/signal/analyse.js';
import { NORMAL } from '../../../src/signal/rhythm/rhythm.js';
import type { Channel } from '../../../src/signal/waveform.js';
import type { BeatPlan } from '../../synth/beat-plan.js';
import { conductedOneOf } from '../../synth/rhythms/av-block-advanced.js';
import { RHYTHMS, type RhythmName } from '../../synth/rhythms/index.js';
import { patientOf, renderedLeads } from './strips.js';

const DURATION = 30;

/** Seconds in which samples are missing, between stretches of five seconds. */
const MISSING = [
  [5, 7],
  [12, 14],
  [19, 21],
  [26, 30],
] as const;

/** The first plan's trace, the second's between 7 and 12 s, with holes. */
function withHoles(plan: BeatPlan, inserted: BeatPlan, seed: number): Channel[] {
  const leads = renderedLeads(plan, seed, []);
  const other = renderedLeads(inserted, seed, []);
  return leads.map((lead, k) => ({
    ...lead,
    samples: lead.samples.map((value, i) => {
      const time = i / lead.samplingRate;
      if (MISSING.some(([from, to]) => time >= from && time < to)) return Number.NaN;
      return time >= 7 && time < 12 ? other[k]!.samples[i]! : value;
    }),
  }));
}

function named(leads: readonly Channel[], species: 'dog' | 'cat') {
  return analyseStrip(leads, { patient: patientOf(species), breath: {} }).rhythms.filter(
    ({ name }) => name !== 'not readable',
  );
}

const planned = (name: RhythmName, species: 'dog' | 'cat', rate?: number): BeatPlan =>
  RHYTHMS[name]({ species, duration: DURATION, seed: 77, ...(rate && { rate }) });

describe.each(['dog', 'cat'] as const)('a slow rhythm of a %s between holes', (species) => {
  const slow = species === 'dog' ? 42 : 70;

  it.each([
    ['sinus-bradycardia', 'sinus bradycardia'],
    ['idioventricular', 'idioventricular rhythm'],
    ['atrial-standstill', 'atrial standstill'],
  ] as const)(
    '%s has its name in all of them, also where one alone does not tell it',
    (name, expected) => {
      const plan = planned(name, species, slow);
      const found = named(withHoles(plan, plan, 5), species);
      expect(found.map((each) => each.name)).toEqual(Array(4).fill(expected));
      expect(
        found.some(({ because }) => because.some(({ key }) => key === 'weighed together')),
      ).toBe(true);
    },
  );

  it.each([
    ['idioventricular', planned('idioventricular', species, slow)],
    ['2:1 block', conductedOneOf(2, { species, duration: DURATION, seed: 78, rate: 2 * slow })],
    ['third-degree block', planned('av-block-third', species)],
    ['ventricular tachycardia', planned('ventricular-tachycardia', species)],
    ['fibrillation', planned('ventricular-fibrillation', species)],
  ])('a stretch of %s among sinus beats bears no sinus name', (_, inserted) => {
    const found = named(
      withHoles(planned('sinus-bradycardia', species, slow), inserted, 5),
      species,
    );
    const there = found.filter(({ from, to }) => from < 12 && to > 7);
    expect(there.length).toBeGreaterThan(0);
    expect(there.filter(({ name }) => NORMAL.some((normal) => normal === name))).toEqual([]);
  });
});
