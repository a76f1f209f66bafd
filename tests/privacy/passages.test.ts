import { describe, expect, it } from 'vitest';
import { clearPassages, type Decision, type FreeText } from '../../src/privacy/passages.js';
import { accepted, problemsOf } from '../record/sample.js';

const NAMES = [
  { name: 'Ash', neutral: 'the patient' },
  { name: 'Orla Fennimore', neutral: 'the owner' },
  { name: 'Dr. Basil Underhill', neutral: 'the veterinarian' },
  { name: 'Larkspur Veterinary Clinic', neutral: 'the clinic' },
];
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
const clear = (text: FreeText, ...decisions: Decision[]) =>
  clearPassages([text], NAMES, decisions, { exact: 12.5, rounded: 13 });
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
    ['The ash washed Ashes away.', 'The ash washed Ashes away.', 0],
    // No sentence would come of it: the search for identifiers refuses it instead.
    ['Mrs. Orla Fennimore asked.', 'Mrs. Orla Fennimore asked.', 0],
  ])('in "%s" gives "%s"', (text, expected, count) => {
    expect(said(text)).toEqual([expected, count]);
  });

  it('stays in a label, where the search for identifiers refuses it', () => {
    const label: FreeText = { ...prose('Ash'), kind: 'label' };
    expect(accepted(clear(label)).say('Ash')).toBe('Ash');
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

  it('is the exact weight, too', () => {
    expect(problemsOf(clear(prose('At 12.5 kg it ran.')))[0]?.found).toContain('exact weight');
  });
});
