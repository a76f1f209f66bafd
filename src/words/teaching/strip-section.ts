import type { PublicFacts } from '../../privacy/public-facts.js';
import type { Block, Said } from '../handout.js';
import type { Language } from '../language.js';
import { decimals } from '../numbers.js';
import type { CaseFigures, LearnerSection } from './learner-section.js';

/** One part of what is told of a strip, by its place among the strips of the case. */
export type StripSection = (
  facts: PublicFacts,
  language: Language,
  figures: CaseFigures,
  index: number,
) => readonly Block[];

/** All sections of one strip before those of the next, lest what is said of one is taken for the other. */
export const ofEachStrip =
  (...sections: readonly StripSection[]): LearnerSection =>
  (facts, language, figures) =>
    facts.strips.flatMap((_, index) =>
      sections.flatMap((section) => section(facts, language, figures, index)),
    );

type Strips = Pick<PublicFacts, 'strips'>;

/** A title with number and minute of the strip that it stands over; as it is where the case has but one. */
export const titled = (
  title: string,
  facts: Strips,
  index: number,
  { learner }: Language,
): string =>
  facts.strips.length === 1
    ? title
    : learner.text('strip.titled', { title, ...placeOf(facts, index) });

/** Which strip a passage speaks of; nothing where the case has but one. */
export const whichStrip = (facts: Strips, index: number, { learner }: Language): Said[] =>
  facts.strips.length === 1
    ? []
    : [learner.say('strip.which', placeOf(facts, index), `strips.${index}.begins`)];

function placeOf({ strips }: Strips, index: number) {
  const begins = strips[index]?.begins.value ?? null;
  return {
    number: index + 1,
    count: strips.length,
    minute: begins === null ? 'unknown' : decimals(begins, 0),
  };
}
