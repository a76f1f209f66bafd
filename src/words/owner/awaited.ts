import type { OwnerSection } from './owner-sheet.js';

/** Results that are not there yet, and what to do if nobody calls; nothing where none is awaited. */
export const awaited: OwnerSection = ({ home }, { owner, clock }) => {
  if (home.awaited.length === 0) return [];
  const results = home.awaited.map(({ result, expected }, index) =>
    owner.say(
      'awaited.item',
      { date: clock.shortDay(expected.value), result },
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
