import { posix } from 'node:path';
import { type DocsPage, PAGES } from './pages.js';

/**
 * The Markdown of a page with its links to other Markdown pages turned into links of the site. A link to what is no
 * page of the site is a mistake of whoever wrote it: it throws.
 */
export function linkedWithin(text: string, { source, file }: DocsPage): string {
  return text
    .split(/(^```[\s\S]*?^```$|`[^`\n]*`)/m)
    .map((part, index) =>
      index % 2 === 1
        ? part
        : part.replace(/\]\(([^)\s#]+)(#[^)\s]*)?\)/g, (link, target: string, place = '') => {
            if (/^[a-z]+:/.test(target)) return link;
            const wanted = posix.join(posix.dirname(source), target);
            const found = PAGES.find((one) => one.source === wanted);
            if (!found) throw new Error(`${source} links to ${target}, which is no page`);
            return `](${posix.relative(posix.dirname(file), found.file)}${place})`;
          }),
    )
    .join('');
}
