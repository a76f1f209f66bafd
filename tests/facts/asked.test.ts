import { describe, expect, it } from 'vitest';
import { answered, type Part, type Question } from '../../src/facts/asked.js';
import type { Answers } from '../../src/record/answers.js';

const part = (answers: Answers | undefined, key = 'a'): Part => ({
  called: 'in this medicine',
  key,
  answers,
});

const clash = (found: string, answeredIn: Part): Question => ({
  kind: 'drugs that do not go together',
  file: 'case.yaml',
  found,
  expected: 'one NSAID at a time',
  mend: 'Mend it',
  answeredIn,
});

const answersTo = (count: number, answers: Answers | undefined) => {
  const own = part(answers);
  return answered(Array.from({ length: count }, (_, index) => clash(`clash ${index}`, own))).map(
    ({ accepted }) => accepted,
  );
};

describe('an answer to warnings', () => {
  it('covers one with a text, and several with as many in their order', () => {
    expect(answersTo(1, { T334: 'meant' })).toEqual(['meant']);
    expect(answersTo(1, { T334: ['meant'] })).toEqual(['meant']);
    expect(answersTo(2, { T334: ['a taper', 'talked over'] })).toEqual(['a taper', 'talked over']);
  });

  it('opens all again where a further one came, or one is gone, as nobody knows which were meant', () => {
    expect(answersTo(2, { T334: 'meant' })).toEqual([null, null]);
    expect(answersTo(3, { T334: ['a taper', 'talked over'] })).toEqual([null, null, null]);
    expect(answersTo(1, { T334: ['a taper', 'talked over'] })).toEqual([null]);
    expect(answersTo(1, { T333: 'meant' })).toEqual([null]);
    expect(answersTo(1, undefined)).toEqual([null]);
  });

  it('is counted in its own part alone, by its number', () => {
    const other = part({ T334: 'of another medicine' }, 'b');
    const own = part({ T334: 'meant', T333: 'as slow as that' });
    const slow: Question = { ...clash('slow', own), kind: 'an interval out of its range' };
    expect(
      answered([clash('one', own), slow, clash('two', other)]).map(({ accepted }) => accepted),
    ).toEqual(['meant', 'as slow as that', 'of another medicine']);
  });

  it('is asked for in the form that it has to be written in', () => {
    const mends = (count: number) =>
      answered(Array.from({ length: count }, () => clash('x', part(undefined))))[0]?.mend;
    expect(mends(1)).toBe(
      'Mend it, or write in this medicine: accepted because: { T334: "the reason" }.',
    );
    expect(mends(2)).toBe(
      'Mend it, or write in this medicine: accepted because: { T334: ["reason 1", "reason 2"] }, a reason for each of the 2 in their order.',
    );
  });
});
