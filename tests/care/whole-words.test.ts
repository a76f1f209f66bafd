import { describe, expect, it } from 'vitest';
import { PLACE_WORDS, placesMeant } from '../../src/care/body-place.js';
import { BREED_WORDS, otherSpecies } from '../../src/care/breed-words.js';
import type { Species } from '../../src/record/vocabulary.js';

/** Every word that a pattern of a table stands for: `p[aá]rpados?` is four. */
function spelled(pattern: string): string[] {
  const [, before, chosen, after] =
    /^(.*?)(\[[^\]]+\]|\(\?:[^)]+\)\?|.\?)(.*)$/u.exec(pattern) ?? [];
  if (before === undefined || chosen === undefined || after === undefined) return [pattern];
  const choices = chosen.startsWith('[')
    ? [...chosen.slice(1, -1)]
    : ['', chosen.replace(/^\(\?:|\)?\?$/g, '')];
  return choices.flatMap((one) => spelled(after).map((rest) => `${before}${one}${rest}`));
}

const words = (table: Readonly<Record<string, string>>) =>
  Object.entries(table).flatMap(([key, all]) =>
    all.split('|').flatMap((one) => spelled(one).map((word) => [key, word] as const)),
  );

describe('a word of a place', () => {
  it.each(words(PLACE_WORDS))('of the %s is found within a site: "%s"', (place, word) => {
    // An operation at a place that is not this one, told apart by it.
    const procedure = place === 'knee' ? 'eye removal' : 'knee ligament repair';
    for (const site of [word, `(${word.toUpperCase()}), left`]) {
      expect(placesMeant(procedure, site), site).not.toBeNull();
    }
    expect(placesMeant(procedure, `${word}ñ`)).toBeNull();
  });
});

describe('a word of a breed', () => {
  it.each(words(BREED_WORDS))('of a %s is found: "%s"', (species, word) => {
    const other: Species = species === 'ferret' ? 'rabbit' : 'ferret';
    expect(otherSpecies(other, `white ${word}, old`)).toBe(species);
    expect(otherSpecies(other, `${word}ñ`)).toBeNull();
  });
});
