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
import type { PrintedDocument } from '../print-case.js';
import { absolute } from './frame.js';
import { rhythmsOf } from './lists.js';
import { FILES, fileOf, type Link, pageOf, type ShownCase, type Site } from './site.js';

/**
 * What a page tells machines in the vocabulary of schema.org: what a reader sees on it, and nothing else. Without an
 * address of the site all addresses are relative to the page.
 */
type Told = Graph;

const graph = (...nodes: Thing[]): Told => ({ '@context': 'https://schema.org', '@graph': nodes });

/** A document of a case. */
export function caseData(document: PrintedDocument, one: ShownCase, site: Site): Told {
  const { facts } = one;
  const { language } = site;
  const isRecord = document.handout.reader === 'student';
  const { title, lead } = document.handout;
  const stem = document.address.split('/').at(-1) as string;
  const about = [
    {
      '@type': 'MedicalProcedure' as const,
      name: language.procedures.text(`${facts.procedure}.learner.name`),
    },
    ...rhythmsOf(one).flatMap((name) =>
      name === null
        ? []
        : [{ '@type': 'Thing' as const, name: language.rhythms.text(`${name}.learner.name`) }],
    ),
  ];
  const common = {
    name: title,
    description: lead,
    inLanguage: document.handout.language,
    identifier: facts.pseudonym,
    isAccessibleForFree: true,
    isPartOf: webSite(site, document.address),
    about,
    audience: { '@type': 'EducationalAudience' as const, educationalRole: 'student' },
    ...urlOf(site, fileOf(document)),
  };
  const resource: LearningResource = {
    '@type': 'LearningResource',
    ...common,
    learningResourceType: language.site.text(isRecord ? 'kinds.record' : 'kinds.case'),
    encoding: {
      '@type': 'MediaObject',
      contentUrl: `${stem}.pdf`,
      encodingFormat: 'application/pdf',
    },
  };
  const page: MedicalWebPage = {
    '@type': 'MedicalWebPage',
    ...common,
    breadcrumb: breadcrumbs(site, document.address, [
      ...(isRecord && pageOf(one) !== document
        ? [{ href: fileOf(pageOf(one)), label: facts.published.title }]
        : []),
      { href: fileOf(document), label: title },
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
