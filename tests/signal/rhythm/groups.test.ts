import { describe, expect, it } from 'vitest';
import { analyseStrip } from '../../../src/signal/analyse.js';
import { kilogram } from '../../../src/units/brands.js';
import { beatTimes, dogWaves, syntheticLead } from '../../tools/synthetic-strip.js';

const withoutP = dogWaves(120).slice(1);

function named(beats: readonly number[], waves = withoutP): readonly string[] {
  const lead = syntheticLead({
    rate: 500,
    duration: beats.at(-1)! + 0.5,
    beats,
    waves: () => waves,
    noise: 0.004,
  });
  return analyseStrip([lead], {
    patient: { species: 'dog', weight: kilogram(25), ageYears: null, anesthetised: true },
    breath: {},
  }).rhythms.map(({ name }) => name);
}

/** R times whose intervals come back in groups. */
function inGroups(intervals: readonly number[], count: number): number[] {
  const times = [0.4];
  for (let i = 0; i < count; i += 1) times.push(times.at(-1)! + intervals[i % intervals.length]!);
  return times;
}

describe('uneven intervals without P', () => {
  it('are fibrillating atria where no interval comes back', () => {
    expect(named(beatTimes(130, 0.4, 30, 0.45, 7))).toEqual(['atrial fibrillation']);
  });

  it.each([
    ['second', [0.36, 0.6]],
    ['third', [0.36, 0.44, 0.68]],
    ['fourth', [0.36, 0.48, 0.42, 0.7]],
  ])('are none where they come back at every %s beat', (_, intervals) => {
    expect(named(inGroups(intervals, 60))).not.toContain('atrial fibrillation');
  });

  it('are none where what is counted is too short for a QRS: spikes on a flat line', () => {
    const spike = [{ at: 0, height: 0.8, width: 0.0009 }];
    expect(named(beatTimes(110, 0.4, 30, 0.6, 3), spike)).not.toContain('atrial fibrillation');
  });
});
