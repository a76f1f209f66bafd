import type { LearnerSection } from './learner-section.js';

/** How the current runs, with the heart that the page's scripts bring to life; where there is a strip for it to follow. */
export const heartPart: LearnerSection = ({ strips }, { learner }, figures) =>
  strips.length === 0
    ? []
    : [
        { kind: 'heading', level: 3, text: learner.text('heart.title') },
        { kind: 'paragraph', said: learner.say('heart.text') },
        {
          kind: 'figure',
          name: 'heart',
          figure: figures.heart,
          caption: learner.say('heart.figure'),
          alternative: learner.text('heart.alternative'),
        },
      ];
