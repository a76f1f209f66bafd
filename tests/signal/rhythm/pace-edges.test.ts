import { expect, it } from 'vitest';
import { analyseStrip } from '../../../src/signal/analyse.js';
import type { MarkedBeat } from '../../../src/signal/marked-beat.js';
import { paceEdges } from '../../../src/signal/rhythm/pace-edges.js';
import { seconds } from '../../../src/units/brands.js';
import { type Bell, syntheticLead } from '../../tools/synthetic-strip.js';
import { patientOf } from './strips.js';

const dog = patientOf('dog');

function beatsAfter(intervals: readonly number[]): MarkedBeat[] {
  let time = 0.5;
  return [0, ...intervals].map((interval) => {
    time += interval;
    return { time: seconds(time), p: null, qrs: null, t: null, kind: 'sinus', confidence: 1 };
  });
}

const of = (count: number, interval: number): number[] => new Array<number>(count).fill(interval);

it('a pace that no sinus node keeps is parted from the slower one before and behind it', () => {
  const beats = beatsAfter([...of(8, 0.5), 0.33, ...of(10, 0.2), 0.4, ...of(8, 0.5)]);
  const [from, to] = paceEdges(beats, dog);
  expect(from).toBeCloseTo(beats[8]!.time + 0.165, 3);
  expect(to).toBeCloseTo(beats[19]!.time + 0.2, 3);
});

it('a pace that grows beat by beat, and one that stays within what a sinus node keeps, are not parted', () => {
  expect(paceEdges(beatsAfter(Array.from({ length: 24 }, (_, i) => 0.4 - 0.01 * i)), dog)).toEqual(
    [],
  );
  expect(paceEdges(beatsAfter([...of(10, 0.5), ...of(10, 0.32)]), dog)).toEqual([]);
});

it('a tachycardia from above that begins and ends at a stroke bears its name, and what is around it too', () => {
  const P: Bell = { at: -0.1, height: 0.2, width: 0.01 };
  const qrs: readonly Bell[] = [
    { at: -0.018, height: -0.15, width: 0.005 },
    { at: 0, height: 1.4, width: 0.0075 },
    { at: 0.018, height: -0.25, width: 0.006 },
    { at: 0.11, height: -0.2, width: 0.02 },
  ];
  const beats = beatsAfter([
    ...Array.from({ length: 14 }, (_, i) => 0.55 + 0.006 * (i % 3)),
    0.34,
    ...Array.from({ length: 24 }, (_, i) => 0.2 + 0.001 * (i % 2)),
    0.4,
    ...Array.from({ length: 14 }, (_, i) => 0.55 + 0.006 * (i % 3)),
  ]).map(({ time }) => time as number);
  const isFast = (i: number): boolean => i >= 15 && i < 40;
  const lead = syntheticLead({
    rate: 500,
    duration: beats.at(-1)! + 0.4,
    beats,
    waves: (i) => (isFast(i) ? qrs : [P, ...qrs]),
    noise: 0.004,
  });
  const { rhythms } = analyseStrip([lead], {
    patient: dog,
    breath: { annotations: [], channels: [] },
  });
  expect(rhythms.map(({ name }) => name)).toEqual([
    'sinus rhythm',
    'supraventricular tachycardia',
    'sinus rhythm',
  ]);
});
