import { qrCode } from '../draw/qr-code.js';
import { sequenceOf } from '../facts/standing.js';
import type { LiveCase } from '../live/contract.js';
import { type PublicFacts, publicFacts } from '../privacy/public-facts.js';
import type { Veil } from '../privacy/veil.js';
import { bad, good, type Outcome } from '../record/problem.js';
import { filledChart } from '../words/anesthesia-chart.js';
import type { Handout } from '../words/handout.js';
import type { Language } from '../words/language.js';
import { markdownBlocks } from '../words/markdown.js';
import { calendarEntries } from '../words/owner/calendar-entries.js';
import type { CalendarCode } from '../words/owner/on-the-phone.js';
import { ownerSheet } from '../words/owner/owner-sheet.js';
import { anesthesiaRecord, answersSheet, teachingPage } from '../words/teaching/documents.js';
import type { CaseStanding } from './approval.js';
import { printCalendar } from './calendar.js';
import type { Content } from './content.js';
import { drawFigures } from './figures.js';
import { MissingGlyph, named } from './fonts.js';
import { liveCase } from './live-case.js';
import type { LoadedCase } from './load-case.js';
import { type Pack, packOf } from './pack/pack.js';
import { printPdf } from './pdf/print.js';
import { type DecodedPhoto, decodePhotos, photosFor } from './photo.js';

/** A document ready for its tree: the handout for the page, the PDF beside it. */
export interface PrintedDocument {
  /** Path in its tree without an ending, for example `juniper/discharge`. */
  readonly address: string;
  readonly handout: Handout;
  readonly pdf: Uint8Array;
  readonly labels: PageLabels;
  /** What the scripts of its page need; null where it has none. */
  readonly live: LiveCase | null;
}

/** Links of a page, in the language of its document. */
type PageLabels = Readonly<Record<(typeof PAGE_LABELS)[number], string>>;

const PAGE_LABELS = ['pdf', 'calendar', 'teaching', 'record', 'files', 'answers'] as const;

export interface PrintedCase {
  readonly name: string;
  /** The patient's name, for the clinic's own list. */
  readonly patient: string;
  /** What the public may know; null where nothing is published. */
  readonly shared: PublicFacts | null;
  /** What people asked, as far as the page tells it. */
  readonly questions: readonly string[];
  readonly owner: PrintedDocument;
  /** The owner's calendar file. */
  readonly calendar: Uint8Array;
  /** PDF of the anesthesia chart to fill in by hand, with what the record knows of the patient. */
  readonly chart: Uint8Array;
  /** Name under which the clinic puts it online; null where it does not. */
  readonly calendarOnline: string | null;
  readonly standing: CaseStanding;
  /** Null without consent. */
  readonly teaching: PrintedDocument | null;
  /** The answers to what the teaching page asks, as PDF alone; null where it asks nothing. */
  readonly answers: PrintedDocument | null;
  readonly record: PrintedDocument | null;
  /** What goes with the record; null without consent to it. */
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
  try {
    return good(await printDocuments(loaded, photos.value, content, publicLanguage, veil));
  } catch (error) {
    if (!(error instanceof MissingGlyph)) throw error;
    return bad({
      kind: 'a character without a letter',
      file: loaded.file,
      found: `the character ${named(error.character)} in "${error.text}"`,
      expected: 'only characters that the printed letters have',
      mend: 'Look for that text in the files of the case, and write it without the character.',
    });
  }
}

async function printDocuments(
  loaded: LoadedCase,
  photos: readonly DecodedPhoto[],
  { languages }: Content,
  publicLanguage: string,
  veil: Veil | null,
): Promise<PrintedCase> {
  const { facts, name, standing } = loaded;
  const speak = (tag: string) => languages.get(tag) as Language;
  const print = async (
    address: string,
    handout: Handout,
    live: LiveCase | null = null,
  ): Promise<PrintedDocument> => ({
    address,
    handout,
    pdf: await printPdf(handout),
    labels: labelsIn(speak(handout.language)),
    live,
  });
  const tongue = speak(facts.identity.owner.language);
  const owner = await print(
    `${name}/discharge`,
    ownerSheet(
      facts,
      tongue,
      photosFor(photos, 'owner sheet'),
      standing.sheet,
      calendarCode(loaded),
    ),
  );
  const shared = veil && publicFacts(facts, veil);
  const common = {
    name,
    patient: facts.identity.patientName,
    owner,
    calendar: ownerCalendar(loaded, tongue),
    chart: await printPdf(filledChart(facts, speak(publicLanguage), standing.sheet.approved)),
    calendarOnline: loaded.calendarAddress?.split('/').at(-1) ?? null,
    standing,
  };
  if (!veil || !shared) {
    return {
      ...common,
      shared: null,
      questions: [],
      teaching: null,
      answers: null,
      record: null,
      pack: null,
    };
  }
  const language = speak(publicLanguage);
  const { paper } = facts.identity.clinic;
  const figures = {
    ...drawFigures(shared, loaded.strips, language),
    photos: facts.consent.photos.allows
      ? photosFor(photos, 'teaching page').map((one) => ({ ...one, shows: veil.say(one.shows) }))
      : [],
  };
  const { address } = shared.published;
  const remarks = facts.consent.questions.allows ? clearedLines(loaded.remarks, veil) : '';
  const answers = facts.consent.teaching.allows
    ? answersSheet(shared, language, figures, paper, standing.teaching)
    : null;
  return {
    ...common,
    shared,
    questions: facts.consent.teaching.allows ? questionsIn(remarks) : [],
    teaching: facts.consent.teaching.allows
      ? await print(
          `${address}/teaching`,
          teachingPage(shared, remarks, language, figures, paper, standing.teaching),
          liveCase(shared, loaded.strips, language),
        )
      : null,
    answers: answers && (await print(`${address}/answers`, answers)),
    record: facts.consent.record.allows
      ? await print(
          `${address}/record`,
          anesthesiaRecord(shared, language, figures, paper, standing.sheet.approved),
        )
      : null,
    pack: facts.consent.record.allows
      ? packOf(shared, loaded.strips, language, standing.sheet.approved)
      : null,
  };
}

const labelsIn = ({ common }: Language): PageLabels =>
  Object.fromEntries(
    PAGE_LABELS.map((label) => [label, common.text(`pages.${label}`)]),
  ) as PageLabels;

/** The second-level headings of `teaching.md`. */
const questionsIn = (remarks: string): string[] =>
  markdownBlocks(remarks).flatMap((block) =>
    block.kind === 'heading' && block.level === 2 ? [block.text] : [],
  );

/** The remarks are cleared line by line, as their problems name lines. */
const clearedLines = (remarks: string, { say }: Veil): string =>
  remarks.split('\n').map(say).join('\n');

/** Side of a module, mm: the whole code is 2 cm wide, as is common practice. */
const MODULE = 0.5;

function calendarCode({ calendarAddress: address, facts }: LoadedCase): CalendarCode | null {
  if (address === null) return null;
  const module = facts.identity.owner.largeType ? 2 * MODULE : MODULE;
  return { address, figure: { kind: 'drawing', drawing: qrCode(address, module) } };
}

/** Everything of the sheet that has a time or a day. */
function ownerCalendar({ facts, standing: { sheet } }: LoadedCase, language: Language): Uint8Array {
  const { record, clinic } = facts.identity;
  // Doses are given by the clock at home, which may not be the clinic's.
  return printCalendar(calendarEntries(facts, language, sheet), {
    seed: [clinic.name, record],
    timeZone: facts.home.timeZone.value,
    language: language.tag,
    sequence: sequenceOf(sheet),
    revised: sheet.approvals.at(-1)?.on ?? facts.surgery.date.value,
  });
}
