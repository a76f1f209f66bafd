import { join } from 'node:path';
import { isScalar, LineCounter, parseDocument } from 'yaml';
import type { ContentKeys } from '../record/case-schema.js';
import { bad, good, type Outcome, type Place, type Problem } from '../record/problem.js';
import { position } from '../record/yaml-place.js';
import { once } from '../units/once.js';
import { type Language, type LanguageContent, languageOf } from '../words/language.js';
import { flatten } from '../words/phrasebook.js';
import { type Effects, readText } from './effects.js';

export interface Content {
  readonly languages: ReadonlyMap<string, Language>;
  readonly keys: ContentKeys;
  /** Where a message of a language stands, by its key `call.items.0`. */
  readonly place: (tag: string, book: keyof LanguageContent, key: string) => Place;
}

/** A file of words: its messages, and where each of them stands. */
interface WordsFile {
  readonly words: unknown;
  readonly place: (key: string) => Place;
}

const FILES = [
  'common',
  'owner',
  'learner',
  'trade',
  'procedures',
  'purposes',
  'rhythms',
  'library',
  'live',
  'site',
  'reasons',
  'terms',
] as const satisfies readonly (keyof LanguageContent)[];

type LanguageFiles = Readonly<Record<(typeof FILES)[number], WordsFile>>;

/** Each language has its own list of trade words. */
const SAME_KEYS = FILES.filter((name) => name !== 'terms');

/** What the files of each language say, parsed, by the tag of the language and the name of the file. Plain data. */
export type ParsedWords = ReadonlyMap<string, LanguageContent>;

/**
 * Reads the words of each language folder. English defines which messages there are, and which procedures and purposes a
 * record may name: a message that another language lacks is a problem, so no sheet can stop halfway.
 */
export function loadContent(folder: string, effects: Effects): Outcome<Content> {
  const languages = readLanguages(folder, effects);
  return languages.ok ? good(contentOf(languages.value)) : languages;
}

/** The words of each language folder as they stand in their files. */
export function parseContent(folder: string, effects: Effects): Outcome<ParsedWords> {
  const languages = readLanguages(folder, effects);
  return languages.ok
    ? good(new Map([...languages.value].map(([tag, files]) => [tag, wordsOf(files)])))
    : languages;
}

/** The same content as `loadContent` gives, of words that it was parsed from before; a file is read where a place is asked for. */
export const contentAgain = (folder: string, parsed: ParsedWords, effects: Effects): Content =>
  contentOf(
    new Map(
      [...parsed].map(([tag, words]) => [
        tag,
        Object.fromEntries(
          FILES.map((name) => {
            const file = fileOf(folder, tag, name);
            const read = once(() => readFile(file, effects));
            const place = (key: string): Place => {
              const now = read();
              return now.ok ? now.value.place(key) : { file, field: key };
            };
            return [name, { words: words[name], place }];
          }),
        ) as LanguageFiles,
      ]),
    ),
  );

function readLanguages(
  folder: string,
  effects: Effects,
): Outcome<ReadonlyMap<string, LanguageFiles>> {
  const problems: Problem[] = [];
  const languages = new Map<string, LanguageFiles>();
  for (const tag of effects.folders(folder)) {
    const files = FILES.map((name) => {
      const words = readFile(fileOf(folder, tag, name), effects);
      if (!words.ok) problems.push(...words.problems);
      return [name, words.ok ? words.value : null] as const;
    });
    languages.set(tag, Object.fromEntries(files) as LanguageFiles);
  }
  const reference = languages.get('en');
  if (!reference) {
    problems.push({
      kind: 'a language without its files',
      file: join(folder, 'en'),
      found: 'no such folder',
      expected: 'the English words',
      mend: 'Put the folder back.',
    });
  }
  if (problems.length > 0 || !reference) return bad(...problems);
  const missing = [...languages.values()].flatMap((files) => missingMessages(reference, files));
  return missing.length > 0 ? bad(...missing) : good(languages);
}

function contentOf(languages: ReadonlyMap<string, LanguageFiles>): Content {
  const reference = languages.get('en') as LanguageFiles;
  return {
    languages: new Map(
      [...languages].map(([tag, files]) => [tag, languageOf(tag, wordsOf(files))]),
    ),
    keys: {
      procedures: Object.keys(reference.procedures.words as object),
      purposes: Object.keys(reference.purposes.words as object),
      languages: [...languages.keys()],
    },
    place: (tag, book, key) => (languages.get(tag) as LanguageFiles)[book].place(key),
  };
}

const fileOf = (folder: string, tag: string, name: (typeof FILES)[number]): string =>
  join(folder, tag, `${name}.yaml`);

function readFile(file: string, effects: Effects): Outcome<WordsFile> {
  const text = readText(effects, file);
  return text.ok ? readWords(text.value, file) : text;
}

const wordsOf = (files: LanguageFiles): LanguageContent =>
  Object.fromEntries(FILES.map((name) => [name, files[name].words])) as unknown as LanguageContent;

/** What English says and another language does not. */
function missingMessages(english: LanguageFiles, other: LanguageFiles): Problem[] {
  return SAME_KEYS.flatMap((name) => {
    const has = flatten(other[name].words);
    return Object.entries(flatten(english[name].words))
      .filter(([key]) => !(key in has))
      .map(([key, message]): Problem => {
        const { file, line } = english[name].place(key);
        return {
          kind: 'words that a language lacks',
          ...other[name].place(key),
          found: 'no words under this key',
          expected: `what ${file}:${line} says: ${JSON.stringify(message.trim())}`,
          mend: 'Add the key with its words in this language, or mend its spelling.',
        };
      });
  });
}

function readWords(text: string, file: string): Outcome<WordsFile> {
  const lines = new LineCounter();
  const document = parseDocument(text, { lineCounter: lines, prettyErrors: false });
  const mistake = document.errors[0];
  if (mistake) {
    return bad({
      kind: 'not YAML',
      file,
      ...position(lines, mistake.pos[0]),
      found: mistake.message,
      expected: 'YAML that can be read',
      mend: 'Check the indentation, the colons and the quotes around here.',
    });
  }
  return good({
    words: document.toJS(),
    place: (key) => {
      const node: unknown = document.getIn(key.split('.'), true);
      const offset = isScalar(node) ? node.range?.[0] : undefined;
      if (offset === undefined) return { file, field: key };
      return { file, ...position(lines, offset), field: key };
    },
  });
}
