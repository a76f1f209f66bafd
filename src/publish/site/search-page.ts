import type { SearchWords } from '../../live/search/contract.js';
import type { Language } from '../../words/language.js';
import { type Frame, frameOf } from './frame.js';
import { FILES, type Site } from './site.js';

/** What the page of the search shows. */
export interface SearchPage {
  readonly file: string;
  readonly frame: Frame;
  /** Languages in which something can be found, that of the site first. */
  readonly languages: readonly { readonly tag: string; readonly name: string }[];
  readonly words: Readonly<Record<'label' | 'language' | 'go' | 'withoutScripts', string>>;
  /** What the script says, as JSON. */
  readonly said: SearchWords;
}

/** @param tags of the languages in which there are pages */
export function searchPage(site: Site, tags: readonly string[]): SearchPage {
  const { language } = site;
  const text = (key: string) => language.site.text(`search.${key}`);
  return {
    file: FILES.search,
    frame: frameOf(site, {
      file: FILES.search,
      title: text('title'),
      lead: text('lead'),
      language: language.tag,
      section: 'search',
      unlisted: true,
    }),
    languages: tags.map((tag) => ({ tag, name: ownName(tag) })),
    words: {
      label: text('label'),
      language: text('language'),
      go: text('go'),
      withoutScripts: text('withoutScripts'),
    },
    said: searchWords(language),
  };
}

function searchWords({ site }: Language): SearchWords {
  const counted = (key: string) =>
    Object.fromEntries(
      (['one', 'other'] as const).map((form) => [
        form,
        site.text(`search.${key}.${form}`, {
          passages: '{passages}',
          pages: '{pages}',
          count: '{count}',
        }),
      ]),
    ) as SearchWords['found'];
  return {
    loading: site.text('search.loading'),
    failed: site.text('search.failed'),
    none: site.text('search.none', { query: '{query}' }),
    advice: site.text('search.advice'),
    loosely: site.text('search.loosely'),
    found: counted('found'),
    pages: counted('pages'),
  };
}

/** What a language calls itself, with a capital. */
function ownName(tag: string): string {
  const name = new Intl.DisplayNames([tag], { type: 'language' }).of(tag) ?? tag;
  return name.slice(0, 1).toLocaleUpperCase(tag) + name.slice(1);
}
