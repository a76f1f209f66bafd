import { Temporal } from 'temporal-polyfill';
import { drugClass } from '../care/drug-class.js';
import {
  bathFrom,
  carePlan,
  closedFrom,
  leastRest,
  movedDay,
  mustKeepEating,
} from '../care/plan.js';
import { signTopics } from '../care/warning-topics.js';
import { REMOVAL_DAYS } from '../care/wound.js';
import type { HomeText } from '../record/case-schema.js';
import type { Formulary } from '../record/formulary-schema.js';
import type { Species } from '../record/vocabulary.js';
import type { Located } from '../record/yaml-file.js';
import { asked, partOf, type Question } from './asked.js';
import type { HomeFacts, PlanFacts, WoundFacts } from './case-facts.js';
import { computed, type Fact, notKnown, recorded, type Stated } from './fact.js';
import { daysOf, minutePrecision, type Timeline } from './timeline.js';

/**
 * Hours for which an opioid of the clinic may still show at home; who whines a day later is not told that it is the drug, as
 * it is more likely pain. Source: from memory, unverified.
 */
const STILL_FELT = 24;

/**
 * Days after which a collar is a burden that somebody has to have meant; most come off after 10 to 14, with the stitches
 * (common practice). Own choice, not a clinical number.
 */
const LONGEST_COLLAR = 42;

/** Days after which a drain does more harm than good. Own choice, not a clinical number: twice what is usual. */
const LONGEST_DRAIN = 10;

/** Hours without food at home after which somebody has to have meant it. Common practice: a day. */
const LONGEST_FAST = 24;

/** Hours after the end of anesthesia in which a patient may be sleepy and wobbly from it. From memory, unverified. */
const WEARS_OFF = 24;

/** The plan from the day at home to full activity. */
export function planFacts(
  record: Located<HomeText>,
  formulary: Formulary | null,
  time: Timeline,
  wound: WoundFacts,
  home: HomeFacts,
): PlanFacts {
  const { value, where } = record;
  const surgery = value.surgery.date;
  const estimate = wound.estimate.value;
  const full = value.home['full activity after'];
  const fullFrom: Stated<string> = full
    ? computed(
        after(surgery, daysOf(full)),
        'day of surgery plus the days',
        where('home', 'full activity after'),
      )
    : notKnown('The record does not say when all activity is allowed again.');
  const reasons =
    estimate.later.length > 0 ? `; later because of ${estimate.later.join(', ')}` : '';
  const homeAt = time.local(value.surgery.discharge);
  const given = value.anesthesia.drugs
    .filter(({ at }) => time.local(at).until(homeAt).total('hours') < STILL_FELT)
    .map(({ drug }) => drugClass(formulary, drug));
  const taken = [...home.medicines, ...home.asNeeded].map(({ drug }) => drugClass(formulary, drug));
  const takenFrom = [
    where('home', 'medicines'),
    ...(home.asNeeded.length > 0 ? [where('home', 'as needed')] : []),
  ];
  const placed = [where('closure', 'healing'), where('closure', 'layers')];
  const bath = bathFact(surgery, wound, home, placed);
  return {
    food: foodFact(record, time),
    ...(time.local(value.anesthesia.end).until(homeAt).total('hours') > WEARS_OFF && {
      awake: computed(
        true as const,
        `discharge more than ${WEARS_OFF} hours after the end of anesthesia`,
        where('anesthesia', 'end'),
        where('surgery', 'discharge'),
      ),
    }),
    course: computed(
      carePlan({
        surgery,
        homeOn: homeAt.toPlainDate().toString(),
        estimate,
        restUntil: home.restUntil.value,
        fullFrom: fullFrom.value,
        inMouth: wound.mouth !== undefined,
        bare: wound.bare !== undefined,
      }),
      estimate.by !== 'joined edges'
        ? 'days after surgery of an open wound, rest and full activity as recorded'
        : `days 1, 3, 7 and 10 after surgery (common practice), moved to days ${[1, 3, 7, 10].map((day) => movedDay(day, estimate)).join(', ')}${reasons}`,
      where('surgery', 'date'),
      where('surgery', 'discharge'),
      where('home', 'rest'),
      ...placed,
    ),
    ...softFood(record, wound),
    bathFrom: bath,
    ...swimFact(value.patient.species, bath, fullFrom),
    fullFrom,
    opioid: computed(
      [...given, ...taken].includes('opioid'),
      `the classes of the drugs of the last ${STILL_FELT} hours in the clinic and of those for home`,
      where('anesthesia', 'drugs'),
      ...takenFrom,
    ),
    signs: computed(
      signTopics({
        species: value.patient.species,
        skin: wound.skin.value,
        staples: wound.layers.some(
          ({ layer, material }) => layer === 'skin' && material === 'stainless steel staples',
        ),
        open: wound.healing.value === 'left open',
        bare: wound.bare !== undefined,
        inMouth: wound.mouth !== undefined,
        opening: wound.opening !== undefined,
        drain: wound.drain?.what ?? null,
        collar: home.collarUntil.value !== null,
        classes: taken,
        asNeeded: home.asNeeded.length > 0,
      }),
      'the species, the closure and the classes of the medicines',
      where('patient', 'species'),
      ...takenFrom,
      ...placed,
    ),
  };
}

const after = (date: string, days: number): string =>
  Temporal.PlainDate.from(date).add({ days }).toString();

function foodFact({ value, where }: Located<HomeText>, time: Timeline): PlanFacts['food'] {
  const { food } = value.home;
  if (!food) return notKnown('The record does not say when the patient may eat.');
  const from = time.local(food.from);
  const discharge = time.local(value.surgery.discharge);
  return recorded(
    {
      from: minutePrecision(from),
      atOnce: Temporal.PlainDateTime.compare(from, discharge) <= 0,
      amount: food['how much'],
      kind: food.what,
    },
    where('home', 'food'),
  );
}

/**
 * Until when there is soft food alone: as the record says, else until a wound in the mouth is closed (common practice). A
 * rabbit needs its hay, so that nothing is said of it unless the record does.
 */
function softFood(
  { value, where }: Located<HomeText>,
  wound: WoundFacts,
): Pick<PlanFacts, 'softUntil'> {
  const { date } = value.surgery;
  const stated = value.home['soft food'];
  if (stated) {
    const place = where('home', 'soft food');
    return {
      softUntil: computed(after(date, daysOf(stated)), 'day of surgery plus the days', place),
    };
  }
  if (!wound.mouth || value.patient.species === 'rabbit') return {};
  const { to } = wound.estimate.value;
  return {
    softUntil: computed(
      after(date, to),
      `day ${to} after surgery, when a wound in the mouth is closed (common practice)`,
      where('surgery', 'date'),
      where('surgery', 'procedure'),
    ),
  };
}

function bathFact(
  surgery: string,
  wound: WoundFacts,
  home: HomeFacts,
  from: readonly string[],
): Stated<string> {
  const estimate = wound.estimate.value;
  if (wound.mouth) return notKnown('A wound in the mouth has no bath to wait for.');
  if (estimate.by === 'filling in') {
    return notKnown(
      'An open wound is watched at visits; the record does not say when it is closed.',
    );
  }
  const last = lastDays(surgery, wound, home);
  if (last === null)
    return notKnown('It is not known yet when the stitches or the drain come out.');
  // Nobody looks at a small opening before it is bathed, so that its last day counts.
  const closed = estimate.by === 'small opening' ? estimate.to : estimate.from;
  return computed(
    bathFrom(surgery, { ...estimate, from: closed }, last),
    `the day after the latest of day ${closed}, stitches, glue, drain and collar (common practice)`,
    ...from,
  );
}

/**
 * When a dog may swim where that is not with the bath: on the day of full activity, as a swim strains a body as a run does
 * (common practice).
 */
function swimFact(
  species: Species,
  bath: Stated<string>,
  fullFrom: Stated<string>,
): Pick<PlanFacts, 'swimFrom'> {
  if (species !== 'dog' || bath.value === null) return {};
  if (fullFrom.value !== null && fullFrom.value <= bath.value) return {};
  return { swimFrom: fullFrom };
}

/** Days on which stitches, glue, a drain and the collar go, each at the latest; null where one is not known. */
function lastDays(surgery: string, wound: WoundFacts, home: HomeFacts): string[] | null {
  const out = wound.removal?.value;
  const skin = wound.skin.value;
  const days: (string | null)[] = [
    ...(out ? [out.proposed ?? out.next, ...(out.set ? [] : out.others)] : []),
    ...(wound.drain ? [wound.drain.on.value] : []),
    ...(skin.kind === 'shed' ? [after(surgery, skin.to)] : []),
    ...(home.collarUntil.value === null ? [] : [home.collarUntil.value]),
  ];
  return days.includes(null) ? null : (days as string[]);
}

/** What a veterinarian is asked about the plan. */
export function planWarnings(
  { value, at }: Located<HomeText>,
  time: Timeline,
  wound: WoundFacts,
  home: HomeFacts,
  { food }: PlanFacts,
): Question[] {
  const warnings: Question[] = [];
  const out: Fact<string> | null = stitchesOut(wound);
  const collar = home.collarUntil.value;
  if (out && collar !== null && collar < out.value) {
    warnings.push({
      ...asked('a collar off before the stitches', partOf.home(value)),
      ...at('home', 'collar'),
      found: `a collar until ${collar}`,
      expected: `a collar at least until the stitches come out on ${out.value} (common practice)`,
    });
  }
  const { collar: worn } = value.home;
  const estimate = wound.estimate.value;
  if (worn && daysOf(worn) > Math.max(LONGEST_COLLAR, estimate.to)) {
    warnings.push({
      ...asked('a collar left on for long', partOf.home(value)),
      ...at('home', 'collar'),
      found: `a collar for ${worn.written}, until ${collar}`,
      expected: `at most ${Math.max(LONGEST_COLLAR, estimate.to)} days; most come off after 10 to 14 (common practice)`,
    });
  }
  const rest = leastRest(value.surgery.procedure, estimate);
  const holds = after(value.surgery.date, rest);
  // Running does not pull at gums.
  if (estimate.by === 'joined edges' && !wound.mouth && home.restUntil.value < holds) {
    const usual =
      estimate.from === REMOVAL_DAYS.from ? '' : `, later than day ${REMOVAL_DAYS.from}`;
    const until =
      rest > estimate.from
        ? `what was mended below the skin bears a run, on day ${rest} (common practice; the day is from memory, unverified)`
        : `the edges hold on day ${estimate.from}${usual} (common practice)`;
    warnings.push({
      ...asked('rest that ends too soon', partOf.home(value)),
      ...at('home', 'rest'),
      found: `rest until ${home.restUntil.value}`,
      expected: `rest at least until ${until}`,
    });
  }
  const closed = closedFrom(estimate);
  if (closed !== null) {
    const day = after(value.surgery.date, closed);
    const open = (field: string, found: string, ends: string): Question => ({
      ...asked('an open wound that is left alone too soon', partOf.home(value)),
      ...at('home', field),
      found,
      expected: `${ends} at least until ${day}, the first day on which ${wound.edgeGap.value} mm can have closed (from memory, unverified)`,
    });
    const seen = lastLook(home);
    if (collar !== null && collar < day) {
      warnings.push(open('collar', `a collar until ${collar}`, 'a collar'));
    }
    if (home.restUntil.value < day) {
      warnings.push(open('rest', `rest until ${home.restUntil.value}`, 'rest'));
    }
    // Nobody is called in for an opening that seals by itself (common practice).
    if (estimate.by === 'filling in' && (seen === null || seen < day)) {
      const found = seen === null ? 'no visit to look at the wound' : `a last look on ${seen}`;
      warnings.push(open('rechecks', found, 'visits'));
    }
  }
  if (food.value && !food.value.atOnce && mustKeepEating(value.patient.species)) {
    warnings.push({
      ...asked('food withheld from a patient that must eat', partOf.food(value)),
      ...at('home', 'food', 'from'),
      found: value.home.food?.from as string,
      expected: `food as soon as a ${value.patient.species} is awake (common practice)`,
    });
  }
  const drain = value.closure.drain?.['out after'];
  if (drain && daysOf(drain) > LONGEST_DRAIN) {
    warnings.push({
      ...asked('a drain left in for long', partOf.closure(value)),
      ...at('closure', 'drain', 'out after'),
      found: `a drain that comes out after ${drain.written}`,
      expected: `at most ${LONGEST_DRAIN} days; most come out after 3 to 5 (common practice)`,
    });
  }
  const fed = food.value && Temporal.PlainDateTime.from(food.value.from);
  const gone = time.local(value.surgery.discharge);
  if (fed && gone.until(fed).total('hours') > LONGEST_FAST) {
    warnings.push({
      ...asked('food withheld from a patient that must eat', partOf.food(value), 'Mend the date'),
      ...at('home', 'food', 'from'),
      found: value.home.food?.from as string,
      expected: `food at most ${LONGEST_FAST} h after the patient goes home (common practice)`,
    });
  }
  return warnings;
}

/** The last visit at which somebody looks at the wound; null where there is none. */
function lastLook({ rechecks }: HomeFacts): string | null {
  const looks = rechecks
    .filter(({ what }) => what === 'wound check' || what === 'bandage change')
    .flatMap(({ on }) => (on.value === null ? [] : [on.value]));
  return looks.sort().at(-1) ?? null;
}

function stitchesOut({ removal }: WoundFacts): Fact<string> | null {
  const day = removal?.value.proposed ?? removal?.value.next ?? null;
  return day === null || !removal ? null : { ...removal, value: day };
}
