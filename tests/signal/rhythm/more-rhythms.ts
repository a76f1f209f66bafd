import type { BeatPlan, LonePWave, PlannedBeat } from '../../synth/beat-plan.js';
import { steadyFirings } from '../../synth/rhythms/pacing.js';
import { planOn, type Setting, stageOf } from '../../synth/rhythms/setting.js';
import { sinusFirings } from '../../synth/rhythms/sinus.js';
import { conductedBeat, pWave, ventricularBeat } from '../../synth/templates.js';

/** Of every `of` P waves one is followed, at a fixed PR: 2 to 1, 3 to 1, 4 to 1. */
export function blockedExceptEvery(of: number, setting: Setting): BeatPlan {
  const stage = stageOf(setting);
  const atrial = setting.rate ?? { dog: 130, cat: 190, rabbit: 220 }[setting.species];
  const beats: PlannedBeat[] = [];
  const lonePWaves: LonePWave[] = [];
  for (const [i, { time, rr }] of sinusFirings(stage, atrial).entries()) {
    const draft = conductedBeat(stage.template, 0, rr * of, { pr: stage.template.pr.atRest });
    if (i % of === 0) beats.push({ ...draft, time: time - (draft.P?.centre ?? 0) });
    else lonePWaves.push({ time, wave: pWave(stage.template, 1, 0) });
  }
  return planOn(stage, { beats, lonePWaves });
}

/** Third-degree block with a narrow escape from the junction. */
export function thirdDegreeNarrow(setting: Setting): BeatPlan {
  const stage = stageOf(setting);
  const atrial = { dog: 120, cat: 190, rabbit: 220 }[setting.species];
  const lower = { dog: 50, cat: 90, rabbit: 110 }[setting.species];
  return planOn(stage, {
    lonePWaves: sinusFirings(stage, atrial).map(({ time }) => ({
      time,
      wave: pWave(stage.template, 1, 0),
    })),
    beats: steadyFirings(stage, lower, 0.01).map(({ time, rr }) =>
      conductedBeat(stage.template, time, rr, { kind: 'junctional', withP: false }),
    ),
  });
}

/** P waves alone: the ventricles stand still. */
export function ventricularStandstill(setting: Setting): BeatPlan {
  const stage = stageOf(setting);
  return planOn(stage, {
    lonePWaves: sinusFirings(stage, 100).map(({ time }) => ({
      time,
      wave: pWave(stage.template, 1, 0),
    })),
  });
}

/** Flutter of the atria at a steady pace, every second wave followed: P-like waves at an equal distance. */
export function flutterTwoToOne(setting: Setting): BeatPlan {
  const rate = setting.rate ?? { dog: 360, cat: 420, rabbit: 500 }[setting.species];
  return blockedExceptEvery(2, { ...setting, rate });
}

/** One plan until `at` s, another from then on. */
export function followedBy(first: BeatPlan, second: BeatPlan, at: number): BeatPlan {
  const joined = <T extends { readonly time: number }>(a: readonly T[], b: readonly T[]): T[] => [
    ...a.filter(({ time }) => time < at),
    ...b.map((item) => ({ ...item, time: item.time + at })),
  ];
  return {
    ...first,
    duration: at + second.duration,
    beats: joined(
      first.beats,
      second.beats.filter(({ time }) => time > 0.3),
    ),
    lonePWaves: joined(first.lonePWaves, second.lonePWaves),
    ripples: [],
    breaths: joined(first.breaths, second.breaths),
  };
}

/** Sinus rhythm with one fusion beat and two ventricular ones that teach the shape. */
export function withFusion(setting: Setting): BeatPlan {
  const stage = stageOf(setting);
  const fired = sinusFirings(stage, stage.template.restingRate);
  const beats = fired.map(({ time, rr }, i) => {
    if (i % 12 === 5 && i > 0)
      return ventricularBeat(stage.template, fired[i - 1]!.time + 0.58 * rr);
    const own = conductedBeat(stage.template, time, rr);
    if (i % 12 !== 10) return own;
    const wide = ventricularBeat(stage.template, time);
    const half = <W extends { readonly amplitude: number } | null>(wave: W, share: number): W =>
      wave && { ...wave, amplitude: wave.amplitude * share };
    // The narrow half lives in R, the wide half in S and T: a sum of bells in a plan of five waves.
    return {
      ...own,
      Q: null,
      R: half(own.R, 0.5),
      S: half({ ...wide.R }, 0.5),
      T: half(wide.T, 0.6),
    };
  });
  return planOn(stage, { beats });
}
