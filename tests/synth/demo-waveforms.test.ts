import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { DEMO_TRUTH, type DemoCase, demoWaveforms } from './demo-waveforms.js';

const DEMO_DATA = join(import.meta.dirname, '../../demo-data');

/** Set THRICE_WRITE_DEMO=1 to write the files in place of comparing them. */
const WRITE = process.env.THRICE_WRITE_DEMO === '1';

describe('the demonstration waveforms', () => {
  it.each(demoWaveforms())('$path is what the generator makes', ({ path, bytes }) => {
    const file = join(DEMO_DATA, path);
    if (WRITE) {
      mkdirSync(dirname(file), { recursive: true });
      writeFileSync(file, bytes);
    }
    expect(existsSync(file), `${path} is missing; THRICE_WRITE_DEMO=1 writes it`).toBe(true);
    expect(Buffer.compare(readFileSync(file), bytes)).toBe(0);
  });

  it('come out byte for byte the same when made again', () => {
    const once = demoWaveforms();
    const twice = demoWaveforms();
    expect(twice.map(({ path }) => path)).toEqual(once.map(({ path }) => path));
    for (const [i, { bytes }] of once.entries()) {
      expect(Buffer.compare(bytes, twice[i]!.bytes)).toBe(0);
    }
  });

  it('stay under 150 kB each', () => {
    for (const { path, bytes } of demoWaveforms()) {
      expect(bytes.length, path).toBeLessThan(150_000);
    }
  });

  const rates: readonly [DemoCase, number][] = [
    ['juniper', 88],
    ['bramble', 74],
    ['pumpernickel', 168],
    ['saffron', 170],
    ['tucker', 96],
    ['clover', 214],
  ];
  it.each(rates)('%s has a mean rate of about %d/min', (name, rate) => {
    expect(Math.abs(DEMO_TRUTH[name].meanRate - rate)).toBeLessThan(1.5);
  });

  it('saffron quickens from about 150 to about 190/min', () => {
    const { beats } = DEMO_TRUTH.saffron;
    const rateIn = (from: number, to: number): number => {
      const within = beats.filter(({ time }) => time >= from && time < to);
      return (60 * (within.length - 1)) / (within.at(-1)!.time - within[0]!.time);
    };
    expect(Math.abs(rateIn(0, 4) - 152)).toBeLessThan(4);
    expect(Math.abs(rateIn(36, 40) - 188)).toBeLessThan(4);
  });

  it('juniper crowds its beats around the end of each inspiration', () => {
    const { beats, breaths } = DEMO_TRUTH.juniper;
    const inPhase = (from: number, to: number): number =>
      beats.filter(({ time }) =>
        breaths.some((breath) => time >= breath.time + from && time < breath.time + to),
      ).length;
    // The crest is 2 s into the 6 s breath; the trough 5 s in.
    expect(inPhase(1, 3)).toBeGreaterThan(1.8 * inPhase(4, 6));
    const gaps = beats.slice(1).map(({ time }, i) => time - beats[i]!.time);
    expect(Math.max(...gaps) / Math.min(...gaps)).toBeGreaterThan(2);
  });

  it('tucker has seven single wide beats without P, each with a full compensatory pause', () => {
    const { beats, ventricularIndexes } = DEMO_TRUTH.tucker;
    expect(ventricularIndexes).toHaveLength(7);
    for (const i of ventricularIndexes) {
      const [before, beat, after] = [beats[i - 1]!, beats[i]!, beats[i + 1]!];
      expect(before.kind).toBe('sinus');
      expect(after.kind).toBe('sinus');
      expect(beat.p).toBeNull();
      expect(beat.qrs.end - beat.qrs.onset).toBeGreaterThan(0.08);
      // Two sinus cycles at 96/min.
      expect(after.time - before.time).toBeCloseTo((2 * 60) / 96, 1);
    }
  });
});
