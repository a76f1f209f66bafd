import type { OwnerSection } from './owner-sheet.js';

/** Results that are not there yet, and what to do if nobody calls; nothing where none is awaited. */
export const awaited: OwnerSection = ({ home }, { owner, clock }) => {
  if (home.awaited.length === 0) return [];
  const results = home.awaited.map(({ result, expected }, index) =>
    owner.say('awaited.item', { date: clock.day(expected.value), result }, `home.awaited.${index}`),
  );
  return [
    { kind: 'heading', level: 2, text: owner.text('awaited.title') },
    { kind: 'list', ordered: false, items: [...results, owner.say('awaited.call')] },
  ];
};
