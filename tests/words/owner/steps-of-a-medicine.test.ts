import { describe, expect, it } from 'vitest';
import { demo } from '../../facts/demo.js';
import type { Change } from '../../record/sample.js';
import { sheetOf } from './sheet-of.js';

const step = (drug: string, first: string): Change => [
  '  collar: 12 days\n',
  `    - drug: ${drug}
      for: pain and swelling
      strength: 50 mg/tablet
      give: 1/4 tablet
      route: by mouth
      every: 24 h
      food: with food
      first: ${first}
      doses: 3
  collar: 12 days\n`,
];

describe('a medicine that is given in steps', () => {
  it('has the first day of a later step, and counts as one medicine', () => {
    const english = sheetOf('en', [], step('carprofen', '2026-03-13 08:00'));
    expect(english).toContain('Next step of the same medicine: start on Fri, Mar 13, not before.');
    expect(english).toContain('Give 1 medicine. The last dose is on Sun, Mar 15.');
    expect(sheetOf('es', [], step('carprofen', '2026-03-13 08:00'))).toContain(
      'paso siguiente de la misma medicina: empiece el viernes, 13 de mar, no antes.',
    );
  });

  it('is no step where another medicine begins, or both run at once', () => {
    for (const other of [
      step('gabapentin', '2026-03-13 08:00'),
      step('carprofen', '2026-03-10 08:00'),
    ]) {
      expect(sheetOf('en', [], other)).not.toContain('Next step');
    }
  });
});

it('asks no owner to watch whether a rabbit vomits', () => {
  for (const { purposes } of demo.content.languages.values()) {
    for (const purpose of ['infection', 'stomach', 'itching', 'hormones']) {
      const watch = (species: string) => purposes.text(`${purpose}.watch`, { species });
      expect(watch('rabbit')).not.toMatch(/vomit/);
      expect(watch('ferret')).toMatch(/vomit/);
    }
  }
});
