import type { Identity } from '../facts/case-facts.js';
import { once } from '../units/once.js';
import { type Clockwork, clockwork } from './moments.js';
import { flatten, type Phrasebook, phrasebook } from './phrasebook.js';
import { type Term, termsOf } from './reading/terms.js';
import { vocabularyOf } from './reading/vocabulary.js';

/** The files of one language folder under content/, parsed. */
export interface LanguageContent {
  readonly common: unknown;
  readonly owner: unknown;
  readonly learner: unknown;
  readonly trade: unknown;
  readonly procedures: unknown;
  readonly purposes: unknown;
  readonly rhythms: unknown;
  readonly library: unknown;
  readonly live: unknown;
  readonly site: unknown;
  readonly reasons: unknown;
  readonly terms: unknown;
}

/** One language ready to speak: its phrasebooks, its dates and its plain words for the trade's. */
export interface Language {
  readonly tag: string;
  readonly common: Phrasebook;
  readonly owner: Phrasebook;
  readonly learner: Phrasebook;
  readonly trade: Phrasebook;
  readonly procedures: Phrasebook;
  readonly purposes: Phrasebook;
  readonly rhythms: Phrasebook;
  /** Words of the explanations library: its pages, its drawings and its chart to fill in. */
  readonly library: Phrasebook;
  /** What the scripts of a page say, by key; `{name}` stands for a value. */
  readonly live: Readonly<Record<string, string>>;
  /** The frame of the public site, its lists, its search and its feed. */
  readonly site: Phrasebook;
  readonly reasons: Phrasebook;
  /** Words that an owner's sheet may use only with their explanation. */
  readonly terms: readonly Term[];
  readonly clock: Clockwork;
  /** The same clock by 24 hours. */
  readonly clock24: Clockwork;
  /** Every word that the owner's sheet and the documents of this language may say, in small letters. */
  readonly vocabulary: () => ReadonlySet<string>;
}

export function languageOf(tag: string, content: LanguageContent): Language {
  const book = (messages: unknown) => phrasebook(flatten(messages), tag);
  const common = book(content.common);
  const names = { noon: common.text('clock.noon'), midnight: common.text('clock.midnight') };
  return {
    tag,
    common,
    owner: book(content.owner),
    learner: book(content.learner),
    trade: book(content.trade),
    procedures: book(content.procedures),
    purposes: book(content.purposes),
    rhythms: book(content.rhythms),
    library: book(content.library),
    live: flatten(content.live),
    site: book(content.site),
    reasons: book(content.reasons),
    terms: termsOf(content.terms, content.trade),
    clock: clockwork(tag, names),
    clock24: clockwork(tag, names, '24 h'),
    // Most commands never ask for it.
    vocabulary: once(() => vocabularyOf(Object.values(flatten(content)))),
  };
}

/** The language of an owner's sheet, which tells the hours as the clinic has it. */
export function ownersLanguage(
  languages: ReadonlyMap<string, Language>,
  { owner, clinic }: Identity,
): Language {
  const language = languages.get(owner.language) as Language;
  return clinic.clock === '24 h' ? { ...language, clock: language.clock24 } : language;
}
