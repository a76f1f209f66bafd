import { describe, expect, it } from 'vitest';
import { wentHome } from '../../src/record/case-schema.js';
import { readCase } from '../../src/record/read-case.js';
import { accepted, CASE, type Change, changed, DEATH, KEYS, problemsOf } from './sample.js';

const reading = (text: string, ...changes: Change[]) =>
  readCase(changed(text, ...changes), 'case.yaml', KEYS);

describe('a record ends in one way', () => {
  it('is that of a patient that goes home', () => {
    expect(wentHome(accepted(reading(CASE)))).toBe(true);
  });

  it('or that of a patient that died, without a way home', () => {
    const record = accepted(reading(DEATH));
    expect(wentHome(record)).toBe(false);
    expect(record.value).toMatchObject({ events: [{}, { what: 'death' }] });
  });

  it.each([
    ['surgery.discharge', [['  discharge: 15:00\n', '']]],
    ['closure', [[/closure:\n[\s\S]*(?=home:)/, '']]],
    ['home', [[/home:\n[\s\S]*(?=consent:)/, '']]],
  ] as [string, Change[]][])('asks for %s where nobody died', (field, changes) => {
    expect(problemsOf(reading(CASE, ...changes))).toMatchObject([
      { kind: 'a missing key', field, mend: expect.stringContaining('what: death') },
    ]);
  });

  it.each([
    ['surgery.discharge', ['  end: 10:05\n', '  end: 10:05\n  discharge: 15:00\n']],
    ['surgery.note to owner', ['  end: 10:05\n', '  end: 10:05\n  note to owner: Call us.\n']],
    [
      'closure',
      ['consent:\n', 'closure: { healing: left open, edge gap: 9 mm, tension: none }\nconsent:\n'],
    ],
    ['home', ['consent:\n', 'home: { rest: 2 weeks }\nconsent:\n']],
    [
      'photos[0].on',
      ['consent:\n', 'photos: [{ file: a.jpg, shows: a leg, on: [owner sheet] }]\nconsent:\n'],
    ],
  ] as [string, Change][])('takes no %s of a patient that died', (field, change) => {
    expect(problemsOf(reading(DEATH, change))).toMatchObject([
      { kind: 'home care for a patient that died', field },
    ]);
  });

  it.each([
    ['an anesthesia that outlasts it', 'anesthesia.end', ['end: 10:15', 'end: 10:25']],
    ['a drug after it', 'anesthesia.drugs[1].at', ['at: 09:25', 'at: 10:30']],
    [
      'an event after it',
      'events[0].at',
      ['{ at: 09:30, what: first incision }', '{ at: 10:40, what: remark }'],
    ],
    ['a death of another month', 'events[1].at', ['at: 10:20, what', 'at: 2026-04-09 10:20, what']],
  ] as [string, string, Change][])('finds %s', (_, field, change) => {
    expect(problemsOf(reading(DEATH, change))).toMatchObject([
      { kind: 'moments out of order', field },
    ]);
  });

  it('takes one death alone', () => {
    const twice: Change = ['consent:\n', '  - { at: 10:18, what: death }\nconsent:\n'];
    const moved: Change = [/monitor:\n[\s\S]*(?=consent:)/, ''];
    const text = changed(DEATH, moved).replace('record:', 'monitor: { vitals: v.csv }\nrecord:');
    expect(problemsOf(reading(text, twice))).toMatchObject([
      { kind: 'a moment told in two ways', field: 'events[2].at' },
    ]);
  });
});
