import type { BeatPlan, PlannedBeat } from '../beat-plan.js';
import { randomFrom } from '../random.js';
import { conductedBeat, pWave } from '../templates.js';
import { steadyFirings } from './pacing.js';
import { planOn, type Setting, type Stage, stageOf } from './setting.js';

/** Where the P that is not conducted comes: under T, so that nothing but a taller T shows, or clear of its summit. */
export type HiddenP = 'in T' | 'beside T';

/**
 * Atrial tachycardia of which every second P is conducted; the other one comes half an interval later.
 * `rate` is that of the ventricles, and the conduction time is chosen so that the P comes where it is
 * wanted. P may be lower than a sinus P, or upside down, as the focus is elsewhere.
 */
export function atrialTachycardiaTwoToOne(setting: Setting, hidden: HiddenP): BeatPlan {
  const stage = stageOf(setting);
  const { template, random } = stage;
  const rate = setting.rate ?? { dog: 150, cat: 170, rabbit: 200 }[setting.species];
  const rr = 60 / rate;
  const factor = random.between(0.6, 1.2) * (random.next() < 0.25 ? -1 : 1);
  const pr = conductionTime(stage, rr, hidden);
  const fired = steadyFirings(stage, rate, 0.004);
  const beats = fired.map(({ time }) => {
    const beat = conductedBeat(template, time, rr, { kind: 'supraventricular', pr });
    return { ...beat, P: beat.P && { ...beat.P, amplitude: beat.P.amplitude * factor } };
  });
  const lonePWaves = beats.map(({ time, P }) => ({
    time: time + (P?.centre ?? 0) + rr / 2,
    wave: pWave(template, factor, 0),
  }));
  return planOn(stage, { beats, lonePWaves });
}

/** PR in s that brings the other P where it is wanted, kept to what a conduction can take. */
function conductionTime({ template, random }: Stage, rr: number, hidden: HiddenP): number {
  const { least, most } = template.pr;
  const shortest = 0.8 * least;
  const longest = 1.6 * most;
  const untimed = conductedBeat(template, 0, rr, { pr: 0 });
  const summit = untimed.T?.centre ?? 0;
  const prFor = (place: number): number => (untimed.P?.centre ?? 0) + rr / 2 - place;
  const half = template.t.duration / 2;
  const inT = prFor(summit + random.between(-0.5, 0.5) * half);
  if (hidden === 'in T') return Math.min(longest, Math.max(shortest, inT));
  const early = prFor(summit - 1.2 * half);
  const late = prFor(summit + 1.2 * half);
  // A shorter conduction brings both P waves later.
  const ranges = [
    [Math.max(shortest, early), longest],
    [shortest, Math.min(longest, late)],
  ].filter(([low = 0, high = 0]) => low < high);
  const [low, high] = ranges[Math.floor(random.next() * ranges.length)] ?? [shortest, longest];
  return random.between(low!, high!);
}

/**
 * Atria that fire by themselves, every second time to no effect, on T; each of their intervals varies by `jitter` (a share
 * of it, standard deviation) apart from the others, so that each beat comes after two of them.
 */
export function unevenAtriaTwoToOne(
  setting: Setting & { readonly rate: number },
  jitter: number,
): BeatPlan {
  const stage = stageOf(setting);
  const { template } = stage;
  const random = randomFrom(setting.seed + 77);
  const rr = 60 / setting.rate;
  const untimed = conductedBeat(template, 0, rr, { pr: 0 });
  const wanted = (untimed.P?.centre ?? 0) + rr / 2 - (untimed.T?.centre ?? 0);
  const pr = Math.min(1.6 * template.pr.most, Math.max(0.8 * template.pr.least, wanted));
  const beat = conductedBeat(template, 0, rr, { kind: 'supraventricular', pr });
  const beats: PlannedBeat[] = [];
  const lonePWaves: BeatPlan['lonePWaves'][number][] = [];
  const interval = () => (rr / 2) * (1 + jitter * random.gaussian());
  for (let time = 0.3; time < stage.duration; time += interval()) {
    beats.push({ ...beat, time: time - (beat.P?.centre ?? 0) });
    time += interval();
    lonePWaves.push({ time, wave: pWave(template, 1, 0) });
  }
  return planOn(stage, { beats: beats.filter(({ time }) => time < stage.duration), lonePWaves });
}

/**
 * Atrial flutter of which every second wave is conducted: a saw that never rests, in step with the
 * beats. `rate` is that of the ventricles.
 */
export function atrialFlutterTwoToOne(setting: Setting): BeatPlan {
  const stage = stageOf(setting);
  const { template, random } = stage;
  const rate = setting.rate ?? { dog: 180, cat: 210, rabbit: 240 }[setting.species];
  const amplitude = template.p.height * random.between(0.4, 0.9);
  const frequency = rate / 30;
  const phase = random.between(0, 2 * Math.PI);
  return planOn(stage, {
    beats: steadyFirings(stage, rate, 0).map(({ time, rr }) =>
      conductedBeat(template, time, rr, { kind: 'supraventricular', withP: false }),
    ),
    ripples: [
      { amplitude, frequency, phase },
      { amplitude: 0.35 * amplitude, frequency: 2 * frequency, phase: 2 * phase + 1.2 },
    ],
  });
}
