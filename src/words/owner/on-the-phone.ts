import type { Figure, FigureBlock } from '../handout.js';
import type { Language } from '../language.js';

/** The address of the owner's calendar file, and the same as a picture for a phone to read. */
export interface CalendarCode {
  readonly address: string;
  readonly figure: Figure;
}

/** How the owner gets the doses and dates into a phone. */
export const onThePhone = (
  { address, figure }: CalendarCode,
  { owner }: Language,
): FigureBlock => ({
  kind: 'figure',
  name: 'calendar-code',
  figure,
  caption: {
    runs: [...owner.say('phone.caption').runs, { text: ' ' }, { text: address, href: address }],
    facts: [],
  },
  alternative: owner.text('phone.alternative', { address }),
});
