import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { LIVE_CASE, type LiveCase } from '../../live/contract.js';
import { placed } from '../html/placed.js';
import type { Pack } from '../pack/pack.js';
import type { PrintedCase, PrintedDocument } from '../print-case.js';
import { seeAlso } from './explanations.js';
import { frameOf } from './frame.js';
import { fileOf } from './shown-case.js';
import { type Link, mainOf, type ShownCase, type ShownDocument, type Site } from './site.js';
import { caseData } from './structured-data.js';

/** Writes what goes with a document of a case, and gives what its page shows. */
export function casePage(
  document: PrintedDocument,
  one: ShownCase,
  { pack, answers, shared }: Pick<PrintedCase, 'pack' | 'answers' | 'shared'>,
  site: Site,
  folder: string,
) {
  const file = fileOf(document);
  const shown = one.documents.find((each) => each.file === file) as ShownDocument;
  const isRecord = shown.reader === 'student';
  const place = dirname(join(folder, document.address));
  const main = mainOf(one);
  return {
    ...placed(document, folder),
    calendar: null,
    scripts: document.live ? scriptsOf(document, document.live, folder) : [],
    others: one.documents.filter((other) => other !== shown).map(linkTo),
    answers: isRecord || !answers ? null : placedAnswers(answers, place),
    files: isRecord && pack ? placedPack(pack, place) : [],
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
  };
}

/** From one document of a case to the other. */
const linkTo = ({ file, label }: ShownDocument): Link => ({
  href: file.split('/').at(-1) as string,
  label,
});

/** Writes what the scripts of a page need, and names all of them in the order in which they run. */
function scriptsOf({ address }: PrintedDocument, live: LiveCase, folder: string): string[] {
  const data = `${address}.data.js`;
  mkdirSync(dirname(join(folder, data)), { recursive: true });
  writeFileSync(join(folder, data), `globalThis.${LIVE_CASE} = ${JSON.stringify(live)};\n`);
  const root = '../'.repeat(address.split('/').length - 1);
  return [data.split('/').at(-1) as string, `${root}assets/case.js`];
}

/** Writes the sheet of answers beside the page that asks, and gives its name. */
function placedAnswers({ address, pdf }: PrintedDocument, place: string): string {
  const name = `${address.split('/').at(-1)}.pdf`;
  writeFileSync(join(place, name), pdf);
  return name;
}

/** Writes the files that go with a record into the folder of its page, and gives their names for the page. */
function placedPack({ files }: Pack, folder: string): string[] {
  for (const { name, bytes } of files) writeFileSync(join(folder, name), bytes);
  return files.map(({ name }) => name);
}
