import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Standing } from '../facts/standing.js';
import { writeAssets } from './html/assets.js';
import { placed } from './html/placed.js';
import { writePages } from './html/write-pages.js';
import type { PrintedCase, PrintedDocument } from './print-case.js';

/**
 * The clinic's own tree: one discharge sheet a case, and an anesthesia chart to fill in by hand.
 * @param kept names of cases whose last sheets stand there from an earlier build
 */
export async function writePrivateTree(
  cases: readonly PrintedCase[],
  kept: readonly string[],
  folder: string,
): Promise<void> {
  const sheets = cases.map(({ name, owner, patient, calendar, chart, standing: { sheet } }) => ({
    ...placed(owner, folder),
    calendar: placedBeside(owner, 'ics', calendar, folder),
    chart: inUrl(placedChart(name, chart, folder)),
    state: stateOf(sheet),
    patient,
    href: inUrl(owner.address),
  }));
  const earlier = kept.map((name) => ({ name, href: inUrl(`${name}/discharge`) }));
  for (const { name, pack } of cases) {
    if (pack) writeFileSync(join(folder, name, 'answers.txt'), pack.answers);
  }
  writeAssets({ display: 'swap', styles: ['shared/style.css'], scripts: [] }, folder);
  await writePages({ templates: 'owner', data: { sheets, earlier }, pages: [] }, folder);
}

/**
 * The calendar files for the clinic to put online, under names that tell nothing; no folder where the clinic puts none.
 * @param kept bytes of calendar files of an earlier build that stay, by name
 */
export function writeCalendarTree(
  cases: readonly PrintedCase[],
  kept: ReadonlyMap<string, Uint8Array>,
  folder: string,
): void {
  const files = new Map(kept);
  for (const { calendar, calendarOnline } of cases) {
    if (calendarOnline !== null) files.set(calendarOnline, calendar);
  }
  if (files.size === 0) return;
  mkdirSync(folder, { recursive: true });
  for (const [name, bytes] of files) writeFileSync(join(folder, name), bytes);
}

/** Writes the anesthesia chart of a case, and gives its path. */
function placedChart(name: string, bytes: Uint8Array, folder: string): string {
  const path = `${name}/chart.pdf`;
  writeFileSync(join(folder, path), bytes);
  return path;
}

/** How a sheet stands, for the clinic's own list. */
function stateOf({ approved, approvals }: Standing): string {
  const last = approvals.at(-1);
  if (!last) return 'draft';
  return approved
    ? `approved by ${last.by} on ${last.on}`
    : `draft: changed since it was approved on ${last.on}`;
}

/** Writes a file that goes with a document, and gives the link to it from the document's page. */
function placedBeside(
  { address }: PrintedDocument,
  ending: string,
  bytes: Uint8Array,
  folder: string,
): string {
  const path = `${address}.${ending}`;
  writeFileSync(join(folder, path), bytes);
  return path.split('/').at(-1) as string;
}

/** An address as a link may say it: a case folder may be called "Mia #2". */
const inUrl = (address: string): string => address.split('/').map(encodeURIComponent).join('/');
