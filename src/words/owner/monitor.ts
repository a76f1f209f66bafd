import type { HomeCase, SystolicAlone } from '../../facts/case-facts.js';
import type { FoundRhythm } from '../../signal/strip-analysis.js';
import { isLast, lowTime, wholeMinutes } from '../../vitals/pressure.js';
import type { Said } from '../handout.js';
import { readText } from '../handout-text.js';
import type { Language } from '../language.js';
import { decimals } from '../numbers.js';
import type { Values } from '../phrasebook.js';
import { inOnePassage } from './one-passage.js';
import type { OwnerSection } from './owner-sheet.js';

/**
 * What the monitor showed, in two or three sentences; what it could not show is left out or said to be missing. How low a
 * pressure was means nothing at home: that number is left to the record.
 */
export const monitor: OwnerSection = (facts, language) => [
  {
    kind: 'callout',
    tone: 'note',
    minor: true,
    title: language.owner.text('monitor.title'),
    said: [
      inOnePassage([
        watched(facts, language),
        ...tracings(facts, language),
        ...pressure(facts, language),
      ]),
    ],
  },
];

function watched({ identity, anesthesia }: HomeCase, { owner }: Language): Said {
  return owner.say(
    'monitor.watched',
    { patient: identity.patientName, minutes: decimals(anesthesia.duration.value, 0) },
    'anesthesia.duration',
  );
}

type Strip = HomeCase['strips'][number];

/** The sentences for the one tracing of a case, and for each of several. */
const ALONE = { counted: 'monitor.counted', unread: 'monitor.rhythmUnread' } as const;
const OF_SEVERAL = {
  counted: 'monitor.tracing.counted',
  unread: 'monitor.tracing.unread',
} as const;

/** What each tracing showed, in the order in which they were made: the heart may have beaten otherwise later. */
function tracings({ strips }: HomeCase, language: Language): Said[] {
  const { owner } = language;
  const [only] = strips;
  if (only && strips.length === 1) {
    const { counted, rhythm } = ofStrip(only, 0, ALONE, {}, language);
    return [...counted, ...rhythm];
  }
  const all = inOrder(strips).map(({ strip, index, ...when }) =>
    ofStrip(strip, index, OF_SEVERAL, { ...when }, language),
  );
  return [
    ...all.flatMap(({ counted, rhythm }, place) => [
      ...counted,
      ...(isSame(rhythm, all[place - 1]?.rhythm) ? [again(rhythm, owner)] : rhythm),
    ]),
    ...(strips.some(({ analysis }) => analysis.rate !== null)
      ? [owner.say('monitor.tracing.atHome')]
      : []),
  ];
}

/** The tracings in order of time, each with the minutes since the one before; as the record has them where a time is lacking. */
function inOrder(strips: readonly Strip[]) {
  const all = strips.map((strip, index) => ({ strip, index, at: strip.begins.value }));
  const isTimed = all.every(({ at }) => at !== null);
  const ordered = isTimed ? all.sort((a, b) => (a.at as number) - (b.at as number)) : all;
  return ordered.map(({ strip, index, at }, place) => {
    const before = ordered[place - 1]?.at ?? at;
    const when = isTimed ? (['first', 'later'] as const) : (['one', 'another'] as const);
    return {
      strip,
      index,
      when: when[place === 0 ? 0 : 1],
      minutes: Math.round((at ?? 0) - (before ?? 0)),
    };
  });
}

function ofStrip(
  strip: Strip,
  index: number,
  keys: typeof ALONE | typeof OF_SEVERAL,
  when: Values,
  language: Language,
): { readonly counted: readonly Said[]; readonly rhythm: readonly Said[] } {
  const { owner } = language;
  const { rate } = strip.analysis;
  // A tracing was made, and an owner who hears nothing of it would take it for a good one.
  if (rate === null) {
    return { counted: [owner.say(keys.unread, when, `strips.${index}.analysis`)], rhythm: [] };
  }
  const counted = owner.say(
    keys.counted,
    { ...when, rate: decimals(rate.mean, 0) },
    `strips.${index}.analysis.rate.mean`,
  );
  // One reading that was counted twice is enough to have gone by the tracing.
  const wrong = strip.shown.value?.shown.some(
    ({ relation }) => relation === 'about double' || relation === 'about half',
  );
  return {
    counted: wrong
      ? [counted, owner.say('monitor.screenWrong', {}, `strips.${index}.shown`)]
      : [counted],
    rhythm: rhythm(strip, index, language),
  };
}

const isSame = (now: readonly Said[], before: readonly Said[] = []): boolean =>
  now.length > 0 && now.map(readText).join(' ') === before.map(readText).join(' ');

const again = (rhythm: readonly Said[], owner: Language['owner']): Said =>
  owner.say('monitor.tracing.same', {}, ...rhythm.flatMap(({ facts }) => facts));

/**
 * The rhythm that ruled longest, the others, and what happened within them; a stretch without a name is said to be one.
 * Where there were others, the first is said of the beats that are left: "even" would gainsay an early beat.
 */
function rhythm({ analysis }: Strip, index: number, { owner, rhythms }: Language): Said[] {
  const found = analysis.rhythms;
  const fact = `strips.${index}.analysis.rhythms`;
  const unnamed = found.filter(({ confidence }) => confidence === null);
  const named = found
    .filter(({ confidence }) => confidence !== null)
    .sort((a, b) => b.to - b.from - (a.to - a.from));
  const names = [
    ...new Set([
      ...named.map(({ name }) => name),
      ...named.flatMap(({ within }) => within.map(({ name }) => name)),
    ]),
  ];
  const said = (name: string): Said => rhythms.say(`${name}.owner`, {}, fact);
  const [longest = '', ...others] = names;
  const ofTheRest = others.length > 0 ? rhythms.all(`${longest}.rest`, {}, fact) : [];
  return [
    ...(ofTheRest.length > 0 ? [...others.map(said), ...ofTheRest] : names.map(said)),
    // Called normal only where each proof is there; otherwise the veterinarian is the one to ask.
    ...(names.includes('breath-linked sinus arrhythmia')
      ? [
          owner.say(
            analysis.variant?.isNormalVariant ? 'monitor.normalVariant' : 'monitor.askVariant',
            {},
            `strips.${index}.analysis.variant`,
          ),
        ]
      : []),
    ...(unnamed.length > 0
      ? [
          owner.say(
            unnamed.every(wantsRange) ? 'monitor.rhythmWithoutRanges' : 'monitor.rhythmWithheld',
            {},
            fact,
          ),
        ]
      : []),
  ];
}

/** Whether a stretch could be read, and only its species has no usual rate to hold it against. */
const wantsRange = ({ because }: FoundRhythm): boolean =>
  because.some(({ key }) => key === 'no rate range');

function pressure({ vitals }: HomeCase, { owner }: Language): Said[] {
  if (vitals.systolicAlone) return [systolic(vitals.systolicAlone.value, owner)];
  const low = vitals.lowPressure.value;
  const fact = 'vitals.lowPressure';
  if (low === null) return [owner.say('monitor.noPressure', {}, fact)];
  if (low.episodes.length === 0) return [owner.say('monitor.steady', {}, fact)];
  // How long it lasted cannot be told where no later reading shows that it ended.
  if (low.episodes.some(isLast)) return [owner.say('monitor.lowAtLast', {}, fact)];
  if (low.episodes.some(({ unseen }) => unseen)) return [owner.say('monitor.lowUnseen', {}, fact)];
  const { least, most } = wholeMinutes(lowTime(low.episodes));
  if (most === null) return [owner.say('monitor.lowAtFirst', {}, fact)];
  return [owner.say(least === 0 ? 'monitor.lowShort' : 'monitor.low', { least, most }, fact)];
}

function systolic({ ofSpecies, episodes }: SystolicAlone, owner: Language['owner']): Said {
  const key = !ofSpecies
    ? 'systolicUnjudged'
    : episodes.length === 0
      ? 'systolicSteady'
      : 'systolicLow';
  return owner.say(`monitor.${key}`, {}, 'vitals.systolicAlone');
}
