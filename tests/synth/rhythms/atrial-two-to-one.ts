import type { BeatPlan } from '../beat-plan.js';
import { conductedBeat, pWave } from '../templates.js';
import { steadyFirings } from './pacing.js';
import { planOn, type Setting, stageOf } from './setting.js';

/**
 * Atrial tachycardia of which every second P is conducted. The other one comes half an interval later
 * and lies in ST, in T or just after it; where the conduction time allows it, half of the strips have
 * it in the very summit of T. `rate` is that of the ventricles. P may be lower than a sinus P, or
 * upside down, as the focus is elsewhere.
 */
export function atrialTachycardiaTwoToOne(setting: Setting): BeatPlan {
  const stage = stageOf(setting);
  const { template, random } = stage;
  const rate = setting.rate ?? { dog: 150, cat: 200, rabbit: 240 }[setting.species];
  const rr = 60 / rate;
  const factor = random.between(0.6, 1.2) * (random.next() < 0.25 ? -1 : 1);
  const own = conductedBeat(template, 0, rr);
  const halfway = rr / 2;
  const underT = halfway - (own.T?.centre ?? 0);
  const wish = random.between(template.pr.least, 1.3 * template.pr.most);
  const toSummit = random.next() < 0.5;
  // P centre to QRS onset and half a P make the PR.
  const prUnderT = underT + (own.Q?.centre ?? 0) + template.p.duration / 2;
  const fits = prUnderT >= template.pr.least && prUnderT <= 1.5 * template.pr.most;
  const pr = toSummit && fits ? prUnderT : wish;
  const fired = steadyFirings(stage, rate, 0.004);
  const beats = fired.map(({ time }) => {
    const beat = conductedBeat(template, time, rr, { kind: 'supraventricular', pr });
    return { ...beat, P: beat.P && { ...beat.P, amplitude: beat.P.amplitude * factor } };
  });
  const lonePWaves = beats.map(({ time, P }) => ({
    time: time + (P?.centre ?? 0) + halfway,
    wave: pWave(template, factor, 0),
  }));
  return planOn(stage, { beats, lonePWaves });
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
