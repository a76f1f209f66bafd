import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Standing } from '../facts/standing.js';
import { assetFiles, PRIVATE_ASSETS } from './html/assets.js';
import { writeFiles } from './html/tree-file.js';
import { writePages } from './html/write-pages.js';
import { chartOf, ownerPage } from './owner-page.js';
import type { PrintedCase } from './print-case.js';

/** A line of the clinic's own list. */
export interface ListedSheet {
  readonly patient: string;
  readonly language: string;
  readonly lead: string;
  /** The sheet without an ending, as a link says it. */
  readonly href: string;
  readonly chart: string;
  readonly state: string;
}

/** Writes the clinic's own documents of some cases: the discharge sheet and what goes with it. */
export async function writeSheets(cases: readonly PrintedCase[], folder: string): Promise<void> {
  const sheets = cases.map(({ name, owner, calendar, chart, pack }) => {
    const { sheet, files } = ownerPage({
      name,
      owner,
      calendar: () => calendar,
      pack: pack && (() => pack),
    });
    writeFiles(
      [
        ...files,
        { path: `${owner.address}.pdf`, bytes: () => owner.pdf },
        { path: chartOf(name), bytes: () => chart },
      ],
      folder,
    );
    return sheet;
  });
  await writePages({ templates: 'owner', data: { sheets }, pages: [] }, folder);
}

/** What the clinic's list says of a case. */
export const listedSheet = ({
  name,
  owner: { address, handout },
  patient,
  standing,
}: PrintedCase): ListedSheet => ({
  patient,
  language: handout.language,
  lead: handout.lead,
  href: inUrl(address),
  chart: inUrl(chartOf(name)),
  state: stateOf(standing.sheet),
});

/**
 * Writes the clinic's list, and what its pages share.
 * @param kept names of cases whose last sheets stand there from an earlier build
 */
export async function writeClinicList(
  sheets: readonly ListedSheet[],
  kept: readonly string[],
  folder: string,
): Promise<void> {
  const earlier = kept.map((name) => ({ name, href: inUrl(`${name}/discharge`) }));
  writeFiles(assetFiles(PRIVATE_ASSETS), folder);
  await writePages({ templates: 'clinic', data: { sheets, earlier }, pages: [] }, folder);
}

/** Writes the calendar files for the clinic to put online, under names that tell nothing; none where it puts none. */
export function writeCalendars(cases: readonly PrintedCase[], folder: string): void {
  for (const { calendar, calendarOnline } of cases) {
    if (calendarOnline === null) continue;
    mkdirSync(folder, { recursive: true });
    writeFileSync(join(folder, calendarOnline), calendar);
  }
}

/** How a sheet stands, for the clinic's own list. */
export function stateOf({ approved, approvals }: Standing): string {
  const last = approvals.at(-1);
  if (!last) return 'draft';
  return approved
    ? `approved by ${last.by} on ${last.on}`
    : `draft: changed since it was approved on ${last.on}`;
}

/** An address as a link may say it: a case folder may be called "Mia #2". */
const inUrl = (address: string): string => address.split('/').map(encodeURIComponent).join('/');
