import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { BeatPlan } from './beat-plan.js';
import { renderLead } from './render.js';
import { RHYTHMS, type RhythmName } from './rhythms/index.js';
import { truthOf } from './truth.js';

const NAMES = Object.keys(RHYTHMS) as RhythmName[];
const BEATLESS: readonly RhythmName[] = ['ventricular-fibrillation', 'asystole'];
const WITH_BEATS = NAMES.filter((name) => !BEATLESS.includes(name));
const FS = 1000;

function planned(name: RhythmName, species: 'dog' | 'cat' = 'dog', seed = 11): BeatPlan {
  return RHYTHMS[name]({ species, duration: 30, seed });
}

/** Seconds of the largest absolute value within `reach` s of `time`. */
function peakNear(lead: Float64Array, time: number, reach: number): number {
  let best = Math.max(0, Math.round((time - reach) * FS));
  for (let i = best; i <= Math.min(lead.length - 1, (time + reach) * FS); i += 1) {
    if (Math.abs(lead[i]!) > Math.abs(lead[best]!)) best = i;
  }
  return best / FS;
}

function intervals(plan: BeatPlan): number[] {
  return plan.beats.slice(1).map(({ time }, i) => time - plan.beats[i]!.time);
}

describe.each(['dog', 'cat'] as const)('every rhythm of the %s', (species) => {
  it.each(WITH_BEATS)('%s has its true R times at the drawn peaks', (name) => {
    const plan = planned(name, species);
    const lead = renderLead(plan, FS);
    const { beats } = truthOf(plan);
    expect(beats.length).toBeGreaterThan(15);
    for (const { time, kind } of beats) {
      const off = Math.abs(peakNear(lead, time, 0.03) - time);
      // A steep T begins under a wide R and may lean on its peak.
      expect(off).toBeLessThan(kind === 'ventricular' ? 0.003 : 0.0011);
    }
  });

  it.each(NAMES)('%s is the same for the same seed', (name) => {
    expect(planned(name, species)).toEqual(planned(name, species));
  });

  it.each(NAMES)('%s keeps its beats in ascending time and apart', (name) => {
    for (const gap of intervals(planned(name, species))) expect(gap).toBeGreaterThan(0.12);
  });
});

describe('the sources', () => {
  it('hold no clock and no chance of their own', () => {
    const files = readdirSync(import.meta.dirname, { recursive: true, encoding: 'utf8' });
    const sources = files.filter((file) => file.endsWith('.ts') && !file.endsWith('.test.ts'));
    expect(sources.length).toBeGreaterThan(15);
    for (const file of sources) {
      const text = readFileSync(join(import.meta.dirname, file), 'utf8');
      expect(text, file).not.toMatch(/Math\.random|\bDate\b|performance\./);
    }
  });

  it('give another recording for another seed', () => {
    expect(planned('sinus', 'dog', 1).beats).not.toEqual(planned('sinus', 'dog', 2).beats);
  });
});

describe('P waves in the truth', () => {
  it.each(['sinus', 'av-block-first', 'breath-linked-sinus'] as const)(
    '%s has each at a drawn summit',
    (name) => {
      const plan = planned(name);
      const lead = renderLead(plan, FS);
      const waves = truthOf(plan).beats.flatMap(({ p }) => (p ? [p] : []));
      expect(waves.length).toBeGreaterThan(30);
      for (const { peak } of waves) {
        expect(Math.abs(peakNear(lead, peak, 0.015) - peak)).toBeLessThan(0.003);
      }
    },
  );

  it.each(['atrial-fibrillation', 'atrial-standstill', 'ventricular-tachycardia'] as const)(
    '%s has none',
    (name) => {
      const { beats, lonePWaves } = truthOf(planned(name));
      expect(beats.every(({ p }) => p === null)).toBe(true);
      expect(lonePWaves).toEqual([]);
    },
  );
});

describe('atrioventricular block', () => {
  const prs = (plan: BeatPlan): number[] =>
    truthOf(plan).beats.flatMap(({ p, qrs }) => (p ? [qrs.onset - p.onset] : []));

  it('of the first degree has every PR over the range (dog 0.13 s)', () => {
    const plan = planned('av-block-first');
    expect(Math.min(...prs(plan))).toBeGreaterThan(0.13);
    expect(plan.lonePWaves).toEqual([]);
  });

  it('of the second degree with lengthening PR drops each fifth P', () => {
    const plan = planned('av-block-second-lengthening');
    expect(plan.beats.length / plan.lonePWaves.length).toBeCloseTo(4, 0);
    const cycle = prs(plan).slice(0, 4);
    expect([...cycle].sort((a, b) => a - b)).toEqual(cycle);
    expect(cycle[3]! - cycle[0]!).toBeGreaterThan(0.05);
  });

  it('of the second degree with fixed PR drops each third P', () => {
    const plan = planned('av-block-second-fixed');
    expect(plan.beats.length / plan.lonePWaves.length).toBeCloseTo(2, 0);
    expect(Math.max(...prs(plan)) - Math.min(...prs(plan))).toBeLessThan(1e-9);
  });

  it('of the third degree has regular P waves, fewer regular beats, and no link between them', () => {
    const { beats, lonePWaves } = truthOf(planned('av-block-third'));
    expect(lonePWaves.length).toBeGreaterThan(2 * beats.length);
    expect(beats.every(({ p, kind }) => p === null && kind === 'ventricular')).toBe(true);
    const distances = beats
      .slice(2)
      .map(({ time }) => Math.min(...lonePWaves.map(({ peak }) => Math.abs(time - peak))));
    expect(Math.max(...distances) - Math.min(...distances)).toBeGreaterThan(0.1);
  });
});

describe('irregular rhythms', () => {
  it('atrial fibrillation has no two intervals that foretell the next', () => {
    const gaps = intervals(planned('atrial-fibrillation'));
    const mean = gaps.reduce((sum, gap) => sum + gap, 0) / gaps.length;
    const off = gaps.map((gap) => gap - mean);
    const variance = off.reduce((sum, value) => sum + value * value, 0);
    const lag = off.slice(1).reduce((sum, value, i) => sum + value * off[i]!, 0);
    expect(Math.sqrt(variance / gaps.length) / mean).toBeGreaterThan(0.15);
    expect(Math.abs(lag / variance)).toBeLessThan(0.35);
  });

  it('sinus pause has gaps of more than two cycles with no wave in them', () => {
    const plan = planned('sinus-pause');
    const gaps = intervals(plan);
    const usual = [...gaps].sort((a, b) => a - b)[Math.floor(gaps.length / 2)]!;
    const pauses = gaps.filter((gap) => gap > 2 * usual);
    expect(pauses.length).toBeGreaterThanOrEqual(2);
    expect(Math.max(...pauses)).toBeLessThan(3.4 * usual);
    expect(plan.lonePWaves).toEqual([]);
  });

  it('breath-linked sinus crowds within a breath and is normal in each beat', () => {
    const gaps = intervals(planned('breath-linked-sinus'));
    expect(Math.max(...gaps) / Math.min(...gaps)).toBeGreaterThan(2);
  });
});

describe('ventricular ectopy', () => {
  const pattern = (name: RhythmName): string =>
    planned(name)
      .beats.map(({ kind }) => (kind === 'ventricular' ? 'V' : 's'))
      .join('');

  it('comes singly, in pairs, every second, every third beat, and in runs of five', () => {
    expect(pattern('ventricular-singles')).toMatch(/^s{6}Vs{9}Vs{9}V/);
    expect(pattern('ventricular-pairs')).toMatch(/^s{6}VVs+VVs+VV/);
    expect(pattern('ventricular-bigeminy')).toMatch(/^(sV){10,}s?$/);
    expect(pattern('ventricular-trigeminy')).toMatch(/^(ssV){10,}s?s?$/);
    expect(pattern('ventricular-runs')).toMatch(/^s{8}V{5}s+V{5}/);
  });

  it('is early, and a single one leaves the sinus clock unmoved', () => {
    const { beats } = planned('ventricular-singles');
    for (const [i, { kind, time }] of beats.entries()) {
      if (kind !== 'ventricular') continue;
      const cycle = beats[i - 1]!.time - beats[i - 2]!.time;
      expect((time - beats[i - 1]!.time) / cycle).toBeLessThan(0.7);
      expect((beats[i + 1]!.time - beats[i - 1]!.time) / cycle).toBeCloseTo(2, 0);
    }
  });
});

describe('rhythms without beats', () => {
  it('ventricular fibrillation moves without rest and has no beat', () => {
    const plan = planned('ventricular-fibrillation');
    const lead = renderLead(plan, FS);
    expect(truthOf(plan).beats).toEqual([]);
    const rms = Math.sqrt(lead.reduce((sum, value) => sum + value * value, 0) / lead.length);
    expect(rms).toBeGreaterThan(0.25);
    const crossings = lead.slice(1).filter((value, i) => value >= 0 && lead[i]! < 0).length / 30;
    expect(crossings).toBeGreaterThan(4.5);
    expect(crossings).toBeLessThan(8.5);
  });

  it('asystole is a flat line', () => {
    const plan = planned('asystole');
    expect(renderLead(plan, FS).every((value) => value === 0)).toBe(true);
    expect(truthOf(plan).beats).toEqual([]);
  });
});
