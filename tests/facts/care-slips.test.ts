import { Temporal } from 'temporal-polyfill';
import { describe, expect, it } from 'vitest';
import { buildFacts } from '../../src/facts/build-facts.js';
import type { Warning } from '../../src/record/problem.js';
import { readVitals } from '../../src/record/vitals-file.js';
import { accepted, type Change, caseWith, clinicWith, FORMULARY } from '../record/sample.js';

/** What is asked of the sample with some lines changed. */
function asked(...changes: Change[]): readonly Warning[] {
  const begin = Temporal.PlainDateTime.from('2026-03-09T09:10').toZonedDateTime('America/Chicago');
  const vitals = accepted(readVitals('clock,EtCO2 [mmHg]\n09:20,4.9\n09:30,5\n', 'v.csv', begin));
  return accepted(buildFacts(clinicWith(), accepted(caseWith(...changes)), vitals, [], FORMULARY))
    .warnings;
}

const ofKind = (kind: Warning['kind'], ...changes: Change[]) =>
  asked(...changes).filter((one) => one.kind === kind);

const VENTILATED = (rate: string): Change => [
  'breathing: spontaneous',
  `breathing: ventilator\n  ventilator rate: ${rate}`,
];
const FLUID = (dose: string): Change => [
  '  drugs:\n',
  `  drugs:\n    - { drug: lactated Ringer, dose: ${dose}, route: intravenous, at: 09:20 }\n`,
];
const DROPS = (changed: string): Change => [
  /for: pain and swelling[\s\S]*route: by mouth\n/,
  `${changed}\n`,
];

describe('a slip that is asked about', () => {
  it.each([
    ['a collar left on for long', 'home.collar', ['collar: 12 days', 'collar: 12 weeks']],
    ['an NSAID without food', 'home.medicines[0].food', ['food: with food', 'food: either']],
    ['an NSAID without food', 'home.medicines[0].food', ['food: with food', 'food: without food']],
    ['a rate that no ventilator gives', 'anesthesia.ventilator rate', VENTILATED('100 /min')],
    ['a rate that no ventilator gives', 'anesthesia.ventilator rate', VENTILATED('1 /min')],
    ['more fluid than is given at one time', 'anesthesia.drugs[0].dose', FLUID('1250 mL')],
    [
      'a consent far from the surgery',
      'consent.teaching.on',
      ['teaching: { given: no }', 'teaching: { given: no, on: 2025-03-09 }'],
    ],
  ] as [Warning['kind'], string, Change][])('%s', (kind, field, change) => {
    expect(ofKind(kind)).toEqual([]);
    expect(ofKind(kind, change)).toMatchObject([{ field, accepted: null }]);
  });

  it('a discharge of another year', () => {
    const late: Change[] = [
      ['discharge: 15:00', 'discharge: 2027-03-09 15:00'],
      ['last given: 08:40', 'last given: 2027-03-09 08:40'],
    ];
    expect(ofKind('a long stay in the clinic', ...late)).toMatchObject([
      { field: 'surgery.discharge', found: 'home 365.2 days after the end of anesthesia' },
    ]);
    expect(ofKind('a long stay in the clinic')).toEqual([]);
  });

  it('days at home that are over before the patient is there, or lie years ahead', () => {
    const later: Change[] = [
      ['discharge: 15:00', 'discharge: 2026-03-13 15:00'],
      ['last given: 08:40', 'last given: 2026-03-13 08:40'],
    ];
    const results: Change = [
      '  rechecks:\n',
      '  soft food: 2 days\n  awaited:\n    - { result: what it was, after: 2 days }\n  rechecks:\n',
    ];
    expect(
      ofKind('a day that is not one at home', ...later, results).map(({ field, found }) => [
        field,
        found,
      ]),
    ).toEqual([
      ['home.rechecks[0].after', 'a visit (wound check) on 2026-03-12'],
      ['home.awaited[0].after', 'a result on 2026-03-11'],
      ['home.soft food', 'the last day of soft food on 2026-03-11'],
    ]);
    expect(ofKind('a day that is not one at home', results)).toEqual([]);
    expect(
      ofKind('a day that is not one at home', ['after: 3 days', 'after: 3000 days']),
    ).toMatchObject([
      { field: 'home.rechecks[0].after', expected: expect.stringContaining('at most 366 days') },
    ]);
  });

  it('a course of months, and a box of tablets for a few doses', () => {
    const long: Change[] = [
      ['doses: 6', 'doses: 600'],
      ['dispensed: 3 tablets', 'dispensed: 300 tablets'],
    ];
    expect(ofKind('a course that lasts for long', ...long)).toMatchObject([
      { field: 'home.medicines[0].doses' },
    ]);
    expect(
      ofKind('much more handed out than is given', [
        'dispensed: 3 tablets',
        'dispensed: 30 tablets',
      ]),
    ).toMatchObject([{ field: 'home.medicines[0].dispensed', found: '30 tablets' }]);
    expect(
      ofKind('much more handed out than is given', [
        'dispensed: 3 tablets',
        'dispensed: 10 tablets',
      ]),
    ).toEqual([]);
  });

  it('keeps quiet of what is usual', () => {
    const usual: [Warning['kind'], Change][] = [
      ['a collar left on for long', ['collar: 12 days', 'collar: 6 weeks']],
      ['an NSAID without food', ['drug: carprofen', 'drug: tramadol']],
      ['a rate that no ventilator gives', VENTILATED('12 /min')],
      ['more fluid than is given at one time', FLUID('125 mL')],
      [
        'a consent far from the surgery',
        ['teaching: { given: no }', 'teaching: { given: no, on: 2026-03-01 }'],
      ],
    ];
    for (const [kind, change] of usual) expect(ofKind(kind, change), kind).toEqual([]);
  });

  it('names the unit that an end-tidal CO2 of 5 may have', () => {
    expect(ofKind('readings that hardly a patient has')).toMatchObject([
      { found: expect.stringContaining('EtCO2 4.9'), mend: expect.stringContaining('kPa') },
    ]);
  });

  it('is a liquid for the mouth that would be poured into an ear or an eye', () => {
    const kind = 'a route that hardly fits the medicine';
    const liquid = (purpose: string, give: string, route: string): Change[] => [
      DROPS(
        `for: ${purpose}\n      strength: 1.5 mg/mL\n      give: ${give}\n      route: ${route}`,
      ),
      ['dispensed: 3 tablets', 'dispensed: 60 mL'],
    ];
    const withoutMeal: Change = ['food: with food', 'food: either'];
    expect(
      ofKind(kind, ...liquid('pain and swelling', '0.05 mL', 'in the left ear')),
    ).toMatchObject([
      { field: 'home.medicines[0].route', found: 'carprofen in the left ear, with food' },
    ]);
    expect(
      ofKind(kind, ...liquid('pain and swelling', '1 mL', 'in the left eye'), withoutMeal),
    ).toMatchObject([{ found: '1 mL of carprofen in the left eye' }]);
    expect(ofKind(kind, ...liquid('infection', '1 mL', 'in the left ear'), withoutMeal)).toEqual(
      [],
    );
    expect(ofKind(kind, ...liquid('infection', '1 mL', 'by mouth'), withoutMeal)).toEqual([]);
  });

  it('is accepted with a reason', () => {
    const because: Change = [
      '  collar: 12 days',
      '  accepted because: { T359: it digs }\n  collar: 12 weeks',
    ];
    expect(ofKind('a collar left on for long', because)).toMatchObject([{ accepted: 'it digs' }]);
  });
});
