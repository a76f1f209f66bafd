import type {
  BreadcrumbList,
  CollectionPage,
  DefinedTermSet,
  Graph,
  LearningResource,
  MedicalWebPage,
  Thing,
  WebSite,
} from 'schema-dts';
import { absolute } from './frame.js';
import { FILES, type Link, mainOf, type ShownCase, type ShownDocument, type Site } from './site.js';

/**
 * What a page tells machines in the vocabulary of schema.org: what a reader sees on it, and nothing else. Without an
 * address of the site all addresses are relative to the page.
 */
type Told = Graph;

const graph = (...nodes: Thing[]): Told => ({ '@context': 'https://schema.org', '@graph': nodes });

/** A document of a case. */
export function caseData(document: ShownDocument, one: ShownCase, site: Site): Told {
  const { language } = site;
  const { file, title, lead } = document;
  const isRecord = document.reader === 'student';
  const about = [
    {
      '@type': 'MedicalProcedure' as const,
      name: language.procedures.text(`${one.procedure}.learner.name`),
    },
    ...one.rhythms.flatMap((name) =>
      name === null
        ? []
        : [{ '@type': 'Thing' as const, name: language.rhythms.text(`${name}.learner.name`) }],
    ),
  ];
  const common = {
    name: title,
    description: lead,
    inLanguage: document.language,
    identifier: one.pseudonym,
    isAccessibleForFree: true,
    isPartOf: webSite(site, file),
    about,
    audience: { '@type': 'EducationalAudience' as const, educationalRole: 'student' },
    ...urlOf(site, file),
  };
  const resource: LearningResource = {
    '@type': 'LearningResource',
    ...common,
    learningResourceType: language.site.text(isRecord ? 'kinds.record' : 'kinds.case'),
    encoding: {
      '@type': 'MediaObject',
      contentUrl: `${file.split('/').at(-1)?.replace(/html$/, 'pdf')}`,
      encodingFormat: 'application/pdf',
    },
  };
  const page: MedicalWebPage = {
    '@type': 'MedicalWebPage',
    ...common,
    breadcrumb: breadcrumbs(site, file, [
      ...(isRecord && mainOf(one) !== document
        ? [{ href: mainOf(one).file, label: one.title }]
        : []),
      { href: file, label: title },
    ]),
  };
  return graph(resource, page);
}

/** The home page, a list, or the list of explanations. */
export function collectionData(
  site: Site,
  page: { readonly file: string; readonly title: string; readonly lead: string },
  entries: readonly Link[],
  language = site.language.tag,
): Told {
  const collection: CollectionPage = {
    '@type': 'CollectionPage',
    name: page.title,
    description: page.lead,
    inLanguage: language,
    isPartOf: webSite(site, page.file),
    ...urlOf(site, page.file),
    mainEntity: {
      '@type': 'ItemList',
      itemListElement: entries.map(({ href, label }, index) => ({
        '@type': 'ListItem',
        position: index + 1,
        name: label,
        item: href,
      })),
    },
    ...(page.file === FILES.home
      ? {}
      : { breadcrumb: breadcrumbs(site, page.file, [{ href: page.file, label: page.title }]) }),
  };
  return graph(collection);
}

/** A page of the library. */
export function explanationData(
  site: Site,
  file: string,
  {
    title,
    lead,
    language,
  }: { readonly title: string; readonly lead: string; readonly language: string },
): Told {
  const page: MedicalWebPage = {
    '@type': 'MedicalWebPage',
    name: title,
    description: lead,
    inLanguage: language,
    isPartOf: webSite(site, file),
    ...urlOf(site, file),
  };
  return graph(page);
}

export function glossaryData(
  site: Site,
  file: string,
  language: string,
  title: string,
  entries: readonly { readonly id: string; readonly term: string; readonly text: string }[],
): Told {
  const terms: DefinedTermSet = {
    '@type': 'DefinedTermSet',
    name: title,
    inLanguage: language,
    ...urlOf(site, file),
    hasDefinedTerm: entries.map(({ id, term, text }) => ({
      '@type': 'DefinedTerm',
      name: term,
      description: text,
      url: `#${id}`,
    })),
  };
  return graph(terms);
}

function webSite(site: Site, address: string): WebSite {
  const url =
    site.at === null
      ? `${'../'.repeat(address.split('/').length - 1)}${FILES.home}`
      : `${site.at}/`;
  return { '@type': 'WebSite', name: site.language.site.text('name'), url };
}

const urlOf = ({ at }: Site, file: string) => (at === null ? {} : { url: absolute(at, file) });

function breadcrumbs(site: Site, address: string, path: readonly Link[]): BreadcrumbList {
  const root = '../'.repeat(address.split('/').length - 1);
  return {
    '@type': 'BreadcrumbList',
    itemListElement: [
      { href: FILES.home, label: site.language.site.text('nav.home') },
      ...path,
    ].map(({ href, label }, index) => ({
      '@type': 'ListItem',
      position: index + 1,
      name: label,
      item: site.at === null ? `${root}${href}` : absolute(site.at, href),
    })),
  };
}
