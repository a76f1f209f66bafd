import { refusal } from './refusal.js';
import { text } from './words.js';

/** A time zone by its IANA name, which knows the clock changes of its place. */
export const timeZone = text('the time zone by its IANA name, such as America/Chicago').superRefine(
  (name, context) => {
    try {
      new Intl.DateTimeFormat('en', { timeZone: name });
    } catch {
      context.addIssue(
        refusal(
          'an unknown time zone',
          name,
          'an IANA time zone',
          'Write it like America/Chicago or Europe/Madrid.',
        ),
      );
    }
  },
);
