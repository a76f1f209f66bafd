import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { toSvg } from '../../draw/svg.js';
import { RULES, WITHIN } from '../../signal/rhythm/handbook.js';
import { emptyChart } from '../../words/anesthesia-chart.js';
import { type GlossaryTerm, termsOfBlocks, termsUsed } from '../../words/glossary.js';
import type { Language } from '../../words/language.js';
import { headingAnchors } from '../html/anchors.js';
import { writePages } from '../html/write-pages.js';
import { printPdf } from '../pdf/print.js';
import { frameOf } from '../site/frame.js';
import type { FoundPage } from '../site/search-index.js';
import type { Site } from '../site/site.js';
import { collectionData, explanationData, glossaryData } from '../site/structured-data.js';
import { drawn } from './drawings.js';
import type { Library, LibraryPage } from './library.js';
import { fileAt, type Place, pagesOf, placesOn, textOf } from './places.js';

/** The library with the languages in which it is published, the clinic's first one first. */
export interface Shelf {
  readonly library: Library;
  readonly languages: readonly Language[];
}

/** A page elsewhere in the public tree that uses terms of the glossary. */
export interface PageWithTerms {
  /** Path in the tree with its ending. */
  readonly file: string;
  readonly title: string;
  readonly language: string;
  /** Keys of the terms. */
  readonly terms: readonly string[];
}

/** Papers on which the empty chart is offered. */
const PAPERS = ['A4', 'Letter'] as const;

/** Writes what no case has a part in: the explanations, the rhythms and the empty charts, each page in its frame. */
export async function writeLibrary(site: Site, folder: string): Promise<void> {
  const places = placesOn(site.shelf);
  const all: Around = { site, places };
  for (const place of places) await writeCharts(place, folder);
  await writeSet(
    {
      explanations: places.flatMap((place) =>
        pagesOf(site.shelf.library, place).map((page) => explanationView(page, place, all)),
      ),
      rhythmPages: places.map((place) => rhythmsView(place, all)),
      shelves: places.map((place) => shelfView(place, all)),
    },
    folder,
  );
}

/**
 * Writes the glossary of each language.
 * @param others pages of the tree to which it leads back, beside those of the library
 */
export async function writeGlossaries(
  site: Site,
  others: readonly PageWithTerms[],
  folder: string,
): Promise<void> {
  const places = placesOn(site.shelf);
  const glossaries = places.map((place) => glossaryView(place, { site, places }, others));
  await writeSet({ glossaries }, folder);
}

const writeSet = (pages: object, folder: string): Promise<void> =>
  writePages(
    {
      templates: 'library',
      data: { explanations: [], rhythmPages: [], shelves: [], glossaries: [], ...pages },
      pages: [],
    },
    folder,
  );

/** What every page of the library needs. */
interface Around {
  readonly site: Site;
  readonly places: readonly Place[];
}

/** A page of the library as its frame and its head need it. */
interface Head {
  readonly slug: string;
  readonly title: string;
  readonly lead: string;
  readonly structured?: unknown;
}

function headed({ slug, title, lead, structured }: Head, place: Place, { site, places }: Around) {
  const { language, folder, root } = place;
  const say = (key: string) => language.library.text(`page.${key}`);
  const isShelf = slug === 'index';
  return {
    slug,
    address: `${folder}${slug}`,
    frame: frameOf(site, {
      file: fileAt(place, slug),
      title,
      lead,
      language: language.tag,
      section: slug === 'glossary' ? 'glossary' : 'explanations',
      within: isShelf ? [] : [{ href: fileAt(place, 'index'), label: say('library') }],
      ...(structured !== undefined && { structured }),
    }),
    words: {
      navigation: say('navigation'),
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
        href: `${root}${fileAt(other, slug)}`,
      })),
  };
}

/** The name of a language in itself. */
const nameOf = ({ library }: Language): string => library.text('page.language');

function explanationView(page: LibraryPage, place: Place, all: Around) {
  const { language } = place;
  const words = language.library;
  const glossary = glossaryOf(all.site.shelf.library, place);
  const ids = headingAnchors(textOf(page));
  return {
    ...headed(
      { ...page, structured: explanationData(all.site, fileAt(place, page.slug), page) },
      place,
      all,
    ),
    cautions: page.cautions,
    body: page.body.map((block) =>
      block.kind === 'drawing'
        ? { kind: 'figure', block: figureView(block.name, language) }
        : block.kind === 'text' && block.block.kind === 'heading'
          ? { kind: 'text', block: { ...block.block, id: ids.get(block.block) } }
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

const glossaryOf = (library: Library, { language }: Place): readonly GlossaryTerm[] =>
  library.glossary.get(language.tag) ?? [];

const termsOn = (page: LibraryPage, glossary: readonly GlossaryTerm[]) => {
  const used = new Set([
    ...termsUsed(`${page.title}\n${page.lead}`, glossary),
    ...termsOfBlocks(textOf(page), glossary),
  ]);
  return glossary.filter((term) => used.has(term));
};

/** The address of a term or a rhythm on its page. */
const idOf = (key: string): string => key.toLowerCase().replace(/[^a-z0-9]+/g, '-');

function figureView(name: Parameters<typeof drawn>[0], { library }: Language) {
  const { figure, ...figureBlock } = drawn(name, library);
  if (figure.kind !== 'drawing') throw new Error(`${name} is no drawing`);
  return {
    ...figureBlock,
    svg: toSvg(figure.drawing, { title: name, description: figureBlock.alternative }),
  };
}

const rhythmsHead = ({ language: { library } }: Place): Head => ({
  slug: 'rhythms',
  title: library.text('rhythms.title'),
  lead: library.text('rhythms.lead'),
});

function rhythmsView(place: Place, all: Around) {
  const { library } = place.language;
  return {
    ...headed(rhythmsHead(place), place, all),
    note: library.text('rhythms.note'),
    ownerLabel: library.text('rhythms.owner'),
    learnerLabel: library.text('rhythms.learner'),
    cautions: [library.text('rhythms.caution')],
    rhythms: rhythmsTold(place),
  };
}

/** The rhythms and the glossary as the search finds them, a section for each entry. */
export const listedPages = (shelf: Shelf): (FoundPage & { readonly language: string })[] =>
  placesOn(shelf).flatMap((place) => {
    const { tag, library } = place.language;
    const rhythms = rhythmsHead(place);
    return [
      {
        file: fileAt(place, 'rhythms'),
        title: rhythms.title,
        lead: rhythms.lead,
        language: tag,
        sections: () =>
          rhythmsTold(place).map(({ id, name, learner }) => ({
            at: id,
            heading: name,
            texts: [learner],
          })),
      },
      {
        file: fileAt(place, 'glossary'),
        title: library.text('glossary.title'),
        lead: library.text('glossary.lead'),
        language: tag,
        sections: () =>
          glossaryOf(shelf.library, place).map(({ key, term, also, text }) => ({
            at: idOf(key),
            heading: term,
            texts: [also.length === 0 ? text : `${text} (${also.join(', ')})`],
          })),
      },
    ];
  });

const rhythmsTold = ({ language: { rhythms } }: Place) =>
  rhythmNames().map((name) => ({
    id: idOf(name),
    name: rhythms.text(`${name}.learner.name`),
    owner: rhythms.text(`${name}.owner`),
    learner: rhythms.text(`${name}.learner.text`),
  }));

/** The rhythms of the handbook, from those that the sinus node leads to those that stop the heart. */
const rhythmNames = (): readonly string[] =>
  [...RULES]
    .reverse()
    .concat(WITHIN)
    .flatMap(({ names }) => names);

/** Pages that a term leads back to; the others are counted, as the search finds them. Not a clinical number. */
const MOST_PAGES = 24;

function glossaryView(place: Place, all: Around, others: readonly PageWithTerms[]) {
  const { language, root } = place;
  const glossary = glossaryOf(all.site.shelf.library, place);
  const using = [
    ...pagesOf(all.site.shelf.library, place).map((page) => ({
      href: `${page.slug}.html`,
      title: page.title,
      terms: keysOf(termsOn(page, glossary)),
    })),
    {
      href: 'rhythms.html',
      title: rhythmsHead(place).title,
      terms: keysOf(
        termsUsed(
          rhythmsTold(place)
            .map(({ name, learner }) => `${name} ${learner}`)
            .join('\n'),
          glossary,
        ),
      ),
    },
    ...others
      .filter((other) => other.language === language.tag)
      .map(({ file, title, terms }) => ({ href: `${root}${file}`, title, terms: new Set(terms) })),
  ];
  const entries = glossary.map((term) => {
    const pages = using.filter(({ terms }) => terms.has(term.key));
    const others = pages.length - MOST_PAGES;
    return {
      id: idOf(term.key),
      term: term.term,
      text: term.text,
      usedOn: pages.slice(0, MOST_PAGES).map(({ href, title }) => ({ href, title })),
      more: others > 0 ? language.library.text('glossary.more', { count: others }) : null,
    };
  });
  const title = language.library.text('glossary.title');
  return {
    ...headed(
      {
        slug: 'glossary',
        title,
        lead: language.library.text('glossary.lead'),
        structured: glossaryData(all.site, fileAt(place, 'glossary'), language.tag, title, entries),
      },
      place,
      all,
    ),
    usedOn: language.library.text('glossary.usedOn'),
    cautions: [language.library.text('glossary.caution')],
    entries,
  };
}

const keysOf = (terms: readonly GlossaryTerm[]): Set<string> =>
  new Set(terms.map(({ key }) => key));

function shelfView(place: Place, all: Around) {
  const { library: words, tag } = place.language;
  const rhythms = rhythmsHead(place);
  const page = {
    file: fileAt(place, 'index'),
    title: words.text('page.library'),
    lead: words.text('page.lead'),
  };
  const pages = [
    ...pagesOf(all.site.shelf.library, place).map(({ slug, title, lead }) => ({
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
  ];
  const links = pages.map(({ href, title }) => ({ href, label: title }));
  return {
    ...headed(
      { slug: 'index', ...page, structured: collectionData(all.site, page, links, tag) },
      place,
      all,
    ),
    pages,
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
