import { z } from 'zod';
import { refusal } from './refusal.js';

/** A text that is not empty. */
export const text = (meaning: string) =>
  z
    .string({ error: `${meaning}, as text` })
    .meta({ description: meaning })
    .superRefine((written, context) => {
      if (written.trim() === '') {
        context.addIssue(refusal('an empty text', written, `${meaning}, as text`, 'Write it.'));
      }
    });

/** A name; typographic quotes around it are no quotes to YAML and would be printed as its letters. */
export const name = (meaning: string) =>
  text(meaning).superRefine((written, context) => {
    const [, within] = /^[“”„‟‘’‚«»](.*)[“”‟‘’«»]$/su.exec(written.trim()) ?? [];
    if (within === undefined) return;
    context.addIssue(
      refusal(
        'quotes that would be printed',
        written,
        `${meaning}, without quotes or in straight ones`,
        `Write ${within} or "${within}"; a text program has turned the quotes.`,
      ),
    );
  });

/** `yes` or `no`, as people write it. */
export const yesNo = (meaning: string) =>
  z.enum(['yes', 'no'], { error: `${meaning}, yes or no` }).meta({ description: meaning });

/** One of a few words. */
export const oneOf = <const W extends string>(meaning: string, words: readonly [W, ...W[]]) =>
  z
    .enum(words, { error: `${meaning}, one of: ${words.join(', ')}` })
    .meta({ description: meaning });

/** No disk takes a longer one. Not a clinical number. */
const LONGEST_NAME = 255;

/** The name of a file beside the record: a plain name, so that no record reaches outside its folder. */
export const fileName = (meaning: string, endings: readonly string[]) =>
  text(meaning).superRefine((name, context) => {
    const expected = `${meaning}, the name of a file in the case folder ending in ${endings.join(', ')}`;
    if (/[/\\\p{Cc}]/u.test(name) || name.startsWith('.') || name.length > LONGEST_NAME) {
      context.addIssue(
        refusal(
          'a file name that is not understood',
          name,
          expected,
          'Put the file into the case folder and write its name only.',
        ),
      );
    } else if (!endings.some((ending) => name.toLowerCase().endsWith(ending))) {
      context.addIssue(
        refusal(
          'a file name that is not understood',
          name,
          expected,
          `Use a file ending in ${endings.join(' or ')}.`,
        ),
      );
    }
  });
