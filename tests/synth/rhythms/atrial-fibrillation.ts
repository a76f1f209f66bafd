import type { BeatPlan, PlannedBeat } from '../beat-plan.js';
import { conductedBeat } from '../templates.js';
import { ripplesIn } from './ripples.js';
import { planOn, type Setting, stageOf } from './setting.js';

/** No P wave, a fine ripple in its place, and narrow beats at intervals with no pattern. */
export function atrialFibrillation(setting: Setting): BeatPlan {
  const stage = stageOf(setting);
  const { random, template } = stage;
  const mean = 60 / (setting.rate ?? { dog: 165, cat: 220, rabbit: 260 }[setting.species]);
  const beats: PlannedBeat[] = [];
  for (let time = random.between(0.1, 0.9) * mean; time < stage.duration; ) {
    // Never under 0.62 of the mean (the node is still refractory), with a long tail upward.
    const rr = mean * (0.62 + 0.38 * (random.next() + random.next()) * random.between(0.5, 1.5));
    time += rr;
    if (time < stage.duration) {
      beats.push(
        conductedBeat(template, time, rr, {
          kind: 'supraventricular',
          withP: false,
          qrsFactor: 1 + 0.05 * random.gaussian(),
        }),
      );
    }
  }
  const rms = 0.15 * template.p.height;
  return planOn(stage, { beats, ripples: ripplesIn({ rms, from: 6, to: 11 }, random) });
}
