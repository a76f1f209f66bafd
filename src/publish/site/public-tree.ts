import { cpSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Block } from '../../words/handout.js';
import { house } from '../house.js';
import { writeAssets } from '../html/assets.js';
import { writePages } from '../html/write-pages.js';
import { fileAt, placesOn } from '../library/places.js';
import { writeLibrary } from '../library/write-library.js';
import { recordJsonSchema } from '../pack/record-schema.js';
import type { PrintedCase } from '../print-case.js';
import { casePage, linkTo, shownCases } from './case-pages.js';
import { atomFeed, robots, sitemap } from './feed.js';
import { frameOf } from './frame.js';
import { listsOf, questionLinks } from './lists.js';
import { searchIndex, searchScript } from './search-index.js';
import { searchPage } from './search-page.js';
import { FILES, fileOf, LISTS, pageOf, type ReadPage, type ShownCase, type Site } from './site.js';
import { collectionData } from './structured-data.js';

/** The JSON Schema that every `record.json` of the tree follows. */
const RECORD_SCHEMA = 'record-1.schema.json';

/** The public tree: teaching pages and anonymised records of consenting cases, and the site around them. */
export async function writePublicTree(
  cases: readonly PrintedCase[],
  site: Site,
  folder: string,
): Promise<void> {
  const shown = shownCases(cases);
  const beside = new Map(cases.map((one) => [one.shared, one] as const));
  const documents = shown.flatMap((one) =>
    one.documents.map((document) => ({ one, document, reader: document.handout.reader })),
  );
  const sheets = (wanted: string) =>
    documents
      .filter(({ reader }) => reader === wanted)
      .map(({ one, document }) =>
        casePage(document, one, beside.get(one.facts) as PrintedCase, site, folder),
      );
  writeAssets(
    {
      display: 'optional',
      styles: [
        'shared/style.css',
        'shared/strip.css',
        'shared/heart.css',
        'shared/vitals.css',
        'shared/exercises.css',
        'site/site.css',
      ],
      scripts: ['case', 'site', 'search'],
    },
    folder,
  );
  cpSync(join(house.templates, 'site', 'icon.svg'), join(folder, 'assets', 'icon.svg'));
  if (cases.some(({ pack }) => pack)) {
    writeFileSync(
      join(folder, 'assets', RECORD_SCHEMA),
      `${JSON.stringify(recordJsonSchema(), null, 2)}\n`,
    );
  }
  const indexes = indexesOf(shown, site);
  for (const [tag, pages] of indexes) {
    writeFileSync(
      join(folder, 'assets', `search-${tag}.js`),
      searchScript(tag, searchIndex(pages)),
    );
  }
  await writePages(
    {
      templates: 'site',
      data: {
        homes: [homePage(shown, site)],
        lists: listPages(shown, site),
        searches: [searchPage(site, [...indexes.keys()])],
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
  await writePages(
    { templates: 'teaching', data: { sheets: sheets('learner') }, pages: [] },
    folder,
  );
  await writePages({ templates: 'record', data: { sheets: sheets('student') }, pages: [] }, folder);
  await writeLibrary(
    site,
    shown.flatMap((one) => one.documents),
    folder,
  );
  writeForMachines(shown, site, folder);
}

function homePage(shown: readonly ShownCase[], site: Site) {
  const { site: words, tag } = site.language;
  const page = {
    file: FILES.home,
    title: words.text('home.title'),
    lead: words.text('home.lead'),
  };
  const { smallest, least, because } = site.groups;
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
      lead: pageOf(one).handout.lead,
      question: questionLinks(one)[0] ?? null,
      links: one.documents.map((document) => ({
        href: fileOf(document),
        label: linkTo(document).label,
      })),
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
  href: fileOf(pageOf(one)),
  label: one.facts.published.title,
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
function indexesOf(shown: readonly ShownCase[], site: Site): Map<string, readonly ReadPage[]> {
  const pages: ReadPage[] = [
    ...shown.flatMap((one) => teachingPages(one)),
    ...site.explanations,
    ...site.own,
  ];
  const tags = [...new Set([site.language.tag, ...pages.map(({ language }) => language)])];
  return new Map(
    tags.map((tag) => [tag, pages.filter(({ language }) => language === tag)] as const),
  );
}

/** The documents of a case. What the record says under the same heading as the teaching page is found there alone. */
function teachingPages({ documents }: ShownCase): ReadPage[] {
  const [first, ...others] = documents;
  if (!first) return [];
  const known = new Set(
    first.handout.blocks.flatMap((block) => (block.kind === 'heading' ? [block.text] : [])),
  );
  return [
    { ...first.handout, file: fileOf(first) },
    ...others.map((other) => ({
      ...other.handout,
      file: fileOf(other),
      blocks: withoutSections(other.handout.blocks, known),
    })),
  ];
}

function withoutSections(blocks: readonly Block[], headings: ReadonlySet<string>): Block[] {
  let isKnown = true;
  return blocks.filter((block) => {
    if (block.kind === 'heading') isKnown = headings.has(block.text);
    return !isKnown;
  });
}

/** The feed, the map of the site and what crawlers read: all of them need to know where the site stands. */
function writeForMachines(shown: readonly ShownCase[], site: Site, folder: string): void {
  const { at, issued } = site;
  if (at === null) return;
  const checked = shown.flatMap(({ documents }) =>
    documents.filter(({ handout }) => handout.draft === null).map(fileOf),
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
  writeFileSync(join(folder, FILES.sitemap), sitemap(at, files));
  writeFileSync(join(folder, FILES.robots), robots(at));
  if (issued !== null) {
    writeFileSync(join(folder, FILES.feed), atomFeed(shown, { ...site, at, issued }));
  }
}
