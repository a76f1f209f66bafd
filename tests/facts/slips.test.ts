import { describe, expect, it } from 'vitest';
import { accepted, type Change, caseWith, problemsOf } from '../record/sample.js';
import { builtFrom, sheetOf } from '../words/owner/sheet-of.js';

const warned = (...changes: Change[]) =>
  accepted(builtFrom([], ...changes)).warnings.map(({ kind, field }) => [kind, field]);
const refused = (...changes: Change[]) =>
  problemsOf(caseWith(...changes)).map(({ kind, field }) => [kind, field]);
const has = (...one: [string, string]) => expect.arrayContaining([one]);

describe('a slip that would reach the owner', () => {
  it('is asked about where the first dose at home is of another month', () => {
    const late = ['a long gap before the first home dose', 'home.medicines[0].first'] as const;
    const first = (when: string): Change => ['last given: 08:40', `first: ${when}`];
    expect(warned(first('2026-04-09 20:00'))).toEqual(has(...late));
    expect(warned(first('2026-03-11 15:00'))).not.toEqual(has(...late));
    expect(warned(first('2026-03-11 15:01'))).toEqual(has(...late));
    // One and a half intervals are more than two days.
    expect(warned(first('2026-03-12 15:00'), ['every: 12 h', 'every: 48 h'])).not.toEqual(
      has(...late),
    );
  });

  it('is no slip where a later step of the same medicine follows the one before', () => {
    // The six doses of the sample end on Thursday 12 March at 08:40.
    const step = (drug: string, first: string): Change => [
      '  collar: 12 days\n',
      `    - { drug: ${drug}, for: pain and swelling, strength: 50 mg/tablet, give: 1/4 tablet, route: by mouth, every: 24 h, food: with food, first: ${first}, doses: 3, dispensed: 1 tablet }\n  collar: 12 days\n`,
    ];
    const late = ['a long gap before the first home dose', 'home.medicines[1].first'] as const;
    expect(warned(step('carprofen', '2026-03-13 08:40'))).not.toEqual(has(...late));
    expect(warned(step('carprofen', '2026-03-14 08:40'))).not.toEqual(has(...late));
    expect(warned(step('carprofen', '2026-03-23 08:40'))).toEqual(has(...late));
    expect(warned(step('tramadol', '2026-03-13 08:40'))).toEqual(has(...late));
  });

  it('is asked about where the first meal is more than a day away, and its day is printed', () => {
    const meal = (from: string): Change => [
      '  rest: 2 weeks\n',
      `  rest: 2 weeks\n  food: { from: ${from}, how much: a few bites }\n`,
    ];
    const fast = ['food withheld from a patient that must eat', 'home.food.from'] as const;
    expect(warned(meal('2026-03-16 18:00'))).toEqual(has(...fast));
    expect(warned(meal('2026-03-10 15:00'))).not.toEqual(has(...fast));
    expect(sheetOf('en', [], meal('18:00'))).toContain('From 6:00 pm on, give a few bites');
    expect(sheetOf('en', [], meal('2026-03-10 07:00'))).toContain(
      'From Tue, Mar 10, 7:00 am on, give',
    );
    expect(sheetOf('es', [], meal('2026-03-10 07:00'))).toContain(
      'Desde el martes, 10 de mar a las 7:00 a.m., dé',
    );
  });

  it('is refused where a tablet goes into an eye', () => {
    expect(refused(['route: by mouth', 'route: in the eye'])).toEqual([
      ['a route that the form does not take', 'home.medicines[0].route'],
    ]);
    expect(caseWith(['route: by mouth', 'route: inside the cheek']).ok).toBe(true);
  });

  it('is asked about where a text speaks of the other side', () => {
    const site = (where: string): Change => [
      '  discharge: 15:00',
      `  site: ${where}\n  discharge: 15:00\n  note to owner: NOTE`,
    ];
    const note = (text: string): Change => ['NOTE', text];
    const sides = ['two sides of the body', 'surgery.note to owner'] as const;
    expect(warned(site('left thigh'), note('The right leg was shaved.'))).toEqual(has(...sides));
    expect(warned(site('costado derecho'), note('Cortamos en el izquierdo.'))).toEqual(
      has(...sides),
    );
    const drops: Change[] = [
      ['strength: 50 mg/tablet', 'strength: 5 mg/mL'],
      ['give: 1/2 tablet', 'give: 1 drop'],
      ['dispensed: 3 tablets', 'dispensed: 5 mL'],
      ['route: by mouth', 'route: in the right eye'],
    ];
    const eye = ['two sides of the body', 'home.medicines[0].route'] as const;
    expect(warned(site('left upper eyelid'), note('All well.'), ...drops)).toEqual(has(...eye));
    expect(warned(site('right upper eyelid'), note('All well.'), ...drops)).not.toEqual(
      has(...eye),
    );
    expect(warned(site('right thigh'), note('We shaved the left, too.'))).toEqual(has(...sides));
    expect(warned(site('right thigh'), note('He ate before he left.'))).not.toEqual(has(...sides));
    for (const fine of [
      'Call right away.',
      'All right so far.',
      'She ate before she left.',
      'The wound was left open.',
      'The left leg.',
      'Left and right were shaved.',
    ]) {
      expect(warned(site('left thigh'), note(fine)), fine).not.toEqual(has(...sides));
    }
  });

  it('is asked about where a medicine goes into the eye that was taken out, not into the one that is left', () => {
    const eye = ['two sides of the body', 'home.medicines[0].route'] as const;
    const drops = (route: string, site: string): Change[] => [
      ['procedure: skin lump removal\n', `procedure: eye removal\n  site: ${site}\n`],
      ['strength: 50 mg/tablet', 'strength: 5 mg/mL'],
      ['give: 1/2 tablet', 'give: 1 drop'],
      ['dispensed: 3 tablets', 'dispensed: 5 mL'],
      ['route: by mouth', `route: ${route}`],
    ];
    expect(warned(...drops('in the right eye', 'right eye'))).toEqual(has(...eye));
    expect(warned(...drops('in the right eye', 'ojo derecho'))).toEqual(has(...eye));
    expect(warned(...drops('in each eye', 'the eye'))).toEqual(has(...eye));
    expect(warned(...drops('in the left eye', 'right eye'))).not.toEqual(has(...eye));
    expect(warned(...drops('in the eye', 'right eye'))).not.toEqual(has(...eye));
  });

  it('is asked about where weeks are written for the days of a drain', () => {
    const long = ['a drain left in for long', 'closure.drain.out after'] as const;
    const drain = (after: string): Change => [
      '  layers:\n',
      `  drain: { what: passive drain, out after: ${after} }\n  layers:\n`,
    ];
    expect(warned(drain('3 weeks'))).toEqual(has(...long));
    expect(warned(drain('10 days'))).not.toEqual(has(...long));
  });

  it('is asked about where an incision is longer than the body', () => {
    const long = ['an incision longer than the body', 'surgery.incision length'] as const;
    const length = (written: string): Change => [
      '  discharge: 15:00',
      `  incision length: ${written}\n  discharge: 15:00`,
    ];
    expect(warned(length('110 cm'))).toEqual(has(...long));
    expect(warned(length('600 mm'))).toEqual(has(...long));
    // A dog of 12.5 kg has a trunk of some 45 cm.
    expect(warned(length('50 cm'))).not.toEqual(has(...long));
    expect(warned(length('110 mm'))).not.toEqual(has(...long));
  });

  it('is asked about where the procedure is never done at the site', () => {
    const away = ['a site that does not fit the procedure', 'surgery.site'] as const;
    const knee = (site: string): Change => [
      'procedure: skin lump removal\n',
      `procedure: knee ligament repair\n  site: ${site}\n`,
    ];
    expect(warned(knee('right elbow'))).toEqual(has(...away));
    expect(warned(knee('right stifle'))).not.toEqual(has(...away));
  });

  it('is refused where a drain is looked at after it is out', () => {
    const drain = (after: string): Change[] => [
      ['  layers:\n', '  drain: { what: passive drain, out after: 3 days }\n  layers:\n'],
      ['  rest: 2 weeks\n', '  rest: 2 weeks\n'],
      [/ {2}rechecks:\n.*\n/, `  rechecks:\n    - { what: drain, after: ${after} }\n`],
    ];
    expect(refused(...drain('13 days'))).toEqual([
      ['moments out of order', 'home.rechecks[0].after'],
    ]);
    expect(caseWith(...drain('3 days')).ok).toBe(true);
  });
});

describe('a slip that would be told of the patient', () => {
  it('is asked about where the breed is of another species', () => {
    const breed = ['a breed of another species', 'patient.breed'] as const;
    const of = (species: string, name: string) =>
      warned(
        ['species: dog', `species: ${species}`],
        ['breed: mixed breed', `breed: ${name}`],
        ['weight: 12.5 kg', 'weight: 8 kg'],
      );
    expect(of('cat', 'Labrador Retriever')).toEqual(has(...breed));
    expect(of('dog', 'común europeo')).toEqual(has(...breed));
    expect(of('rabbit', 'Siamese')).toEqual(has(...breed));
    for (const [species, name] of [
      ['dog', 'German shorthair pointer'],
      ['cat', 'Siamese'],
      ['rabbit', 'lop'],
      ['dog', 'mixed breed'],
      ['dog', 'Xoloitzcuintle'],
    ] as const) {
      expect(of(species, name), name).not.toEqual(has(...breed));
    }
  });

  it('is asked about where a microchip number has a digit too few or too many', () => {
    const chip = ['a microchip number of another length', 'patient.microchip'] as const;
    const numbered = (number: string): Change => [
      '  weight: 12.5 kg\n',
      `  weight: 12.5 kg\n  microchip: "${number}"\n`,
    ];
    expect(warned(numbered('99911200441720'))).toEqual(has(...chip));
    expect(warned(numbered('9991120044172031'))).toEqual(has(...chip));
    expect(warned(numbered('999112004417203'))).not.toEqual(has(...chip));
  });

  it('is asked about where the age is beyond its species', () => {
    const born: Change = ['born: 2019-08-14', 'born: 1919-08-14'];
    expect(warned(born)).toEqual(has('an age that is unusual for the species', 'patient.born'));
    expect(warned(['born: 2019-08-14', 'age: 300 months'])).not.toEqual(
      has('an age that is unusual for the species', 'patient.age'),
    );
    expect(warned(['born: 2019-08-14', 'age: 301 months'])).toEqual(
      has('an age that is unusual for the species', 'patient.age'),
    );
  });

  it('is refused where anesthesia ends a day late, or a strip begins long after it', () => {
    expect(
      refused(
        ['  end: 10:15', '  end: 2026-03-10 10:15'],
        ['discharge: 15:00', 'discharge: 2026-03-10 15:00'],
      ),
    ).toEqual([['moments out of order', 'anesthesia.end']]);
    const strip = (begin: string): Change => [
      'closure:\n',
      `  strips: [{ file: a.edf, lead: II, begin: '${begin}' }]\nclosure:\n`,
    ];
    expect(refused(strip('19:18'))).toEqual([['moments out of order', 'monitor.strips[0].begin']]);
    expect(caseWith(strip('11:15')).ok).toBe(true);
  });

  it('is refused where joined edges are far apart, or staples hold no staples', () => {
    expect(refused(['edge gap: 0 mm', 'edge gap: 2 cm'])).toEqual([
      ['a closure that contradicts itself', 'closure.edge gap'],
    ]);
    expect(caseWith(['edge gap: 0 mm', 'edge gap: 5 mm']).ok).toBe(true);
    expect(refused(['pattern: simple interrupted', 'pattern: staples'])).toEqual([
      ['a layer that contradicts itself', 'closure.layers[1].pattern'],
    ]);
  });
});
