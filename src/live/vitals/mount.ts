import {
  Chart,
  type ChartConfiguration,
  LinearScale,
  LineController,
  LineElement,
  type Plugin,
  PointElement,
} from 'chart.js';
import { vitalsChart } from '../../draw/vitals/chart.js';
import type { LiveCase } from '../contract.js';
import type { Cursor } from '../cursor.js';
import { saying } from '../saying.js';
import { whenNear } from '../when-near.js';
import { minuteOf, momentAt } from './on-strip.js';
import { onSchemeChange, pageInks } from './page-inks.js';
import { minutesOf, nearest, readingAt } from './reading.js';

Chart.register(LineController, LineElement, PointElement, LinearScale);

/** Puts the live chart in the place of the printed one, at its size, with the values of one minute under it. */
export function mountVitals(page: LiveCase, cursor: Cursor): void {
  const figure = document.querySelector<HTMLElement>('figure[data-figure="vitals"]');
  if (figure) whenNear(figure, () => liveVitals(figure, page, cursor));
}

function liveVitals(
  figure: HTMLElement,
  { words, vitals, strips }: LiveCase,
  cursor: Cursor,
): void {
  const frame = figure.querySelector<HTMLElement>('.figure-frame');
  const printed = frame?.querySelector('svg');
  const minutes = minutesOf(vitals);
  if (!frame || !printed || minutes.length === 0) return;
  const say = saying(words);
  const self = {};
  const { canvas, reader, slider, spoken } = furniture(minutes, say('vitals.minute'));
  let marked: number | null = null;
  let chart: Chart | null = null;

  const draw = () => {
    // True size in mm is whole CSS pixels, but for the micrometre that it is written to.
    const [whole, height] = [printed.width, printed.height].map(({ baseVal }) =>
      Math.round(baseVal.value),
    ) as [number, number];
    const width = Math.min(whole, frame.clientWidth);
    chart?.destroy();
    canvas.width = width;
    canvas.height = height;
    const dressed = vitalsChart(vitals.chart, { width, inks: pageInks() });
    chart = new Chart(canvas, {
      ...dressed,
      options: { ...dressed.options, events: [], devicePixelRatio: devicePixelRatio || 1 },
      plugins: [...(dressed.plugins ?? []), mark(() => marked)],
    } as ChartConfiguration<'line'>);
  };

  /** Shows a minute: the line where it is, the values where they were read. */
  const show = (minute: number, aloud: boolean) => {
    marked = minute;
    const at = nearest(minutes, minute);
    slider.value = String(minutes.indexOf(at));
    const told = readingAt(vitals, at, say);
    slider.setAttribute('aria-valuetext', told.title);
    reader.replaceChildren(...paragraphs([told.title, ...told.notes], told.values));
    if (aloud) spoken.textContent = [told.title, ...told.values, ...told.notes].join('. ');
    chart?.draw();
  };
  const go = (minute: number, aloud: boolean) => {
    show(minute, aloud);
    cursor.move(momentAt(minute, strips), self);
  };
  const step = (by: number) => {
    const index = Number(slider.value) + by;
    go(minutes[Math.max(0, Math.min(minutes.length - 1, index))] as number, true);
  };

  const minuteUnder = (event: PointerEvent): number | null => {
    const scale = chart?.scales.x;
    if (!scale) return null;
    const x = event.clientX - canvas.getBoundingClientRect().left;
    return scale.getValueForPixel(Math.max(scale.left, Math.min(scale.right, x))) ?? null;
  };
  const follow = (event: PointerEvent) => {
    const minute = minuteUnder(event);
    if (minute !== null) go(nearest(minutes, minute), false);
  };
  canvas.addEventListener('pointermove', follow);
  canvas.addEventListener('pointerdown', follow);
  slider.addEventListener('input', () => go(minutes[Number(slider.value)] as number, true));
  frame.addEventListener('keydown', ({ key, target }) => {
    if (target !== frame) return;
    const steps: Record<string, number> = {
      ArrowLeft: -1,
      ArrowRight: 1,
      Home: Number.NEGATIVE_INFINITY,
      End: Number.POSITIVE_INFINITY,
    };
    if (key in steps) step(steps[key] as number);
  });
  cursor.follow((moment, by) => {
    const minute = by === self ? null : minuteOf(moment, strips);
    if (minute !== null) show(minute, false);
  });

  const held = `${frame.offsetHeight}px`;
  figure.classList.add('live');
  frame.style.height = held;
  // In a box of its own, as the library writes on the canvas itself how it is displayed.
  const box = document.createElement('div');
  box.className = 'vitals-canvas';
  box.append(canvas);
  frame.prepend(box);
  const panel = document.createElement('div');
  panel.className = 'vitals-reader';
  const [how] = paragraphs([say('vitals.help')], []) as [HTMLElement];
  panel.append(how, slider.parentElement as HTMLElement, reader, spoken);
  figure.append(panel);
  draw();
  // What the first minute showed: an empty box would not tell what stands in it.
  show(minutes[0] as number, false);
  if (document.fonts.status !== 'loaded') document.fonts.ready.then(draw);
  onSchemeChange(draw);
  let drawnAt = frame.clientWidth;
  new ResizeObserver(() => {
    if (frame.clientWidth === drawnAt) return;
    drawnAt = frame.clientWidth;
    draw();
  }).observe(frame);
}

/** What stands in and under the figure: the drawing, a slider over the minutes, the values, and what is read aloud. */
function furniture(minutes: readonly number[], name: string) {
  const canvas = document.createElement('canvas');
  // The frame is named by the figure in words, and the values are told below.
  canvas.setAttribute('aria-hidden', 'true');
  const label = document.createElement('label');
  const slider = document.createElement('input');
  slider.type = 'range';
  slider.min = '0';
  slider.max = String(minutes.length - 1);
  slider.step = '1';
  slider.value = '0';
  label.append(`${name} `, slider);
  const reader = document.createElement('div');
  reader.className = 'vitals-values';
  const spoken = document.createElement('p');
  spoken.className = 'unseen';
  spoken.setAttribute('role', 'status');
  return { canvas, reader, slider, spoken };
}

function paragraphs(lines: readonly string[], values: readonly string[]): HTMLElement[] {
  const text = lines.map((line, index) => {
    const paragraph = document.createElement('p');
    if (index === 0 && values.length > 0) paragraph.className = 'vitals-minute';
    paragraph.textContent = line;
    return paragraph;
  });
  if (values.length === 0) return text;
  const list = document.createElement('ul');
  list.append(
    ...values.map((value) => {
      const item = document.createElement('li');
      item.textContent = value;
      return item;
    }),
  );
  const [first, ...others] = text;
  return [...(first ? [first] : []), list, ...others];
}

/** A line over all panels at the minute that is looked at. */
function mark(minute: () => number | null): Plugin<'line'> {
  return {
    id: 'looked-at',
    afterDatasetsDraw({ ctx, chartArea, scales }) {
      const at = minute();
      if (at === null || !scales.x) return;
      const x = scales.x.getPixelForValue(at);
      ctx.save();
      ctx.strokeStyle = pageInks().ink;
      ctx.lineWidth = 1.6;
      ctx.beginPath();
      ctx.moveTo(x, chartArea.top);
      ctx.lineTo(x, chartArea.bottom);
      ctx.stroke();
      ctx.restore();
    },
  };
}
