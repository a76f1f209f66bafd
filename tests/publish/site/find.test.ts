import { expect, it } from 'vitest';
import { searchOver } from '../../../src/live/search/find.js';
import { fold, marked, type Piece } from '../../../src/live/search/words.js';

const search = searchOver({
  pages: [
    { file: 'a.html', title: 'When a tie slips', lead: 'Ovariohysterectomy in a young cat' },
    { file: 'b.html', title: 'Presión y respiración', lead: 'Sobre la presión' },
    { file: 'c.html', title: 'A rabbit', lead: 'Spay in a rabbit' },
  ],
  passages: [
    {
      page: 0,
      at: 'when-is-pressure-too-low',
      heading: 'When is pressure too low?',
      texts: [{ text: 'Hypotension is told by the mean.' }],
    },
    { page: 0, at: '', heading: '', texts: [{ text: 'The pressure fell. Nothing else did.' }] },
    {
      page: 1,
      at: 'la-respiracion',
      heading: 'La respiración',
      texts: [{ text: 'Doce por minuto.' }],
    },
    {
      page: 2,
      at: 'heart',
      heading: 'The heart',
      texts: [{ text: 'It beats fast. Nobody worried.' }],
    },
    { page: 2, at: 'food', heading: 'Food', texts: [{ text: 'It must eat.' }] },
  ],
  abbreviations: { bp: ['the pressure'], hr: ['beats fast', 'heart rate'] },
});

const files = (query: string) => search(query).pages.map(({ file }) => file);
const hits = (pieces: readonly Piece[] = []) =>
  pieces.filter(({ hit }) => hit).map(({ text }) => text);

it('takes no heed of case and accents, in the question or in the text', () => {
  for (const query of ['respiración', 'RESPIRACION', 'respiracio\u0301n']) {
    expect(files(query), query).toEqual(['b.html']);
  }
  expect(hits(search('presion').pages[0]?.title)).toEqual(['Presión']);
});

it('finds a word by its beginning, of three letters or more', () => {
  expect(files('hypot')).toEqual(['a.html']);
  expect(files('hy')).toEqual([]);
});

it('finds what an abbreviation stands for, all words of a phrase together and with the other words asked', () => {
  expect(files('BP')).toEqual(['a.html']);
  expect(files('hr')).toEqual(['c.html']);
  expect(files('HR nobody')).toEqual(['c.html']);
  expect(search('HR').loosely).toBe(false);
  expect(files('constructor')).toEqual([]);
});

it('takes no word for another that is merely like it', () => {
  expect(files('hypertension')).toEqual([]);
});

it('puts a title before a question, and a question before a sentence', () => {
  const [found] = search('pressure').pages;
  expect(found?.passages.map(({ at }) => at)).toEqual(['when-is-pressure-too-low', '']);
  const order = searchOver({
    pages: [
      { file: 'text.html', title: 'One', lead: '' },
      { file: 'question.html', title: 'Two', lead: '' },
      { file: 'title.html', title: 'Splenectomy', lead: '' },
    ],
    passages: [
      { page: 0, at: 'x', heading: 'Else', texts: [{ text: 'A splenectomy was done.' }] },
      { page: 1, at: 'y', heading: 'Why a splenectomy?', texts: [{ text: 'For a mass.' }] },
    ],
    abbreviations: {},
  })('splenectomy').pages.map(({ file }) => file);
  expect(order).toEqual(['title.html', 'question.html', 'text.html']);
});

it('lets a passage leave to its page what it is about, but shows none that holds no word', () => {
  const [rabbit] = search('rabbit heart').pages;
  expect(rabbit?.passages.map(({ at }) => at)).toEqual(['heart']);
  expect(search('rabbit').passages).toBe(1);
});

it('says so where no passage holds all words', () => {
  expect(search('pressure nowhere')).toMatchObject({ loosely: true });
  expect(search('pressure mean')).toMatchObject({ loosely: false });
  expect(search('nowhere')).toMatchObject({ loosely: false, passages: 0, pages: [] });
  expect(search('?!')).toMatchObject({ passages: 0 });
});

it('marks the words as they are written, and changes no letter of the text', () => {
  const text = 'La Respiración, y la respiracion.';
  const pieces = marked(text, new Set([fold('respiración')]));
  expect(hits(pieces)).toEqual(['Respiración', 'respiracion']);
  expect(pieces.map((piece) => piece.text).join('')).toBe(text);
});

it('shows of a long text the sentence that was meant, and where it left something out', () => {
  const long = [...Array(40).keys()].map((i) => `Sentence ${i} tells nothing.`);
  long[20] = 'Here the tie slips.';
  const shown = marked(long.join(' '), new Set(['slips']), true)
    .map(({ text }) => text)
    .join('');
  expect(shown).toMatch(/^… Here the tie slips\. .* …$/);
  expect(shown.length).toBeLessThan(320);
});
