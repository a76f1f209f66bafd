import { describe, expect, it } from 'vitest';
import { drugClass } from '../../src/care/drug-class.js';
import { SIGN_TOPICS, type SignsInput, signTopics } from '../../src/care/warning-topics.js';
import { demo } from '../facts/demo.js';

const input = (change: Partial<SignsInput> = {}): SignsInput => ({
  species: 'dog',
  skin: { kind: 'remove', from: 10, to: 14, later: [] },
  staples: false,
  open: false,
  drain: null,
  collar: true,
  classes: ['NSAID'],
  ...change,
});

describe('the topics of the warning signs', () => {
  it('are those of the patient, its wound and its medicines, what threatens life first', () => {
    expect(signTopics(input())).toEqual([
      ...['anyone', 'joined', 'dog', 'stitches', 'collar', 'medicine', 'NSAID', 'other'],
    ]);
  });

  it('know one species', () => {
    for (const species of ['dog', 'cat', 'rabbit', 'ferret'] as const) {
      const found = signTopics(input({ species }));
      expect(found.filter((topic) => /^(dog|cat|rabbit|ferret)$/.test(topic))).toEqual([species]);
    }
  });

  it('ask of no rabbit to vomit', () => {
    const classes = ['NSAID'] as const;
    const topics = (species: 'dog' | 'rabbit') =>
      signTopics(input({ species, classes })).filter((topic) => topic.startsWith('NSAID'));
    expect(topics('dog')).toEqual(['NSAID']);
    expect(topics('rabbit')).toEqual(['NSAID in a rabbit']);
  });

  it.each<[Partial<SignsInput>, string[], string[]]>([
    [{ open: true, skin: { kind: 'none' } }, ['open'], ['joined', 'stitches', 'staples']],
    [{ staples: true }, ['staples'], ['stitches']],
    [{ drain: 'passive drain' }, ['drain'], []],
    [{ skin: { kind: 'dissolve', absorbedBy: null, hidden: true } }, [], ['stitches', 'staples']],
    [{ skin: { kind: 'dissolve', absorbedBy: null, hidden: false } }, ['stitches'], ['staples']],
    [{ collar: false, classes: [] }, ['no collar'], ['collar', 'medicine', 'NSAID']],
    [{ collar: false, inMouth: true }, ['mouth'], ['collar', 'no collar']],
    [{}, ['collar'], ['no collar']],
    [{ classes: [null, 'opioid', 'antibiotic'] }, ['medicine', 'opioid', 'antibiotic'], ['NSAID']],
  ])('follow %o', (change, there, notThere) => {
    const found = signTopics(input(change)) as readonly string[];
    expect(there.filter((topic) => !found.includes(topic))).toEqual([]);
    expect(notThere.filter((topic) => found.includes(topic))).toEqual([]);
  });

  it('each have their words in both languages', () => {
    for (const language of demo.content.languages.values()) {
      for (const topic of SIGN_TOPICS) {
        const said = (['now', 'today', 'visit'] as const).flatMap((rank) =>
          language.owner.all(`signs.${rank}.${topic}`, { patient: 'Rex' }),
        );
        expect(said.length, `${language.tag} ${topic}`).toBeGreaterThan(0);
      }
    }
  });
});

describe('the class of a drug', () => {
  const formulary = {
    about: 'a test',
    drugs: [
      { drug: 'methadone', ingredients: ['x'], class: 'other' as const, species: {}, source: 'x' },
    ],
  };

  it.each([
    [null, 'Methadone ', 'opioid'],
    [formulary, 'methadone', 'other'],
    [formulary, 'meloxicam', 'NSAID'],
    [null, 'prednisone', 'corticosteroid'],
    [null, 'Flunixin meglumine', 'NSAID'],
    [null, 'tolfenamic  acid', 'NSAID'],
    [null, 'Prednisolona', 'corticosteroid'],
    [null, 'ÁCIDO acetilsalicílico', 'NSAID'],
    // Whole words only.
    [null, 'apomorphine', null],
    [null, 'tap water', null],
  ])(
    'is what the formulary says, else what its name says, else not known: %#',
    (book, drug, found) => {
      expect(drugClass(book, drug)).toBe(found);
    },
  );
});
