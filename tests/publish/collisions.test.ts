import { describe, expect, it } from 'vitest';
import { type Claims, collisions } from '../../src/publish/claims.js';
import { otherPatients } from '../../src/publish/other-patients.js';

const UNANSWERED = { called: 'under patient', key: 'patient', answers: undefined };

const claims = (name: string, more: Partial<Claims> = {}): Claims => ({
  name,
  file: `${name}/case.yaml`,
  record: name,
  patient: name,
  vitalsDigest: null,
  address: null,
  isPublished: false,
  places: {
    record: { file: name },
    address: { file: name },
    vitals: { file: `${name}/case.yaml`, line: 7 },
    surgery: { file: name },
  },
  notes: { texts: [], own: [name], answeredIn: UNANSWERED },
  ...more,
});

describe('a vitals file that two cases have', () => {
  const digest = 'ab';
  it('is told of the second, where they are of two patients', () => {
    expect(
      collisions([
        claims('fern', { vitalsDigest: digest }),
        claims('moss', { vitalsDigest: digest }),
      ]),
    ).toMatchObject([
      {
        problem: {
          kind: 'readings of another patient',
          file: 'moss/case.yaml',
          line: 7,
          found: expect.stringContaining('that of fern in the case fern'),
        },
        between: ['moss', 'fern'],
      },
    ]);
  });

  it('may be of one patient with two operations, and empty ones are nobody’s', () => {
    const twice = { vitalsDigest: digest, patient: 'Fern' };
    expect(collisions([claims('fern', twice), claims('fern-2', twice)])).toEqual([]);
    expect(collisions([claims('fern'), claims('moss')])).toEqual([]);
  });
});

describe('the name of another patient of the collection', () => {
  const saying = (text: string, own: readonly string[] = []) =>
    otherPatients([
      claims('Fern', {
        notes: { texts: [{ text, place: { file: 'Fern', line: 3 } }], own, answeredIn: UNANSWERED },
      }),
      claims('Rye'),
      claims('Old Tom'),
      claims('May'),
    ]);

  it('is asked about in a note, also as a possessive and in two words', () => {
    for (const text of [
      'Rye ate at noon.',
      'We saw Rye’s scar',
      "Rye's scar",
      'Call for Old Tom',
    ]) {
      expect(saying(text), text).toMatchObject([
        { kind: 'the name of another patient', line: 3, accepted: null },
      ]);
    }
  });

  it('is none where a word of the language begins a sentence, and is one within it', () => {
    expect(saying('May lick the wound. May not. She said: “May I?”')).toEqual([]);
    expect(saying('The wound of May heals.')).toHaveLength(1);
  });

  it('is none within a word, in small letters, or where the case has the name itself', () => {
    expect(saying('Ryegrass and rye. Fern slept. Tom called.')).toEqual([]);
    expect(saying('Dr. Rye called.', ['Dr. Anna Rye'])).toEqual([]);
  });
});
