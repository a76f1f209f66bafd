import { describe, expect, it } from 'vitest';
import { analyseStrip } from '../../../src/signal/analyse.js';
import type { BeatPlan, LonePWave, PlannedBeat } from '../../synth/beat-plan.js';
import { planOn, stageOf } from '../../synth/rhythms/setting.js';
import { sinusBeat, sinusFirings } from '../../synth/rhythms/sinus.js';
import { conductedBeat, pWave } from '../../synth/templates.js';
import { patientOf, renderedLeads } from './strips.js';

const BLOCK = { from: 16, to: 30 };

/** Sinus rhythm that falls into third-degree block for a while: the atria march on, an escape of narrow beats keeps its own time. */
function blockedForAWhile(species: 'dog' | 'cat', seed: number): BeatPlan {
  const stage = stageOf({ species, duration: 48, seed });
  const beats: PlannedBeat[] = [];
  const lonePWaves: LonePWave[] = [];
  for (const firing of sinusFirings(stage, { dog: 110, cat: 170 }[species])) {
    const beat = sinusBeat(stage, firing);
    const p = firing.time + (beat.P?.centre ?? 0);
    if (firing.time < BLOCK.from || firing.time > BLOCK.to) beats.push(beat);
    else lonePWaves.push({ time: p, wave: pWave(stage.template, 1, 0) });
  }
  const interval = { dog: 1.43, cat: 0.79 }[species];
  for (let t = BLOCK.from + interval; t < BLOCK.to - 0.4; t += interval) {
    beats.push(conductedBeat(stage.template, t, interval, { kind: 'junctional', withP: false }));
  }
  beats.sort((a, b) => a.time - b.time);
  return planOn(stage, { beats, lonePWaves });
}

// Common practice: in second-degree block PR is the same at each beat that follows a dropped one; in third-degree block P
// and QRS go their own ways.
describe.each(['dog', 'cat'] as const)('third-degree block for a while, in a %s', (species) => {
  it.each([9401, 9402, 9403, 9404])('is told as no block of the second degree, seed %i', (seed) => {
    const { rhythms } = analyseStrip(renderedLeads(blockedForAWhile(species, seed), seed, []), {
      patient: patientOf(species),
      breath: {},
    });
    const during = rhythms.filter(({ from, to }) => from < BLOCK.to - 2 && to > BLOCK.from + 2);
    for (const { name, from, to } of during) {
      const told = `${name}, ${from.toFixed(1)} to ${to.toFixed(1)} s`;
      expect(told).not.toContain('second-degree');
      // A part of it may be seen before the first or after the last of its own beats.
      if (name.startsWith('sinus'))
        expect(Math.min(to, BLOCK.to) - Math.max(from, BLOCK.from), told).toBeLessThan(4);
    }
  });
});
