import { describe, expect, it } from 'vitest';
import { capnogram } from './capnogram.js';
import { ventilatorBreaths } from './rhythms/setting.js';

describe('a capnogram', () => {
  const breaths = ventilatorBreaths(10, 60);
  const samples = capnogram(breaths, 60, 25, { endTidal: 41 });

  it('has a breath every 6 s at 10/min', () => {
    expect(breaths.map(({ time }) => time)).toEqual([1, 7, 13, 19, 25, 31, 37, 43, 49, 55]);
  });

  it('stands at its end-tidal value when a breath begins and at nought while it lasts', () => {
    for (const { time, inspiration } of breaths) {
      expect(samples[time * 25]).toBeCloseTo(41, 6);
      expect(samples[Math.round((time + inspiration) * 25)]).toBe(0);
    }
  });

  it('shows inspired CO2 where rebreathing is asked for', () => {
    const rebreathed = capnogram(breaths, 60, 25, { endTidal: 55, inspired: 6 });
    expect(Math.min(...rebreathed)).toBe(6);
    expect(Math.max(...rebreathed)).toBeCloseTo(55, 6);
  });
});
