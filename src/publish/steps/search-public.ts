import { readdirSync } from 'node:fs';
import { join, relative, resolve, sep } from 'node:path';
import type { Identifier } from '../../privacy/identifiers.js';
import type { Problem } from '../../record/problem.js';
import { digestOf } from '../store/digest.js';
import type { KeptPart, Store } from '../store/store.js';
import { strayFinder, type Withheld } from '../withheld.js';
import type { Entry, Found, Suspect } from './prove.js';
import type { Steps } from './steps.js';

/** What nothing public may hold: identifiers, and what was decided to stay out. */
export interface Forbidden {
  readonly identifiers: readonly Identifier[];
  readonly withheld: readonly Withheld[];
}

/**
 * Searches everything public for the identifiers of every case and for what was kept back. One hit is a problem that
 * stops the build, and so is a file that cannot be searched.
 * @param parts what is kept together, and is not searched again for what was sought in it before
 */
export async function searchPublic(
  folder: string,
  parts: readonly KeptPart[],
  forbidden: Forbidden,
  { steps, store }: { readonly steps: Steps; readonly store: Store },
): Promise<Problem[]> {
  const identifiers = [
    ...new Map(forbidden.identifiers.map((one) => [one.text, one] as const)).values(),
  ];
  const sought = soughtFor(identifiers);
  const key = digestOf('sought', JSON.stringify(sought));
  store.keepValue(key, sought);
  const entries = entriesIn(folder);
  const found = await steps.prove(inParts(entries, parts, resolve(folder), key));
  const names = new Map(identifiers.map(({ text, what }) => [text, what] as const));
  const strayAt = strayFinder(forbidden.withheld);
  return [
    ...entries.flatMap((entry) => misplaced(entry, strayAt)),
    ...found.flat().flatMap((one) => refused(one, names, strayAt)),
  ];
}

/** A day of the calendar, as identifiers have it. */
const DAY = /^(\d{4})-\d{2}-\d{2}$/;
const A_DAY = 'a day of some case';

/**
 * The identifiers, and in place of their days every day of those years: a dose more or a visit later gives a case other
 * days, and nothing must be searched again for that. Days of birth lie in many years and hardly change.
 */
function soughtFor(identifiers: readonly Identifier[]): Identifier[] {
  const years = new Set<number>();
  const others = identifiers.filter(({ text, what }) => {
    const year = what === 'the date of birth' ? undefined : DAY.exec(text)?.[1];
    if (year !== undefined) years.add(Number(year));
    return year === undefined;
  });
  const known = new Set(others.map(({ text }) => text));
  const days = [...years]
    .sort((a, b) => a - b)
    .flatMap(daysOf)
    .filter((day) => !known.has(day));
  return [...others, ...days.map((text) => ({ what: A_DAY, text }))];
}

function daysOf(year: number): string[] {
  const days: string[] = [];
  const day = new Date(Date.UTC(year, 0, 1));
  for (; day.getUTCFullYear() === year; day.setUTCDate(day.getUTCDate() + 1)) {
    days.push(day.toISOString().slice(0, 10));
  }
  return days;
}

function entriesIn(folder: string): Entry[] {
  return (
    readdirSync(folder, { withFileTypes: true, recursive: true })
      .map(
        (entry): Entry => ({
          path: relative(folder, join(entry.parentPath, entry.name)).split(sep).join('/'),
          is: entry.isFile() ? 'file' : entry.isDirectory() ? 'folder' : 'other',
        }),
      )
      // The order in which a disk lists them is its own.
      .sort((a, b) => (a.path < b.path ? -1 : 1))
  );
}

const PUBLIC = 'public/';

/** What is kept together, and whatever stands there besides, folders and files that nobody meant to be there. */
function inParts(
  entries: readonly Entry[],
  parts: readonly KeptPart[],
  folder: string,
  sought: string,
): Suspect[] {
  const partOf = new Map(
    parts.flatMap(({ files }) => {
      // By what is public of it: a page of a case may change without the others.
      const shown = files.filter(({ path }) => path.startsWith(PUBLIC));
      const key = digestOf(...shown.flatMap(({ path, digest }) => [path, digest]));
      return shown.map(({ path }) => [path.slice(PUBLIC.length), key] as const);
    }),
  );
  const sorted = new Map<string | null, Entry[]>();
  for (const entry of entries) {
    const part = (entry.is === 'file' && partOf.get(entry.path)) || null;
    const others = sorted.get(part);
    if (others) others.push(entry);
    else sorted.set(part, [entry]);
  }
  return [...sorted].map(([part, own]) => ({
    folder,
    entries: own,
    documents: part ?? digestOfFolders(own),
    sought,
  }));
}

/** Nothing but the names of folders can hold anything; null where there is something else. */
const digestOfFolders = (entries: readonly Entry[]): string | null =>
  entries.every(({ is }) => is === 'folder')
    ? digestOf('folders', ...entries.map(({ path }) => path))
    : null;

type StrayAt = ReturnType<typeof strayFinder>;

function misplaced({ path, is }: Entry, strayAt: StrayAt): Problem[] {
  const file = join('public', path);
  if (is === 'other') {
    return [
      {
        kind: 'a public file that must not be there',
        file,
        found: 'a link, or something else that is neither a file nor a folder',
        expected: 'only files and folders in what is published',
        mend: 'Nothing in a record should lead to this: please report it.',
      },
    ];
  }
  const stray = strayAt(`${path}/`);
  return stray ? [keptBack(file, stray)] : [];
}

/** What was found and may not be there. @param names what each identifier is, by its text */
function refused(one: Found, names: ReadonlyMap<string, string>, strayAt: StrayAt): Problem[] {
  if (one.kind === 'obstacle') return [one.problem];
  if (one.kind === 'link') {
    const stray = strayAt(one.to);
    return stray ? [keptBack(one.file, { ...stray, what: `a link to ${stray.what}` })] : [];
  }
  const what = names.get(one.text);
  // A day of the same year that is a day of no case.
  if (what === undefined) return [];
  return [{ ...one.problem, found: one.problem.found.replace(A_DAY, what) }];
}

const keptBack = (file: string, { what, because }: Withheld): Problem => ({
  kind: 'a public file that must not be there',
  file,
  found: `${what} that must not be public: ${because}`,
  expected: 'nothing public that was kept back',
  mend: 'Nothing in a record should lead to this: please report it.',
});
