import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { leaksIn } from '../../src/privacy/leaks.js';

const search = (text: string, ...names: string[]) =>
  leaksIn(
    text,
    names.map((name) => ({ what: 'a name', text: name })),
  ).map((leak) => leak.text);

describe('an identifier is found', () => {
  it.each([
    ['in another case', 'so JUNIPER slept', 'Juniper'],
    ['without its accents', 'la señora Munoz llamo', 'Muñoz'],
    ['with accents that it has not', 'Rénée came', 'Renee'],
    ['with accents as marks of their own', 'Mun\u0303oz', 'Muñoz'],
    ['over a line break', 'Ada\n   Quillfeather', 'Ada Quillfeather'],
    ['over a no-break space', 'Ada\u00a0Quillfeather', 'Ada Quillfeather'],
    ['with a numeric entity', 'Ju&#110;iper', 'Juniper'],
    ['with a hexadecimal entity', 'Ju&#x6E;iper', 'Juniper'],
    ['with an accented entity', 'Mu&ntilde;oz and Ren&eacute;e', 'Muñoz'],
    ['with a no-break entity', 'Ada&nbsp;Quillfeather', 'Ada Quillfeather'],
    ['with an ampersand entity', 'Birch &amp; Sons', 'Birch & Sons'],
    ['with a quote entity', 'O&#39;Hara', "O'Hara"],
    ['with a soft hyphen', 'Quill\u00adfeather, Quill&shy;feather', 'Quillfeather'],
    ['with a zero-width space', 'Quill\u200bfeather', 'Quillfeather'],
    ['in full-width letters', 'Ｊｕｎｉｐｅｒ', 'Juniper'],
    ['inside a tag', '<b>Juniper</b>', 'Juniper'],
    ['in a file name', 'cases/juniper-strip.png', 'Juniper'],
    ['in the possessive', "Juniper's strip", 'Juniper'],
    ['as a number written with a dash', '555-0134', '555 0134'],
    ['as a number written with brackets', '(555) 0134', '555 0134'],
    ['as a number written without spaces', '5550134', '555 0134'],
    ['as a date written without dashes', 'strip_20260310.edf', '2026-03-10'],
    ['with signs that mean something to a search', 'Dr. (A) B+C?', 'Dr. (A) B+C?'],
  ])('%s', (_, text, name) => {
    expect(search(text, name)).toEqual([name]);
  });
});

describe('no alarm is raised', () => {
  it.each([
    ['inside a longer word', 'the wound was washed', 'Ash'],
    ['inside a longer word, accents or not', 'crème brûlée', 'Bru'],
    ['inside a longer number', '15550134', '555 0134'],
    ['for parts that stand apart', 'Ada came. Later on, Quillfeather', 'Ada Quillfeather'],
    ['for an identifier without letters or digits', 'a * b', '*'],
    ['for an empty identifier', 'anything', ''],
  ])('%s', (_, text, name) => {
    expect(search(text, name)).toEqual([]);
  });
});

it('shows the text around a leak', () => {
  const [leak] = leaksIn(`${'x'.repeat(50)} Juniper ${'y'.repeat(50)}`, [
    { what: "the patient's name", text: 'Juniper' },
  ]);
  expect(leak).toMatchObject({ what: "the patient's name", text: 'Juniper' });
  expect(leak?.around).toBe(`${'x'.repeat(29)} Juniper ${'y'.repeat(29)}`);
});

it('names each identifier once, however often it occurs', () => {
  expect(search('Juniper, Juniper and Ada', 'Juniper', 'Ada', 'Noor')).toEqual(['Juniper', 'Ada']);
});

it('finds any name of letters between two spaces, and survives any text', () => {
  const letters = fc.stringMatching(/^[a-z]{2,12}$/);
  fc.assert(
    fc.property(fc.string(), letters, fc.string(), (before, name, after) => {
      expect(search(`${before} ${name.toUpperCase()} ${after}`, name)).toEqual([name]);
    }),
  );
});
