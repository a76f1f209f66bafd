import { describe, expect, it } from 'vitest';
import {
  hasClinicalNumber,
  marksIn,
  splitAtMarks,
  unsourced,
  writtenPassages,
} from '../../../src/words/library/source-marks.js';

describe('marks of sources', () => {
  it('are letters and digits in brackets, and no links', () => {
    expect(marksIn('Under 60 mmHg [aaha2020], see [this](page.html) and [saim].')).toEqual([
      'aaha2020',
      'saim',
    ]);
  });

  it('part a text', () => {
    expect(splitAtMarks('One [a1]. Two')).toEqual([
      { text: 'One ' },
      { mark: 'a1' },
      { text: '. Two' },
    ]);
  });
});

describe('written passages', () => {
  it('are paragraphs and items of lists, with the line on which each begins', () => {
    const text = '## Title 5 mm\n\nOne\ngoes on.\n\n- first\n- second\n\n```\n5 mm\n```\n1. third';
    expect(writtenPassages(text, 10)).toEqual([
      { line: 12, text: 'One goes on.' },
      { line: 15, text: '- first' },
      { line: 16, text: '- second' },
      { line: 21, text: '1. third' },
    ]);
  });
});

describe('a number with a unit', () => {
  it.each([
    '60 mmHg',
    '60-70 mmHg',
    '0.04 s',
    '0,04 s',
    '25 mm/s',
    '30 %',
    '120 beats/min',
    '120 latidos/min',
    '10-14 days',
    '10 a 14 días',
    'two of 2 L a minute',
    '5 minutes',
    '20 kg',
  ])('is seen in "%s"', (text) => expect(hasClinicalNumber(text)).toBe(true));

  it.each([
    'in 2020 the guidelines',
    'of 30 cases',
    '41 × 4 = 164',
    'step 2',
    'alpha-2 agonists',
    'six seconds',
    'polyglactin 910',
  ])('is not seen in "%s"', (text) => expect(hasClinicalNumber(text)).toBe(false));
});

describe('a passage with such a number', () => {
  const check = (text: string) =>
    unsourced(writtenPassages(text), ['common practice', 'from memory, unverified']).length;

  it('is found where it tells no source', () => {
    expect(check('Under 60 mmHg.')).toBe(1);
    expect(check('Sourced [saim].\n\nUnder 60 mmHg.')).toBe(1);
    expect(check('- Under 60 mmHg.\n- Sourced [saim].')).toBe(1);
  });

  it('is let pass with a mark, or with an admission', () => {
    expect(check('Under 60 mmHg [saim].')).toBe(0);
    expect(check('After 10 days (Common practice).')).toBe(0);
    expect(check('0.6 mm a day (from memory, unverified).')).toBe(0);
  });
});
