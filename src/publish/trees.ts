import { cpSync, mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { Standing } from '../facts/standing.js';
import { LIVE_CASE, type LiveCase } from '../live/contract.js';
import { faces } from './fonts.js';
import type { GroupsReport } from './groups-report.js';
import { house } from './house.js';
import { pageView } from './html/page-view.js';
import { writePages } from './html/site.js';
import type { Pack } from './pack/pack.js';
import { recordJsonSchema } from './pack/record-schema.js';
import type { PrintedCase, PrintedDocument } from './print-case.js';

/** The JSON Schema that every `record.json` of the tree follows. */
const RECORD_SCHEMA = 'record-1.schema.json';

/**
 * The clinic's own tree: one discharge sheet a case.
 * @param kept names of cases whose last sheets stand there from an earlier build
 */
export async function writePrivateTree(
  cases: readonly PrintedCase[],
  kept: readonly string[],
  folder: string,
): Promise<void> {
  const sheets = cases.map(({ owner, patient, calendar, standing: { sheet } }) => ({
    ...placed(owner, folder),
    calendar: placedBeside(owner, 'ics', calendar, folder),
    state: stateOf(sheet),
    patient,
    href: inUrl(owner.address),
  }));
  const earlier = kept.map((name) => ({ name, href: inUrl(`${name}/discharge`) }));
  for (const { name, pack } of cases) {
    if (pack) writeFileSync(join(folder, name, 'answers.txt'), pack.answers);
  }
  writeAssets(folder);
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

/** The public tree: teaching pages and anonymised records of consenting cases. */
export async function writePublicTree(
  cases: readonly PrintedCase[],
  groups: GroupsReport,
  folder: string,
): Promise<void> {
  const view = (
    document: PrintedDocument | null,
    other: PrintedDocument | null,
    { pack = null, answers = null }: Partial<Pick<PrintedCase, 'pack' | 'answers'>> = {},
  ) =>
    document
      ? [
          {
            ...placed(document, folder),
            others: other ? [linkTo(other)] : [],
            answers: answers && placedBeside(answers, 'pdf', answers.pdf, folder),
            files: pack ? placedPack(pack, dirname(join(folder, document.address))) : [],
          },
        ]
      : [];
  const shown = cases.flatMap(({ title, teaching, record }) => {
    const documents = [teaching, record].filter((document) => document !== null);
    return documents.length === 0
      ? []
      : [
          {
            title,
            lead: documents[0]?.handout.lead,
            links: documents.map((document) => ({
              href: `${document.address}.html`,
              label: linkTo(document).label,
            })),
          },
        ];
  });
  writeAssets(folder, ['case', 'site'], ['vitals', 'exercises']);
  if (cases.some(({ pack }) => pack)) {
    writeFileSync(
      join(folder, 'assets', RECORD_SCHEMA),
      `${JSON.stringify(recordJsonSchema(), null, 2)}\n`,
    );
  }
  await writePages(
    {
      templates: 'teaching',
      data: {
        cases: shown,
        groups,
        sheets: cases.flatMap(({ teaching, record, answers }) =>
          view(teaching, record, { answers }),
        ),
      },
      pages: [
        { file: join(house.content, 'en', 'guide.md'), permalink: 'guide.html' },
        { file: join(house.content, 'en', 'privacy.md'), permalink: 'privacy.html' },
        { file: join(house.content, 'es', 'privacy.md'), permalink: 'privacidad.html' },
      ],
    },
    folder,
  );
  await writePages(
    {
      templates: 'record',
      data: {
        sheets: cases.flatMap(({ teaching, record, pack }) => view(record, teaching, { pack })),
      },
      pages: [],
    },
    folder,
  );
}

/** Writes a document's PDF and pictures, and gives what its page needs. */
function placed(document: PrintedDocument, folder: string) {
  const { view, files } = pageView(document);
  for (const { path, bytes } of [
    ...files,
    { path: `${document.address}.pdf`, bytes: document.pdf },
  ]) {
    const target = join(folder, path);
    mkdirSync(dirname(target), { recursive: true });
    writeFileSync(target, bytes);
  }
  return {
    ...view,
    calendar: null,
    labels: document.labels,
    scripts: document.live ? scriptsOf(document, document.live, folder) : [],
  };
}

/** Writes what the scripts of a page need, and names all of them in the order in which they run. */
function scriptsOf({ address }: PrintedDocument, live: LiveCase, folder: string): string[] {
  const data = `${address}.data.js`;
  writeFileSync(join(folder, data), `globalThis.${LIVE_CASE} = ${JSON.stringify(live)};\n`);
  const root = '../'.repeat(address.split('/').length - 1);
  return [data.split('/').at(-1) as string, `${root}assets/case.js`, `${root}assets/site.js`];
}

/** Writes the files that go with a record into the folder of its page, and gives their names for the page. */
function placedPack({ files }: Pack, folder: string): string[] {
  for (const { name, bytes } of files) writeFileSync(join(folder, name), bytes);
  return files.map(({ name }) => name);
}

function linkTo({ address, handout, labels }: PrintedDocument) {
  return {
    href: `${address.split('/').at(-1)}.html`,
    label: handout.reader === 'student' ? labels.record : labels.teaching,
  };
}

function writeAssets(
  folder: string,
  scripts: readonly string[] = [],
  styles: readonly string[] = [],
): void {
  const assets = join(folder, 'assets');
  mkdirSync(assets, { recursive: true });
  for (const style of ['style', ...styles]) {
    cpSync(join(house.templates, 'shared', `${style}.css`), join(assets, `${style}.css`));
  }
  for (const script of scripts) {
    cpSync(join(house.live, `${script}.js`), join(assets, `${script}.js`));
  }
  for (const face of ['regular', 'italic', 'bold', 'mono'] as const) {
    cpSync(faces[face], join(assets, `${face}.ttf`));
  }
}
