import { type Clockwork, clockwork } from './moments.js';
import { flatten, type Phrasebook, phrasebook } from './phrasebook.js';

/** The files of one language folder under content/, parsed. */
export interface LanguageContent {
  readonly owner: unknown;
  readonly learner: unknown;
  readonly trade: unknown;
  readonly procedures: unknown;
  readonly purposes: unknown;
  readonly rhythms: unknown;
}

/** One language ready to speak: its phrasebooks, its dates and its plain words for the trade's. */
export interface Language {
  readonly tag: string;
  readonly owner: Phrasebook;
  readonly learner: Phrasebook;
  readonly trade: Phrasebook;
  readonly procedures: Phrasebook;
  readonly purposes: Phrasebook;
  readonly rhythms: Phrasebook;
  readonly clock: Clockwork;
}

export function languageOf(tag: string, content: LanguageContent): Language {
  const book = (messages: unknown) => phrasebook(flatten(messages), tag);
  return {
    tag,
    owner: book(content.owner),
    learner: book(content.learner),
    trade: book(content.trade),
    procedures: book(content.procedures),
    purposes: book(content.purposes),
    rhythms: book(content.rhythms),
    clock: clockwork(tag),
  };
}
