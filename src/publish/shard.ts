import { mkdirSync, rmSync } from 'node:fs';
import { basename, join } from 'node:path';
import { bad, good, type Outcome, type Warning } from '../record/problem.js';
import { openCollection } from './collection.js';
import type { Effects } from './effects.js';
import { decideGroups } from './groups.js';
import { noRoom } from './no-room.js';
import { pseudonymHash } from './pseudonym-key.js';
import { orderFor } from './steps/order.js';
import type { Produced } from './steps/produce.js';
import { inSteps, type StepOptions } from './steps/run-steps.js';
import { searchPublic } from './steps/search-public.js';
import { workbench } from './steps/workbench.js';
import { openStore } from './store/store.js';
import type { FailedCase } from './unread.js';
import { withheldOf } from './withheld.js';

/** One share of a collection: every case whose place in the order of names leaves `index` when divided by `of`. */
export interface Share {
  /** From 0. */
  readonly index: number;
  readonly of: number;
}

export interface ShardOptions extends StepOptions {
  readonly cases: string;
  /** Folder for what is made: a store that a build can read beside its own. */
  readonly into: string;
  readonly share: Share;
  readonly strict: boolean;
}

export interface ShardReport {
  readonly built: readonly string[];
  readonly failed: readonly FailedCase[];
  readonly undecided: readonly FailedCase[];
  readonly warnings: readonly Warning[];
}

/**
 * Does for one share of the cases the work of a build that goes case by case, and keeps it. Whoever joins the shards
 * builds as ever, finds the work done, and does again what this could not know: see `steps/glance.ts`. So the result is
 * that of one build whatever became of a shard.
 */
export async function buildShard(
  options: ShardOptions,
  effects: Effects,
): Promise<Outcome<ShardReport>> {
  const collection = openCollection(options.cases, effects);
  if (!collection.ok) return collection;
  const { clinic, clinicFile, folders } = collection.value;
  const opened = openStore(options.into);
  if (!opened.ok) return opened;
  const store = opened.value;
  const { index, of } = options.share;
  const own = folders.filter((_, place) => place % of === index);
  try {
    const epoch = options.environment?.SOURCE_DATE_EPOCH;
    const bench = workbench(collection.value, epoch, store, effects);
    return await inSteps(bench, options, async (steps) => {
      effects.progress(`Reading ${own.length} of ${folders.length} cases`);
      const surveys = await steps.survey(own);
      const cases = surveys.flatMap((one) => (one.ok ? [one.value] : []));
      const unread = surveys.flatMap((one) => (one.ok ? [] : [one.value]));
      const glances = await steps.glance(folders);
      const known = glances.flatMap((one) => one.known ?? []);
      const hash = known.some(({ isPublished }) => isPublished)
        ? pseudonymHash({
            clinic,
            clinicFile,
            out: options.into,
            environment: options.environment ?? {},
          })
        : good(null);
      if (!hash.ok) return hash;
      const groups = decideGroups(known, clinic['small groups']['at least']);
      const byName = new Map(own.map((one) => [basename(one), one]));
      effects.progress(`Printing ${cases.length} cases`);
      const made = await steps.produce(
        cases.map((one) => orderFor(one, byName.get(one.name) as string, hash.value, groups.of)),
      );
      const produced: Produced[] = [];
      const failed: FailedCase[] = [...unread];
      made.forEach(({ outcome }, place) => {
        if (outcome.ok) produced.push(outcome.value);
        else failed.push({ name: cases[place]?.name ?? '', problems: outcome.problems });
      });
      effects.progress('Searching what is public');
      const scratch = store.scratch();
      try {
        // A share without a public case has nothing to be searched, but is a share all the same.
        mkdirSync(join(scratch, 'public'));
        for (const { key, files } of produced) {
          const open = files.filter(({ path }) => path.startsWith('public/'));
          store.place(key, open, scratch);
        }
        const leaks = await searchPublic(
          join(scratch, 'public'),
          produced,
          {
            identifiers: glances.flatMap(({ identifiers }) => identifiers),
            withheld: known.flatMap((one) =>
              withheldOf(one, { told: groups.of.get(one.name)?.told ?? null, isPrintable: true }),
            ),
          },
          { steps, store },
        );
        if (leaks.length > 0) return bad(...leaks);
      } finally {
        rmSync(scratch, { recursive: true, force: true });
      }
      const ours = new Set(cases.map(({ name }) => name));
      const undecided = [
        ...cases.flatMap(({ name, undecided: problems }) =>
          problems.length > 0 ? [{ name, problems }] : [],
        ),
        ...groups.undecided.filter(({ name }) => ours.has(name)),
      ];
      const warnings = cases.flatMap((one) => [...one.warnings, ...one.reading.warnings]);
      const open = warnings.filter(({ accepted }) => accepted === null);
      const problems = [...failed, ...undecided].flatMap((one) => one.problems);
      if (options.strict && problems.length + open.length > 0) return bad(...problems, ...open);
      return good({ built: produced.map(({ name }) => name), failed, undecided, warnings });
    });
  } catch (error) {
    const refused = noRoom(error, options.into);
    if (refused) return refused;
    throw error;
  }
}
