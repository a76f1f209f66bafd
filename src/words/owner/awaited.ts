import { atStart } from '../moments.js';
import type { OwnerSection } from './owner-sheet.js';

/** Results that are not there yet, and what to do if nobody calls; nothing where none is awaited. */
export const awaited: OwnerSection = ({ home }, { owner, clock, tag }) => {
  if (home.awaited.length === 0) return [];
  const results = home.awaited.map(({ result, expected }, index) =>
    owner.say(
      'awaited.item',
      { date: atStart(clock.shortDay(expected.value), tag), result },
      `home.awaited.${index}`,
    ),
  );
  return [
    {
      kind: 'callout',
      tone: 'note',
      title: owner.text('awaited.title'),
      said: [...results, owner.say('awaited.call')],
    },
  ];
};
