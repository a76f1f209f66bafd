import { describe, expect, it } from 'vitest';
import { clockSkew } from '../../src/vitals/clock-skew.js';

/** Beats whose rate swings slowly between 70 and 130/min over a quarter of an hour. */
function swinging(minutes: number): number[] {
  const beats: number[] = [];
  for (let at = 0; at < minutes; ) {
    beats.push(at);
    at += 1 / (100 + 30 * Math.sin(at / 1.3) * Math.cos(at / 3.1));
  }
  return beats;
}

const beats = swinging(20);
const strips = [{ beats, readable: [{ from: 0, to: 20 }] }];
/** What a monitor with its clock so far ahead shows, from the beats of ten seconds. */
const shown = (ahead: number, factor = 1, every = 0.5) =>
  Array.from({ length: Math.floor(18 / every) }, (_, index) => {
    const minute = 0.5 + index * every;
    const inside = beats.filter((beat) => beat >= minute - 1 / 6 && beat <= minute);
    const rate = (inside.length - 1) / ((inside.at(-1) as number) - (inside[0] as number));
    return { minute: minute + ahead / 60, value: Math.round(rate * factor) };
  });

describe('the clocks of vitals and strips', () => {
  it.each([90, -45, 240, -300])('are found %i s apart', (ahead) => {
    expect(clockSkew(shown(ahead), strips)?.seconds).toBe(ahead);
  });

  it('are found apart by a monitor that counts double', () => {
    expect(clockSkew(shown(120, 2), strips)?.seconds).toBe(120);
  });

  it('are left alone where they agree', () => {
    expect(clockSkew(shown(0), strips)).toBeNull();
    expect(clockSkew(shown(4), strips)).toBeNull();
  });

  it('are left alone where too little is known: few readings, a steady rate, an unreadable strip', () => {
    expect(clockSkew(shown(90).slice(0, 9), strips)).toBeNull();
    const steady = shown(90).map(({ minute }, index) => ({ minute, value: 100 + (index % 2) }));
    expect(clockSkew(steady, strips)).toBeNull();
    expect(clockSkew(shown(90), [{ beats, readable: [] }])).toBeNull();
  });

  it('are not parted by rates that have nothing to do with the beats', () => {
    const other = shown(0).map(({ minute }, index) => ({
      minute,
      value: 100 + 30 * Math.sin(index * index),
    }));
    expect(clockSkew(other, strips)).toBeNull();
  });

  it('are left alone where two times fit: a rate that comes and goes as often as the clock strikes', () => {
    const round: number[] = [];
    for (let at = 0; at < 20; ) {
      round.push(at);
      at += 1 / (100 + 30 * Math.sin((2 * Math.PI * at) / 3));
    }
    const readings = Array.from({ length: 36 }, (_, index) => {
      const minute = 0.5 + index * 0.5;
      return { minute: minute + 1, value: 100 + 30 * Math.sin((2 * Math.PI * minute) / 3) };
    });
    expect(clockSkew(readings, [{ beats: round, readable: [{ from: 0, to: 20 }] }])).toBeNull();
  });
});
