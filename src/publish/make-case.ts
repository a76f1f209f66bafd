import { qrCode } from '../draw/qr-code.js';
import { goesHome, type HomeCase } from '../facts/case-facts.js';
import { sequenceOf } from '../facts/standing.js';
import type { LiveCase } from '../live/contract.js';
import { clearedParagraphs } from '../privacy/passages.js';
import { type PublicFacts, publicFacts } from '../privacy/public-facts.js';
import type { Veil } from '../privacy/veil.js';
import { once } from '../units/once.js';
import { filledChart } from '../words/anesthesia-chart.js';
import type { Handout } from '../words/handout.js';
import { type Language, ownersLanguage } from '../words/language.js';
import { markdownBlocks } from '../words/markdown.js';
import { calendarEntries } from '../words/owner/calendar-entries.js';
import type { CalendarCode } from '../words/owner/on-the-phone.js';
import { ownerSheet } from '../words/owner/owner-sheet.js';
import { anesthesiaRecord, answersSheet, teachingPage } from '../words/teaching/documents.js';
import type { CaseStanding } from './approval.js';
import { printCalendar } from './calendar.js';
import type { Content } from './content.js';
import { type DrawFigures, drawFigures } from './figures.js';
import { liveCase } from './live-case.js';
import type { LoadedCase } from './load-case.js';
import { type Pack, packOf } from './pack/pack.js';
import { type DecodedPhoto, photosFor } from './photo.js';

/** A document before it is printed: what page and PDF are made from. */
export interface MadeDocument {
  /** Path in its tree without an ending, for example `juniper/discharge`. */
  readonly address: string;
  readonly handout: Handout;
  readonly labels: PageLabels;
  /** What the scripts of its page need; null where it has none. */
  readonly live: LiveCase | null;
}

/** Links of a page, in the language of its document. */
type PageLabels = Readonly<Record<(typeof PAGE_LABELS)[number], string>>;

const PAGE_LABELS = ['pdf', 'calendar', 'teaching', 'record', 'files', 'answers'] as const;

/** What the clinic's own list says of a case, as the record has it. Nothing of it is public. */
export interface ListLine {
  readonly patient: string;
  readonly owner: string;
  readonly record: string;
  readonly procedure: string;
  /** Of surgery, `YYYY-MM-DD`. */
  readonly day: string;
  /** Warnings of the case that the record does not answer. */
  readonly open: number;
}

/** What is made of a patient that goes home. */
export interface MadeForHome {
  /** Name under which the clinic puts the calendar online; null where it does not. */
  readonly calendarOnline: string | null;
  readonly owner: () => MadeDocument;
  /** The owner's calendar file. */
  readonly calendar: () => Uint8Array;
  /** The anesthesia chart to fill in by hand, with what the record knows of the patient. */
  readonly chart: () => Handout;
}

/** The documents of a case, each made when it is first asked for. */
export interface MadeCase {
  readonly name: string;
  /** For the clinic's own list. */
  readonly line: ListLine;
  readonly standing: CaseStanding;
  /** Null where the patient died: nothing is made for its owner. */
  readonly home: MadeForHome | null;
  /** What the public may know; null where nothing is published. */
  readonly shared: PublicFacts | null;
  /** What people asked, as far as the page tells it. */
  readonly questions: readonly string[];
  /** Null without consent. */
  readonly teaching: (() => MadeDocument) | null;
  /** The answers to what the teaching page asks, for print alone; gives null where it asks nothing. */
  readonly answers: () => MadeDocument | null;
  readonly record: (() => MadeDocument) | null;
  /** What goes with the record; null without consent to it. */
  readonly pack: (() => Pack) | null;
}

/**
 * @param veil what stands for number and dates in public; null where nothing may be public
 * @param draw draws the figures; a preview keeps them
 */
export function makeCase(
  loaded: LoadedCase,
  photos: readonly DecodedPhoto[],
  { languages }: Content,
  publicLanguage: string,
  veil: Veil | null,
  draw: DrawFigures = drawFigures,
): MadeCase {
  const { facts, name, standing, strips } = loaded;
  const speak = (tag: string) => languages.get(tag) as Language;
  const document = (
    address: string,
    handout: Handout,
    live: LiveCase | null = null,
  ): MadeDocument => ({ address, handout, labels: labelsIn(speak(handout.language)), live });
  const tongue = ownersLanguage(languages, facts.identity);
  const shared = veil && publicFacts(facts, veil);
  const common = {
    name,
    line: {
      patient: facts.identity.patientName,
      owner: facts.identity.owner.name,
      record: facts.identity.record,
      procedure: facts.surgery.procedure.value,
      day: facts.surgery.date.value,
      open: facts.warnings.filter(({ accepted }) => accepted === null).length,
    },
    standing,
    home: goesHome(facts)
      ? {
          calendarOnline: loaded.calendarAddress?.split('/').at(-1) ?? null,
          owner: once(() =>
            document(
              `${name}/discharge`,
              ownerSheet(
                facts,
                tongue,
                photosFor(photos, 'owner sheet'),
                standing.sheet,
                calendarCode(loaded),
              ),
            ),
          ),
          calendar: once(() => ownerCalendar(facts, standing, tongue)),
          chart: once(() => filledChart(facts, speak(publicLanguage), standing.sheet.approved)),
        }
      : null,
  };
  if (!veil || !shared) {
    return {
      ...common,
      shared: null,
      questions: [],
      teaching: null,
      answers: () => null,
      record: null,
      pack: null,
    };
  }
  const language = speak(publicLanguage);
  const { paper } = facts.identity.clinic;
  const { consent } = facts;
  const figures = once(() => ({
    ...draw(shared, strips, language),
    photos: consent.photos.allows
      ? photosFor(photos, 'teaching page').map((one) => ({ ...one, shows: veil.say(one.shows) }))
      : [],
  }));
  const { address } = shared.published;
  const remarks = consent.questions.allows ? clearedParagraphs(loaded.remarks, veil.say) : '';
  return {
    ...common,
    shared,
    questions: consent.teaching.allows ? questionsIn(remarks) : [],
    teaching: consent.teaching.allows
      ? once(() =>
          document(
            `${address}/teaching`,
            teachingPage(shared, remarks, language, figures(), paper, standing.teaching),
            liveCase(shared, strips, language),
          ),
        )
      : null,
    answers: once(() => {
      const answers = consent.teaching.allows
        ? answersSheet(shared, language, figures(), paper, standing.teaching)
        : null;
      return answers && document(`${address}/answers`, answers);
    }),
    record: consent.record.allows
      ? once(() =>
          document(
            `${address}/record`,
            anesthesiaRecord(shared, language, figures(), paper, standing.sheet.approved),
          ),
        )
      : null,
    pack: consent.record.allows
      ? once(() => packOf(shared, strips, language, standing.sheet.approved))
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

/** Side of a module, mm: the whole code is 2 cm wide, as is common practice. */
const MODULE = 0.5;

function calendarCode({ calendarAddress: address, facts }: LoadedCase): CalendarCode | null {
  if (address === null) return null;
  const module = facts.identity.owner.largeType ? 2 * MODULE : MODULE;
  return { address, figure: { kind: 'drawing', drawing: qrCode(address, module) } };
}

/** Everything of the sheet that has a time or a day. */
function ownerCalendar(facts: HomeCase, { sheet }: CaseStanding, language: Language): Uint8Array {
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
