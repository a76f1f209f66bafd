import type { SearchWords } from './contract.js';
import type { Found, FoundPassage } from './find.js';
import type { Piece } from './words.js';

/** `12 passages on 4 pages`, as the language counts. */
export function countOf(
  { pages, passages, loosely }: Found,
  query: string,
  words: SearchWords,
  language: string,
): string {
  if (passages === 0) return `${words.none.replace('{query}', query)} ${words.advice}`;
  const rules = new Intl.PluralRules(language);
  const form = (count: number) => (rules.select(count) === 'one' ? 'one' : 'other');
  const onPages = words.pages[form(pages.length)].replace('{count}', String(pages.length));
  const count = words.found[form(passages)]
    .replace('{passages}', String(passages))
    .replace('{pages}', onPages);
  return loosely ? `${words.loosely} ${count}` : count;
}

/** What was found, page by page. */
export function resultsOf({ pages }: Found, language: string): HTMLElement[] {
  if (pages.length === 0) return [];
  const list = element('ol', 'results');
  list.lang = language;
  for (const { file, title, passages } of pages) {
    const page = element('li');
    const heading = element('h2');
    heading.append(link(file, title));
    page.append(heading, ...passages.map((passage) => passageOf(file, passage)));
    list.append(page);
  }
  return [list];
}

function passageOf(file: string, { at, heading, text }: FoundPassage): HTMLElement {
  const passage = element('div', 'passage');
  if (heading.length > 0) {
    const title = element('h3');
    title.append(link(at === '' ? file : `${file}#${at}`, heading));
    passage.append(title);
  }
  if (text.length > 0) {
    const words = element('p');
    words.append(...text.map(shown));
    passage.append(words);
  }
  return passage;
}

function link(href: string, pieces: readonly Piece[]): HTMLAnchorElement {
  const made = document.createElement('a');
  made.href = href;
  made.append(...pieces.map(shown));
  return made;
}

function shown({ text, hit }: Piece): Node {
  if (!hit) return document.createTextNode(text);
  const mark = element('mark');
  mark.textContent = text;
  return mark;
}

function element(name: string, className = ''): HTMLElement {
  const made = document.createElement(name);
  if (className !== '') made.className = className;
  return made;
}
