import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Standing } from '../facts/standing.js';
import { assetFiles, PRIVATE_ASSETS } from './html/assets.js';
import { writeFiles } from './html/tree-file.js';
import { writePages } from './html/write-pages.js';
import type { ListLine, MadeDocument } from './make-case.js';
import { answersFile, answersOf, chartOf, ownerPage } from './owner-page.js';
import type { PrintedCase } from './print-case.js';

/** A line of the clinic's own list. */
export interface ListedSheet extends ListLine {
  /** Null where the patient died, and no sheet is made. */
  readonly sheet: {
    /** By its English name. */
    readonly language: string;
    /** Without an ending, as a link says it. */
    readonly href: string;
    readonly chart: string;
  } | null;
  /** The answers to the questions that go with the record; null where there are none. */
  readonly answers: string | null;
  readonly state: string;
}

/** Writes the clinic's own documents of some cases: the discharge sheet and what goes with it. */
export async function writeSheets(cases: readonly PrintedCase[], folder: string): Promise<void> {
  const sheets = cases.flatMap(({ name, home, pack }) => {
    if (pack) writeFiles([answersFile(name, () => pack)], folder);
    if (!home) return [];
    const { owner, calendar, chart } = home;
    const { sheet, files } = ownerPage(owner, () => calendar);
    writeFiles(
      [
        ...files,
        { path: `${owner.address}.pdf`, bytes: () => owner.pdf },
        { path: chartOf(name), bytes: () => chart },
      ],
      folder,
    );
    return [sheet];
  });
  await writePages({ templates: 'owner', data: { sheets }, pages: [] }, folder);
}

const inEnglish = new Intl.DisplayNames(['en'], { type: 'language' });

/** What the clinic's list says of a case. */
export const listedSheet = ({ name, home, line, standing, pack }: PrintedCase): ListedSheet => ({
  ...line,
  sheet: home && sheetLinks(name, home.owner),
  answers: pack && inUrl(answersOf(name)),
  state: stateOf(standing.sheet),
});

const sheetLinks = (name: string, { address, handout }: MadeDocument) => ({
  language: inEnglish.of(handout.language) ?? handout.language,
  href: inUrl(address),
  chart: inUrl(chartOf(name)),
});

/**
 * Writes the clinic's list, the newest surgery first, and what its pages share.
 * @param kept names of cases whose last sheets stand there from an earlier build
 */
export async function writeClinicList(
  sheets: readonly ListedSheet[],
  kept: readonly string[],
  folder: string,
): Promise<void> {
  const earlier = kept.map((name) => ({ name, href: inUrl(`${name}/discharge`) }));
  writeFiles(assetFiles(PRIVATE_ASSETS), folder);
  const newest = sheets.toSorted(
    (a, b) => b.day.localeCompare(a.day) || a.patient.localeCompare(b.patient, 'en'),
  );
  await writePages({ templates: 'clinic', data: { sheets: newest, earlier }, pages: [] }, folder);
}

/** Writes the calendar files for the clinic to put online, under names that tell nothing; none where it puts none. */
export function writeCalendars(cases: readonly PrintedCase[], folder: string): void {
  for (const { home } of cases) {
    if (!home || home.calendarOnline === null) continue;
    mkdirSync(folder, { recursive: true });
    writeFileSync(join(folder, home.calendarOnline), home.calendar);
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
