import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import { z } from 'zod';
import type { Problem } from '../../src/record/problem.js';
import { readCase, readClinic } from '../../src/record/read-case.js';
import { text } from '../../src/record/words.js';
import { readYaml } from '../../src/record/yaml-file.js';
import { fieldName } from '../../src/record/yaml-place.js';
import { accepted, CASE, CLINIC, caseWith, changed, KEYS, problemsOf } from './sample.js';

const only = (problems: readonly Problem[]): Problem => {
  expect(problems).toHaveLength(1);
  return problems[0] as Problem;
};

describe('a record', () => {
  it('is read, and tells where each field stands', () => {
    const record = accepted(caseWith());
    expect(record.value.patient.weight).toEqual({ value: 12.5, unit: 'kg', written: '12.5 kg' });
    expect(record.where('patient', 'weight')).toBe('case.yaml:9 patient.weight');
    expect(record.where('home', 'medicines', 0, 'give')).toBe(
      'case.yaml:46 home.medicines[0].give',
    );
    expect(record.at('anesthesia', 'drugs', 1, 'dose')).toEqual({
      file: 'case.yaml',
      line: 27,
      column: 26,
      end: 36,
      field: 'anesthesia.drugs[1].dose',
    });
  });

  it('gives the place of the group that would hold a field, where the field is absent', () => {
    expect(accepted(caseWith()).at('patient', 'microchip')).toMatchObject({ line: 2, column: 1 });
  });
});

describe('a problem of a record names file, line, column, field, found, expected and mend', () => {
  it('for a missing key', () => {
    expect(only(problemsOf(caseWith(['  weight: 12.5 kg\n', ''])))).toEqual({
      kind: 'a missing key',
      file: 'case.yaml',
      line: 2,
      column: 1,
      field: 'patient.weight',
      found: 'nothing',
      expected: 'the body weight, a number and one of these units: kg, lb, g',
      mend: 'Add "weight:" with its value.',
    });
  });

  it('once for a key that is misspelt, not as missing too', () => {
    const { field, mend } = only(problemsOf(caseWith(['  weight: 12.5 kg', '  wieght: 12.5 kg'])));
    expect(field).toBe('patient.wieght');
    expect(mend).toBe('Did you mean "weight"? Otherwise remove the line.');
  });

  it('for each of two slips in one group', () => {
    const problems = problemsOf(
      caseWith(['  weight: 12.5 kg', '  wieght: 12.5 kg'], ['  sex: female\n', '']),
    );
    expect(problems.map(({ field }) => field).sort()).toEqual(['patient.sex', 'patient.wieght']);
  });

  it('for a tab in the indentation, and for nothing that comes of it', () => {
    const { line, found, mend } = only(
      problemsOf(caseWith(['  weight: 12.5 kg', '\tweight: 12.5 kg'])),
    );
    expect([line, found, mend]).toEqual([
      9,
      'a tab in the indentation',
      'Put spaces in place of the tab.',
    ]);
  });

  it.each([
    ['a key', `? ${'k'.repeat(5000)}\n: 1\n`],
    ['a tag', `record: !<${'t'.repeat(5000)}> x\n`],
    ['an alias', `record: *${'a'.repeat(5000)}\n`],
    ['a value', `record: [${'v'.repeat(5000)}]\nspecies: ${'v'.repeat(5000)}\n`],
    ['a quote that never ends', `record: "${'q'.repeat(5000)}\n`],
  ])('for %s of thousands of letters, by its beginning', (_, yaml) => {
    const problems = problemsOf(readCase(yaml, 'case.yaml', KEYS));
    expect(problems.length).toBeGreaterThan(0);
    for (const { found, expected, mend, field } of problems) {
      expect(`${found} ${expected} ${mend} ${field ?? ''}`.length).toBeLessThan(1000);
    }
  });

  it.each(['v'.repeat(300), 'a\nb'])('for a file name that no disk takes', (name) => {
    const vitals = `vitals: ${JSON.stringify(`${name}.csv`)}`;
    expect(only(problemsOf(caseWith(['vitals: vitals.csv', vitals])))).toMatchObject({
      kind: 'a file name that is not understood',
      field: 'monitor.vitals',
    });
  });

  it('for a misspelt key, with the key that was meant', () => {
    expect(problemsOf(caseWith(['  weight:', '  wieght:']))).toContainEqual({
      kind: 'an unknown key',
      file: 'case.yaml',
      line: 9,
      column: 3,
      end: 18,
      field: 'patient.wieght',
      found: 'the key "wieght"',
      expected: 'a key that the record knows',
      mend: 'Did you mean "weight"? Otherwise remove the line.',
    });
  });

  it('for a misspelt key deep in a list', () => {
    expect(problemsOf(caseWith(['      dispensed:', '      dispenced:']))).toContainEqual(
      expect.objectContaining({
        line: 52,
        column: 7,
        field: 'home.medicines[0].dispenced',
        mend: 'Did you mean "dispensed"? Otherwise remove the line.',
      }),
    );
  });

  it('for a word that is not among those allowed', () => {
    expect(only(problemsOf(caseWith(['species: dog', 'species: doog'])))).toEqual({
      kind: 'a value that is not understood',
      file: 'case.yaml',
      line: 4,
      column: 3,
      end: 16,
      field: 'patient.species',
      found: '"doog"',
      expected: 'the species, one of: dog, cat, rabbit, ferret',
      mend: 'Did you mean "dog"?',
    });
  });

  it('for a day that does not exist', () => {
    expect(only(problemsOf(caseWith(['  date: 2026-03-09', '  date: 2026-02-30'])))).toEqual({
      kind: 'a date or time that is not understood',
      file: 'case.yaml',
      line: 16,
      column: 3,
      end: 19,
      field: 'surgery.date',
      found: '"2026-02-30"',
      expected: 'the day of surgery, a date such as 2026-03-09',
      mend: 'That day is not in the calendar; write one that is.',
    });
  });

  it('for a number without its unit', () => {
    expect(only(problemsOf(caseWith(['weight: 12.5 kg', 'weight: 12.5'])))).toMatchObject({
      found: 'the bare number 12.5',
      mend: 'Add the unit, for example "12.5 kg".',
    });
  });

  it('for a number where words stand', () => {
    expect(only(problemsOf(caseWith(["record: '2026-0042'", 'record: 2026'])))).toMatchObject({
      found: 'the bare number 2026',
      mend: 'Put quotes around it.',
    });
  });

  it.each(['“Thimble”', '‘Thimble’', '„Thimble“', '«Thimble»'])(
    'for quotes that a text program has turned: %s',
    (written) => {
      expect(only(problemsOf(caseWith(['name: Thimble', `name: ${written}`])))).toMatchObject({
        field: 'patient.name',
        mend: 'Write Thimble or "Thimble"; a text program has turned the quotes.',
      });
    },
  );

  it('for none in a name that holds an apostrophe', () => {
    expect(caseWith(['name: Thimble', 'name: O’Hob']).ok).toBe(true);
  });

  it('for a decimal comma within braces, which would leave a tenth or nothing of a dose', () => {
    const problems = problemsOf(caseWith(['dose: 2.5 mg', 'dose: 2,5 mg']));
    expect(problems.map(({ mend }) => mend)).toEqual([
      'Within braces a comma parts two entries: write a decimal point, "2.5 mg".',
      'Within braces a comma parts two entries: write a decimal point, "2.5 mg".',
    ]);
  });

  it('for a comma in a text within braces, whose second half would be a key to be removed', () => {
    const [problem, ...more] = problemsOf(
      caseWith([
        'events:\n',
        'events:\n  - { at: 09:40, what: remark, note: Wide beats, first single, then two }\n',
      ]),
    );
    expect(problem).toMatchObject({
      found: 'the key "first single"',
      mend: 'Within braces a comma parts two entries: put quotes around a text that holds one, "Wide beats, first single, then two".',
    });
    expect(more.map(({ mend }) => mend)).toEqual([problem?.mend]);
  });

  it.each([
    ['doses: 6', 'doses: 2.5', 'the bare number 2.5'],
    ['doses: 6', "doses: '6'", '"6"'],
  ])('for a count that is not whole: %s to %s', (from, to, found) => {
    expect(only(problemsOf(caseWith([from, to])))).toMatchObject({
      field: 'home.medicines[0].doses',
      found,
      expected: 'the number of doses at home, a whole number',
      mend: 'Write it as described.',
    });
  });

  it('for an empty value', () => {
    expect(only(problemsOf(caseWith(['breed: mixed breed', 'breed:'])))).toMatchObject({
      line: 5,
      found: 'an empty value',
      expected: 'the breed, as text',
      mend: 'Write its value after the colon, or below it.',
    });
  });

  it('for a text where a group belongs, in words and not in terms of a program', () => {
    const text = changed(CASE, [
      'team:\n  surgeon: Dr. Basil Underhill\n',
      'team: Dr. Basil Underhill\n',
    ]);
    expect(only(problemsOf(readCase(text, 'case.yaml', KEYS)))).toMatchObject({
      line: 13,
      field: 'team',
      found: '"Dr. Basil Underhill"',
      expected: 'a group with the keys surgeon, anesthesia, others',
    });
  });

  it('for a group where a list belongs', () => {
    const problems = problemsOf(
      caseWith([
        '  - { at: 09:30, what: first incision }',
        '  { at: 09:30, what: first incision }',
      ]),
    );
    expect(only(problems)).toMatchObject({
      field: 'events',
      found: 'a group of keys',
      expected: 'a list, with a dash before each item',
    });
  });

  it('for a key that is a number', () => {
    expect(only(problemsOf(caseWith(['owner:\n', '1: x\nowner:\n'])))).toMatchObject({
      line: 10,
      column: 1,
      field: '1',
      found: 'the key "1"',
    });
  });

  it('for every mistake at once', () => {
    const fields = problemsOf(
      caseWith(
        ['species: dog', 'species: wolf'],
        ['weight: 12.5 kg', 'weight: 12.5'],
        ['surgeon: Dr. Basil Underhill', 'sturgeon: Dr. Basil Underhill'],
        ['strength: 50 mg/tablet', 'strength: 50 mg'],
        ['  rest: 2 weeks\n', ''],
      ),
    ).map(({ field }) => field);
    expect(fields.sort()).toEqual([
      'home.medicines[0].strength',
      'home.rest',
      'patient.species',
      'patient.weight',
      'team.sturgeon',
    ]);
  });
});

describe('a file that is not one YAML record', () => {
  const schema = z.strictObject({ name: text('a name'), also: text('more').optional() });
  const read = (yaml: string) => problemsOf(readYaml(yaml, 'case.yaml', schema));

  it.each([
    ['an open quote', 'name: "Juniper', { line: 1, column: 7 }],
    ['an open quote far above', 'also: x\nname: "Juniper\nmore: y\nand: z', { line: 2, column: 7 }],
    ['an open bracket', 'name: [1', { line: 1 }],
    ['two colons in a line', 'name: x: y', { line: 1 }],
    ['an unknown tag', 'name: !Bella', { line: 1, column: 7 }],
  ])('gives the line of %s', (_, yaml, place) => {
    const [problem] = read(yaml);
    expect(problem).toMatchObject({
      file: 'case.yaml',
      ...place,
      expected: 'YAML that can be read',
      mend: 'Check the indentation, the colons and the quotes around here.',
    });
    expect(problem?.found).toMatch(/^not YAML: ./);
  });

  it('names a key that is there twice', () => {
    expect(only(read('name: x\nalso: y\nname: z'))).toEqual({
      kind: 'a key given twice',
      file: 'case.yaml',
      line: 3,
      column: 1,
      found: 'a key that the same group has already',
      expected: 'each key once',
      mend: 'Take one of the two out.',
    });
  });

  it('refuses a second document', () => {
    expect(only(read('name: x\n---\nname: y'))).toMatchObject({
      line: 2,
      found: 'a second document',
      expected: 'one record in one file',
    });
  });

  it.each([
    ['', 'an empty file'],
    ['# only a remark\n', 'an empty file'],
    ['- name: x', 'a list of 1'],
    ['just a sentence', '"just a sentence"'],
    ['42', 'the bare number 42'],
  ])('refuses %j, finding %s', (yaml, found) => {
    expect(only(read(yaml))).toMatchObject({
      line: 1,
      column: 1,
      found,
      expected: 'a group with the keys name, also',
    });
  });

  it('refuses an alias, defined or not, at its place', () => {
    expect(only(read('name: &a x\nalso: *a'))).toMatchObject({
      line: 2,
      column: 7,
      found: 'the alias "*a"',
      mend: 'Write the value itself; put quotes around a text that begins with a star.',
    });
    expect(only(read('name: *star'))).toMatchObject({ line: 1, found: 'the alias "*star"' });
    expect(only(read('name: &a [*a]'))).toMatchObject({ found: 'the alias "*a"' });
  });

  it('refuses a bomb of aliases at once', () => {
    const bomb = [
      'a0: &a0 [x, x, x, x, x, x, x, x, x]',
      ...Array.from(
        { length: 30 },
        (_, level) => `a${level + 1}: &a${level + 1} [${Array(9).fill(`*a${level}`).join(', ')}]`,
      ),
    ].join('\n');
    const before = performance.now();
    expect(read(bomb).length).toBeLessThanOrEqual(20);
    expect(performance.now() - before).toBeLessThan(1000);
  });

  it.each(['[', '{a: ', '- ', '"'])('survives twenty thousand times %j', (opening) => {
    const problems = read(opening.repeat(20_000));
    expect(problems.length).toBeGreaterThan(0);
    expect(problems.length).toBeLessThanOrEqual(20);
  });

  it('takes no key for a property of the program', () => {
    expect(only(read('name: x\n__proto__: { also: y }'))).toMatchObject({
      line: 2,
      found: 'the key "__proto__"',
    });
    expect(only(read('name: x\nconstructor: y')).found).toBe('the key "constructor"');
  });

  it('ends in a value or in problems for any text', () => {
    const piece = fc.constantFrom(
      ...['name', 'also', ': ', ':', '\n', '  ', '- ', '&a ', '*a', '[', ']', '{', '}', '"', "'"],
      ...['!!set ', '|\n', '>', '#', '? ', '---\n', '...\n', '%YAML 1.1\n', 'é', '\t', '\0', '1'],
    );
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 30 }), (pieces) => {
        const outcome = readYaml(pieces.join(''), 'case.yaml', schema);
        expect(outcome.ok || outcome.problems.length > 0).toBe(true);
      }),
      { numRuns: 300 },
    );
  });
});

it('writes a field as an author would say it', () => {
  expect(fieldName(['home', 'medicines', 0, 'last given'])).toBe('home.medicines[0].last given');
  expect(fieldName([])).toBe('');
});

describe('a clinic', () => {
  const read = (...changes: [string, string][]) =>
    readClinic(changed(CLINIC, ...changes), 'clinic.yaml', KEYS);

  it('is read', () => {
    expect(accepted(read()).value.hours.friday).toEqual({
      from: '08:00',
      to: '17:00',
      spans: [['08:00', '17:00']],
    });
    expect(accepted(read()).value.hours.sunday).toBeNull();
  });

  it.each([
    ['  friday: 08:00-17:00', '  friday: 17:00-08:00', 'hours.friday'],
    ['  friday: 08:00-17:00', '  friday: 8-17', 'hours.friday'],
    ['  friday: 08:00-17:00', '  friday: 08:00-08:00', 'hours.friday'],
    ['  friday: 08:00-17:00', '  friday: shut', 'hours.friday'],
    ['America/Chicago', 'Central', 'time zone'],
    ['paper: A4', 'paper: A5', 'paper'],
    ['[en, es]', '[]', 'languages'],
    ['[en, es]', '[en, fr]', 'languages[1]'],
    ['date: 2026-03-19', 'date: 2026-02-29', 'closed on[0].date'],
    ['  sunday: closed\n', '', 'hours.sunday'],
  ])('refuses "%s" as "%s"', (from, to, field) => {
    expect(only(problemsOf(read([from, to])))).toMatchObject({ file: 'clinic.yaml', field });
  });
});

it('counts the problems beyond a hundred instead of listing them', () => {
  const schema = z.strictObject({ list: z.array(z.strictObject({ dose: z.string() })) });
  const list = Array.from({ length: 130 }, () => '  - { weight: x }').join('\n');
  const found = problemsOf(readYaml(`list:\n${list}`, 'a.yaml', schema));
  expect(found.length).toBeLessThan(260);
  expect(found.at(-1)).toMatchObject({ file: 'a.yaml', found: '160 more problems' });
});

it('works out the form of a schema once, however many problems a record has', () => {
  const schema = z.strictObject({ list: z.array(z.strictObject({ dose: z.string() })) });
  const workedOut = vi.spyOn(schema._zod, 'processJSONSchema' as never);
  const list = Array.from({ length: 130 }, () => '  - { weight: x }').join('\n');
  problemsOf(readYaml(`list:\n${list}`, 'a.yaml', schema));
  expect(workedOut).toHaveBeenCalledTimes(1);
});
