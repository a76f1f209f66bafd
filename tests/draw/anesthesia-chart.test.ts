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
  more: (count: number) => `and ${count} more`,
} as ChartWords;

const texts = (marks: readonly Mark[]) =>
  marks.filter((mark): mark is Extract<Mark, { kind: 'text' }> => mark.kind === 'text');

const drugs = (count: number) =>
  Array.from({ length: count }, (_, i) => ({ minute: String(i), given: `drug ${i}` }));

/** Sizes of both papers, with and without the draft mark. */
const SIZES = [
  [182, 238],
  [182, 228],
  [187.9, 222],
  [187.9, 211],
] as const;

describe.each(SIZES)('a chart of %f by %f mm', (width, height) => {
  const chart = (count = 0) =>
    anesthesiaChart(WORDS, { width, height }, { fields: {}, drugs: drugs(count) });

  it('has a row for each thing that is watched, at least 6 mm high', () => {
    for (const count of [0, 5, 40]) {
      const { marks } = chart(count);
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

  it('writes every known drug, or says how many more there are', () => {
    const written = (count: number) => texts(chart(count).marks).map(({ text }) => text);
    expect(written(3)).toEqual(expect.arrayContaining(['drug 0', 'drug 1', 'drug 2']));
    const many = written(40);
    const shown = many.filter((text) => text.startsWith('drug ')).length;
    expect(shown).toBeGreaterThan(4);
    expect(many).toContain(`and ${40 - shown} more`);
  });
});

it('makes a long word small rather than let it leave its field', () => {
  const name = 'Pumpernickel von Lindenhof zu Oberwald the Third';
  const { marks } = anesthesiaChart(
    WORDS,
    { width: 182, height: 238 },
    { fields: { name }, drugs: [] },
  );
  const written = texts(marks).find(({ text }) => text === name);
  expect(written?.size).toBeLessThan(3.1);
});
