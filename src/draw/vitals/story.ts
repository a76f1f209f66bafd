import type { Chart } from 'chart.js';
import { family } from '../inks.js';
import { textWidth } from '../text-width.js';
import type { ChartEvent, ChartPhase, DressedChart } from './chart-data.js';

/** The mark of one event above the panels, in CSS px. */
export interface Flag {
  readonly event: ChartEvent;
  /** Where its line stands. */
  readonly x: number;
  /** Where its disc begins. */
  readonly left: number;
  /** Counted from the top. */
  readonly row: number;
  /** Whether its name is written. */
  readonly named: boolean;
}

const rowHeight = 15;
const disc = 6.5;
const nameSize = 10;
const barHeight = 14;
/** Stretches that are urgent lie under the bar, so that neither hides the other's name. */
const urgentHeight = 10;
/** Between the last flag and the bar, and between the bar and the panels. */
const gap = 4;
/** Narrower charts carry the numbers alone: their names would take more room than the readings. */
const narrow = 480;

/**
 * Flags from left to right, each below those that still reach over its line, so that no line runs through a name.
 * @param xOf place of a minute, CSS px
 */
export function flagsOf(
  events: readonly ChartEvent[],
  xOf: (minute: number) => number,
  width: number,
): Flag[] {
  const placed: (Flag & { readonly right: number })[] = [];
  for (const event of [...events].sort((a, b) => a.minute - b.minute)) {
    const named = width >= narrow && event.label !== '';
    const wide = 2 * disc + (named ? 4 + textWidth(event.label, nameSize) : 0);
    const x = xOf(event.minute);
    const left = Math.max(0, Math.min(x - disc, width - wide - 1));
    const over = placed.filter(({ right }) => right + 3 > left).map(({ row }) => row);
    const row = over.length === 0 ? 0 : Math.max(...over) + 1;
    placed.push({ event, x, left, row, named, right: left + wide });
  }
  return placed.map(({ right: _, ...flag }) => flag);
}

/** What the story takes above the panels, in CSS px; the panels' own titles need the last of it. */
export function storyHeight(flags: readonly Flag[], phases: readonly ChartPhase[]): number {
  const rows = flags.length === 0 ? 0 : Math.max(...flags.map(({ row }) => row)) + 1;
  const bar = phases.length > 0 ? barHeight + gap : 0;
  return (
    rows * rowHeight + gap + bar + (phases.some(({ urgent }) => urgent) ? urgentHeight + gap : 0)
  );
}

/** Above the panels: what happened, each with its line, and the stretches of the operation as one bar. */
export function drawStory(chart: Chart, dressed: DressedChart): void {
  const { ctx, chartArea } = chart;
  const { flags, phases, inks } = dressed;
  const rows = flags.length === 0 ? 0 : Math.max(...flags.map(({ row }) => row)) + 1;
  const barTop = rows * rowHeight + gap;
  ctx.save();
  ctx.textBaseline = 'middle';
  for (const { x, row } of flags) {
    ctx.strokeStyle = inks.soft;
    ctx.lineWidth = 0.8;
    ctx.beginPath();
    ctx.moveTo(x, row * rowHeight + 2 * disc);
    ctx.lineTo(x, chartArea.top + 2);
    ctx.stroke();
  }
  for (const phase of phases) {
    if (phase.urgent) drawUrgent(chart, phase, barTop + barHeight + 2, dressed);
    else drawPhase(chart, phase, barTop, dressed);
  }
  for (const { event, x, left, row, named } of flags) {
    const y = row * rowHeight + disc + 0.5;
    const centre = left + disc;
    if (centre !== x) {
      ctx.strokeStyle = inks.soft;
      ctx.beginPath();
      ctx.moveTo(centre, y);
      ctx.lineTo(x, y + disc);
      ctx.stroke();
    }
    ctx.fillStyle = inks.paper;
    ctx.strokeStyle = inks.ink;
    ctx.lineWidth = 0.8;
    ctx.beginPath();
    ctx.arc(centre, y, disc, 0, 2 * Math.PI);
    ctx.fill();
    ctx.stroke();
    ctx.fillStyle = inks.ink;
    write(ctx, String(event.number), centre, y + 0.5, { size: 9, bold: true, align: 'center' });
    if (named) {
      write(ctx, event.label, centre + disc + 4, y + 0.5, { size: nameSize, align: 'left' });
    }
  }
  ctx.restore();
}

/** A stretch of the bar, outlined, with its name where that fits. */
function drawPhase(chart: Chart, phase: ChartPhase, top: number, { inks }: DressedChart): void {
  const { ctx } = chart;
  const { left, width } = across(chart, phase);
  ctx.fillStyle = inks.tint;
  ctx.strokeStyle = inks.ink;
  ctx.lineWidth = 0.8;
  ctx.fillRect(left, top, width, barHeight);
  ctx.strokeRect(left, top, width, barHeight);
  if (textWidth(phase.label, nameSize) + 4 > width) return;
  ctx.fillStyle = inks.ink;
  write(ctx, phase.label, left + width / 2, top + barHeight / 2 + 0.5, {
    size: nameSize,
    align: 'center',
  });
}

/** An urgent stretch, solid under the bar, and its name beside it whatever its length, on paper that no line runs through. */
function drawUrgent(chart: Chart, phase: ChartPhase, top: number, { inks }: DressedChart): void {
  const { ctx } = chart;
  const { left, width } = across(chart, phase);
  ctx.fillStyle = inks.ink;
  ctx.fillRect(left, top, width, urgentHeight);
  const wide = textWidth(phase.label, nameSize) * 1.06;
  const fits = left + width + 4 + wide <= chart.width;
  const x = fits ? left + width + 4 : left - 4 - wide;
  ctx.fillStyle = inks.paper;
  ctx.fillRect(x - 1.5, top - 0.5, wide + 3, urgentHeight + 1);
  ctx.fillStyle = inks.ink;
  write(ctx, phase.label, x, top + urgentHeight / 2 + 0.5, {
    size: nameSize,
    align: 'left',
    bold: true,
  });
}

function across(chart: Chart, { from, to }: ChartPhase) {
  const time = chart.scales.x;
  if (!time) throw new Error('the chart has no axis of time');
  const left = time.getPixelForValue(from);
  return { left, width: time.getPixelForValue(to) - left };
}

interface Lettering {
  readonly size: number;
  readonly align: 'left' | 'center';
  readonly bold?: boolean;
}

function write(ctx: Chart['ctx'], words: string, x: number, y: number, how: Lettering): void {
  ctx.font = `${how.bold ? '700 ' : ''}${how.size}px "${family}"`;
  ctx.textAlign = how.align;
  ctx.fillText(words, x, y);
}
