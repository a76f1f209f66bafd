import { Temporal } from 'temporal-polyfill';
import { expect, it } from 'vitest';
import { buildFacts } from '../../src/facts/build-facts.js';
import { type DeathCase, goesHome } from '../../src/facts/case-facts.js';
import { publicFacts } from '../../src/privacy/public-facts.js';
import { readCase } from '../../src/record/read-case.js';
import { readVitals } from '../../src/record/vitals-file.js';
import { textOf } from '../../src/words/handout-text.js';
import type { Language } from '../../src/words/language.js';
import { deathPart } from '../../src/words/teaching/death.js';
import { accepted, type Change, changed, clinicWith, DEATH, KEYS } from '../record/sample.js';
import { demo, OPEN_VEIL } from './demo.js';

const VITALS = `clock,SpO2 [%],heart rate [/min]
10:10,96,88
10:20,70,30
10:25,97,120
`;

const CONSENT: Change = [
  'teaching: { given: no }',
  'teaching: { given: yes, by: Orla Fennimore, on: 2026-03-09 }',
];
const PUBLISHED: Change = [
  'consent:\n',
  'published: { title: A quiet end, patient: a dog, address: a-quiet-end }\nconsent:\n',
];

function factsOf(...changes: Change[]): DeathCase {
  const record = accepted(readCase(changed(DEATH, ...changes), 'case.yaml', KEYS));
  const begin = Temporal.PlainDateTime.from('2026-03-09T09:10').toZonedDateTime('America/Chicago');
  const vitals = accepted(readVitals(VITALS, 'vitals.csv', begin));
  const facts = accepted(buildFacts(clinicWith(), record, vitals, []));
  if (goesHome(facts)) throw new Error('the patient went home');
  return facts;
}

it('has the moment of the death, and nothing of a way home', () => {
  const facts = factsOf();
  expect(facts.death).toMatchObject({
    at: { value: '2026-03-09T10:20' },
    minute: { value: 70 },
    afterwards: { value: 5 },
    said: { value: null, why: 'The record states no cause.' },
  });
  for (const key of ['home', 'plan', 'wound']) expect(facts).not.toHaveProperty(key);
  expect(facts.surgery).not.toHaveProperty('discharge');
});

it('takes no reading for the patient’s from the minute after the death on', () => {
  const rates = factsOf().vitals.channels.find(({ channel }) => channel === 'heart rate');
  expect(rates?.patient.map(({ value }) => value)).toEqual([88, 30]);
  expect(rates?.apart).toMatchObject([{ value: 120, why: 'the patient had died' }]);
});

it('asks nothing of an operation that was not brought to its end, nor of a wound that heals', () => {
  const shared = publicFacts(factsOf(CONSENT, PUBLISHED), OPEN_VEIL);
  expect(shared).toMatchObject({ wound: null, story: { untimed: [] } });
  expect(shared?.exercises.map(({ name }) => name)).not.toContain('which-heals-first');
  expect(shared?.shifted).not.toHaveProperty('discharged');
});

it('is published with consent alone', () => {
  expect(publicFacts(factsOf(), OPEN_VEIL)).toBeNull();
});

function told(tag: string, ...changes: Change[]): string {
  const shared = publicFacts(factsOf(CONSENT, PUBLISHED, ...changes), OPEN_VEIL);
  if (!shared) throw new Error('it is published');
  const language = demo.content.languages.get(tag) as Language;
  return textOf(deathPart(shared, language, {} as never));
}

it('is told in plain words, with no cause that the record does not state', () => {
  expect(told('en')).toContain('The patient died after the anesthesia, 5 minutes after it ended.');
  expect(told('en')).toContain('The record states no cause, and none is inferred here.');
  expect(told('es')).toContain('murió después de la anestesia, 5 minutos después');
  const under = told('en', ['10:20, what: death', '10:15, what: death, note: A clot in the lung']);
  expect(under).toContain('The patient died under anesthesia, in minute 65.');
  expect(under).toContain('Of the death the record says: “A clot in the lung”.');
  expect(under).not.toContain('no cause');
  expect(told('en', ['10:20, what', '2026-03-10 10:15, what'])).toContain('24 hours after it');
});
