import { describe, expect, it } from 'vitest';
import { readClinic } from '../../../src/record/read-case.js';
import type { Language } from '../../../src/words/language.js';
import { tellLater } from '../../../src/words/owner/warning-signs.js';
import { demo } from '../../facts/demo.js';
import { type Change, CLINIC, changed, KEYS, problemsOf } from '../../record/sample.js';
import { factsOf, sheetOf } from './sheet-of.js';

const ALWAYS: Change[] = [
  [
    /hours:\n(?: {2}\w+day: .*\n)+/,
    `hours: { ${['monday', 'tuesday', 'wednesday', 'thursday', 'friday', 'saturday', 'sunday'].map((day) => `${day}: 24 h`).join(', ')} }\n`,
  ],
  [/closed on:\n.*\n/, ''],
];
const ALONE: Change[] = [...ALWAYS, [/emergency: .*\n/, '']];

describe('a hospital that is open day and night', () => {
  it('has one number, which the sheet names for day and night', () => {
    const sheet = sheetOf('en', ALONE);
    expect(sheet).toContain('Call 555 0100, day or night.');
    expect(sheet).not.toMatch(/At night|Open |When closed/);
    expect(sheetOf('es', ALONE)).toContain('Llame al 555 0100, de día y de noche.');
  });

  it('may have another number for the night', () => {
    expect(sheetOf('en', ALWAYS)).toContain('Call 555 0100. At night 555 0199.');
  });

  it.each([
    ['closes at noon', [...ALONE, ['monday: 24 h', 'monday: 08:00-12:00']]],
    [
      'has a day off',
      [...ALONE, ['time zone:', 'closed on: [{ date: 2026-12-25, why: feast }]\ntime zone:']],
    ],
  ] as [string, Change[]][])('says whom to call otherwise where it %s', (_, changes) => {
    expect(problemsOf(readClinic(changed(CLINIC, ...changes), 'clinic.yaml', KEYS))).toMatchObject([
      { kind: 'a missing key', field: 'emergency' },
    ]);
  });
});

describe('hours by 24 of them', () => {
  const clock: Change = ['paper: A4\n', 'paper: A4\nclock: 24 h\n'];
  it('are printed where the clinic asks for it', () => {
    expect(sheetOf('es', [])).toContain('(8:40 a.m.)');
    const sheet = sheetOf('es', [clock]);
    expect(sheet).toContain('(08:40)');
    expect(sheet).not.toMatch(/[ap]\.m\./);
  });

  it('keep the name of midnight, whose day the sheet explains', () => {
    const sheet = sheetOf('en', [clock], ['last given: 08:40', 'last given: 12:00']);
    expect(sheet).toContain('Midnight is the start of the day');
    expect(demo.content.languages.get('en')?.clock24.time('2026-03-09T00:00')).toBe('midnight');
    expect(sheet).toContain('12:00');
    expect(sheet).not.toContain('noon');
  });
});

describe('a dog that may not run before its wound is closed', () => {
  it('may have a bath before it may swim', () => {
    const rest: Change = ['rest: 2 weeks', 'rest: 2 weeks\n  full activity after: 43 days'];
    expect(sheetOf('en', [], rest)).toContain(
      'No baths before Sun, Mar 22. No swimming before Tue, Apr 21.',
    );
    expect(sheetOf('en', [], rest)).toMatch(
      /Baths are fine from Sun, Mar 22\..*Tue, Apr 21: Running, jumping, swimming and play/,
    );
    const short: Change = ['rest: 2 weeks', 'rest: 12 days\n  full activity after: 13 days'];
    expect(sheetOf('en', [], short)).toContain('No baths and no swimming before Sun, Mar 22.');
    expect(sheetOf('es', [], rest)).toMatch(
      / ni nadar antes del martes, 21 de abr\..*Ya puede correr, saltar y nadar\./,
    );
  });

  it('does not swim before somebody says when it may run', () => {
    expect(sheetOf('en', [])).toContain(
      'No baths before Sun, Mar 22. No swimming until we say so.',
    );
    expect(sheetOf('es', [])).toContain(' ni nadar hasta que le avisemos.');
  });
});

describe('the label of a medicine', () => {
  it('is told in the language of the sheet', () => {
    expect(sheetOf('en', [])).toContain('50 mg/tablet on the label');
    expect(sheetOf('es', [])).toContain('50 mg/tableta en la etiqueta');
  });
});

describe('a drop', () => {
  it('goes into the eye or the ear that the record names', () => {
    const drop = (route: string): Change[] => [
      ['strength: 50 mg/tablet', 'strength: 5 mg/mL'],
      ['give: 1/2 tablet', 'give: 1 drop'],
      ['route: by mouth', `route: ${route}`],
      ['dispensed: 3 tablets', 'dispensed: 5 mL'],
    ];
    expect(sheetOf('en', [], ...drop('in the left eye'))).toContain('1 drop in the left eye');
    expect(sheetOf('es', [], ...drop('in each ear'))).toContain('1 gota en cada oído');
    expect(sheetOf('en', [], ...drop('in each eye'))).toContain('The tip must not touch the eye.');
    expect(sheetOf('en', [], ...drop('in the right ear'))).not.toContain('The tip must');
  });
});

describe('an ointment', () => {
  const tube: Change[] = [
    ['strength: 50 mg/tablet', 'strength: 3 mg/g'],
    ['give: 1/2 tablet', 'give: 0.5 cm'],
    ['route: by mouth', 'route: in the eye'],
    ['dispensed: 3 tablets', 'dispensed: 5 g'],
  ];
  it('is given by the length of its strip, and some of the tube is left', () => {
    const sheet = sheetOf('en', [], ...tube);
    expect(sheet).toContain('3 mg/g on the label');
    expect(sheet).toContain('a strip of 0.5 cm');
    expect(sheet).toContain('The tip must not touch the eye.');
    expect(sheet).toContain('though some will be left over');
    expect(sheetOf('es', [], ...tube)).toContain('una tira de 0.5 cm');
  });
});

describe('a mouth', () => {
  const mouth: Change[] = [
    ['procedure: skin lump removal', 'procedure: tooth removal'],
    [
      / {2}layers:\n.*\n.*\n/,
      '  layers: [{ layer: gum, material: poliglecaprone 25, size: 4-0, pattern: simple interrupted }]\n',
    ],
  ];
  it('has no shaved skin that a patient could scratch', () => {
    expect(sheetOf('en', [])).toContain('scratches at the shaved skin');
    expect(sheetOf('en', [], ...mouth)).not.toContain('shaved skin');
  });

  it('of a rabbit has nothing that could wait until the next visit, so that nothing is asked for', () => {
    const facts = factsOf([], ...mouth, ['species: dog', 'species: rabbit']);
    const english = demo.content.languages.get('en') as Language;
    expect(tellLater(facts, english).map(({ kind }) => kind)).toEqual(['callout']);
    expect(tellLater(factsOf([]), english)).toHaveLength(2);
  });
});
