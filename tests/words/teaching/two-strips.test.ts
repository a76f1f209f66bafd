import { describe, expect, it } from 'vitest';
import { type PublicFacts, publicFacts } from '../../../src/privacy/public-facts.js';
import { headingAnchors } from '../../../src/publish/html/anchors.js';
import { textOf } from '../../../src/words/handout-text.js';
import type { Language } from '../../../src/words/language.js';
import {
  anesthesiaRecord,
  answersSheet,
  teachingPage,
} from '../../../src/words/teaching/documents.js';
import { answerSheet } from '../../../src/words/teaching/exercises.js';
import type { CaseFigures } from '../../../src/words/teaching/learner-section.js';
import { demo, OPEN_VEIL } from '../../facts/demo.js';

const open = (name: string): PublicFacts => {
  const facts = demo.cases.find((one) => one.name === name)?.facts;
  const told = facts && publicFacts(facts, OPEN_VEIL);
  if (!told) throw new Error(`no published case ${name}`);
  return told;
};

// The strip of a dog with early beats from the ventricles, and twenty minutes later one of even sinus rhythm.
const tucker = open('tucker');
const strips = [tucker, open('bramble')].flatMap((facts, index) =>
  facts.strips.map((strip) => ({
    ...strip,
    begins: { value: 20 + 20 * index, how: 'recorded', from: [] },
  })),
);
const two: PublicFacts = { ...tucker, strips };
const drawing = { kind: 'drawing', drawing: {} };
const figures = {
  vitals: null,
  heart: drawing,
  strips: strips.map(() => ({ figure: drawing, seconds: 12 })),
  exercises: {},
  photos: [],
} as unknown as CaseFigures;
const language = (tag: string) => demo.content.languages.get(tag) as Language;
const page = (tag = 'en') => teachingPage(two, '', language(tag), figures, 'A4').blocks;

describe('a case with two strips', () => {
  it('gives each heading over a strip its number and minute, none twice', () => {
    const headings = [...headingAnchors(page()).entries()].map(([{ text }, id]) => ({ text, id }));
    const texts = headings.map(({ text }) => text);
    expect(new Set(texts).size).toBe(texts.length);
    expect(texts).toContain('Strip 1 of 2, minute 20: The ECG strip');
    expect(texts).toContain('Strip 2 of 2, minute 40: What the rhythm was');
    expect(texts).toContain('Strip 2 of 2, minute 40: Intervals and heights');
    // Long titles are cut short in an address; the number stands before that.
    expect(headings.filter(({ id }) => /-\d$/.test(id) && !id.endsWith('-2-of-2'))).toEqual([]);
    expect(headings.map(({ id }) => id)).toContain('strip-2-of-2-minute-40-the-ecg-strip');
    const spanish = textOf(page('es'));
    expect(spanish).toContain('Tira 1 de 2, minuto 20. La tira de ECG');
  });

  it('tells all of the first before the second, and the heart once', () => {
    const text = textOf(page());
    const places = [
      'Strip 1 of 2, minute 20: The ECG strip',
      'Strip 1 of 2, minute 20: What the rhythm was',
      'Within it: Ventricular premature complexes',
      'The heart in step',
      'Strip 2 of 2, minute 40: The ECG strip',
      'Strip 2 of 2, minute 40: What the rhythm was',
    ].map((words) => text.indexOf(words));
    expect(places).toEqual([...places].sort((a, b) => a - b));
    expect(places[0]).toBeGreaterThan(0);
    expect(text.split('The heart in step')).toHaveLength(2);
  });

  it('says at each figure and comparison which strip it is of', () => {
    const captions = page().flatMap((block) =>
      block.kind === 'figure' ? [block.caption.runs.map(({ text }) => text).join('')] : [],
    );
    expect(captions[0]).toMatch(/^Strip 1 of 2, from minute 20\. Lead/);
    expect(textOf(page())).toMatch(/Strip 2 of 2, from minute 40\. On the strip/);
  });

  it('asks about a strip by its number, in the record and on the answers too', () => {
    const record = textOf(anesthesiaRecord(two, language('en'), figures, 'A4').blocks);
    expect(record).toContain('Strip 2 of 2, minute 40: The ECG strip');
    expect(record).toMatch(/Strip 1 of 2, from minute 20\. Count the beats/);
    expect(answerSheet(two, language('en'))).toMatch(/Strip 1 of 2, from minute 20\. Count/);
    const answers = answersSheet(two, language('en'), figures, 'A4');
    expect(textOf(answers?.blocks ?? [])).toContain('Strip 1 of 2, minute 20: ');
  });
});

it('a case with one strip needs no number', () => {
  const figuresOfOne = { ...figures, strips: figures.strips.slice(0, 1) };
  const text = textOf(teachingPage(tucker, '', language('en'), figuresOfOne, 'A4').blocks);
  expect(text).toContain('The ECG strip');
  expect(text).not.toContain('Strip 1 of');
});
