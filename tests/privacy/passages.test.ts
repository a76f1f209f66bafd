import { describe, expect, it } from 'vitest';
import { ownTextOf } from '../../src/privacy/own-text.js';
import {
  clearedParagraphs,
  clearPassages,
  type Decision,
  type FreeText,
  paragraphsOf,
} from '../../src/privacy/passages.js';
import { accepted, problemsOf } from '../record/sample.js';

const NAMES = [
  { name: 'Ash', neutral: 'the patient' },
  { name: 'Orla Fennimore', neutral: 'the owner' },
  { name: 'Dr. Basil Underhill', neutral: 'the veterinarian' },
  { name: 'Larkspur Veterinary Clinic', neutral: 'the clinic' },
];
const KNOWN = {
  names: NAMES,
  people: ['Orla Fennimore', 'Dr. Basil Underhill'],
  identifiers: ['Ash', 'Orla Fennimore', 'Fennimore', 'Underhill', '555 0134'].map((text) => ({
    what: 'a name of the case',
    text,
  })),
  own: ownTextOf([], ['at', 'larkspur', 'veterinary', 'clinic']),
  patient: {
    weight: { exact: 12.5, rounded: 13 },
    age: { count: 4, unit: 'years' },
    breed: 'whippet',
  },
} as const;
const prose = (text: string): FreeText => ({
  place: { file: 'teaching.md', line: 3 },
  text,
  kind: 'prose',
});
const decide = (passage: string, decision: Decision['decision']): Decision => ({
  place: { file: 'case.yaml', line: 90, field: 'public passages[0].passage' },
  passage,
  decision,
});
const clear = (text: FreeText, ...decisions: Decision[]) => clearPassages([text], KNOWN, decisions);
const said = (text: string, ...decisions: Decision[]) => {
  const { say, replaced } = accepted(clear(prose(text), ...decisions));
  return [say(text), replaced] as const;
};

describe('a name of the case', () => {
  it.each([
    ['We gave Ash oxygen.', 'We gave the patient oxygen.', 1],
    ['Ash slept. Ash woke.', 'The patient slept. The patient woke.', 2],
    ['## Ash’s heart', '## The patient’s heart', 1],
    ['Orla Fennimore asked Dr. Basil Underhill.', 'The owner asked the veterinarian.', 2],
    ['At Larkspur Veterinary Clinic it is done so.', 'At the clinic it is done so.', 1],
    // Another word, another case, part of a word: not the name.
    ['The ash washed off.', 'The ash washed off.', 0],
  ])('in "%s" gives "%s"', (text, expected, count) => {
    expect(said(text)).toEqual([expected, count]);
  });

  it.each<[what: string, text: string, kind: FreeText['kind']]>([
    ['in a label', 'Ash', 'label'],
    ['behind a form of address', 'It ate.\nMrs. Orla Fennimore asked.', 'prose'],
    ['of which a part stands', 'It ate.\nThe Fennimores asked.', 'prose'],
    ['over two lines', 'It ate: 555\n0134 called.', 'prose'],
  ])('is refused where it stands, %s, and no decision publishes it', (_, text, kind) => {
    const written: FreeText = { ...prose(text), kind };
    const [sentence = ''] = text.split('\n').slice(-1);
    const problems = problemsOf(
      clear(written, decide(sentence, 'publish'), decide(text, 'publish')),
    );
    expect(problems).toContainEqual({
      kind: 'a passage that may lead to somebody',
      file: 'teaching.md',
      line: 3,
      found: expect.stringContaining('a name of the case in "'),
      expected: 'no identifier of the case in a text for the public',
      mend: expect.stringContaining('no decision can publish it'),
    });
  });
});

describe('a doubtful passage', () => {
  const text = 'It ate well. The owner called on May 3. It slept.';
  const sentence = 'The owner called on May 3.';

  it('stops publication with its place and its words until it is decided', () => {
    expect(problemsOf(clear(prose(text)))).toEqual([
      {
        kind: 'a passage that may lead to somebody',
        file: 'teaching.md',
        line: 3,
        found: `"May 3", which looks like a date, in "${sentence}"`,
        expected: 'nothing in public that may lead to a person, a place or a day',
        mend: expect.stringContaining('public passages'),
      },
    ]);
  });

  it('of thousands of letters without a stop is quoted by its beginning', () => {
    const [problem] = problemsOf(clear(prose(`The owner called on May 3 ${'x'.repeat(5000)}.`)));
    expect(problem?.found).toMatch(
      /^"May 3", which looks like a date, in "The owner called .*x…"$/,
    );
    expect(problem?.found.length).toBeLessThan(700);
  });

  it('is published or left out as its author decides', () => {
    expect(said(text, decide(sentence, 'publish'))).toEqual([text, 0]);
    expect(said(text, decide(sentence, 'leave out'))).toEqual(['It ate well. It slept.', 0]);
    expect(said(text, decide('The owner  called\n on May 3.', 'publish'))).toEqual([text, 0]);
  });

  it('needs a new decision once it changes, and the old one is told to be void', () => {
    const fields = problemsOf(
      clear(prose(text.replace('May 3', 'May 4')), decide(sentence, 'publish')),
    );
    expect(fields.map(({ file, line }) => [file, line])).toEqual([
      ['teaching.md', 3],
      ['case.yaml', 90],
    ]);
    expect(fields[1]?.found).toContain('which no public text says');
  });

  it('is not decided by a decision on a part of it', () => {
    expect(problemsOf(clear(prose(text), decide('May 3', 'publish')))).toHaveLength(2);
  });

  it('of a label cannot be left out, only reworded or published', () => {
    const label: FreeText = { ...prose(sentence), kind: 'label' };
    expect(problemsOf(clear(label, decide(sentence, 'leave out')))).toHaveLength(1);
    expect(accepted(clear(label, decide(sentence, 'publish'))).say(sentence)).toBe(sentence);
  });

  it('is told with its own line of a paragraph, and may go over lines', () => {
    const written = prose('It ate well.\nThe owner called\non May 3. It slept.');
    expect(problemsOf(clear(written))[0]).toMatchObject({
      line: 5,
      found: '"May 3", which looks like a date, in "The owner called on May 3."',
    });
    expect(said(written.text, decide(sentence, 'publish'))).toEqual([written.text, 0]);
  });

  it('ends at a point of a list and at a heading', () => {
    const written = 'Of three:\n- on May 3 it ate\n- then it slept\n## Why\nIt was tired.';
    expect(problemsOf(clear(prose(written)))[0]?.found).toContain('in "- on May 3 it ate"');
  });

  it('is told apart where words tell what a group may withhold', () => {
    const { telling } = accepted(clear(prose('It ate.\nShe is a young whippet.')));
    const founds = Object.values(telling).map((problems) => problems.map(({ found }) => found));
    expect(founds).toEqual([
      ['"whippet", which tells the breed, in "She is a young whippet."'],
      ['"young", which tells the age, in "She is a young whippet."'],
      ['"She", which tells the sex, in "She is a young whippet."'],
    ]);
    expect(telling.breed[0]).toMatchObject({ line: 4 });
    const decided = clear(prose('She slept.'), decide('She slept.', 'publish'));
    expect(accepted(decided).telling.sex).toEqual([]);
  });

  it('is the exact weight, too', () => {
    expect(problemsOf(clear(prose('At 12.5 kg it ran.')))[0]?.found).toContain('exact weight');
  });
});

it.each(['. ', ' \n', '1 2 3 4 ', 'On May 3 it ate. ', 'A', '-', 'plate '])(
  'a long text takes no long time, and is not asked about without end: 50 kB of %j',
  (part) => {
    const began = performance.now();
    const outcome = clear(prose(`a${part.repeat(50_000 / part.length)}b`));
    expect(performance.now() - began).toBeLessThan(20_000);
    if (part === '1 2 3 4 ') expect(problemsOf(outcome).length).toBeLessThan(20);
  },
);

describe('a text of several paragraphs', () => {
  it('that nobody cleared is not said', () => {
    const told = accepted(clear(prose('It ate.')));
    expect(told.say('It ate.')).toBe('It ate.');
    expect(() => told.say('Bertha ate.')).toThrow(/not among the free texts/);
  });

  it('is cleared by paragraphs, each with the line on which it begins', () => {
    const text = '\n## One\n\nTwo\nthree\n \n\n- four\n';
    expect(paragraphsOf(text)).toEqual([
      { text: '## One', line: 2 },
      { text: 'Two\nthree', line: 4 },
      { text: '- four', line: 8 },
    ]);
    expect(clearedParagraphs(text, (paragraph) => `${paragraph}!`)).toBe(
      '## One!\n\nTwo\nthree!\n\n- four!',
    );
    expect(paragraphsOf('')).toEqual([]);
  });
});
