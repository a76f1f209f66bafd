import { describe, expect, it } from 'vitest';
import type { BeatPlan, PlannedBeat, Species } from './beat-plan.js';
import { renderLead } from './render.js';
import { conductedBeat, TEMPLATES, ventricularBeat } from './templates.js';
import { type BeatTruth, type Span, truthOf } from './truth.js';

/** Reference ranges, lead II: Table 2.4 in Small Animal Internal Medicine, 6th ed. */
const LIMITS = {
  dog: { p: 0.04, pHeight: 0.4, pr: [0.06, 0.13], qrs: 0.06, r: 2.5, qt: [0.15, 0.25] },
  cat: { p: 0.04, pHeight: 0.2, pr: [0.05, 0.09], qrs: 0.04, r: 0.9, qt: [0.12, 0.18] },
} as const;

const RATES = {
  dog: [60, 74, 90, 120, 160],
  cat: [120, 140, 168, 200, 240],
} as const;

const NEARLY = 1e-9;
const FS = 2000;

function alone(species: Species, beat: PlannedBeat): BeatPlan {
  return { species, duration: 2, beats: [beat], lonePWaves: [], ripples: [], breaths: [] };
}

function onlyBeat(plan: BeatPlan): BeatTruth {
  const [beat] = truthOf(plan).beats;
  if (!beat) throw new Error('the beat was cut');
  return beat;
}

function heightWithin(lead: Float64Array, span: Span): number {
  return Math.max(...lead.slice(Math.round(span.onset * FS), Math.round(span.end * FS) + 1));
}

describe.each(['dog', 'cat'] as const)('the %s template', (species) => {
  const limits = LIMITS[species];

  it.each(RATES[species])('lies inside the reference range at %d/min (Table 2.4)', (rate) => {
    const plan = alone(species, conductedBeat(TEMPLATES[species], 1, 60 / rate));
    const { p, qrs, t } = onlyBeat(plan);
    const lead = renderLead(plan, FS);
    expect(p!.end - p!.onset).toBeLessThanOrEqual(limits.p + NEARLY);
    expect(heightWithin(lead, p!)).toBeLessThanOrEqual(limits.pHeight);
    expect(heightWithin(lead, p!)).toBeGreaterThan(0.1);
    expect(qrs.onset - p!.onset).toBeGreaterThanOrEqual(limits.pr[0] - NEARLY);
    expect(qrs.onset - p!.onset).toBeLessThanOrEqual(limits.pr[1] + NEARLY);
    expect(qrs.end - qrs.onset).toBeGreaterThan(0.03);
    expect(qrs.end - qrs.onset).toBeLessThanOrEqual(limits.qrs);
    expect(heightWithin(lead, qrs)).toBeGreaterThan(species === 'dog' ? 1 : 0.3);
    expect(heightWithin(lead, qrs)).toBeLessThanOrEqual(limits.r);
    expect(t!.end - qrs.onset).toBeGreaterThanOrEqual(limits.qt[0] - NEARLY);
    expect(t!.end - qrs.onset).toBeLessThanOrEqual(limits.qt[1] + NEARLY);
    expect(heightWithin(lead, t!)).toBeLessThanOrEqual(species === 'dog' ? 0.25 * 1.6 : 0.3);
  });

  it('gives a ventricular beat no P and a QRS wider than the bundle-branch-block limit', () => {
    const { p, qrs, t } = onlyBeat(alone(species, ventricularBeat(TEMPLATES[species], 1)));
    expect(p).toBeNull();
    expect(qrs.end - qrs.onset).toBeGreaterThan(species === 'dog' ? 0.08 : 0.06);
    expect(qrs.end - qrs.onset).toBeCloseTo(TEMPLATES[species].ventricularQrs, 6);
    expect(t!.peak).toBeGreaterThan(qrs.end);
  });
});

describe.each(['dog', 'cat', 'rabbit'] as const)('the QT interval of the %s', (species) => {
  it('shortens as the rate rises', () => {
    const resting = TEMPLATES[species].restingRate;
    const qts = [0.85, 1, 1.2, 1.4].map((factor) => {
      const rr = 60 / (factor * resting);
      const { qrs, t } = onlyBeat(alone(species, conductedBeat(TEMPLATES[species], 1, rr)));
      return t!.end - qrs.onset;
    });
    expect([...qts].sort((a, b) => b - a)).toEqual(qts);
    expect(qts[0]! - qts[3]!).toBeGreaterThan(0.015);
  });
});

describe('the tall-T change', () => {
  it.each([0.9, 0.5])('makes T %d of R in the drawn trace', (ratio) => {
    const plan = alone('dog', conductedBeat(TEMPLATES.dog, 1, 0.8, { tToR: ratio }));
    const { qrs, t } = onlyBeat(plan);
    const lead = renderLead(plan, FS);
    expect(heightWithin(lead, t!) / heightWithin(lead, qrs)).toBeCloseTo(ratio, 2);
  });
});

describe('a wave’s onset and end', () => {
  it('are where the drawn wave has fallen to 5 % of its height', () => {
    const { T } = conductedBeat(TEMPLATES.dog, 1, 0.7);
    const R = { amplitude: 0, centre: 0, rise: 0.005, fall: 0.005 };
    const plan = alone('dog', { time: 1, kind: 'sinus', P: null, Q: null, R, S: null, T });
    const { t } = onlyBeat(plan);
    const lead = renderLead(plan, 20_000);
    for (const edge of [t!.onset, t!.end]) {
      expect(lead[Math.round(edge * 20_000)]! / T!.amplitude).toBeCloseTo(0.05, 2);
    }
  });
});
