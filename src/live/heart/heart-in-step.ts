import type { LiveCase, LiveStrip } from '../contract.js';
import type { Cursor } from '../cursor.js';
import { whenNear } from '../when-near.js';
import { bloodAt } from './blood.js';
import { lastAtOrBefore } from './last-at.js';
import { html } from './make.js';
import { paceAt } from './pace.js';
import { phaseAt } from './phase.js';
import { picture } from './picture.js';
import { fill, type Pieces, sayBlood, sayDelays, sayPhase, sayPlace } from './says.js';
import { type Scene, scenesOf } from './scenes.js';
import { type Trace, trace } from './trace.js';

/** Shares of real speed, by the key of their words. */
const SPEEDS = { real: 1, quarter: 0.25, tenth: 0.1 } as const;

/** s that a still is shown where less motion is asked for: long enough to read its first line. */
const STILL = 2.5;

/** Brings the printed heart to life beside its strip; the page stays as it is where there is none of either. */
export function heartInStep(page: LiveCase, cursor: Cursor): void {
  const figure = document.querySelector<HTMLElement>('figure[data-figure="heart"]');
  const drawing = figure?.querySelector('svg');
  if (!figure || !drawing || page.strips.length === 0) return;
  whenNear(figure, () => liveHeart(figure, drawing, page, cursor));
}

function liveHeart(
  figure: HTMLElement,
  drawing: SVGSVGElement,
  { words, strips }: LiveCase,
  cursor: Cursor,
): void {
  const text = (key: string): string => words[`heart.${key}`] ?? '';
  const heart = picture(drawing, words);
  const traces = new Map<LiveStrip, Trace>();
  const lessMotion = matchMedia('(prefers-reduced-motion: reduce)');
  const self = {};

  let index = 0;
  const strip = (): LiveStrip => strips[index] as LiveStrip;
  let second = beginning(strip());
  /** Which run is playing: an old one that wakes up late finds that it is over. Null where none is. */
  let run: object | null = null;

  const button = (key: string, act: () => void) => {
    const made = html('button', { type: 'button' }, text(key));
    made.addEventListener('click', act);
    return made;
  };
  const playing = button('play', () => (run ? pause() : play()));
  playing.classList.add('heart-play');
  const speed = html(
    'select',
    {},
    ...Object.keys(SPEEDS).map((key) => html('option', { value: key }, text(key))),
  );
  const choice = html(
    'select',
    {},
    ...strips.map((_, i) =>
      html('option', { value: i }, fill(text('strip'), { number: String(i + 1) })),
    ),
  );
  const place = html('input', { type: 'range', min: 0, step: 0.01, 'aria-label': text('place') });
  const blood = html('input', { type: 'checkbox' });
  const where = html('p', { class: 'heart-where' });
  const says = html('p', { class: 'heart-says' });
  const flow = html('p', { class: 'heart-flow', hidden: '' });
  const delays = html('p', { class: 'heart-delays', hidden: '' }, ...runs(sayDelays(words)));
  const told = html('div', { class: 'heart-told', 'aria-live': 'polite' }, where, says, flow);
  const remark = html('p', { class: 'heart-remark' });
  const pane = html('div', { class: 'heart-pane' });

  const panel = html(
    'div',
    { class: 'heart-panel', role: 'group', 'aria-label': text('title') },
    place,
    html(
      'div',
      { class: 'heart-buttons' },
      playing,
      html('label', {}, `${text('speed')} `, speed),
      ...(strips.length > 1 ? [html('label', {}, `${text('strips')} `, choice)] : []),
      button('beatBefore', () => toBeat(-1)),
      button('stepBack', () => toScene(-1)),
      button('stepOn', () => toScene(1)),
      button('nextBeat', () => toBeat(1)),
    ),
    remark,
    html('label', { class: 'heart-blood' }, blood, ` ${text('blood')}`),
    legend(text),
  );
  const story = html('div', { class: 'heart-story' }, told, delays);
  figure.querySelector('.figure-frame')?.after(pane, story, panel);
  figure.classList.add('heart-live');

  /** Scenes are worked out when first stepped through. */
  const scenes = new Map<string, readonly Scene[]>();
  const scenesHere = (): readonly Scene[] => {
    const name = `${index} ${blood.checked}`;
    const found =
      scenes.get(name) ?? scenesOf(strip().analysis, strip().analysis.duration, blood.checked);
    scenes.set(name, found);
    return found;
  };

  const show = (): void => {
    const { analysis } = strip();
    const phase = phaseAt(analysis, second);
    const flowing = blood.checked ? bloodAt(analysis, second) : null;
    heart.show(phase, flowing, second);
    let shown = traces.get(strip());
    if (!shown) {
      shown = trace(strip());
      traces.set(strip(), shown);
    }
    if (shown.element.parentNode !== pane) pane.replaceChildren(shown.element);
    shown.show(second);
    choice.value = String(index);
    place.max = String(analysis.duration);
    place.value = String(second);
    place.setAttribute('aria-valuetext', fill(text('at'), { second: second.toFixed(2) }));
    where.textContent = sayPlace(words, analysis, phase, second);
    write(says, sayPhase(words, phase));
    flow.hidden = flowing === null;
    delays.hidden = flowing === null;
    if (flowing) write(flow, sayBlood(words, flowing));
  };

  /** Moves the shared moment, so that strip and chart go along. */
  const go = (to: number): void => {
    const { analysis, begins } = strip();
    // A voice that reads every sentence of a playing heart would never end.
    told.setAttribute('aria-live', run ? 'off' : 'polite');
    // The last instant still belongs to the strip.
    second = Math.max(0, Math.min(analysis.duration - 1e-6, to));
    show();
    cursor.move(
      { onStrip: { strip: index, second }, minute: begins === null ? null : begins + second / 60 },
      self,
    );
  };

  const toScene = (by: 1 | -1): boolean => {
    pause();
    return stepScene(by);
  };
  const stepScene = (by: 1 | -1): boolean => {
    const all = scenesHere();
    const next = all[lastAtOrBefore(all, second, ({ from }) => from) + by];
    if (next) go(next.second);
    return next !== undefined;
  };
  const toBeat = (by: 1 | -1): void => {
    pause();
    const times = strip().analysis.beats.map(({ time }) => time as number);
    const next =
      by === 1
        ? times.find((time) => time > second + 1e-6)
        : times.findLast((time) => time < second - 1e-6);
    if (next !== undefined) go(next);
  };

  const play = (): void => {
    const mine = {};
    run = mine;
    playing.textContent = text('pause');
    if (second >= strip().analysis.duration - 0.01) go(0);
    if (lessMotion.matches) stills(mine);
    else requestAnimationFrame((now) => frame(mine, now, now));
  };
  const pause = (): void => {
    run = null;
    playing.textContent = text('play');
    told.setAttribute('aria-live', 'polite');
    remark.textContent = lessMotion.matches ? text('stills') : '';
  };

  const frame = (mine: object, now: number, before: number): void => {
    if (run !== mine) return;
    const { analysis } = strip();
    const wanted = SPEEDS[speed.value as keyof typeof SPEEDS];
    const pace = paceAt(analysis, second, wanted);
    remark.textContent =
      pace < wanted ? fill(text('slowed'), { percent: String(Math.round(100 * pace)) }) : '';
    // A page that was out of sight does not catch up.
    go(second + (Math.min(100, now - before) / 1000) * pace);
    if (second >= analysis.duration - 0.001) pause();
    else requestAnimationFrame((next) => frame(mine, next, now));
  };

  const stills = (mine: object): void => {
    if (run !== mine) return;
    if (stepScene(1)) setTimeout(() => stills(mine), 1000 * STILL);
    else pause();
  };

  place.addEventListener('input', () => {
    pause();
    go(Number(place.value));
  });
  choice.addEventListener('change', () => {
    pause();
    index = Number(choice.value);
    go(beginning(strip()));
  });
  blood.addEventListener('change', show);
  cursor.follow(({ onStrip }, by) => {
    if (by === self || onStrip === null || !strips[onStrip.strip]) return;
    ({ strip: index, second } = onStrip);
    // Whoever moved it says so itself.
    told.setAttribute('aria-live', 'off');
    show();
  });
  pause();
  show();
}

/** The P of the second beat: the first of which the strip shows what came before. */
const beginning = ({ analysis: { beats } }: LiveStrip): number =>
  beats[1]?.p?.peak ?? beats[0]?.time ?? 0;

const runs = (said: Pieces): (HTMLElement | string)[] =>
  said.map(({ text, strong }) => (strong ? html('strong', {}, text) : text));

/** A sentence that has not changed is left alone: it would be read aloud again. */
function write(into: HTMLElement, said: Pieces): void {
  if (into.textContent !== said.map(({ text }) => text).join(''))
    into.replaceChildren(...runs(said));
}

/** What the tones and patterns mean. */
const legend = (text: (key: string) => string): HTMLElement =>
  html(
    'ul',
    { class: 'heart-key' },
    ...['rest', 'excited', 'front', 'recovering', 'disorder', 'unknown'].map((state) =>
      html('li', { 'data-state': state }, text(`key.${state}`)),
    ),
  );
