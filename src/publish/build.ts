import { cpSync, existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { identifiersOf } from '../privacy/identifiers.js';
import type { Cleared } from '../privacy/passages.js';
import { traitsOf } from '../privacy/public-facts.js';
import { smallGroups } from '../privacy/small-groups.js';
import { type KeyedHash, veilOf } from '../privacy/veil.js';
import { bad, good, type Outcome, type Warning } from '../record/problem.js';
import type { Language } from '../words/language.js';
import { clearCase } from './clear-case.js';
import type { Effects } from './effects.js';
import { type GonePage, goneFrom, publicPages } from './gone.js';
import { type GroupsReport, groupsOf } from './groups-report.js';
import { type FailedCase, isPublished, type Loaded, load } from './load.js';
import { noRoom } from './no-room.js';
import { openDraft } from './output-folder.js';
import { ownerOnly } from './owner-only.js';
import { type PrintedCase, printCase } from './print-case.js';
import { pseudonymHash } from './pseudonym-key.js';
import { type CaseReading, readingOf } from './reading.js';
import { searchPublic } from './search-public.js';
import { writePublicTree } from './site/public-tree.js';
import type { Site } from './site/site.js';
import { siteOf } from './site/site-of.js';
import { writeCalendarTree, writePrivateTree } from './trees.js';
import { withheldOf } from './withheld.js';

export interface BuildOptions {
  /** A clinic's folder or one case folder. */
  readonly cases: string;
  readonly out: string;
  /** One bad case stops the build, and so does a warning that its record does not answer. */
  readonly strict: boolean;
  /** May hold the key for pseudonyms. */
  readonly environment?: Readonly<Record<string, string | undefined>>;
}

export interface BuildReport {
  readonly built: readonly string[];
  readonly failed: readonly FailedCase[];
  /** Failed cases whose last private sheet was kept. */
  readonly kept: readonly string[];
  readonly warnings: readonly Warning[];
  /** How hard each owner's sheet is to read. */
  readonly readings: readonly CaseReading[];
  /** What was public in the last output and is no more. */
  readonly gone: readonly GonePage[];
  /** Cases that stay out of public until their authors have decided on a passage. */
  readonly undecided: readonly FailedCase[];
  /** How many names of cases were replaced by neutral words, by case. */
  readonly replaced: ReadonlyMap<string, number>;
  /** How well the published cases hide among one another. */
  readonly groups: GroupsReport;
  /** Where the clinic puts the calendar files; null where it puts them nowhere. */
  readonly calendarsAt: string | null;
  /** Where the clinic puts the public pages, and the day that their feed tells; null where it says neither. */
  readonly site: Pick<Site, 'at' | 'issued'>;
}

/**
 * Builds all documents of a collection into `out/private` and `out/public`. The last output stays whole until the new
 * one is. A case that cannot be read keeps its last private sheet, and is taken out of public, since its consent cannot
 * be read either.
 */
export async function build(
  options: BuildOptions,
  effects: Effects,
): Promise<Outcome<BuildReport>> {
  const loaded = load(options.cases, effects);
  if (!loaded.ok) return loaded;
  const { clinic, clinicFile, content, cases } = loaded.value;
  const failed: FailedCase[] = [...loaded.value.failed];
  const stops = (good: number) => failed.length > 0 && (options.strict || good === 0);
  const refuse = () => bad(...failed.flatMap(({ problems }) => problems));
  if (stops(cases.length)) return refuse();
  const readings = cases.map((one) => readingOf(one, content));
  const warnings = [
    ...cases.flatMap(({ facts }) => facts.warnings),
    ...readings.flatMap((reading) => reading.warnings),
  ];
  const open = warnings.filter(({ accepted }) => accepted === null);
  if (options.strict && open.length > 0) return bad(...open);

  // A clinic that publishes nothing needs no key.
  const hash = cases.some(isPublished)
    ? pseudonymHash({
        clinic,
        clinicFile,
        out: options.out,
        environment: options.environment ?? {},
      })
    : good(null);
  if (!hash.ok) return hash;

  const cleared = clearAll(loaded.value);
  const undecided = [...cleared].flatMap(([name, outcome]) =>
    outcome.ok ? [] : [{ name, problems: outcome.problems }],
  );
  if (options.strict && undecided.length > 0) {
    return bad(...undecided.flatMap(({ problems }) => problems));
  }

  const draft = openDraft(options.out);
  if (!draft.ok) return draft;
  const { folder, publish, discard } = draft.value;
  try {
    const { printed, groups, unprintable } = await printAll(
      loaded.value,
      hash.value,
      cleared,
      effects.progress,
    );
    failed.push(...unprintable);
    if (stops(printed.length)) return refuse();

    effects.progress('Writing pages');
    const kept = keepLastSheets(failed, options.out, folder);
    await writePrivateTree(printed, kept, join(folder, 'private'));
    writeCalendarTree(printed, lastCalendars(kept, options.out), join(folder, 'calendars'));
    // The draft as a whole is closed to others until then: see `output-folder.ts`.
    ownerOnly(join(folder, 'private'));
    const site = siteOf({
      clinic,
      content,
      groups: groupsOf(clinic, groups),
      library: loaded.value.library,
      environment: options.environment ?? {},
    });
    await writePublicTree(printed, site, join(folder, 'public'));
    const leaks = searchPublic(
      join(folder, 'public'),
      [
        ...cases.flatMap(({ facts, beside }) => identifiersOf(facts, beside)),
        ...loaded.value.failed.flatMap(({ identifiers }) => identifiers),
      ],
      cases.flatMap((one) =>
        withheldOf(one, { cleared, groups, unprintable: unprintable.map(({ name }) => name) }),
      ),
    );
    if (leaks.length > 0) return bad(...leaks);
    const gone = goneFrom(
      publicPages(join(options.out, 'public')),
      publicPages(join(folder, 'public')),
      cases.map(({ facts }) => facts),
    );
    publish();
    return good({
      built: printed.map(({ name }) => name),
      failed,
      kept,
      warnings,
      readings,
      gone,
      undecided,
      replaced: new Map(
        [...cleared].flatMap(([name, words]) =>
          words.ok && words.value.replaced > 0 ? [[name, words.value.replaced] as const] : [],
        ),
      ),
      groups: groupsOf(clinic, groups),
      calendarsAt: clinic['calendars online']?.at ?? null,
      site: { at: site.at, issued: site.issued },
    });
  } catch (error) {
    const refused = noRoom(error, options.out);
    if (refused) return refused;
    throw error;
  } finally {
    // Nothing is left to discard once the draft is published.
    discard();
  }
}

/** What each case with consent may say in its author's words. */
export function clearAll({ clinic, content, cases }: Loaded): Map<string, Outcome<Cleared>> {
  const { learner } = content.languages.get(clinic.languages[0] as string) as Language;
  return new Map(
    cases.filter(isPublished).map((one) => [one.name, clearCase(one, learner)] as const),
  );
}

/**
 * Prints every case, each public one as far as enough others tell the same. A case that cannot be printed hides nobody,
 * so the groups are then made anew without it.
 */
async function printAll(
  { clinic, content, cases }: Loaded,
  hash: KeyedHash | null,
  cleared: ReadonlyMap<string, Outcome<Cleared>>,
  progress: Effects['progress'],
) {
  const region = clinic.region ?? null;
  const unprintable: FailedCase[] = [];
  for (;;) {
    const left = cases.filter(({ name }) => unprintable.every((failed) => failed.name !== name));
    const groups = smallGroups(
      new Map(
        left
          .filter(({ name }) => cleared.get(name)?.ok)
          .map(({ name, facts }) => [name, traitsOf(facts, region)] as const),
      ),
      clinic['small groups']['at least'],
    );
    const printed: PrintedCase[] = [];
    const failures = unprintable.length;
    for (const one of left) {
      progress(`Printing ${one.name}`);
      const told = groups.get(one.name)?.told ?? null;
      const words = cleared.get(one.name);
      const veil =
        hash && told && words?.ok
          ? veilOf(one.facts.identity.record, hash, { region, told, say: words.value.say })
          : null;
      const documents = await printCase(one, content, clinic.languages[0] as string, veil);
      if (documents.ok) printed.push(documents.value);
      else unprintable.push({ name: one.name, problems: documents.problems });
    }
    if (unprintable.length === failures) return { printed, groups, unprintable };
  }
}

/** The calendar files that went online with the last sheets of these cases: an owner may hold a code to them. */
function lastCalendars(names: readonly string[], out: string): Map<string, Uint8Array> {
  const folder = join(out, 'calendars');
  const online = existsSync(folder) ? readdirSync(folder) : [];
  const sheets = names
    .map((name) => join(out, 'private', name, 'discharge.ics'))
    .filter((file) => existsSync(file))
    .map((file) => readFileSync(file));
  return new Map(
    online
      .map((name) => [name, readFileSync(join(folder, name))] as const)
      .filter(([, bytes]) => sheets.some((sheet) => sheet.equals(bytes))),
  );
}

function keepLastSheets(failed: readonly FailedCase[], out: string, folder: string): string[] {
  return failed.flatMap(({ name }) => {
    const last = join(out, 'private', name);
    if (!existsSync(join(last, 'discharge.html'))) return [];
    cpSync(last, join(folder, 'private', name), { recursive: true });
    return [name];
  });
}
