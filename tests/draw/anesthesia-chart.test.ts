import { describe, expect, it } from 'vitest';
import { anesthesiaChart, CHART_ROWS, type ChartWords } from '../../src/draw/anesthesia-chart.js';
import type { Mark } from '../../src/draw/drawing.js';

const named = new Proxy({}, { get: (_, key) => String(key) });
const WORDS = {
  fields: named,
  rows: named,
  totals: named,
  minute: 'minute',
  clock: 'clock',
  trend: 'trend',
  heart: 'heart',
  pressure: 'pressure',
  at: 'at',
  drug: 'drug',
  by: 'by',
  event: 'event',
} as ChartWords;

const texts = (marks: readonly Mark[]) =>
  marks.filter((mark): mark is Extract<Mark, { kind: 'text' }> => mark.kind === 'text');

const LEVELS = [20, 60, 100, 180, 220] as const;

/** Sizes of both papers, with and without the draft mark. */
const SIZES = [
  [182, 238],
  [182, 228],
  [187.9, 222],
  [187.9, 211],
] as const;

describe.each(SIZES)('a chart of %f by %f mm', (width, height) => {
  const chart = () =>
    anesthesiaChart(WORDS, { width, height }, { fields: {}, levels: [...LEVELS] });

  it('has a row for each thing that is watched, at least 6 mm high', () => {
    {
      const { marks } = chart();
      const lines = marks.flatMap((mark) =>
        mark.kind === 'line' && mark.points.length === 2 ? [mark.points] : [],
      );
      const levels = lines
        .filter(([a, b]) => a?.[1] === b?.[1] && a?.[0] === 0 && b?.[0] === width)
        .map(([a]) => a?.[1] as number)
        .slice(0, CHART_ROWS.length + 1);
      levels.slice(1).forEach((y, i) => {
        expect(y - (levels[i] as number)).toBeGreaterThanOrEqual(6);
      });
      const written = texts(marks).map(({ text }) => text);
      expect(written).toEqual(expect.arrayContaining([...CHART_ROWS]));
    }
  });

  it('has a column for each five minutes of two hours, at least 6 mm wide', () => {
    const labels = texts(chart().marks).filter(({ text }) => /^\d+$/.test(text));
    const places = labels.filter(({ align }) => align === 'middle');
    expect(places.map(({ text }) => Number(text))).toEqual(
      Array.from({ length: 24 }, (_, i) => i * 5),
    );
    places.slice(1).forEach(({ at }, i) => {
      expect(at[0] - (places[i] as (typeof places)[number]).at[0]).toBeGreaterThanOrEqual(6);
    });
  });

  it('stays on its sheet and uses it to the foot', () => {
    const points = chart().marks.flatMap((mark) =>
      mark.kind === 'line' || mark.kind === 'area' ? [...mark.points] : [],
    );
    expect(Math.min(...points.flat())).toBeGreaterThanOrEqual(0);
    expect(Math.max(...points.map(([x]) => x))).toBeCloseTo(width, 6);
    expect(Math.max(...points.map(([, y]) => y))).toBeCloseTo(height, 6);
  });

  it('has a line at each level of the trend within its borders, and the number of each beside it', () => {
    const { marks } = chart();
    const labels = texts(marks).filter(({ text, align }) => align === 'end' && /^\d+$/.test(text));
    expect(labels.map(({ text }) => Number(text))).toEqual([...LEVELS]);
    const heights = labels.map(({ at }) => at[1]);
    // To scale: from 60 to 100 is half as far as from 100 to 180.
    const [, a, b, c] = heights as [number, number, number, number];
    expect(a - b).toBeCloseTo((b - c) / 2, 6);
    const lines = marks.flatMap((mark) =>
      mark.kind === 'line' && mark.points.length === 2 ? [mark.points] : [],
    );
    for (const y of heights.slice(1, -1)) {
      const level = lines.filter(
        ([from, to]) => from?.[1] === to?.[1] && Math.abs((from?.[1] as number) - y) < 1,
      );
      expect(level.length).toBeGreaterThan(0);
    }
  });

  it('has at least five lines for drugs, and none of them is written on', () => {
    const { marks } = chart();
    expect(
      texts(marks)
        .filter(({ text }) => /drug/.test(text))
        .map(({ text }) => text),
    ).toEqual(['drug']);
  });
});

it('makes a long word small rather than let it leave its field', () => {
  const name = 'Pumpernickel von Lindenhof zu Oberwald the Third';
  const { marks } = anesthesiaChart(
    WORDS,
    { width: 182, height: 238 },
    { fields: { name }, levels: [40, 240] },
  );
  const written = texts(marks).find(({ text }) => text === name);
  expect(written?.size).toBeLessThan(3.1);
});
