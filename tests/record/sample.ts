import { expect } from 'vitest';
import { type CaseFacts, goesHome, type HomeCase } from '../../src/facts/case-facts.js';
import { type ContentKeys, type HomeText, wentHome } from '../../src/record/case-schema.js';
import type { Clinic } from '../../src/record/clinic-schema.js';
import type { Formulary } from '../../src/record/formulary-schema.js';
import { good, type Outcome, type Problem } from '../../src/record/problem.js';
import { readCase, readClinic } from '../../src/record/read-case.js';
import type { Located } from '../../src/record/yaml-file.js';

export const KEYS: ContentKeys = {
  procedures: [
    ...['skin lump removal', 'spay', 'castration', 'tooth removal'],
    ...['knee ligament repair', 'eye removal', 'wound repair'],
    ...['new opening for urine', 'adrenal gland removal'],
  ],
  purposes: [
    ...['pain and swelling', 'pain and swelling, rabbit', 'infection', 'pain', 'calm rest'],
    'hormones',
  ],
  languages: ['en', 'es'],
};

/** A record without problems; tests change single lines of it. */
export const CASE = `record: '2026-0042'
patient:
  name: Thimble
  species: dog
  breed: mixed breed
  sex: female
  neutered: yes
  born: 2019-08-14
  weight: 12.5 kg
owner:
  name: Orla Fennimore
  phone: 555 0161
team:
  surgeon: Dr. Basil Underhill
surgery:
  date: 2026-03-09
  procedure: skin lump removal
  begin: 09:30
  end: 10:05
  discharge: 15:00
anesthesia:
  begin: 09:10
  end: 10:15
  breathing: spontaneous
  drugs:
    - { drug: methadone, dose: 2.5 mg, route: intramuscular, at: 08:50 }
    - { drug: lidocaine, dose: 1 mL, route: infiltration, at: 09:25 }
events:
  - { at: 09:30, what: first incision }
monitor:
  vitals: vitals.csv
  off patient:
    - { channel: temperature, to: 09:20, why: the probe lay on the table }
closure:
  healing: edge to edge
  edge gap: 0 mm
  tension: none
  layers:
    - { layer: under the skin, material: poliglecaprone 25, size: 3-0, pattern: simple continuous }
    - { layer: skin, material: nylon, size: 4-0, pattern: simple interrupted }
home:
  medicines:
    - drug: carprofen
      for: pain and swelling
      strength: 50 mg/tablet
      give: 1/2 tablet
      route: by mouth
      every: 12 h
      food: with food
      last given: 08:40
      doses: 6
      dispensed: 3 tablets
  collar: 12 days
  rest: 2 weeks
  rechecks:
    - { what: wound check, after: 3 days }
consent:
  teaching: { given: no }
  record: { given: no }
`;

export const CLINIC = `name: Larkspur Veterinary Clinic
address: [9 Larkspur Row, Fernley Gate]
phone: 555 0100
emergency: { name: Nightjar Hospital for Animals, phone: 555 0199 }
hours:
  monday: 08:00-18:00
  tuesday: 08:00-18:00
  wednesday: 08:00-18:00
  thursday: 08:00-18:00
  friday: 08:00-17:00
  saturday: closed
  sunday: closed
closed on:
  - { date: 2026-03-19, why: stocktaking }
time zone: America/Chicago
paper: A4
languages: [en, es]
`;

/** The sample's own medicine for home; invented figures. */
export const FORMULARY: Formulary = {
  about: 'invented for tests',
  drugs: [
    {
      drug: 'carprofen',
      ingredients: ['carprofen'],
      class: 'NSAID',
      species: {
        dog: { dose: [1, 4], 'most a day': [4, 4], every: [12, 24] },
        rabbit: { dose: [1, 8], 'most a day': [8, 8], every: [12, 24] },
      },
      source: 'invented',
    },
  ],
};

export type Change = readonly [from: string | RegExp, to: string];

/** A text with some of its passages replaced; each must be there exactly once. */
export function changed(text: string, ...changes: readonly Change[]): string {
  return changes.reduce((before, [from, to]) => {
    expect(before.split(from), `"${from}" once in the sample`).toHaveLength(2);
    return before.replace(from, () => to);
  }, text);
}

export function caseWith(...changes: readonly Change[]): Outcome<Located<HomeText>> {
  const read = readCase(changed(CASE, ...changes), 'case.yaml', KEYS);
  if (!read.ok) return read;
  if (!wentHome(read.value)) throw new Error('the patient of the sample died');
  return good(read.value);
}

/** The facts of a patient that goes home, as nearly every test has them. */
export function atHome(facts: CaseFacts): HomeCase {
  if (!goesHome(facts)) throw new Error('the patient died');
  return facts;
}

/** The record of a patient that died five minutes after the anesthesia. */
export const DEATH = changed(
  CASE,
  ['  discharge: 15:00\n', ''],
  [/closure:\n[\s\S]*(?=consent:)/, ''],
  ['what: first incision }\n', 'what: first incision }\n  - { at: 10:20, what: death }\n'],
);

/** The value of a good outcome; otherwise the test fails and shows the problems. */
export function accepted<T>(outcome: Outcome<T>): T {
  expect(outcome.ok ? [] : outcome.problems).toEqual([]);
  if (!outcome.ok) throw new Error('unreachable: the line above has failed');
  return outcome.value;
}

/** The problems of a bad outcome; the test fails where there is none. */
export function problemsOf(outcome: Outcome<unknown>): readonly Problem[] {
  expect(outcome.ok).toBe(false);
  return outcome.ok ? [] : outcome.problems;
}

export const clinicWith = (...changes: readonly Change[]): Clinic =>
  accepted(readClinic(changed(CLINIC, ...changes), 'clinic.yaml', KEYS)).value;
