import type { PublicFacts } from '../../privacy/public-facts.js';
import { termsOfBlocks } from '../../words/glossary.js';
import type { Block } from '../../words/handout.js';
import { headingAnchors } from '../html/anchors.js';
import type { MadeDocument } from '../make-case.js';
import type { PrintedCase } from '../print-case.js';
import { digestOf } from '../store/digest.js';
import { type Section, sectionsOf } from './search-index.js';
import type { Link, ShownCase, ShownDocument, Site } from './site.js';

/** Path of a document's page in its tree. */
export const fileOf = ({ address }: Pick<MadeDocument, 'address'>): string => `${address}.html`;

type Telling = Pick<PrintedCase, 'shared' | 'questions'> &
  Readonly<Record<'teaching' | 'record', MadeDocument | null>>;

/** What the rest of the site needs of a printed case; null where nothing of it is published. */
export function shownCase(telling: Telling, site: Site): ShownCase | null {
  const { shared, questions } = telling;
  const found = foundIn(telling);
  const [main] = found;
  if (!shared || !main) return null;
  return {
    pseudonym: shared.pseudonym,
    title: shared.published.title,
    species: shared.patient.species,
    procedure: shared.procedure,
    rhythms: rhythmsIn(shared.strips),
    questions: questionLinks(main.document, questions),
    documents: found.map((one) => shownDocument(one, site)),
  };
}

/** What the search finds in the documents of a case, under the key by which each is shown. */
export const passagesOf = (telling: Telling): Map<string, readonly Section[]> =>
  new Map(foundIn(telling).map(({ sections }) => [keyOf(sections), sections]));

const keyOf = (sections: readonly Section[]): string =>
  digestOf('passages', JSON.stringify(sections));

interface FoundDocument {
  readonly document: MadeDocument;
  /** The part of it that the search shall find. */
  readonly sections: readonly Section[];
}

/** The teaching page before the record, of which what stands under a heading of the teaching page is found there alone. */
function foundIn({ teaching, record }: Telling): FoundDocument[] {
  const [main, ...others] = [teaching, record].filter((document) => document !== null);
  if (!main) return [];
  const { blocks } = main.handout;
  const known = new Set(blocks.flatMap((block) => (block.kind === 'heading' ? [block.text] : [])));
  return [
    { document: main, sections: sectionsOf(blocks) },
    ...others.map((document) => ({
      document,
      sections: sectionsOf(withoutSections(document.handout.blocks, known)),
    })),
  ];
}

function shownDocument({ document, sections }: FoundDocument, site: Site): ShownDocument {
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
    passages: keyOf(sections),
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
