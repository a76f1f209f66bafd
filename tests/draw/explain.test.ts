import { describe, expect, it } from 'vitest';
import type { Drawing, Mark } from '../../src/draw/drawing.js';
import { voltage, waveOf } from '../../src/draw/explain/beat.js';
import { pulseShape } from '../../src/draw/explain/pressure-wave.js';
import { textWidth } from '../../src/draw/text-width.js';
import { loadContent } from '../../src/publish/content.js';
import { disk } from '../../src/publish/disk.js';
import { house } from '../../src/publish/house.js';
import { DRAWINGS, type DrawingName, drawn } from '../../src/publish/library/drawings.js';

const content = loadContent(
  house.content,
  disk(() => {}),
);
if (!content.ok) throw new Error('the content cannot be read');
const { languages } = content.value;

const drawingOf = (name: DrawingName, tag: string): Drawing => {
  const language = languages.get(tag);
  const { figure } = drawn(name, (language as NonNullable<typeof language>).library);
  if (figure.kind !== 'drawing') throw new Error(name);
  return figure.drawing;
};

const texts = ({ marks }: Drawing) =>
  marks.filter((mark): mark is Extract<Mark, { kind: 'text' }> => mark.kind === 'text');

/** Left, top, right and bottom of letters, mm. */
const boxOf = ({ at: [x, y], text, size, align }: ReturnType<typeof texts>[number]) => {
  // The guess of the widths is on the wide side.
  const width = 0.9 * textWidth(text, size);
  const left = align === 'start' ? x : align === 'middle' ? x - width / 2 : x - width;
  return [left, y - 0.7 * size, left + width, y] as const;
};

const names = Object.keys(DRAWINGS) as DrawingName[];

describe.each(names.flatMap((name) => [[name, 'en'] as const, [name, 'es'] as const]))(
  'the drawing "%s" (%s)',
  (name, tag) => {
    const drawing = drawingOf(name, tag);

    it('keeps every mark on its sheet', () => {
      for (const mark of drawing.marks) {
        const points =
          mark.kind === 'line' || mark.kind === 'area'
            ? mark.points
            : mark.kind === 'circle'
              ? [mark.centre]
              : [];
        for (const [x, y] of points) {
          expect(x >= 0 && x <= drawing.width && y >= 0 && y <= drawing.height).toBe(true);
        }
      }
      for (const text of texts(drawing)) {
        const [left, top, right, bottom] = boxOf(text);
        expect(left >= 0 && top >= 0 && right <= drawing.width, text.text).toBe(true);
        expect(bottom, text.text).toBeLessThanOrEqual(drawing.height);
      }
    });

    it('writes no word over another', () => {
      const boxes = texts(drawing).map((text) => [boxOf(text), text.text] as const);
      const over = boxes.flatMap(([[left, top, right, bottom], one], i) =>
        boxes
          .slice(i + 1)
          .filter(
            ([[l, t, r, b]]) =>
              Math.min(right, r) - Math.max(left, l) > 0 &&
              Math.min(bottom, b) - Math.max(top, t) > 0,
          )
          .map(([, other]) => `${one} over ${other}`),
      );
      expect(over).toEqual([]);
    });
  },
);

describe('the drawn beat', () => {
  it('lies within the ranges of the awake dog (Small Animal Internal Medicine, 6th ed., Table 2.4)', () => {
    const [p, q, s] = [waveOf('p'), waveOf('q'), waveOf('s')];
    const heights = Array.from({ length: 600 }, (_, i) => voltage((i - 300) / 1000));
    expect(Math.max(...heights)).toBeLessThanOrEqual(3);
    expect(p.height).toBeLessThanOrEqual(0.4);
    expect(q.from - p.from).toBeGreaterThanOrEqual(0.06);
    expect(q.from - p.from).toBeLessThanOrEqual(0.13);
    expect(s.to - q.from).toBeLessThanOrEqual(0.07);
    expect(waveOf('t').height / Math.max(...heights)).toBeLessThan(0.25);
  });

  it('has P, Q, R, S and T where they are named', () => {
    for (const name of ['p', 'r', 't'] as const)
      expect(voltage(waveOf(name).at)).toBeGreaterThan(0.1);
    for (const name of ['q', 's'] as const) expect(voltage(waveOf(name).at)).toBeLessThan(0);
  });
});

describe('the drawn pressure', () => {
  const values = Array.from({ length: 1001 }, (_, i) => pulseShape(i / 1000));
  const [low, high] = [Math.min(...values), Math.max(...values)];

  it('has its mean at about a third of the way up, as the estimate of the mean takes it (common practice)', () => {
    const mean = values.slice(1).reduce((sum, value) => sum + value, 0) / 1000;
    expect((mean - low) / (high - low)).toBeGreaterThan(0.28);
    expect((mean - low) / (high - low)).toBeLessThan(0.4);
  });

  it('ends a beat where the next one begins', () => {
    expect(values[0]).toBeCloseTo(values[1000] as number, 6);
  });
});

describe('the paper', () => {
  it('has as many boxes between its two beats as its words say', () => {
    for (const tag of ['en', 'es']) {
      const words = texts(drawingOf('paper boxes', tag)).map(({ text }) => text);
      const boxes = Number(/^\d+/.exec(words[0] as string)?.[0]);
      expect(words[1]).toContain(`1500 / ${boxes} = ${Math.round(1500 / boxes)} `);
      const trace = drawingOf('paper boxes', tag).marks.flatMap((mark) =>
        mark.kind === 'line' && mark.points.length > 200 && mark.stroke.width > 0.4
          ? [mark.points]
          : [],
      )[0] as readonly (readonly [number, number])[];
      const top = Math.min(...trace.map(([, y]) => y));
      const peaks = trace.filter(([, y]) => y < top + 0.5).map(([x]) => x);
      expect(Math.max(...peaks) - Math.min(...peaks)).toBeCloseTo(boxes, 0);
    }
  });
});
