import { describe, expect, it } from 'vitest';
import { detectBeats } from '../../../src/signal/beats/detect.js';
import { readableSpans } from '../../../src/signal/quality/readable-lead.js';
import { readableInAny, type Span } from '../../../src/signal/quality/span.js';
import type { Channel } from '../../../src/signal/waveform.js';
import { seconds } from '../../../src/units/brands.js';
import { renderLead } from '../../synth/render.js';
import { RHYTHMS } from '../../synth/rhythms/index.js';
import {
  beatTimes,
  dogWaves,
  normal,
  randomFrom,
  syntheticLead,
} from '../../tools/synthetic-strip.js';

const beats = beatTimes(90, 0.4, 39.6, 0.05);
const clean = (rate: number, seed = 1) =>
  syntheticLead({ rate, duration: 40, beats, waves: () => dogWaves(90), noise: 0.02, seed });

/** The lead with 10-20 s put through `change`. */
function spoilt(lead: Channel, change: (x: number, i: number) => number): Channel {
  const { samplingRate: rate } = lead;
  return {
    ...lead,
    samples: lead.samples.map((x, i) => (i >= 10 * rate && i < 20 * rate ? change(x, i) : x)),
  };
}

const poor = (spans: readonly Span[]) => spans.filter((span) => !span.readable);

function expectCovered(spans: readonly Span[], duration: number) {
  expect(spans[0]!.from).toBe(0);
  expect(spans.at(-1)!.to).toBeCloseTo(duration, 9);
  for (let i = 1; i < spans.length; i++) expect(spans[i]!.from).toBe(spans[i - 1]!.to);
}

describe.each([100, 250, 500, 1000, 2000])('a lead of %i Hz', (rate) => {
  const spoilers: [Span['why'], (x: number, i: number) => number][] = [
    ['no samples', () => Number.NaN],
    ['flat line', () => 0.1234],
    ['clipped', () => 5],
    ['clipped', () => -5],
  ];

  it('is one readable span where nothing is wrong', () => {
    expect(readableSpans(clean(rate))).toEqual([{ from: 0, to: 40, readable: true, why: '' }]);
  });

  it.each(spoilers)('is %s for 10 s', (why, change) => {
    const lead = spoilt(clean(rate), change);
    const spans = readableSpans(lead);
    expectCovered(spans, 40);
    expect(poor(spans)).toHaveLength(1);
    const [span] = poor(spans);
    expect(span!.why).toBe(why);
    expect(Math.abs(span!.from - 10)).toBeLessThan(0.15);
    expect(Math.abs(span!.to - 20)).toBeLessThan(0.15);
    const found = detectBeats([lead]);
    expect(found.filter(({ time }) => time > 10.1 && time < 19.9)).toEqual([]);
    expect(found.length).toBeGreaterThanOrEqual(
      beats.filter((time) => time < 9.8 || time > 20.2).length,
    );
  });

  it.each([1, 2, 3])('is noise for 10 s (seed %i)', (seed) => {
    const random = randomFrom(seed);
    // White noise spreads over half the sampling rate; this puts equally much near the QRS.
    const height = 0.8 * Math.sqrt(rate / 250);
    const lead = spoilt(clean(rate, seed), (x) => x + height * normal(random));
    const spans = readableSpans(lead);
    expectCovered(spans, 40);
    for (const { from, to, why } of poor(spans)) {
      expect(why).toBe('noise');
      expect(from).toBeGreaterThan(9);
      expect(to).toBeLessThan(21);
    }
    expect(poor(spans).reduce((sum, { from, to }) => sum + to - from, 0)).toBeGreaterThan(8.5);
    expect(
      detectBeats([lead]).filter(({ time }) => time > 10.5 && time < 19.5).length,
    ).toBeLessThan(4);
  });

  it('gives no beat where there is nothing but noise', () => {
    const random = randomFrom(rate);
    const lead = spoilt(clean(rate), (x) => x);
    const samples = lead.samples.map(() => 0.05 * normal(random));
    expect(detectBeats([{ ...lead, samples }])).toEqual([]);
  });
});

describe('a gap', () => {
  it('too short to hide a beat is bridged', () => {
    const lead = clean(500);
    for (let at = 100; at < lead.samples.length - 100; at += 1500) {
      lead.samples.fill(Number.NaN, at, at + 8);
    }
    expect(readableSpans(lead)).toHaveLength(1);
    expect(detectBeats([lead])).toHaveLength(beats.length);
  });

  it('at the beginning or the end is missing, however short', () => {
    const lead = clean(500);
    lead.samples[0] = Number.NaN;
    expect(readableSpans(lead)[0]).toMatchObject({ from: 0, readable: false, why: 'no samples' });
  });
});

it('does not take the pauses of a signal without any noise for a lost lead', () => {
  const slow = [1, 4, 7, 10, 14.5, 17];
  const lead = syntheticLead({
    rate: 500,
    duration: 20,
    beats: slow,
    waves: () => dogWaves(20),
  });
  expect(poor(readableSpans(lead))).toEqual([]);
  expect(detectBeats([lead])).toHaveLength(slow.length);
});

it('does not call clipped tips of R or fibrillation unreadable', () => {
  const lead = clean(500);
  const clippedTips = { ...lead, samples: lead.samples.map((x) => Math.min(x, 1)) };
  expect(poor(readableSpans(clippedTips))).toEqual([]);
  expect(detectBeats([clippedTips])).toHaveLength(beats.length);

  const plan = RHYTHMS['ventricular-fibrillation']({ species: 'dog', duration: 30, seed: 4 });
  const random = randomFrom(4);
  const samples = renderLead(plan, 500).map((x) => x + 0.02 * normal(random));
  expect(poor(readableSpans({ ...lead, samples }))).toEqual([]);
});

describe('several leads', () => {
  const span = (from: number, to: number, why: Span['why']): Span => ({
    from: seconds(from),
    to: seconds(to),
    readable: why === '',
    why,
  });

  it('are readable where any of them is', () => {
    expect(
      readableInAny([
        [span(0, 4, ''), span(4, 8, 'flat line'), span(8, 10, '')],
        [span(0, 6, ''), span(6, 10, 'noise')],
      ]),
    ).toEqual([span(0, 6, ''), span(6, 8, 'flat line'), span(8, 10, '')]);
  });

  it('fill in for each other', () => {
    const one = spoilt(clean(500), () => Number.NaN);
    const other = clean(250, 7);
    const found = detectBeats([one, other]);
    expect(found).toHaveLength(beats.length);
    found.forEach(({ time, lead }, i) => {
      expect(Math.abs(time - beats[i]!)).toBeLessThan(0.005);
      expect(lead).toBe(time > 10 && time < 20 ? 1 : 0);
    });
  });
});

describe('a line at rest that jolts interrupt', () => {
  const joltAt = (time: number, at: number): number =>
    time < at || time > at + 1.5 ? 0 : Math.cos(2 * Math.PI * 3 * (time - at)) * (at + 1.5 - time);
  const jolted = (lead: Channel): Channel => ({
    ...lead,
    samples: lead.samples.map((x, i) =>
      [4, 13, 22, 31].reduce((sum, at) => sum + joltAt(i / lead.samplingRate, at), x),
    ),
  });
  const idle = jolted({
    ...clean(500),
    samples: clean(500).samples.map((_, i) => 0.012 * Math.sin(i * i)),
  });

  it('is told between them where nothing like a QRS comes back', () => {
    const flat = readableSpans(idle).filter(({ why }) => why === 'flat line');
    expect(flat.length).toBe(5);
    for (const { from, to } of flat) expect(to - from).toBeGreaterThanOrEqual(3);
  });

  it('is not told between beats', () => {
    const flat = readableSpans(jolted(clean(500))).filter(({ why }) => why === 'flat line');
    expect(flat).toEqual([]);
  });
});
