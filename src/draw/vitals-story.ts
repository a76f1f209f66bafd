import type { Chart } from 'chart.js';
import { family } from './inks.js';
import { textWidth } from './text-width.js';
import type { ChartEvent, ChartPhase, DressedChart } from './vitals-chart-data.js';

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
export function storyHeight(flags: readonly Flag[], hasPhases: boolean): number {
  const rows = flags.length === 0 ? 0 : Math.max(...flags.map(({ row }) => row)) + 1;
  return rows * rowHeight + gap + (hasPhases ? barHeight + gap : 0);
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
  for (const phase of phases) drawPhase(chart, phase, barTop, dressed);
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

/** A stretch of the bar: outlined, or solid where it is urgent, with its name where that fits beside the urgent ones. */
function drawPhase(
  chart: Chart,
  phase: ChartPhase,
  top: number,
  { inks, phases }: DressedChart,
): void {
  const { ctx } = chart;
  const time = chart.scales.x;
  if (!time) return;
  const x = (minute: number) => time.getPixelForValue(minute);
  const left = x(phase.from);
  const width = x(phase.to) - left;
  ctx.fillStyle = phase.urgent ? inks.ink : inks.tint;
  ctx.strokeStyle = inks.ink;
  ctx.lineWidth = 0.8;
  ctx.fillRect(left, top, width, barHeight);
  ctx.strokeRect(left, top, width, barHeight);
  const [from, to] = phase.urgent ? [phase.from, phase.to] : clearPart(phase, phases);
  if (textWidth(phase.label, nameSize) + 4 > x(to) - x(from)) return;
  ctx.fillStyle = phase.urgent ? inks.paper : inks.ink;
  write(ctx, phase.label, (x(from) + x(to)) / 2, top + barHeight / 2 + 0.5, {
    size: nameSize,
    align: 'center',
  });
}

/** The longest part of a phase that no urgent one covers, in minutes. */
function clearPart({ from, to }: ChartPhase, phases: readonly ChartPhase[]): [number, number] {
  const over = phases.filter((one) => one.urgent && one.from < to && one.to > from);
  const edges = [from, ...over.flatMap((one) => [one.from, one.to]), to].sort((a, b) => a - b);
  return edges
    .slice(1)
    .map((end, index): [number, number] => [edges[index] as number, end])
    .filter(([begin, end]) => !over.some((one) => one.from <= begin && one.to >= end))
    .reduce(
      (longest, one) => (one[1] - one[0] > longest[1] - longest[0] ? one : longest),
      [from, from],
    );
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
