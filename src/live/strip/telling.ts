import type { ToldBeat } from '../../signal/told-beats.js';
import type { Measured } from './calipers.js';
import type { Say } from './say.js';
import type { WaveMark } from './wave-marks.js';

/**
 * A beat in sentences: what it is, what came before it, its waves and intervals, and what of it is withheld.
 * @param rhythm name of the rhythm that it belongs to; null where none is named
 */
export function tellBeat(beat: ToldBeat, count: number, rhythm: string | null, say: Say): string {
  const { number, time, kind, rr, p, pr, qrs, qt } = beat;
  const known = [
    ['pr', pr],
    ['qrs', qrs],
    ['qt', qt],
  ] as const;
  const measuredOnes = known.flatMap(([name, value]) =>
    value === null ? [] : [say(`told.${name}`, { seconds: value.toFixed(3) })],
  );
  const withheld = known.flatMap(([name, value]) => (value === null ? [say(`name.${name}`)] : []));
  return [
    say('told.beat', { number, count, time: time.toFixed(2), kind: say(`kind.${kind}`) }),
    typeof rr === 'number'
      ? say('told.rr', { seconds: rr.toFixed(3), rate: Math.round(60 / rr) })
      : say(`told.${rr}`),
    say(`told.p ${p}`),
    ...(measuredOnes.length > 0 ? [`${measuredOnes.join(', ')}.`] : []),
    ...(withheld.length > 0 ? [say('told.withheld', { names: withheld.join(', ') })] : []),
    ...(rhythm !== null
      ? [say('told.rhythm', { name: rhythm })]
      : kind === 'withheld'
        ? []
        : [say('told.untold')]),
  ].join(' ');
}

/** What the calipers hold between them. */
export function tellMeasured(
  { seconds, perMinute, millivolts }: Measured,
  acrossUnreadable: boolean,
  say: Say,
): string {
  if (perMinute === null) return say('measured.nothing');
  return [
    say('measured.time', {
      seconds: seconds.toFixed(3),
      milliseconds: Math.round(seconds * 1000),
      rate: Math.round(perMinute),
    }),
    millivolts === null
      ? say('measured.noHeight')
      : say('measured.height', { millivolts: signed(millivolts) }),
    ...(acrossUnreadable ? [say('measured.unreadable')] : []),
  ].join(' ');
}

/** Where one point of the calipers stands. */
export function tellPoint(
  second: number,
  millivolt: number | null,
  mark: WaveMark | null,
  say: Say,
): string {
  return [
    say('point.at', { seconds: second.toFixed(3) }),
    millivolt === null
      ? say('point.noHeight')
      : say('point.height', { millivolts: signed(millivolt) }),
    ...(mark
      ? [say('point.mark', { part: say(`part.${mark.wave} ${mark.part}`), beat: mark.beat })]
      : []),
  ].join(', ');
}

/** With its sign, and a minus as long as a plus. */
const signed = (value: number): string => {
  const text = Math.abs(value).toFixed(2);
  if (Number(text) === 0) return text;
  return `${value < 0 ? '−' : '+'}${text}`;
};
