import { LIVE_CASE, type LiveCase } from '../../live/contract.js';
import { pageView } from '../html/page-view.js';
import { nameOf, type TreeFile } from '../html/tree-file.js';
import type { MadeDocument } from '../make-case.js';
import { RECORD_SCHEMA_NAME } from '../pack/record-schema.js';
import type { PrintedCase } from '../print-case.js';
import { seeAlso } from './explanations.js';
import { frameOf } from './frame.js';
import { fileOf } from './shown-case.js';
import { type Link, mainOf, type ShownCase, type ShownDocument, type Site } from './site.js';
import { caseData } from './structured-data.js';

/** What the page of a case shows, and the files beside it; PDFs are their printer's business. */
export function casePage(
  document: MadeDocument,
  one: ShownCase,
  {
    pack,
    answers,
    shared,
  }: Pick<PrintedCase, 'pack' | 'shared'> & { readonly answers: MadeDocument | null },
  site: Site,
) {
  const file = fileOf(document);
  const shown = one.documents.find((each) => each.file === file) as ShownDocument;
  const isRecord = shown.reader === 'student';
  const main = mainOf(one);
  const { view, files } = pageView(document);
  const scripts = document.live ? liveFiles(document.address, document.live) : [];
  const packed = isRecord && pack ? pack.files : [];
  const place = document.address.slice(0, -nameOf(document.address).length);
  return {
    sheet: {
      ...view,
      labels: document.labels,
      calendar: null,
      scripts:
        scripts.length > 0
          ? [...scripts.map(({ path }) => nameOf(path)), `${view.root}assets/case.js`]
          : [],
      others: one.documents.filter((other) => other !== shown).map(linkTo),
      answers: isRecord || !answers ? null : `${nameOf(answers.address)}.pdf`,
      files: packed.map(({ name }) => name),
      schema: RECORD_SCHEMA_NAME,
      seeAlso: {
        title: site.language.site.text('seeAlso'),
        links: (shared ? seeAlso(site, shared) : []).map(({ href, label }) => ({
          href: `../${href}`,
          label,
        })),
      },
      frame: frameOf(site, {
        file,
        title: shown.title,
        lead: shown.lead,
        language: shown.language,
        section: 'cases',
        within: shown === main ? [] : [{ href: main.file, label: one.title }],
        structured: caseData(shown, one, site),
        unlisted: shown.draft !== null,
      }),
    },
    files: [
      ...files,
      ...scripts,
      ...packed.map(({ name, bytes }) => ({ path: `${place}${name}`, bytes: () => bytes })),
    ] satisfies TreeFile[],
  };
}

/** From one document of a case to the other. */
const linkTo = ({ file, label }: ShownDocument): Link => ({
  href: nameOf(file),
  label,
});

/** What the scripts of a page need. */
const liveFiles = (address: string, live: LiveCase): TreeFile[] => [
  {
    path: `${address}.data.js`,
    bytes: () => Buffer.from(`globalThis.${LIVE_CASE} = ${JSON.stringify(live)};\n`),
  },
];
