import { describe, expect, it } from 'vitest';
import { analyseStrip } from '../../../src/signal/analyse.js';
import { shortBursts } from '../../../src/signal/quality/short-bursts.js';
import { hertz } from '../../../src/units/brands.js';
import { randomFrom } from '../../synth/random.js';
import { renderLead } from '../../synth/render.js';
import { RHYTHMS, type RhythmName } from '../../synth/rhythms/index.js';
import { patientOf } from '../rhythm/strips.js';

const LENGTH = 30;
/** Beginnings, s, and length of noise as where an electrode is brushed. */
const TOUCHED = [4.1, 13.3, 21.7];
const LASTS = 0.26;

function strip(
  name: RhythmName,
  species: 'dog' | 'cat',
  rate: number,
  seed: number,
  { touched: begins, lasts } = { touched: TOUCHED, lasts: LASTS },
) {
  const random = randomFrom(seed);
  const quiet = renderLead(RHYTHMS[name]({ species, duration: LENGTH, seed }), rate).map(
    (value) => value + 0.006 * random.gaussian(),
  );
  const touched = quiet.map((value, i) => {
    const t = i / rate;
    const isTouched = begins.some((from) => t >= from && t < from + lasts);
    return isTouched ? value + 0.4 * random.gaussian() : value;
  });
  return { quiet, touched };
}

describe('bursts of a quarter of a second', () => {
  it.each([250, 500, 1000])('are found at %d Hz, and nothing else', (rate) => {
    for (const seed of [1, 2, 3]) {
      const { quiet, touched } = strip('sinus', seed === 2 ? 'cat' : 'dog', rate, seed);
      expect(shortBursts(quiet, rate)).toEqual([]);
      const found = shortBursts(touched, rate).map(({ from, to }) => [from / rate, to / rate]);
      expect(found).toHaveLength(TOUCHED.length);
      found.forEach(([from, to], i) => {
        const begin = TOUCHED[i] as number;
        expect(from).toBeGreaterThan(begin - 0.13);
        expect(from).toBeLessThan(begin + 0.07);
        expect(to).toBeGreaterThan(begin + LASTS - 0.07);
        expect(to).toBeLessThan(begin + LASTS + 0.16);
      });
    }
  });

  it.each(['ventricular-tachycardia', 'ventricular-fibrillation', 'atrial-fibrillation'] as const)(
    'are none in the waves of %s',
    (name) => {
      for (const rate of [100, 125, 250, 500, 1000]) {
        for (const species of ['dog', 'cat'] as const) {
          expect(shortBursts(strip(name, species, rate, 4).quiet, rate)).toEqual([]);
        }
      }
    },
  );

  it('are mostly found from 0.18 s on at 125 Hz, wherever they begin', () => {
    const touched = [4, 8, 12, 16, 20, 24].map((from, i) => from + 0.01 * i);
    let found = 0;
    for (let seed = 1; seed <= 10; seed += 1) {
      const { touched: samples } = strip('sinus', 'dog', 125, seed, { touched, lasts: 0.18 });
      const spans = shortBursts(samples, 125);
      found += touched.filter((at) =>
        spans.some(({ from, to }) => from / 125 < at + 0.05 && to / 125 > at + 0.13),
      ).length;
    }
    expect(found / (10 * touched.length)).toBeGreaterThan(0.8);
  });

  it('are none where hum sets in', () => {
    const { quiet } = strip('sinus', 'dog', 500, 5);
    const hum = quiet.map((value, i) =>
      i > 10 * 500 && i < 15 * 500 ? value + 0.2 * Math.sin((2 * Math.PI * 50 * i) / 500) : value,
    );
    expect(shortBursts(hum, 500)).toEqual([]);
  });

  it.each(['dog', 'cat'] as const)('are told as no beats of a %s', (species) => {
    for (const seed of [6, 7, 8]) {
      const samples = strip('sinus', species, 500, seed).touched;
      const lead = { label: 'II', unit: 'mV', samplingRate: hertz(500), samples };
      const { rhythms } = analyseStrip([lead], { patient: patientOf(species), breath: {} });
      const readable = rhythms.filter(({ name }) => name !== 'not readable');
      expect(new Set(readable.map(({ name }) => name))).toEqual(new Set(['sinus rhythm']));
      expect(rhythms.flatMap(({ within }) => within)).toEqual([]);
    }
  });
});
