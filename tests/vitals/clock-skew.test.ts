import { describe, expect, it } from 'vitest';
import { type CountedBeats, clockSkew, isApart } from '../../src/vitals/clock-skew.js';

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
const seconds = (
  displayed: Parameters<typeof clockSkew>[0],
  on: readonly CountedBeats[] = strips,
) => {
  const skew = clockSkew(displayed, on);
  return typeof skew === 'string' ? skew : skew.seconds;
};
const FEW = 'Fewer than ten heart rates were displayed beside beats that could be counted.';
const STEADY = 'The heart rate hardly changes beside the strips, so that any time fits.';
const NOWHERE = 'The displayed heart rates go with the beats at no time within ten minutes.';
const OPEN = 'The displayed heart rates go with the beats at more than one time.';
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
    expect(seconds(shown(ahead))).toBe(ahead);
    expect(isApart(ahead)).toBe(true);
  });

  it('are found apart by a monitor that counts double', () => {
    expect(seconds(shown(120, 2))).toBe(120);
  });

  it.each([0, 4, -15, 20])(
    'agree where they are %i s apart, which is as much as counting takes',
    (ahead) => {
      const found = seconds(shown(ahead)) as number;
      expect(Math.abs(found - ahead)).toBeLessThan(5);
      expect(isApart(found)).toBe(false);
    },
  );

  it('are not known where too little is: few readings, a steady rate, an unreadable strip', () => {
    expect(seconds(shown(90).slice(0, 9))).toBe(FEW);
    const steady = shown(90).map(({ minute }, index) => ({ minute, value: 100 + (index % 2) }));
    expect(seconds(steady)).toBe(STEADY);
    expect(seconds(shown(90), [{ beats, readable: [] }])).toBe(FEW);
  });

  it('are not parted by rates that have nothing to do with the beats', () => {
    const other = shown(0).map(({ minute }, index) => ({
      minute,
      value: 100 + 30 * Math.sin(index * index),
    }));
    expect(seconds(other)).toBe(NOWHERE);
    expect(seconds(shown(900))).toBe(NOWHERE);
  });

  it('are not known where two times fit: a rate that comes and goes as often as the clock strikes', () => {
    const round: number[] = [];
    for (let at = 0; at < 20; ) {
      round.push(at);
      at += 1 / (100 + 30 * Math.sin((2 * Math.PI * at) / 3));
    }
    const readings = Array.from({ length: 36 }, (_, index) => {
      const minute = 0.5 + index * 0.5;
      return { minute: minute + 1, value: 100 + 30 * Math.sin((2 * Math.PI * minute) / 3) };
    });
    expect(seconds(readings, [{ beats: round, readable: [{ from: 0, to: 20 }] }])).toBe(OPEN);
  });

  it('are not known where the rate climbs alone, as every time fits a straight line', () => {
    const climbing: number[] = [];
    for (let at = 0; at < 20; at += 1 / (80 + 3 * at)) climbing.push(at);
    const readings = Array.from({ length: 36 }, (_, index) => {
      const minute = 0.5 + index * 0.5;
      return { minute: minute + 1, value: Math.round(80 + 3 * minute) };
    });
    expect(seconds(readings, [{ beats: climbing, readable: [{ from: 0, to: 20 }] }])).toBe(OPEN);
  });
});
