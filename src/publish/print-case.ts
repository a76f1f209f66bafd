import type { Veil } from '../privacy/veil.js';
import type { Outcome } from '../record/problem.js';
import type { Content } from './content.js';
import type { LoadedCase } from './load-case.js';
import { type MadeCase, type MadeDocument, type MadeForHome, makeCase } from './make-case.js';
import type { Pack } from './pack/pack.js';
import { printPdf } from './pdf/print.js';
import { decodePhotos } from './photo.js';
import { inPrintedLetters } from './printed-letters.js';

/** A document ready for its tree: the handout for the page, the PDF beside it. */
export interface PrintedDocument extends MadeDocument {
  readonly pdf: Uint8Array;
}

/** What is printed of a patient that goes home. */
interface PrintedForHome extends Pick<MadeForHome, 'calendarOnline'> {
  readonly owner: PrintedDocument;
  readonly calendar: Uint8Array;
  /** PDF of the anesthesia chart to fill in by hand. */
  readonly chart: Uint8Array;
}

/** A case with all of its documents made and printed. */
export interface PrintedCase
  extends Pick<MadeCase, 'name' | 'line' | 'standing' | 'shared' | 'questions'> {
  /** Null where the patient died. */
  readonly home: PrintedForHome | null;
  readonly teaching: PrintedDocument | null;
  readonly answers: PrintedDocument | null;
  readonly record: PrintedDocument | null;
  readonly pack: Pack | null;
}

/**
 * The documents of one case, each printed from the same facts; a character that cannot be printed is the record's problem.
 * @param veil what stands for number and dates in public; null where nothing may be public
 */
export async function printCase(
  loaded: LoadedCase,
  content: Content,
  publicLanguage: string,
  veil: Veil | null,
): Promise<Outcome<PrintedCase>> {
  const photos = await decodePhotos(loaded.photos);
  if (!photos.ok) return photos;
  return inPrintedLetters(loaded, () =>
    printed(makeCase(loaded, photos.value, content, publicLanguage, veil)),
  );
}

async function printed(made: MadeCase): Promise<PrintedCase> {
  const { name, line, standing, home, shared, questions } = made;
  return {
    name,
    line,
    standing,
    shared,
    questions,
    home: home && {
      calendarOnline: home.calendarOnline,
      owner: await print(home.owner()),
      calendar: home.calendar(),
      chart: await printPdf(home.chart()),
    },
    teaching: made.teaching && (await print(made.teaching())),
    answers: await printIfAny(made.answers()),
    record: made.record && (await print(made.record())),
    pack: made.pack?.() ?? null,
  };
}

const print = async (document: MadeDocument): Promise<PrintedDocument> => ({
  ...document,
  pdf: await printPdf(document.handout),
});

const printIfAny = async (document: MadeDocument | null) => document && print(document);
