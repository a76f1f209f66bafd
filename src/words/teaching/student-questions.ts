import { exercises } from './exercises.js';
import type { LearnerSection } from './learner-section.js';

/** The questions of the record, without their answers. */
export const questionsPart: LearnerSection = (facts, language) => [
  { kind: 'heading', level: 2, text: language.learner.text('student.title') },
  {
    kind: 'list',
    ordered: true,
    items: exercises(facts, language).map(({ question }) => question),
  },
];
