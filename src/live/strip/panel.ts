import { element } from './element.js';
import type { Say } from './say.js';
import { SPEEDS, type Speed } from './view.js';
import type { WaveName } from './wave-marks.js';

/** The parts of the live strip that its reader acts on. */
export interface Panel {
  readonly root: HTMLElement;
  /** Takes the focus, with the canvas and the two knobs in it. */
  readonly paper: HTMLElement;
  readonly canvas: HTMLCanvasElement;
  readonly knobs: readonly [HTMLElement, HTMLElement];
  readonly whole: HTMLElement;
  readonly wholeCanvas: HTMLCanvasElement;
  readonly before: HTMLButtonElement;
  readonly after: HTMLButtonElement;
  readonly smaller: HTMLButtonElement;
  readonly larger: HTMLButtonElement;
  /** How many times its true size the paper is shown. */
  readonly size: HTMLElement;
  readonly speeds: ReadonlyMap<Speed, HTMLButtonElement>;
  readonly labels: ReadonlyMap<WaveName, HTMLButtonElement>;
  readonly lead: HTMLSelectElement;
  readonly measure: HTMLButtonElement;
  readonly snap: HTMLButtonElement;
  readonly interval: HTMLButtonElement;
  /** The chosen beat in sentences. */
  readonly told: HTMLElement;
  readonly measured: HTMLElement;
  /** Read aloud when it changes. */
  readonly aloud: HTMLElement;
}

const HELP = ['beats', 'slide', 'size', 'points', 'whole', 'pointing', 'withheld', 'draft'];

export function panelFor(name: string, leads: readonly string[], say: Say): Panel {
  const helpId = `${name}-keys`;
  const button = (key: string) => element('button', { type: 'button' }, say(key));
  const sign = (key: string, shape: string) =>
    element('button', { type: 'button', class: 'sign', 'aria-label': say(key) }, shape);
  const toggle = (words: string) =>
    element('button', { type: 'button', 'aria-pressed': 'false' }, words);
  const group = (key: string, ...content: readonly HTMLElement[]) =>
    element('div', { role: 'group', 'aria-label': say(`groups.${key}`) }, ...content);
  const knob = (key: string, letter: string) =>
    element(
      'div',
      {
        class: 'strip-knob',
        role: 'slider',
        tabindex: '0',
        'aria-label': say(key),
        'aria-valuemin': '0',
        hidden: '',
      },
      element('span', { 'aria-hidden': 'true' }, letter),
    );

  const canvas = element('canvas', { role: 'img' });
  const knobs = [knob('first', '1'), knob('second', '2')] as const;
  const paper = element(
    'div',
    { class: 'strip-paper', tabindex: '0', role: 'group', 'aria-describedby': helpId },
    canvas,
    ...knobs,
  );
  const wholeCanvas = element('canvas', { 'aria-hidden': 'true' });
  const whole = element(
    'div',
    {
      class: 'strip-whole',
      role: 'slider',
      tabindex: '0',
      'aria-label': say('overview'),
      'aria-valuemin': '0',
    },
    wholeCanvas,
  );
  const before = button('before');
  const after = button('after');
  const smaller = sign('smaller', '−');
  const larger = sign('larger', '+');
  const size = element('span', { class: 'strip-size' });
  const speeds = new Map(SPEEDS.map((speed) => [speed, toggle(say(`speed${speed}`))] as const));
  const labels = new Map((['P', 'QRS', 'T'] as const).map((wave) => [wave, toggle(wave)] as const));
  const lead = element(
    'select',
    {},
    ...leads.map((label, index) => element('option', { value: String(index) }, label)),
  );
  const measure = toggle(say('measure'));
  const snap = toggle(say('snap'));
  const interval = button('interval');
  const told = element('p', { class: 'strip-told' }, say('choose'));
  const measured = element('p', { class: 'strip-measured' }, say('measured.off'));
  const aloud = element('p', { class: 'unseen', role: 'status' });
  const root = element(
    'div',
    { class: 'strip-live' },
    element(
      'div',
      { class: 'strip-controls' },
      group('beats', before, after),
      group('size', smaller, size, larger),
      group('speed', ...speeds.values()),
      group('labels', ...labels.values()),
    ),
    paper,
    whole,
    told,
    element(
      'div',
      { class: 'strip-controls' },
      ...(leads.length > 1 ? [element('label', {}, say('lead'), lead)] : []),
      group('measure', measure, snap, interval),
    ),
    measured,
    aloud,
    element(
      'details',
      { class: 'strip-help' },
      element('summary', {}, say('help.title')),
      element('ul', { id: helpId }, ...HELP.map((key) => element('li', {}, say(`help.${key}`)))),
    ),
  );
  return {
    root,
    paper,
    canvas,
    knobs,
    whole,
    wholeCanvas,
    before,
    after,
    smaller,
    larger,
    size,
    speeds,
    labels,
    lead,
    measure,
    snap,
    interval,
    told,
    measured,
    aloud,
  };
}

export const press = (button: HTMLElement, isOn: boolean): void =>
  button.setAttribute('aria-pressed', String(isOn));
