import { IN_MEDICINE } from '../care/dose-check/finding.js';
import { type Answers, reasonsFor, toAccept } from '../record/answers.js';
import type { CaseText, HomeText } from '../record/case-schema.js';
import type { GivenText } from '../record/medicine-schema.js';
import type { Warning } from '../record/problem.js';
import type { ProblemKind } from '../record/problem-kind.js';

/** A part of the record that answers the warnings about it. */
export interface Part {
  readonly called: string;
  /** Told by no other part of the case. */
  readonly key: string;
  readonly answers: Answers | undefined;
}

/** A warning that has not been held against its answer; `mend` is what else can be done about it, to be followed by a comma. */
export interface Question extends Omit<Warning, 'accepted'> {
  readonly answeredIn: Part;
}

const part = (
  called: string,
  told: { 'accepted because'?: Answers | undefined } = {},
  which: string | number = '',
): Part => ({
  called,
  key: `${called} ${which}`,
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
  patient: ({ patient }: Pick<CaseText, 'patient'>) => part('under patient', patient),
  monitor: ({ monitor }: CaseText) => part('under monitor', monitor),
  drug: ({ anesthesia }: CaseText, index: number) =>
    part('in this drug', anesthesia.drugs[index], index),
  closure: ({ closure }: HomeText) => part('under closure', closure),
  home: ({ home }: HomeText) => part('under home', home),
  food: ({ home }: HomeText) => part('under home.food', home.food),
  medicine: ({ home }: HomeText, [, list, index]: MedicinePlace) =>
    part(IN_MEDICINE, home[list][index], `${list} ${index}`),
} as const;

/** What a warning says of its answer. @param mend what else can be done about it, to be followed by a comma */
export const asked = (
  kind: ProblemKind,
  answeredIn: Part,
  mend = 'Mend it',
): Pick<Question, 'kind' | 'mend' | 'answeredIn'> => ({ kind, mend, answeredIn });

/**
 * All warnings of a case with their answers. An answer holds where it gives exactly as many reasons as its part has warnings
 * of that number: nobody can tell which of them were known to whoever gave fewer or more, so that then all are open again.
 */
export function answered(questions: readonly Question[]): Warning[] {
  return questions.map((question) => {
    const { answeredIn, ...warning } = question;
    const { kind, mend } = warning;
    const alike = questions.filter(
      (one) => one.kind === kind && one.answeredIn.key === answeredIn.key,
    );
    const reasons = reasonsFor(kind, answeredIn.answers);
    return {
      ...warning,
      mend: `${mend}, or ${toAccept(kind, answeredIn.called, alike.length)}.`,
      accepted:
        reasons.length === alike.length ? (reasons[alike.indexOf(question)] as string) : null,
    };
  });
}
