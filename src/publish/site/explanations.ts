import type { PublicFacts } from '../../privacy/public-facts.js';
import type { About } from '../library/front-matter.js';
import { fileAt, pagesOf, placesOn, textOf } from '../library/places.js';
import type { Shelf } from '../library/write-library.js';
import type { Link, ReadPage, Site } from './site.js';

/** A page of the library, as far as the site leads to it. */
export interface Explanation extends ReadPage {
  readonly topics: About;
}

/** The explanations of a library, in the order of its languages. */
export const explanationsOn = (shelf: Shelf): Explanation[] =>
  placesOn(shelf).flatMap((place) =>
    pagesOf(shelf.library, place).map((page) => ({
      file: fileAt(place, page.slug),
      title: page.title,
      lead: page.lead,
      language: page.language,
      blocks: textOf(page),
      topics: page.about,
    })),
  );

/** More make a list that nobody reads. Not a clinical number. */
const MOST_TO_READ = 6;

/** What a case is about: rhythms, procedure and the rest, in the words of `About`. */
export function topicsOf(facts: PublicFacts): About {
  return {
    rhythms: facts.strips.flatMap(({ analysis }) =>
      analysis.rhythms.flatMap(({ name, within }) => [name, ...within.map((one) => one.name)]),
    ),
    procedures: [facts.procedure],
    events: facts.anesthesia.events.map(({ what }) => what),
    channels: facts.vitals.channels.map(({ channel }) => channel),
    layers: (facts.wound?.layers ?? []).map(({ layer }) => layer),
    healing: facts.wound ? [facts.wound.healing.value] : [],
    shownRate: facts.strips.flatMap(({ shown }) =>
      (shown.value?.shown ?? []).map(({ relation }) => relation),
    ),
  };
}

/**
 * Explanations that go with a case, those that have most in common with it first. What every case shares, such as a
 * channel, only decides between pages that have something else in common with it.
 */
export function seeAlso({ explanations, language }: Site, facts: PublicFacts): Link[] {
  const topics = topicsOf(facts);
  const shared = ({ topics: about }: Explanation, kinds: readonly (keyof About)[]) =>
    kinds.reduce(
      (sum, kind) => sum + about[kind].filter((one) => topics[kind].includes(one)).length,
      0,
    );
  return explanations
    .filter((one) => one.language === language.tag)
    .map((one) => ({
      one,
      telling: shared(one, ['rhythms', 'shownRate', 'procedures', 'healing']),
      common: shared(one, ['events', 'layers', 'channels']),
    }))
    .filter(({ telling }) => telling > 0)
    .sort(
      (a, b) => b.telling - a.telling || b.common - a.common || (a.one.file < b.one.file ? -1 : 1),
    )
    .slice(0, MOST_TO_READ)
    .map(({ one }) => ({ href: one.file, label: one.title }));
}
