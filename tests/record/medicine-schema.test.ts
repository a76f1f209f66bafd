import { describe, expect, it } from 'vitest';
import { accepted, type Change, caseWith, problemsOf } from './sample.js';

const home = 'home.medicines[0]';

describe('a medicine', () => {
  it('has each time of day once, with seconds or without', () => {
    const at = (times: string) => caseWith(['every: 12 h', `at: [${times}]`]);
    expect(at('08:00, 20:00').ok).toBe(true);
    for (const times of ['08:00, 08:00', '08:00, "08:00:00"']) {
      expect(problemsOf(at(times)), times).toMatchObject([
        { field: `${home}.at`, expected: 'each time of day once' },
      ]);
    }
    expect(problemsOf(at('8, 08:00')).length).toBeGreaterThan(0);
  });

  it.each([
    ['50 mg/tablet', { value: 50, unit: 'mg', per: 'tablet' }],
    ['1.5 mg/mL', { value: 1.5, unit: 'mg', per: 'mL' }],
    ['250 mcg / capsule', { value: 250, unit: 'mcg', per: 'capsule' }],
  ])('has the strength %s', (written, expected) => {
    const unit = expected.per;
    const record = accepted(
      caseWith(
        ['strength: 50 mg/tablet', `strength: ${written}`],
        ['give: 1/2 tablet', `give: 1/2 ${unit}`],
        ['dispensed: 3 tablets', `dispensed: 3 ${unit}`],
      ),
    );
    expect(record.value.home.medicines[0]?.strength).toEqual({ ...expected, written });
  });

  it.each([
    '50 mg',
    '50/tablet',
    'mg/tablet',
    '50 mg/pill',
    '0 mg/tablet',
    '5 mg/mL/tablet',
    '5 IU/mL',
  ])('refuses the strength "%s"', (written) => {
    expect(problemsOf(caseWith(['strength: 50 mg/tablet', `strength: ${written}`]))).toMatchObject([
      {
        field: `${home}.strength`,
        found: `"${written}"`,
        mend: 'Write the mass, a slash, and tablet, capsule, mL, drop, or g of an ointment.',
      },
    ]);
  });

  it('takes the spellings of a unit that an amount takes', () => {
    const record = accepted(
      caseWith(
        ['strength: 50 mg/tablet', 'strength: 25 mg / ml'],
        ['give: 1/2 tablet', 'give: 1 mL'],
        ['dispensed: 3 tablets', 'dispensed: 10 mL'],
      ),
    );
    expect(record.value.home.medicines[0]?.strength).toMatchObject({ value: 25, per: 'mL' });
  });

  const tube = (give: string, route: string): Change[] => [
    ['strength: 50 mg/tablet', 'strength: 3 mg/g'],
    ['give: 1/2 tablet', `give: ${give}`],
    ['route: by mouth', `route: ${route}`],
    ['dispensed: 3 tablets', 'dispensed: 5 g'],
  ];

  it.each([
    ['0.5 cm', 'in the eye'],
    ['1 pea', 'on the skin'],
    ['1 thin layer', 'on the skin'],
  ])('gives %s of an ointment %s', (give, route) => {
    expect(accepted(caseWith(...tube(give, route))).value.home.medicines[0]?.give.written).toBe(
      give,
    );
  });

  it.each([
    ['0.5 cm', 'by mouth'],
    ['1 drop', 'in the eye'],
  ])('refuses %s of an ointment %s', (give, route) => {
    expect(problemsOf(caseWith(...tube(give, route)))).toMatchObject([
      {
        kind: 'an amount in another unit than the strength',
        field: `${home}.give`,
        mend: 'Write it like "0.5 cm", "1 pea" or "1 thin layer", or mend route or strength.',
      },
    ]);
  });

  it('refuses a strip of what is no ointment', () => {
    expect(problemsOf(caseWith(['give: 1/2 tablet', 'give: 1 cm']))).toMatchObject([
      { kind: 'an amount in another unit than the strength', field: `${home}.give` },
    ]);
  });

  const bottle = (route: string): Change[] => [
    ['strength: 50 mg/tablet', 'strength: 3 mg/mL'],
    ['give: 1/2 tablet', 'give: 1 drop'],
    ['route: by mouth', `route: ${route}`],
    ['dispensed: 3 tablets', 'dispensed: 5 mL'],
  ];

  it.each(['in the eye', 'in the ear'])(
    'gives drops of a bottle that tells what a mL holds: %s',
    (route) => {
      expect(caseWith(...bottle(route)).ok).toBe(true);
    },
  );

  it('gives no drops of it by mouth, where a drop is too uncertain a measure', () => {
    expect(problemsOf(caseWith(...bottle('by mouth')))).toMatchObject([{ field: `${home}.give` }]);
  });

  it.each([
    ['100 mg/5 mL', 'Write what one mL holds: "20 mg/mL".'],
    ['0.5mg / 2tablets', 'Write what one tablet holds: "0.25 mg/tablet".'],
    [
      '2 %',
      'Write what one mL holds. If the label means grams in 100 mL, that is "20 mg/mL"; of an ointment, "20 mg/g".',
    ],
    [
      '0.05%',
      'Write what one mL holds. If the label means grams in 100 mL, that is "0.5 mg/mL"; of an ointment, "0.5 mg/g".',
    ],
  ])('says how a label that reads "%s" is written', (written, mend) => {
    expect(problemsOf(caseWith(['strength: 50 mg/tablet', `strength: ${written}`]))).toMatchObject([
      { field: `${home}.strength`, mend },
    ]);
  });

  it.each<[string, Change[], string, string]>([
    [
      'an interval and times of day together',
      [['every: 12 h', 'every: 12 h\n      at: [08:00, 20:00]']],
      'at',
      'Keep "every" for an exact interval, or "at" for times of day.',
    ],
    [
      'no time at all',
      [['      every: 12 h\n', '']],
      'every',
      'Add "every: 12 h" or "at: [08:00, 20:00]".',
    ],
    [
      'no dose to start from',
      [['      last given: 08:40\n', '']],
      'last given',
      'Add "last given: 10:30", or "first: 2026-03-10 20:00" where none was given.',
    ],
    [
      'an amount in another unit than the strength',
      [['give: 1/2 tablet', 'give: 1/2 capsule']],
      'give',
      'Write it in tablet, or mend the strength.',
    ],
    [
      'a dispensed amount in another unit than the strength',
      [['dispensed: 3 tablets', 'dispensed: 3 mL']],
      'dispensed',
      'Write it in tablet, or mend the strength.',
    ],
  ])('is refused with %s', (_, changes, field, mend) => {
    expect(problemsOf(caseWith(...changes))).toMatchObject([{ field: `${home}.${field}`, mend }]);
  });

  it.each([
    ['at: [08:00, 08:00]', 'each time of day once'],
    ['at: []', 'at least one time of day'],
  ])('is refused with %s', (at, expected) => {
    expect(problemsOf(caseWith(['every: 12 h', at]))).toMatchObject([
      { field: `${home}.at`, expected },
    ]);
  });

  it.each(['0', '-1', '1001'])('is refused with %s doses', (doses) => {
    expect(problemsOf(caseWith(['doses: 6', `doses: ${doses}`]))).toMatchObject([
      { field: `${home}.doses` },
    ]);
  });
});
