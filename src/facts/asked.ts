import { IN_MEDICINE } from '../care/dose-check/finding.js';
import { type Answers, answerTo, toAccept } from '../record/answers.js';
import type { CaseText, HomeText } from '../record/case-schema.js';
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

/** The parts of the record that answer warnings. */
export const partOf = {
  patient: ({ patient }: CaseText) => part('under patient', patient),
  monitor: ({ monitor }: CaseText) => part('under monitor', monitor),
  drug: ({ anesthesia }: CaseText, index: number) => part('in this drug', anesthesia.drugs[index]),
  closure: ({ closure }: HomeText) => part('under closure', closure),
  home: ({ home }: HomeText) => part('under home', home),
  food: ({ home }: HomeText) => part('under home.food', home.food),
  medicine: ({ home }: HomeText, index: number) => part(IN_MEDICINE, home.medicines[index]),
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
