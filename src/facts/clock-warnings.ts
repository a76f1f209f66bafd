import type { CaseText } from '../record/case-schema.js';
import type { Warning } from '../record/problem.js';
import type { Located } from '../record/yaml-file.js';
import { countedStretches } from '../signal/rate/counted.js';
import { roundTo } from '../units/round.js';
import { clockSkew } from '../vitals/clock-skew.js';
import type { ChannelFacts, StripFacts } from './case-facts.js';

/** Asks about the vitals' clock where the displayed rates fit the strips better at another time, and the record says nothing of it. */
export function clockWarnings(
  { value, at }: Located<CaseText>,
  channels: readonly ChannelFacts[],
  strips: readonly StripFacts[],
): Warning[] {
  if (value.monitor['clock of vitals'] !== undefined) return [];
  const displayed = channels.find(({ channel }) => channel === 'heart rate')?.patient ?? [];
  const counted = strips.flatMap(({ begins, analysis }) => {
    const from = begins.value;
    if (from === null) return [];
    const minute = (second: number) => from + second / 60;
    return [
      {
        beats: analysis.beats.map(({ time }) => minute(time)),
        readable: countedStretches(analysis.rhythms, analysis.beats, analysis.quality.spans).map(
          (span) => ({ from: minute(span.from), to: minute(span.to) }),
        ),
      },
    ];
  });
  const skew = clockSkew(displayed, counted);
  if (skew === null) return [];
  const { seconds, readings, correlation } = skew;
  const side = seconds > 0 ? 'ahead' : 'behind';
  return [
    {
      kind: 'clocks that disagree',
      ...at('monitor', 'vitals'),
      found: `${readings} displayed heart rates that go with the beats of the strips ${Math.abs(seconds)} s ${side} (correlation ${roundTo(correlation.shifted, 2)}) and not at the times as they stand (${roundTo(correlation.asStated, 2)})`,
      expected: 'one clock for the vitals and the strips, or how far they are apart',
      mend: `Compare the two clocks, and add under "monitor": clock of vitals: ${Math.abs(seconds)} s ${side} (or what you find; 0 s ahead where they agree).`,
      accepted: null,
    },
  ];
}
