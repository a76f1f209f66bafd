import type { SKRSContext2D } from '@napi-rs/canvas';
import type { Chart, Plugin } from 'chart.js';
import { family, inks } from './inks.js';
import {
  type ChartEpisode,
  offPatientLabels,
  type Panel,
  type VitalsChart,
} from './vitals-chart.js';
import { lineShapes } from './vitals-panels.js';

const font = (size: number, bold = false) => `${bold ? '700 ' : ''}${size}px "${family}"`;

/** What chart.js does not draw by itself: panel titles, episodes, event lines, and a label at the end of each line. */
export function chartWriting(chart: VitalsChart, panels: readonly Panel[]): Plugin<'line'> {
  return {
    id: 'chart-writing',
    beforeDatasetsDraw(drawn) {
      for (const panel of panels) writeTitle(drawn, panel, chart.strings.panels[panel.name]);
      const shown = chart.episodes.filter(({ panel }) => panels.some((p) => p.name === panel));
      for (const episode of shown) shade(drawn, episode);
      drawEventLines(drawn, chart, panels);
      for (const episode of shown) labelEpisode(drawn, episode);
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

function writeTitle(chart: Chart, panel: Panel, title: string): void {
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

const shading = '#e6e1da';

function shade(chart: Chart, episode: ChartEpisode): void {
  const { ctx } = chart;
  const axis = scaleOf(chart, episode.panel);
  const time = scaleOf(chart, 'x');
  const left = time.getPixelForValue(episode.from);
  const right = time.getPixelForValue(episode.to);
  ctx.save();
  ctx.fillStyle = shading;
  ctx.fillRect(left, axis.top, right - left, axis.bottom - axis.top);
  ctx.strokeStyle = inks.soft;
  ctx.lineWidth = 0.8;
  for (const x of [left, right]) line(ctx, x, axis.top, axis.bottom);
  ctx.restore();
}

function labelEpisode(chart: Chart, episode: ChartEpisode): void {
  const { ctx } = chart;
  const axis = scaleOf(chart, episode.panel);
  const left = scaleOf(chart, 'x').getPixelForValue(episode.from);
  ctx.save();
  ctx.font = font(10);
  const width = ctx.measureText(episode.label).width;
  // A label wider than its stretch starts at the stretch and stays on the paper.
  const x = Math.min(left + 4, chart.chartArea.right - width - 2);
  ctx.fillStyle = shading;
  ctx.fillRect(x - 2, axis.top + 2, width + 4, 12);
  ctx.fillStyle = inks.ink;
  ctx.textAlign = 'left';
  ctx.textBaseline = 'top';
  ctx.fillText(episode.label, x, axis.top + 3);
  ctx.restore();
}

function line(ctx: SKRSContext2D, x: number, top: number, bottom: number): void {
  ctx.beginPath();
  ctx.moveTo(x, top);
  ctx.lineTo(x, bottom);
  ctx.stroke();
}

const disc = 7;

function drawEventLines(chart: Chart, { events }: VitalsChart, panels: readonly Panel[]): void {
  const { ctx, chartArea } = chart;
  const time = scaleOf(chart, 'x');
  ctx.save();
  ctx.font = font(9.5, true);
  ctx.textAlign = 'center';
  ctx.textBaseline = 'middle';
  let free = Number.NEGATIVE_INFINITY;
  for (const event of [...events].sort((a, b) => a.minute - b.minute)) {
    const x = time.getPixelForValue(event.minute);
    // Events close in time: the number moves right and a slanted foot leads to its line.
    const at = Math.max(x, free + 2 * disc + 2);
    free = at;
    const y = chartArea.top - disc - 3;
    ctx.strokeStyle = inks.soft;
    ctx.lineWidth = 0.8;
    ctx.setLineDash([2, 2.5]);
    // Only inside the panels, so that no line runs through a title.
    for (const panel of panels) {
      const axis = scaleOf(chart, panel.name);
      line(ctx, x, axis.top, axis.bottom);
    }
    ctx.setLineDash([]);
    ctx.beginPath();
    ctx.moveTo(at, y + disc);
    ctx.lineTo(x, chartArea.top + 5);
    ctx.stroke();
    ctx.beginPath();
    ctx.arc(at, y, disc, 0, 2 * Math.PI);
    ctx.fillStyle = inks.paper;
    ctx.fill();
    ctx.strokeStyle = inks.ink;
    ctx.stroke();
    ctx.fillStyle = inks.ink;
    ctx.fillText(String(event.number), at, y + 0.5);
  }
  ctx.restore();
}

/** Rules the lane off, and says at the right, beside the lines' own labels, whose readings stand in it. */
function labelOffPatient(chart: Chart, panel: Panel, { series, strings }: VitalsChart): void {
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

function labelLineEnds(chart: Chart, panel: Panel, { series }: VitalsChart): void {
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
      return [{ text: line.label, x, y, at: y, colour: lineShapes[line.measure].colour }];
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
