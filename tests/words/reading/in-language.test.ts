import { describe, expect, it } from 'vitest';
import type { Language } from '../../../src/words/language.js';
import { otherLanguageOf } from '../../../src/words/reading/in-language.js';
import { vocabularyOf } from '../../../src/words/reading/vocabulary.js';
import { demo } from '../../facts/demo.js';

const all = [...demo.content.languages.values()];
const of = (tag: string) => demo.content.languages.get(tag) as Language;
const other = (text: string, own: string) => otherLanguageOf(text, of(own), all)?.tag ?? null;

describe('the language that an author wrote in', () => {
  // Invented notes, sites and awaited results as a clinic writes them.
  const english = [
    'lower belly',
    'If he strains and nothing comes, call at once.',
    'whether germs grow from the urine',
    'left front leg, above the wrist',
    'She ate hay and passed droppings before she left.',
  ];
  const spanish = [
    'parte baja del vientre',
    'Si hace fuerza y no sale nada, llame enseguida.',
    'si crecen gérmenes en la orina',
    'pata delantera izquierda, por encima de la muñeca',
    'La herida está por fuera de la pata. Es de una mordida de otro gato.',
  ];

  it.each(english)('sees English on a Spanish sheet: %s', (text) => {
    expect(other(text, 'es')).toBe('en');
    expect(other(text, 'en')).toBeNull();
  });

  it.each(spanish)('sees Spanish on an English sheet: %s', (text) => {
    expect(other(text, 'en')).toBe('es');
    expect(other(text, 'es')).toBeNull();
  });

  it.each(['Thimble', '12.5', 'B. bronchiseptica', ''])(
    'leaves open what no language knows: %s',
    (text) => {
      expect(other(text, 'es')).toBeNull();
      expect(other(text, 'en')).toBeNull();
    },
  );
});

it('takes the words of messages, not the syntax between them', () => {
  const message =
    'From {day} on, give {count, plural, =1 {one dose} other {# doses}} {way, select, later {afterwards} other {}}.';
  expect([...vocabularyOf([message])].sort()).toEqual([
    'afterwards',
    'dose',
    'doses',
    'from',
    'give',
    'on',
    'one',
  ]);
});
