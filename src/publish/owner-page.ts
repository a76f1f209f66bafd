import { pageView } from './html/page-view.js';
import { nameOf, type TreeFile } from './html/tree-file.js';
import type { MadeDocument } from './make-case.js';
import type { Pack } from './pack/pack.js';

/** What the page of an owner's sheet shows, and the files beside it; PDFs are its printer's business. */
export function ownerPage(owner: MadeDocument, calendar: () => Uint8Array) {
  const { view, files } = pageView(owner);
  const calendarPath = `${owner.address}.ics`;
  return {
    sheet: { ...view, labels: owner.labels, calendar: nameOf(calendarPath) },
    files: [...files, { path: calendarPath, bytes: calendar }] satisfies TreeFile[],
  };
}

/** The answers to the questions that go with a record, for the clinic alone. */
export const answersFile = (name: string, pack: () => Pack): TreeFile => ({
  path: answersOf(name),
  bytes: () => pack().answers,
});

/** Path of the answers to the questions that go with the record. */
export const answersOf = (name: string): string => `${name}/answers.txt`;

/** Path of the anesthesia chart of a case. */
export const chartOf = (name: string): string => `${name}/chart.pdf`;
