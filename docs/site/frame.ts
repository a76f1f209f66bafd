import { readFileSync } from 'node:fs';
import { join, posix } from 'node:path';
import { parse } from 'yaml';
import { house } from '../../src/publish/house.js';
import type { Frame } from '../../src/publish/site/frame.js';
import { HOME, PAGES, REFERENCE } from './pages.js';

const NAME = 'thrice';
const LANGUAGE = 'en';

/** What stands around a page of the documentation: the same frame as around the pages of cases. */
export function docsFrame(file: string, title: string, lead: string): Frame {
  const root = '../'.repeat(file.split('/').length - 1);
  const isReference = file.startsWith('api/');
  const link = (to: { file: string; label: string }) => ({
    href: posix.relative(posix.dirname(file), to.file),
    label: to.label,
    language: LANGUAGE,
    current:
      to.file === file
        ? ('page' as const)
        : to === REFERENCE && isReference
          ? ('true' as const)
          : null,
  });
  const home = `${root}${HOME}`;
  const within = isReference && file !== REFERENCE.file ? [link(REFERENCE)] : [];
  return {
    root,
    language: LANGUAGE,
    title,
    lead,
    name: NAME,
    home,
    nav: [...PAGES.filter(({ isMain }) => isMain), REFERENCE].map(link),
    more: PAGES.filter(({ isMain }) => !isMain).map(link),
    trail:
      file === HOME
        ? []
        : [{ href: home, label: 'Documentation' }, ...within, { href: '', label: title }],
    words: frameWords(),
    unlisted: false,
    feed: null,
    canonical: null,
    structured: null,
  };
}

/** The words that the frame of the public pages has, too. */
function frameWords(): Frame['words'] {
  const file = join(house.content, LANGUAGE, 'site.yaml');
  const words = parse(readFileSync(file, 'utf8')) as {
    skip: string;
    nav: Record<'label' | 'here' | 'more', string>;
    scheme: { dark: string };
  };
  return {
    skip: words.skip,
    'nav.label': words.nav.label,
    'nav.here': words.nav.here,
    'nav.more': words.nav.more,
    'scheme.dark': words.scheme.dark,
  };
}
