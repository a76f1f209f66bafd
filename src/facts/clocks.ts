import type { CaseText } from '../record/case-schema.js';
import type { Located } from '../record/yaml-file.js';
import { countedStretches } from '../signal/rate/counted.js';
import { roundTo } from '../units/round.js';
import { type ClockSkew, clockSkew, isApart, type WhyNoSkew } from '../vitals/clock-skew.js';
import { asked, partOf, type Question } from './asked.js';
import type { ChannelFacts, StripFacts } from './case-facts.js';
import { computed, notKnown, type Stated } from './fact.js';

/** Why nothing is known of the clocks of vitals and strips. */
export type WhyNoClocks =
  | WhyNoSkew
  | 'The record holds no strip whose begin is known.'
  | 'The vitals hold no displayed heart rate of the patient.';

/** How far the vitals are ahead of the strips, by the times that the record states: `clock of vitals` is taken off. */
export function clockFacts(
  channels: readonly ChannelFacts[],
  strips: readonly StripFacts[],
): Stated<ClockSkew, WhyNoClocks> {
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
  if (counted.length === 0) return notKnown('The record holds no strip whose begin is known.');
  if (displayed.length === 0) {
    return notKnown('The vitals hold no displayed heart rate of the patient.');
  }
  const skew = clockSkew(displayed, counted);
  if (typeof skew === 'string') return notKnown(skew);
  const { seconds, readings, correlation } = skew;
  const rounded = {
    shifted: roundTo(correlation.shifted, 2),
    asStated: roundTo(correlation.asStated, 2),
  };
  return computed(
    { seconds, readings, correlation: rounded },
    'the shift at which displayed rates go best with the beats counted on the strips',
    ...strips.map(({ file, analysis }) => `${file} ${analysis.beats.length} beats`),
    'vitals heart rate',
  );
}

/** Asks about the vitals' clock where the displayed rates fit the strips better at another time than the record says. */
export function clockWarnings(
  { value, at }: Located<CaseText>,
  clocks: Stated<ClockSkew, WhyNoClocks>,
): Question[] {
  if (clocks.value === null || !isApart(clocks.value.seconds)) return [];
  const { seconds, readings, correlation } = clocks.value;
  const { 'clock of vitals': stated } = value.monitor;
  const total = Math.round((stated ?? 0) * 60) + seconds;
  const times =
    stated === undefined
      ? 'at the times as they stand'
      : `at the times that are left by "clock of vitals: ${said(Math.round(stated * 60))}"`;
  return [
    {
      ...asked(
        'clocks that disagree',
        partOf.monitor(value),
        `Compare the two clocks, and write under "monitor": clock of vitals: ${said(total)} (or what you find); where the record is right as it stands`,
      ),
      ...at('monitor', stated === undefined ? 'vitals' : 'clock of vitals'),
      found: `${readings} displayed heart rates that go with the beats of the strips ${said(seconds)} (correlation ${correlation.shifted}) and not ${times} (${correlation.asStated})`,
      expected: 'one clock for the vitals and the strips, or how far they are apart',
    },
  ];
}

const said = (seconds: number): string =>
  `${Math.abs(seconds)} s ${seconds < 0 ? 'behind' : 'ahead'}`;
