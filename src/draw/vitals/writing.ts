import type { Chart, Plugin } from 'chart.js';
import { family, type Inks } from '../inks.js';
import {
  type ChartEpisode,
  type DressedChart,
  offPatientLabels,
  type Panel,
} from './chart-data.js';
import { lineShapes } from './panels.js';
import { drawStory } from './story.js';

const font = (size: number, bold = false) => `${bold ? '700 ' : ''}${size}px "${family}"`;

/** What chart.js does not draw by itself: panel titles, episodes, event lines, and a label at the end of each line. */
export function chartWriting(chart: DressedChart, panels: readonly Panel[]): Plugin<'line'> {
  return {
    id: 'chart-writing',
    beforeDatasetsDraw(drawn) {
      for (const panel of panels)
        writeTitle(drawn, panel, chart.strings.panels[panel.name], chart.inks);
      const shown = chart.episodes.filter(({ panel }) => panels.some((p) => p.name === panel));
      for (const episode of shown) shade(drawn, episode, chart.inks);
      drawEventLines(drawn, chart, panels);
      drawStory(drawn, chart);
      // Episodes of one panel are told alike.
      const told = new Map(shown.map((episode) => [episode.panel, episode]));
      for (const episode of told.values()) {
        labelEpisode(drawn, episode, chart.strings.panels[episode.panel], chart.inks);
      }
    },
    afterDatasetsDraw(drawn) {
      for (const panel of panels) {
        labelOffPatient(drawn, panel, chart);
        labelLineEnds(drawn, panel, chart);
      }
    },
  };
}

function scaleOf(chart: Chart, name: string) {
  const scale = chart.scales[name];
  if (!scale) throw new Error(`the chart has no axis ${name}`);
  return scale;
}

function writeTitle(chart: Chart, panel: Panel, title: string, inks: Inks): void {
  const { ctx, chartArea } = chart;
  const axis = scaleOf(chart, panel.name);
  ctx.save();
  ctx.font = font(11.5, true);
  ctx.fillStyle = inks.ink;
  ctx.textAlign = 'left';
  ctx.textBaseline = 'alphabetic';
  ctx.fillText(title, chartArea.left, axis.top - 5);
  ctx.restore();
}

function shade(chart: Chart, episode: ChartEpisode, inks: Inks): void {
  const { ctx } = chart;
  const { top, bottom } = scaleOf(chart, episode.panel);
  const time = scaleOf(chart, 'x');
  const [left, right] = [episode.from, episode.to].map((at) => time.getPixelForValue(at)) as [
    number,
    number,
  ];
  const [first, last] = episode.around.map((at) => time.getPixelForValue(at)) as [number, number];
  ctx.save();
  ctx.fillStyle = inks.shade;
  ctx.fillRect(left, top, right - left, bottom - top);
  hatched(ctx, { left: first, right: left, top, bottom }, inks);
  hatched(ctx, { left: right, right: last, top, bottom }, inks);
  ctx.strokeStyle = inks.soft;
  ctx.lineWidth = 0.8;
  for (const x of new Set([left, right])) line(ctx, x, top, bottom);
  ctx.restore();
}

interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Between the lines of a hatching, CSS px. */
const hatchStep = 6;

/** Lines that rise to the right across a box, cut at its edges. */
function hatched(ctx: Chart['ctx'], { left, right, top, bottom }: Box, inks: Inks): void {
  const [wide, tall] = [right - left, bottom - top];
  if (wide <= 0) return;
  ctx.strokeStyle = inks.rule;
  ctx.lineWidth = 0.8;
  for (let along = hatchStep; along < wide + tall; along += hatchStep) {
    const from = Math.max(0, along - tall);
    const to = Math.min(wide, along);
    ctx.beginPath();
    ctx.moveTo(left + from, top + along - from);
    ctx.lineTo(left + to, top + along - to);
    ctx.stroke();
  }
}

/** Width and height of a sample of shading or hatching, CSS px. */
const sample = { wide: 14, tall: 9 } as const;

/** What shading and hatching mean, on the line of the panel's title, where no line of the chart runs. */
function labelEpisode(
  chart: Chart,
  { panel, label, aroundLabel }: ChartEpisode,
  title: string,
  inks: Inks,
): void {
  const { ctx, chartArea } = chart;
  const base = scaleOf(chart, panel).top - 5;
  ctx.save();
  ctx.font = font(11.5, true);
  const taken = chartArea.left + ctx.measureText(title).width;
  ctx.font = font(10);
  ctx.textAlign = 'left';
  ctx.textBaseline = 'alphabetic';
  const widthOf = (text: string) => sample.wide + 4 + ctx.measureText(text).width;
  let x = Math.max(taken + 12, chartArea.right - widthOf(label) - 12 - widthOf(aroundLabel));
  for (const [text, isHatched] of [
    [label, false],
    [aroundLabel, true],
  ] as const) {
    // Where the chart is too narrow the caption alone explains the hatching.
    if (x + widthOf(text) > chart.width) break;
    const box = { left: x, right: x + sample.wide, top: base - sample.tall, bottom: base };
    if (isHatched) hatched(ctx, box, inks);
    else {
      ctx.fillStyle = inks.shade;
      ctx.fillRect(box.left, box.top, sample.wide, sample.tall);
    }
    ctx.strokeStyle = inks.soft;
    ctx.lineWidth = 0.8;
    ctx.strokeRect(box.left, box.top, sample.wide, sample.tall);
    ctx.fillStyle = inks.ink;
    ctx.fillText(text, x + sample.wide + 4, base);
    x += widthOf(text) + 12;
  }
  ctx.restore();
}

function line(ctx: Chart['ctx'], x: number, top: number, bottom: number): void {
  ctx.beginPath();
  ctx.moveTo(x, top);
  ctx.lineTo(x, bottom);
  ctx.stroke();
}

/** A dashed line at each event, only inside the panels, so that none runs through a title. */
function drawEventLines(
  chart: Chart,
  { flags, inks }: DressedChart,
  panels: readonly Panel[],
): void {
  const { ctx } = chart;
  const time = scaleOf(chart, 'x');
  ctx.save();
  ctx.strokeStyle = inks.soft;
  ctx.lineWidth = 0.8;
  ctx.setLineDash([2, 2.5]);
  for (const { minute } of flags) {
    const x = time.getPixelForValue(minute);
    for (const panel of panels) {
      const axis = scaleOf(chart, panel.name);
      line(ctx, x, axis.top, axis.bottom);
    }
  }
  ctx.restore();
}

/** Rules the lane off, and says at the right, beside the lines' own labels, whose readings stand in it. */
function labelOffPatient(
  chart: Chart,
  panel: Panel,
  { series, strings, inks }: DressedChart,
): void {
  if (panel.lane === null) return;
  const { ctx, chartArea } = chart;
  const axis = scaleOf(chart, panel.name);
  ctx.save();
  ctx.strokeStyle = inks.rule;
  ctx.lineWidth = 0.8;
  const floor = axis.getPixelForValue(panel.low);
  ctx.beginPath();
  ctx.moveTo(chartArea.left, floor);
  ctx.lineTo(chartArea.right, floor);
  ctx.stroke();
  const x = chartArea.right + 12;
  ctx.textAlign = 'left';
  ctx.textBaseline = 'alphabetic';
  ctx.fillStyle = inks.ink;
  ctx.font = font(10);
  ctx.fillText(
    `${offPatientLabels(panel.name, series).join(', ')}:`,
    x,
    axis.bottom - laneLabelHeight + 9,
  );
  ctx.fillText(strings.offPatient, x, axis.bottom - laneLabelHeight + 20);
  ctx.restore();
}

const labelHeight = 13;
/** Two lines that end a little under the lane. */
const laneLabelHeight = 20;

function labelLineEnds(chart: Chart, panel: Panel, { series, inks }: DressedChart): void {
  const { ctx, chartArea } = chart;
  const axis = scaleOf(chart, panel.name);
  const time = scaleOf(chart, 'x');
  const labels = series
    .filter(({ measure }) => lineShapes[measure].panel === panel.name)
    .flatMap((line) => {
      const end = line.readings.findLast((r) => r.value !== null && !r.offPatient);
      if (!end || end.value === null) return [];
      const y = axis.getPixelForValue(end.value);
      const x = time.getPixelForValue(end.minute);
      return [{ text: line.label, x, y, at: y, colour: inks[lineShapes[line.measure].ink] }];
    })
    .sort((a, b) => a.y - b.y);
  const foot = axis.bottom - (panel.lane === null ? 0 : laneLabelHeight);
  spread(labels, axis.top + labelHeight / 2, foot - labelHeight / 2);
  ctx.save();
  ctx.font = font(11, true);
  ctx.textAlign = 'left';
  ctx.textBaseline = 'middle';
  for (const { text, x, y, at, colour } of labels) {
    ctx.strokeStyle = inks.rule;
    ctx.lineWidth = 0.8;
    ctx.beginPath();
    ctx.moveTo(x + 5, y);
    ctx.lineTo(chartArea.right + 4, at);
    ctx.lineTo(chartArea.right + 9, at);
    ctx.stroke();
    ctx.fillStyle = colour;
    ctx.fillText(text, chartArea.right + 12, at + 0.5);
  }
  ctx.restore();
}

/** Moves labels apart from top to bottom, then back up where they ran past the foot. */
function spread(labels: { at: number }[], top: number, bottom: number): void {
  let free = top;
  for (const label of labels) {
    label.at = Math.max(label.at, free);
    free = label.at + labelHeight;
  }
  let limit = bottom;
  for (const label of labels.toReversed()) {
    label.at = Math.min(label.at, limit);
    limit = label.at - labelHeight;
  }
}
