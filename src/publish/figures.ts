import { ecgStrip, secondsPerRow } from '../draw/ecg-strip.js';
import { heart } from '../draw/heart.js';
import { HEART_LABELS, type HeartLabel } from '../draw/heart-labels.js';
import { type ChartSeries, vitalsChart } from '../draw/vitals-chart.js';
import { lineShapes, type Measure, type PanelName } from '../draw/vitals-panels.js';
import type { ReadStrip } from '../facts/build-facts.js';
import type { ChannelFacts } from '../facts/case-facts.js';
import type { PublicFacts } from '../privacy/public-facts.js';
import type { ChannelName } from '../record/vocabulary.js';
import type { Language } from '../words/language.js';
import type { CaseFigures, StripFigure } from '../words/teaching/learner-section.js';
import { chartImage } from './chart-image.js';

/** Width that fits the text area of both paper sizes, mm. */
const FIGURE_WIDTH = 174;
const PAPER_SPEED = 25;
/** Enough rows to see a pattern repeat. */
const STRIP_ROWS = 3;
const PANEL_HEIGHT = 24;

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

/** The figures of a case, drawn from its public facts and the samples of its strips. */
export function drawFigures(
  facts: PublicFacts,
  strips: readonly ReadStrip[],
  language: Language,
): Omit<CaseFigures, 'photos'> {
  return {
    vitals: { kind: 'image', image: vitalsImage(facts, language) },
    heart: { kind: 'drawing', drawing: heart({ labels: heartWords(language) }) },
    strips: strips.map((strip) => drawStrip(strip, language)),
  };
}

const heartWords = ({ learner }: Language) =>
  Object.fromEntries(
    HEART_LABELS.map((label) => [label, learner.text(`heart.labels.${label}`)]),
  ) as Record<HeartLabel, string>;

function drawStrip({ lead, analysis }: ReadStrip, { learner }: Language): StripFigure {
  const seconds = Math.min(
    analysis.duration,
    STRIP_ROWS * secondsPerRow(FIGURE_WIDTH, PAPER_SPEED),
  );
  return {
    seconds,
    figure: {
      kind: 'drawing',
      drawing: ecgStrip({
        samples: lead.samples,
        samplingRate: lead.samplingRate,
        from: 0,
        to: seconds,
        beats: analysis.beats.filter(({ time }) => time <= seconds),
        unreadable: analysis.quality.spans
          .filter(({ readable }) => !readable)
          .map(({ from, to, why }) => ({
            from,
            to,
            why: learner.text(`strip.labels.${why || 'noise'}`),
          })),
        lead: lead.label,
        paperSpeed: PAPER_SPEED,
        width: FIGURE_WIDTH,
        decimalMark: '.',
      }),
    },
  };
}

function vitalsImage({ vitals, anesthesia }: PublicFacts, { tag, learner, trade }: Language) {
  const series = vitals.channels.flatMap((channel): ChartSeries[] => {
    const measure = MEASURES[channel.channel];
    return measure === null
      ? []
      : [
          {
            measure,
            label: trade.text(`channels.${channel.channel}.short`),
            readings: readings(channel),
          },
        ];
  });
  const minutes = series.flatMap(({ readings: all }) => all.map(({ minute }) => minute));
  const panel = (name: PanelName) => learner.text(`chart.${name}`);
  const chart = vitalsChart({
    series,
    events: anesthesia.events.map(({ minute }, index) => ({ minute, number: index + 1 })),
    episodes: (vitals.lowPressure.value?.episodes ?? []).map(({ from, to }) => ({
      panel: 'pressure' as const,
      from,
      to,
      label: learner.text('chart.low', { limit: vitals.lowPressure.value?.limit ?? 0 }),
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
  });
  const panels = new Set(series.map(({ measure }) => lineShapes[measure].panel)).size;
  return chartImage(chart, { widthMm: FIGURE_WIDTH, heightMm: 14 + panels * PANEL_HEIGHT });
}

function readings({ patient, apart }: ChannelFacts) {
  return [
    ...patient.map(({ minute, value }) => ({ minute, value, offPatient: false })),
    ...apart.map(({ minute, value }) => ({ minute, value, offPatient: true })),
  ].sort((a, b) => a.minute - b.minute);
}
