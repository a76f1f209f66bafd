import type { BeatPlan, Breath, Species } from '../beat-plan.js';
import { type Random, randomFrom } from '../random.js';
import { type SpeciesTemplate, TEMPLATES } from '../templates.js';

/** What every rhythm is asked for. */
export interface Setting {
  readonly species: Species;
  /** s. */
  readonly duration: number;
  readonly seed: number;
  /** Beats/min in place of the rhythm's own for the species. */
  readonly rate?: number;
  /** Ventilator breaths/min. Defaults to 12. */
  readonly breathsPerMinute?: number;
}

/** The setting made ready: template and random stream in hand. */
export interface Stage {
  readonly template: SpeciesTemplate;
  readonly duration: number;
  readonly random: Random;
  readonly breaths: readonly Breath[];
}

export function stageOf(setting: Setting): Stage {
  return {
    template: TEMPLATES[setting.species],
    duration: setting.duration,
    random: randomFrom(setting.seed),
    breaths: ventilatorBreaths(setting.breathsPerMinute ?? 12, setting.duration),
  };
}

/** A plan with the named parts; the others are empty. */
export function planOn(
  stage: Stage,
  parts: Partial<Pick<BeatPlan, 'beats' | 'lonePWaves' | 'ripples'>>,
): BeatPlan {
  return {
    species: stage.template.species,
    duration: stage.duration,
    beats: [],
    lonePWaves: [],
    ripples: [],
    breaths: stage.breaths,
    ...parts,
  };
}

/** Breaths of a ventilator: equal periods, one third of each is inspiration, the first after 1 s. */
export function ventilatorBreaths(perMinute: number, duration: number): Breath[] {
  const period = 60 / perMinute;
  const breaths: Breath[] = [];
  for (let time = 1; time < duration; time = 1 + breaths.length * period) {
    breaths.push({ time, inspiration: period / 3 });
  }
  return breaths;
}
