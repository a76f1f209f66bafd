import type { Chart } from 'chart.js';
import { family } from '../inks.js';
import { textWidth } from '../text-width.js';
import type { ChartEvent, ChartPhase, DressedChart } from './chart-data.js';

/** The mark of one event above the panels, or of some that stand close, in CSS px. */
export interface Flag {
  /** Number of the event in the list; of several the first and the last, such as `4–9`. */
  readonly number: string;
  /** Its name; empty where none is written. */
  readonly name: string;
  /** Of the first of them, since the start of anesthesia. */
  readonly minute: number;
  /** Where its line stands. */
  readonly x: number;
  /** Where its disc begins. */
  readonly left: number;
  /** How wide its disc is. */
  readonly disc: number;
  /** Counted from the top. */
  readonly row: number;
}

const rowHeight = 15;
const disc = 6.5;
const nameSize = 10;
const numberSize = 9;
const barHeight = 14;
/** Stretches that are urgent lie under the bar, so that neither hides the other's name. */
const urgentHeight = 10;
/** Between the last flag and the bar, and between the bar and the panels. */
const gap = 4;
/** Narrower charts carry the numbers alone: their names would take more room than the readings. */
const narrow = 480;
/** More rows of flags leave the panels no room on the page: then events that stand close share a flag. */
const mostRows = 9;

/**
 * Flags from left to right, each below those that still reach over its line, so that no line runs through a name.
 * @param xOf place of a minute, CSS px
 */
export function flagsOf(
  events: readonly ChartEvent[],
  xOf: (minute: number) => number,
  width: number,
): Flag[] {
  const inOrder = events
    .map((event) => ({ ...event, x: xOf(event.minute) }))
    .sort((a, b) => a.minute - b.minute);
  let reach = 0;
  let flags = placed(
    inOrder.map((event) => [event]),
    width,
  );
  while (rowsOf(flags) > mostRows && reach < width) {
    reach += 2 * disc;
    flags = placed(bundled(inOrder, reach), width);
  }
  return flags;
}

type Standing = ChartEvent & { readonly x: number };
type Bundle = readonly [Standing, ...Standing[]];

/** Events no farther than so many CSS px from the first of their bundle. */
function bundled(events: readonly Standing[], reach: number): Bundle[] {
  const bundles: [Standing, ...Standing[]][] = [];
  for (const event of events) {
    const last = bundles.at(-1);
    if (last && event.x - last[0].x <= reach) last.push(event);
    else bundles.push([event]);
  }
  return bundles;
}

function placed(bundles: readonly Bundle[], width: number): Flag[] {
  const out: (Flag & { readonly right: number })[] = [];
  for (const bundle of bundles) {
    const [{ x, minute, label, number: first }] = bundle;
    const isOne = bundle.length === 1;
    const number = isOne ? `${first}` : `${first}–${bundle.at(-1)?.number}`;
    const name = isOne && width >= narrow ? label : '';
    const round = isOne ? 2 * disc : textWidth(number, numberSize) * 1.06 + disc;
    const wide = round + (name === '' ? 0 : 4 + textWidth(name, nameSize));
    const left = Math.max(0, Math.min(x - disc, width - wide - 1));
    const over = out.filter(({ right }) => right + 3 > left);
    // Below those whose name its line would run through, and beside none.
    let row = Math.max(-1, ...over.filter(({ right }) => right + 2 > x).map((one) => one.row)) + 1;
    while (over.some((one) => one.row === row)) row++;
    out.push({ number, name, minute, x, left, disc: round, row, right: left + wide });
  }
  return out.map(({ right: _, ...flag }) => flag);
}

const rowsOf = (flags: readonly Flag[]): number => Math.max(-1, ...flags.map(({ row }) => row)) + 1;

/** What the story takes above the panels, in CSS px; the panels' own titles need the last of it. */
export function storyHeight(flags: readonly Flag[], phases: readonly ChartPhase[]): number {
  const rows = rowsOf(flags);
  const bar = phases.length > 0 ? barHeight + gap : 0;
  return (
    rows * rowHeight + gap + bar + (phases.some(({ urgent }) => urgent) ? urgentHeight + gap : 0)
  );
}

/** Above the panels: what happened, each with its line, and the stretches of the operation as one bar. */
export function drawStory(chart: Chart, dressed: DressedChart): void {
  const { ctx, chartArea } = chart;
  const { flags, phases, inks } = dressed;
  const rows = rowsOf(flags);
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
  for (const flag of flags) drawFlag(ctx, flag, inks);
  ctx.restore();
}

function drawFlag(
  ctx: Chart['ctx'],
  { number, name, x, left, disc: wide, row }: Flag,
  inks: DressedChart['inks'],
): void {
  const y = row * rowHeight + disc + 0.5;
  const first = left + disc;
  const last = left + wide - disc;
  if (first !== x) {
    ctx.strokeStyle = inks.soft;
    ctx.beginPath();
    ctx.moveTo(first, y);
    ctx.lineTo(x, y + disc);
    ctx.stroke();
  }
  ctx.fillStyle = inks.paper;
  ctx.strokeStyle = inks.ink;
  ctx.lineWidth = 0.8;
  if (last > first) {
    ctx.fillRect(left, y - disc, wide, 2 * disc);
    ctx.strokeRect(left, y - disc, wide, 2 * disc);
  } else {
    ctx.beginPath();
    ctx.arc(first, y, disc, 0, 2 * Math.PI);
    ctx.fill();
    ctx.stroke();
  }
  ctx.fillStyle = inks.ink;
  write(ctx, number, left + wide / 2, y + 0.5, { size: numberSize, bold: true, align: 'center' });
  if (name !== '') write(ctx, name, left + wide + 4, y + 0.5, { size: nameSize, align: 'left' });
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
