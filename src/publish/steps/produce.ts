import { existsSync, mkdirSync, renameSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import type { Told } from '../../privacy/small-groups.js';
import type { Veil } from '../../privacy/veil.js';
import { bad, good, type Outcome } from '../../record/problem.js';
import type { Language } from '../../words/language.js';
import { clearCase } from '../clear-case.js';
import { loadOne } from '../load.js';
import type { LoadedCase } from '../load-case.js';
import { type PrintedCase, printCase } from '../print-case.js';
import { changing } from '../settled.js';
import { writeCasePages } from '../site/public-tree.js';
import { passagesOf, shownCase } from '../site/shown-case.js';
import type { ShownCase } from '../site/site.js';
import type { KeptPart } from '../store/store.js';
import { type ListedSheet, listedSheet, writeCalendars, writeSheets } from '../trees.js';
import { producedKey } from './recall.js';
import { loadedKey } from './survey.js';
import type { Workbench } from './workbench.js';

/** A case to be printed. Plain data. */
export interface Order {
  readonly name: string;
  /** Its folder. */
  readonly folder: string;
  /** Key in the store of the case as it was read. */
  readonly loaded: string;
  /** What stands in public for its number, its dates and its patient; null where nothing may be public. */
  readonly veil: (Pick<Veil, 'pseudonym' | 'weeks'> & { readonly told: Told }) | null;
}

/** The documents of a case, in the store, under `private/`, `public/` and `calendars/`. Plain data. */
export interface Produced extends KeptPart {
  readonly name: string;
  readonly listed: ListedSheet;
  readonly shown: ShownCase | null;
}

/** Documents, or why there are none, and whether they were printed now. */
export interface Made {
  readonly outcome: Outcome<Produced>;
  readonly isFresh: boolean;
}

/** Makes all documents of some cases, and keeps them. */
export async function produce(orders: readonly Order[], bench: Workbench): Promise<Made[]> {
  const { store } = bench;
  const scratch = store.scratch();
  try {
    const all = await inTurn(orders, (order) => print(order, bench));
    const printed = all.flatMap((one) => (one.ok ? [one.value] : []));
    const pages = join(scratch, 'pages');
    if (printed.length > 0) await writeDocuments(printed, bench, pages);
    return all.map((one, index): Made => {
      if (!one.ok) return { outcome: one, isFresh: true };
      const key = producedKey(orders[index] as Order, bench);
      const made: Produced = {
        name: one.value.name,
        key,
        files: store.keepFiles(key, apart(one.value, pages, join(scratch, `${index}`))),
        listed: listedSheet(one.value),
        shown: shownCase(one.value, bench.site),
      };
      for (const [found, passages] of passagesOf(one.value)) store.keepValue(found, passages);
      store.keepValue(key, made);
      return { outcome: good(made), isFresh: true };
    });
  } finally {
    rmSync(scratch, { recursive: true, force: true });
  }
}

async function inTurn<T, U>(all: readonly T[], task: (one: T) => Promise<U>): Promise<U[]> {
  const done: U[] = [];
  for (const one of all) done.push(await task(one));
  return done;
}

async function print(
  { folder, loaded, veil }: Order,
  bench: Workbench,
): Promise<Outcome<PrintedCase>> {
  const { collection, store, effects } = bench;
  const { clinic, content } = collection;
  const language = content.languages.get(clinic.languages[0] as string) as Language;
  const again = () => loadOne(folder, collection, effects);
  const kept = store.value<LoadedCase>(loaded);
  const one = kept ? good(kept) : again();
  if (!one.ok) return one;
  // Others may have emptied the store meanwhile. What is read anew must be what was surveyed, or groups and consent may not fit it.
  if (!kept && loadedKey(one.value, bench) !== loaded) return bad(changing(one.value.file));
  if (veil === null) return printCase(one.value, content, language.tag, null);
  const cleared = clearCase(one.value, language.learner);
  if (!cleared.ok) return cleared;
  return printCase(one.value, content, language.tag, {
    ...veil,
    region: clinic.region ?? null,
    say: cleared.value.say,
  });
}

/** Writes documents and pages of cases into the trees of a folder. */
async function writeDocuments(
  cases: readonly PrintedCase[],
  { site }: Workbench,
  folder: string,
): Promise<void> {
  await writeSheets(cases, join(folder, 'private'));
  const published = cases.flatMap((printed) => {
    const shown = shownCase(printed, site);
    return shown ? [{ printed, shown }] : [];
  });
  await writeCasePages(published, site, join(folder, 'public'));
  writeCalendars(cases, join(folder, 'calendars'));
}

/** Moves what was written of one case, if anything, from among the others into a folder of its own. */
function apart(one: PrintedCase, from: string, to: string): string {
  mkdirSync(to, { recursive: true });
  const parts = [
    ['private', one.name],
    ['public', one.shared?.published.address ?? null],
    ['calendars', one.home?.calendarOnline ?? null],
  ] as const;
  for (const [tree, name] of parts) {
    if (name === null || !existsSync(join(from, tree, name))) continue;
    mkdirSync(join(to, tree), { recursive: true });
    renameSync(join(from, tree, name), join(to, tree, name));
  }
  return to;
}
