import { expect, it } from 'vitest';
import type { StripAnalysis } from '../../../src/signal/strip-analysis.js';
import type { Bell } from '../../tools/synthetic-strip.js';
import { type BellBeat, events, isNormal, names, toldBells } from '../told-bells.js';

const P: Bell = { at: -0.1, height: 0.2, width: 0.01 };
const NARROW: readonly Bell[] = [
  { at: -0.018, height: -0.15, width: 0.005 },
  { at: 0, height: 1.4, width: 0.0075 },
  { at: 0.018, height: -0.25, width: 0.006 },
  { at: 0.14, height: 0.2, width: 0.024 },
];
const WIDE: readonly Bell[] = [
  { at: -0.01, height: 1.3, width: 0.015 },
  { at: 0.03, height: 0.9, width: 0.015 },
  { at: 0.19, height: -0.5, width: 0.03 },
];

/** @param wavesOf of each beat in turn, `ahead` s before it is due */
function read(
  count: number,
  interval: number,
  wavesOf: (i: number) => { readonly waves: readonly Bell[]; readonly ahead?: number },
): StripAnalysis {
  const beats = Array.from({ length: count }, (_, i) => ({ ahead: 0, ...wavesOf(i) }));
  return toldBells(
    beats.map(
      ({ ahead, waves }, i): BellBeat => [0.4 + i * interval + 0.004 * (i % 3) - ahead, waves],
    ),
    count * interval + 0.4,
  );
}

it('a branch that is blocked for a while leaves the sinus rhythm its name, however many beats are wide', () => {
  const found = read(36, 0.6, (i) =>
    i % 12 < 6 ? { waves: [P, ...NARROW] } : { waves: [{ ...P, at: -0.122 }, ...WIDE] },
  );
  expect(names(found)).toEqual(['sinus rhythm']);
  expect(events(found)).toEqual(['wide complexes on time']);
  expect(found.rhythms[0]?.within[0]?.beats).toHaveLength(18);
});

it('wide beats at the pace of the sinus node whose P comes nearer from beat to beat are no blocked branch', () => {
  const found = read(36, 0.6, (i) => {
    if (i % 12 < 6) return { waves: [P, ...NARROW] };
    const ahead = 0.02 + 0.012 * (i % 6);
    return { waves: [{ ...P, at: -0.122 + ahead }, ...WIDE], ahead };
  });
  const runs = found.rhythms.filter(({ name, from, to }) => isNormal(name) && to - from > 4.3);
  expect(runs).toEqual([]);
});

it('a QRS between narrow and wide is led by P where the halfway between two P waves lies clear of it', () => {
  const between: readonly Bell[] = [
    { at: 0, height: 1.3, width: 0.011 },
    { at: 0.015, height: 0.4, width: 0.01 },
    { at: 0.17, height: -0.3, width: 0.03 },
  ];
  const waves = [{ ...P, at: -0.13 }, ...between];
  const found = read(40, 0.7, () => ({ waves }));
  const widths = found.beats.map(({ qrs }) => (qrs ? qrs.end - qrs.onset : 0));
  const middle = widths.sort((a, b) => a - b)[20];
  expect(middle).toBeGreaterThan(0.06);
  expect(middle).toBeLessThan(0.08);
  expect(names(found)).toEqual(['sinus rhythm']);
  expect(found.variability).not.toBeNull();
});

it('it proves nothing where atria twice as fast would hide every second P in it', () => {
  const waves: readonly Bell[] = [
    { ...P, at: -0.13 },
    { at: 0, height: 1.3, width: 0.011 },
    { at: 0.015, height: 0.4, width: 0.01 },
    { at: 0.15, height: -0.3, width: 0.02 },
  ];
  const found = read(60, 0.31, () => ({ waves }));
  expect(names(found).filter(isNormal)).toEqual([]);
});
