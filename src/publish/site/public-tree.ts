import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Language } from '../../words/language.js';
import type { GroupsReport } from '../groups.js';
import { house } from '../house.js';
import { assetFiles, PUBLIC_ASSETS } from '../html/assets.js';
import { type TreeFile, writeFiles } from '../html/tree-file.js';
import { writePages } from '../html/write-pages.js';
import { fileAt, placesOn } from '../library/places.js';
import { listedPages, writeGlossaries } from '../library/write-library.js';
import { RECORD_SCHEMA_NAME, recordJsonSchema } from '../pack/record-schema.js';
import type { PrintedCase, PrintedDocument } from '../print-case.js';
import { casePage } from './case-pages.js';
import { atomFeed, robots, sitemap } from './feed.js';
import { frameOf } from './frame.js';
import { listsOf } from './lists.js';
import {
  type FoundPage,
  type Section,
  searchIndex,
  searchScript,
  sectionsOf,
} from './search-index.js';
import { searchPage } from './search-page.js';
import { FILES, LISTS, mainOf, type ShownCase, type Site } from './site.js';
import { collectionData } from './structured-data.js';

/** The JSON Schema that every `record.json` of the tree follows. */
export const RECORD_SCHEMA: TreeFile = {
  path: `assets/${RECORD_SCHEMA_NAME}`,
  bytes: () => Buffer.from(`${JSON.stringify(recordJsonSchema(), null, 2)}\n`),
};

export const ICON: TreeFile = {
  path: 'assets/icon.svg',
  bytes: () => readFileSync(join(house.templates, 'site', 'icon.svg')),
};

/** Writes what is public of some cases: their pages, with everything that stands beside these. */
export async function writeCasePages(
  cases: readonly PublicCase[],
  site: Site,
  folder: string,
): Promise<void> {
  const sheets = (wanted: 'teaching' | 'record') =>
    cases.flatMap(({ printed, shown }) => {
      const document = printed[wanted];
      if (!document) return [];
      const { sheet, files } = casePage(document, shown, printed, site);
      const { answers } = printed;
      writeFiles(
        [...files, pdfOf(document), ...(answers && wanted === 'teaching' ? [pdfOf(answers)] : [])],
        folder,
      );
      return [sheet];
    });
  for (const templates of ['teaching', 'record'] as const) {
    const pages = sheets(templates);
    if (pages.length > 0) {
      await writePages({ templates, data: { sheets: pages }, pages: [] }, folder);
    }
  }
}

const pdfOf = ({ address, pdf }: PrintedDocument): TreeFile => ({
  path: `${address}.pdf`,
  bytes: () => pdf,
});

/** A case of which something is published. */
export interface PublicCase {
  readonly printed: PrintedCase;
  readonly shown: ShownCase;
}

/**
 * Writes the site around the pages of cases: its lists, the glossary, the search, and what machines read.
 * @param passages what the search finds in a document, by the key of `ShownDocument`
 */
export async function writeSite(
  shown: readonly ShownCase[],
  passages: (key: string) => readonly Section[],
  site: Site,
  groups: GroupsReport,
  folder: string,
): Promise<void> {
  writeFiles([...assetFiles(PUBLIC_ASSETS), ICON], folder);
  const documents = shown.flatMap((one) => one.documents);
  if (documents.some(({ reader }) => reader === 'student')) writeFiles([RECORD_SCHEMA], folder);
  const indexes = indexesOf(shown, passages, site);
  for (const [tag, pages] of indexes) {
    writeFileSync(
      join(folder, 'assets', `search-${tag}.js`),
      searchScript(tag, searchIndex(pages, languageOf(site, tag))),
    );
  }
  await writePages(
    {
      templates: 'site',
      data: {
        homes: [homePage(shown, site, groups)],
        lists: listPages(shown, site),
        searches: [searchPage(site, [...indexes.keys()])],
        ...forMachines(shown, site),
      },
      pages: site.own.map(({ file, text, title, lead, language, section }) => ({
        text,
        permalink: file,
        data: {
          layout: 'own-page.njk',
          kind: section,
          sheet: { frame: frameOf(site, { file, title, lead, language, section }) },
        },
      })),
    },
    folder,
  );
  await writeGlossaries(site, documents, folder);
  if (site.at !== null) writeFileSync(join(folder, FILES.robots), robots(site.at));
}

function homePage(shown: readonly ShownCase[], site: Site, groups: GroupsReport) {
  const { site: words, tag } = site.language;
  const page = {
    file: FILES.home,
    title: words.text('home.title'),
    lead: words.text('home.lead'),
  };
  const { smallest, least, because } = groups;
  const lists = listsOf(shown, site);
  return {
    file: page.file,
    frame: frameOf(site, {
      ...page,
      language: tag,
      section: 'home',
      structured: collectionData(site, page, shown.map(linkToCase)),
    }),
    ways: {
      title: words.text('home.ways'),
      links: [
        ...lists.map(({ name, groups }) => ({
          href: FILES[name],
          label: words.text(`lists.${name}.name`),
          count:
            name === 'questions'
              ? groups.reduce((sum, { entries }) => sum + entries.length, 0)
              : groups.length,
        })),
        {
          href: FILES.explanations,
          label: words.text('explanations.title'),
          count: site.explanations.filter(({ language }) => language === tag).length,
        },
        {
          href: FILES.glossary,
          label: words.text('glossary.title'),
          count: site.shelf.library.glossary.get(tag)?.length ?? 0,
        },
      ],
    },
    casesTitle: words.text('home.cases', { count: shown.length }),
    asked: words.text('home.asked'),
    cases: shown.map((one) => ({
      ...linkToCase(one),
      lead: mainOf(one).lead,
      question: one.questions[0] ?? null,
      links: one.documents.map(({ file, label }) => ({ href: file, label })),
    })),
    groups:
      smallest === null
        ? null
        : [
            words.text('home.groups', { smallest }),
            ...(because === null ? [] : [words.text('home.fewer', { least, because })]),
          ].join(' '),
    foot: words.text('foot'),
  };
}

const linkToCase = (one: ShownCase) => ({
  href: mainOf(one).file,
  label: one.title,
});

function listPages(shown: readonly ShownCase[], site: Site) {
  const { site: words, tag } = site.language;
  return listsOf(shown, site).map(({ name, groups }) => {
    const page = {
      file: FILES[name],
      title: words.text(`lists.${name}.title`),
      lead: words.text(`lists.${name}.lead`),
    };
    const entries = groups.flatMap((group) => group.entries);
    return {
      file: page.file,
      name,
      frame: frameOf(site, {
        ...page,
        language: tag,
        section: name,
        structured: collectionData(site, page, entries),
      }),
      siblings: {
        label: words.text('lists.label'),
        links: LISTS.map((list) => ({
          href: FILES[list],
          label: words.text(`lists.${list}.name`),
          isCurrent: list === name,
        })),
      },
      groups,
      empty: words.text('lists.empty'),
      foot: words.text('foot'),
    };
  });
}

/** The pages of each language that can be searched, that of the site first. */
function indexesOf(
  shown: readonly ShownCase[],
  passages: (key: string) => readonly Section[],
  site: Site,
): Map<string, readonly FoundPage[]> {
  const pages: (FoundPage & { readonly language: string })[] = [
    ...shown.flatMap(({ documents }) =>
      documents.map((document) => ({
        ...document,
        sections: () => passages(document.passages),
      })),
    ),
    ...[...site.explanations, ...site.own].map(({ blocks, ...page }) => ({
      ...page,
      sections: () => sectionsOf(blocks),
    })),
    ...listedPages(site.shelf),
  ];
  const tags = [...new Set([site.language.tag, ...pages.map(({ language }) => language)])];
  return new Map(
    tags.map((tag) => [tag, pages.filter(({ language }) => language === tag)] as const),
  );
}

function languageOf(site: Site, tag: string): Language {
  const language = site.languages.get(tag);
  if (!language) throw new Error(`a page in ${tag}, which has no words`);
  return language;
}

/** The feed and the map of the site: both need to know where the site stands. */
function forMachines(shown: readonly ShownCase[], site: Site) {
  const { at, issued } = site;
  if (at === null) return { feeds: [], maps: [] };
  const checked = shown.flatMap(({ documents }) =>
    documents.filter(({ draft }) => draft === null).map(({ file }) => file),
  );
  const files = [
    FILES.home,
    ...LISTS.map((name) => FILES[name]),
    ...placesOn(site.shelf).flatMap((place) =>
      ['index', 'glossary', 'rhythms'].map((slug) => fileAt(place, slug)),
    ),
    ...checked,
    ...site.explanations.map(({ file }) => file),
    ...site.own.map(({ file }) => file),
  ];
  return {
    feeds: issued === null ? [] : [atomFeed(shown, { ...site, at, issued })],
    maps: [sitemap(at, files)],
  };
}
