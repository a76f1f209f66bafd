import type { CarePlan, PlanStage } from '../../care/plan.js';
import type { HomeCase } from '../../facts/case-facts.js';
import type { Said } from '../handout.js';
import type { Language } from '../language.js';
import { atStart } from '../moments.js';
import { inOnePassage } from './one-passage.js';
import type { OwnerSection } from './owner-sheet.js';

/** The days from the first night to full activity: what to do, and what is normal to see. */
export const plan: OwnerSection = (facts, language) => {
  const course = facts.plan.course.value;
  return [
    { kind: 'heading', level: 2, text: language.owner.text('plan.title') },
    { kind: 'paragraph', said: inOnePassage(foresight(course, facts, language)) },
    {
      kind: 'list',
      ordered: false,
      items: course.stages.map((stage, index) => {
        const told = inOnePassage([
          ...toDo(stage, index, facts, language),
          ...look(stage, index, facts, language),
        ]);
        const runs = [{ text: days(stage, language), strong: true as const }, { text: ': ' }];
        return { runs: [...runs, ...told.runs], facts: [...new Set([fact(index), ...told.facts])] };
      }),
    },
  ];
};

const fact = (index: number): string => `plan.course.value.stages.${index}`;

/** Whether a stage differs in this from the one before. */
const isNew = ({ stages }: CarePlan, index: number, what: 'activity' | 'look'): boolean =>
  stages[index]?.[what] !== stages[index - 1]?.[what];

/** The first day of a step; the next step ends it. */
function days({ from, to }: PlanStage, { owner, clock, tag }: Language): string {
  const first = clock.shortDay(from);
  return to === from ? atStart(first, tag) : owner.text('plan.onward', { from: first });
}

/** What is normal to see; not said again where it stays the same. */
function look(stage: PlanStage, index: number, facts: HomeCase, { owner }: Language): Said[] {
  if (!isNew(facts.plan.course.value, index, 'look')) return [];
  const looks = facts.wound.opening ? 'plan.openingLook' : 'plan.look';
  return [owner.say('plan.see', { look: owner.text(`${looks}.${stage.look}`) }, fact(index))];
}

function toDo(stage: PlanStage, index: number, facts: HomeCase, language: Language): Said[] {
  const { plan: told, patient, identity, home } = facts;
  const { owner, clock } = language;
  const course = told.course.value;
  const species = patient.species.value;
  const within = (date: string | null): date is string =>
    date !== null && date >= stage.from && (stage.to === null || date <= stage.to);
  const said: Said[] = [];
  if (isNew(course, index, 'activity')) {
    said.push(owner.say(`plan.activity.${stage.activity}.${species}`, {}, fact(index)));
  }
  if (index === 1) said.push(feeding(stage, facts, language));
  const collarUntil = home.collarUntil.value;
  if (within(collarUntil)) {
    const date = clock.shortDay(collarUntil);
    const key = stage.from === collarUntil ? 'plan.collarThatDay' : 'plan.collarOff';
    const opening = facts.wound.opening ? 'stays' : 'none';
    said.push(owner.say(key, { date, opening }, 'home.collarUntil'));
  }
  const bathFrom = told.bathFrom.value;
  if (within(bathFrom)) {
    const date = clock.shortDay(bathFrom);
    const key = stage.from === bathFrom ? 'plan.bathNow' : 'plan.bath';
    const who = told.swimFrom ? 'dogNoSwim' : species;
    said.push(owner.say(`${key}.${who}`, { date }, 'plan.bathFrom'));
  }
  if (stage.to === null && told.fullFrom.value === null) {
    said.push(owner.say('plan.ask', { patient: identity.patientName }, 'plan.fullFrom'));
  }
  return said.length === 0 ? [owner.say('plan.same')] : said;
}

function feeding(
  { from }: PlanStage,
  { patient, plan: { food, softUntil } }: HomeCase,
  { owner, clock }: Language,
): Said {
  const species = patient.species.value;
  if (softUntil && softUntil.value >= from) {
    const date = clock.shortDay(softUntil.value);
    const key = softUntil.value === from ? 'plan.feed.softThatDay' : 'plan.feed.softUntil';
    return owner.say(key, { date }, 'plan.softUntil');
  }
  if (species === 'rabbit' || species === 'ferret') {
    return owner.say(`plan.feed.${species}`, {}, 'patient.species');
  }
  return owner.say(
    // The record gives soft food for the first meal, and says nothing of the next ones.
    food.value?.kind === 'soft food' ? 'plan.feed.ask' : 'plan.feed.usual',
    {},
    'plan.food',
  );
}

/** How far the days can be known. That steps have moved is told as well; an open wound has no figure to move them by. */
const foresight = (course: CarePlan, { wound }: HomeCase, { owner }: Language): Said[] => [
  ...(course.later.length === 0 || wound.healing.value === 'left open'
    ? []
    : [owner.say('plan.later', {}, 'plan.course')]),
  owner.say('plan.unknown', {}, 'plan.course'),
];
