import type { Drawing, Mark } from '../drawing.js';
import { inks } from '../inks.js';
import { text } from '../lettering.js';
import { trace, waveOf } from './beat.js';
import { hair, lettered, line, pen, span, WIDTH } from './pointed.js';

/** What happens in the heart at each wave and in the interval between P and QRS. */
export interface HeartBeatWords {
  readonly p: string;
  readonly qrs: string;
  readonly t: string;
  readonly pr: string;
}

const HEIGHT = 46;
const frame = { left: 4, right: WIDTH - 4, baseline: 26, speed: 170, gain: 15 } as const;
/** R peak, s from the left edge. */
const PEAK = 0.185;

/** One beat with its waves named, and below each of them what happens in the heart. */
export function heartBeat(words: HeartBeatWords): Drawing {
  const x = (time: number) => frame.left + (PEAK + time) * frame.speed;
  const y = (millivolt: number) => frame.baseline - millivolt * frame.gain;
  const [p, q, r, s, t] = (['p', 'q', 'r', 's', 't'] as const).map(waveOf) as [
    ReturnType<typeof waveOf>,
    ReturnType<typeof waveOf>,
    ReturnType<typeof waveOf>,
    ReturnType<typeof waveOf>,
    ReturnType<typeof waveOf>,
  ];
  const name = (letter: string, at: number, height: number): Mark =>
    text([x(at), height], letter, {
      size: 4.2,
      weight: 'bold',
      align: 'middle',
      colour: inks.ink,
    });
  const below = 36;
  const event = (from: number, to: number, words: string, room: number): Mark[] => [
    ...span([x(from), below], [x(to), below], { colour: inks.accent, width: 0.4 }),
    ...lettered([x((from + to) / 2), below + 4.4], words, { room, align: 'middle' }),
  ];
  const above = 14;
  return {
    width: WIDTH,
    height: HEIGHT,
    marks: [
      line(
        [
          [frame.left, frame.baseline],
          [frame.right, frame.baseline],
        ],
        {
          colour: inks.rule,
          width: 0.2,
          dash: [1, 1],
        },
      ),
      ...[p.from, q.from, s.to, t.from, t.to].map((time) =>
        line(
          [
            [x(time), above + 1],
            [x(time), below - 1],
          ],
          {
            colour: inks.rule,
            width: 0.15,
          },
        ),
      ),
      line(
        [
          [x(p.to), frame.baseline],
          [x(p.to), below - 1],
        ],
        {
          colour: inks.rule,
          width: 0.15,
        },
      ),
      line(trace(frame, [PEAK]), { ...pen, width: 0.55 }),
      name('P', p.at, y(p.height) - 2),
      name('Q', q.at - 0.012, y(q.height) + 3.6),
      name('R', r.at + 0.021, y(r.height) + 4),
      name('S', s.at + 0.016, y(s.height) + 3.6),
      name('T', t.at, y(t.height) - 2),
      ...span([x(p.from), above], [x(q.from), above], hair),
      ...lettered([x((p.from + q.from) / 2), above - 1.6], words.pr, { room: 30, align: 'middle' }),
      ...event(p.from, p.to, words.p, 20),
      ...event(q.from, s.to, words.qrs, 20),
      ...event(t.from, t.to, words.t, 26),
    ],
  };
}
