import { expect, it } from 'vitest';
import type { CaseFacts } from '../../src/facts/case-facts.js';
import { publicFacts } from '../../src/privacy/public-facts.js';
import { disk } from '../../src/publish/disk.js';
import { load } from '../../src/publish/load.js';
import type { CaseFigures } from '../../src/words/teaching/learner-section.js';
import { pressurePart } from '../../src/words/teaching/pressure.js';
import { OPEN_VEIL } from '../facts/demo.js';
import { DEMO } from '../publish/clinic.js';

const demo = load(
  DEMO,
  disk(() => {}),
);

// demo-data/cases: the lowest mean of tucker is 67 mmHg, of juniper 72. AAHA 2020: under 60-70 mmHg.
it('tells a learner of a lowest mean within the band of the guideline', () => {
  if (!demo.ok) throw new Error('The demonstration cases cannot be read.');
  const { cases, content } = demo.value;
  const told = (case_: string) => {
    const one = cases.find(({ name }) => name === case_)?.facts as CaseFacts;
    const [english, facts] = [content.languages.get('en'), publicFacts(one, OPEN_VEIL)];
    return english && facts ? JSON.stringify(pressurePart(facts, english, {} as CaseFigures)) : '';
  };
  expect(told('tucker')).toContain('The lowest was 67 mmHg at minute 70');
  expect(told('juniper')).not.toContain('The lowest was');
});

it('says whose limit it is where the clinic has chosen one', () => {
  if (!demo.ok) throw new Error('The demonstration cases cannot be read.');
  const juniper = demo.value.cases.find(({ name }) => name === 'juniper')?.facts as CaseFacts;
  const english = demo.value.content.languages.get('en');
  const facts = publicFacts(juniper, OPEN_VEIL);
  const low = facts?.vitals.lowPressure;
  if (!english || !facts || !low?.value) throw new Error('The case is not published in English.');
  const vitals = {
    ...facts.vitals,
    lowPressure: {
      ...low,
      value: { ...low.value, limit: 65 as never, chosenBy: 'clinic' as const },
    },
  };
  const told = JSON.stringify(pressurePart({ ...facts, vitals }, english, {} as CaseFigures));
  expect(told).toContain('The clinic’s own choice: 65 mmHg');
  expect(told).not.toContain('the lower end is used here');
});

it('sets a fall of pressure after what happened, not after a remark on it', () => {
  if (!demo.ok) throw new Error('The demonstration cases cannot be read.');
  const saffron = demo.value.cases.find(({ name }) => name === 'saffron')?.facts as CaseFacts;
  const english = demo.value.content.languages.get('en');
  const facts = publicFacts(saffron, OPEN_VEIL);
  if (!english || !facts) throw new Error('The case is not published in English.');
  const told = JSON.stringify(pressurePart(facts, english, {} as CaseFigures));
  // case.yaml: bleeding at 10:12, a remark at 10:13, both before the low reading of 10:15.
  expect(told).toContain('"text":"bleeding"');
  expect(told).not.toContain('"text":"remark"');
});
