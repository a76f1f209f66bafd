import { IN_MEDICINE } from '../care/dose-check/finding.js';
import { type Answers, answerTo, toAccept } from '../record/answers.js';
import type { CaseText, HomeText } from '../record/case-schema.js';
import type { GivenText } from '../record/medicine-schema.js';
import type { Warning } from '../record/problem.js';
import type { ProblemKind } from '../record/problem-kind.js';

/** A part of the record that answers the warnings about it. */
interface Part {
  readonly called: string;
  readonly answers: Answers | undefined;
}

const part = (called: string, told: { 'accepted because'?: Answers | undefined } = {}): Part => ({
  called,
  answers: told['accepted because'],
});

/** Where a medicine for home stands in the record: among those with hours, or among those as needed. */
export type MedicinePlace = readonly ['home', 'medicines' | 'as needed', number];

/** Every medicine for home with its place: those with hours first, then those as needed. */
export const medicinesOf = (
  home: HomeText['home'] | undefined,
): readonly { readonly place: MedicinePlace; readonly medicine: GivenText }[] =>
  (['medicines', 'as needed'] as const).flatMap((list) =>
    (home?.[list] ?? []).map((medicine: GivenText, index) => ({
      place: ['home', list, index] as const,
      medicine,
    })),
  );

/** The parts of the record that answer warnings. */
export const partOf = {
  patient: ({ patient }: CaseText) => part('under patient', patient),
  monitor: ({ monitor }: CaseText) => part('under monitor', monitor),
  drug: ({ anesthesia }: CaseText, index: number) => part('in this drug', anesthesia.drugs[index]),
  closure: ({ closure }: HomeText) => part('under closure', closure),
  home: ({ home }: HomeText) => part('under home', home),
  food: ({ home }: HomeText) => part('under home.food', home.food),
  medicine: ({ home }: HomeText, [, list, index]: MedicinePlace) =>
    part(IN_MEDICINE, home[list][index]),
} as const;

/** What a warning says of its answer. @param mend what else can be done about it, to be followed by a comma */
export const asked = (
  kind: ProblemKind,
  { called, answers }: Part,
  mend = 'Mend it',
): Pick<Warning, 'kind' | 'mend' | 'accepted'> => ({
  kind,
  mend: `${mend}, or ${toAccept(kind, called)}.`,
  accepted: answerTo(kind, answers),
});
