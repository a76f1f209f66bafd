import { describe, expect, it } from 'vitest';
import { momentOf, secondOn } from '../../../src/live/strip/second-on.js';

const PLACE = { strip: 1, begins: 25, duration: 40 };

describe('a moment that another figure points at', () => {
  it('is the second that is named for this strip, and none of another strip', () => {
    expect(secondOn({ onStrip: { strip: 1, second: 7 }, minute: null }, PLACE)).toBe(7);
    expect(secondOn({ onStrip: { strip: 0, second: 7 }, minute: 25 }, PLACE)).toBeNull();
  });

  it('is found by its minute, while the strip was running', () => {
    expect(secondOn({ onStrip: null, minute: 25.5 }, PLACE)).toBe(30);
    expect(secondOn({ onStrip: null, minute: 24.9 }, PLACE)).toBeNull();
    expect(secondOn({ onStrip: null, minute: 26 }, PLACE)).toBeNull();
    expect(secondOn({ onStrip: null, minute: 25.5 }, { ...PLACE, begins: null })).toBeNull();
  });

  it('comes back as the moment that it was', () => {
    expect(momentOf(30, PLACE)).toEqual({ onStrip: { strip: 1, second: 30 }, minute: 25.5 });
    expect(momentOf(30, { ...PLACE, begins: null }).minute).toBeNull();
  });
});
