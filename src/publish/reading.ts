import { goesHome, type HomeCase } from '../facts/case-facts.js';
import { type Fact, isKnown } from '../facts/fact.js';
import type { Place, Problem, Warning } from '../record/problem.js';
import { shortened } from '../record/refusal.js';
import { readText } from '../words/handout-text.js';
import { type Language, ownersLanguage } from '../words/language.js';
import { ownerSheet } from '../words/owner/owner-sheet.js';
import { type HeardLanguage, heard } from '../words/reading/heard.js';
import { otherLanguageOf } from '../words/reading/in-language.js';
import { withKnownName } from '../words/reading/known-names.js';
import { type Measure, type ReadingLevel, readingLevel } from '../words/reading/reading-level.js';
import { passagesOf, type Sentence, sentencesOf } from '../words/reading/sentences.js';
import { unexplainedTerms } from '../words/reading/terms.js';
import type { Content } from './content.js';
import type { LoadedCase } from './load-case.js';
import { lackingLetters } from './printed-letters.js';

/** How hard the owner's sheet of a case is to read, where there is one: for the veterinarian, never printed on the sheet. */
export interface CaseReading {
  /** One line: the sheet and its grade, or why there is none. */
  readonly summary: string;
  readonly level: ReadingLevel | null;
  /** What of it cannot be printed. */
  readonly unprintable: readonly Problem[];
  readonly warnings: readonly Warning[];
}

/** Messages that print what is no prose: a drug with its strength. */
const DATA = ['medicines.what'];

/** Letters of a sentence that a message quotes. Not a clinical number. */
const LONGEST_QUOTE = 300;

export function readingOf(loaded: LoadedCase, content: Content): CaseReading {
  const { facts, name, photos, standing } = loaded;
  if (!goesHome(facts)) {
    return {
      summary: `${name}: no owner's sheet, as the patient died.`,
      level: null,
      unprintable: [],
      warnings: [],
    };
  }
  const tag = facts.identity.owner.language;
  const listening = heard(ownersLanguage(content.languages, facts.identity));
  const sheet = ownerSheet(facts, listening.language, [], standing.sheet);
  const passages = [
    ...passagesOf(sheet.blocks),
    ...photos
      .filter(({ on }) => on.includes('owner sheet'))
      .map(({ shows }) => ({ runs: [{ text: shows }], facts: [] })),
  ];
  const own = ownTexts(loaded, facts).map((one) => ({
    ...one,
    other: otherLanguageOf(one.text, listening.language, content.languages.values()),
  }));
  const prose = sentencesOf(passages, tag).filter(({ text }) => {
    const source = listening.sourceOf(text);
    const isData = source?.book === 'owner' && DATA.includes(source.key);
    // The formulas of one language say nothing of words in another.
    return !isData && !writtenIn(own, text)?.other;
  });
  const species = listening.language.trade.text(`species.${facts.patient.species.value}.owner`);
  const level = readingLevel(withKnownName(prose, facts.identity.patientName, species), tag);
  const placeOf = placeIn(loaded, content, listening, own);
  return {
    level,
    unprintable: lackingLetters(loaded, sheet),
    summary:
      level === null
        ? `${name}, owner's sheet (${tag}): reading level not computed, as no formula here was made for this language.`
        : `${name}, owner's sheet (${tag}): ${level.measures.map(measureText).join(', ')}; ${level.counts.sentences} sentences.`,
    warnings: [
      ...own.flatMap((one) => (one.other ? [foreign(one, one.other, listening.language)] : [])),
      // Whoever writes a record can mend its own words alone, and not the fixed ones around them.
      ...(level?.hardest ?? []).flatMap(({ text }): Warning[] => {
        const written = writtenIn(own, text);
        if (!written) return [];
        return [
          {
            kind: 'a sentence that is hard to read',
            ...written.place,
            found: `"${shortened(text, LONGEST_QUOTE)}" in an owner's sheet at ${failedText(level as ReadingLevel)}`,
            expected: `sentences for a reader of the sixth grade (${limitText(level as ReadingLevel)})`,
            mend: 'Say it in shorter words, or in two sentences.',
            accepted: null,
          },
        ];
      }),
      ...unexplainedTerms(passages, listening.language.terms).map(
        ({ term: { word, plain }, said }): Warning => {
          const text =
            sentencesOf([said], tag).find((sentence) =>
              sentence.text.toLowerCase().includes(word.toLowerCase()),
            )?.text ?? readText(said);
          return {
            kind: 'a trade word without its explanation',
            ...placeOf({ text, facts: said.facts }),
            found: `"${word}" without its explanation in an owner's sheet: "${shortened(text, LONGEST_QUOTE)}"`,
            expected: `a word that an owner knows, or the explanation beside it: ${plain.map((each) => `"${each}"`).join(' or ')}`,
            mend: 'Say it in plain words, or add the explanation in the same passage.',
            accepted: null,
          };
        },
      ),
    ],
  };
}

/** The value as it is judged: 6.2 is grade six, and would look like a miss beside "6 or below". */
const measureText = ({ name, judged, limit, fit }: Measure): string =>
  `${name} ${judged} (${limit} ${fit})`;

const failedText = ({ measures }: ReadingLevel): string =>
  measures
    .filter(({ fits }) => !fits)
    .map(({ name, judged }) => `${name} ${judged}`)
    .join(', ');

const limitText = ({ measures }: ReadingLevel): string =>
  measures.map(({ name, limit, fit }) => `${name} ${limit} ${fit}`).join(', ');

/** Where the words of a sentence stand: in the record for what its author wrote, else in the clinic's content. */
function placeIn(
  { facts, file }: LoadedCase,
  content: Content,
  { sourceOf }: HeardLanguage,
  own: readonly OwnText[],
) {
  return ({ text, facts: of }: Sentence): Place => {
    const written = writtenIn(own, text);
    if (written) return written.place;
    const source = sourceOf(text);
    return source
      ? content.place(facts.identity.owner.language, source.book, source.key)
      : { file, ...(of[0] === undefined ? {} : { field: of[0] }) };
  };
}

/** What the author of a record wrote of a sentence. */
const writtenIn = <T extends OwnText>(own: readonly T[], sentence: string): T | undefined =>
  own.find(({ text }) => text.includes(sentence) || wroteMostOf(text, sentence));

/** `We expect the result: {what the record says}.` */
const wroteMostOf = (own: string, sentence: string): boolean =>
  sentence.includes(own) && own.length > sentence.length / 2;

/** What the author of a record wrote for the owner to read as it is. */
interface OwnText {
  readonly text: string;
  readonly place: Place;
}

function ownTexts({ file, photos }: LoadedCase, { surgery, home }: HomeCase): OwnText[] {
  return [
    ...[surgery.noteToOwner, surgery.site]
      .filter(isKnown)
      .map(({ value, from }) => ({ text: value, place: placeFrom(from) })),
    ...home.asNeeded.map(({ sign }) => ({ text: sign.value, place: placeFrom(sign.from) })),
    ...home.awaited.map(({ result, expected }) => ({
      text: result,
      place: placeFrom(expected.from),
    })),
    ...photos.flatMap(({ shows, on }, index) =>
      on.includes('owner sheet')
        ? [{ text: shows, place: { file, field: `photos[${index}].shows` } }]
        : [],
    ),
  ];
}

/** Words that the owner cannot read, as they are in another language than the rest of the sheet. */
function foreign({ text, place }: OwnText, other: Language, own: Language): Warning {
  const name = (tag: string) => new Intl.DisplayNames('en', { type: 'language' }).of(tag) ?? tag;
  return {
    kind: 'words in another language',
    ...place,
    found: `"${shortened(text, LONGEST_QUOTE)}", which reads as ${name(other.tag)}, in an owner's sheet in ${name(own.tag)}`,
    expected: `words in ${name(own.tag)}, as the rest of the sheet`,
    mend: `Say it in ${name(own.tag)}, or leave it out; it is printed as it is.`,
    accepted: null,
  };
}

/** `case.yaml:12 surgery.note to owner` */
function placeFrom([from = '']: Fact<string>['from']): Place {
  const [, file = from, line, field] = /^(.*?):(\d+) (.*)$/.exec(from) ?? [];
  return { file, ...(line && { line: Number(line) }), ...(field && { field }) };
}
