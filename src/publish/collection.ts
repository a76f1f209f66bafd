import { dirname, join } from 'node:path';
import type { Clinic } from '../record/clinic-schema.js';
import type { Formulary } from '../record/formulary-schema.js';
import { good, type Outcome } from '../record/problem.js';
import { readClinic, readFormulary } from '../record/read-case.js';
import { type Content, contentAgain, loadContent } from './content.js';
import { type Effects, readText } from './effects.js';
import { findCases } from './find-cases.js';
import { house } from './house.js';
import { type Library, loadLibrary } from './library/library.js';
import { parsedWords } from './parsed-words.js';

/** What all cases of a clinic share, and where they are. */
export interface Collection {
  readonly clinic: Clinic;
  /** Path of its `clinic.yaml`. */
  readonly clinicFile: string;
  /** The clinic's own doses beside its `clinic.yaml`; null where it keeps none. */
  readonly formulary: Formulary | null;
  readonly content: Content;
  readonly library: Library;
  /** Case folders as paths, sorted by name. */
  readonly folders: readonly string[];
}

/** What the program has to say, the same for every clinic. */
export type Words = Pick<Collection, 'content' | 'library'>;

let known: Outcome<Words> | undefined;

/** The program's own words do not change while it runs, but where somebody edits them and watches: they are read once. */
function programWords(effects: Effects): Outcome<Words> {
  if (!known?.ok) known = loadWords(effects);
  return known;
}

export function loadWords(effects: Effects): Outcome<Words> {
  const parsed = parsedWords();
  if (parsed) {
    const content = contentAgain(house.content, parsed.words, effects);
    return good({ content, library: parsed.library });
  }
  const content = loadContent(house.content, effects);
  if (!content.ok) return content;
  const library = loadLibrary(house.content, content.value, effects);
  return library.ok ? good({ content: content.value, library: library.value }) : library;
}

export function openCollection(
  path: string,
  effects: Effects,
  words = programWords(effects),
): Outcome<Collection> {
  if (!words.ok) return words;
  const { content, library } = words.value;
  const found = findCases(path, effects);
  if (!found.ok) return found;
  const { clinicFile, cases: folders } = found.value;
  const text = readText(effects, clinicFile);
  if (!text.ok) return text;
  const clinic = readClinic(text.value, clinicFile, content.keys);
  if (!clinic.ok) return clinic;
  const formulary = loadFormulary(join(dirname(clinicFile), 'formulary.yaml'), effects);
  if (!formulary.ok) return formulary;
  return good({
    clinic: clinic.value.value,
    clinicFile,
    formulary: formulary.value,
    content,
    library,
    folders,
  });
}

function loadFormulary(file: string, effects: Effects): Outcome<Formulary | null> {
  if (!effects.exists(file)) return good(null);
  const text = readText(effects, file);
  if (!text.ok) return text;
  const formulary = readFormulary(text.value, file);
  return formulary.ok ? good(formulary.value.value) : formulary;
}
