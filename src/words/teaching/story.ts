import { hasOtherBeats } from '../../facts/other-origin.js';
import type { Turn } from '../../facts/story.js';
import type { PublicFacts } from '../../privacy/public-facts.js';
import { type Change, COMPARED_MINUTES, LEAST_PRESSURE_CHANGE } from '../../vitals/change.js';
import type { Block, Cell, Said } from '../handout.js';
import type { Language } from '../language.js';
import { plain } from '../markdown.js';
import { decimals } from '../numbers.js';
import { inOnePassage } from '../owner/one-passage.js';
import { eventTable } from './events.js';
import type { LearnerSection } from './learner-section.js';
import { relations, shownAgainst, whyOf } from './shown-rate.js';
import { whichStrip } from './strip-section.js';

/** What happened on one time line, in words and as the list of what the chart numbers. */
export const storyPart: LearnerSection = (facts, language) => {
  const { learner, trade } = language;
  const { phases, untimed } = facts.story;
  const course = phases
    .map(({ name, from, to }) =>
      learner.text('story.phase', {
        phase: learner.text(`story.phases.${name}`),
        from: decimals(from, 0),
        to: decimals(to, 0),
      }),
    )
    .join('; ');
  const lacking = untimed.map((what) => trade.text(`events.${what}.learner`)).join(', ');
  return [
    { kind: 'heading', level: 2, text: learner.text('story.title') },
    ...(phases.length === 0
      ? []
      : [paragraph(learner.say('story.course', { phases: course }, 'story.phases'))]),
    ...(untimed.length === 0
      ? []
      : [paragraph(learner.say('story.untimed', { events: lacking }, 'story.untimed'))]),
    ...eventTable(facts, language),
  ];
};

/** What pressure and rate did at each step, said only where the readings carry it. */
export const changesPart: LearnerSection = (facts, language) => {
  const { learner } = language;
  const { turns } = facts.story;
  const measured = turns.some(({ pressure, rate }) => isTold(pressure) || isTold(rate));
  const compared = turns.filter(({ verdict }) => verdict !== null);
  const moved = turns.flatMap((turn, index) => why(turn, `story.turns.${index}`, facts, language));
  const least = { least: LEAST_PRESSURE_CHANGE };
  return [
    { kind: 'heading', level: 3, text: learner.text('story.changes') },
    ...(measured ? [turnTable(turns, language)] : []),
    ...leftOut(facts.story, learner),
    ...(facts.vitals.lowPressure.value === null
      ? [paragraph(learner.say('story.noPressure', {}, 'vitals.lowPressure'))]
      : []),
    ...(compared.length > 0 && moved.length === 0
      ? [paragraph(learner.say('story.allHeld', least, 'story.turns'))]
      : []),
    ...moved.map((said) => paragraph(said)),
    ...facts.strips.map((strip, index) =>
      paragraph(...whichStrip(facts, index, language), ...number(strip, index, language)),
    ),
    ...(compared.length > 0 ? [paragraph(learner.say('story.least', least, 'story.turns'))] : []),
  ];
};

/**
 * Why a change mattered, and what drug may have had a part in it; where several steps lie in the same minute or shortly
 * before, that it may be the doing of any.
 */
function why(turn: Turn, fact: string, facts: PublicFacts, language: Language): Said[] {
  const { verdict } = turn;
  if (verdict !== 'fell' && verdict !== 'rose') return [];
  return [
    inOnePassage([
      ofSteps(turn, verdict, fact, language),
      ...drugsBeside(turn, facts, language.learner),
    ]),
  ];
}

function ofSteps(
  { steps, minute, soonAfter, rate }: Turn,
  verdict: 'fell' | 'rose',
  fact: string,
  language: Language,
): Said {
  const { learner } = language;
  const [{ what }, ...others] = steps;
  const told = { event: named(steps, language), minute: decimals(minute, 0) };
  if (soonAfter !== null) {
    const last = named(soonAfter.steps, language);
    const ago = decimals(minute - soonAfter.minute, 0);
    return learner.say(`story.either.${verdict}`, { ...told, last, ago }, fact);
  }
  if (others.some((other) => other.what !== what)) {
    return learner.say(`story.together.${verdict}`, told, fact);
  }
  // The body's answer to a knife raises both: a rate that fell speaks of something else.
  const isMixed = what === 'first incision' && verdict === 'rose' && (rate.difference ?? 0) < 0;
  return learner.say(`story.why.${what}.${isMixed ? 'roseAlone' : verdict}`, {}, fact);
}

/** What was given within the minutes that are compared. */
function drugsBeside(
  { minute }: Turn,
  { anesthesia: { drugs } }: PublicFacts,
  learner: Language['learner'],
): Said[] {
  const beside = drugs.flatMap((drug, index) =>
    Math.abs(drug.minute - minute) <= COMPARED_MINUTES ? [{ ...drug, index }] : [],
  );
  if (beside.length === 0) return [];
  const given = beside.map((one) => `${one.drug} (${decimals(one.minute, 0)})`).join(', ');
  return [
    learner.say(
      'story.drugs',
      { drugs: given },
      ...beside.map(({ index }) => `anesthesia.drugs.${index}`),
    ),
  ];
}

/** The steps of a minute by their names, each once. */
const named = (steps: Turn['steps'], { trade, tag }: Language): string =>
  new Intl.ListFormat(tag).format(
    new Set(steps.map(({ what }) => trade.text(`events.${what}.learner`))),
  );

/** Displayed rates that the comparison does not use, and why. */
const leftOut = ({ miscounted }: PublicFacts['story'], learner: Language['learner']): Block[] =>
  miscounted.map(({ from, to, relation, shown }, index) =>
    paragraph(
      learner.say(
        'story.miscounted',
        {
          from: decimals(from, 0),
          to: decimals(to, 0),
          single: from === to ? 'yes' : 'no',
          at: decimals(shown[0], 0),
          relation: learner.text(`strip.shown.relations.${relation}`),
        },
        `story.miscounted.${index}`,
      ),
    ),
  );

function turnTable(turns: readonly Turn[], language: Language): Block {
  const { learner } = language;
  const cell = (text: string, fact: string): Cell => ({ kind: 'said', said: [plain(text, fact)] });
  const column = (key: string, share: number) => ({
    title: learner.text(`story.${key}`),
    align: 'start' as const,
    share,
  });
  const side = ({ median, count }: NonNullable<Change['before']>) =>
    learner.text('story.side', { median: decimals(median, 1), count });
  const then = ({ before, after }: Change) =>
    before && after
      ? learner.text('story.then', {
          before: side(before),
          after: side(after),
        })
      : learner.text('story.tooFew');
  return {
    kind: 'table',
    caption: learner.text('story.caption', { minutes: COMPARED_MINUTES }),
    columns: [column('step', 32), column('pressure', 24), column('rate', 24), column('did', 20)],
    rows: turns.map((turn, index) => {
      const fact = `story.turns.${index}`;
      return [
        cell(
          learner.text('story.stepAt', {
            number: turn.steps.map(({ event }) => event + 1).join(', '),
            event: named(turn.steps, language),
            minute: decimals(turn.minute, 0),
          }),
          fact,
        ),
        cell(then(turn.pressure), `${fact}.pressure`),
        cell(then(turn.rate), `${fact}.rate`),
        cell(
          learner.text(`story.verdicts.${turn.verdict ?? 'none'}`, {
            by: decimals(Math.abs(turn.pressure.difference ?? 0), 1),
          }),
          `${fact}.verdict`,
        ),
      ];
    }),
  };
}

const isTold = ({ difference }: Change): boolean => difference !== null;

/** The displayed rate against the counted one, and what follows from it. */
function number(
  { shown, analysis }: PublicFacts['strips'][number],
  index: number,
  { learner }: Language,
): Said[] {
  const fact = `strips.${index}.shown`;
  if (shown.value === null || analysis.rate === null) {
    const why = 'why' in shown ? learner.text(`strip.unknown.${shown.why}`) : '';
    return [learner.say('story.numberUnknown', { why }, fact)];
  }
  const { during, verdict } = shown.value;
  return [
    learner.say(
      `story.number.${during ? 'during' : 'around'}`,
      {
        counted: decimals(analysis.rate.mean, 0),
        shown: shownAgainst(shown.value, learner),
      },
      fact,
      `strips.${index}.analysis.rate.mean`,
    ),
    ...(verdict === 'mixed' ? [learner.say('story.numberMixed', {}, fact)] : []),
    ...relations(shown.value).map((relation) =>
      learner.say(`story.numberWhy.${whyOf(relation, during)}`, {}, fact),
    ),
    ...(hasOtherBeats(analysis)
      ? [learner.say('rhythm.pulse', {}, `strips.${index}.analysis`)]
      : []),
  ];
}

const paragraph = (...said: readonly Said[]): Block => ({
  kind: 'paragraph',
  said: inOnePassage(said),
});
