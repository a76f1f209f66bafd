import { join } from 'node:path';
import { parse, YAMLParseError } from 'yaml';
import type { ContentKeys } from '../record/case-schema.js';
import { bad, good, type Outcome, type Problem } from '../record/problem.js';
import { type Language, type LanguageContent, languageOf } from '../words/language.js';
import { type Effects, readText } from './effects.js';

export interface Content {
  readonly languages: ReadonlyMap<string, Language>;
  readonly keys: ContentKeys;
}

const FILES = ['owner', 'learner', 'trade', 'procedures', 'purposes', 'rhythms'] as const;

/** Reads the words of each language folder; the first folder, English, defines which procedures and purposes there are. */
export function loadContent(folder: string, effects: Effects): Outcome<Content> {
  const problems: Problem[] = [];
  const raw = new Map<string, LanguageContent>();
  for (const tag of effects.folders(folder)) {
    const files = FILES.map((name) => {
      const path = join(folder, tag, `${name}.yaml`);
      const text = readText(effects, path);
      const words = text.ok ? readWords(text.value, path) : text;
      if (!words.ok) problems.push(...words.problems);
      return [name, words.ok ? words.value : {}] as const;
    });
    raw.set(tag, Object.fromEntries(files) as unknown as LanguageContent);
  }
  const reference = raw.get('en');
  if (!reference) {
    problems.push({
      file: join(folder, 'en'),
      found: 'no such folder',
      expected: 'the English words',
      mend: 'Put the folder back.',
    });
  }
  if (problems.length > 0 || !reference) return bad(...problems);
  return good({
    languages: new Map([...raw].map(([tag, content]) => [tag, languageOf(tag, content)])),
    keys: {
      procedures: Object.keys(reference.procedures as object),
      purposes: Object.keys(reference.purposes as object),
    },
  });
}

function readWords(text: string, file: string): Outcome<unknown> {
  try {
    return good(parse(text));
  } catch (error) {
    if (!(error instanceof YAMLParseError)) throw error;
    return bad({
      file,
      line: error.linePos?.[0].line ?? 1,
      found: error.message.split(' at line')[0] as string,
      expected: 'YAML that can be read',
      mend: 'Check the indentation, the colons and the quotes around here.',
    });
  }
}
