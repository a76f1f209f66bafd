import { measured, type Point } from './calipers.js';
import { heedDrag } from './gestures.js';
import type { Leads } from './leads.js';
import { type Panel, press } from './panel.js';
import type { Say } from './say.js';
import type { Known, Rooms } from './scene.js';
import type { Sight } from './sight.js';
import { tellMeasured, tellPoint } from './telling.js';
import { pixelsPerSecond, secondAt, showing, shown, xOf } from './view.js';
import { nearestMark, nextMark, type WaveMark, waveMarks } from './wave-marks.js';

// Steps and delays of this program: not clinical numbers.

/** A point held to waves jumps to a mark this close to the hand, CSS pixels. */
const REACH = 18;
/** s. */
const LONG_STEP = 0.1;
/** What the points measure is read aloud when they have rested this long, ms. */
const REST = 600;

/** The two points that measure: moved by hand and keys, told in words. */
export class Measuring {
  private seconds: [number, number] | null = null;
  private isHeld = true;
  private readonly marks: readonly WaveMark[];
  private rest: ReturnType<typeof setTimeout> | undefined;

  constructor(
    private readonly panel: Panel,
    private readonly sight: Sight,
    private readonly leads: Leads,
    private readonly known: Known,
    private readonly say: Say,
  ) {
    this.marks = waveMarks(known.beats);
    panel.measure.addEventListener('click', () => this.turn(this.seconds === null));
    panel.snap.addEventListener('click', () => {
      this.isHeld = !this.isHeld;
      press(panel.snap, this.isHeld);
    });
    press(panel.snap, this.isHeld);
    panel.snap.disabled = true;
    panel.knobs.forEach((knob, index) => {
      this.heedKnob(knob, index);
    });
  }

  /** Null while nothing is measured. */
  get points(): readonly [Point, Point] | null {
    return (
      this.seconds && [this.leads.pointAt(this.seconds[0]), this.leads.pointAt(this.seconds[1])]
    );
  }

  /** Measures between two moments, s. */
  between(first: number, second: number): void {
    if (this.seconds === null) this.turn(true);
    this.seconds = [first, second];
    this.changed();
  }

  private turn(isOn: boolean): void {
    const { panel, sight } = this;
    press(panel.measure, isOn);
    panel.snap.disabled = !isOn;
    for (const knob of panel.knobs) knob.hidden = !isOn;
    if (isOn) {
      const third = shown(sight.view) / 3;
      const { from } = sight.view;
      this.seconds = [this.held(from + third), this.held(from + 2 * third)];
    } else {
      this.seconds = null;
      panel.measured.textContent = this.say('measured.off');
    }
    this.changed();
  }

  private heedKnob(knob: HTMLElement, index: number): void {
    const { sight, panel } = this;
    heedDrag(knob, panel.paper, (x) => this.put(index, this.held(secondAt(sight.view, x))));
    knob.addEventListener('keydown', (event) => {
      const second = this.seconds?.[index];
      if (second === undefined || event.altKey || event.ctrlKey || event.metaKey) return;
      const to = this.after(second, event.key);
      if (to === null) return;
      event.preventDefault();
      event.stopPropagation();
      this.put(index, to);
      sight.show(showing(sight.view, to));
    });
    knob.addEventListener('focus', () => {
      const second = this.seconds?.[index];
      if (second === undefined || !knob.matches(':focus-visible')) return;
      sight.show(showing(sight.view, second));
    });
  }

  /** The mark that a point jumps to, or the sample closest to the hand, s. */
  private held(second: number): number {
    const reach = REACH / pixelsPerSecond(this.sight.view);
    const mark = this.isHeld ? nearestMark(this.marks, second, reach) : null;
    return mark?.at ?? this.leads.onSample(second);
  }

  /** Where a point goes from a moment by a key; null where the key is none of ours. */
  private after(second: number, key: string): number | null {
    const { leads } = this;
    const step = key === 'ArrowRight' || key === 'ArrowUp' ? 1 : -1;
    switch (key) {
      case 'ArrowLeft':
      case 'ArrowRight':
      case 'ArrowUp':
      case 'ArrowDown':
        return this.isHeld
          ? (nextMark(this.marks, second, step)?.at ?? second)
          : leads.onSample(second + step / leads.shown.samplingRate);
      case 'PageUp':
        return leads.onSample(second + LONG_STEP);
      case 'PageDown':
        return leads.onSample(second - LONG_STEP);
      case 'Home':
        return leads.onSample(0);
      case 'End':
        return leads.onSample(this.sight.view.sheet.duration);
      default:
        return null;
    }
  }

  private put(index: number, second: number): void {
    if (!this.seconds) return;
    this.seconds[index] = second;
    this.changed();
  }

  private changed(): void {
    this.tell();
    this.sight.show(this.sight.view);
  }

  /** Tells where the points stand and what lies between them. */
  tell(): void {
    const { panel, points, say, known } = this;
    clearTimeout(this.rest);
    if (!points) return;
    points.forEach(({ second, millivolt }, index) => {
      const knob = panel.knobs[index] as HTMLElement;
      const mark = nearestMark(this.marks, second, 1e-6);
      knob.setAttribute('aria-valuemax', this.sight.view.sheet.duration.toFixed(3));
      knob.setAttribute('aria-valuenow', second.toFixed(4));
      knob.setAttribute('aria-valuetext', tellPoint(second, millivolt, mark, say));
    });
    const moments = points.map(({ second }) => second);
    const [from, to] = [Math.min(...moments), Math.max(...moments)];
    const across = known.unreadable.some((stretch) => stretch.from < to && stretch.to > from);
    const words = tellMeasured(measured(...points), across, say);
    panel.measured.textContent = words;
    // A listener hears the point itself at once, and what lies between when it has come to rest.
    this.rest = setTimeout(() => {
      panel.aloud.textContent = words;
    }, REST);
  }

  placeKnobs(rooms: Rooms): void {
    const { seconds, panel, sight } = this;
    if (!seconds) return;
    const { view } = sight;
    panel.knobs.forEach((knob, index) => {
      const half = knob.offsetWidth / 2;
      const x = xOf(view, seconds[index] as number);
      const left = Math.min(view.width - half, Math.max(half, x)) - half;
      const top = index === 0 ? rooms.paper : rooms.letters - knob.offsetHeight;
      knob.style.transform = `translate(${left}px, ${top}px)`;
      knob.classList.toggle('away', x < 0 || x > view.width);
    });
  }
}
