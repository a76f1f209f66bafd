import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { CaseFacts } from '../../src/facts/case-facts.js';
import { publicFacts } from '../../src/privacy/public-facts.js';
import { disk } from '../../src/publish/disk.js';
import { load } from '../../src/publish/load.js';
import { loadCase } from '../../src/publish/load-case.js';
import type { CaseFigures } from '../../src/words/teaching/learner-section.js';
import { oxygenPart } from '../../src/words/teaching/oxygen.js';
import { OPEN_VEIL } from '../facts/demo.js';
import { DEMO } from '../publish/clinic.js';

const effects = disk(() => {});
const demo = load(DEMO, effects);
if (!demo.ok) throw new Error('The demonstration cases cannot be read.');
const { clinic, content } = demo.value;

/** Juniper, whose SpO2 reads otherwise from some minutes on, and whose record says something else. */
function juniper(low: Readonly<Record<string, number>>, from = '', to = ''): CaseFacts {
  const changed = (path: string, text: string): string => {
    if (path.endsWith('case.yaml')) return text.replace(from, to);
    if (!path.endsWith('vitals.csv')) return text;
    return text.replace(/^(\d\d:\d\d)((?:,[^,]*){4}),([^,]*)/gm, (line, clock, before) =>
      clock in low ? `${clock}${before},${low[clock]}` : line,
    );
  };
  const read = loadCase(`${DEMO}/cases/juniper`, clinic, content.keys, {
    ...effects,
    readBytes: (path) =>
      /case\.yaml|vitals\.csv/.test(path)
        ? { ok: true, value: Buffer.from(changed(path, readFileSync(path, 'utf8'))) }
        : effects.readBytes(path),
  });
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.value.facts;
}

const asked = ({ warnings }: CaseFacts) =>
  warnings
    .filter(({ kind }) => kind === 'little oxygen that nothing explains')
    .map(({ found }) => found);

function told(facts: CaseFacts, tag = 'en'): string {
  const [language, known] = [content.languages.get(tag), publicFacts(facts, OPEN_VEIL)];
  if (!language || !known) throw new Error('The case is not published.');
  return JSON.stringify(oxygenPart(known, language, {} as CaseFigures));
}

const LOW = { '10:15': 90, '10:20': 84, '10:25': 88 };

describe('oxygen saturation of 90 % or less for many minutes', () => {
  it('is asked about and told to learners where the record does not speak of it', () => {
    const facts = juniper(LOW);
    expect(asked(facts)).toEqual([
      "SpO2 of 90 % or less at each reading from minute 35 to minute 45, 84 % on line 10, told as the patient's",
    ]);
    expect(told(facts)).toContain('from minute 35 to minute 45, and 84 % at its lowest');
    expect(told(facts)).toContain('No event and no note of the record tells why.');
    expect(told(facts, 'es')).toContain('del minuto 35 al minuto 45, y de 84 %');
  });

  it('is told and not asked about where a note speaks of it', () => {
    const facts = juniper(
      LOW,
      '  - { at: 10:26, what: closure }',
      '  - { at: 10:22, what: remark, note: The tube had slipped into one bronchus and was drawn back }\n  - { at: 10:26, what: closure }',
    );
    expect(asked(facts)).toEqual([]);
    expect(told(facts)).toContain('The record speaks of it at minute 42');
  });

  it('is not explained by a note on something else, nor by one of another time', () => {
    for (const note of [
      '10:22, what: remark, note: Beats come in groups',
      '09:50, what: remark, note: The tube was turned',
    ]) {
      const facts = juniper(LOW, '  - { at: 10:26', `  - { at: ${note} }\n  - { at: 10:26`);
      expect(asked(facts), note).toHaveLength(1);
    }
  });

  it('is neither where the sensor was off, in a single reading, or above the limit', () => {
    const off = juniper(
      LOW,
      '    - { channel: temp',
      '    - { channel: SpO2, from: 10:10, to: 10:30, why: the clip slipped }\n    - { channel: temp',
    );
    for (const facts of [off, juniper({ '10:20': 84 }), juniper({ '10:15': 91, '10:20': 91 })]) {
      expect(asked(facts)).toEqual([]);
      expect(told(facts)).toBe('[]');
      expect('lowOxygen' in facts.vitals).toBe(false);
    }
  });
});
