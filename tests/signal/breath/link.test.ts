import { describe, expect, it } from 'vitest';
import { findBreaths } from '../../../src/signal/breath/find-breaths.js';
import { type BreathLink, linkToBreath } from '../../../src/signal/breath/link.js';
import type { BeatPlan } from '../../synth/beat-plan.js';
import { type Random, randomFrom } from '../../synth/random.js';
import { atrialFibrillation } from '../../synth/rhythms/atrial-fibrillation.js';
import { breathLinkedSinus } from '../../synth/rhythms/breath-linked-sinus.js';
import { ventilatorBreaths } from '../../synth/rhythms/setting.js';
import { sinus } from '../../synth/rhythms/sinus.js';
import { sinusPause } from '../../synth/rhythms/sinus-pause.js';
import { supraventricularPremature } from '../../synth/rhythms/supraventricular.js';
import {
  ventricularPairs,
  ventricularRuns,
  ventricularSingles,
  ventricularTrigeminy,
} from '../../synth/rhythms/ventricular-premature.js';
import { beatsOf, everything, kindsOf, ownBreaths, stated, swingingBeats } from './strips.js';

const DURATION = 60;
const STRIPS = 50;
const ALARMS = 0.05;
const DETECTION = 0.95;

/** Share of strips called linked, printed with the rest of the verdicts. */
function linkedShare(
  name: string,
  strips: number,
  make: (seed: number, random: Random) => BreathLink,
) {
  const tally = new Map<string, number>();
  for (let seed = 1; seed <= strips; seed += 1) {
    const { verdict, doubt } = make(seed, randomFrom(7919 * seed + 3));
    const said = doubt ?? verdict;
    tally.set(said, (tally.get(said) ?? 0) + 1);
  }
  console.log(`${name}: ${[...tally].map(([said, count]) => `${said} ${count}`).join(', ')}`);
  return (tally.get('linked') ?? 0) / strips;
}

type Rhythm = (setting: {
  species: 'dog';
  duration: number;
  seed: number;
  rate: number;
}) => BeatPlan;

const UNLINKED: Readonly<Record<string, Rhythm>> = {
  'regular sinus': (setting) => sinus(setting),
  'sinus that speeds up or slows': (setting) => sinus(setting, { endRate: 200 - setting.rate }),
  'atrial fibrillation': atrialFibrillation,
  'sinus with pauses': sinusPause,
  'early narrow beats': supraventricularPremature,
  'single ventricular beats': (setting) => ventricularSingles(setting),
  'ventricular pairs': ventricularPairs,
  'ventricular trigeminy': ventricularTrigeminy,
  'ventricular runs': ventricularRuns,
};

describe('beats that do not go with the breath', () => {
  const plan = (rhythm: Rhythm, seed: number, random: Random): BeatPlan =>
    rhythm({ species: 'dog', duration: DURATION, seed, rate: random.between(60, 140) });

  it.each(Object.keys(UNLINKED))('are called linked in at most 1 of 20 strips: %s', (name) => {
    const rhythm = UNLINKED[name] as Rhythm;
    const ventilated = linkedShare(`${name}, ventilator`, STRIPS, (seed, random) =>
      linkToBreath(
        kindsOf(plan(rhythm, seed, random)),
        stated(ventilatorBreaths(random.between(8, 20), DURATION)),
        everything(DURATION),
      ),
    );
    const own = linkedShare(`${name}, own breaths`, STRIPS, (seed, random) =>
      linkToBreath(
        kindsOf(plan(rhythm, seed, random)),
        stated(ownBreaths(random.between(8, 20), DURATION, random)),
        everything(DURATION),
      ),
    );
    expect(ventilated).toBeLessThanOrEqual(ALARMS);
    expect(own).toBeLessThanOrEqual(ALARMS);
  });

  it('are called linked in at most 5 % where only the rate of the ventilator is known', () => {
    for (const name of ['regular sinus', 'atrial fibrillation', 'single ventricular beats']) {
      const share = linkedShare(`${name}, rate only`, 30, (seed, random) =>
        linkToBreath(
          kindsOf(plan(UNLINKED[name] as Rhythm, seed, random)),
          findBreaths({ ventilatorRate: Math.round(random.between(8, 20)) }),
          everything(DURATION),
        ),
      );
      expect(share).toBeLessThanOrEqual(ALARMS);
    }
  });

  it('are called linked in at most 5 % where the sinus node swings at a pace of its own', () => {
    const apart = (random: Random): [number, number] => {
      const own = random.between(8, 20);
      const shift = random.between(2, 6);
      return [own, Math.round(own + shift > 20 ? own - shift : own + shift)];
    };
    const arrhythmia = (seed: number, rate: number, swings: number): { time: number }[] =>
      beatsOf(
        breathLinkedSinus({
          species: 'dog',
          duration: DURATION,
          seed,
          rate,
          breathsPerMinute: swings,
        }),
      );
    const known = linkedShare('own pace, ventilator', STRIPS, (seed, random) => {
      const [swings, breaths] = apart(random);
      return linkToBreath(
        arrhythmia(seed, random.between(70, 120), swings),
        stated(ventilatorBreaths(breaths, DURATION)),
        everything(DURATION),
      );
    });
    const rateOnly = linkedShare('own pace, rate only', 40, (seed, random) => {
      const [swings, breaths] = apart(random);
      return linkToBreath(
        arrhythmia(seed, random.between(70, 120), swings),
        findBreaths({ ventilatorRate: breaths }),
        everything(DURATION),
      );
    });
    expect(known).toBeLessThanOrEqual(ALARMS);
    expect(rateOnly).toBeLessThanOrEqual(ALARMS);
  });
});

describe('beats that go with the breath', () => {
  it('are called linked in at least 95 % of strips of 8 whole ventilator breaths', () => {
    const share = linkedShare('linked, ventilator', 30, (seed, random) => {
      const rate = random.between(8, 20);
      const duration = 8 * (60 / rate) + 1.2;
      const plan = breathLinkedSinus({
        species: 'dog',
        duration,
        seed,
        rate: random.between(70, 120),
        breathsPerMinute: rate,
      });
      const link = linkToBreath(beatsOf(plan), stated(plan.breaths), everything(duration));
      expect(link.breaths).toBe(8);
      return link;
    });
    expect(share).toBeGreaterThanOrEqual(DETECTION);
  });

  it.each([0.25, 0.05])(
    'are found where an own, uneven breath moves the rate by %f each way',
    (depth) => {
      const share = linkedShare(`linked, own breaths, ${depth}`, 30, (seed, random) => {
        const rate = random.between(8, 20);
        const duration = 10 * (60 / rate);
        const breaths = ownBreaths(rate, duration, random);
        const beats = swingingBeats(breaths, {
          rate: random.between(80, 140),
          depth,
          duration,
          seed,
        });
        return linkToBreath(beats, stated(breaths), everything(duration));
      });
      expect(share).toBeGreaterThanOrEqual(DETECTION);
    },
  );

  it('are found where only the rounded rate of the ventilator is known', () => {
    const share = linkedShare('linked, rate only', 20, (seed, random) => {
      const rate = random.between(8, 20);
      const duration = 9 * (60 / rate);
      const plan = breathLinkedSinus({
        species: 'dog',
        duration,
        seed,
        rate: random.between(70, 120),
        breathsPerMinute: rate,
      });
      const link = linkToBreath(
        beatsOf(plan),
        findBreaths({ ventilatorRate: Math.round(rate) }),
        everything(duration),
      );
      expect(link.cluster?.afterInspiration).toBeNull();
      return link;
    });
    expect(share).toBeGreaterThanOrEqual(DETECTION);
  });

  it('tells the size of the swing and where the beats crowd', () => {
    const breaths = ventilatorBreaths(10, 120);
    const beats = swingingBeats(breaths, { rate: 100, depth: 0.3, duration: 120, seed: 4 });
    const link = linkToBreath(beats, stated(breaths), everything(120));
    // 100 (1 +- 0.3) beats/min: mean over a sixth of a breath, 0.955 of the crest, and an interval long.
    expect(link.swing?.fastestRate).toBeGreaterThan(120);
    expect(link.swing?.fastestRate).toBeLessThan(130);
    expect(link.swing?.slowestRate).toBeGreaterThan(70);
    expect(link.swing?.slowestRate).toBeLessThan(80);
    expect(link.cluster?.clustered).toBe(true);
    expect(link.cluster?.afterInspiration).toBeCloseTo(0.35, 1);
    // The first part of a density 1 + 0.3 cos is 0.3 / 2.
    expect(link.rayleigh?.meanResultantLength).toBeCloseTo(0.15, 1);
    expect(link.chance?.follow).toBe(0.001);
  });

  it('gives the same answer twice', () => {
    const breaths = ventilatorBreaths(10, 60);
    const beats = beatsOf(atrialFibrillation({ species: 'dog', duration: 60, seed: 9 }));
    const once = linkToBreath(beats, stated(breaths), everything(60));
    expect(linkToBreath(beats, stated(breaths), everything(60))).toEqual(once);
  });
});

describe('it cannot be told', () => {
  const breaths = ventilatorBreaths(10, 60);
  const beats = swingingBeats(breaths, { rate: 90, depth: 0.3, duration: 60, seed: 2 });

  it('where breathing is not known', () => {
    const link = linkToBreath(beats, findBreaths({}), everything(60));
    expect(link).toMatchObject({ verdict: 'cannot tell', doubt: 'breathing not known' });
    expect(link.phases).toEqual(beats.map(() => null));
  });

  it('from fewer than five whole breaths', () => {
    const link = linkToBreath(beats, stated(breaths.slice(0, 5)), everything(60));
    expect(link).toMatchObject({ doubt: 'too few breaths', breaths: 4 });
    const five = linkToBreath(beats, stated(breaths.slice(0, 6)), everything(60));
    expect(five).toMatchObject({ verdict: 'linked', breaths: 5 });
  });

  it('where too little of the strip can be read', () => {
    const link = linkToBreath(beats, stated(breaths), [{ from: 0, to: 20 }]);
    expect(link).toMatchObject({ doubt: 'unreadable', breaths: 3 });
  });

  it('from fewer than two beats a breath', () => {
    const slow = Array.from({ length: 14 }, (_, i) => ({ time: 1.5 + 4.2 * i }));
    expect(linkToBreath(slow, stated(breaths), everything(60)).doubt).toBe('too few beats');
  });

  it('where a regular beat is in step with the breath', () => {
    const inStep = Array.from({ length: 80 }, (_, i) => ({ time: 0.4 + 0.75 * i }));
    const link = linkToBreath(inStep, stated(breaths), everything(60));
    expect(link).toMatchObject({ verdict: 'cannot tell', doubt: 'beats in step with the breath' });
    expect(link.cluster?.clustered).toBe(false);
  });

  it('but a swing that is there is found though the beats are in step', () => {
    const swing = [0.7, 0.68, 0.7, 0.75, 0.8, 0.82, 0.8, 0.75];
    let time = 1;
    const inStep = Array.from({ length: 76 }, (_, i) => {
      const beat = { time };
      time += swing[i % 8] as number;
      return beat;
    });
    expect(linkToBreath(inStep, stated(breaths), everything(60)).verdict).toBe('linked');
  });
});

describe('a long recording', () => {
  it('is read for its first ten minutes', () => {
    const breaths = ventilatorBreaths(10, 7200);
    const beats = Array.from({ length: 10000 }, (_, i) => ({ time: 0.5 + 0.7 * i }));
    const link = linkToBreath(beats, stated(breaths), everything(7200));
    expect(link.breaths).toBe(99);
    expect(link.phases.findLastIndex((phase) => phase !== null)).toBe(856);
  });
});

describe('gaps', () => {
  it('leaves out unreadable spans and breaths that may have been missed', () => {
    const breaths = ventilatorBreaths(10, 120);
    const beats = swingingBeats(breaths, { rate: 90, depth: 0.3, duration: 120, seed: 3 });
    const missed = breaths.filter((_, i) => i !== 6);
    const link = linkToBreath(beats, stated(missed), [
      { from: 0, to: 70 },
      { from: 84, to: 120 },
    ]);
    expect(link.verdict).toBe('linked');
    // Starts at 1, 7 ... 115 s: 37 is missing (31 to 43 is left out) and 67 to 85 cannot be read.
    expect(link.breaths).toBe(5 + 4 + 5);
    for (const [i, { time }] of beats.entries()) {
      const used =
        (time >= 1 && time <= 31) || (time >= 43 && time <= 70) || (time >= 84 && time <= 115);
      expect(link.phases[i] !== null).toBe(used);
    }
  });

  it('leaves out intervals next to beats that are not from the sinus node', () => {
    const plan = ventricularTrigeminy({ species: 'dog', duration: 60, seed: 1 });
    const link = linkToBreath(kindsOf(plan), stated(plan.breaths), everything(60));
    const pairs = plan.beats.filter(
      (beat, i) => beat.kind === 'sinus' && plan.beats[i - 1]?.kind === 'sinus',
    );
    expect(link.beats).toBeLessThanOrEqual(pairs.length);
    expect(link.beats).toBeGreaterThan(pairs.length - 10);
  });
});
