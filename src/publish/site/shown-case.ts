import type { PublicFacts } from '../../privacy/public-facts.js';
import { termsOfBlocks } from '../../words/glossary.js';
import type { Block } from '../../words/handout.js';
import { headingAnchors } from '../html/anchors.js';
import type { MadeDocument } from '../make-case.js';
import type { PrintedCase } from '../print-case.js';
import { sectionsOf } from './search-index.js';
import type { Link, ShownCase, ShownDocument, Site } from './site.js';

/** Path of a document's page in its tree. */
export const fileOf = ({ address }: Pick<MadeDocument, 'address'>): string => `${address}.html`;

/** What the rest of the site needs of a printed case; null where nothing of it is published. */
export function shownCase(
  {
    shared,
    questions,
    teaching,
    record,
  }: Pick<PrintedCase, 'shared' | 'questions'> &
    Readonly<Record<'teaching' | 'record', MadeDocument | null>>,
  site: Site,
): ShownCase | null {
  const [main, ...others] = [teaching, record].filter((document) => document !== null);
  if (!shared || !main) return null;
  // What the record says under a heading of the teaching page is found there alone.
  const known = new Set(
    main.handout.blocks.flatMap((block) => (block.kind === 'heading' ? [block.text] : [])),
  );
  return {
    pseudonym: shared.pseudonym,
    title: shared.published.title,
    species: shared.patient.species,
    procedure: shared.procedure,
    rhythms: rhythmsIn(shared.strips),
    questions: questionLinks(main, questions),
    documents: [
      shownDocument(main, main.handout.blocks, site),
      ...others.map((other) =>
        shownDocument(other, withoutSections(other.handout.blocks, known), site),
      ),
    ],
  };
}

/** @param found the part of its blocks that the search shall find */
function shownDocument(document: MadeDocument, found: readonly Block[], site: Site): ShownDocument {
  const { title, lead, language, draft, reader, blocks } = document.handout;
  const glossary = site.shelf.library.glossary.get(language) ?? [];
  return {
    file: fileOf(document),
    reader: reader === 'student' ? 'student' : 'learner',
    title,
    lead,
    language,
    draft,
    label: reader === 'student' ? document.labels.record : document.labels.teaching,
    sections: sectionsOf(found),
    terms: termsOfBlocks(blocks, glossary).map(({ key }) => key),
  };
}

function rhythmsIn(strips: PublicFacts['strips']): (string | null)[] {
  const found = strips.flatMap(({ analysis }) =>
    analysis.rhythms.flatMap(({ name, confidence, within }) => [
      confidence === null ? null : name,
      ...within.map((event) => event.name),
    ]),
  );
  return [...new Set(found)];
}

/** What was asked of a case, with where it is answered. */
export function questionLinks(
  page: Pick<MadeDocument, 'address'> & {
    readonly handout: { readonly blocks: readonly Block[] };
  },
  questions: readonly string[],
): Link[] {
  const headings = [...headingAnchors(page.handout.blocks)];
  return questions.flatMap((question) => {
    // The author's part comes last on a page, should a heading of the page itself have the same words.
    const at = headings.findLast(([{ text }]) => text === question)?.[1];
    return at === undefined ? [] : [{ href: `${fileOf(page)}#${at}`, label: question }];
  });
}

function withoutSections(blocks: readonly Block[], headings: ReadonlySet<string>): Block[] {
  let isKnown = true;
  return blocks.filter((block) => {
    if (block.kind === 'heading') isKnown = headings.has(block.text);
    return !isKnown;
  });
}
