import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Drawing, Mark } from '../../../src/draw/drawing.js';
import { gutter } from '../../../src/draw/ecg/row.js';
import { ecgStrip } from '../../../src/draw/ecg/strip.js';
import { inks } from '../../../src/draw/inks.js';
import { sampleStrip } from './sample.js';

const texts = (drawing: Drawing) =>
  drawing.marks.filter((mark): mark is Extract<Mark, { kind: 'text' }> => mark.kind === 'text');
const textAt = (drawing: Drawing, words: string) => {
  const found = texts(drawing).find(({ text }) => text === words);
  if (!found) throw new Error(`the drawing does not say ${words}`);
  return found.at;
};
/** Black lines of the trace's width: the calibration pulses and the trace. */
const inked = (drawing: Drawing) =>
  drawing.marks.filter(
    (mark): mark is Extract<Mark, { kind: 'line' }> =>
      mark.kind === 'line' && mark.stroke.colour === inks.ink && mark.stroke.width === 0.28,
  );
/** Before the first second of a row. */
const isPulse = ({ points }: ReturnType<typeof inked>[number]) =>
  points.every(([x]) => x < 0.5 + gutter);
const pulses = (drawing: Drawing) => inked(drawing).filter(isPulse);
const trace = (drawing: Drawing) => inked(drawing).filter((line) => !isPulse(line));
const triangles = (drawing: Drawing) =>
  drawing.marks.filter((mark) => mark.kind === 'area' && mark.fill === inks.accent);

/** A flat line with one sample of `height` mV at each of `times`. */
function spikes(times: readonly number[], height: number, samplingRate = 500) {
  const samples = new Float64Array(5 * samplingRate + 1);
  for (const time of times) samples[Math.round(time * samplingRate)] = height;
  return sampleStrip({ samples, samplingRate, to: 5, beats: [], unreadable: [] });
}

describe('an ECG strip', () => {
  it.each([25, 50] as const)('puts one second on %i mm', (paperSpeed) => {
    const drawing = ecgStrip(sampleStrip({ paperSpeed }));
    expect(textAt(drawing, '2 s')[0] - textAt(drawing, '1 s')[0]).toBeCloseTo(paperSpeed, 9);
    expect(texts(drawing).map(({ text }) => text)).toContain(`${paperSpeed} mm/s · 10 mm/mV`);
  });

  it('puts the tip of a deflection at its time and 10 mm up for 1 mV', () => {
    const drawing = ecgStrip(spikes([2], 1.5));
    const points = trace(drawing).flatMap((line) => line.points);
    const tip = points.reduce((a, b) => (b[1] < a[1] ? b : a));
    const foot = Math.max(...points.map(([, y]) => y));
    expect(tip[0]).toBeCloseTo(textAt(drawing, '2 s')[0], 2);
    expect(foot - tip[1]).toBeCloseTo(15, 2);
  });

  it('draws a calibration pulse of 1 mV = 10 mm in each row', () => {
    const drawing = ecgStrip(sampleStrip());
    expect(pulses(drawing)).toHaveLength(2);
    for (const { points } of pulses(drawing)) {
      const heights = points.map(([, y]) => y);
      expect(Math.max(...heights) - Math.min(...heights)).toBeCloseTo(10, 9);
    }
  });

  it('keeps every spike when several samples share 0.1 mm', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 4.9, noNaN: true }), (time) => {
        const drawing = ecgStrip(spikes([time], 1.5, 2000));
        const lowest = Math.min(...trace(drawing).flatMap((l) => l.points.map(([, y]) => y)));
        const foot = Math.max(...trace(drawing).flatMap((l) => l.points.map(([, y]) => y)));
        expect(foot - lowest).toBeCloseTo(15, 2);
      }),
      { numRuns: 40, seed: 7 },
    );
  });

  it('never lets the trace run backwards in time', () => {
    for (const { points } of trace(ecgStrip(sampleStrip()))) {
      for (let i = 1; i < points.length; i++) {
        expect(points[i]?.[0]).toBeGreaterThanOrEqual(points[i - 1]?.[0] ?? 0);
      }
    }
  });

  it('claims no trace, beat or wave inside an unreadable span, and says why', () => {
    const strip = sampleStrip({ to: 6, unreadable: [{ from: 2, to: 4, why: 'lead loose' }] });
    const drawing = ecgStrip(strip);
    const [from, to] = [textAt(drawing, '2 s')[0], textAt(drawing, '4 s')[0]];
    const within = trace(drawing)
      .flatMap((line) => line.points)
      .filter(([x]) => x > from + 0.01 && x < to - 0.01);
    expect(within).toEqual([]);
    expect(textAt(drawing, 'lead loose')[0]).toBeCloseTo((from + to) / 2, 6);
    const letters = texts(drawing).filter(({ text }) => ['P', 'QRS', 'T'].includes(text));
    expect(letters.filter(({ at: [x] }) => x > from && x < to)).toEqual([]);
  });

  it('writes a reason that is too long for its span under the paper', () => {
    const why = 'the patient was turned over';
    const drawing = ecgStrip(sampleStrip({ unreadable: [{ from: 2, to: 2.2, why }] }));
    expect(textAt(drawing, why)[1]).toBeGreaterThan(textAt(drawing, '2 s')[1]);
  });

  it('marks each counted beat once', () => {
    const strip = sampleStrip();
    expect(triangles(ecgStrip(strip))).toHaveLength(strip.beats.length);
  });

  it('breaks the trace where the file has no sample', () => {
    const strip = spikes([1], 1);
    strip.samples.fill(Number.NaN, 1000, 1100);
    const pieces = trace(ecgStrip(strip));
    expect(pieces).toHaveLength(2);
  });

  it('says how high a deflection reaches that is taller than the paper', () => {
    const drawing = ecgStrip(spikes([2], 6.24));
    expect(texts(drawing).map(({ text }) => text)).toContain('6.2 mV');
    const spanish = ecgStrip({ ...spikes([2], -6.24), decimalMark: ',' });
    expect(texts(spanish).map(({ text }) => text)).toContain('−6,2 mV');
  });

  it('stays inside its own size, whatever is asked', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 40, max: 260 }),
        fc.constantFrom(25 as const, 50 as const),
        fc.double({ min: 1, max: 10, noNaN: true }),
        (width, paperSpeed, to) => {
          const drawing = ecgStrip(sampleStrip({ width, paperSpeed, to }));
          expect(drawing.width).toBeLessThanOrEqual(width);
          for (const mark of drawing.marks) {
            if (mark.kind !== 'line') continue;
            for (const [x, y] of mark.points) {
              expect(x).toBeGreaterThanOrEqual(0);
              expect(x).toBeLessThanOrEqual(drawing.width + 1e-6);
              expect(y).toBeLessThanOrEqual(drawing.height + 1e-6);
            }
          }
        },
      ),
      { numRuns: 12, seed: 3 },
    );
  });
});
