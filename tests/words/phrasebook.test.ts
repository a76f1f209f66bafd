import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { flatten, phrasebook } from '../../src/words/phrasebook.js';

const book = phrasebook(
  flatten({
    keep: 'Keep the collar on **{patient}** until {date}.',
    plain: '{patient}',
    list: ['First {patient}.', 'Second.'],
    doses: '{count, plural, one {# dose} other {# doses}}',
  }),
  'en',
);

const printed = (patient: string) =>
  book
    .say('plain', { patient })
    .runs.map(({ text }) => text)
    .join('');

describe('a value', () => {
  it.each([
    '**<b>x</b>',
    '<script>alert(1)</script>',
    '[click](javascript:alert(1))',
    '![pic](http://evil.example/x.png)',
    'Mr. *Paws*_ `code` ~~x~~',
    '&amp; &lt;b&gt; &#60;',
    '{date} {count, plural, other {x}}',
    "it's '{quoted}'",
    '\\*backslash\\',
    '# Heading',
    '- item',
    '1. item',
    '> quote',
    '<http://a.example>',
    'Ñandú 🐾',
    '| a | b |',
  ])('prints literally: %s', (patient) => {
    const { runs } = book.say('plain', { patient });
    expect(runs).toEqual([{ text: expect.any(String) }, ...runs.slice(1)]);
    expect(printed(patient)).toBe(patient);
    for (const run of runs) expect(Object.keys(run)).toEqual(['text']);
  });

  it('prints literally whatever its characters', () => {
    const line = fc
      .string({ unit: 'grapheme', minLength: 1 })
      .map((text) => text.replace(/\s+/g, ' ').replaceAll('\0', '').trim())
      .filter((text) => text !== '');
    fc.assert(
      fc.property(line, (patient) => {
        expect(printed(patient)).toBe(patient);
      }),
      { numRuns: 500 },
    );
  });

  it('cannot close the strong text that a message puts around it', () => {
    const { runs } = book.say('keep', { patient: 'A** B', date: 'Monday' });
    const strong = runs.filter((run) => run.strong).map(({ text }) => text);
    expect(strong.join('')).toBe('A** B');
    expect(runs.at(-1)).toEqual({ text: ' until Monday.' });
  });

  it('stands as it is in plain text', () => {
    expect(book.text('plain', { patient: 'A & <b>' })).toBe('A & <b>');
  });
});

describe('a phrasebook', () => {
  it('carries the facts that a passage states', () => {
    expect(book.say('plain', { patient: 'x' }, 'home.collarUntil').facts).toEqual([
      'home.collarUntil',
    ]);
  });

  it('says a list in order, and nothing where there is none', () => {
    expect(book.all('list', { patient: 'x' }).map(({ runs }) => runs[0]?.text)).toEqual([
      'First x.',
      'Second.',
    ]);
    expect(book.all('nothing')).toEqual([]);
  });

  it('counts by the rules of the language', () => {
    expect(book.text('doses', { count: 1 })).toBe('1 dose');
    expect(book.text('doses', { count: 6 })).toBe('6 doses');
  });

  it('throws for a message that the program asks for and nobody wrote', () => {
    expect(() => book.text('nothing')).toThrow('No message "nothing" in language "en".');
  });
});

it('writes a number with a point in every language, as the numbers beside it', () => {
  const every = '{hours, plural, one {Cada hora} other {Cada # horas}}';
  const spanish = phrasebook({ every }, 'es');
  expect(spanish.text('every', { hours: 4.5 })).toBe('Cada 4.5 horas');
  expect(spanish.text('every', { hours: 1 })).toBe('Cada hora');
  expect(spanish.text('every', { hours: 1000 })).toBe('Cada 1000 horas');
});
