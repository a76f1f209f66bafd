import type { ChartSeries, VitalsChart } from '../draw/vitals/chart-data.js';
import type { Measure, PanelName } from '../draw/vitals/panels.js';
import type { ChannelFacts } from '../facts/case-facts.js';
import type { PublicFacts } from '../privacy/public-facts.js';
import type { ChannelName } from '../record/vocabulary.js';
import type { Language } from '../words/language.js';

const MEASURES: Readonly<Record<ChannelName, Measure | null>> = {
  systolic: 'systolic',
  diastolic: 'diastolic',
  mean: 'mean',
  'heart rate': 'shownRate',
  SpO2: 'saturation',
  EtCO2: 'endTidalCo2',
  breaths: 'breaths',
  temperature: 'temperature',
  // The agent is set by hand: it belongs to the readings' table, not beside what the patient did.
  agent: null,
};

/** The channels that the chart shows, in its order. */
export const drawnChannels = ({ vitals }: PublicFacts): ChannelFacts[] =>
  vitals.channels.filter(({ channel }) => MEASURES[channel] !== null);

/** Whether there is anything for the chart to show. */
export const hasReadings = (facts: PublicFacts): boolean =>
  drawnChannels(facts).some(({ patient, apart }) => patient.length + apart.length > 0);

/** What the vitals chart shows, on paper and alive: the readings, what happened, and the stretches that the text speaks of. */
export function vitalsFigure(facts: PublicFacts, { tag, learner, trade }: Language): VitalsChart {
  const { vitals, anesthesia, story } = facts;
  const series = drawnChannels(facts).map(
    (channel): ChartSeries => ({
      measure: MEASURES[channel.channel] as Measure,
      label: trade.text(`channels.${channel.channel}.short`),
      readings: readings(channel),
    }),
  );
  const minutes = series.flatMap(({ readings: all }) => all.map(({ minute }) => minute));
  const panel = (name: PanelName) => learner.text(`chart.${name}`);
  return {
    series,
    events: anesthesia.events.map(({ minute, what }, index) => ({
      minute,
      number: index + 1,
      // A remark says something only with its words, which stand in the list.
      label: what === 'remark' ? '' : trade.text(`events.${what}.learner`),
    })),
    phases: story.phases.map(({ name, from, to }) => ({
      from,
      to,
      label: learner.text(`story.phases.${name}`),
      urgent: name === 'bleeding',
    })),
    episodes: (vitals.lowPressure.value?.episodes ?? []).map(({ from, to, before, after }) => ({
      panel: 'pressure' as const,
      from,
      to,
      around: [before ?? from, after ?? to] as const,
      label: learner.text('chart.low', { limit: vitals.lowPressure.value?.limit ?? 0 }),
      aroundLabel: learner.text('chart.perhaps'),
    })),
    minutes: [Math.min(0, ...minutes), Math.max(anesthesia.minutes, ...minutes)],
    strings: {
      language: tag,
      timeAxis: learner.text('chart.time'),
      offPatient: learner.text('chart.offPatient'),
      panels: {
        pressure: panel('pressure'),
        rate: panel('rate'),
        saturation: panel('saturation'),
        breathing: panel('breathing'),
        temperature: panel('temperature'),
      },
    },
  };
}

function readings({ patient, apart }: ChannelFacts) {
  return [
    ...patient.map(({ minute, value }) => ({ minute, value, offPatient: false })),
    ...gaps(patient).map((minute) => ({ minute, value: null, offPatient: false })),
    ...apart.map(({ minute, value }) => ({ minute, value, offPatient: true })),
  ].sort((a, b) => a.minute - b.minute);
}

/** Minutes at which a line breaks: between two readings the sensor was off the patient, whether or not it showed anything. */
const gaps = (patient: ChannelFacts['patient']): number[] =>
  patient.flatMap(({ minute, afterOff }, index) => {
    const before = patient[index - 1];
    return afterOff && before ? [(before.minute + minute) / 2] : [];
  });
