import { describe, expect, it } from 'vitest';
import type { HomeCase } from '../../src/facts/case-facts.js';
import { type ExerciseFacts, exerciseFacts } from '../../src/facts/exercises.js';
import { notKnown } from '../../src/facts/fact.js';
import { seconds } from '../../src/units/brands.js';
import { demo } from './demo.js';

const factsOf = (name: string): HomeCase => {
  const facts = demo.cases.find((one) => one.name === name)?.facts;
  if (!facts) throw new Error(`no demonstration case ${name}`);
  return facts;
};

type Named<N> = Extract<ExerciseFacts, { name: N }>;

const asked = <N extends ExerciseFacts['name']>(facts: HomeCase, name: N): Named<N> | undefined =>
  exerciseFacts(facts).find((one): one is Named<N> => one.name === name);

/** The facts with the first strip's analysis changed. */
const withStrip = (
  facts: HomeCase,
  change: (strip: HomeCase['strips'][number]) => Partial<HomeCase['strips'][number]>,
): HomeCase => ({
  ...facts,
  strips: facts.strips.map((strip) => ({ ...strip, ...change(strip) })),
});

describe('counting the rate', () => {
  it('gives each window the beats that lie in it, and the error of its rate', () => {
    const facts = factsOf('juniper');
    const [strip] = facts.strips;
    const { windows, mean } = asked(facts, 'count-the-rate') as Named<'count-the-rate'>;
    expect(windows.map(({ from, to }) => to - from)).toEqual([6, 15, 60]);
    for (const { from, to, beats, rate, error } of windows) {
      const inside = strip?.analysis.beats.filter(({ time }) => time >= from && time < to).length;
      expect(beats).toBe(inside);
      // Beats in six seconds times ten: common practice.
      expect(rate).toBeCloseTo((beats * 60) / (to - from), 9);
      expect(mean * (1 + error)).toBeCloseTo(rate, 9);
    }
    const errors = windows.map(({ error }) => Math.abs(error));
    expect(errors.at(-1)).toBeLessThan(errors[0] as number);
  });

  it('asks for no more than a minute of a strip of ten', () => {
    const long = withStrip(factsOf('juniper'), ({ analysis }) => ({
      analysis: {
        ...analysis,
        duration: seconds(600),
        quality: {
          ...analysis.quality,
          spans: [{ from: seconds(0), to: seconds(600), readable: true, why: '' }],
        },
      },
    }));
    const { windows } = asked(long, 'count-the-rate') as Named<'count-the-rate'>;
    expect(windows.at(-1)).toMatchObject({ from: 0, to: 60 });
  });

  it('is not asked where the beats could not be counted, or nothing is readable for 15 s', () => {
    const facts = factsOf('juniper');
    const uncounted = withStrip(facts, ({ analysis }) => ({
      analysis: { ...analysis, rate: null },
    }));
    expect(asked(uncounted, 'count-the-rate')).toBeUndefined();
    const short = withStrip(facts, ({ analysis }) => ({
      analysis: {
        ...analysis,
        quality: {
          ...analysis.quality,
          spans: [
            { from: seconds(0), to: seconds(14), readable: true, why: '' },
            { from: seconds(14), to: seconds(60), readable: false, why: 'noise' },
          ],
        },
      },
    }));
    expect(asked(short, 'count-the-rate')).toBeUndefined();
  });
});

describe('finding the P', () => {
  it('takes a piece with a beat that has none, where the strip holds one', () => {
    const { beats } = asked(factsOf('tucker'), 'find-the-p') as Named<'find-the-p'>;
    expect(beats.length).toBeGreaterThanOrEqual(4);
    expect(beats.map(({ p }) => p)).toContain('none');
    for (const { p, kind } of beats) if (p === 'none') expect(kind).toMatch(/^ventricular/);
  });

  it('withholds a beat that lies in noise', () => {
    const noisy = withStrip(factsOf('bramble'), ({ analysis }) => {
      const second = analysis.beats[1]?.time as number;
      return {
        analysis: {
          ...analysis,
          quality: {
            ...analysis.quality,
            spans: [
              {
                from: seconds(second - 0.1),
                to: seconds(second + 0.1),
                readable: false,
                why: 'noise',
              },
            ],
          },
        },
      };
    });
    const { beats } = asked(noisy, 'find-the-p') as Named<'find-the-p'>;
    expect(beats.map(({ p }) => p)).toEqual([
      'withheld',
      ...Array.from({ length: 5 }, () => 'there'),
    ]);
    expect(beats[0]?.pr).toBeNull();
  });

  it('withholds a P that is missing from a beat of the sinus node', () => {
    const bare = withStrip(factsOf('bramble'), ({ analysis }) => ({
      analysis: {
        ...analysis,
        beats: analysis.beats.map((beat, index) => (index === 2 ? { ...beat, p: null } : beat)),
      },
    }));
    const { beats } = asked(bare, 'find-the-p') as Named<'find-the-p'>;
    expect(beats[1]?.p).toBe('withheld');
  });

  it('takes fewer beats of a slow heart, so that the piece stays on one row of paper', () => {
    const slow = withStrip(factsOf('bramble'), ({ analysis }) => ({
      analysis: {
        ...analysis,
        beats: analysis.beats.map((beat) => ({ ...beat, time: seconds(beat.time * 2) })),
      },
    }));
    const { from, to, beats } = asked(slow, 'find-the-p') as Named<'find-the-p'>;
    expect(beats.length).toBeLessThan(6);
    expect(to - from).toBeLessThanOrEqual(6.5);
  });

  it('is not asked where most of the piece is withheld', () => {
    const bare = withStrip(factsOf('bramble'), ({ analysis }) => ({
      analysis: { ...analysis, beats: analysis.beats.map((beat) => ({ ...beat, p: null })) },
    }));
    expect(asked(bare, 'find-the-p')).toBeUndefined();
  });
});

describe('the link to the breath', () => {
  it('is asked where there is a verdict, with each breath of the strip', () => {
    const linked = asked(
      factsOf('juniper'),
      'goes-with-the-breath',
    ) as Named<'goes-with-the-breath'>;
    expect(linked.verdict).toBe('linked');
    // A ventilator at 8 breaths a minute: one each 7.5 s.
    const gaps = linked.breathAt.slice(1).map((time, i) => time - (linked.breathAt[i] as number));
    for (const gap of gaps) expect(Math.abs(gap - 7.5)).toBeLessThan(0.5);
    expect(asked(factsOf('tucker'), 'goes-with-the-breath')?.verdict).toBe('not linked');
  });

  it('is not asked where it cannot be told', () => {
    expect(asked(factsOf('bramble'), 'goes-with-the-breath')).toBeUndefined();
  });

  it('is not asked where no rate was counted, as no interval could be shown', () => {
    const uncounted = withStrip(factsOf('juniper'), ({ analysis }) => ({
      analysis: { ...analysis, rate: null },
    }));
    expect(asked(uncounted, 'goes-with-the-breath')).toBeUndefined();
  });
});

describe('trust in the number', () => {
  it('rests on the relation of display and count', () => {
    expect(asked(factsOf('bramble'), 'trust-the-number')).toMatchObject({
      verdict: 'about double',
    });
  });

  it('holds the nearest rates before and after each by itself where none was shown during the strip', () => {
    // Saffron's file: 150 at minute 35, 190 at minute 40; the strip lies between them.
    const found = asked(factsOf('saffron'), 'trust-the-number');
    expect(found).toMatchObject({
      during: false,
      alike: false,
      verdict: 'differs',
      shown: [
        { from: 35, to: 35, lowest: 150, highest: 150, relation: 'differs' },
        { from: 40, to: 40, lowest: 190, highest: 190, relation: 'differs' },
      ],
    });
  });

  it('is not asked where no rate was displayed near the strip', () => {
    const unknown = withStrip(factsOf('bramble'), () => ({
      shown: notKnown('The beats on the strip could not be counted.'),
    }));
    expect(asked(unknown, 'trust-the-number')).toBeUndefined();
  });
});

describe('the mean pressure', () => {
  it('is asked at the lowest systolic pressure of the case', () => {
    expect(asked(factsOf('saffron'), 'estimate-the-mean')).toEqual({
      name: 'estimate-the-mean',
      minute: 40,
      systolic: 64,
      diastolic: 37,
      estimate: 46,
      middle: 50.5,
      given: 46,
    });
  });

  it('is not asked of a reading of nothing, as of a heart that stands still', () => {
    const facts = factsOf('saffron');
    const channels = facts.vitals.channels.map((one) =>
      one.channel === 'diastolic'
        ? {
            ...one,
            patient: one.patient.map((reading) =>
              reading.minute === 40 ? { ...reading, value: 0 } : reading,
            ),
          }
        : one,
    );
    const stopped = { ...facts, vitals: { ...facts.vitals, channels } };
    expect(asked(stopped, 'estimate-the-mean')?.minute).not.toBe(40);
  });

  it('is not asked without a diastolic pressure', () => {
    expect(asked(factsOf('clover'), 'estimate-the-mean')).toBeUndefined();
  });
});

describe('which edges heal first', () => {
  it('lets the gap decide and not the length, for joined edges and for a wound left open', () => {
    expect(asked(factsOf('saffron'), 'which-heals-first')).toMatchObject({
      first: 'own',
      own: { gap: 0, days: [10, 14] },
      other: { length: 'half' },
    });
    expect(asked(factsOf('pumpernickel'), 'which-heals-first')).toMatchObject({
      first: 'other',
      own: { gap: 18, days: [23, 30] },
      other: { gap: 9, length: 'double', days: [12, 15] },
    });
  });

  it('is not asked of joined edges that lie apart', () => {
    const facts = factsOf('saffron');
    const apart = {
      ...facts,
      wound: { ...facts.wound, edgeGap: { ...facts.wound.edgeGap, value: 2 } },
    };
    expect(asked(apart, 'which-heals-first')).toBeUndefined();
  });
});
