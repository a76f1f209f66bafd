import { describe, expect, it } from 'vitest';
import { type BeatsToTell, toldBeats } from '../../src/signal/told-beats.js';

const wave = (onset: number, end: number, confidence = 1) => ({
  onset,
  peak: (onset + end) / 2,
  end,
  confidence,
});

const sinus = (time: number) => ({
  time,
  kind: 'sinus' as const,
  p: wave(time - 0.12, time - 0.08),
  qrs: wave(time - 0.02, time + 0.03),
  t: wave(time + 0.12, time + 0.18),
});

const strip = (some: Partial<BeatsToTell> = {}): BeatsToTell => ({
  beats: [sinus(1), sinus(1.6), sinus(2.3)],
  quality: { spans: [{ from: 0, to: 10, readable: true }] },
  rhythms: [{ from: 0, to: 10, confidence: 0.9 }],
  ...some,
});

describe('beats told one by one', () => {
  it('run from onset of P to onset of QRS, and from there to the end of T (PR and QT, common practice)', () => {
    const [, second] = toldBeats(strip());
    expect(second).toEqual({
      number: 2,
      time: 1.6,
      kind: 'sinus',
      rr: 0.6,
      p: 'seen',
      pr: 0.1,
      qrs: 0.05,
      qt: 0.2,
    });
  });

  it('have no RR before the first, nor across a stretch that cannot be read', () => {
    const told = toldBeats(
      strip({
        quality: {
          spans: [
            { from: 0, to: 1.8, readable: true },
            { from: 1.8, to: 2, readable: false },
            { from: 2, to: 10, readable: true },
          ],
        },
      }),
    );
    expect(told.map(({ rr }) => rr)).toEqual(['first beat', 0.6, 'not readable between']);
  });

  it('measure no wave that is missing or unsure', () => {
    const beat = sinus(1);
    const [unsure] = toldBeats(strip({ beats: [{ ...beat, p: wave(0.88, 0.92, 0.49) }] }));
    expect(unsure).toMatchObject({ p: 'unsure', pr: null, qrs: 0.05, qt: 0.2 });
    const [bare] = toldBeats(strip({ beats: [{ ...beat, p: null, t: null }] }));
    expect(bare).toMatchObject({ p: 'not seen', pr: null, qt: null });
    const [hidden] = toldBeats(strip({ beats: [{ ...beat, qrs: null }] }));
    expect(hidden).toMatchObject({ p: 'seen', pr: null, qrs: null, qt: null });
  });

  it('call no beat sinus where no rhythm could be named, and keep the other kinds', () => {
    const early = { ...sinus(1.6), kind: 'ventricular premature' as const };
    const told = toldBeats(
      strip({
        beats: [sinus(1), early, sinus(2.3)],
        rhythms: [
          { from: 0, to: 2, confidence: null },
          { from: 2, to: 10, confidence: 0.7 },
        ],
      }),
    );
    expect(told.map(({ kind }) => kind)).toEqual(['withheld', 'ventricular premature', 'sinus']);
  });

  it('say the same of times that were rounded to 0.1 ms, as those of a page are', () => {
    const odd = [1.000_049, 1.617_151, 2.299_96].map(sinus);
    const round = (value: number) => Math.round(value * 1e4) / 1e4;
    const rounded: BeatsToTell = JSON.parse(
      JSON.stringify(strip({ beats: odd }), (_, part) =>
        typeof part === 'number' ? round(part) : part,
      ),
    );
    expect(toldBeats(rounded)).toEqual(toldBeats(strip({ beats: odd })));
  });
});
