import type { HomeCase } from '../../facts/case-facts.js';
import type { Said } from '../handout.js';
import type { Language } from '../language.js';
import { decimals } from '../numbers.js';
import { isBandaged } from './bandaged.js';
import { mostImportantIs } from './first-thing.js';
import { incisionPictures } from './incision-pictures.js';
import { inOnePassage } from './one-passage.js';
import type { OwnerSection } from './owner-sheet.js';

/** How the wound heals, what becomes of the stitches and how to care for it. */
export const wound: OwnerSection = (facts, language) => {
  const { owner, clock } = language;
  const { home } = facts;
  const inMouth = facts.wound.mouth !== undefined;
  return [
    { kind: 'heading', level: 2, text: owner.text(inMouth ? 'wound.mouth.title' : 'wound.title') },
    // No drawing of a line fits an opening.
    ...(inMouth || facts.wound.opening ? [] : [incisionPictures(facts, language)]),
    {
      kind: 'list',
      ordered: false,
      items: [
        inOnePassage([edges(facts, language), ...stitches(facts, language)]),
        ...(facts.wound.drain ? [owner.say('wound.drain', {}, 'wound.drain')] : []),
        ...(facts.wound.estimate.value.later.length > 0
          ? [owner.say('wound.slower', { reasons: reasons(facts, language) }, 'wound.estimate')]
          : []),
        inMouth
          ? inOnePassage(mouth(facts, language))
          : inOnePassage([look(facts, language), bath(facts, language)]),
        ...(home.collarUntil.value !== null && mostImportantIs(facts) !== 'collar'
          ? [
              owner.say(
                'wound.collar',
                { date: clock.shortDay(home.collarUntil.value) },
                'home.collarUntil',
              ),
            ]
          : []),
      ],
    },
  ];
};

/** What guards gums. */
function mouth({ plan, patient }: HomeCase, { owner, clock }: Language): Said[] {
  const until = plan.softUntil;
  const species = patient.species.value;
  return [
    until
      ? owner.say(
          'wound.mouth.until',
          { species, date: clock.shortDay(until.value) },
          'plan.softUntil',
        )
      : owner.say('wound.mouth.untilTold', { species }, 'wound.mouth'),
    // Nobody brushes the teeth of the others.
    ...(species === 'dog' || species === 'cat'
      ? [owner.say('wound.mouth.brush', {}, 'wound.mouth')]
      : []),
  ];
}

function edges({ wound, patient }: HomeCase, { owner }: Language): Said {
  if (wound.mouth) {
    return wound.healing.value === 'left open'
      ? owner.say('wound.mouth.open', {}, 'wound.healing')
      : owner.say('wound.mouth.edges', {}, 'wound.healing');
  }
  if (wound.opening) return owner.say('wound.opening', {}, 'wound.opening');
  if (wound.healing.value !== 'left open') return owner.say('wound.edges', {}, 'wound.healing');
  const gap = { gap: decimals(wound.edgeGap.value, 0) };
  const { from, to } = wound.estimate.value;
  return inOnePassage([
    wound.estimate.value.by === 'small opening'
      ? owner.say('wound.openSmall', {}, 'wound.healing')
      : owner.say('wound.open', gap, 'wound.healing', 'wound.edgeGap'),
    owner.say(
      wound.estimate.value.by === 'small opening' ? 'wound.closingSoon' : 'wound.closing',
      { from, to },
      'wound.estimate',
    ),
    ...(wound.bare ? owner.all(`wound.bare.${patient.species.value}`, {}, 'wound.bare') : []),
  ]);
}

/** Reasons of which the patient is the subject; the others speak of the wound. */
const OF_THE_PATIENT: readonly string[] = ['steroids', 'endocrine disease', 'old age'];

/** Every reason for slower healing in plain words, joined as the language joins them; the patient is named once. */
function reasons({ wound, identity }: HomeCase, { tag, owner }: Language): string {
  const { later } = wound.estimate.value;
  const own = later.filter((reason) => OF_THE_PATIENT.includes(reason));
  const others = later.filter((reason) => !OF_THE_PATIENT.includes(reason));
  const list = new Intl.ListFormat(tag);
  const said = own.map((reason, index) =>
    owner.text(`wound.reason.${reason}`, {
      patient: identity.patientName,
      named: index === 0 ? 'yes' : 'no',
    }),
  );
  return list.format([
    ...(said.length === 0 ? [] : [list.format(said)]),
    ...others.map((reason) => owner.text(`wound.reason.${reason}`)),
  ]);
}

/** What the owner can look at: a bandage stays on between visits. */
const look = ({ wound }: HomeCase, { owner }: Language): Said =>
  isBandaged(wound) ? owner.say('wound.lookBandage', {}, 'wound.healing') : owner.say('wound.look');

function bath({ patient, plan }: HomeCase, { owner, clock }: Language): Said {
  const species = patient.species.value;
  const from = plan.bathFrom.value;
  if (from !== null && plan.swimFrom) {
    const { value: swim } = plan.swimFrom;
    const days = { date: clock.shortDay(from), swim: swim === null ? '' : clock.shortDay(swim) };
    const key = swim === null ? 'wound.bathThenAsk' : 'wound.bathThenSwim';
    return owner.say(key, days, 'plan.bathFrom', 'plan.swimFrom');
  }
  return from === null
    ? owner.say(`wound.noBath.${species}`, {}, 'plan.bathFrom')
    : owner.say(`wound.bath.${species}`, { date: clock.shortDay(from) }, 'plan.bathFrom');
}

function stitches({ wound }: HomeCase, { owner }: Language): Said[] {
  const skin = wound.skin.value;
  if (skin.kind === 'none') return [];
  if (wound.mouth && skin.kind === 'dissolve') {
    return [owner.say('wound.dissolve', {}, 'wound.skin')];
  }
  if (skin.kind === 'remove') {
    return [owner.say(hasStaples(wound) ? 'wound.staples' : 'wound.remove', {}, 'wound.skin')];
  }
  if (skin.kind === 'shed') {
    const { from, to } = skin;
    const glue = owner.say('wound.shed', { from, to }, 'wound.skin');
    return skin.overStitches ? [glue, owner.say('wound.hidden', {}, 'wound.skin')] : [glue];
  }
  const dissolving = owner.say(skin.hidden ? 'wound.hidden' : 'wound.dissolve', {}, 'wound.skin');
  if (!skin.absorbedBy) return [dissolving];
  const gone = owner.say('wound.gone', roughly(skin.absorbedBy), 'wound.skin');
  const last = skin.absorbedBy[1];
  return wound.layers.some(({ behaviour }) => (behaviour.absorbedBy?.[1] ?? 0) > last)
    ? [dissolving, gone, owner.say('wound.deeper', {}, 'wound.layers')]
    : [dissolving, gone];
}

const DAYS_PER_WEEK = 7;
/** Of the average month of the calendar, 365.25 / 12. Not a clinical number. */
const DAYS_PER_MONTH = 30.44;
/** Days from which weeks are no longer counted. Not a clinical number. */
const LONG = 84;

/** A span of days in whole weeks or months: nobody counts 119 days, and no strand dissolves to the day. */
function roughly([from, to]: readonly [number, number]) {
  const unit = to > LONG ? ('months' as const) : ('weeks' as const);
  const days = unit === 'months' ? DAYS_PER_MONTH : DAYS_PER_WEEK;
  const [least, most] = [Math.round(from / days), Math.ceil(to / days)];
  return { unit, from: least, to: least === most ? most + 1 : most };
}

/** Whether what the owner sees on the skin are staples rather than stitches. */
export function hasStaples(wound: HomeCase['wound']): boolean {
  return wound.layers.some(
    ({ layer, material }) => layer === 'skin' && material === 'stainless steel staples',
  );
}
