import type { ChartConfiguration, ChartDataset, ScaleOptionsByType } from 'chart.js';
import { family, type Inks, inks } from '../inks.js';
import { textWidth } from '../text-width.js';
import {
  type ChartDress,
  type ChartSeries,
  type DressedChart,
  offPatientLabels,
  type Panel,
  type VitalsChart,
} from './chart-data.js';
import {
  type LineShape,
  lineShapes,
  type PanelName,
  type PanelShape,
  panelShapes,
} from './panels.js';
import { signed } from './signs.js';
import { type Flag, flagsOf, storyHeight } from './story.js';
import { chartWriting } from './writing.js';

const order: readonly PanelName[] = ['pressure', 'rate', 'saturation', 'breathing', 'temperature'];

/** In print: 174 mm in whole CSS px, which fits both papers. Not a clinical number. */
export const ON_PAPER: ChartDress = { width: 657, inks };

/** Numbers of the axes stand left of the panels, in CSS px. */
const axisRoom = 34;

/** Height of the story above the panels, CSS px. */
export const storyRoom = (chart: VitalsChart, width: number): number =>
  storyHeight(flagsFor(chart, width), chart.phases);

function flagsFor(chart: VitalsChart, width: number): Flag[] {
  const perMinute = pixelsPerMinute({ ...chart, width });
  const [from] = chart.minutes;
  return flagsOf(chart.events, (minute) => axisRoom + (minute - from) * perMinute, width);
}

/** CSS px. */
function pixelsPerMinute(chart: VitalsChart & Pick<ChartDress, 'width'>): number {
  const [from, to] = chart.minutes;
  return (chart.width - labelRoom(chart) - axisRoom) / (to - from);
}

/**
 * The whole record as small panels over one time axis, with what happened above them, as a chart.js configuration; sizes
 * in CSS px.
 */
export function vitalsChart(
  drawn: VitalsChart,
  dress: ChartDress = ON_PAPER,
): ChartConfiguration<'line'> {
  const chart: DressedChart = { ...drawn, ...dress, flags: flagsFor(drawn, dress.width) };
  const panels = order
    .map((name) => panelFor(name, chart.series))
    .filter((panel): panel is Panel => panel !== null);
  if (panels.length === 0) throw new Error('a vitals chart needs at least one reading');
  // With a point in every language, as the numbers in the text.
  const number = new Intl.NumberFormat('en', {
    useGrouping: false,
    // Not before zero, which a step down to it can leave negative.
    signDisplay: 'negative',
  });
  const scales: Record<string, object> = { x: timeScale(chart, number) };
  // Stacked axes fill from the bottom, so the last panel is named first; a blank axis above each makes room for its title.
  for (const panel of [...panels].reverse()) {
    scales[panel.name] = valueScale(panel, number, chart.inks);
    scales[`${panel.name}-title`] = blankScale;
  }
  return {
    type: 'line',
    data: { datasets: panels.flatMap((panel) => linesOf(panel, chart)) },
    options: {
      animation: false,
      responsive: false,
      parsing: false,
      normalized: true,
      locale: chart.strings.language,
      layout: {
        padding: {
          top: storyRoom(chart, chart.width),
          right: labelRoom(chart),
          bottom: 0,
          left: 0,
        },
      },
      plugins: { legend: { display: false }, tooltip: { enabled: false } },
      scales,
    },
    plugins: [chartWriting(chart, panels)],
  };
}

/** Room for the longest label at a line's end, set bold in 11 px after a 12 px leader, and for those of the lanes. */
function labelRoom({ series, strings }: VitalsChart): number {
  const ends = series.map(({ label }) => textWidth(label, 11) * 1.06);
  const lanes = order.map((name) => offPatientLabels(name, series).join(', '));
  const off = lanes
    .filter((label) => label !== '')
    .flatMap((label) => [textWidth(`${label}:`, 10), textWidth(strings.offPatient, 10)]);
  return 16 + Math.ceil(Math.max(...ends, ...off));
}

function panelFor(name: PanelName, series: readonly ChartSeries[]): Panel | null {
  const shape = panelShapes[name];
  const readings = series
    .filter(({ measure }) => lineShapes[measure].panel === name)
    .flatMap((line) => line.readings)
    .filter((reading) => reading.value !== null);
  if (readings.length === 0) return null;
  let { low, high } = shape;
  for (const { value, offPatient } of readings) {
    if (value === null || offPatient) continue;
    while (value < low) low -= shape.step;
    while (value > high) high += shape.step;
  }
  const apart = readings.some((reading) => reading.offPatient);
  return { name, shape, low, high, lane: apart ? low - (high - low) * laneShare(shape) : null };
}

/** A lane as tall in print for each panel: a small panel gives a larger part of its scale. */
const laneShare = (shape: PanelShape) => 0.34 / shape.weight;

/** Half of a sign on a line, CSS px. Not a clinical number. */
const SIGN = 2.6;

type Dataset = ChartDataset<'line', { x: number; y: number }[]>;

/**
 * A line for the patient's readings and, apart from it, open markers for readings taken off the patient. Those stand in a
 * lane under the scale: a value that is the room's is given no height on the patient's scale.
 */
function linesOf(panel: Panel, chart: DressedChart): Dataset[] {
  const { series, inks } = chart;
  const perMinute = pixelsPerMinute(chart);
  return series
    .filter(({ measure }) => lineShapes[measure].panel === panel.name)
    .flatMap((line) => {
      const shape = lineShapes[line.measure];
      const drawn: Dataset[] = [
        {
          ...dressed(shape, inks),
          label: line.label,
          yAxisID: panel.name,
          pointRadius: signed(
            line.readings.map(({ minute, value, offPatient }) => ({
              x: minute * perMinute,
              isRead: value !== null && !offPatient,
            })),
          ).map((bears) => (bears ? SIGN : 0)),
          data: line.readings.map(({ minute, value, offPatient }) => ({
            x: minute,
            y: offPatient || value === null ? Number.NaN : value,
          })),
        },
      ];
      const off = line.readings.filter((r) => r.offPatient && r.value !== null);
      const open = signed(off.map(({ minute }) => ({ x: minute * perMinute, isRead: true })));
      if (panel.lane !== null && off.length > 0) {
        const lane = panel.lane + (panel.low - panel.lane) / 2;
        drawn.push({
          ...dressed(shape, inks),
          yAxisID: panel.name,
          showLine: false,
          pointBackgroundColor: inks.paper,
          pointBorderColor: inks.ink,
          pointRadius: 3.2,
          data: off.filter((_, index) => open[index]).map(({ minute }) => ({ x: minute, y: lane })),
        });
      }
      return drawn;
    });
}

function dressed(shape: LineShape, inks: Inks): Omit<Dataset, 'data'> {
  const colour = inks[shape.ink];
  return {
    borderColor: colour,
    borderWidth: shape.thick,
    borderDash: [...shape.dash],
    pointStyle: shape.marker,
    pointRotation: shape.turn,
    pointRadius: SIGN,
    pointBorderWidth: 1,
    pointBorderColor: colour,
    pointBackgroundColor: colour,
    spanGaps: false,
    tension: 0,
    clip: 6,
  };
}

const axisFont = { family, size: 10.5 };

type Scale = { [K in keyof ScaleOptionsByType<'linear'>]?: unknown };

function timeScale({ minutes, strings, inks }: DressedChart, number: Intl.NumberFormat): Scale {
  const step = minuteStep(minutes[1] - minutes[0]);
  return {
    type: 'linear',
    position: 'bottom',
    min: minutes[0],
    max: minutes[1],
    border: { color: inks.ink },
    grid: { color: inks.tint, tickColor: inks.ink, tickLength: 5 },
    // Whole steps counted from the start of anesthesia, also where readings begin before it.
    afterBuildTicks: (axis: { ticks: { value: number }[] }) => {
      axis.ticks = [];
      for (let value = Math.ceil(minutes[0] / step) * step; value <= minutes[1]; value += step) {
        axis.ticks.push({ value });
      }
    },
    ticks: {
      font: axisFont,
      color: inks.soft,
      maxRotation: 0,
      autoSkip: false,
      callback: (value: number) => number.format(value),
    },
    title: { display: true, text: strings.timeAxis, font: axisFont, color: inks.soft },
  };
}

const minuteStep = (span: number) => [5, 10, 15, 30, 60].find((step) => span / step <= 14) ?? 120;

function valueScale(panel: Panel, number: Intl.NumberFormat, inks: Inks): Scale {
  const { low, high, lane, shape } = panel;
  const sparse = (high - low) / shape.step > 3 ? 2 : 1;
  return {
    type: 'linear',
    position: 'left',
    stack: 'panels',
    stackWeight: shape.weight,
    min: lane ?? low,
    max: high,
    // The same width for every scale and every chart, so that the story above can be laid out before.
    afterFit: (axis: { width: number }) => {
      axis.width = axisRoom;
    },
    border: { color: inks.rule },
    grid: { color: inks.tint, tickLength: 4 },
    afterBuildTicks: (axis: { ticks: { value: number }[] }) => {
      axis.ticks = [];
      for (let value = low; value <= high; value += shape.step * sparse) axis.ticks.push({ value });
    },
    ticks: {
      font: axisFont,
      color: inks.soft,
      autoSkip: false,
      callback: (value: number) => number.format(value),
    },
  };
}

const blankScale: Scale = {
  type: 'linear',
  position: 'left',
  stack: 'panels',
  stackWeight: 0.9,
  min: 0,
  max: 1,
  afterFit: (axis: { width: number }) => {
    axis.width = axisRoom;
  },
  border: { display: false },
  grid: { display: false },
  ticks: { display: false },
};
