/** The page of the search. Its index is a script of its own, fetched when it is first needed. */
import {
  SEARCH_INDEXES,
  SEARCH_WORDS,
  type SearchIndex,
  type SearchWords,
} from './search/contract.js';
import { type Found, searchOver } from './search/find.js';
import { countOf, resultsOf } from './search/show.js';

type Search = (query: string) => Found;

/** ms of rest after a letter before the search begins. Not a clinical number. */
const REST = 150;

const searches = new Map<string, Promise<Search>>();

/** The search in a language: its index comes as a script, as a page opened from a folder may not fetch. */
function searchIn(language: string): Promise<Search> {
  const opened = searches.get(language) ?? open(language);
  searches.set(language, opened);
  return opened;
}

function open(language: string): Promise<Search> {
  return new Promise((done, fail) => {
    const script = document.createElement('script');
    script.src = `assets/search-${encodeURIComponent(language)}.js`;
    script.addEventListener('load', () => {
      const indexes = (globalThis as { [SEARCH_INDEXES]?: Record<string, SearchIndex> })[
        SEARCH_INDEXES
      ];
      const index = indexes?.[language];
      if (index) done(searchOver(index));
      else fail(new Error(`no index for ${language}`));
    });
    script.addEventListener('error', fail);
    document.head.append(script);
  });
}

function begin(form: HTMLFormElement): void {
  const query = form.elements.namedItem('q') as HTMLInputElement;
  const language = form.elements.namedItem('in') as HTMLSelectElement | HTMLInputElement;
  const status = document.getElementById('found') as HTMLElement;
  const results = document.getElementById('results') as HTMLElement;
  const words = JSON.parse(document.getElementById(SEARCH_WORDS)?.textContent ?? '') as SearchWords;
  let asked = 0;

  async function answer(): Promise<void> {
    const mine = ++asked;
    const text = query.value.trim();
    if (text === '') {
      status.textContent = '';
      results.replaceChildren();
      return;
    }
    if (!searches.has(language.value)) status.textContent = words.loading;
    try {
      const found = (await searchIn(language.value))(text);
      // A later question has come in the meantime.
      if (mine !== asked) return;
      status.textContent = countOf(found, text, words, document.documentElement.lang);
      results.replaceChildren(...resultsOf(found, language.value));
    } catch {
      status.textContent = words.failed;
    }
  }

  /** Keeps the question in the address, to come back to and to pass on. */
  function keep(): void {
    const address = new URL(location.href);
    address.searchParams.set('q', query.value.trim());
    address.searchParams.set('in', language.value);
    history.replaceState(null, '', address);
  }

  const given = new URL(location.href).searchParams;
  query.value = given.get('q') ?? '';
  const wanted = given.get('in');
  if (wanted !== null) {
    const own = language.value;
    language.value = wanted;
    // A language that is not offered leaves the choice empty.
    if (language.value !== wanted) language.value = own;
  }

  let waiting: ReturnType<typeof setTimeout> | undefined;
  const soon = () => {
    clearTimeout(waiting);
    waiting = setTimeout(() => {
      keep();
      void answer();
    }, REST);
  };
  query.addEventListener('input', soon);
  language.addEventListener('change', soon);
  query.addEventListener('focus', () => void searchIn(language.value).catch(() => undefined));
  form.addEventListener('submit', (event) => {
    event.preventDefault();
    clearTimeout(waiting);
    keep();
    void answer();
  });
  if (query.value !== '') void answer();
}

const form = document.querySelector<HTMLFormElement>('form[role="search"]');
if (form) begin(form);
