import { z } from 'zod';
import { PROBLEM_NUMBERS, type ProblemKind } from './problem-kind.js';
import { text } from './words.js';

/** Why warnings are as they should be, by their numbers: an answer speaks of what its author was asked, and of nothing that comes later. */
export type Answers = Readonly<Record<string, string>>;

const WARNING_NUMBER = /^T3\d\d$/;

/** What a part of the record answers to its warnings. @param about what the warnings are about */
export const answers = (about: string) => {
  const meaning = `why a warning about ${about} is as it should be, each reason after the number of its warning: { T332: "the reason" }`;
  return z
    .record(z.string().regex(WARNING_NUMBER), text('why it is as it should be'), {
      error: ({ code }) =>
        code === 'invalid_key' ? 'the number of a warning, such as T332' : meaning,
    })
    .meta({ description: meaning });
};

/** What is answered to warnings of a kind; null where nothing is said of them. */
export const answerTo = (kind: ProblemKind, given: Answers | undefined): string | null =>
  given?.[PROBLEM_NUMBERS[kind]] ?? null;

/** How warnings of a kind are answered. @param part of the record that answers them, such as `under patient` */
export const toAccept = (kind: ProblemKind, part: string): string =>
  `write ${part}: accepted because: { ${PROBLEM_NUMBERS[kind]}: "the reason" }`;
