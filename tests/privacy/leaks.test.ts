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

describe('a day is found', () => {
  const day = '2026-03-10';
  it.each([
    '2026-03-10',
    '2026/3/10',
    '2026.03.10',
    '20260310',
    '20260310T094000Z',
    '20260310094000',
    '10/03/26',
    '3/10/2026',
    '10.3.2026',
    '03-10-26',
    '10-MAR-2026',
    'March 10',
    'Mar. 10th, 2026',
    'March the tenth',
    '10 March 2026',
    '10th of March',
    'the tenth of March',
    '10 de marzo de 2026',
    'diez de marzo',
    'marzo 10',
    '10 mar 2026',
    'D:20260310000000Z',
    'strip-2026-03-10.png',
  ])('as %s', (text) => {
    expect(search(`on ${text} it was`, day)).toEqual([day]);
  });

  it.each([
    '2026-03-11',
    '12026-03-10',
    '2026-03-101',
    'March 11',
    'March 100',
    '110 March',
    'they march 10 miles',
    '3/10',
    '10.03',
    '1.10.03.26',
    '10 3 26',
    '202603101',
    'mar 10 veces',
  ])('but not in %s', (text) => {
    expect(search(`on ${text} it was`, day)).toEqual([]);
  });

  it('in May only as a month is written', () => {
    expect(search('From minute 10 may the pressure fall', '2026-05-10')).toEqual([]);
    expect(search('On May 10 it fell; 10 de mayo', '2026-05-10')).toEqual(['2026-05-10']);
  });
});

describe('a number is found in whatever groups', () => {
  it.each([
    ['555 0134', '5550134'],
    ['555 0134', '55-50-134'],
    ['555 0134', '5 5 5 0 1 3 4'],
    ['+34 600 123 456', '600123456'],
    ['+34 600 123 456', '0034 600 123 456'],
    ['+44 20 7946 0958', '020 7946 0958'],
    ['999112004417203', '999 1120 0441 7203'],
    ['999112004417203', BigInt('999112004417203').toString(16).toUpperCase()],
  ])('%s as %s', (number, text) => {
    expect(search(`call ${text} now`, number)).toEqual([number]);
  });

  it('but not where it is a row of numbers', () => {
    expect(search('rates of 120 55 50 134 80 and 5.5 50.134', '555 0134')).toEqual([]);
  });

  it('and a short record number only where it is called one', () => {
    expect(search('117 beats', '117')).toEqual([]);
    expect(search('record no. 117', '117')).toEqual(['117']);
  });
});

describe('a name that is a word too', () => {
  it.each(['Rose slept', "the owner, Mr. Rose's", 'ROSE'])(
    'is found where it is written as a name: %s',
    (text) => {
      expect(search(text, 'Rose')).toEqual(['Rose']);
    },
  );
  it.each(['the pressure rose', 'arose', 'rosette'])('is not found in: %s', (text) => {
    expect(search(text, 'Rose')).toEqual([]);
  });
  it('may be the town of a clinic, whose own pages say how a wire bends', () => {
    expect(search('it bends at the point, and falls in spring', 'Bend', 'Point', 'Falls')).toEqual(
      [],
    );
    expect(search('a walk in Bend', 'Bend')).toEqual(['Bend']);
  });
  it('is found in small letters beside a name that is none', () => {
    expect(search('rose quillfeather', 'Rose Quillfeather')).toEqual(['Rose Quillfeather']);
  });
});

it.each([
  ['Müller', 'Mueller'],
  ['Quillfeather', 'the Quillfeathers'],
  ['Juniper', 'stripOfJuniper'],
  ['渡辺', '昨日渡辺さん'],
  ['Ωρίων', 'ΩΡΙΩΝ'],
  ["O'Hara", 'ohara'],
  ['Smith-Jones', 'smithjones'],
  ['Straße', 'STRASSE'],
])('finds %s in %s', (name, text) => {
  expect(search(text, name)).toEqual([name]);
});
