import { expect, it } from 'vitest';
import { analyseStrip } from '../../../src/signal/analyse.js';
import { hertz } from '../../../src/units/brands.js';
import { patientOf } from './strips.js';

const RATE = 250;

/** Waves whose pace wanders about `hz`, mV, each swelling and ebbing. */
function waves(hz: number, duration: number): Float64Array {
  const samples = new Float64Array(RATE * duration);
  for (const [share, height, turn] of [
    [1, 0.2, 0.9],
    [1.17, 0.12, 1.7],
    [0.82, 0.1, 2.3],
  ] as const) {
    let phase = turn;
    for (let i = 0; i < samples.length; i += 1) {
      const time = i / RATE;
      phase += (2 * Math.PI * hz * share * (1 + 0.1 * Math.sin(turn * time))) / RATE;
      samples[i]! += height * (1 + 0.5 * Math.sin(1.3 * turn * time + turn)) * Math.sin(phase);
    }
  }
  return samples;
}

it.each([6, 9, 11])('ventricles of a cat that fibrillate at about %i Hz are told so', (hz) => {
  const lead = { label: 'II', unit: 'mV', samplingRate: hertz(RATE), samples: waves(hz, 15) };
  const { rhythms } = analyseStrip([lead], {
    patient: patientOf('cat'),
    breath: { annotations: [], channels: [] },
  });
  expect(rhythms.map(({ name }) => name)).toEqual(['ventricular fibrillation']);
});
