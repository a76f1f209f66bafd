import { describe, expect, it } from 'vitest';
import { yardstickFor } from '../../../src/words/reading/formulas.js';
import { spanishSyllables } from '../../../src/words/reading/spanish-syllables.js';
import { spokenSyllables, type Voice } from '../../../src/words/reading/spoken.js';

describe('syllables of a Spanish word', () => {
  // Divisions as school grammars print them (Clarín, "Explicación fácil de diptongos e hiatos"; Junta de Castilla y
  // León, "Diptongo, triptongo e hiato"; both after the rules of the Real Academia Española).
  it.each([
    'or-to-gra-fí-a',
    'va-cí-o',
    'grú-a',
    'ca-pi-cú-a',
    'e-go-ís-ta',
    'po-e-ma',
    'co-rre-a',
    'a-cre-e-dor',
    'zo-o-ló-gi-co',
    'ahu-mar',
    'pro-hí-ben',
    'sa-lí-ais',
    'cuí-da-te',
    'des-pués',
    'buey',
    'es-tu-diáis',
    'ca-lien-te',
    'ca-o-ba',
    'le-í-do',
    'trein-ta',
    'ciu-dad',
  ])('%s', (divided) => {
    expect(spanishSyllables(divided.replaceAll('-', ''))).toBe(divided.split('-').length);
  });

  it.each([
    ['que', 1],
    ['guía', 2],
    ['pingüino', 3],
    ['muy', 1],
    ['mayo', 2],
    ['y', 1],
    ['mg', 1],
  ])('%s has %i', (word, count) => {
    expect(spanishSyllables(word)).toBe(count);
    expect(spanishSyllables(word.toUpperCase().normalize('NFD'))).toBe(count);
  });
});

describe('what is read aloud', () => {
  const english = (yardstickFor('en') as { voice: Voice }).voice;
  const spanish = (yardstickFor('es') as { voice: Voice }).voice;

  it.each([
    // two / mil-li-li-ters
    ['2 mL', [1, 4]],
    // twen-ty-five, as the SMOG score sheet counts it
    ['25', [3]],
    // ten for-ty-five / a m
    ['10:45 am', [4, 2]],
    // eight
    ['8:00', [1]],
    // ze-ro point one
    ['0.1', [4]],
    // one / half / tab-let
    ['1 ½ tablet', [1, 1, 2]],
    // two-year-old is one word
    ['two-year-old', [3]],
  ])('%s', (text, syllables) => {
    expect(spokenSyllables(text, english)).toEqual(syllables);
  });

  it('reads numbers in the language of the text', () => {
    // vein-ti-cua-tro / ho-ras / once
    expect(spokenSyllables('24 horas, 11', spanish)).toEqual([4, 2, 2]);
  });
});
