import { paintSign } from './beat-signs.js';
import { lineOf, type Points } from './pyramid.js';
import type { RhythmStretch, Scene, Stretch } from './scene.js';
import { endOf, pixelsPerMillimetre, pixelsPerSecond, xOf, yOf } from './view.js';

// CSS pixels and shares of them: not clinical numbers.

/** Below this many CSS pixels a millimetre its lines are left out, as they would grey the paper. */
const FINE_LINES_FROM = 2.4;
const LETTER = 13;
const SMALL = 12;

/** Paints the strip: what is known of it above and below, its paper and trace between. */
export function paint(context: CanvasRenderingContext2D, scene: Scene): void {
  const { view, rooms, inks, density } = scene;
  context.setTransform(density, 0, 0, density, 0, 0);
  context.fillStyle = inks.paper;
  context.fillRect(0, 0, view.width, rooms.bottom);
  context.lineJoin = 'round';
  context.lineCap = 'butt';
  onPaper(context, scene, () => {
    chosenBeat(context, scene);
    grid(context, scene);
    trace(context, scene);
    hatching(context, scene);
  });
  rhythms(context, scene);
  events(context, scene);
  signs(context, scene);
  letters(context, scene);
  seconds(context, scene);
  scaleSign(context, scene);
  pointed(context, scene);
  calipers(context, scene);
}

/** Paints on the paper alone, moved so that mV stand where `yOf` says. */
function onPaper(context: CanvasRenderingContext2D, { view, rooms }: Scene, draw: () => void) {
  context.save();
  context.beginPath();
  context.rect(0, rooms.paper, view.width, view.height);
  context.clip();
  context.translate(0, rooms.paper);
  draw();
  context.restore();
}

const sees = ({ view }: Scene, from: number, to: number): boolean =>
  to >= view.from && from <= endOf(view);

function grid(context: CanvasRenderingContext2D, scene: Scene): void {
  const { view, inks, density } = scene;
  const millimetre = pixelsPerMillimetre(view);
  const left = Math.max(0, xOf(view, 0));
  const right = Math.min(view.width, xOf(view, view.sheet.duration));
  const crisp = (at: number) => (Math.round(at * density) + 0.5) / density;
  const lines = (every: number, colour: string, width: number) => {
    context.beginPath();
    const step = every * millimetre;
    const origin = xOf(view, 0);
    for (let n = Math.ceil((left - origin) / step - 1e-6); origin + n * step <= right; n++) {
      const x = crisp(origin + n * step);
      context.moveTo(x, 0);
      context.lineTo(x, view.height);
    }
    const zero = yOf(view, 0);
    for (let n = Math.ceil(-zero / step - 1e-6); zero + n * step <= view.height; n++) {
      const y = crisp(zero + n * step);
      context.moveTo(left, y);
      context.lineTo(right, y);
    }
    context.strokeStyle = colour;
    context.lineWidth = width;
    context.stroke();
  };
  if (millimetre >= FINE_LINES_FROM) lines(1, inks.fine, 1 / density);
  lines(5, inks.bold, millimetre >= FINE_LINES_FROM ? 1.2 : 1 / density);
}

function chosenBeat(context: CanvasRenderingContext2D, scene: Scene): void {
  const { known, chosen, view, inks } = scene;
  const beat = chosen === null ? undefined : known.beats[chosen];
  if (!beat) return;
  const from = xOf(view, beat.p?.onset ?? beat.qrs?.onset ?? beat.time) - 5;
  const to = xOf(view, beat.t?.end ?? beat.qrs?.end ?? beat.time) + 5;
  context.fillStyle = inks.wash;
  context.fillRect(from, 0, to - from, view.height);
}

function trace(context: CanvasRenderingContext2D, scene: Scene): void {
  const { view, pyramid, inks, known, density } = scene;
  const line = pathOf(lineOf(pyramid, view.from, endOf(view), view.width * density), scene);
  const hidden = known.unreadable.filter(({ from, to }) => sees(scene, from, to));
  context.lineWidth = 1.4;
  context.strokeStyle = inks.trace;
  if (hidden.length === 0) {
    context.stroke(line);
    return;
  }
  const stretches = new Path2D();
  for (const { from, to } of hidden) {
    stretches.rect(xOf(view, from), -1, (to - from) * pixelsPerSecond(view), view.height + 2);
  }
  const others = new Path2D(stretches);
  others.rect(-1, -1, view.width + 2, view.height + 2);
  const strokeIn = (where: Path2D, colour: string) => {
    context.save();
    context.clip(where, 'evenodd');
    context.strokeStyle = colour;
    context.stroke(line);
    context.restore();
  };
  strokeIn(others, inks.trace);
  // What nothing is claimed of stays to be seen, so that a learner sees why.
  strokeIn(stretches, inks.faint);
}

function pathOf(points: Points, { view }: Scene): Path2D {
  const path = new Path2D();
  let isBroken = true;
  for (let place = 0; place < points.length; place += 2) {
    const millivolt = points[place + 1] as number;
    if (Number.isNaN(millivolt)) {
      isBroken = true;
      continue;
    }
    const x = xOf(view, points[place] as number);
    const y = yOf(view, millivolt);
    if (isBroken) path.moveTo(x, y);
    else path.lineTo(x, y);
    isBroken = false;
  }
  return path;
}

function hatching(context: CanvasRenderingContext2D, scene: Scene): void {
  const { view, known, inks } = scene;
  for (const { from, to, words } of known.unreadable) {
    if (!sees(scene, from, to)) continue;
    const left = Math.max(-1, xOf(view, from));
    const right = Math.min(view.width + 1, xOf(view, to));
    hatch(context, left, 0, right, view.height, inks.faint);
    const lines = wrapped(context, words, right - left - 20, font(scene, LETTER));
    if (!lines) continue;
    const widest = Math.max(...lines.map((line) => context.measureText(line).width));
    const middle = (left + right) / 2;
    const top = (view.height - lines.length * 17) / 2;
    plate(context, scene, middle - widest / 2 - 6, top - 4, widest + 12, lines.length * 17 + 8);
    context.textAlign = 'center';
    lines.forEach((line, row) => {
      context.fillText(line, middle, top + 13 + row * 17);
    });
  }
}

function hatch(
  context: CanvasRenderingContext2D,
  left: number,
  top: number,
  right: number,
  bottom: number,
  colour: string,
): void {
  context.save();
  context.beginPath();
  context.rect(left, top, right - left, bottom - top);
  context.clip();
  context.beginPath();
  for (let x = left - (bottom - top); x < right; x += 8) {
    context.moveTo(x, bottom);
    context.lineTo(x + bottom - top, top);
  }
  context.strokeStyle = colour;
  context.lineWidth = 0.8;
  context.stroke();
  context.strokeRect(left, top, right - left, bottom - top);
  context.restore();
}

/** A ground for letters on the paper; leaves the ink set for them. */
function plate(
  context: CanvasRenderingContext2D,
  { inks }: Scene,
  x: number,
  y: number,
  width: number,
  height: number,
): void {
  context.fillStyle = inks.paper;
  context.fillRect(x, y, width, height);
  context.fillStyle = inks.ink;
}

const font = ({ family }: Scene, size: number, weight = 400) => `${weight} ${size}px ${family}`;

/** Words on lines of a width; null where a word does not fit. */
function wrapped(
  context: CanvasRenderingContext2D,
  words: string,
  width: number,
  face: string,
): string[] | null {
  context.font = face;
  const lines: string[] = [];
  for (const word of words.split(' ')) {
    const longer = lines.length > 0 ? `${lines.at(-1)} ${word}` : word;
    if (lines.length > 0 && context.measureText(longer).width <= width) {
      lines[lines.length - 1] = longer;
      continue;
    }
    if (context.measureText(word).width > width) return null;
    lines.push(word);
  }
  return lines;
}

function rhythms(context: CanvasRenderingContext2D, scene: Scene): void {
  for (const stretch of scene.known.rhythms) bracket(context, scene, stretch, 3, !stretch.named);
}

function events(context: CanvasRenderingContext2D, scene: Scene): void {
  for (const event of scene.known.events) bracket(context, scene, event, 27, false);
}

/** Words over a line from end to end of their stretch; where nothing is named the line is dashed. */
function bracket(
  context: CanvasRenderingContext2D,
  scene: Scene,
  { from, to, words }: Stretch | RhythmStretch,
  top: number,
  isDashed: boolean,
): void {
  if (!sees(scene, from, to)) return;
  const { view, inks } = scene;
  const left = Math.max(-4, xOf(view, from) + 1);
  const right = Math.min(view.width + 4, xOf(view, to) - 1);
  const line = top + 17;
  context.strokeStyle = inks.ink;
  context.lineWidth = 1.2;
  context.setLineDash(isDashed ? [4, 3] : []);
  context.beginPath();
  context.moveTo(left, line - 5);
  context.lineTo(left, line);
  context.lineTo(right, line);
  context.lineTo(right, line - 5);
  context.stroke();
  context.setLineDash([]);
  context.font = font(scene, LETTER, isDashed ? 400 : 700);
  const start = Math.max(left, 0) + 5;
  const room = Math.min(right, view.width) - start - 5;
  context.fillStyle = inks.ink;
  context.textAlign = 'left';
  const fitting = shortened(context, words, room);
  if (fitting) context.fillText(fitting, start, top + 11);
}

/** As much of some words as fits, with an ellipsis; nothing where not even a few letters do. */
function shortened(context: CanvasRenderingContext2D, words: string, room: number): string {
  if (context.measureText(words).width <= room) return words;
  for (let length = words.length - 1; length > 5; length--) {
    const part = `${words.slice(0, length).trimEnd()}…`;
    if (context.measureText(part).width <= room) return part;
  }
  return '';
}

function signs(context: CanvasRenderingContext2D, scene: Scene): void {
  const { known, view, rooms, inks, chosen } = scene;
  const y = rooms.paper - 8;
  const near = known.told.flatMap(({ time, kind, number }, index) => {
    const x = xOf(view, time);
    // A little beyond the left edge, where words beside a sign may still reach in.
    return x < -80 || x > view.width + 10 ? [] : [{ x, kind, number, index }];
  });
  for (const { x, kind } of near) paintSign(context, kind, x, y, inks);
  context.textAlign = 'center';
  context.font = font(scene, SMALL);
  context.fillStyle = inks.soft;
  let free = Number.NEGATIVE_INFINITY;
  for (const { x, number, index } of near) {
    const half = 3.4 * String(number).length;
    if (index === chosen || x - half < free) continue;
    context.fillText(String(number), x, rooms.signs + 12);
    free = x + half + 4;
  }
  context.textAlign = 'left';
  context.fillStyle = inks.ink;
  free = Number.NEGATIVE_INFINITY;
  for (const { x, index } of near) {
    const words = known.short[index];
    if (!words || x + 8 < free) continue;
    context.fillText(words, x + 8, y + 4);
    free = x + 8 + context.measureText(words).width + 4;
  }
  chosenNumber(context, scene);
}

/** On a ground of its own, as it may stand close to another. */
function chosenNumber(context: CanvasRenderingContext2D, scene: Scene): void {
  const { known, chosen, view, rooms } = scene;
  const beat = chosen === null ? undefined : known.told[chosen];
  if (!beat) return;
  const x = xOf(view, beat.time);
  context.font = font(scene, SMALL, 700);
  context.textAlign = 'center';
  const half = context.measureText(String(beat.number)).width / 2;
  plate(context, scene, x - half - 4, rooms.signs + 2, 2 * half + 8, 13);
  context.fillRect(x - half - 3, rooms.signs + 15, 2 * half + 6, 2);
  context.fillText(String(beat.number), x, rooms.signs + 12);
}

const WAVES = ['P', 'QRS', 'T'] as const;

/** A bracket from onset to end of each wave and its letters below; QRS stands one line lower. */
function letters(context: CanvasRenderingContext2D, scene: Scene): void {
  const { known, labels, view, rooms, inks } = scene;
  if (labels.size === 0) return;
  const free = { P: Number.NEGATIVE_INFINITY, QRS: Number.NEGATIVE_INFINITY };
  context.font = font(scene, SMALL);
  const halves = new Map(WAVES.map((name) => [name, context.measureText(name).width / 2] as const));
  context.beginPath();
  context.textAlign = 'center';
  context.fillStyle = inks.ink;
  context.strokeStyle = inks.ink;
  context.lineWidth = 1.2;
  for (const { p, qrs, t, time } of known.beats) {
    if (!sees(scene, p?.onset ?? qrs?.onset ?? time, t?.end ?? qrs?.end ?? time)) continue;
    for (const [name, wave] of [
      ['P', p],
      ['QRS', qrs],
      ['T', t],
    ] as const) {
      if (!wave || !labels.has(name)) continue;
      if (known.unreadable.some(({ from, to }) => wave.onset < to && wave.end > from)) continue;
      const y = rooms.letters + 5;
      const [start, end, peak] = [wave.onset, wave.end, wave.peak].map((at) => xOf(view, at)) as [
        number,
        number,
        number,
      ];
      context.moveTo(start, y - 3);
      context.lineTo(start, y);
      context.lineTo(end, y);
      context.lineTo(end, y - 3);
      const lane = name === 'QRS' ? 'QRS' : 'P';
      const half = halves.get(name) ?? 0;
      // Where beats crowd, the bracket stays and the letter gives way.
      if (peak - half < free[lane]) continue;
      free[lane] = peak + half + 2;
      context.fillText(name, peak, y + (lane === 'QRS' ? 23 : 12));
    }
  }
  context.stroke();
}

/** Steps between the seconds that are written, s. */
const STEPS = [0.2, 0.5, 1, 2, 5, 10, 30, 60];

function seconds(context: CanvasRenderingContext2D, scene: Scene): void {
  const { view, rooms, inks } = scene;
  const perSecond = pixelsPerSecond(view);
  const step = STEPS.find((one) => one * perSecond >= 52) ?? 60;
  context.strokeStyle = inks.soft;
  context.fillStyle = inks.soft;
  context.lineWidth = 1;
  context.font = font(scene, SMALL);
  const last = Math.min(view.sheet.duration, endOf(view));
  for (let n = Math.ceil(view.from / step - 1e-6); n * step <= last + 1e-6; n++) {
    const at = n * step;
    const x = xOf(view, at);
    context.beginPath();
    context.moveTo(x, rooms.seconds);
    context.lineTo(x, rooms.seconds + 4);
    context.stroke();
    const words = clockOf(at, view.sheet.duration, step);
    const half = context.measureText(words).width / 2;
    context.textAlign = x < half ? 'left' : x > view.width - half ? 'right' : 'center';
    context.fillText(words, x, rooms.seconds + 16);
  }
}

/** `7 s`, `7.2 s`; `2:07` on a strip of more than a minute. */
function clockOf(second: number, duration: number, step: number): string {
  const decimals = step < 1 ? 1 : 0;
  if (duration <= 60) return `${second.toFixed(decimals)} s`;
  const minutes = Math.floor(second / 60 + 1e-6);
  const rest = Math.max(0, second - 60 * minutes).toFixed(decimals);
  return `${minutes}:${rest.padStart(decimals ? 4 : 2, '0')}`;
}

/** A corner as long as 0.2 s and as high as 1 mV, at the foot of the paper. */
function scaleSign(context: CanvasRenderingContext2D, scene: Scene): void {
  const { view, rooms, inks } = scene;
  const across = 0.2 * pixelsPerSecond(view);
  const up = 10 * pixelsPerMillimetre(view);
  if (up > view.height - 24 || across > view.width / 2) return;
  const [x, y] = [view.width - across - 10, rooms.letters - 18];
  context.font = font(scene, SMALL);
  context.strokeStyle = inks.ink;
  context.lineWidth = 1.6;
  context.beginPath();
  context.moveTo(x, y - up);
  context.lineTo(x, y);
  context.lineTo(x + across, y);
  context.stroke();
  context.textAlign = 'right';
  context.fillStyle = inks.ink;
  for (const [words, left, foot] of [
    ['1 mV', x - 4, y - up / 2 + 4],
    ['0.2 s', x + across, y + 14],
  ] as const) {
    context.strokeStyle = inks.paper;
    context.lineWidth = 4;
    context.strokeText(words, left, foot);
    context.fillText(words, left, foot);
  }
}

function pointed(context: CanvasRenderingContext2D, scene: Scene): void {
  const { view, rooms, inks } = scene;
  if (scene.pointed === null || !sees(scene, scene.pointed, scene.pointed)) return;
  const x = xOf(view, scene.pointed);
  context.strokeStyle = inks.accent;
  context.fillStyle = inks.accent;
  context.lineWidth = 1;
  context.setLineDash([2, 3]);
  context.beginPath();
  context.moveTo(x, rooms.paper);
  context.lineTo(x, rooms.seconds);
  context.stroke();
  context.setLineDash([]);
  context.beginPath();
  context.moveTo(x, rooms.seconds - 1);
  context.lineTo(x - 5, rooms.seconds + 8);
  context.lineTo(x + 5, rooms.seconds + 8);
  context.fill();
}

function calipers(context: CanvasRenderingContext2D, scene: Scene): void {
  const { view, inks, points } = scene;
  if (!points) return;
  context.strokeStyle = inks.caliper;
  context.fillStyle = inks.caliper;
  onPaper(context, scene, () => {
    const [x1, x2] = points.map(({ second }) => xOf(view, second)) as [number, number];
    points.forEach(({ millivolt }, index) => {
      const x = index === 0 ? x1 : x2;
      context.lineWidth = 1.5;
      context.setLineDash(index === 0 ? [] : [6, 3]);
      context.beginPath();
      context.moveTo(x, 0);
      context.lineTo(x, view.height);
      context.stroke();
      if (millivolt === null) return;
      const y = yOf(view, millivolt);
      context.lineWidth = 1;
      context.setLineDash([1, 3]);
      context.beginPath();
      context.moveTo(x1, y);
      context.lineTo(x2, y);
      context.stroke();
      context.setLineDash([]);
      context.beginPath();
      context.arc(x, y, 3.5, 0, 2 * Math.PI);
      context.fill();
    });
    context.setLineDash([]);
    context.lineWidth = 1.5;
    const y = view.height / 2;
    context.beginPath();
    context.moveTo(x1, y);
    context.lineTo(x2, y);
    context.stroke();
  });
  context.setLineDash([]);
}
