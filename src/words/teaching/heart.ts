import type { StripSection } from './strip-section.js';

/** How the current runs, with the heart that the page's scripts bring to life; once, as it can follow any strip. */
export const heartPart: StripSection = (_facts, { learner }, figures, index) =>
  index > 0
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
