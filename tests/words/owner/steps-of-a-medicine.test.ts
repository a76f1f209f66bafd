import { describe, expect, it } from 'vitest';
import { demo } from '../../facts/demo.js';
import { type Change, problemsOf } from '../../record/sample.js';
import { builtFrom, sheetOf } from './sheet-of.js';

const MORE: Change = ['dispensed: 3 tablets', 'dispensed: 4 tablets'];

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
    const english = sheetOf('en', [], MORE, step('carprofen', '2026-03-13 08:00'));
    expect(english).toContain('Step 2 of 2: start on Fri, Mar 13, not before.');
    expect(english).toContain('Give 1 medicine. The last dose is on Sun, Mar 15.');
    expect(sheetOf('es', [], MORE, step('carprofen', '2026-03-13 08:00'))).toContain(
      'Paso 2 de 2: empiece el viernes, 13 de mar, no antes.',
    );
  });

  it('is no step where another medicine begins, or both run at once', () => {
    for (const other of [
      step('gabapentin', '2026-03-13 08:00'),
      step('carprofen', '2026-03-10 08:00'),
    ]) {
      expect(sheetOf('en', [], MORE, other)).not.toMatch(/Step \d/);
    }
  });
});

/** A taper of 3 mg/mL by mouth: 1 mL every 12 h from the way home, then once a day, then every second day. */
const taper = (dispensed: string, purpose = 'hormones'): Change[] => {
  const one = (rest: string) => `    - drug: prednisolone
      for: ${purpose}
      strength: 3 mg/mL
      give: 1 mL
      route: by mouth
      food: with food
      ${rest}
`;
  return [
    [
      / {4}- drug: carprofen[\s\S]*?(?= {2}collar)/,
      `${one('every: 12 h\n      last given: 08:40\n      doses: 6')}${one(
        'every: 24 h\n      first: 2026-03-13 08:00\n      doses: 4',
      )}${one(`every: 48 h\n      first: 2026-03-18 08:00\n      doses: 3\n      dispensed: ${dispensed}`)}`,
    ],
  ];
};

describe('a taper', () => {
  const said = (text: string, sentence: string) => text.split(sentence).length - 1;

  it('has its steps numbered, and is not to be stopped before the last one', () => {
    const english = sheetOf('en', [], ...taper('13 mL'));
    expect(english).toContain('Step 1 of 3. Do not stop before the last step without asking us.');
    expect(english).toContain('Step 2 of 3: start on Fri, Mar 13, not before.');
    expect(english).toContain('Step 3 of 3: start on Wed, Mar 18, not before.');
    const spanish = sheetOf('es', [], ...taper('13 mL'));
    expect(spanish).toContain('Paso 1 de 3. No la deje antes del último paso sin preguntarnos.');
    expect(spanish).toContain('Paso 3 de 3: empiece el miércoles, 18 de mar, no antes.');
  });

  it('ends, so that nobody is told to call before it runs out', () => {
    expect(sheetOf('en', [], ...taper('13 mL'))).not.toContain('runs out');
    const lasting: Change[] = [['for: pain and swelling', 'for: hormones']];
    expect(sheetOf('en', [], ...lasting)).toContain('Call us before it runs out.');
  });

  it('may be stopped at the first harm where it is told so', () => {
    expect(sheetOf('en', [], ...taper('13 mL', 'pain and swelling'))).not.toContain('Do not stop');
  });

  it('says once that some is left over, of all that was handed out: 6 + 4 + 3 doses of 1 mL', () => {
    expect(said(sheetOf('en', [], ...taper('13 mL')), 'left over')).toBe(0);
    expect(said(sheetOf('en', [], ...taper('14 mL')), 'left over')).toBe(1);
    expect(said(sheetOf('es', [], ...taper('14 mL')), 'aunque sobre')).toBe(1);
  });

  it('runs out where less was handed out than all its steps need', () => {
    expect(problemsOf(builtFrom([], ...taper('12 mL')))).toMatchObject([
      {
        kind: 'too little dispensed',
        field: 'home.medicines[2].dispensed',
        found: '12 mL',
        expected: 'at least 13 mL for all 3 steps of prednisolone',
      },
    ]);
  });
});

it('asks no owner to watch whether a rabbit vomits', () => {
  for (const { purposes } of demo.content.languages.values()) {
    for (const purpose of ['infection', 'stomach', 'itching', 'hormones']) {
      const watch = (species: string) =>
        purposes.text(`${purpose}.watch`, { species, end: 'open' });
      expect(watch('rabbit')).not.toMatch(/vomit/);
      expect(watch('ferret')).toMatch(/vomit/);
    }
  }
});
