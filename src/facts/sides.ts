import type { CaseText } from '../record/case-schema.js';
import { EYES } from '../record/vocabulary.js';
import type { Located } from '../record/yaml-file.js';
import { asked, medicinesOf, partOf, type Question } from './asked.js';

/** A side of the body in English or Spanish. Both English words also mean other things: what is left, who left, right away. */
const SIDES = {
  left: /\bthe left\b|\b(?<!\b(?:he|she|it|they|we|you|who|is|was|be|been|are|were|has|have|had) )left\b(?= [a-z])(?! (?:open|alone|over|behind|the|a|an|for|us|in|here|home|at|on|with|when|before|after)\b)|\bizquierd[oa]s?\b/i,
  right: /(?<!\ball )\bright\b(?! (?:away|now|after|before|there|time)\b)|\bderech[oa]s?\b/i,
} as const;
type Side = keyof typeof SIDES;

/** The one side that a text speaks of; null where it speaks of none or of both. */
function sideIn(text: string): Side | null {
  const [one, ...more] = (Object.keys(SIDES) as Side[]).filter((side) => SIDES[side].test(text));
  return one !== undefined && more.length === 0 ? one : null;
}

/** Asks where a text of the record speaks of the other side alone than the one on which it says that the surgery was. */
export function sideWarnings(record: Located<CaseText>): Question[] {
  const { value, at } = record;
  const { site = '', 'note to owner': note } = value.surgery;
  const side = sideIn(site);
  const isRemoval = value.surgery.procedure === EYE_REMOVAL;
  const gone = isRemoval ? intoTheRemovedEye(record, side) : [];
  if (side === null) return gone;
  const told: readonly (readonly [string | undefined, ...(string | number)[]])[] = [
    [note, 'surgery', 'note to owner'],
    ...value.events.map((event, index) => [event.note, 'events', index, 'note'] as const),
    ...value.photos.map((photo, index) => [photo.shows, 'photos', index, 'shows'] as const),
    ...medicinesOf(value.home).flatMap(({ place, medicine: { route } }) =>
      // Drops after the removal of an eye are for the other one.
      isRemoval && isEye(route) ? [] : [[route, ...place, 'route'] as const],
    ),
    ...(value.home?.['as needed'] ?? []).map(
      (one, index) => [one.if, 'home', 'as needed', index, 'if'] as const,
    ),
    ...(value.home?.awaited ?? []).map(
      (one, index) => [one.result, 'home', 'awaited', index, 'result'] as const,
    ),
  ];
  return [
    ...gone,
    ...told.flatMap(([text, ...path]): Question[] => {
      const other = text === undefined ? null : sideIn(text);
      if (other === null || other === side) return [];
      return [
        {
          ...at(...path),
          found: `a text of the ${other} side`,
          expected: `the ${side} side, as the site is "${site}"`,
          ...answered(value),
        },
      ];
    }),
  ];
}

const EYE_REMOVAL = 'eye removal';
const isEye = (route: string): boolean => EYES.some((one) => one === route);

/** Asks about a medicine for the eye that was taken out, or for two where one is left. @param side of the eye that is gone, where known */
const intoTheRemovedEye = ({ value, at }: Located<CaseText>, side: Side | null): Question[] =>
  medicinesOf(value.home).flatMap(({ place, medicine: { route } }): Question[] =>
    route === 'in each eye' || (isEye(route) && side !== null && sideIn(route) === side)
      ? [
          {
            ...at(...place, 'route'),
            found: `a medicine ${route}`,
            expected: 'a medicine in the eye that is left, as the other was taken out',
            ...answered(value),
          },
        ]
      : [],
  );

const answered = (value: CaseText) =>
  asked('two sides of the body', partOf.patient(value), 'Mend one of the two');
