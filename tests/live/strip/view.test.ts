import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  endOf,
  firstView,
  following,
  isTall,
  moved,
  nextZoom,
  paperFor,
  pixelsPerMillivolt,
  pixelsPerSecond,
  scaled,
  secondAt,
  showing,
  shown,
  type View,
  within,
  xOf,
  yOf,
  ZOOMS,
} from '../../../src/live/strip/view.js';

const SHEET = { duration: 60, low: -1, high: 2 };

const viewOf = (some: Partial<View> = {}): View =>
  within({ sheet: SHEET, width: 750, height: 220, speed: 25, zoom: 1, from: 0, top: 0, ...some });

const views = fc
  .record({
    width: fc.integer({ min: 250, max: 1400 }),
    height: fc.integer({ min: 100, max: 500 }),
    speed: fc.constantFrom(25 as const, 50 as const),
    zoom: fc.constantFrom(...ZOOMS),
    from: fc.double({ min: -10, max: 70, noNaN: true }),
    top: fc.double({ min: -5, max: 5, noNaN: true }),
  })
  .map(viewOf);

describe('true proportions', () => {
  it('show a box of 0.2 s as wide as one of 0.5 mV is high at 25 mm/s (Small Animal Internal Medicine, 6th ed., Table 2.4: 0.04 s a millimetre)', () => {
    const view = viewOf();
    expect(0.2 * pixelsPerSecond(view)).toBeCloseTo(0.5 * pixelsPerMillivolt(view), 9);
    // A CSS inch is 96 pixels (CSS Values and Units): 5 mm are 18.9.
    expect(0.2 * pixelsPerSecond(view)).toBeCloseTo((5 / 25.4) * 96, 9);
  });

  it('show 0.02 s a millimetre at 50 mm/s', () => {
    const view = viewOf({ speed: 50 });
    expect(0.02 * pixelsPerSecond(view)).toBeCloseTo(0.1 * pixelsPerMillivolt(view), 9);
  });

  it('stay at every size', () => {
    for (const zoom of ZOOMS) {
      const view = viewOf({ zoom });
      expect(pixelsPerMillivolt(view) / pixelsPerSecond(view)).toBeCloseTo(10 / 25, 9);
    }
  });
});

describe('a view', () => {
  it('never leaves the strip, wherever it is moved', () => {
    fc.assert(
      fc.property(views, fc.integer({ min: -9999, max: 9999 }), (view, by) => {
        const next = moved(view, by, by);
        expect(next.from).toBeGreaterThanOrEqual(0);
        if (shown(next) < SHEET.duration) expect(endOf(next)).toBeLessThanOrEqual(60 + 1e-9);
        else expect(next.from).toBe(0);
      }),
    );
  });

  it('shows all of a paper that fits, and only paper where it does not', () => {
    fc.assert(
      fc.property(views, fc.integer({ min: -999, max: 999 }), (view, by) => {
        const next = moved(view, 0, by);
        const [top, bottom] = [yOf(next, SHEET.high), yOf(next, SHEET.low)];
        if (isTall(next)) {
          expect(top).toBeLessThanOrEqual(1e-6);
          expect(bottom).toBeGreaterThanOrEqual(next.height - 1e-6);
        } else expect(top + bottom).toBeCloseTo(next.height, 6);
      }),
    );
  });

  it('moves the paper with the hand', () => {
    const view = viewOf({ from: 20 });
    const next = moved(view, 100, 0);
    expect(xOf(next, 22)).toBeCloseTo(xOf(view, 22) + 100, 9);
  });

  it('keeps the moment under the fingers while its size changes', () => {
    const view = viewOf({ from: 20 });
    const second = secondAt(view, 300);
    expect(xOf(scaled(view, { zoom: 2 }, 300), second)).toBeCloseTo(300, 6);
    expect(xOf(scaled(view, { speed: 50 }, 300), second)).toBeCloseTo(300, 6);
  });

  it('is first seen as large as paper and four seconds allow, and never smaller than true', () => {
    const wide = firstView(viewOf());
    expect(wide.zoom).toBe(1.4);
    expect(isTall(wide)).toBe(false);
    expect(shown(wide)).toBeGreaterThan(4);
    expect(firstView(viewOf({ width: 343 })).zoom).toBe(1);
  });

  it('has sizes that lead up and down and end', () => {
    let zoom: number = ZOOMS[0];
    for (const next of ZOOMS.slice(1)) {
      zoom = nextZoom(zoom, 1);
      expect(zoom).toBe(next);
    }
    expect(nextZoom(zoom, 1)).toBe(zoom);
    expect(nextZoom(1.2, -1)).toBe(1);
    expect(nextZoom(ZOOMS[0], -1)).toBe(ZOOMS[0]);
  });

  it('brings a moment into sight, and stays where it is in sight already', () => {
    fc.assert(
      fc.property(views, fc.double({ min: 0, max: 60, noNaN: true }), (view, second) => {
        for (const next of [showing(view, second), following(view, second)]) {
          expect(second).toBeGreaterThanOrEqual(next.from - 1e-9);
          expect(second).toBeLessThanOrEqual(endOf(next) + 1e-9);
        }
        expect(following(view, view.from)).toBe(view);
      }),
    );
  });
});

describe('the paper of a trace', () => {
  it('has whole half millivolts around it, and 2 mV at least', () => {
    expect(paperFor([-0.31, 1.72])).toEqual({ low: -0.5, high: 2 });
    expect(paperFor(null)).toEqual({ low: -1, high: 1 });
    const small = paperFor([0, 0.2]);
    expect(small.high - small.low).toBe(2);
  });
});
