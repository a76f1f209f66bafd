import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { OF_FORMATS } from '../privacy/common-words.js';
import { house } from './house.js';

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

/** Public pages that no case has a part in, with the text that they are made of, by their path. */
export const ownPages = (): Map<string, Uint8Array> =>
  new Map([['guide.html', readFileSync(join(house.content, 'en', 'guide.md'))]]);
