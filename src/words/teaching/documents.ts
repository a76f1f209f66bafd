import type { PublicFacts } from '../../privacy/public-facts.js';
import type { Block, Handout } from '../handout.js';
import type { Language } from '../language.js';
import { markdownBlocks } from '../markdown.js';
import { photoBlocks } from '../photos.js';
import { answersPart, exercisesPart } from './asked.js';
import { breathPart } from './breath.js';
import { closurePart } from './closure.js';
import { deathPart } from './death.js';
import { drugsPart, eventsPart } from './events.js';
import { heartPart } from './heart.js';
import { intervalsPart } from './intervals.js';
import type { CaseFigures, LearnerSection } from './learner-section.js';
import { oxygenPart } from './oxygen.js';
import { patientPart, procedurePart } from './patient.js';
import { pressurePart } from './pressure.js';
import { rhythmPart } from './rhythm.js';
import { sourcesPart } from './sources.js';
import { changesPart, storyPart } from './story.js';
import { ratePart, stripPart } from './strip.js';
import { ofEachStrip } from './strip-section.js';
import { questionsPart } from './student-questions.js';
import { readingsFold, readingsPart, vitalsPart } from './vitals.js';

const cautionPart: LearnerSection = (_facts, { learner }) => [
  {
    kind: 'callout',
    tone: 'note',
    title: learner.text('caution.title'),
    said: [learner.say('caution.text')],
  },
];

/** What a case tells, in the order in which one asks for it; the author's own answers come after it. */
const TEACHING: readonly LearnerSection[] = [
  cautionPart,
  deathPart,
  patientPart,
  procedurePart,
  storyPart,
  vitalsPart,
  changesPart,
  readingsFold,
  ofEachStrip(stripPart, rhythmPart, heartPart, intervalsPart, breathPart, ratePart),
  pressurePart,
  oxygenPart,
  closurePart,
];

/** What a reader does with it, and what it rests on. */
const AFTERWARDS: readonly LearnerSection[] = [exercisesPart, sourcesPart];

const RECORD: readonly LearnerSection[] = [
  cautionPart,
  deathPart,
  patientPart,
  drugsPart,
  eventsPart,
  vitalsPart,
  readingsPart,
  ofEachStrip(stripPart),
  questionsPart,
];

/**
 * The teaching page of a case.
 * @param remarks the author's `teaching.md`; empty where there is none
 */
export function teachingPage(
  facts: PublicFacts,
  remarks: string,
  language: Language,
  figures: CaseFigures,
  paper: Handout['paper'],
  approved = false,
): Handout {
  const { learner, procedures } = language;
  const audience: Block[] =
    remarks.trim() === ''
      ? []
      : [
          { kind: 'heading', level: 2, text: learner.text('questions.audience') },
          ...markdownBlocks(remarks).map(demoted),
        ];
  return {
    ...common(language, paper, approved),
    reader: 'learner',
    title: facts.published.title,
    lead: learner.text('teaching.lead', {
      called: facts.published.patient,
      procedure: procedures.text(`${facts.procedure}.learner.name`),
    }),
    blocks: [
      ...TEACHING.flatMap((part) => part(facts, language, figures)),
      ...photoBlocks(figures.photos),
      ...audience,
      ...AFTERWARDS.flatMap((part) => part(facts, language, figures)),
    ],
  };
}

/** The answers to what a teaching page asks, on a sheet of their own; null where it asks nothing. */
export function answersSheet(
  facts: PublicFacts,
  language: Language,
  figures: CaseFigures,
  paper: Handout['paper'],
  approved = false,
): Handout | null {
  const { learner } = language;
  const blocks = answersPart(facts, language, figures);
  return blocks.length === 0
    ? null
    : {
        ...common(language, paper, approved),
        reader: 'learner',
        title: learner.text('exercises.answers', { title: facts.published.title }),
        lead: learner.text('exercises.lead'),
        blocks: [...cautionPart(facts, language, figures), ...blocks],
      };
}

/** The anonymized anesthesia record with its questions. */
export function anesthesiaRecord(
  facts: PublicFacts,
  language: Language,
  figures: CaseFigures,
  paper: Handout['paper'],
  approved = false,
): Handout {
  const { learner, procedures } = language;
  return {
    ...common(language, paper, approved),
    reader: 'student',
    title: learner.text('record.title', {
      procedure: procedures.text(`${facts.procedure}.learner.name`),
    }),
    lead: learner.text('record.lead', { called: facts.published.patient }),
    blocks: RECORD.flatMap((part) => part(facts, language, figures)),
  };
}

/** What both public documents share: no sender, no date. */
function common({ tag, learner }: Language, paper: Handout['paper'], approved: boolean) {
  return {
    language: tag,
    paper,
    sender: [],
    draft: approved ? null : learner.text('draft'),
    foot: approved ? `${learner.text('approved')} ${learner.text('foot')}` : learner.text('foot'),
    dated: null,
  };
}

/** The author's headings stand below the page's own. */
function demoted(block: Block): Block {
  return block.kind === 'heading' ? { ...block, level: 3 } : block;
}
