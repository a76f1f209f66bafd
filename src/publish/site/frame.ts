import { placesOn } from '../library/places.js';
import { FILES, LISTS, type Link, type Site } from './site.js';

/** A page that a frame is put around. */
export interface FramedPage {
  /** Path in the tree with its ending. */
  readonly file: string;
  readonly title: string;
  readonly lead: string;
  readonly language: string;
  readonly section: Section;
  /** Pages between the home page and this one. */
  readonly within?: readonly Link[];
  /** What machines may read of it, as JSON for linked data. */
  readonly structured?: unknown;
  /** Whether it is a draft, or a page of use to readers alone: no search engine shall list it. */
  readonly unlisted?: boolean;
}

type Section =
  | keyof Omit<typeof FILES, 'feed' | 'sitemap' | 'robots'>
  | 'cases'
  | 'guide'
  | 'privacy';

/** A link of the frame. */
interface FrameLink extends Link {
  readonly language: string;
  /** `page` for the page itself, `true` for the part of the site that it belongs to. */
  readonly current: 'page' | 'true' | null;
}

/** What stands around every page of the public site. */
export interface Frame {
  readonly root: string;
  readonly language: string;
  readonly title: string;
  readonly lead: string;
  readonly name: string;
  readonly home: string;
  readonly nav: readonly FrameLink[];
  /** Every part of the site, at the foot of each page. */
  readonly more: readonly FrameLink[];
  /** From the home page down to this one; empty on the home page. */
  readonly trail: readonly Link[];
  readonly words: Readonly<Record<(typeof WORDS)[number], string>>;
  readonly unlisted: boolean;
  readonly feed: string | null;
  readonly canonical: string | null;
  readonly structured: unknown;
}

const WORDS = ['skip', 'nav.label', 'nav.here', 'nav.more', 'scheme.dark'] as const;

export function frameOf(site: Site, page: FramedPage): Frame {
  const { site: words } = site.languages.get(page.language) ?? site.language;
  const { tag } = site.language;
  const root = '../'.repeat(page.file.split('/').length - 1);
  const link = (file: string, label: string, section: Section, language = tag): FrameLink => ({
    href: `${root}${file}`,
    label,
    language,
    current: file === page.file ? 'page' : sectionOf(page.section) === section ? 'true' : null,
  });
  const own = (section: 'guide' | 'privacy') => {
    const pages = site.own.filter((one) => one.section === section);
    const found = [page.language, tag, 'en'].flatMap((wanted) =>
      pages.filter(({ language }) => language === wanted),
    )[0];
    return found ? [link(found.file, words.text(`nav.${section}`), section, found.language)] : [];
  };
  /** The library in the language of the page, where it has one. */
  const inLibrary = (file: string): string => {
    const place = placesOn(site.shelf).find(({ language }) => language.tag === page.language);
    return place ? file.replace(/^library\//, place.folder) : file;
  };
  const nav = [
    link(FILES.home, words.text('nav.home'), 'home'),
    link(
      inLibrary(FILES.explanations),
      words.text('nav.explanations'),
      'explanations',
      page.language,
    ),
    link(inLibrary(FILES.glossary), words.text('nav.glossary'), 'glossary', page.language),
    ...own('guide'),
    link(FILES.search, words.text('nav.search'), 'search'),
  ];
  const feed = hasFeed(site) ? `${root}${FILES.feed}` : null;
  return {
    root,
    language: page.language,
    title: page.title,
    lead: page.lead,
    name: words.text('name'),
    home: `${root}${FILES.home}`,
    nav,
    more: [
      ...LISTS.map((list) => link(FILES[list], words.text(`lists.${list}.name`), list)),
      ...nav.slice(1),
      ...own('privacy'),
      ...(feed === null ? [] : [link(FILES.feed, words.text('nav.feed'), 'home')]),
    ].map((one) => (one.current === 'true' ? { ...one, current: null } : one)),
    trail:
      page.file === FILES.home
        ? []
        : [
            { href: `${root}${FILES.home}`, label: words.text('nav.home') },
            ...(page.within ?? []).map(({ href, label }) => ({ href: `${root}${href}`, label })),
            { href: '', label: page.title },
          ],
    words: Object.fromEntries(WORDS.map((key) => [key, words.text(key)])) as Frame['words'],
    unlisted: page.unlisted ?? false,
    feed,
    canonical: site.at === null ? null : absolute(site.at, page.file),
    structured: page.structured ?? null,
  };
}

/** The lists and the cases belong to the home page. */
function sectionOf(section: Section): Section {
  return section === 'cases' || (LISTS as readonly string[]).includes(section) ? 'home' : section;
}

/** A feed needs an address for its links and a day for its entries. */
const hasFeed = ({ at, issued }: Site): boolean => at !== null && issued !== null;

/** The address of a page where the site stands; that of the home page is the site's own. */
export const absolute = (at: string, file: string): string =>
  `${at}/${file === FILES.home ? '' : file.split('/').map(encodeURIComponent).join('/')}`;
