import type { ExerciseFacts } from '../../facts/exercises.js';
import type { PublicFacts } from '../../privacy/public-facts.js';
import type { Block, Figure } from '../handout.js';
import type { Language } from '../language.js';
import type { Photo } from '../photos.js';

/** Figures drawn from the same facts, ready to be placed. */
export interface CaseFigures {
  /** Null where the record holds no reading to draw. */
  readonly vitals: Figure | null;
  /** The heart with the way of its current. */
  readonly heart: Figure;
  /** One for each strip. */
  readonly strips: readonly StripFigure[];
  /** What a question shows, by its name. */
  readonly exercises: Readonly<Partial<Record<ExerciseFacts['name'], Figure>>>;
  /** Photos that the owner allows to show. */
  readonly photos: readonly Photo[];
}

export interface StripFigure {
  readonly figure: Figure;
  /** Seconds of the strip that the figure shows. */
  readonly seconds: number;
}

/** One part of a document for learners. */
export type LearnerSection = (
  facts: PublicFacts,
  language: Language,
  figures: CaseFigures,
) => readonly Block[];
