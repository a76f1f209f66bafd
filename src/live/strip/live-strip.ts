import type { LiveCase, LiveStrip } from '../contract.js';
import type { Cursor, Moment } from '../cursor.js';
import { beatUnder, nearestBeat } from './beat-at.js';
import { dress } from './dress.js';
import { heedGestures } from './gestures.js';
import { glide } from './glide.js';
import { inksOf, whenSchemeChanges } from './inks.js';
import { heedKeys } from './keys.js';
import { knownOf, rhythmAt } from './known.js';
import { Leads } from './leads.js';
import { Measuring } from './measuring.js';
import { paint } from './paint/paint.js';
import { type Panel, panelFor, press } from './panel.js';
import { type Say, speaker } from './say.js';
import { type Known, roomsIn, type Scene } from './scene.js';
import { momentOf, type StripPlace, secondOn } from './second-on.js';
import type { Sight } from './sight.js';
import { SmallStrip } from './small-strip.js';
import { tellBeat } from './telling.js';
import {
  endOf,
  firstView,
  following,
  isTall,
  moved,
  nextZoom,
  type Speed,
  scaled,
  secondAt,
  showing,
  shown,
  type View,
  within,
  xOf,
} from './view.js';
import type { WaveName } from './wave-marks.js';

/** Brings one strip of the page to life. */
export function liveStrip(
  figure: HTMLElement,
  strip: LiveStrip,
  place: number,
  page: LiveCase,
  cursor: Cursor,
): void {
  const say = speaker(page.words);
  const leads = new Leads(strip);
  const panel = panelFor(
    strip.figure,
    leads.all.map(({ label }) => label),
    say,
  );
  dress(figure, panel, strip, say);
  const { duration } = strip.analysis;
  new StripOnPaper(
    panel,
    { strip: place, begins: strip.begins, duration },
    leads,
    knownOf(strip, page, say),
    cursor,
    say,
  );
}

/** The strip in its panel: what is seen of it, and which beat is chosen. */
class StripOnPaper implements Sight {
  view: View;
  private readonly small: SmallStrip;
  private readonly measuring: Measuring;
  private readonly labels = new Set<WaveName>(['P', 'QRS', 'T']);
  private readonly calm = matchMedia('(prefers-reduced-motion: reduce)');
  private inks;
  private readonly family: string;
  private rooms = roomsIn(0, false);
  private chosen: number | null = null;
  private pointed: number | null = null;
  private isPainting = false;
  private isPointing = false;
  /** Stops the view where it glides. */
  private halt: () => void = () => undefined;

  constructor(
    private readonly panel: Panel,
    private readonly place: StripPlace,
    private readonly leads: Leads,
    private readonly known: Known,
    private readonly cursor: Cursor,
    private readonly say: Say,
  ) {
    this.inks = inksOf(panel.root);
    this.family = getComputedStyle(panel.root).fontFamily;
    this.view = {
      sheet: leads.sheet,
      width: 0,
      height: 0,
      speed: 25,
      zoom: 1,
      from: 0,
      top: 0,
    };
    this.small = new SmallStrip(panel, this, say);
    this.measuring = new Measuring(panel, this, leads, known, say);
    this.heedControls();
    this.heedPaper();
    cursor.follow((moment, by) => {
      if (by !== this) this.follow(moment);
    });
    whenSchemeChanges(() => {
      this.inks = inksOf(panel.root);
      this.repaint();
    });
    new ResizeObserver(() => {
      const { paper, canvas } = panel;
      const [width, height] = [paper.clientWidth, paper.clientHeight].map((side) =>
        Math.round(side * devicePixelRatio),
      );
      if (width !== canvas.width || height !== canvas.height) this.fit();
    }).observe(panel.paper);
    if (document.fonts.status !== 'loaded') document.fonts.ready.then(() => this.repaint());
    if (known.beats.length === 0) {
      panel.told.textContent = say('noBeats');
      panel.before.disabled = true;
      panel.after.disabled = true;
    }
    this.fit();
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

  show(view: View): void {
    this.halt();
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
    this.halt();
    this.halt = glide(this.view.from, view.from, (from) => {
      this.view = within({ ...this.view, from });
      this.repaint();
    });
  }

  private repaint(): void {
    if (this.isPainting) return;
    this.isPainting = true;
    requestAnimationFrame(() => this.paintNow());
  }

  private paintNow(): void {
    this.isPainting = false;
    const { panel, view, rooms } = this;
    const context = panel.canvas.getContext('2d', { alpha: false });
    if (!context || view.width === 0) return;
    const scene = this.scene();
    paint(context, scene);
    this.small.paint(scene, this.leads.shown.label);
    this.measuring.placeKnobs(rooms);
    this.tellPlace();
  }

  private scene(): Scene {
    const { known, view, rooms, inks, family, labels, chosen, pointed } = this;
    return {
      known,
      pyramid: this.leads.pyramid,
      view,
      rooms,
      inks,
      family,
      density: devicePixelRatio,
      labels,
      chosen,
      pointed,
      points: this.measuring.points,
    };
  }

  /** Names for those who do not see the canvas, of what it shows just now. */
  private tellPlace(): void {
    const { panel, view, say } = this;
    const lead = this.leads.shown.label;
    const { duration } = view.sheet;
    const stretch = {
      from: view.from.toFixed(1),
      to: Math.min(duration, endOf(view)).toFixed(1),
    };
    name(panel.paper, say('paper', { lead, ...stretch }));
    name(panel.canvas, say('picture', { lead }));
    panel.size.textContent = say('size', { zoom: Number(view.zoom.toFixed(1)) });
    panel.paper.style.touchAction = isTall(view) ? 'none' : 'pan-y';
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
      this.leads.shown = this.leads.all[Number(panel.lead.value)] ?? this.leads.shown;
      this.show(within({ ...this.view, sheet: this.leads.sheet }));
      this.measuring.tell();
    });
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

  /** Measures between the R of the chosen beat and of the beat before it. */
  private measureInterval(): void {
    const { beats } = this.known;
    const last = Math.max(1, this.chosen ?? 1);
    const [one, other] = [beats[last - 1], beats[last]];
    if (!one || !other) return;
    if (this.chosen !== last) this.choose(last);
    this.measuring.between(one.time, other.time);
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
    heedKeys(paper, {
      step: (by) => this.step(by),
      first: () => this.choose(0),
      last: () => this.choose(this.known.beats.length - 1),
      turn: (by) => this.glideTo(moved(this.view, -0.9 * by * this.view.width, 0)),
      resize: (by) => this.resize(by),
      trueSize: () => this.show(scaled(this.view, { zoom: 1 }, this.anchor())),
      climb: (by) => {
        if (!isTall(this.view)) return false;
        this.show(moved(this.view, 0, 40 * by));
        return true;
      },
    });
  }

  private secondUnder(x: number): number {
    return Math.min(this.view.sheet.duration, Math.max(0, secondAt(this.view, x)));
  }
}

const name = (one: Element, words: string): void => {
  if (one.getAttribute('aria-label') !== words) one.setAttribute('aria-label', words);
};
