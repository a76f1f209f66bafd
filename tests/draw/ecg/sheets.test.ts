import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Drawing, Mark } from '../../../src/draw/drawing.js';
import { ecgSheets, PAPERS } from '../../../src/draw/ecg/sheets.js';
import { sampleStrip } from './sample.js';

const WORDS = { title: 'ECG, lead II', foot: 'A draft.' };
const strip = (seconds: number, from = 0) =>
  sampleStrip({
    samples: Float64Array.from({ length: 100 * (from + seconds) }, (_, i) => Math.sin(i / 9)),
    samplingRate: 100,
    from,
    to: from + seconds,
    width: 174,
    beats: [],
    unreadable: [],
  });
const texts = ({ marks }: Drawing) =>
  marks.filter((mark): mark is Extract<Mark, { kind: 'text' }> => mark.kind === 'text');
const points = ({ marks }: Drawing) =>
  marks.flatMap((mark) => ('points' in mark ? mark.points : 'at' in mark ? [mark.at] : []));

describe.each(PAPERS)('a long strip on %s', (paper) => {
  const sheets = ecgSheets(strip(600), paper, WORDS);

  it('fills several sheets, numbered, each with its stretch', () => {
    expect(sheets.length).toBeGreaterThan(10);
    sheets.forEach((sheet, i) => {
      const words = texts(sheet).map(({ text }) => text);
      expect(words).toContain(`${i + 1} / ${sheets.length}`);
      expect(words).toContain('25 mm/s · 10 mm/mV');
    });
    const stretches = sheets.map((sheet) =>
      texts(sheet)
        .find(({ text }) => / to /.test(text))!
        .text.split(' to '),
    );
    expect(stretches[0]?.[0]).toBe('0:00');
    expect(stretches.at(-1)?.[1]).toBe('10:00');
    stretches.slice(1).forEach(([from], i) => {
      expect(from).toBe(stretches[i]?.[1]);
    });
  });

  it('shows each second once, 25 mm after the one before', () => {
    const labels = sheets.flatMap((sheet) =>
      texts(sheet).filter(({ text }) => /^\d+:\d\d$/.test(text)),
    );
    const seconds = labels.map(({ text }) => {
      const [minute, second] = text.split(':');
      return 60 * Number(minute) + Number(second);
    });
    expect(new Set(seconds).size).toBe(601);
    const [first, second] = texts(sheets[0]!).filter(({ text }) => /^0:0[12]$/.test(text));
    expect(second!.at[0] - first!.at[0]).toBeCloseTo(25, 9);
  });

  it('keeps every mark on the sheet, whatever its length', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 120 }), fc.integer({ min: 0, max: 30 }), (s, from) => {
        for (const sheet of ecgSheets(strip(s, from), paper, WORDS)) {
          const astray = points(sheet).filter(
            ([x, y]) => x < 10 || x > sheet.width - 10 || y < 5 || y > sheet.height - 5,
          );
          expect(astray).toEqual([]);
        }
      }),
      { numRuns: 12 },
    );
  });
});
