import { describe, expect, it } from 'vitest';
import type { Age, Consent, HomeCase } from '../../src/facts/case-facts.js';
import { computed } from '../../src/facts/fact.js';
import { ageBand } from '../../src/privacy/age-band.js';
import { identifiersOf } from '../../src/privacy/identifiers.js';
import { leaksIn } from '../../src/privacy/leaks.js';
import {
  type PublicFacts,
  publicFacts,
  roundedWeight,
  traitsOf,
} from '../../src/privacy/public-facts.js';
import { demo, OPEN_VEIL } from '../facts/demo.js';
import { walk } from '../facts/walk.js';

/** Where an author's own words may stand in what is public; the search for leaks reads them. */
const FREE_TEXT = [
  /^published\.(title|patient|address)$/,
  /^anesthesia\.events\.\d+\.note$/,
  /^anesthesia\.drugs\.\d+\.drug$/,
  /^anesthesia\.maintenance$/,
  /^vitals\.channels\.\d+\.apart\.\d+\.why$/,
];

describe.each(demo.cases.map(({ name, facts }) => [name, facts] as const))(
  'what is public of %s',
  (name, facts) => {
    const told = publicFacts(facts, OPEN_VEIL);
    const texts = [...walk(told)].filter(({ value }) => typeof value === 'string');

    it('holds no identifier in any of its texts', () => {
      expect(texts.length).toBeGreaterThan(20);
      const identifiers = identifiersOf(facts);
      for (const { path, value } of texts) {
        expect(leaksIn(value as string, identifiers), path).toEqual([]);
      }
    });

    it('holds no date, no file and no name of a folder outside the author’s own words', () => {
      for (const { path, value } of texts) {
        if (FREE_TEXT.some((free) => free.test(path))) continue;
        if (path.startsWith('shifted.')) continue;
        expect(value, path).not.toMatch(/\b\d{4}-\d{2}-\d{2}|\.(yaml|csv|edf|hea|dat)\b|cases\//);
        expect((value as string).toLowerCase(), path).not.toContain(name);
      }
    });

    it('holds no exact weight and no exact age', () => {
      expect(told?.patient.roundedWeight).toBe(roundedWeight(facts.patient.weight.value));
      expect(Object.keys(told?.patient ?? {}).sort()).toEqual([
        'ageBand',
        'breed',
        'neutered',
        'roundedWeight',
        'sex',
        'species',
      ]);
    });

    it('holds dates of another century alone, on the same day of the week at the same time', () => {
      const moved = told?.shifted as PublicFacts['shifted'] & { discharged: string };
      const pairs = [
        [moved.began, facts.anesthesia.begin.value],
        [moved.discharged, facts.surgery.discharge.value],
      ] as const;
      for (const [public_, true_] of pairs) {
        expect(public_ > '2100').toBe(true);
        expect(public_.slice(10)).toBe(true_.slice(10));
        const weekday = (text: string) => new Date(`${text}:00Z`).getUTCDay();
        expect(weekday(public_)).toBe(weekday(true_));
      }
      const minutes = (from: string, to: string) => Date.parse(`${to}Z`) - Date.parse(`${from}Z`);
      expect(minutes(moved.began, moved.discharged)).toBe(
        minutes(facts.anesthesia.begin.value, facts.surgery.discharge.value),
      );
    });

    it('keeps the removal visit, which is a date, to itself', () => {
      expect(Object.keys(told?.wound ?? {})).not.toContain('removal');
    });
  },
);

describe('consent', () => {
  const [loaded] = demo.cases;
  const facts = loaded?.facts as HomeCase;
  const said = (allows: boolean): Consent => ({ allows, by: null, on: null, withdrawn: null });
  const given = (teaching: boolean, record: boolean): HomeCase => ({
    ...facts,
    consent: {
      teaching: said(teaching),
      record: said(record),
      photos: said(false),
      questions: said(false),
    },
  });

  it('opens the facts if it is given for either document', () => {
    expect(publicFacts(given(true, false), OPEN_VEIL)).not.toBeNull();
    expect(publicFacts(given(false, true), OPEN_VEIL)).not.toBeNull();
  });

  it('withheld, opens nothing', () => {
    expect(publicFacts(given(false, false), OPEN_VEIL)).toBeNull();
  });

  it('opens nothing where the record says nothing of a public face', () => {
    expect(publicFacts({ ...given(true, true), published: null }, OPEN_VEIL)).toBeNull();
  });
});

describe('a dose', () => {
  const doses = (drugs: HomeCase['anesthesia']['drugs']) => {
    const facts = factsOf('saffron');
    return publicFacts(
      { ...facts, anesthesia: { ...facts.anesthesia, drugs } },
      OPEN_VEIL,
    )?.anesthesia.drugs.map(({ perKilogram }) => perKilogram);
  };
  const given = (value: number, unit: string, perKilogram: number) => ({
    ...(factsOf('saffron').anesthesia.drugs[0] as HomeCase['anesthesia']['drugs'][number]),
    amount: { value, unit, written: `${value} ${unit}` },
    perKilogram: computed(perKilogram, 'milligrams over kilograms of body weight', 'case.yaml'),
  });

  it('has two digits per kilogram, so that a whole number of mg does not give the weight back', () => {
    expect(doses([given(10, 'mg', 10 / 34.85)])).toEqual([{ value: 0.29, unit: 'mg' }]);
  });

  it('stays in the unit in which it was entered: 173 mcg for 35 kg is no 0.005 mg/kg', () => {
    expect(doses([given(173, 'mcg', 0.173 / 35)])).toEqual([{ value: 4.9, unit: 'mcg' }]);
  });

  it('that is a volume has two digits too', () => {
    const volume = doses(factsOf('saffron').anesthesia.drugs)?.at(-1);
    expect(volume).toEqual({ value: 10, unit: 'mL' });
  });
});

it('every free text passes the one who clears them', () => {
  for (const { facts } of demo.cases) {
    const passed: string[] = [];
    const say = (text: string) => {
      passed.push(text);
      return `cleared ${text}`;
    };
    const veil = { ...OPEN_VEIL, say };
    for (const { path, value } of walk(publicFacts(facts, veil))) {
      if (typeof value !== 'string' || !FREE_TEXT.some((free) => free.test(path))) continue;
      expect(value, path).toMatch(/^cleared |^the ventilator gave the breaths$/);
    }
    expect(passed).toContain(facts.published?.title);
  }
});

describe('an age', () => {
  it.each<[number, Age['unit'], string]>([
    [0, 'weeks', 'under 1'],
    [51, 'weeks', 'under 1'],
    [52, 'weeks', '1 to 3'],
    [11, 'months', 'under 1'],
    [12, 'months', '1 to 3'],
    [23, 'months', '1 to 3'],
    [48, 'months', '4 to 7'],
    [3, 'years', '1 to 3'],
    [3.5, 'years', '1 to 3'],
    [4, 'years', '4 to 7'],
    [7, 'years', '4 to 7'],
    [8, 'years', '8 to 11'],
    [11, 'years', '8 to 11'],
    [12, 'years', '12 or more'],
    [21, 'years', '12 or more'],
  ])('of %d %s is told as %s', (count, unit, band) => {
    expect(ageBand({ count, unit })).toBe(band);
  });
});

it.each([
  [34.49, 34],
  [10, 10],
  [9.8, 10],
  [4.26, 4.5],
  [4.2, 4],
  [1, 1],
  [0.84, 0.8],
])('a weight of %d kg is told as %d kg', (kilograms, told) => {
  expect(roundedWeight(kilograms)).toBe(told);
});

const factsOf = (wanted: string): HomeCase => {
  const found = demo.cases.find(({ name }) => name === wanted);
  if (!found) throw new Error(`The demonstration clinic has a case "${wanted}".`);
  return found.facts;
};

it('what small groups withhold is not told, and the traits that they count are the record’s', () => {
  const facts = factsOf('tucker');
  expect(traitsOf(facts, 'North America')).toEqual({
    species: 'dog',
    breed: 'Labrador Retriever',
    ageBand: '8 to 11',
    sex: 'male neutered',
    procedure: 'spleen removal',
    region: 'North America',
  });
  expect(traitsOf(factsOf('saffron'), null)).toMatchObject({ sex: 'female', region: null });
  const told = { breed: null, ageBand: null, sex: false };
  expect(publicFacts(facts, { ...OPEN_VEIL, told })?.patient).toMatchObject({
    ...told,
    sex: null,
    neutered: null,
  });
});

it('a drain is told with how long it stays, without the day on which it comes out', () => {
  const { wound } = factsOf('tucker');
  const drain = { what: 'closed suction', after: { value: 3 }, out: { value: '2026-03-13' } };
  const facts = { ...factsOf('tucker'), wound: { ...wound, drain } } as unknown as HomeCase;
  expect(publicFacts(facts, OPEN_VEIL)?.wound?.drain).toEqual({ what: 'closed suction', after: 3 });
});
