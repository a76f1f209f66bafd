import type { ChannelName } from '../vocabulary.js';

/** `NIBP-S`: a pressure by its letter, behind the way in which it is measured. (`bpm` is a rate.) */
const ofPressure = (letter: string) =>
  new RegExp(`(?<=\\b(?:n?ibp|nibd|nbp|abp|pni|art)\\d?) ?${letter}\\b|(?<=\\bbp) ${letter}\\b`);

/**
 * Words in titles, as the trade abbreviates the measurements in English, Spanish, German and French, the surer first. A
 * rate comes before what it is counted from, and every measurement before a pressure's systole, diastole and mean. Common
 * practice.
 */
const TITLES: readonly (readonly [ChannelName, readonly RegExp[]])[] = [
  [
    'heart rate',
    [
      /\b(hr|fc|hf)\d?\b/,
      /\b(heart|cardia[ck]\w*|card) ?(rate|freq|frec)|\bf\w* card|herz(freq|schlag)|^heart$/,
      /\b(pr|fp)\d?\b|puls(?!\w* ?ox)/,
      /^bpm$/,
    ],
  ],
  // In German, RR is a blood pressure too.
  ['breaths', [/\b(aw ?)?(rr|fr|af)\d?\b(?! ?(sys|dia|mit))/, /resp|breath|atem/]],
  ['EtCO2', [/\bp?e[ts]? ?co2|\bco2 ?e[tsx]|end ?tidal.*co2|co2.*end ?tidal|capno/]],
  ['SpO2', [/\bs[pa]? ?o2|satura|\bsat\b|puls\w* ?ox/]],
  ['temperature', [/temp/, /\bt\d?\b/]],
  [
    'agent',
    [
      /\b(et|exp\w*|end ?tidal) ?(agent|aa|iso|sev|des|halo)|(agent|aa|iso|sev|des|halo)\w* (et|exp\w*|end ?tidal)\b/,
      /agent|\bagens|\baa\b|\biso(fl|\b)|\bsevo|\bsev\b|desfl|halot|vapou?r/,
    ],
  ],
  ['systolic', [/\b(sys|systol\w*|sist\w*|sap|sbp|psa|pas)\b/, ofPressure('s')]],
  ['diastolic', [/\b(dia|diast\w*|dap|dbp|pad)\b/, ofPressure('d')]],
  ['mean', [/\b(map|mbp|pam|mean|media|mittel\w*|mit|moy\w*)\b/, ofPressure('m')]],
];

/** Limits, settings and remarks of a measurement. Common practice. */
const BESIDE =
  /alarm|grenz|\b(limit|lim|low|high|lo|hi|min|max|upper|lower|set|setpoint|target|source|name|id|time|date|diff|delta)\b|setting|consigna|status|estado|qualit|calidad|batter/;
/** What the ventilator gives and what is breathed in. Common practice. */
const OF_GAS = /\bfi|insp|airway|vol\b|volum|complian|circuit|system\b/;
/** Other pressures than the arterial, other temperatures than the patient's, other saturations than of arterial blood. Common practice. */
const ELSEWHERE =
  /ambient|\broom\b|blanket|heat|warm|water|\bt (in|out|wave)\b|\b(cvp|pvc|zvd|icp|pic|pap|lap|rap|iap|paw)\d?\b|ven(ous|os)|pulmon|intracran|\br ?so2/;
/** What is derived from beats. Common practice. */
const OF_BEATS = /pulse (press|amp|wave|strength|index)|variab|\bint(erval)?\b|output|index/;

/** Columns that bear the name of a measurement and are none. */
const OTHER = [BESIDE, OF_GAS, ELSEWHERE, OF_BEATS];

/** A title without what its letters look like: `SpO₂ %` as `sp o2`, `NIBP-S` as `nibp s`. */
const plain = (title: string): string =>
  title
    .replace(/(\p{Ll})(\p{Lu})/gu, '$1 $2')
    .replace(/(\b1 ?)?\/ ?min\w*|\b(per|por|pro) min\w*|\bmin-1/gi, ' ')
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim();

const BRACKETS = /[([{](.*?)[)\]}]/g;

/** A channel that a title names. */
export interface NamedChannel {
  readonly channel: ChannelName;
  /** 0 for the surest name. */
  readonly rank: number;
  /** What the title says beside the channel: pressures of one way to measure have it in common. */
  readonly beside: string;
}

/** The channel whose readings stand under a title; null where it names none, or only a limit of it and the like. */
export const namedChannel = (title: string): NamedChannel | null =>
  // What stands in brackets is a unit as a rule, and in some tables the measurement: `NIBP (sys)`.
  named(plain(title.replace(BRACKETS, ' '))) ?? named(plain(title));

/** Words for an arterial pressure without saying which. Common practice. */
const PRESSURE = /\b(n?ibp|nibd|nbp|abp|bp|pni|pa|ta|art)\d?\b|press|presion|druck|tensi/;
const PRESSURES: readonly (ChannelName | undefined)[] = ['systolic', 'diastolic', 'mean'];

/** Whether a title names an arterial pressure, be it one of the three or all. */
export const namesPressure = (title: string): boolean => {
  const words = plain(title);
  if (OTHER.some((other) => other.test(words))) return false;
  return PRESSURE.test(words) || PRESSURES.includes(named(words)?.channel);
};

function named(words: string): NamedChannel | null {
  if (OTHER.some((other) => other.test(words))) return null;
  for (const [channel, names] of TITLES) {
    const rank = names.findIndex((name) => name.test(words));
    const name = names[rank];
    if (name) return { channel, rank, beside: words.replace(name, ' ').replace(/ +/g, ' ').trim() };
  }
  return null;
}

/** What a title says of its unit: what stands in brackets, else its single words. */
export function unitWords(title: string): {
  readonly bracketed: boolean;
  readonly words: string[];
} {
  const inside = [...title.matchAll(BRACKETS)].map(([, words]) => (words ?? '').trim());
  return inside.length > 0
    ? { bracketed: true, words: inside }
    : { bracketed: false, words: title.split(/[\s_,;:]+/) };
}
