import { createHash } from 'node:crypto';
import { absolute } from './frame.js';
import { FILES, type ShownCase, type Site } from './site.js';

/** What the feed's template shows. */
interface FeedView {
  readonly file: string;
  readonly language: string;
  readonly id: string;
  readonly title: string;
  readonly about: string;
  readonly author: string;
  readonly updated: string;
  readonly self: string;
  readonly home: string;
  readonly entries: readonly EntryView[];
}

interface EntryView {
  readonly id: string;
  readonly title: string;
  readonly href: string;
  readonly term: 'record' | 'case';
  readonly kind: string;
  readonly summary: string;
}

/**
 * The published documents as a feed (RFC 4287).
 *
 * `updated` of the feed and of every entry is the one day that the clinic states for the whole site, or that the build
 * is given: the day of a surgery, of an approval or of a consent would be a date of the case, and its moved dates are
 * untrue and lie in another century. An entry's id comes from the pseudonym alone, so it stays when title, address or site change.
 */
export function atomFeed(
  cases: readonly ShownCase[],
  { language, at, issued }: Site & { readonly at: string; readonly issued: string },
): FeedView {
  const { site, tag } = language;
  const entries = cases.flatMap(({ pseudonym, documents }) =>
    documents.map(({ file, title, lead, draft, reader }): EntryView => {
      const term = reader === 'student' ? 'record' : 'case';
      return {
        id: uuid(ENTRIES, `${pseudonym} ${reader}`),
        title,
        href: absolute(at, file),
        term,
        kind: site.text(`kinds.${term}`),
        summary: draft === null ? lead : `${lead.replace(/\.$/, '')}. ${draft}`,
      };
    }),
  );
  return {
    file: FILES.feed,
    language: tag,
    id: uuid(FEEDS, at),
    title: site.text('feed.title'),
    about: site.text('feed.about'),
    author: site.text('feed.author'),
    updated: `${issued}T00:00:00Z`,
    self: absolute(at, FILES.feed),
    home: absolute(at, FILES.home),
    entries,
  };
}

/** Every page that search engines may list, for them to find (sitemaps.org, protocol 0.9). Without dates, as none may be told. */
export const sitemap = (at: string, files: readonly string[]) => ({
  file: FILES.sitemap,
  places: files.map((file) => absolute(at, file)),
});

/** Tells a crawler where the map is (RFC 9309; sitemaps.org). It is heeded at the top of a host alone. */
export const robots = (at: string): string =>
  `User-agent: *\nAllow: /\nSitemap: ${absolute(at, FILES.sitemap)}\n`;

/** Names within which the ids of our feeds and entries are made, drawn at random once and never changed. */
const FEEDS = 'ee6289ea-d69a-4ebb-8318-7078aa6a2a1e';
const ENTRIES = '6452a516-7bfe-45dd-8f14-e499abf70551';

/** A UUID by name as a URN: version 5 of RFC 9562, section 5.5. */
export function uuid(namespace: string, name: string): string {
  const bytes = createHash('sha1')
    .update(Buffer.from(namespace.replaceAll('-', ''), 'hex'))
    .update(name)
    .digest()
    .subarray(0, 16);
  bytes[6] = ((bytes[6] as number) & 0x0f) | 0x50;
  bytes[8] = ((bytes[8] as number) & 0x3f) | 0x80;
  return `urn:uuid:${bytes.toString('hex').replace(/^(.{8})(.{4})(.{4})(.{4})/, '$1-$2-$3-$4-')}`;
}
