import { rmSync } from 'node:fs';
import { basename, join } from 'node:path';
import type { KeyedHash } from '../privacy/veil.js';
import { bad, good, type Outcome, type Warning } from '../record/problem.js';
import { collisions } from './claims.js';
import { openCollection } from './collection.js';
import type { Effects } from './effects.js';
import { type GonePage, goneFrom, publicPages } from './gone.js';
import { decideGroups, type GroupsReport, groupsReport } from './groups.js';
import { keepLastCalendars, keepLastSheets } from './last-output.js';
import { noRoom } from './no-room.js';
import { atOneMoment } from './one-moment.js';
import { otherPatients } from './other-patients.js';
import { openDraft } from './output-folder.js';
import { ownerOnly } from './owner-only.js';
import { pseudonymHash } from './pseudonym-key.js';
import type { CaseReading } from './reading.js';
import type { Section } from './site/search-index.js';
import type { ShownCase, Site } from './site/site.js';
import { madeOnce } from './steps/made-once.js';
import { orderFor } from './steps/order.js';
import type { Produced } from './steps/produce.js';
import { inSteps, type StepOptions } from './steps/run-steps.js';
import { searchPublic } from './steps/search-public.js';
import type { Steps } from './steps/steps.js';
import type { Surveyed } from './steps/survey.js';
import { type Workbench, workbench } from './steps/workbench.js';
import { digestOf } from './store/digest.js';
import { type KeptPart, openStore, sweepStore } from './store/store.js';
import type { FailedCase, UnreadCase } from './unread.js';
import { withheldOf } from './withheld.js';

export interface BuildOptions extends StepOptions {
  /** A clinic's folder or one case folder. */
  readonly cases: string;
  readonly out: string;
  /** One bad case stops the build, and so does a warning that its record does not answer. */
  readonly strict: boolean;
  /** Folder of what earlier builds have made; null to keep nothing. */
  readonly cache?: string | null;
  /** Folders in which shards have made their share. */
  readonly shards?: readonly string[];
}

export interface BuildReport {
  readonly built: readonly string[];
  /** How many of them were printed anew; the documents of the others were made before. */
  readonly fresh: number;
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
    const store = openStore(place, options.shards);
    if (!store.ok) return store;
    const epoch = options.environment?.SOURCE_DATE_EPOCH;
    const bench = workbench(opened.value, epoch, store.value, effects);
    const report = await inSteps(bench, options, (steps) =>
      buildInto(folder, bench, steps, options),
    );
    if (!report.ok) return report;
    rmSync(own, { recursive: true, force: true });
    atOneMoment(join(folder, 'public'), new Date());
    await publish();
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

/** Writes the whole output into a folder. */
async function buildInto(
  folder: string,
  bench: Workbench,
  steps: Steps,
  options: BuildOptions,
): Promise<Outcome<BuildReport>> {
  const { collection, store, effects } = bench;
  const { clinic, clinicFile, folders } = collection;
  const environment = options.environment ?? {};
  effects.progress(`Reading ${counted(folders.length)}`);
  const surveys = await steps.survey(folders);
  const read = surveys.flatMap((one) => (one.ok ? [one.value] : []));
  const unread: readonly UnreadCase[] = surveys.flatMap((one) => (one.ok ? [] : [one.value]));
  const clashing = clashingAmong(read);
  const cases = read.filter(({ name }) => !clashing.has(name));

  const failed: FailedCase[] = [...unread, ...clashing.values()];
  const stops = (sound: number) => failed.length > 0 && (options.strict || sound === 0);
  const refuse = () => bad(...failed.flatMap(({ problems }) => problems));
  if (stops(cases.length)) return refuse();
  const warnings = [
    ...cases.flatMap((one) => one.warnings),
    ...cases.flatMap(({ reading }) => reading.warnings),
    ...otherPatients(cases),
  ];
  const open = warnings.filter(({ accepted }) => accepted === null);
  if (options.strict && open.length > 0) return bad(...open);
  // A clinic that publishes nothing needs no key.
  const hash = cases.some(({ isPublished }) => isPublished)
    ? pseudonymHash({ clinic, clinicFile, out: options.out, environment })
    : good(null);
  if (!hash.ok) return hash;
  const undecided = cases.flatMap(({ name, undecided: problems }) =>
    problems.length > 0 ? [{ name, problems }] : [],
  );
  const refused = () => bad(...undecided.flatMap(({ problems }) => problems));
  if (options.strict && undecided.length > 0) return refused();

  const { produced, fresh, groups, unprintable } = await produceAll(
    cases,
    new Map(folders.map((one) => [basename(one), one])),
    hash.value,
    clinic['small groups']['at least'],
    steps,
    effects.progress,
  );
  failed.push(...unprintable);
  undecided.push(...groups.undecided);
  if (options.strict && undecided.length > 0) return refused();
  if (stops(produced.length)) return refuse();

  effects.progress('Writing pages');
  for (const { key, files } of produced) store.place(key, files, folder);
  const unready = failed.map(({ name }) => name);
  const kept = keepLastSheets(unready, options.out, folder);
  keepLastCalendars(kept, options.out, folder);
  const report = groupsReport(clinic, groups.of, cases);
  const around = await partsAround(produced, kept, report, bench);
  for (const { key, files } of around) store.place(key, files, folder);
  // The draft as a whole is closed to others until then: see `output-folder.ts`.
  ownerOnly(join(folder, 'private'));

  effects.progress('Searching what is public');
  const unprinted = new Set(unprintable.map(({ name }) => name));
  const leaks = await searchPublic(
    join(folder, 'public'),
    [...produced, ...around],
    {
      identifiers: [...read, ...unread].flatMap(({ identifiers }) => identifiers),
      withheld: cases.flatMap((one) =>
        withheldOf(one, {
          told: groups.of.get(one.name)?.told ?? null,
          isPrintable: !unprinted.has(one.name),
        }),
      ),
    },
    { steps, store },
  );
  if (leaks.length > 0) return bad(...leaks);
  return good({
    built: produced.map(({ name }) => name),
    fresh,
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
      cases.flatMap(({ name, replaced }) => (replaced > 0 ? [[name, replaced] as const] : [])),
    ),
    groups: report,
    calendarsAt: clinic['calendars online']?.at ?? null,
    site: { at: bench.site.at, issued: bench.site.issued },
  });
}

/** Cases that claim the same, by name: of two neither is built, and the problem is told of the later. */
function clashingAmong(cases: readonly Surveyed[]): ReadonlyMap<string, FailedCase> {
  const failed = new Map<string, FailedCase>();
  for (const { problem, between } of collisions(cases)) {
    const [later, earlier] = between;
    const known = failed.get(later)?.problems ?? [];
    failed.set(later, { name: later, problems: [...known, problem] });
    if (!failed.has(earlier)) failed.set(earlier, { name: earlier, problems: [] });
  }
  return failed;
}

/** What stands around the documents of cases, in parts by what they depend on. */
const partsAround = async (
  produced: readonly Produced[],
  kept: readonly string[],
  groups: GroupsReport,
  { store, site, digest }: Workbench,
): Promise<KeptPart[]> => {
  const listed = produced.map((one) => one.listed);
  const shown = inPublicOrder(produced.flatMap((one) => one.shown ?? []));
  const told = JSON.stringify([shown, groups]);
  return [
    await madeOnce(
      store,
      digestOf('list of sheets', digest, JSON.stringify([listed, kept])),
      async (folder) => {
        const { writeClinicList } = await import('./trees.js');
        await writeClinicList(listed, kept, join(folder, 'private'));
      },
    ),
    await madeOnce(store, digestOf('library', digest), async (folder) => {
      const { writeLibrary } = await import('./library/write-library.js');
      await writeLibrary(site, join(folder, 'public'));
    }),
    await madeOnce(store, digestOf('site', digest, told), async (folder) => {
      const { writeSite } = await import('./site/public-tree.js');
      const passages = (key: string): readonly Section[] => {
        const kept = store.value<readonly Section[]>(key);
        if (!kept) throw new Error('what the search finds was lost from the store');
        return kept;
      };
      await writeSite(shown, passages, site, groups, join(folder, 'public'));
    }),
  ];
};

/** By title: the order of the case folders would tell how patients are called, or which surgery came first. */
const inPublicOrder = (shown: readonly ShownCase[]): ShownCase[] =>
  shown.toSorted((a, b) => (a.title + a.pseudonym < b.title + b.pseudonym ? -1 : 1));

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
  const fresh = new Set<string>();
  for (;;) {
    const out = new Set(unprintable.map(({ name }) => name));
    const left = cases.filter(({ name }) => !out.has(name));
    const groups = decideGroups(left, least);
    progress(`Printing ${counted(left.length)}`);
    const made = await steps.produce(
      left.map((one) => orderFor(one, folders.get(one.name) as string, hash, groups.of)),
    );
    const produced: Produced[] = [];
    const failures: FailedCase[] = [];
    made.forEach(({ outcome, isFresh }, index) => {
      const { name } = left[index] as Surveyed;
      if (outcome.ok && isFresh) fresh.add(name);
      if (outcome.ok) produced.push(outcome.value);
      else failures.push({ name, problems: outcome.problems });
    });
    if (failures.length === 0) return { produced, fresh: fresh.size, groups, unprintable };
    unprintable.push(...failures);
  }
}
