import type { LiveCase, LiveLead, LiveStrip } from '../contract.js';
import type { Cursor, Moment } from '../cursor.js';
import { beatUnder, nearestBeat } from './beat-at.js';
import { measured, type Point } from './calipers.js';
import { element } from './element.js';
import { heedDrag, heedGestures } from './gestures.js';
import { inksOf, whenSchemeChanges } from './inks.js';
import { knownOf, rhythmAt } from './known.js';
import { paint } from './paint.js';
import { paintFrame, paintWhole } from './paint-whole.js';
import { type Panel, panelFor, press } from './panel.js';
import { extremesIn, leadSamples, millivoltAt, type Pyramid, pyramidOf } from './pyramid.js';
import { type Say, speaker } from './say.js';
import { type Known, roomsIn, type Scene } from './scene.js';
import { momentOf, type StripPlace, secondOn } from './second-on.js';
import { tellBeat, tellMeasured, tellPoint } from './telling.js';
import {
  endOf,
  firstView,
  following,
  isTall,
  moved,
  nextZoom,
  paperFor,
  pixelsPerSecond,
  type Sheet,
  type Speed,
  scaled,
  secondAt,
  showing,
  shown,
  type View,
  within,
  xOf,
} from './view.js';
import { nearestMark, nextMark, type WaveMark, type WaveName, waveMarks } from './wave-marks.js';

// Steps and delays of this program: not clinical numbers.

/** A point held to waves jumps to a mark this close to the hand, CSS pixels. */
const REACH = 18;
/** s. */
const LONG_STEP = 0.1;
/** A view glides to its place in this time, ms. */
const GLIDE = 180;
/** What points measure is read aloud when they have rested this long, ms. */
const REST = 600;

/** Brings one strip of the page to life. */
export function liveStrip(
  figure: HTMLElement,
  strip: LiveStrip,
  place: number,
  page: LiveCase,
  cursor: Cursor,
): void {
  const say = speaker(page.words);
  const leads = [strip.lead, ...strip.others];
  const panel = panelFor(
    strip.figure,
    leads.map(({ label }) => label),
    say,
  );
  dress(figure, panel, strip, say);
  const { duration } = strip.analysis;
  new StripOnPaper(
    panel,
    strip,
    { strip: place, begins: strip.begins, duration },
    leads,
    knownOf(strip, page, say),
    cursor,
    say,
  );
}

/** Puts the panel into the figure; its picture and caption stay for paper. */
function dress(figure: HTMLElement, panel: Panel, { lead, analysis }: LiveStrip, say: Say): void {
  const frame = figure.querySelector('.figure-frame');
  const caption = figure.querySelector('figcaption');
  frame?.after(panel.root);
  if (caption) {
    const printed = element('span', { class: 'on-paper' });
    printed.append(...caption.childNodes);
    const seconds = Math.round(analysis.duration);
    const words = say('caption', { lead: lead.label, seconds });
    caption.append(printed, element('span', { class: 'on-screen' }, words));
  }
  figure.dataset.live = 'strip';
}

class StripOnPaper {
  private readonly pyramids = new Map<number, Pyramid>();
  private readonly marks: readonly WaveMark[];
  private readonly labels = new Set<WaveName>(['P', 'QRS', 'T']);
  private readonly calm = matchMedia('(prefers-reduced-motion: reduce)');
  private inks;
  private readonly family: string;
  private lead = 0;
  private view: View;
  private rooms = roomsIn(0, false);
  private chosen: number | null = null;
  private pointed: number | null = null;
  private isMeasuring = false;
  private isHeld = true;
  private points: [number, number] | null = null;
  private isPainting = false;
  private isPointing = false;
  private glide = 0;
  private small: { readonly key: string; readonly still: HTMLCanvasElement } | null = null;
  private rest: ReturnType<typeof setTimeout> | undefined;

  constructor(
    private readonly panel: Panel,
    private readonly strip: LiveStrip,
    private readonly place: StripPlace,
    private readonly leads: readonly LiveLead[],
    private readonly known: Known,
    private readonly cursor: Cursor,
    private readonly say: Say,
  ) {
    this.marks = waveMarks(known.beats);
    this.inks = inksOf(panel.root);
    this.family = getComputedStyle(panel.root).fontFamily;
    this.view = {
      sheet: this.sheetOf(0),
      width: 0,
      height: 0,
      speed: 25,
      zoom: 1,
      from: 0,
      top: 0,
    };
    this.heedControls();
    this.heedPaper();
    this.heedWhole();
    this.heedKnobs();
    cursor.follow((moment, by) => {
      if (by !== this) this.follow(moment);
    });
    whenSchemeChanges(() => {
      this.inks = inksOf(panel.root);
      this.repaint();
    });
    new ResizeObserver(() => this.fit()).observe(panel.paper);
    document.fonts.ready.then(() => this.repaint());
    if (known.beats.length === 0) {
      panel.told.textContent = say('noBeats');
      panel.before.disabled = true;
      panel.after.disabled = true;
    }
    this.fit();
  }

  // The lead and its paper.

  private pyramidOf(lead: number): Pyramid {
    const read = this.pyramids.get(lead);
    if (read) return read;
    const written = this.leads[lead] as LiveLead;
    const made = pyramidOf(leadSamples(written), written.samplingRate);
    this.pyramids.set(lead, made);
    return made;
  }

  /** Paper high enough for what can be read; where nothing can, for all of it. */
  private sheetOf(lead: number): Sheet {
    const pyramid = this.pyramidOf(lead);
    const { duration, quality } = this.strip.analysis;
    const stretches = quality.spans.filter(({ readable }) => readable);
    const extremes = (stretches.length > 0 ? stretches : [{ from: 0, to: duration }])
      .map(({ from, to }) => extremesIn(pyramid, from, to))
      .filter((one) => one !== null);
    return {
      duration,
      ...paperFor(
        extremes.length === 0
          ? null
          : [
              Math.min(...extremes.map(([low]) => low)),
              Math.max(...extremes.map(([, high]) => high)),
            ],
      ),
    };
  }

  private pointAt(second: number): Point {
    return { second, millivolt: millivoltAt(this.pyramidOf(this.lead), second) };
  }

  // What is seen.

  private fit(): void {
    const { paper, canvas, whole, wholeCanvas } = this.panel;
    const [width, height] = [paper.clientWidth, paper.clientHeight];
    if (width === 0 || height === 0) return;
    this.rooms = roomsIn(height, this.known.events.length > 0);
    const room = Math.max(1, this.rooms.letters - this.rooms.paper);
    const isFirst = this.view.width === 0;
    const view = { ...this.view, width, height: room };
    this.view = isFirst ? firstView(view) : within(view);
    for (const [one, frame] of [
      [canvas, paper],
      [wholeCanvas, whole],
    ] as const) {
      one.width = Math.round(frame.clientWidth * devicePixelRatio);
      one.height = Math.round(frame.clientHeight * devicePixelRatio);
    }
    this.paintNow();
  }

  private show(view: View): void {
    cancelAnimationFrame(this.glide);
    this.view = view;
    this.repaint();
  }

  /** To another place on the paper, unless the reader wants no motion in a glide. */
  private glideTo(view: View): void {
    if (view === this.view) {
      this.repaint();
      return;
    }
    if (this.calm.matches) {
      this.show(view);
      return;
    }
    cancelAnimationFrame(this.glide);
    const start = this.view.from;
    const begun = performance.now();
    const step = (now: number) => {
      const share = Math.min(1, Math.max(0, (now - begun) / GLIDE));
      const eased = share * (2 - share);
      this.view = within({ ...this.view, from: start + eased * (view.from - start) });
      this.repaint();
      if (share < 1) this.glide = requestAnimationFrame(step);
    };
    this.glide = requestAnimationFrame(step);
  }

  private repaint(): void {
    if (this.isPainting) return;
    this.isPainting = true;
    requestAnimationFrame(() => this.paintNow());
  }

  private paintNow(): void {
    this.isPainting = false;
    const { panel, view } = this;
    const context = panel.canvas.getContext('2d', { alpha: false });
    const small = panel.wholeCanvas.getContext('2d', { alpha: false });
    if (!context || !small || view.width === 0) return;
    const scene = this.scene();
    paint(context, scene);
    this.paintSmall(small, scene);
    this.placeKnobs();
    this.tellPlace();
  }

  /** The small strip is painted once for each lead, size and scheme, and then only laid under its frame. */
  private paintSmall(context: CanvasRenderingContext2D, scene: Scene): void {
    const { canvas } = context;
    const size = {
      width: canvas.width / scene.density,
      height: canvas.height / scene.density,
    };
    const key = `${this.lead} ${canvas.width} ${canvas.height} ${Object.values(scene.inks)}`;
    if (this.small?.key !== key) {
      const still = element('canvas');
      still.width = canvas.width;
      still.height = canvas.height;
      const brush = still.getContext('2d', { alpha: false });
      if (!brush) return;
      paintWhole(brush, scene, size);
      this.small = { key, still };
    }
    context.setTransform(1, 0, 0, 1, 0, 0);
    context.drawImage(this.small.still, 0, 0);
    paintFrame(context, scene, size);
  }

  private scene(): Scene {
    const { known, view, rooms, inks, family, labels, chosen, pointed, points } = this;
    return {
      known,
      pyramid: this.pyramidOf(this.lead),
      view,
      rooms,
      inks,
      family,
      density: devicePixelRatio,
      labels,
      chosen,
      pointed,
      points: points && [this.pointAt(points[0]), this.pointAt(points[1])],
    };
  }

  /** Names for those who do not see the canvas, of what it shows just now. */
  private tellPlace(): void {
    const { panel, view, say } = this;
    const lead = (this.leads[this.lead] as LiveLead).label;
    const { duration } = view.sheet;
    const stretch = {
      from: view.from.toFixed(1),
      to: Math.min(duration, endOf(view)).toFixed(1),
      seconds: Math.round(duration),
    };
    name(panel.paper, say('paper', { lead, ...stretch }));
    name(panel.canvas, say('picture', { lead }));
    panel.size.textContent = say('size', { zoom: Number(view.zoom.toFixed(1)) });
    panel.paper.style.touchAction = isTall(view) ? 'none' : 'pan-y';
    panel.whole.setAttribute('aria-valuemax', Math.max(0, duration - shown(view)).toFixed(1));
    panel.whole.setAttribute('aria-valuenow', stretch.from);
    panel.whole.setAttribute('aria-valuetext', say('overviewAt', stretch));
  }

  // Controls.

  private heedControls(): void {
    const { panel, labels } = this;
    panel.before.addEventListener('click', () => this.step(-1));
    panel.after.addEventListener('click', () => this.step(1));
    panel.smaller.addEventListener('click', () => this.resize(-1));
    panel.larger.addEventListener('click', () => this.resize(1));
    for (const [speed, button] of panel.speeds) {
      press(button, speed === this.view.speed);
      button.addEventListener('click', () => this.setSpeed(speed));
    }
    for (const [wave, button] of panel.labels) {
      press(button, true);
      button.addEventListener('click', () => {
        if (!labels.delete(wave)) labels.add(wave);
        press(button, labels.has(wave));
        this.repaint();
      });
    }
    panel.lead.addEventListener('change', () => {
      this.lead = Number(panel.lead.value);
      this.view = within({ ...this.view, sheet: this.sheetOf(this.lead) });
      this.tellPoints();
      this.repaint();
    });
    panel.measure.addEventListener('click', () => this.setMeasuring(!this.isMeasuring));
    panel.snap.addEventListener('click', () => {
      this.isHeld = !this.isHeld;
      press(panel.snap, this.isHeld);
    });
    press(panel.snap, this.isHeld);
    panel.snap.disabled = true;
    panel.interval.disabled = this.known.beats.length < 2;
    panel.interval.addEventListener('click', () => this.measureInterval());
  }

  private resize(step: 1 | -1): void {
    this.show(scaled(this.view, { zoom: nextZoom(this.view.zoom, step) }, this.anchor()));
  }

  /** Where a change of scale holds the paper: at the chosen beat where it is in sight, else in the middle. */
  private anchor(): number {
    const beat = this.chosen === null ? undefined : this.known.beats[this.chosen];
    const x = beat ? xOf(this.view, beat.time) : -1;
    return x >= 0 && x <= this.view.width ? x : this.view.width / 2;
  }

  private setSpeed(speed: Speed): void {
    for (const [each, button] of this.panel.speeds) press(button, each === speed);
    this.show(scaled(this.view, { speed }, this.anchor()));
  }

  // Beats.

  private step(by: 1 | -1): void {
    const { beats } = this.known;
    const middle = this.view.from + shown(this.view) / 2;
    const next =
      this.chosen === null
        ? by > 0
          ? beats.findIndex(({ time }) => time >= this.view.from)
          : (nearestBeat(beats, middle) ?? 0)
        : this.chosen + by;
    this.choose(Math.min(beats.length - 1, Math.max(0, next)));
  }

  private choose(index: number): void {
    const beat = this.known.beats[index];
    if (!beat) return;
    this.tell(index);
    this.panel.aloud.textContent = this.panel.told.textContent;
    this.pointTo(beat.time);
    this.glideTo(showing(this.view, beat.time));
  }

  private tell(index: number): void {
    const told = this.known.told[index];
    if (!told) return;
    this.chosen = index;
    const { length } = this.known.told;
    const rhythm = rhythmAt(this.known, told.time);
    this.panel.told.textContent = tellBeat(told, length, rhythm, this.say);
  }

  // The moment that figures share.

  private pointTo(second: number): void {
    this.pointed = second;
    this.cursor.move(momentOf(second, this.place), this);
    this.repaint();
  }

  private follow(moment: Moment): void {
    this.pointed = secondOn(moment, this.place);
    if (this.pointed !== null) {
      const index = beatUnder(this.known.beats, this.pointed);
      if (index !== null && index !== this.chosen) this.tell(index);
      this.view = following(this.view, this.pointed);
    }
    this.repaint();
  }

  // The paper under hand and keys.

  private heedPaper(): void {
    const { paper } = this.panel;
    heedGestures(paper, {
      drag: (right, down) => this.show(moved(this.view, right, down)),
      pinch: (by, x, y) =>
        this.show(scaled(this.view, { zoom: this.view.zoom * by }, x, y - this.rooms.paper)),
      tap: (x) => {
        const second = this.secondUnder(x);
        const index = nearestBeat(this.known.beats, second);
        if (index !== null) this.choose(index);
        this.pointTo(second);
      },
      hover: (x) => {
        if (this.isPointing) return;
        this.isPointing = true;
        requestAnimationFrame(() => {
          this.isPointing = false;
          this.pointTo(this.secondUnder(x));
        });
      },
    });
    paper.addEventListener('keydown', (event) => {
      if (event.target !== paper || event.altKey || event.ctrlKey || event.metaKey) return;
      if (this.press(event.key)) event.preventDefault();
    });
  }

  private secondUnder(x: number): number {
    return Math.min(this.view.sheet.duration, Math.max(0, secondAt(this.view, x)));
  }

  /** Whether a key is one of ours. */
  private press(key: string): boolean {
    const { view } = this;
    switch (key) {
      case 'ArrowLeft':
        this.step(-1);
        return true;
      case 'ArrowRight':
        this.step(1);
        return true;
      case 'Home':
        this.choose(0);
        return true;
      case 'End':
        this.choose(this.known.beats.length - 1);
        return true;
      case 'PageUp':
        this.glideTo(moved(view, view.width * 0.9, 0));
        return true;
      case 'PageDown':
        this.glideTo(moved(view, -view.width * 0.9, 0));
        return true;
      case '+':
        this.resize(1);
        return true;
      case '-':
        this.resize(-1);
        return true;
      case '0':
        this.show(scaled(view, { zoom: 1 }, this.anchor()));
        return true;
      case 'ArrowUp':
      case 'ArrowDown':
        // Paper that fits leaves these keys to the page.
        if (!isTall(view)) return false;
        this.show(moved(view, 0, key === 'ArrowUp' ? 40 : -40));
        return true;
      default:
        return false;
    }
  }

  // The whole strip, small.

  private heedWhole(): void {
    const { whole } = this.panel;
    heedDrag(whole, whole, (x) => {
      const { duration } = this.view.sheet;
      const second = (x / whole.clientWidth) * duration;
      this.show(within({ ...this.view, from: second - shown(this.view) / 2 }));
    });
    whole.addEventListener('keydown', (event) => {
      const { view } = this;
      const step = shown(view) / 4;
      const to = new Map([
        ['ArrowLeft', view.from - step],
        ['ArrowDown', view.from - step],
        ['ArrowRight', view.from + step],
        ['ArrowUp', view.from + step],
        ['PageUp', view.from + 4 * step],
        ['PageDown', view.from - 4 * step],
        ['Home', 0],
        ['End', view.sheet.duration],
      ]).get(event.key);
      if (to === undefined || event.altKey || event.ctrlKey || event.metaKey) return;
      event.preventDefault();
      this.show(within({ ...view, from: to }));
    });
  }

  // The points that measure.

  private setMeasuring(isOn: boolean): void {
    const { panel } = this;
    this.isMeasuring = isOn;
    press(panel.measure, isOn);
    panel.snap.disabled = !isOn;
    if (!isOn) panel.measured.textContent = this.say('measured.off');
    for (const knob of panel.knobs) knob.hidden = !isOn;
    if (isOn) {
      const start = this.view.from + shown(this.view) / 3;
      this.points = [this.held(start), this.held(this.view.from + (shown(this.view) * 2) / 3)];
    } else this.points = null;
    this.tellPoints();
    this.repaint();
  }

  /** Puts the points on the R of the chosen beat and of the beat before it. */
  private measureInterval(): void {
    const { beats } = this.known;
    const last = Math.max(1, this.chosen ?? 1);
    const [one, other] = [beats[last - 1], beats[last]];
    if (!one || !other) return;
    if (!this.isMeasuring) this.setMeasuring(true);
    if (this.chosen === null || this.chosen === 0) this.choose(last);
    this.points = [one.time, other.time];
    this.tellPoints();
    this.repaint();
  }

  /** The mark that a point jumps to, or the sample closest to the hand. */
  private held(second: number): number {
    const { view, marks } = this;
    const mark = this.isHeld ? nearestMark(marks, second, REACH / pixelsPerSecond(view)) : null;
    return mark?.at ?? this.onSample(second);
  }

  private onSample(second: number): number {
    const { samplingRate } = this.leads[this.lead] as LiveLead;
    const last = Math.floor(this.view.sheet.duration * samplingRate) - 1;
    return Math.min(last, Math.max(0, Math.round(second * samplingRate))) / samplingRate;
  }

  private heedKnobs(): void {
    const { panel } = this;
    panel.knobs.forEach((knob, index) => {
      heedDrag(knob, panel.paper, (x) => this.setPoint(index, this.held(this.secondUnder(x))));
      knob.addEventListener('keydown', (event) => {
        if (event.altKey || event.ctrlKey || event.metaKey || !this.points) return;
        const to = this.pointMoved(this.points[index] as number, event.key);
        if (to === null) return;
        event.preventDefault();
        event.stopPropagation();
        this.setPoint(index, to);
        this.view = showing(this.view, to);
      });
      knob.addEventListener('focus', () => {
        const second = this.points?.[index];
        if (second !== undefined && knob.matches(':focus-visible')) {
          this.show(showing(this.view, second));
        }
      });
    });
  }

  private pointMoved(second: number, key: string): number | null {
    const { samplingRate } = this.leads[this.lead] as LiveLead;
    const step = key === 'ArrowRight' || key === 'ArrowUp' ? 1 : -1;
    switch (key) {
      case 'ArrowLeft':
      case 'ArrowRight':
      case 'ArrowUp':
      case 'ArrowDown':
        return this.isHeld
          ? (nextMark(this.marks, second, step)?.at ?? second)
          : this.onSample(second + step / samplingRate);
      case 'PageUp':
        return this.onSample(second + LONG_STEP);
      case 'PageDown':
        return this.onSample(second - LONG_STEP);
      case 'Home':
        return this.onSample(0);
      case 'End':
        return this.onSample(this.view.sheet.duration);
      default:
        return null;
    }
  }

  private setPoint(index: number, second: number): void {
    if (!this.points) return;
    this.points[index] = second;
    this.tellPoints();
    this.repaint();
  }

  private tellPoints(): void {
    const { panel, points, say, known, marks } = this;
    clearTimeout(this.rest);
    if (!points) return;
    const [one, other] = [this.pointAt(points[0]), this.pointAt(points[1])];
    [one, other].forEach(({ second, millivolt }, index) => {
      const knob = panel.knobs[index] as HTMLElement;
      const mark = nearestMark(marks, second, 1e-6);
      knob.setAttribute('aria-valuemax', this.view.sheet.duration.toFixed(3));
      knob.setAttribute('aria-valuenow', second.toFixed(4));
      knob.setAttribute('aria-valuetext', tellPoint(second, millivolt, mark, say));
    });
    const [from, to] = [Math.min(...points), Math.max(...points)];
    const across = known.unreadable.some((stretch) => stretch.from < to && stretch.to > from);
    const words = tellMeasured(measured(one, other), across, say);
    panel.measured.textContent = words;
    // A reader of the screen hears the point itself at once, and what lies between when it has come to rest.
    this.rest = setTimeout(() => {
      panel.aloud.textContent = words;
    }, REST);
  }

  private placeKnobs(): void {
    const { points, view, rooms, panel } = this;
    if (!points) return;
    panel.knobs.forEach((knob, index) => {
      const half = knob.offsetWidth / 2;
      const x = xOf(view, points[index] as number);
      const left = Math.min(view.width - half, Math.max(half, x)) - half;
      const top = index === 0 ? rooms.paper : rooms.letters - knob.offsetHeight;
      knob.style.transform = `translate(${left}px, ${top}px)`;
      knob.classList.toggle('away', x < 0 || x > view.width);
    });
  }
}

const name = (one: Element, words: string): void => {
  if (one.getAttribute('aria-label') !== words) one.setAttribute('aria-label', words);
};
