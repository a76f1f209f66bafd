import { setImmediate as soon } from 'node:timers/promises';
import type { Reading } from '../live/preview/contract.js';
import { figureDrawer } from '../publish/figures.js';
import { makeCase } from '../publish/make-case.js';
import { decodePhotos } from '../publish/photo.js';
import { digestOf } from '../publish/store/digest.js';
import type { Problem } from '../record/problem.js';
import { latest } from '../units/latest.js';
import type { Language } from '../words/language.js';
import { type CaseFiles, caseFiles } from './case-files.js';
import type { Desk, DeskCase } from './desk.js';
import { type PreviewVeil, previewVeil, STANDS_APART } from './preview-veil.js';

/** A case with what its pages are served from. */
interface Opened {
  readonly key: string;
  readonly files: CaseFiles;
  readonly veil: PreviewVeil;
}

/** How many cases were read of all; null once all were. */
export function readingOn(desk: Desk): Reading | null {
  const cases = desk.cases();
  const read = cases.filter((one) => one.read !== null || one.known !== null).length;
  return read < cases.length ? { read, of: cases.length } : null;
}

/** The cases of a desk as their pages are made of them: each is kept until something that its pages rest on changes. */
export function openedCases(desk: Desk) {
  const photos = latest<ReturnType<typeof decodePhotos>>(8);
  const draw = figureDrawer();
  const opened = latest<Promise<Opened | readonly Problem[]>>(8);

  /** The case that a path of one of the trees belongs to; reads cases until one has the address. */
  async function caseAt(path: string): Promise<DeskCase | undefined> {
    const [tree, folder] = path.split('/');
    if (tree === 'private') return desk.cases().find(({ name }) => name === folder);
    const has = (one: DeskCase) => one.known?.claims.address === folder;
    const known = desk.cases().find(has);
    if (known) return known;
    for (const one of desk.cases()) {
      if (one.read) continue;
      desk.refresh(one);
      if (has(one)) return one;
      await soon();
    }
    return undefined;
  }

  /** Another one after each change of a case, or of what all cases share. */
  const stateKey = ({ serial }: DeskCase): string => `${desk.groundSerial()} ${serial}`;

  /** What is served of a case now, or why nothing is. */
  async function open(one: DeskCase): Promise<Opened | readonly Problem[]> {
    const ground = desk.ground();
    if (!ground.ok) return ground.problems;
    const loaded = desk.whole(one);
    if (!loaded) return one.read?.problems ?? [];
    const { collection, site } = ground.value;
    const veil = previewVeil(
      loaded,
      ground.value,
      readingOn(desk) === null ? (desk.grouped(one.name) ?? STANDS_APART) : null,
      desk.overtold(one.name),
    );
    const { pseudonym, weeks, told: tells } = veil.veil ?? {};
    const key = digestOf(
      one.folder,
      stateKey(one),
      JSON.stringify([pseudonym, weeks, tells, veil.kept, veil.undecided]),
    );
    return opened(key, async () => {
      const pictures = loaded.photos.map(({ bytes }) => digestOf(bytes));
      const decoded = await photos(digestOf(one.folder, ...pictures), () =>
        decodePhotos(loaded.photos),
      );
      if (!decoded.ok) return decoded.problems;
      // The words beside a photo may have changed, its dots have not.
      const shown = decoded.value.map((photo, index) => ({
        ...photo,
        shows: loaded.photos[index]?.shows ?? photo.shows,
        on: loaded.photos[index]?.on ?? photo.on,
      }));
      const language = collection.clinic.languages[0] as Language['tag'];
      const made = makeCase(loaded, shown, collection.content, language, veil.veil, draw);
      return { key, files: caseFiles(made, site), veil };
    });
  }

  return { caseAt, stateKey, open };
}

export type OpenedCases = ReturnType<typeof openedCases>;
