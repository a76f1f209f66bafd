import { describe, expect, it } from 'vitest';
import type { Drawing } from '../../../src/draw/drawing.js';
import { numberedBeats } from '../../../src/draw/vitals/beats.js';
import { countingStrip } from '../../../src/draw/vitals/count.js';
import { beatIntervals } from '../../../src/draw/vitals/intervals.js';
import { flagsOf } from '../../../src/draw/vitals/story.js';
import { sampleStrip } from '../ecg/sample.js';

const words = ({ marks }: Drawing) =>
  marks.flatMap((mark) => (mark.kind === 'text' ? [mark.text] : []));

/** Every point and letter of a drawing lies on its sheet. */
function isOnSheet({ width, height, marks }: Drawing): boolean {
  const points = marks.flatMap((mark) => {
    if (mark.kind === 'circle') return [mark.centre];
    return mark.kind === 'text' ? [mark.at] : mark.points;
  });
  return points.every(([x, y]) => x >= -0.01 && x <= width + 0.01 && y >= -0.01 && y <= height);
}

describe('a strip to count on', () => {
  const { samples, samplingRate } = sampleStrip();
  const to = (samples.length - 1) / samplingRate;
  const drawn = countingStrip({
    samples,
    samplingRate,
    from: 0,
    to,
    windows: [{ from: 1, to: 4, label: '3 s' }],
    width: 174,
  });

  it('marks no beat, names its windows and has a number each five seconds', () => {
    const said = words(drawn);
    expect(said).toContain('3 s');
    expect(said).toContain('5 s');
    expect(said.every((text) => /^\d+ s$/.test(text))).toBe(true);
    expect(drawn.marks.every(({ kind }) => kind === 'line' || kind === 'text')).toBe(true);
    expect(isOnSheet(drawn)).toBe(true);
  });

  it('keeps the lowest and the highest sample of what it shows', () => {
    const trace = drawn.marks.filter(
      (mark) => mark.kind === 'line' && mark.stroke.width === 0.24,
    ) as Extract<Drawing['marks'][number], { kind: 'line' }>[];
    const ys = trace.flatMap(({ points }) => points.map(([, y]) => y));
    // The scale runs from the lowest to the highest sample over 13 mm in each row.
    expect(Math.max(...ys) - Math.min(...ys)).toBeGreaterThanOrEqual(12.98);
  });
});

it('numbers each beat over its R, and marks no wave', () => {
  const strip = sampleStrip();
  const beats = strip.beats.slice(0, 4).map(({ time }) => time);
  const drawn = numberedBeats(
    { ...strip, from: 0, to: (beats.at(-1) as number) + 0.2, width: 174 },
    beats,
  );
  const said = words(drawn);
  for (const number of ['1', '2', '3', '4']) expect(said).toContain(number);
  expect(said).not.toContain('P');
  expect(said).not.toContain('QRS');
  expect(isOnSheet(drawn)).toBe(true);
});

it('draws a dot for each interval and a dashed line for each breath', () => {
  const intervals = Array.from({ length: 20 }, (_, i) => ({
    time: 1 + i,
    length: 0.8 + (i % 4) / 10,
  }));
  const drawn = beatIntervals({
    intervals,
    breathAt: [4, 8, 12, 16],
    duration: 21,
    strings: { interval: 'interval', breath: 'breath' },
    width: 174,
  }) as Drawing;
  expect(drawn.marks.filter(({ kind }) => kind === 'circle')).toHaveLength(20);
  const dashed = drawn.marks.filter((mark) => mark.kind === 'line' && mark.stroke.dash);
  expect(dashed).toHaveLength(4);
  expect(isOnSheet(drawn)).toBe(true);
});

describe('the time from beat to beat', () => {
  const drawnOf = (intervals: { time: number; length: number }[]) =>
    beatIntervals({
      intervals,
      breathAt: [4, 70, 80],
      duration: 120,
      strings: { interval: 'interval', breath: 'breath' },
      width: 174,
    });

  it('is not drawn where no interval was measured', () => {
    expect(drawnOf([])).toBeNull();
  });

  it('is drawn from the first interval on where the strip begins unreadable', () => {
    const late = Array.from({ length: 30 }, (_, i) => ({ time: 62 + i, length: 1 }));
    const drawn = drawnOf(late);
    expect(drawn?.marks.filter(({ kind }) => kind === 'circle')).toHaveLength(30);
    expect(words(drawn as Drawing)).toContain('60 s');
    expect(words(drawn as Drawing)).not.toContain('55 s');
    expect(isOnSheet(drawn as Drawing)).toBe(true);
  });
});

describe('the flags of events', () => {
  const events = [0, 4, 15, 16, 60].map((minute, index) => ({
    minute,
    number: index + 1,
    label: `event ${index + 1}`,
  }));

  it('stand so that no line runs through a name', () => {
    const flags = flagsOf(events, (minute) => 34 + minute * 8, 657);
    for (const one of flags) {
      for (const other of flags) {
        const reachesOver = other.left < one.x && one.x < other.left + 60 && other !== one;
        if (reachesOver && other.x < one.x) expect(other.row).toBeLessThan(one.row);
      }
    }
    expect(flags.at(-1)?.row).toBe(0);
  });

  it.each([10, 25, 70, 300])('share a flag where %d of them would take the page', (count) => {
    const many = Array.from({ length: count }, (_, index) => ({
      minute: (index * 90) / count,
      number: index + 1,
      label: index % 5 === 0 ? 'a remark' : '',
    }));
    const flags = flagsOf(many, (minute) => 34 + minute * 5, 657);
    expect(Math.max(...flags.map(({ row }) => row))).toBeLessThan(9);
    const numbers = flags.flatMap(({ number }) => {
      const [first = 0, last = first] = number.split('–').map(Number);
      return Array.from({ length: last - first + 1 }, (_, index) => first + index);
    });
    expect(numbers).toEqual(many.map(({ number }) => number));
    for (const [index, one] of flags.entries()) {
      for (const other of flags.slice(index + 1)) {
        const isBeside = one.left + one.disc + 1 < other.left;
        if (one.row === other.row) expect(isBeside).toBe(true);
        // The later line does not run through the earlier disc.
        if (other.row < one.row) expect(one.left + one.disc).toBeLessThan(other.x);
      }
    }
  });

  it('carry their numbers alone where the chart is narrow', () => {
    const flags = flagsOf(events, (minute) => 34 + minute * 3, 343);
    expect(flags.every(({ name }) => name === '')).toBe(true);
    expect(Math.max(...flags.map(({ row }) => row))).toBeLessThan(3);
  });
});
