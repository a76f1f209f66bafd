import type { CaseText } from '../record/case-schema.js';
import type { Located } from '../record/yaml-file.js';
import { type FreeText, paragraphsOf } from './passages.js';

/**
 * Every text of a case that an author wrote freely and a public document may print, with its place: what `publicFacts`
 * hands to the veil, and the author's remarks and photos, which no fact holds. A text that is missing here is refused by
 * the veil.
 */
export function freeTextsOf(
  { value, at }: Located<CaseText>,
  remarks: string,
  remarksFile: string,
): FreeText[] {
  const { published, anesthesia, events, monitor, photos, consent } = value;
  const text = (
    kind: FreeText['kind'],
    written: string | undefined,
    ...path: (string | number)[]
  ) => (written === undefined ? [] : [{ kind, text: written, place: at(...path) }]);
  const asked = consent.questions.given === 'yes' && consent.questions.withdrawn === undefined;
  return [
    ...(['title', 'patient', 'address'] as const).flatMap((key) =>
      text('label', published?.[key], 'published', key),
    ),
    ...text('label', anesthesia.maintenance, 'anesthesia', 'maintenance'),
    ...anesthesia.drugs.flatMap(({ drug }, index) =>
      text('label', drug, 'anesthesia', 'drugs', index, 'drug'),
    ),
    ...events.flatMap(({ note }, index) => text('prose', note, 'events', index, 'note')),
    ...monitor['off patient'].flatMap(({ why }, index) =>
      text('prose', why, 'monitor', 'off patient', index, 'why'),
    ),
    ...photos.flatMap(({ shows, on }, index) =>
      on.includes('teaching page') ? text('prose', shows, 'photos', index, 'shows') : [],
    ),
    ...(asked ? paragraphsOf(remarks) : []).map(({ text: paragraph, line }) => ({
      kind: 'prose' as const,
      text: paragraph,
      place: { file: remarksFile, line },
    })),
  ];
}
