import { z } from 'zod';
import { PROBLEM_NUMBERS, type ProblemKind } from './problem-kind.js';
import { text } from './words.js';

/**
 * Why warnings are as they should be, by their numbers: an answer speaks of what its author was asked, and of nothing that
 * comes later. One reason for one warning of that number, a list of them for several, in the order in which they are told.
 */
export type Answers = Readonly<Record<string, string | readonly string[]>>;

const WARNING_NUMBER = /^T3\d\d$/;

/** What a part of the record answers to its warnings. @param about what the warnings are about */
export const answers = (about: string) => {
  const meaning = `why a warning about ${about} is as it should be, each reason after the number of its warning: { T332: "the reason" }; several of one number in their order: { T332: ["one reason", "another"] }`;
  const reason = text('why it is as it should be');
  return z
    .record(
      z.string().regex(WARNING_NUMBER),
      z.union([reason, z.array(reason).min(1)], {
        error: 'why it is as it should be, as text, or a list of such texts',
      }),
      {
        error: ({ code }) =>
          code === 'invalid_key' ? 'the number of a warning, such as T332' : meaning,
      },
    )
    .meta({ description: meaning });
};

/** The reasons that are given for warnings of a kind, in their order; none where nothing is said of them. */
export function reasonsFor(kind: ProblemKind, given: Answers | undefined): readonly string[] {
  const reasons = given?.[PROBLEM_NUMBERS[kind]] ?? [];
  return typeof reasons === 'string' ? [reasons] : reasons;
}

/**
 * How warnings of a kind are answered.
 * @param part of the record that answers them, such as `under patient`
 * @param count how many of that kind the part has to answer
 */
export function toAccept(kind: ProblemKind, part: string, count: number): string {
  const reasons =
    count === 1
      ? '"the reason"'
      : `[${Array.from({ length: count }, (_, index) => `"reason ${index + 1}"`).join(', ')}]`;
  const each = count === 1 ? '' : `, a reason for each of the ${count} in their order`;
  return `write ${part}: accepted because: { ${PROBLEM_NUMBERS[kind]}: ${reasons} }${each}`;
}
