import { inFreshProcess } from '../fresh.js';
import type { Row } from '../row.js';
import type { AnalysisCost } from './measure-analysis.js';
import type { NaiveCost } from './measure-naive.js';
import type { StageCosts } from './measure-stages.js';

const CALLS = 5;
const LENGTHS = [
  { name: '10 min', hours: 1 / 6, calls: CALLS },
  { name: '1 h', hours: 1, calls: CALLS },
  { name: '4 h', hours: 4, calls: 2 },
  { name: '24 h', hours: 24, calls: 1 },
] as const;
/** The naive detector is given so much, and its cost, which is linear, counted for an hour; in h. */
const NAIVE_HOURS = 1 / 12;

export const signalAnalysis: Row = {
  name: 'signal',
  title:
    'Analysis of one ECG lead at 500 Hz (quality, beats, waves, kinds, breath, rhythm, rate, measures)',
  lines: function* () {
    yield 'length   beats   first call   later calls   an hour, later   memory over the recording';
    let anHour = Number.NaN;
    for (const { name, hours, calls } of LENGTHS) {
      const cost = measured<AnalysisCost>('analysis', hours, calls);
      const [first = Number.NaN, ...later] = cost.cpu;
      const best = Math.min(first, ...later);
      if (hours === 1) anHour = best;
      const { before, peak } = cost.memory;
      yield [
        name.padEnd(8),
        String(cost.beats).padStart(6),
        `${seconds(first)} CPU`,
        later.length > 0 ? `${seconds(Math.min(...later))} CPU` : '-'.padStart(12),
        seconds(best / hours),
        `${(peak - before).toFixed(0)} MB (peak ${peak.toFixed(0)} MB)`,
      ].join('   ');
    }
    const stages = measured<readonly StageCosts[]>('stages', 1, CALLS);
    for (const [what, costs] of [
      ['first call', stages[0]!],
      ['later calls', leastOfEach(stages.slice(1))],
    ] as const) {
      const parts = Object.entries(costs).map(([name, cpu]) => `${name} ${seconds(cpu).trim()}`);
      yield `stages of 1 h, ${what}: ${parts.join(', ')}`;
    }
    const naive = measured<NaiveCost>('naive', NAIVE_HOURS);
    const naiveHour = naive.cpu / NAIVE_HOURS;
    yield `naive detector, beats alone: ${seconds(naiveHour).trim()} CPU an hour (measured on ${60 * NAIVE_HOURS} min, ${naive.beats} beats): ${(naiveHour / anHour).toFixed(0)} times the cost of the whole analysis`;
  },
};

const measured = <T>(what: string, ...args: readonly number[]): T =>
  inFreshProcess<T>(new URL(`./measure-${what}.js`, import.meta.url), args);

const seconds = (value: number): string => `${value.toFixed(2)} s`.padStart(8);

function leastOfEach(all: readonly StageCosts[]): StageCosts {
  return Object.fromEntries(
    Object.keys(all[0] ?? {}).map((name) => [name, Math.min(...all.map((costs) => costs[name]!))]),
  );
}
