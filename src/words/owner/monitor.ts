import type { HomeCase, SystolicAlone } from '../../facts/case-facts.js';
import type { FoundRhythm } from '../../signal/strip-analysis.js';
import { isLast, lowTime, wholeMinutes } from '../../vitals/pressure.js';
import type { Said } from '../handout.js';
import type { Language } from '../language.js';
import { decimals } from '../numbers.js';
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
        ...heart(facts, language),
        ...rhythm(facts, language),
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

function heart({ strips }: HomeCase, { owner }: Language): Said[] {
  const index = strips.findIndex(({ analysis }) => analysis.rate !== null);
  const strip = strips[index];
  if (!strip?.analysis.rate) return [];
  const counted = owner.say(
    'monitor.counted',
    { rate: decimals(strip.analysis.rate.mean, 0) },
    `strips.${index}.analysis.rate.mean`,
  );
  // One reading that was counted twice is enough to have gone by the tracing.
  const wrong = strip.shown.value?.shown.some(
    ({ relation }) => relation === 'about double' || relation === 'about half',
  );
  return wrong
    ? [counted, owner.say('monitor.screenWrong', {}, `strips.${index}.shown`)]
    : [counted];
}

/**
 * The rhythm that ruled longest, the others, and what happened within them; a stretch without a name is said to be one.
 * Where there were others, the first is said of the beats that are left: "even" would gainsay an early beat.
 */
function rhythm({ strips }: HomeCase, { owner, rhythms }: Language): Said[] {
  const index = strips.findIndex(({ analysis }) => analysis.rate !== null);
  if (index < 0) {
    // A tracing was made, and an owner who hears nothing of it would take it for a good one.
    return strips.length === 0 ? [] : [owner.say('monitor.rhythmUnread', {}, 'strips')];
  }
  const found = strips[index]?.analysis.rhythms ?? [];
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
            strips[index]?.analysis.variant?.isNormalVariant
              ? 'monitor.normalVariant'
              : 'monitor.askVariant',
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
