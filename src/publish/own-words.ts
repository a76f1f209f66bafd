import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { OF_FORMATS } from '../privacy/common-words.js';
import { house } from './house.js';
import { ownPages } from './site/own-pages.js';

/** The words that pages print of themselves, whoever the patient is: those of the content, the templates and formats. */
export function ownWords(): Set<string> {
  const words = new Set(OF_FORMATS);
  for (const folder of [house.content, house.templates]) {
    for (const entry of readdirSync(folder, { withFileTypes: true, recursive: true })) {
      if (!entry.isFile()) continue;
      const text = readFileSync(join(entry.parentPath, entry.name), 'utf8');
      for (const [word] of text.matchAll(/[\p{L}\p{M}]+/gu)) words.add(word.toLowerCase());
    }
  }
  return words;
}

/**
 * Public pages that no case has a part in, with the text that they are made of, by their path. What an owner reads of
 * the public is none of them: it has no example with dates and names.
 */
export const ownTexts = (): Map<string, Uint8Array> =>
  new Map(
    ownPages()
      .filter(({ section }) => section === 'guide')
      .map(({ file, bytes }) => [file, bytes] as const),
  );
