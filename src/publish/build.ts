import {
  cpSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { availableParallelism } from 'node:os';
import { basename, join, relative, resolve, sep } from 'node:path';
import { type Grouped, smallGroups } from '../privacy/small-groups.js';
import { type KeyedHash, veilOf } from '../privacy/veil.js';
import { bad, good, type Outcome, type Warning } from '../record/problem.js';
import { type Collection, openCollection } from './collection.js';
import type { Effects } from './effects.js';
import { type GonePage, goneFrom, publicPages } from './gone.js';
import { type GroupsReport, groupsOf } from './groups-report.js';
import { collisions, type FailedCase, type UnreadCase } from './load.js';
import { noRoom } from './no-room.js';
import { openDraft } from './output-folder.js';
import { ownerOnly } from './owner-only.js';
import { pseudonymHash } from './pseudonym-key.js';
import type { CaseReading } from './reading.js';
import { writeSite } from './site/public-tree.js';
import type { Site } from './site/site.js';
import type { Order, Produced } from './steps/produce.js';
import type { Forbidden, Suspect } from './steps/prove.js';
import { type Steps, stepsHere } from './steps/steps.js';
import type { Surveyed } from './steps/survey.js';
import { startThreads } from './steps/threads.js';
import { workbench } from './steps/workbench.js';
import { digestOf } from './store/digest.js';
import { openStore, type Store, sweepStore } from './store/store.js';
import { writeClinicList } from './trees.js';
import { withheldOf } from './withheld.js';

export interface BuildOptions {
  /** A clinic's folder or one case folder. */
  readonly cases: string;
  readonly out: string;
  /** One bad case stops the build, and so does a warning that its record does not answer. */
  readonly strict: boolean;
  /** May hold the key for pseudonyms. */
  readonly environment?: Readonly<Record<string, string | undefined>>;
  /** Folder of what earlier builds have made; null to keep nothing. */
  readonly cache?: string | null;
  /** How many threads share the work, 0 for this one alone; by default as many as there are processors, where there are cases enough for them. */
  readonly threads?: number;
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
  const opened = openCollection(options.cases, effects);
  if (!opened.ok) return opened;
  const draft = openDraft(options.out);
  if (!draft.ok) return draft;
  const { folder, publish, discard } = draft.value;
  const own = join(folder, 'work');
  try {
    const place = options.cache ?? own;
    const store = openStore(place);
    if (!store.ok) return store;
    const report = await inSteps(opened.value, store.value, place, options, effects, (steps) =>
      buildInto(folder, { collection: opened.value, steps, store: store.value, options, effects }),
    );
    if (!report.ok) return report;
    rmSync(own, { recursive: true, force: true });
    publish();
    if (options.cache) sweepStore(options.cache, Date.now());
    return report;
  } catch (error) {
    const refused = noRoom(error, options.out);
    if (refused) return refused;
    throw error;
  } finally {
    // Nothing is left to discard once the draft is published.
    discard();
  }
}

/** Does something with the steps of a build, in threads where the options ask for them. */
async function inSteps<T>(
  collection: Collection,
  store: Store,
  folder: string,
  { threads: asked, environment = {} }: BuildOptions,
  effects: Effects,
  task: (steps: Steps) => Promise<T>,
): Promise<T> {
  const epoch = environment.SOURCE_DATE_EPOCH;
  const threads = asked ?? threadsFor(collection.folders.length);
  if (threads === 0) return task(stepsHere(workbench(collection, epoch, store, effects)));
  const { content: _, library: __, ...handed } = collection;
  const started = startThreads(threads, {
    handed,
    epoch,
    store: { folder: resolve(folder), others: [] },
  });
  try {
    return await task(started.steps);
  } finally {
    await started.end();
  }
}

/** A thread reads the program and its words first, which takes as long as some cases. Not a clinical number. */
const WORTH_A_THREAD = 8;

const threadsFor = (cases: number): number =>
  cases < 2 * WORTH_A_THREAD
    ? 0
    : Math.min(availableParallelism(), Math.floor(cases / WORTH_A_THREAD));

interface Task {
  readonly collection: Collection;
  readonly steps: Steps;
  readonly store: Store;
  readonly options: BuildOptions;
  readonly effects: Effects;
}

/** Writes the whole output into a folder. */
async function buildInto(
  folder: string,
  { collection, steps, store, options, effects }: Task,
): Promise<Outcome<BuildReport>> {
  const { clinic, clinicFile, folders } = collection;
  const environment = options.environment ?? {};
  effects.progress(`Reading ${counted(folders.length)}`);
  const surveys = await steps.survey(folders);
  const cases = surveys.flatMap((one) => (one.ok ? [one.value] : []));
  const unread: readonly UnreadCase[] = surveys.flatMap((one) => (one.ok ? [] : [one.value]));
  const clashes = collisions(cases, clinic);
  if (clashes.length > 0) return bad(...clashes);

  const failed: FailedCase[] = [...unread];
  const stops = (sound: number) => failed.length > 0 && (options.strict || sound === 0);
  const refuse = () => bad(...failed.flatMap(({ problems }) => problems));
  if (stops(cases.length)) return refuse();
  const warnings = [
    ...cases.flatMap((one) => one.warnings),
    ...cases.flatMap(({ reading }) => reading.warnings),
  ];
  const open = warnings.filter(({ accepted }) => accepted === null);
  if (options.strict && open.length > 0) return bad(...open);
  // A clinic that publishes nothing needs no key.
  const hash = cases.some(({ isPublished }) => isPublished)
    ? pseudonymHash({ clinic, clinicFile, out: options.out, environment })
    : good(null);
  if (!hash.ok) return hash;
  const undecided = cases.flatMap(({ name, cleared }) =>
    cleared === null || cleared.ok ? [] : [{ name, problems: cleared.problems }],
  );
  if (options.strict && undecided.length > 0) {
    return bad(...undecided.flatMap(({ problems }) => problems));
  }

  const { produced, groups, unprintable } = await produceAll(
    cases,
    new Map(folders.map((one) => [basename(one), one])),
    hash.value,
    clinic['small groups']['at least'],
    steps,
    effects.progress,
  );
  failed.push(...unprintable);
  if (stops(produced.length)) return refuse();

  effects.progress('Writing pages');
  for (const { key, files } of produced) store.place(key, files, folder);
  const kept = keepLastSheets(failed, options.out, folder);
  keepLastCalendars(kept, options.out, folder);
  await writeClinicList(
    produced.map(({ listed }) => listed),
    kept,
    join(folder, 'private'),
  );
  // The draft as a whole is closed to others until then: see `output-folder.ts`.
  ownerOnly(join(folder, 'private'));
  const { site } = workbench(collection, environment.SOURCE_DATE_EPOCH, store, effects);
  const report = groupsOf(clinic, groups);
  await writeSite(
    produced.flatMap(({ shown }) => shown ?? []),
    site,
    report,
    join(folder, 'public'),
  );
  effects.progress('Searching what is public');
  const unprinted = new Set(unprintable.map(({ name }) => name));
  const leaks = await steps.prove(
    suspectsIn(join(folder, 'public'), produced, store, {
      identifiers: [...cases, ...unread].flatMap(({ identifiers }) => identifiers),
      withheld: cases.flatMap((one) =>
        withheldOf(one, {
          cleared: one.cleared?.ok ?? null,
          told: groups.get(one.name)?.told ?? null,
          isPrintable: !unprinted.has(one.name),
        }),
      ),
    }),
  );
  if (leaks.some((found) => found.length > 0)) return bad(...leaks.flat());
  return good({
    built: produced.map(({ name }) => name),
    failed,
    kept,
    warnings,
    readings: cases.map(({ reading }) => reading),
    gone: goneFrom(
      publicPages(join(options.out, 'public')),
      publicPages(join(folder, 'public')),
      cases,
    ),
    undecided,
    replaced: new Map(
      cases.flatMap(({ name, cleared }) =>
        cleared?.ok && cleared.value > 0 ? [[name, cleared.value] as const] : [],
      ),
    ),
    groups: report,
    calendarsAt: clinic['calendars online']?.at ?? null,
    site: { at: site.at, issued: site.issued },
  });
}

const counted = (cases: number): string => `${cases} ${cases === 1 ? 'case' : 'cases'}`;

/**
 * Makes the documents of every case, of each public one as far as enough others tell the same. A case that cannot be
 * printed hides nobody, so the groups are then made anew without it.
 */
async function produceAll(
  cases: readonly Surveyed[],
  folders: ReadonlyMap<string, string>,
  hash: KeyedHash | null,
  least: number,
  steps: Steps,
  progress: Effects['progress'],
) {
  const unprintable: FailedCase[] = [];
  for (;;) {
    const out = new Set(unprintable.map(({ name }) => name));
    const left = cases.filter(({ name }) => !out.has(name));
    const groups = smallGroups(
      new Map(left.filter(({ cleared }) => cleared?.ok).map(({ name, traits }) => [name, traits])),
      least,
    );
    progress(`Printing ${counted(left.length)}`);
    const outcomes = await steps.produce(
      left.map((one) => ({
        name: one.name,
        folder: folders.get(one.name) as string,
        loaded: one.loaded,
        veil: veilFor(one, hash, groups),
      })),
    );
    const failures = left.flatMap(({ name }, index): FailedCase[] => {
      const outcome = outcomes[index] as Outcome<Produced>;
      return outcome.ok ? [] : [{ name, problems: outcome.problems }];
    });
    if (failures.length === 0) {
      const produced = outcomes.flatMap((outcome) => (outcome.ok ? [outcome.value] : []));
      return { produced, groups, unprintable };
    }
    unprintable.push(...failures);
  }
}

function veilFor(
  { name, record }: Surveyed,
  hash: KeyedHash | null,
  groups: ReadonlyMap<string, Grouped>,
): Order['veil'] {
  const told = groups.get(name)?.told ?? null;
  return hash && told ? { ...veilOf(record, hash), told } : null;
}

/** The public tree in parts: each case by itself, and all that stands around them. */
function suspectsIn(
  folder: string,
  produced: readonly Produced[],
  store: Store,
  forbidden: Forbidden,
): Suspect[] {
  const key = digestOf('forbidden', JSON.stringify(forbidden));
  store.keepValue(key, forbidden);
  const documents = new Map(
    produced.flatMap(({ key: own, files }) => {
      const [, address] =
        files.find(({ path }) => path.startsWith('public/'))?.path.split('/') ?? [];
      return address === undefined ? [] : [[address, own] as const];
    }),
  );
  const parts = new Map<string, Suspect['entries'][number][]>();
  for (const entry of readdirSync(folder, { withFileTypes: true, recursive: true })) {
    const path = relative(folder, join(entry.parentPath, entry.name)).split(sep).join('/');
    const is = entry.isFile() ? 'file' : entry.isDirectory() ? 'folder' : 'other';
    const [part = ''] = path.split('/');
    const entries = parts.get(part);
    if (entries) entries.push({ path, is });
    else parts.set(part, [{ path, is }]);
  }
  return [...parts].map(([part, entries]) => ({
    folder: resolve(folder),
    entries,
    documents: documents.get(part) ?? null,
    forbidden: key,
  }));
}

function keepLastSheets(failed: readonly FailedCase[], out: string, folder: string): string[] {
  return failed.flatMap(({ name }) => {
    const last = join(out, 'private', name);
    if (!existsSync(join(last, 'discharge.html'))) return [];
    cpSync(last, join(folder, 'private', name), { recursive: true });
    return [name];
  });
}

/** The calendar files that went online with the last sheets of these cases stay: an owner may hold a code to them. */
function keepLastCalendars(names: readonly string[], out: string, folder: string): void {
  const [last, next] = [join(out, 'calendars'), join(folder, 'calendars')];
  if (names.length === 0 || !existsSync(last)) return;
  const sheets = names
    .map((name) => join(out, 'private', name, 'discharge.ics'))
    .filter((file) => existsSync(file))
    .map((file) => readFileSync(file));
  for (const name of readdirSync(last)) {
    const bytes = readFileSync(join(last, name));
    if (!sheets.some((sheet) => sheet.equals(bytes)) || existsSync(join(next, name))) continue;
    mkdirSync(next, { recursive: true });
    writeFileSync(join(next, name), bytes);
  }
}
