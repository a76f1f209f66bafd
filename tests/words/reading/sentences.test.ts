import { describe, expect, it } from 'vitest';
import type { Block, Said } from '../../../src/words/handout.js';
import { plain } from '../../../src/words/markdown.js';
import { withKnownName } from '../../../src/words/reading/known-names.js';
import { readingLevel } from '../../../src/words/reading/reading-level.js';
import { passagesOf, sentencesOf } from '../../../src/words/reading/sentences.js';
import { termsOf, unexplainedTerms } from '../../../src/words/reading/terms.js';

const sentences = (...texts: string[]) =>
  sentencesOf(
    texts.map((text) => plain(text)),
    'en',
  ).map(({ text }) => text);

describe('the sentences of a handout', () => {
  it('are those of its paragraphs, lists, frames and table cells, not its headings and boxes', () => {
    const said = (text: string): Said => plain(text, `fact.${text.length}`);
    const blocks: Block[] = [
      { kind: 'heading', level: 2, text: 'This is a heading.' },
      { kind: 'page', blocks: [{ kind: 'paragraph', said: said('One is in a paragraph.') }] },
      { kind: 'list', ordered: false, items: [said('Two is in a list.')] },
      {
        kind: 'callout',
        tone: 'note',
        title: 'This is a title.',
        said: [said('Three is framed.')],
      },
      {
        kind: 'table',
        caption: 'This is a caption.',
        columns: [],
        rows: [
          [
            { kind: 'said', said: [said('Four is in a cell.')] },
            { kind: 'ticks', days: [{ day: 'This is a day.', boxes: ['This is a box.'] }] },
          ],
        ],
      },
    ];
    expect(sentencesOf(passagesOf(blocks), 'en').map(({ text }) => text)).toEqual([
      'One is in a paragraph.',
      'Two is in a list.',
      'Three is framed.',
      'Four is in a cell.',
    ]);
  });

  it.each([
    ['Keep calm now. Do call us.', ['Keep calm now.', 'Do call us.']],
    ['Give it each day. 4 doses in all.', ['Give it each day.', '4 doses in all.']],
    ['Checked by Dr. Ada Birch today.', ['Checked by Dr. Ada Birch today.']],
    ['Give 1.5 mL by mouth.', ['Give 1.5 mL by mouth.']],
    ['Tuesday, March 24', []],
    ['Two words.', []],
  ])('%s', (text, expected) => {
    expect(sentences(text)).toEqual(expected);
  });
});

describe('the reading level', () => {
  const levelOf = (text: string, name = 'Pumpernickel') =>
    readingLevel(withKnownName(sentencesOf([plain(text)], 'en'), name, 'cat'), 'en');

  it('fits where the words and sentences are short', () => {
    const level = levelOf('Keep the cat calm. Do not let it run. Call us if it bleeds.');
    expect(level?.measures.map(({ fits }) => fits)).toEqual([true, true]);
    expect(level?.hardest).toEqual([]);
  });

  it('names the hard sentence where it does not', () => {
    const hard =
      'Postoperative administration of anti-inflammatory medication necessitates veterinary supervision.';
    const level = levelOf(`Keep the cat calm. ${hard} Call us if it bleeds.`);
    expect(level?.measures.some(({ fits }) => !fits)).toBe(true);
    expect(level?.hardest.map(({ text }) => text)).toEqual([hard]);
  });

  it('does not blame a sheet for the name of its patient', () => {
    const say = (name: string) => levelOf(`Keep ${name} calm. Do not let ${name} run.`)?.measures;
    expect(say('Pumpernickel')).toEqual(say('cat'));
    expect(levelOf('Keep Pumpernickels calm today.')?.measures).not.toEqual(
      levelOf('Keep cat calm today.')?.measures,
    );
  });
});

describe('a trade word', () => {
  const terms = termsOf(
    { seroma: ['pocket of fluid'] },
    {
      layers: { skin: { owner: 'skin', learner: 'skin' } },
      events: { end: { owner: 'breathing tube out', learner: 'extubation (end)' } },
      amounts: { mL: { owner: '{shown}', learner: '{shown} mL' } },
    },
  );
  const found = (...texts: string[]) =>
    unexplainedTerms(
      texts.map((text) => plain(text)),
      terms,
    ).map(({ term }) => term.word);

  it('comes from the list and from where the learner’s word is not the owner’s', () => {
    expect(terms.map(({ word }) => word)).toEqual(['seroma', 'extubation']);
  });

  it.each([
    ['A Seroma may form.', ['seroma']],
    ['Look for seromas.', ['seroma']],
    ['A seroma, a pocket of fluid, may form.', []],
    ['After extubation all was well.', ['extubation']],
    ['The skin is pink.', []],
    ['Seromatous is another word.', []],
  ])('%s', (text, words) => {
    expect(found(text)).toEqual(words);
  });

  it('has to be explained where it stands first', () => {
    expect(found('A seroma, a pocket of fluid, may form.', 'Tell us of a seroma.')).toEqual([]);
    expect(found('Tell us of a seroma.', 'A seroma, a pocket of fluid, may form.')).toEqual([
      'seroma',
    ]);
  });
});
