import { expect, it } from 'vitest';
import type { Bell } from '../../tools/synthetic-strip.js';
import { type BellBeat, events, isNormal, names, toldBells } from '../told-bells.js';

const P: Bell = { at: -0.1, height: 0.2, width: 0.01 };
const QRS: readonly Bell[] = [
  { at: -0.018, height: -0.15, width: 0.005 },
  { at: 0, height: 1.4, width: 0.0075 },
  { at: 0.018, height: -0.25, width: 0.006 },
  { at: 0.15, height: 0.25, width: 0.026 },
];

it('every third P dropped while PR lengthens is a block, not early beats of a sinus rhythm', () => {
  const cycle = 0.62;
  const beats = Array.from({ length: 45 }, (_, i): BellBeat => {
    const atria = 0.3 + cycle * i;
    const pr = [0.105, 0.135][i % 3];
    const wave = (r: number): Bell => ({ ...P, at: atria + 0.02 - r });
    return pr === undefined
      ? [atria + 0.12, [wave(atria + 0.12)]]
      : [atria + 0.02 + pr, [wave(atria + 0.02 + pr), ...QRS]];
  });
  const found = toldBells(beats, 28.5);
  expect(names(found)).toEqual(['second-degree atrioventricular block, lengthening PR']);
  expect(events(found)).toEqual([]);
});

it('a beat whose P comes on time after one that was dropped is not early', () => {
  // Two of three, then one of two: pairs of a long and a short interval.
  const cycle = 0.47;
  const beats = Array.from({ length: 60 }, (_, i): BellBeat => {
    const isDropped = [2, 4].includes(i % 5);
    return [0.4 + cycle * i, isDropped ? [P] : [P, ...QRS]];
  });
  const found = toldBells(beats, 28.6);
  expect(names(found)).toEqual(['second-degree atrioventricular block, constant PR']);
  expect(found.rhythms.flatMap(({ within }) => within.flatMap((w) => w.beats))).toEqual([]);
});

it('where the height of P goes with the breath a short interval makes no early beat', () => {
  let time = 0.4;
  const beats = Array.from({ length: 60 }, (_, i): BellBeat => {
    const breath = Math.sin((2 * Math.PI * i) / 7);
    time += 0.58 * (1 + 0.12 * breath) * (i % 9 === 4 ? 0.8 : 1);
    return [time, [{ ...P, height: 0.2 * (1 - 0.45 * breath) }, ...QRS]];
  });
  expect(events(toldBells(beats, time + 0.5))).not.toContain(
    'supraventricular premature complexes',
  );
});

it('a gentle beat of a ventricle that was missed is looked for beside what then looks early', () => {
  // Trigeminy whose third beat rises as gently as T.
  const gentle: readonly Bell[] = [
    { at: -0.03, height: 0.35, width: 0.022 },
    { at: 0, height: 0.75, width: 0.028 },
    { at: 0.17, height: -0.3, width: 0.03 },
  ];
  const own = [P, ...QRS];
  const beats = Array.from({ length: 66 }, (_, i): BellBeat => {
    const turn = Math.floor(i / 3) * 1.36 + 0.4;
    if (i % 3 === 2) return [turn + 0.79, gentle];
    return [i % 3 === 0 ? turn : turn + 0.45, own];
  });
  const found = toldBells(beats, 30);
  const isTold = events(found).includes('ventricular premature complexes');
  expect(isTold || !names(found).some(isNormal)).toBe(true);
});

it('the beat behind a wide one with which a strip begins is not early', () => {
  const wide: readonly Bell[] = [
    { at: -0.01, height: 1.3, width: 0.015 },
    { at: 0.03, height: 0.9, width: 0.015 },
    { at: 0.17, height: -0.5, width: 0.03 },
  ];
  const own = Array.from(
    { length: 30 },
    (_, i): BellBeat => [0.78 + 0.6 * i + 0.004 * (i % 3), [P, ...QRS]],
  );
  const found = toldBells([[0.3, wide], ...own], 19);
  expect(names(found)).toEqual(['sinus rhythm']);
  expect(events(found)).not.toContain('supraventricular premature complexes');
});
