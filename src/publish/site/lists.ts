import { readText } from '../../words/handout-text.js';
import { LISTS, type Link, type ListName, mainOf, type ShownCase, type Site } from './site.js';

/** Cases under headings, as the index of a book has them. */
export interface List {
  readonly name: ListName;
  readonly groups: readonly Group[];
}

interface Group {
  readonly title: string;
  /** Where the title leads, for a group that is a case. */
  readonly href: string | null;
  readonly text: string | null;
  readonly entries: readonly Entry[];
}

interface Entry extends Link {
  readonly lead: string | null;
}

/** The four lists of the site, all from what the pages themselves tell. */
export function listsOf(cases: readonly ShownCase[], site: Site): List[] {
  const makers: Readonly<Record<ListName, () => Group[]>> = {
    species: () => bySpecies(cases, site),
    procedures: () => byProcedure(cases, site),
    rhythms: () => byRhythm(cases, site),
    questions: () => byQuestion(cases),
  };
  return LISTS.map((name) => ({ name, groups: makers[name]() }));
}

function bySpecies(cases: readonly ShownCase[], { language }: Site): Group[] {
  return grouped(
    cases,
    ({ species }) => [species],
    (species) => ({
      title: capital(language.trade.text(`species.${species}.learner`), language.tag),
      text: null,
    }),
    language.tag,
  );
}

function byProcedure(cases: readonly ShownCase[], { language }: Site): Group[] {
  return grouped(
    cases,
    ({ procedure }) => [procedure],
    (procedure) => ({
      title: language.procedures.text(`${procedure}.learner.name`),
      text: readText(language.procedures.say(`${procedure}.learner.text`, { species: 'any' })),
    }),
    language.tag,
  );
}

/** Named rhythms in the order of their names; what has no name comes last. */
function byRhythm(cases: readonly ShownCase[], { language }: Site): Group[] {
  const { rhythms, site, tag } = language;
  const named = (one: ShownCase) => one.rhythms.filter((name) => name !== null);
  return [
    ...grouped(
      cases,
      named,
      (name) => ({
        title: rhythms.text(`${name}.learner.name`),
        text: readText(rhythms.say(`${name}.learner.text`)),
      }),
      tag,
    ),
    ...grouped(
      cases.filter((one) => one.rhythms.includes(null)),
      () => [''],
      () => ({ title: site.text('withheld.name'), text: site.text('withheld.text') }),
      tag,
    ),
  ];
}

/** Each question leads to its place on the page of its case. */
const byQuestion = (cases: readonly ShownCase[]): Group[] =>
  cases
    .filter(({ questions }) => questions.length > 0)
    .map((one) => ({
      title: one.title,
      href: mainOf(one).file,
      text: mainOf(one).lead,
      entries: one.questions.map((link) => ({ ...link, lead: null })),
    }));

function grouped(
  cases: readonly ShownCase[],
  keysOf: (one: ShownCase) => readonly string[],
  head: (key: string) => Pick<Group, 'title' | 'text'>,
  tag: string,
): Group[] {
  const groups = new Map<string, Entry[]>();
  for (const one of cases) {
    const { file, lead } = mainOf(one);
    const entry = { href: file, label: one.title, lead };
    for (const key of keysOf(one)) {
      const group = groups.get(key);
      if (group) group.push(entry);
      else groups.set(key, [entry]);
    }
  }
  return [...groups]
    .map(([key, entries]) => ({ ...head(key), href: null, entries }))
    .sort((a, b) => a.title.localeCompare(b.title, tag));
}

const capital = (text: string, tag: string): string =>
  text.slice(0, 1).toLocaleUpperCase(tag) + text.slice(1);
