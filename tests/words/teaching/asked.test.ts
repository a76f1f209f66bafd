import { describe, expect, it } from 'vitest';
import { publicFacts } from '../../../src/privacy/public-facts.js';
import type { Block, ExerciseBlock, Handout } from '../../../src/words/handout.js';
import { readText, textOf } from '../../../src/words/handout-text.js';
import type { Language } from '../../../src/words/language.js';
import {
  anesthesiaRecord,
  answersSheet,
  teachingPage,
} from '../../../src/words/teaching/documents.js';
import { exercises } from '../../../src/words/teaching/exercises.js';
import type { CaseFigures } from '../../../src/words/teaching/learner-section.js';
import { demo, OPEN_VEIL } from '../../facts/demo.js';

const blank = {
  kind: 'image',
  image: { bytes: new Uint8Array(), widthMm: 1, heightMm: 1 },
} as const;

const told = demo.cases.map(({ name, facts }) => {
  const known = publicFacts(facts, OPEN_VEIL);
  if (!known) throw new Error('The demonstration cases are all published.');
  const figures: CaseFigures = {
    vitals: blank,
    heart: blank,
    strips: known.strips.map(() => ({ figure: blank, seconds: 10 })),
    exercises: {},
    photos: [],
  };
  return { name, facts: known, figures };
});

const languageOf = (tag: string) => demo.content.languages.get(tag) as Language;
const isQuestion = (block: Block): block is ExerciseBlock => block.kind === 'exercise';
const headings = ({ blocks }: Handout) =>
  blocks.flatMap((block) => (block.kind === 'heading' && block.level === 2 ? [block.text] : []));

describe.each(['en', 'es'])('the questions of a teaching page, %s', (tag) => {
  const language = languageOf(tag);

  it('stand before the sources, one for each fact that can be asked', () => {
    for (const { facts, figures } of told) {
      const page = teachingPage(facts, '', language, figures, 'A4');
      const asked = page.blocks.filter(isQuestion);
      expect(asked.map(({ name }) => name)).toEqual(facts.exercises.map(({ name }) => name));
      expect(headings(page).slice(-2)).toEqual([
        language.learner.text('exercises.title'),
        language.learner.text('sources.title'),
      ]);
      for (const { question, answer } of asked) {
        expect(question.length).toBeGreaterThan(0);
        expect(answer.length).toBeGreaterThan(0);
      }
    }
  });

  it('have their answers on a sheet of their own, in the same order', () => {
    for (const { facts, figures } of told) {
      const sheet = answersSheet(facts, language, figures, 'A4');
      const asked = teachingPage(facts, '', language, figures, 'A4').blocks.filter(isQuestion);
      expect(sheet && headings(sheet)).toEqual(asked.map(({ title }) => title));
      for (const said of asked.flatMap(({ answer }) => answer)) {
        expect(sheet && textOf(sheet.blocks)).toContain(readText(said));
      }
    }
  });

  it('leave no sheet where nothing can be asked', () => {
    const [{ facts, figures }] = told as [(typeof told)[number]];
    const none = { ...facts, exercises: [] };
    expect(answersSheet(none, language, figures, 'A4')).toBeNull();
    expect(headings(teachingPage(none, '', language, figures, 'A4'))).not.toContain(
      language.learner.text('exercises.title'),
    );
  });
});

it.each([
  ['bramble', 'No: it is about double. The strip gives 74 beats/min.'],
  ['juniper', 'No: it followed a short stretch of beats. The strip gives 89 beats/min.'],
  ['tucker', 'Yes: it agrees with the count. The strip gives 96 beats/min.'],
])('says on paper too which answer is right, of %s', (name, right) => {
  const { facts, figures } = told.find((one) => one.name === name) as (typeof told)[number];
  const sheet = answersSheet(facts, languageOf('en'), figures, 'A4');
  expect(sheet && textOf(sheet.blocks)).toContain(right);
});

describe('the teacher is told what came before the lowest pressure', () => {
  const answers = (name: string) => {
    const { facts } = told.find((one) => one.name === name) as (typeof told)[number];
    return exercises(facts, languageOf('en'))
      .flatMap(({ answer }) => answer)
      .map(readText);
  };

  // demo-data/cases/tucker: lowest at 14:30, minute 70; a remark at 14:20.
  it('also where it stands in a remark', () => {
    expect(answers('tucker')).toContain(
      'In the ten minutes before (minute in brackets): remark: Single early wide beats; the pulse skips with each (60). Coming after does not prove coming from.',
    );
  });

  // demo-data/cases/pumpernickel: lowest at 11:05, the minute of the incision.
  it('and what happened in the same minute, as which came first is not told', () => {
    expect(answers('pumpernickel')).toContain(
      'In the same minute: first incision (15). Which came first is not told.',
    );
    expect(answers('pumpernickel')).toContain(
      'The record names no event in the ten minutes before.',
    );
  });
});

it('gives the student’s record no answer, of its own questions or of the page’s', () => {
  for (const { facts, figures } of told) {
    const language = languageOf('en');
    const record = anesthesiaRecord(facts, language, figures, 'A4');
    expect(record.blocks.filter(isQuestion)).toEqual([]);
    const words = textOf(record.blocks);
    const page = teachingPage(facts, '', language, figures, 'A4').blocks.filter(isQuestion);
    const answers = [
      ...exercises(facts, language).flatMap(({ answer }) => answer),
      ...page.flatMap(({ answer }) => answer),
    ].map(readText);
    expect(answers.length).toBeGreaterThan(5);
    // What to do at the table is said on both as advice, not as an answer.
    for (const answer of answers) expect(words, answer).not.toContain(answer);
  }
});

it('asks other readings and other seconds than the student’s record', () => {
  for (const { facts } of told) {
    const language = languageOf('en');
    const record = exercises(facts, language).map(({ question }) => readText(question));
    for (const exercise of facts.exercises) {
      if (exercise.name === 'count-the-rate') expect(exercise.windows[0]?.from).toBe(12);
      if (exercise.name !== 'estimate-the-mean') continue;
      expect(record.join()).not.toContain(`At minute ${exercise.minute} systolic`);
    }
  }
});
