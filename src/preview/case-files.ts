import type { TreeFile } from '../publish/html/tree-file.js';
import { type PageSet, renderPages } from '../publish/html/write-pages.js';
import type { MadeCase, MadeDocument } from '../publish/make-case.js';
import { answersFile, chartOf, ownerPage } from '../publish/owner-page.js';
import { printPdf } from '../publish/pdf/print.js';
import { casePage } from '../publish/site/case-pages.js';
import { shownCase } from '../publish/site/shown-case.js';
import type { Site } from '../publish/site/site.js';
import { once } from '../units/once.js';
import type { Handout } from '../words/handout.js';

/** A file of a case, made when it is asked for and then kept. */
interface CaseFile {
  /** From the top of both trees: `private/juniper/discharge.html`. */
  readonly path: string;
  readonly bytes: () => Promise<Uint8Array>;
}

/** The files of a case, found by their paths; no document is made before one of its files is looked for. */
export interface CaseFiles {
  readonly find: (path: string) => CaseFile | undefined;
  /** Prints every document of the case, with a pause after each. */
  readonly printAll: (pause: () => Promise<void>) => Promise<void>;
}

export function caseFiles(made: MadeCase, site: Site): CaseFiles {
  const owner = once(() => {
    const answers = made.pack ? [kept(answersFile(made.name, made.pack))] : [];
    if (!made.home) return inTree('private', answers);
    const { owner: document, calendar, chart } = made.home;
    const { sheet, files } = ownerPage(document(), calendar);
    return inTree('private', [
      page('owner', document(), sheet),
      pdf(`${document().address}.pdf`, () => document().handout),
      pdf(chartOf(made.name), chart),
      ...files.map(kept),
      ...answers,
    ]);
  });
  const shown = once(() =>
    shownCase(
      {
        shared: made.shared,
        questions: made.questions,
        teaching: made.teaching?.() ?? null,
        record: made.record?.() ?? null,
      },
      site,
    ),
  );
  const publicPage = (
    templates: 'teaching' | 'record',
    document: MadeDocument,
    beside: Pick<Parameters<typeof casePage>[2], 'pack' | 'answers'>,
  ) => {
    const one = shown();
    if (!one) return [];
    const { sheet, files } = casePage(document, one, { ...beside, shared: made.shared }, site);
    return inTree('public', [
      page(templates, document, sheet),
      pdf(`${document.address}.pdf`, () => document.handout),
      ...files.map(kept),
    ]);
  };
  const teaching = once(() => {
    if (!made.teaching) return [];
    const answers = made.answers();
    return [
      ...publicPage('teaching', made.teaching(), { pack: null, answers }),
      ...(answers ? inTree('public', [pdf(`${answers.address}.pdf`, () => answers.handout)]) : []),
    ];
  });
  const record = once(() =>
    made.record
      ? publicPage('record', made.record(), { pack: made.pack?.() ?? null, answers: null })
      : [],
  );
  const at = (path: string) => (file: CaseFile) => file.path === path;
  return {
    find: (path) =>
      path.startsWith('private/')
        ? owner().find(at(path))
        : (teaching().find(at(path)) ?? record().find(at(path))),
    printAll: async (pause) => {
      for (const files of [owner, teaching, record]) {
        for (const { path, bytes } of files()) {
          if (!path.endsWith('.pdf')) continue;
          await bytes();
          await pause();
        }
      }
    },
  };
}

const inTree = (tree: 'private' | 'public', files: readonly CaseFile[]): CaseFile[] =>
  files.map(({ path, bytes }) => ({ path: `${tree}/${path}`, bytes }));

const kept = ({ path, bytes }: TreeFile): CaseFile => ({ path, bytes: once(async () => bytes()) });

const pdf = (path: string, handout: () => Handout): CaseFile => ({
  path,
  bytes: once(async () => printPdf(handout())),
});

/** The page as a build makes it, by the same templates. */
const page = (
  templates: PageSet['templates'],
  { address }: MadeDocument,
  sheet: unknown,
): CaseFile => {
  const path = `${address}.html`;
  return {
    path,
    bytes: once(async () => {
      const pages = await renderPages({ templates, data: { sheets: [sheet] }, pages: [] });
      const text = pages.get(path);
      if (text === undefined) throw new Error(`templates/${templates} made no ${path}`);
      return Buffer.from(text);
    }),
  };
};
