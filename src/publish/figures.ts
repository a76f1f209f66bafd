import type { Drawing } from '../draw/drawing.js';
import { ecgStrip, secondsPerRow } from '../draw/ecg/strip.js';
import { heart } from '../draw/heart/heart.js';
import { HEART_LABELS, type HeartLabel } from '../draw/heart/labels.js';
import { numberedBeats } from '../draw/vitals/beats.js';
import { ON_PAPER, storyRoom, vitalsChart } from '../draw/vitals/chart.js';
import { countingStrip } from '../draw/vitals/count.js';
import { beatIntervals } from '../draw/vitals/intervals.js';
import { lineShapes } from '../draw/vitals/panels.js';
import type { ExerciseFacts } from '../facts/exercises.js';
import type { ReadStrip } from '../facts/strip.js';
import type { PublicFacts } from '../privacy/public-facts.js';
import { latest } from '../units/latest.js';
import type { Language } from '../words/language.js';
import { decimals } from '../words/numbers.js';
import type { CaseFigures, StripFigure } from '../words/teaching/learner-section.js';
import { chartDrawing } from './chart-drawing.js';
import { CSS_PIXELS_PER_MM } from './recorded-canvas.js';
import { hasReadings, vitalsFigure } from './vitals-figure.js';

/** Width that fits the text area of both paper sizes, mm. */
export const FIGURE_WIDTH = 174;
const PAPER_SPEED = 25;
/** Enough rows to see a pattern repeat. */
const STRIP_ROWS = 3;
const PANEL_HEIGHT = 24;

/** Draws the figures of a case from its public facts and the samples of its strips. */
export type DrawFigures = (
  facts: PublicFacts,
  strips: readonly ReadStrip[],
  language: Language,
) => Omit<CaseFigures, 'photos'>;

/** Draws them all, whatever was drawn before. */
export const drawFigures: DrawFigures = (...given) => figureDrawer()(...given);

/** Drawings that are kept, as an author who writes at a page changes little of what is in them. */
interface Kept {
  readonly charts: ReturnType<typeof latest<Drawing>>;
  /** By the analysis of the strip that they are of, which a preview keeps too. */
  readonly ofStrips: WeakMap<ReadStrip['analysis'], Map<string, unknown>>;
}

/** Draws again only what is another drawing than before. */
export function figureDrawer(): DrawFigures {
  const kept: Kept = { charts: latest(4), ofStrips: new WeakMap() };
  return (facts, strips, language) => ({
    vitals: hasReadings(facts)
      ? { kind: 'drawing', drawing: vitalsDrawing(facts, language, kept) }
      : null,
    heart: { kind: 'drawing', drawing: heartIn(language) },
    strips: strips.map((strip) =>
      drawnOf(strip, language, 'strip', kept, () => drawStrip(strip, language)),
    ),
    exercises: Object.fromEntries(
      facts.exercises.flatMap((exercise) => {
        const drawing = exerciseDrawing(exercise, strips, language, kept);
        return drawing ? [[exercise.name, { kind: 'drawing' as const, drawing }]] : [];
      }),
    ),
  });
}

function drawnOf<T>(
  { analysis }: ReadStrip,
  { tag }: Language,
  what: string,
  { ofStrips }: Kept,
  draw: () => T,
): T {
  const known = ofStrips.get(analysis) ?? new Map<string, unknown>();
  ofStrips.set(analysis, known);
  const key = `${tag} ${what}`;
  if (!known.has(key)) known.set(key, draw());
  return known.get(key) as T;
}

/** The one heart of a language, so that each document of each case prints the same drawing. */
function heartIn(language: Language): Drawing {
  const drawing = hearts.get(language) ?? heart({ labels: heartWords(language) });
  hearts.set(language, drawing);
  return drawing;
}

const hearts = new WeakMap<Language, Drawing>();

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

/** What a question shows: the strip unmarked, or the beats from one to the next. */
function exerciseDrawing(
  exercise: ExerciseFacts,
  strips: readonly ReadStrip[],
  language: Language,
  kept: Kept,
): Drawing | null {
  const strip = 'strip' in exercise ? strips[exercise.strip] : undefined;
  if (!strip) return null;
  return drawnOf(strip, language, JSON.stringify(exercise), kept, () =>
    drawExercise(exercise, strip, language),
  );
}

function drawExercise(
  exercise: ExerciseFacts,
  { lead, analysis }: ReadStrip,
  { learner }: Language,
): Drawing | null {
  const { samples, samplingRate } = lead;
  switch (exercise.name) {
    case 'count-the-rate': {
      const whole = exercise.windows.at(-1);
      return whole
        ? countingStrip({
            samples,
            samplingRate,
            from: whole.from,
            to: whole.to,
            windows: exercise.windows.slice(0, -1).map(({ from, to }) => ({
              from,
              to,
              label: learner.text('exercises.count-the-rate.window', {
                seconds: decimals(to - from, 1),
              }),
            })),
            width: FIGURE_WIDTH,
          })
        : null;
    }
    case 'find-the-p':
      return numberedBeats(
        {
          samples,
          samplingRate,
          from: exercise.from,
          to: exercise.to,
          unreadable: analysis.quality.spans.filter(({ readable }) => !readable),
          lead: lead.label,
          width: FIGURE_WIDTH,
          decimalMark: '.',
        },
        exercise.beats.map(({ time }) => time),
      );
    case 'goes-with-the-breath':
      return beatIntervals({
        intervals: exercise.intervals,
        breathAt: exercise.breathAt,
        duration: analysis.duration,
        strings: {
          interval: learner.text('exercises.goes-with-the-breath.interval'),
          breath: learner.text('exercises.goes-with-the-breath.breath'),
        },
        width: FIGURE_WIDTH,
      });
    default:
      return null;
  }
}

function vitalsDrawing(facts: PublicFacts, language: Language, { charts }: Kept) {
  const chart = vitalsFigure(facts, language);
  const panels = new Set(chart.series.map(({ measure }) => lineShapes[measure].panel)).size;
  const story = storyRoom(chart, ON_PAPER.width) / CSS_PIXELS_PER_MM;
  return charts(JSON.stringify(chart), () =>
    chartDrawing(vitalsChart(chart), {
      widthMm: FIGURE_WIDTH,
      heightMm: 9 + story + panels * PANEL_HEIGHT,
    }),
  );
}
