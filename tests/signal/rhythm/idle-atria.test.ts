import { expect, it } from 'vitest';
import { analyseStrip } from '../../../src/signal/analyse.js';
import { type Bell, syntheticLead } from '../../tools/synthetic-strip.js';
import { patientOf } from './strips.js';

/** Of a ventricle; the line behind T comes back slowly, as behind a filter. */
const WIDE: readonly Bell[] = [
  { at: -0.012, height: 1.1, width: 0.018 },
  { at: 0.03, height: 0.8, width: 0.018 },
  { at: 0.22, height: -0.5, width: 0.04 },
  { at: 0.48, height: 0.02, width: 0.05 },
];

type Beat = readonly [time: number, waves: readonly Bell[]];

function namesOf(beats: readonly Beat[], noise: number): readonly string[] {
  const lead = syntheticLead({
    rate: 500,
    duration: 24,
    beats: beats.map(([time]) => time),
    waves: (i) => beats[i]![1],
    noise,
  });
  const { rhythms } = analyseStrip([lead], {
    patient: patientOf('dog'),
    breath: { annotations: [], channels: [] },
  });
  return rhythms.map(({ name }) => name);
}

const steady = Array.from({ length: 14 }, (_, i): Beat => [0.8 + 1.65 * i, WIDE]);
/** At 18 to 25 beats/min, none in time with another. */
const dying = [1, 3.7, 6.1, 9.2, 11.6, 14.8, 17.3, 20.5, 22.9].map((time): Beat => [time, WIDE]);
const every = (interval: number, waves: readonly Bell[]): Beat[] =>
  Array.from(
    { length: Math.floor(23.6 / interval) },
    (_, i): Beat => [0.2 + i * interval + 0.003 * (i % 3), waves],
  );

it('on a line without noise what the filter leaves behind T is no P between wide beats', () => {
  expect(namesOf(steady, 0.00005)).toEqual(['idioventricular rhythm']);
});

it('the wide beats of a dying heart keep no time and are named', () => {
  expect(namesOf(dying, 0.002)).toEqual(['idioventricular rhythm']);
});

it('wide beats without a time are no such heart where low P waves or a fibrillating atrium go on between them', () => {
  const p: Bell = { at: 0, height: 0.025, width: 0.012 };
  const saw: readonly Bell[] = [{ at: 0, height: 0.06, width: 0.035 }];
  for (const noise of [0.00005, 0.002]) {
    expect(namesOf([...dying, ...every(0.47, [p])], noise)).not.toContain('idioventricular rhythm');
    expect(namesOf([...steady, ...every(0.47, [p])], noise)).not.toContain(
      'idioventricular rhythm',
    );
  }
  expect(namesOf([...dying, ...every(0.13, saw)], 0.002)).not.toContain('idioventricular rhythm');
});
