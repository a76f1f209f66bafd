import { describe, expect, it } from 'vitest';
import { type GlossaryTerm, termsOfBlocks, termsUsed } from '../../src/words/glossary.js';
import { markdownBlocks } from '../../src/words/markdown.js';

const term = (word: string, ...also: string[]): GlossaryTerm => ({
  key: word,
  term: word,
  also,
  text: '',
});

const uses = (text: string, word: string, ...also: string[]) =>
  termsUsed(text, [term(word, ...also)]).length === 1;

describe('a term in a text', () => {
  it.each([
    ['The ligature slipped.', 'ligature'],
    ['Ligatures slip.', 'ligature'],
    ['Two vagal reflexes.', 'reflex'],
    ['Arteries bleed.', 'artery'],
    ['after an incision,', 'incision'],
    ['Lead II shows it.', 'lead II'],
    ['All T waves are tall.', 'T wave'],
    ['Las incisiones largas.', 'incisión'],
    ['Los márgenes del tumor.', 'margen'],
    ['heridas abiertas', 'herida abierta'],
    ['las veces', 'vez'],
    ['dos ventrículos', 'ventrículo'],
    ['second\u00a0intention', 'second intention'],
  ])('is found in "%s"', (text, word) => {
    // The plural of a Spanish word may put an accent on a letter that had none: it is listed beside it.
    expect(uses(text, word, ...(word === 'margen' ? ['márgenes'] : []))).toBe(true);
  });

  it.each([
    ['superficial', 'fascia'],
    ['prolapse', 'lapse'],
    ['a lead i or ii', 'lead II'],
    ['the t wave', 'T wave'],
    ['sinusitis', 'sinus'],
    ['P2', 'P'],
    ['', 'pulse'],
  ])('is not found in "%s"', (text, word) => expect(uses(text, word)).toBe(false));

  it('is found by any of its other words', () => {
    expect(uses('EtCO2 fell.', 'capnogram', 'EtCO2')).toBe(true);
  });

  it('is found in everything that a handout prints, in the order of the glossary', () => {
    const glossary = [term('atrium'), term('pulse'), term('vagus')];
    const blocks = markdownBlocks('## The vagus\n\n- feel a **pulse**\n');
    expect(termsOfBlocks(blocks, glossary).map(({ key }) => key)).toEqual(['pulse', 'vagus']);
  });
});
