import { describe, expect, it } from 'vitest';
import { corner } from '../../../src/signal/waves/corner.js';

/** 1 at 0, falling on a straight line to 0 at 10, then flat. */
const ramp = Float64Array.from({ length: 40 }, (_, i) => Math.max(0, 1 - i / 10));

describe('the corner at the foot of a slope', () => {
  it('is where the slope ends', () => {
    expect(corner(ramp, 5, 30)).toBe(10);
  });

  it('stays where it is when the trace is tilted, lifted or turned upside down', () => {
    expect(
      corner(
        ramp.map((x, i) => x + 0.01 * i + 5),
        5,
        30,
      ),
    ).toBe(10);
    expect(
      corner(
        ramp.map((x, i) => x - 0.04 * i),
        5,
        30,
      ),
    ).toBe(10);
    expect(
      corner(
        ramp.map((x) => -3 * x),
        5,
        30,
      ),
    ).toBe(10);
  });

  it('is found backwards as well', () => {
    expect(corner(ramp.slice().reverse(), 34, 9)).toBe(29);
  });
});
