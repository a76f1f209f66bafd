import { loadContent } from '../../src/publish/content.js';
import { disk } from '../../src/publish/disk.js';
import type { Language } from '../../src/words/language.js';

/** The languages of `content/`, read from the folder of the project, in which tests and tools run. */
const read = loadContent(
  'content',
  disk(() => {}),
);
if (!read.ok) throw new Error(JSON.stringify(read.problems));

export const LANGUAGES: ReadonlyMap<string, Language> = read.value.languages;
export const ENGLISH = LANGUAGES.get('en') as Language;
