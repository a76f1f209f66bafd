import { readText } from '../../words/handout-text.js';
import { headingAnchors } from '../html/anchors.js';
import {
  fileOf,
  LISTS,
  type Link,
  type ListName,
  pageOf,
  type ShownCase,
  type Site,
} from './site.js';

/** Cases under headings, as the index of a book has them. */
export interface List {
  readonly name: ListName;
  readonly groups: readonly Group[];
}

export interface Group {
  readonly title: string;
  /** Where the title leads, for a group that is a case. */
  readonly href: string | null;
  readonly text: string | null;
  readonly entries: readonly Entry[];
}

export interface Entry extends Link {
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
    ({ facts }) => [facts.patient.species],
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
    ({ facts }) => [facts.procedure],
    (procedure) => ({
      title: language.procedures.text(`${procedure}.learner.name`),
      text: readText(language.procedures.say(`${procedure}.learner.text`)),
    }),
    language.tag,
  );
}

/** What stands for every stretch that allowed no name. */
const WITHHELD = null;

/** The rhythms that a case's strips prove, and whether anything of them has no name. */
export function rhythmsOf({ facts }: ShownCase): (string | typeof WITHHELD)[] {
  const found = facts.strips.flatMap(({ analysis }) =>
    analysis.rhythms.flatMap(({ name, confidence, within }) => [
      confidence === null ? WITHHELD : name,
      ...within.map((event) => event.name),
    ]),
  );
  return [...new Set(found)];
}

/** Named rhythms in the order of their names; what has no name comes last. */
function byRhythm(cases: readonly ShownCase[], { language }: Site): Group[] {
  const { rhythms, site, tag } = language;
  const named = (one: ShownCase) => rhythmsOf(one).filter((name) => name !== WITHHELD);
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
      cases.filter((one) => rhythmsOf(one).includes(WITHHELD)),
      () => [''],
      () => ({ title: site.text('withheld.name'), text: site.text('withheld.text') }),
      tag,
    ),
  ];
}

/** Each question leads to its place on the page of its case. */
function byQuestion(cases: readonly ShownCase[]): Group[] {
  return cases.flatMap((one): Group[] => {
    const entries = questionLinks(one).map((link) => ({ ...link, lead: null }));
    const { facts } = one;
    return entries.length === 0
      ? []
      : [
          {
            title: facts.published.title,
            href: fileOf(pageOf(one)),
            text: pageOf(one).handout.lead,
            entries,
          },
        ];
  });
}

/** What was asked of a case, with where it is answered. */
export function questionLinks(one: ShownCase): Link[] {
  const page = pageOf(one);
  const headings = [...headingAnchors(page.handout.blocks)];
  return one.questions.flatMap((question) => {
    // The author's part comes last on a page, should a heading of the page itself have the same words.
    const at = headings.findLast(([{ text }]) => text === question)?.[1];
    return at === undefined ? [] : [{ href: `${fileOf(page)}#${at}`, label: question }];
  });
}

function grouped(
  cases: readonly ShownCase[],
  keysOf: (one: ShownCase) => readonly string[],
  head: (key: string) => Pick<Group, 'title' | 'text'>,
  tag: string,
): Group[] {
  const groups = new Map<string, Entry[]>();
  for (const one of cases) {
    const page = pageOf(one);
    const entry = {
      href: fileOf(page),
      label: one.facts.published.title,
      lead: page.handout.lead,
    };
    for (const key of keysOf(one)) groups.set(key, [...(groups.get(key) ?? []), entry]);
  }
  return [...groups]
    .map(([key, entries]) => ({ ...head(key), href: null, entries }))
    .sort((a, b) => a.title.localeCompare(b.title, tag));
}

const capital = (text: string, tag: string): string =>
  text.slice(0, 1).toLocaleUpperCase(tag) + text.slice(1);
