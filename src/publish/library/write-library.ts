import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { toSvg } from '../../draw/svg.js';
import { RULES, WITHIN } from '../../signal/rhythm/handbook.js';
import { emptyChart } from '../../words/anesthesia-chart.js';
import { type GlossaryTerm, termsOfBlocks, termsUsed } from '../../words/glossary.js';
import type { Block, Handout } from '../../words/handout.js';
import type { Language } from '../../words/language.js';
import { writePages } from '../html/site.js';
import { printPdf } from '../pdf/print.js';
import { drawn } from './drawings.js';
import type { Library, LibraryPage } from './library.js';

/** The library with the languages in which it is published, the clinic's first one first. */
export interface Shelf {
  readonly library: Library;
  readonly languages: readonly Language[];
}

/** A page elsewhere in the public tree that uses terms of the glossary. */
export interface PageWithTerms {
  /** Path in the tree without its ending. */
  readonly address: string;
  readonly handout: Pick<Handout, 'title' | 'language' | 'blocks'>;
}

/** Papers on which the empty chart is offered. */
const PAPERS = ['A4', 'Letter'] as const;

/** Folder of the library in the public tree. */
const LIBRARY = 'library';

/**
 * Writes the explanations, the rhythms, the glossary and the empty charts into the public tree: those of the first
 * language as `library/<slug>.html`, those of another as `library/<language>/<slug>.html`.
 * @param others pages of the tree to which the glossary leads back
 */
export async function writeLibrary(
  { library, languages }: Shelf,
  others: readonly PageWithTerms[],
  folder: string,
): Promise<void> {
  const places = languages.map((language, i) => placeOf(language, i === 0));
  for (const place of places) await writeCharts(place, folder);
  await writePages(
    {
      templates: 'library',
      data: {
        explanations: places.flatMap((place) =>
          pagesOf(library, place).map((page) => explanationView(page, place, places, library)),
        ),
        rhythmPages: places.map((place) => rhythmsView(place, places)),
        glossaries: places.map((place) => glossaryView(library, place, places, others)),
        shelves: places.map((place) => shelfView(library, place, places)),
      },
      pages: [],
    },
    folder,
  );
}

/** Where the pages of a language stand. */
interface Place {
  readonly language: Language;
  /** `library/` or `library/es/` */
  readonly folder: string;
  /** From there to the top of the tree. */
  readonly root: string;
}

const placeOf = (language: Language, first: boolean): Place =>
  first
    ? { language, folder: `${LIBRARY}/`, root: '../' }
    : { language, folder: `${LIBRARY}/${language.tag}/`, root: '../../' };

const pagesOf = (library: Library, { language }: Place): readonly LibraryPage[] =>
  library.pages.get(language.tag) ?? [];

/** What the head and the foot of each page need. */
function common(slug: string, place: Place, places: readonly Place[]) {
  const { language, folder, root } = place;
  const say = (key: string) => language.library.text(`page.${key}`);
  return {
    slug,
    language: language.tag,
    address: `${folder}${slug}`,
    root,
    words: {
      navigation: say('navigation'),
      home: say('home'),
      all: say('all'),
      glossary: say('glossary'),
      cautions: say('cautions'),
      defer: say('defer'),
      sources: say('sources'),
      terms: say('terms'),
      foot: say('foot'),
    },
    others: places
      .filter((other) => other !== place)
      .map((other) => ({
        language: other.language.tag,
        name: nameOf(other.language),
        href: `${root}${other.folder}${slug}.html`,
      })),
  };
}

/** The name of a language in itself. */
const nameOf = ({ library }: Language): string => library.text('page.language');

function explanationView(
  page: LibraryPage,
  place: Place,
  places: readonly Place[],
  library: Library,
) {
  const { language } = place;
  const words = language.library;
  const glossary = library.glossary.get(language.tag) ?? [];
  return {
    ...common(page.slug, place, places),
    title: page.title,
    lead: page.lead,
    cautions: page.cautions,
    body: page.body.map((block) =>
      block.kind === 'drawing'
        ? { kind: 'figure', block: figureView(block.name, language) }
        : block,
    ),
    charts: PAPERS.map((paper) => ({
      href: chartName(paper),
      label: words.text('chart.link', { paper }),
    })),
    sources: page.sources.map(({ cite, at, read }) => ({
      cite,
      at,
      place: at === null ? null : new URL(at).host,
      read: words.text(`page.read.${read}`),
    })),
    terms: termsOn(page, glossary).map(({ key, term }) => ({
      term,
      href: `glossary.html#${idOf(key)}`,
    })),
  };
}

const termsOn = ({ title, lead, body }: LibraryPage, glossary: readonly GlossaryTerm[]) => {
  const text = body.flatMap((block) => (block.kind === 'text' ? [block.block] : []));
  const used = new Set([
    ...termsUsed(`${title}\n${lead}`, glossary),
    ...termsOfBlocks(text, glossary),
  ]);
  return glossary.filter((term) => used.has(term));
};

/** The address of a term or a rhythm on its page. */
export const idOf = (key: string): string => key.toLowerCase().replace(/[^a-z0-9]+/g, '-');

function figureView(name: Parameters<typeof drawn>[0], { library }: Language) {
  const { figure, ...figureBlock } = drawn(name, library);
  if (figure.kind !== 'drawing') throw new Error(`${name} is no drawing`);
  return {
    ...figureBlock,
    svg: toSvg(figure.drawing, { title: name, description: figureBlock.alternative }),
  };
}

function rhythmsView(place: Place, places: readonly Place[]) {
  const { library, rhythms } = place.language;
  return {
    ...common('rhythms', place, places),
    title: library.text('rhythms.title'),
    lead: library.text('rhythms.lead'),
    note: library.text('rhythms.note'),
    ownerLabel: library.text('rhythms.owner'),
    learnerLabel: library.text('rhythms.learner'),
    cautions: [library.text('rhythms.caution')],
    rhythms: rhythmNames().map((name) => ({
      id: idOf(name),
      name: rhythms.text(`${name}.learner.name`),
      owner: rhythms.text(`${name}.owner`),
      learner: rhythms.text(`${name}.learner.text`),
    })),
  };
}

/** The rhythms of the handbook, from those that the sinus node leads to those that stop the heart. */
const rhythmNames = (): readonly string[] =>
  [...RULES]
    .reverse()
    .concat(WITHIN)
    .flatMap(({ names }) => names);

function glossaryView(
  library: Library,
  place: Place,
  places: readonly Place[],
  others: readonly PageWithTerms[],
) {
  const { language, root } = place;
  const glossary = library.glossary.get(language.tag) ?? [];
  const rhythms = rhythmsView(place, places);
  const using = [
    ...pagesOf(library, place).map((page) => ({
      href: `${page.slug}.html`,
      title: page.title,
      terms: termsOn(page, glossary),
    })),
    {
      href: 'rhythms.html',
      title: rhythms.title,
      terms: termsUsed(
        rhythms.rhythms.map(({ name, learner }) => `${name} ${learner}`).join('\n'),
        glossary,
      ),
    },
    ...others
      .filter(({ handout }) => handout.language === language.tag)
      .map(({ address, handout }) => ({
        href: `${root}${address}.html`,
        title: handout.title,
        terms: termsOfBlocks(handout.blocks as readonly Block[], glossary),
      })),
  ].map((page) => ({ ...page, terms: new Set(page.terms) }));
  return {
    ...common('glossary', place, places),
    title: language.library.text('glossary.title'),
    lead: language.library.text('glossary.lead'),
    usedOn: language.library.text('glossary.usedOn'),
    cautions: [language.library.text('glossary.caution')],
    entries: glossary.map((term) => ({
      id: idOf(term.key),
      term: term.term,
      text: term.text,
      usedOn: using
        .filter(({ terms }) => terms.has(term))
        .map(({ href, title }) => ({ href, title })),
    })),
  };
}

function shelfView(library: Library, place: Place, places: readonly Place[]) {
  const { library: words } = place.language;
  const rhythms = rhythmsView(place, places);
  return {
    ...common('index', place, places),
    title: words.text('page.library'),
    lead: words.text('page.lead'),
    pages: [
      ...pagesOf(library, place).map(({ slug, title, lead }) => ({
        href: `${slug}.html`,
        title,
        lead,
      })),
      { href: 'rhythms.html', title: rhythms.title, lead: rhythms.lead },
      {
        href: 'glossary.html',
        title: words.text('glossary.title'),
        lead: words.text('glossary.lead'),
      },
    ],
  };
}

const chartName = (paper: (typeof PAPERS)[number]): string =>
  `anesthesia-chart-${paper.toLowerCase()}.pdf`;

async function writeCharts({ language, folder: under }: Place, folder: string): Promise<void> {
  for (const paper of PAPERS) {
    const file = join(folder, under, chartName(paper));
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(file, await printPdf(emptyChart(language, paper)));
  }
}
