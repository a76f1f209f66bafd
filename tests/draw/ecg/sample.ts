import type { EcgStrip, StripBeat } from '../../../src/draw/ecg/strip.js';

const bump = (time: number, centre: number, width: number, height: number) =>
  height * Math.exp(-(((time - centre) / width) ** 2));

/** An invented lead II: a regular rhythm of bell-shaped waves, one tall beat, and ten seconds at 500 Hz. */
export function sampleStrip(change: Partial<EcgStrip> = {}): EcgStrip {
  const samplingRate = 500;
  const samples = new Float64Array(10 * samplingRate);
  const beats: StripBeat[] = [];
  for (let time = 0.55, n = 0; time < 10; time += n % 4 === 3 ? 0.86 : 0.62, n++) {
    const tall = n === 9 ? 5.2 : 1.6;
    for (let i = 0; i < samples.length; i++) {
      const now = i / samplingRate;
      if (Math.abs(now - time) > 0.45) continue;
      samples[i] =
        (samples[i] ?? 0) +
        bump(now, time - 0.1, 0.016, 0.22) +
        bump(now, time - 0.014, 0.006, -0.2) +
        bump(now, time, 0.008, tall) +
        bump(now, time + 0.016, 0.008, -0.35) +
        bump(now, time + 0.19, 0.032, 0.3);
    }
    beats.push({
      time,
      p: { onset: time - 0.125, peak: time - 0.1, end: time - 0.075 },
      qrs: { onset: time - 0.025, peak: time, end: time + 0.03 },
      t: { onset: time + 0.13, peak: time + 0.19, end: time + 0.25 },
    });
  }
  const unreadable = [
    { from: 3, to: 4.4, why: 'lead loose' },
    { from: 8.3, to: 8.6, why: 'patient moved' },
  ];
  return {
    samples,
    samplingRate,
    from: 0,
    to: 10,
    beats: beats.filter((b) => unreadable.every((s) => b.time < s.from || b.time > s.to)),
    unreadable,
    lead: 'II',
    paperSpeed: 25,
    width: 174,
    decimalMark: '.',
    ...change,
  };
}
