import { Temporal } from 'temporal-polyfill';
import { describe, expect, it } from 'vitest';
import { buildFacts } from '../../src/facts/build-facts.js';
import type { HomeCase } from '../../src/facts/case-facts.js';
import { ageOn } from '../../src/facts/patient.js';
import { DAY_TAKEN, type ReadStrip, startOf } from '../../src/facts/strip.js';
import { timelineOf } from '../../src/facts/timeline.js';
import type { Outcome } from '../../src/record/problem.js';
import { readVitals } from '../../src/record/vitals-file.js';
import {
  accepted,
  type Change,
  caseWith,
  clinicWith,
  FORMULARY,
  problemsOf,
} from '../record/sample.js';
import { demo } from './demo.js';
import { walk } from './walk.js';

const VITALS = `clock,systolic [mmHg],diastolic [mmHg],temperature [°C],breaths [/min],heart rate [/min]
09:10,120,60,21,12,100
09:20,110,56,21,12,98
09:30,75,45,37.8,10,96
09:40,100,60,37.6,10,94
`;

function factsWith(
  changes: readonly Change[],
  vitals: string = VITALS,
  strips: readonly ReadStrip[] = [],
  clinic: readonly Change[] = [],
): Outcome<HomeCase> {
  const record = accepted(caseWith(...changes));
  const begin = Temporal.PlainDateTime.from(
    `2026-03-09T${record.value.anesthesia.begin}`,
  ).toZonedDateTime('America/Chicago');
  const table = accepted(readVitals(vitals, 'vitals.csv', begin));
  return buildFacts(clinicWith(...clinic), record, table, strips, FORMULARY);
}

const facts = (...changes: Change[]) => accepted(factsWith(changes));

describe.each(demo.cases.map((loaded) => [loaded.name, loaded.facts] as const))(
  'the facts of %s',
  (_, built) => {
    it('are frozen all the way down', () => {
      for (const { path, value } of walk(built)) {
        if (typeof value === 'object' && value !== null && !ArrayBuffer.isView(value)) {
          expect(Object.isFrozen(value), path).toBe(true);
        }
      }
    });

    it('go through JSON without loss', () => {
      expect(JSON.parse(JSON.stringify(built))).toEqual(built);
      for (const { path, value } of walk(built)) {
        expect(['undefined', 'function', 'bigint', 'symbol'], path).not.toContain(typeof value);
        if (typeof value === 'number') expect(Number.isFinite(value), path).toBe(true);
      }
    });

    it('say of each value how it came about and what it rests on, or why it is not known', () => {
      const stated = [...walk(built)].filter(
        ({ value }) =>
          typeof value === 'object' &&
          value !== null &&
          ('how' in value || 'why' in value) &&
          'value' in value,
      );
      expect(stated.length).toBeGreaterThan(30);
      for (const { path, value } of stated) {
        const fact = value as { value: unknown; how?: string; from?: string[]; why?: string };
        // A reading that stands apart keeps its value beside the reason.
        if (/\.apart\.\d+$/.test(path)) continue;
        if (fact.how === undefined) {
          expect(fact.value, path).toBeNull();
          expect(fact.why, path).toMatch(/^[A-Z].*\.$/);
        } else {
          expect(fact.value, path).not.toBeNull();
          expect(fact.from?.length, path).toBeGreaterThan(0);
          for (const origin of fact.from ?? []) expect(origin, path).not.toBe('');
        }
      }
    });
  },
);

describe('the patient', () => {
  it.each([
    ['2019-08-14', '2026-03-09', 6, 'years'],
    ['2019-03-09', '2026-03-09', 7, 'years'],
    ['2019-03-10', '2026-03-09', 6, 'years'],
    ['2024-02-29', '2026-02-28', 23, 'months'],
    ['2024-02-29', '2026-03-01', 2, 'years'],
    ['2024-03-10', '2026-03-09', 23, 'months'],
    ['2026-01-09', '2026-03-09', 2, 'months'],
    ['2026-01-10', '2026-03-09', 8, 'weeks'],
    ['2026-03-09', '2026-03-09', 0, 'weeks'],
  ])('born on %s is on %s %d %s old', (born, day, count, unit) => {
    expect(ageOn(born, day)).toEqual({ count, unit });
  });

  it('is weighed in kilograms, whatever the record’s unit', () => {
    const pounds = facts(['weight: 12.5 kg', 'weight: 40 lb']).patient.weight;
    expect(pounds.value).toBeCloseTo(18.143_694_8, 9);
    expect(pounds.how).toBe('40 lb in kilograms');
    expect(pounds.from).toEqual(['case.yaml:9 patient.weight']);
  });
});

describe('the time of the vitals', () => {
  const at = (lines: string) => factsWith([], `clock,heart rate [/min]\n${lines}`);
  const warned = (lines: string) =>
    accepted(at(lines)).warnings.filter(({ kind }) => kind === 'readings of another time');

  it('stops where no reading falls into the anesthesia: another patient, another day or another clock', () => {
    const [problem] = problemsOf(at('14:00,120\n14:05,118\n'));
    expect(problem?.kind).toBe('readings of another time');
    expect(problem?.found).toContain('2026-03-09 14:00 to 2026-03-09 14:05');
    expect(problem?.mend).toContain('this patient and this day');
  });

  it('tells of a clock without AM and PM where a monitor wrote the table', () => {
    // 6:30 of the evening, more than nine hours after the start, is read as the nearer 6:30 of the morning.
    const lines = 'clock,heart rate [/min]\n06:30,120\n06:35,118\n';
    const mend = (...changes: Change[]) => problemsOf(factsWith(changes, lines))[0]?.mend;
    expect(mend(['  vitals: vitals.csv', '  vitals: vitals.csv\n  table: ward'])).toContain(
      'neither AM nor PM',
    );
    expect(mend()).not.toContain('AM');
  });

  it('asks about readings more than an hour before or after, which may be of the patient before', () => {
    expect(warned('07:30,180\n07:40,176\n09:20,100\n')).toMatchObject([
      { found: expect.stringContaining('2 of them more than an hour'), accepted: null },
    ]);
  });

  it('takes for granted what was read while the patient was made ready or woke', () => {
    expect(warned('08:20,130\n09:20,100\n11:10,120\n')).toEqual([]);
  });

  it('lets the record answer', () => {
    const watched = accepted(
      factsWith(
        [
          [
            '  vitals: vitals.csv',
            '  vitals: vitals.csv\n  accepted because: { T351: watched all night }',
          ],
        ],
        'clock,heart rate [/min]\n09:20,100\n13:00,120\n',
      ),
    );
    expect(watched.warnings.find(({ kind }) => kind === 'readings of another time')?.accepted).toBe(
      'watched all night',
    );
  });
});

it('the events hold the first incision and the end of surgery, which the record may tell under surgery alone', () => {
  const told = ({ anesthesia }: HomeCase) =>
    anesthesia.events.map(({ minute, what }) => [minute, what]);
  const both = [
    [20, 'first incision'],
    [55, 'end of surgery'],
  ];
  expect(told(facts())).toEqual(both);
  expect(told(facts(['at: 09:30, what: first incision', 'at: 09:12, what: intubation']))).toEqual([
    [2, 'intubation'],
    ...both,
  ]);
});

it('a weight in the wrong unit is told beside the overdose that it makes', () => {
  expect(
    problemsOf(factsWith([['weight: 12.5 kg', 'weight: 12.5 g']])).map(({ kind }) => kind),
  ).toEqual(['a weight that is unusual for the species', 'more than the most in a day']);
});

describe('a line of the vitals that stands there twice', () => {
  const twice = (table: string) =>
    accepted(factsWith([], table)).warnings.filter(
      ({ kind }) => kind === 'a line of readings given twice',
    );

  it('is asked about, as the copy may have been meant for another time, and told once', () => {
    const table = 'clock,SpO2 [%],heart rate [/min]\n09:20,98,90\n09:20,98,90\n09:25,98,90\n';
    expect(twice(table)).toMatchObject([
      { field: 'monitor.vitals', found: 'line 3, letter by letter the line before it' },
    ]);
    const [channel] = accepted(factsWith([], table)).vitals.channels;
    expect(channel?.patient).toHaveLength(2);
  });

  it('is not asked about where the times differ, and refused where the readings do', () => {
    expect(twice('clock,SpO2 [%]\n09:20,98\n09:25,98\n,\n,\n')).toEqual([]);
    const begin = Temporal.PlainDateTime.from('2026-03-09T09:10').toZonedDateTime('UTC');
    expect(
      problemsOf(readVitals('clock,SpO2 [%]\n09:20,98\n09:20,91\n', 'v.csv', begin)),
    ).toMatchObject([{ line: 3, expected: 'one line for each time' }]);
  });
});

describe('a reading that hardly a patient has', () => {
  const odd = (table: string, ...changes: Change[]) =>
    accepted(factsWith(changes, table)).warnings.filter(
      ({ kind }) => kind === 'readings that hardly a patient has',
    );
  const EXCHANGED = 'clock,EtCO2 [mmHg],SpO2 [%]\n09:20,98,41\n09:25,99,40\n09:30,98,42\n';

  it('is asked about once a column, as two may have been exchanged', () => {
    expect(odd(EXCHANGED)).toMatchObject([
      {
        field: 'monitor.vitals',
        found: "SpO2 41 % on line 2 and 2 more, told as the patient's",
        accepted: null,
      },
    ]);
    expect(odd(EXCHANGED.replace('98,41', '38,98').replace('99,40', '39,97'))).toMatchObject([
      { found: "SpO2 42 % on line 4, told as the patient's" },
    ]);
  });

  it('is answered by the record, and none where the sensor was off, or in what is usual', () => {
    const answer: Change = [
      '  off patient:',
      '  accepted because: { T355: it went blue }\n  off patient:',
    ];
    expect(odd(EXCHANGED, answer)).toMatchObject([{ accepted: 'it went blue' }]);
    const off: Change = ['channel: temperature, to: 09:20', 'channel: SpO2'];
    expect(odd(EXCHANGED, off)).toEqual([]);
    expect(odd('clock,heart rate [/min],breaths [/min]\n09:20,14,98\n')).toMatchObject([
      { found: "heart rate 14 /min on line 2, told as the patient's" },
    ]);
    expect(odd('clock,heart rate [/min]\n09:20,38\n09:25,0\n')).toEqual([]);
  });
});

describe('a reading of zero', () => {
  const zeros = (lines: string, ...changes: Change[]) =>
    accepted(factsWith(changes, `clock,SpO2 [%],EtCO2 [mmHg]\n${lines}`)).warnings.filter(
      ({ kind }) => kind === 'readings of zero',
    );

  it('is asked about where no living patient has it, as monitors write it for a sensor that reads nothing', () => {
    expect(zeros('09:20,0,0\n09:25,0,38\n09:30,98,38\n')).toMatchObject([
      { found: "SpO2 0 % on line 2 and 1 more, told as the patient's" },
    ]);
  });

  it('is not where the sensor was off, or the cell is empty', () => {
    const off: Change = [
      '    - { channel: temperature,',
      '    - { channel: SpO2, to: 09:26, why: it fell off }\n    - { channel: temperature,',
    ];
    expect(zeros('09:20,0,38\n09:25,0,38\n09:30,98,38\n', off)).toEqual([]);
    expect(zeros('09:20,,38\n09:30,98,38\n')).toEqual([]);
  });
});

describe('joined edges', () => {
  const unheld: Change = ['layer: skin, material: nylon', 'layer: muscle, material: nylon'];
  it('are asked about where no layer holds the skin, as the owner would not hear of stitches', () => {
    const built = accepted(factsWith([unheld]));
    expect(built.warnings.map(({ kind }) => kind)).toContain('skin that nothing holds');
    expect(facts().warnings.map(({ kind }) => kind)).not.toContain('skin that nothing holds');
  });

  it('have skin only outside the mouth, and gum only within it', () => {
    const gum: Change = ['layer: skin', 'layer: gum'];
    const mouth: Change = ['  tension: none', '  place: mouth\n  tension: none'];
    expect(problemsOf(factsWith([gum]))).toMatchObject([
      { kind: 'a layer that contradicts itself', mend: expect.stringContaining('place: mouth') },
    ]);
    expect(problemsOf(factsWith([mouth]))).toMatchObject([
      { kind: 'a layer that contradicts itself', mend: expect.stringContaining('layer: gum') },
    ]);
    expect(factsWith([gum, mouth]).ok).toBe(true);
  });
});

describe('the vitals', () => {
  it('leave a sensor off the patient out of every spread', () => {
    const temperature = facts().vitals.channels.find(({ channel }) => channel === 'temperature');
    expect(temperature?.apart.map(({ value }) => value)).toEqual([21, 21]);
    expect(temperature?.spread.value).toMatchObject({
      lowest: { value: 37.6 },
      highest: { value: 37.8 },
      count: 2,
    });
  });

  it('leave the breaths of a ventilator out', () => {
    const breaths = facts(['breathing: spontaneous', 'breathing: ventilator']).vitals.channels.find(
      ({ channel }) => channel === 'breaths',
    );
    expect(breaths?.patient).toEqual([]);
    expect(breaths?.spread).toEqual({
      value: null,
      why: "No reading is the patient's own.",
    });
  });

  it('leave out only the breaths between ventilator on and off, where the record tells them', () => {
    // cases/tucker: on at minute 12, off at 110; cases/juniper: on at 8, off at 64.
    for (const [name, own, ventilated] of [
      ['tucker', [5, 10, 115, 120], [15, 110]],
      ['juniper', [5, 65, 70], [10, 60]],
    ] as const) {
      const facts = demo.cases.find((one) => one.name === name)?.facts;
      const breaths = facts?.vitals.channels.find(({ channel }) => channel === 'breaths');
      expect(breaths?.patient.map(({ minute }) => minute)).toEqual(own);
      const apart = breaths?.apart.map(({ minute }) => minute);
      expect([apart?.at(0), apart?.at(-1)]).toEqual(ventilated);
    }
  });

  it('take the breaths before a "ventilator off" and after a "ventilator on" for the ventilator’s', () => {
    const read = (event: string) =>
      facts(
        ['breathing: spontaneous', 'breathing: ventilator'],
        ['events:\n', `events:\n  - ${event}\n`],
      )
        .vitals.channels.find(({ channel }) => channel === 'breaths')
        ?.patient.map(({ minute }) => minute);
    expect(read('{ at: 09:21, what: ventilator off }')).toEqual([20, 30]);
    expect(read('{ at: 09:21, what: ventilator on }')).toEqual([0, 10]);
  });

  it('compute the mean pressure where the monitor gave none, and say so', () => {
    const { channels, lowPressure } = facts().vitals;
    const mean = channels.find(({ channel }) => channel === 'mean');
    expect(mean?.patient.every(({ computed }) => computed)).toBe(true);
    expect(lowPressure.value).toMatchObject({ read: 0, computed: 4 });
    // (120 + 2 · 60) / 3, (110 + 2 · 56) / 3, (75 + 2 · 45) / 3, (100 + 2 · 60) / 3
    expect(mean?.patient.map(({ value }) => value)).toEqual([80, 74, 55, 220 / 3]);
    expect(mean?.spread).toMatchObject({
      how: 'diastolic plus one third of systolic less diastolic',
    });
    expect(lowPressure.value?.episodes).toMatchObject([
      { from: 20, to: 20, before: 10, after: 30 },
    ]);
  });

  it('hold the mean pressure to the limit of the clinic, where it has chosen one', () => {
    const limit: Change = ['time zone:', 'low mean pressure: 75 mmHg\ntime zone:'];
    const { lowPressure } = accepted(factsWith([], VITALS, [], [limit])).vitals;
    // 80, 74, 55 and 73.3 at minutes 0, 10, 20 and 30
    expect(lowPressure).toMatchObject({
      value: {
        limit: 75,
        chosenBy: 'clinic',
        episodes: [{ from: 10, to: 30, before: 0, after: null }],
      },
      how: 'mean pressure under 75 mmHg, each run of low readings with the readings around it',
      from: expect.arrayContaining(['clinic.yaml, low mean pressure']),
    });
    expect(facts().vitals.lowPressure.value).toMatchObject({ limit: 60, chosenBy: 'guideline' });
  });

  it('see no low pressure in a cuff that was off', () => {
    const off: Change = [
      '  off patient:\n',
      '  off patient:\n    - { channel: systolic, from: 09:28, to: 09:32, why: the cuff had slipped }\n',
    ];
    expect(facts(off).vitals.lowPressure.value?.episodes).toEqual([]);
  });

  it('say that there was no pressure where there was none', () => {
    const built = accepted(factsWith([], 'clock,SpO2 [%]\n09:10,98\n'));
    expect(built.vitals.lowPressure).toEqual({
      value: null,
      why: 'The record holds no blood pressure of the patient.',
    });
    expect(built.vitals.systolicAlone).toBeNull();
  });

  it('hold systolic pressure to its own limit where nothing else was measured', () => {
    const built = accepted(
      factsWith([], 'clock,systolic [mmHg]\n09:10,104\n09:20,88\n09:30,110\n'),
    );
    expect(built.vitals.lowPressure).toEqual({
      value: null,
      why: 'The record holds only systolic pressure.',
    });
    // 2020 AAHA guidelines: systolic under 80-90 mmHg.
    expect(built.vitals.systolicAlone?.value).toMatchObject({
      limit: 90,
      ofSpecies: true,
      lowest: 88,
      highest: 110,
      count: 3,
      episodes: [{ from: 10, to: 10, before: 0, after: 20 }],
    });
  });
});

describe('the wound', () => {
  it('has its stitches out on the first open day of the window', () => {
    expect(facts(['  collar: 12 days\n', '']).wound.removal?.value).toEqual({
      from: '2026-03-19',
      to: '2026-03-23',
      proposed: '2026-03-20',
      set: false,
      others: ['2026-03-23'],
      next: null,
    });
  });

  it('offers no day for it on which the collar is off already', () => {
    // The collar of the sample comes off on the 21st.
    expect(facts().wound.removal?.value).toMatchObject({ proposed: '2026-03-20', others: [] });
    expect(facts(['collar: 12 days', 'collar: 14 days']).wound.removal?.value.others).toEqual([
      '2026-03-23',
    ]);
  });

  it('has them out later for a reason', () => {
    const { removal, skin } = facts(['tension: none', 'tension: high']).wound;
    expect(skin.value).toMatchObject({ kind: 'remove', later: ['high tension'] });
    expect(removal?.value).toMatchObject({ from: '2026-03-23', to: '2026-03-30' });
  });

  it('has none to take out where they dissolve', () => {
    const built = facts([
      'layer: skin, material: nylon, size: 4-0',
      'layer: within the skin, material: polyglactin 910, size: 4-0',
    ]);
    expect(built.wound.removal).toBeNull();
  });

  it('takes as long whatever the length of the incision', () => {
    const estimates = ['5 mm', '4 cm', '300 mm'].map((length) => {
      const { estimate, skin, removal } = facts([
        '  discharge: 15:00',
        `  incision length: ${length}\n  discharge: 15:00`,
      ]).wound;
      return [estimate.value, skin.value, removal?.value];
    });
    expect(estimates[1]).toEqual(estimates[0]);
    expect(estimates[2]).toEqual(estimates[0]);
  });

  it('takes longer where the edges do not meet, and longer still where they are wide apart', () => {
    const gap = (written: string) => facts(['edge gap: 0 mm', `edge gap: ${written}`]).wound;
    expect(gap('0 mm').estimate.value).toMatchObject({ from: 10, to: 14 });
    expect(gap('2 mm').estimate.value).toMatchObject({ from: 14, to: 21, later: ['edges apart'] });
    const open = (written: string) =>
      facts(
        ['healing: edge to edge', 'healing: left open'],
        ['edge gap: 0 mm', `edge gap: ${written}`],
      ).wound.estimate.value;
    expect(open('3 cm').from).toBeGreaterThan(open('10 mm').from);
  });

  it('tells the thickness of each strand and what holds each layer until when', () => {
    expect(facts().wound.layers).toMatchObject([
      { size: '3-0', diameter: [0.2, 0.249], hold: { halfOn: 7, lessBy: 14 } },
      { size: '4-0', diameter: [0.15, 0.199], hold: { kind: 'until removed' } },
    ]);
  });

  it('has its drain out on the open day nearest to the one that the surgeon set', () => {
    const drained = (after: string) =>
      facts([
        '  tension: none\n',
        `  tension: none\n  drain: { what: passive drain, out after: ${after} }\n`,
      ]).wound.drain;
    expect(drained('3 days')).toMatchObject({ after: { value: 3 }, on: { value: '2026-03-12' } });
    // Day 5 is a Saturday.
    expect(drained('5 days')?.on.value).toBe('2026-03-13');
    expect(facts().wound.drain).toBeNull();
  });

  const removeOn = (day: string, more = '') =>
    factsWith([['  tension: none\n', `  tension: none\n  remove on: ${day}\n${more}`]]);

  it('has its stitches out on the day that the veterinarian set', () => {
    const built = accepted(
      factsWith([
        ['  tension: none\n', '  tension: none\n  remove on: 2026-03-23\n'],
        ['collar: 12 days', 'collar: 2 weeks'],
      ]),
    );
    expect(built.wound.removal?.value).toMatchObject({ proposed: '2026-03-23', set: true });
    expect(built.wound.removal?.how).toMatch(/^set by the veterinarian/);
    expect(built.warnings).toEqual([]);
  });

  it.each([
    ['2026-03-16', '2026-03-16', 'a day from 2026-03-19 to 2026-03-23 (common practice)'],
    ['2026-03-21', '2026-03-21, when the clinic is closed', 'a day on which it is open'],
  ])('is asked about where the day set is %s', (day, found, expected) => {
    const warning = { file: 'case.yaml', field: 'closure.remove on', found, expected };
    expect(accepted(removeOn(day)).warnings).toMatchObject([{ ...warning, accepted: null }]);
    const because =
      '  accepted because:\n    T342: the surgeon comes in\n    T343: the surgeon comes in\n';
    expect(accepted(removeOn(day, because)).warnings).toMatchObject([
      { ...warning, accepted: 'the surgeon comes in' },
    ]);
  });

  it('is refused a day of removal where nothing has to come out', () => {
    const dissolving: Change = [
      'layer: skin, material: nylon, size: 4-0',
      'layer: within the skin, material: polyglactin 910, size: 4-0',
    ];
    expect(
      problemsOf(
        factsWith([
          dissolving,
          ['  tension: none\n', '  tension: none\n  remove on: 2026-03-23\n'],
        ]),
      ),
    ).toMatchObject([{ field: 'closure.remove on', found: '2026-03-23' }]);
  });

  it('keeps the stitches of a wound that is closed in part', () => {
    const built = facts(
      ['healing: edge to edge', 'healing: left open'],
      ['gap: 0 mm', 'gap: 1 cm'],
    );
    expect(built.wound.skin.value.kind).toBe('remove');
    expect(built.wound.edgeGap.value).toBe(10);
  });
});

describe('a strip', () => {
  /** Beats of a stretch, s. */
  const every = (interval: number, from: number, to: number) =>
    Array.from({ length: Math.floor((to - from) / interval) }, (_, i) => from + i * interval);
  type Told = Pick<ReadStrip['analysis']['rhythms'][number], 'name' | 'from' | 'to'>;
  const told = (name: Told['name'], from: number, to: number) =>
    ({
      name,
      from,
      to,
      possible: [],
      because: name === 'ventricular fibrillation' ? [{ key: 'trace moves' }] : [],
    }) as unknown as Told;
  const strip = (
    startsAt: string | null,
    beats: readonly number[],
    duration: number,
    rhythms: readonly Told[],
  ): ReadStrip => ({
    waveform: { channels: [], startsAt, annotations: [] } as unknown as ReadStrip['waveform'],
    lead: {} as ReadStrip['lead'],
    analysis: {
      duration,
      beats: beats.map((time) => ({ time })),
      rhythms,
      quality: { spans: [{ from: 0, to: duration, readable: true, why: '' }] },
      rate: { mean: 48 },
      measures: { tToR: { value: null } },
    } as unknown as ReadStrip['analysis'],
  });
  const withStrip = (
    startsAt: string | null,
    line = '{ file: a.csv, lead: II }',
    beats = every(1.25, 0, 60),
    duration = 60,
    rhythms = [told('sinus rhythm', 0, duration)],
  ) =>
    accepted(
      factsWith([['closure:\n', `  strips:\n    - ${line}\nclosure:\n`]], VITALS, [
        strip(startsAt, beats, duration, rhythms),
      ]),
    ).strips[0];

  it('begins when its file says, if that lies within the anesthesia', () => {
    expect(withStrip('2026-03-09T09:30:00')?.begins).toMatchObject({ value: 20, how: 'recorded' });
  });

  it.each([['1985-01-01T00:00:00'], ['2026-03-09T09:05:00'], ['2026-03-09T11:00:00']])(
    'is not placed by a clock that is plainly wrong: %s',
    (startsAt) => {
      const built = withStrip(startsAt);
      expect(built?.begins.value).toBeNull();
      expect(built?.shown.value).toBeNull();
    },
  );

  it('begins on the day of the anesthesia where its file tells the time alone, and says so', () => {
    const built = withStrip('09:30:00');
    expect(built?.begins).toMatchObject({ value: 20, how: DAY_TAKEN });
    expect(built?.shown.value).toMatchObject({ verdict: 'about double' });
    expect(withStrip('11:59:00')?.begins).toMatchObject({
      value: null,
      why: expect.stringContaining('outside the anesthesia'),
    });
    // From 23:30 to 00:30: a quarter past midnight is the day after.
    const late = timelineOf(
      {
        surgery: { date: '2026-03-09' },
        anesthesia: { begin: '23:30', end: '2026-03-10 00:30' },
      } as never,
      'America/Chicago',
    );
    const file = { file: 'a.hea' };
    expect(startOf(file, { startsAt: '00:15:00' } as never, late, '')).toMatchObject({ value: 45 });
    expect(startOf(file, { startsAt: '23:45:00' } as never, late, '')).toMatchObject({ value: 15 });
  });

  it('begins when the record says, whatever the file says', () => {
    const line = '{ file: a.csv, lead: II, begin: 09:25 }';
    expect(withStrip('1985-01-01T00:00:00', line)?.begins).toMatchObject({ value: 15 });
  });

  it('is compared with the rates displayed near it', () => {
    // Displayed 96 within two and a half minutes of minute 20; counted 48.
    expect(withStrip('2026-03-09T09:30:00')?.shown.value).toMatchObject({
      during: true,
      verdict: 'about double',
      isWhole: true,
      shown: [{ from: 20, lowest: 96, ratios: [2, 2] }],
    });
  });

  it('that is long is counted in the minute around each displayed rate, not over all of it', () => {
    // 98 beats/min where 98 is displayed and 96 where 96 and 94 are; 200 in between, where nothing is: 133 over all of it.
    const beats = [...every(60 / 98, 0, 90), ...every(0.3, 90, 540), ...every(0.625, 540, 1200)];
    expect(withStrip('2026-03-09T09:20:00', undefined, beats, 1200)?.shown.value).toMatchObject({
      isWhole: false,
      verdict: 'agrees',
      shown: [{ from: 10, to: 30, lowest: 94, highest: 98 }],
    });
  });

  it('that cannot be read beside a displayed rate says so', () => {
    const built = withStrip('2026-03-09T09:20:00', undefined, every(0.5, 90, 500), 1200);
    expect(built?.shown.value).toBeNull();
    expect(built?.shown).toMatchObject({
      why: expect.stringContaining('could not be counted for most'),
    });
  });

  // Displayed 96 at minute 20. What the display can be trusted in is said of the strip around that minute.
  const from0930 = (beats: readonly number[], rhythms: readonly Told[]) =>
    withStrip('2026-03-09T09:30:00', undefined, [...beats], 60, [...rhythms])?.shown.value?.shown;

  it('vouches for no number while its pace changes, though one fits the mean', () => {
    // 64 beats/min for 30 s and 128 for 30 s: 96 over the minute, which the heart never had.
    const beats = [...every(60 / 64, 0, 30), ...every(60 / 128, 30, 60)];
    const told2 = [told('sinus rhythm', 0, 30), told('ventricular tachycardia', 30, 60)];
    expect(from0930(beats, told2)).toMatchObject([{ relation: 'unsteady' }]);
  });

  it('vouches for no number where the ventricles fibrillate for part of the minute', () => {
    const beats = every(60 / 96, 0, 45);
    const told2 = [told('sinus rhythm', 0, 45), told('ventricular fibrillation', 45, 60)];
    expect(from0930(beats, told2)).toMatchObject([{ relation: 'unsteady' }]);
    expect(from0930(every(60 / 96, 0, 60), [told('sinus rhythm', 0, 60)])).toMatchObject([
      { relation: 'agrees' },
    ]);
  });

  it('is not compared where what was found need not be beats', () => {
    for (const name of ['ventricular fibrillation', 'cannot be told'] as const) {
      expect(from0930(every(60 / 96, 0, 60), [told(name, 0, 60)]), name).toBeUndefined();
    }
  });

  // Plus or minus 10 % or 5 beats/min, whichever is greater: at 30/min 5, at 60/min 6 (IEC 60601-2-27, from memory, unverified).
  it.each([
    [30, 35, 'agrees'],
    [30, 36, 'differs'],
    [30, 25, 'agrees'],
    [30, 66, 'about double'],
    [30, 67, 'differs'],
    [60, 66, 'agrees'],
    [60, 67, 'differs'],
    [60, 35, 'about half'],
    [60, 36, 'differs'],
    [120, 108, 'agrees'],
    [120, 107, 'differs'],
  ])('counted at %d/min with %d displayed: %s', (counted, displayed, relation) => {
    const built = accepted(
      factsWith(
        [['closure:\n', '  strips:\n    - { file: a.csv, lead: II }\nclosure:\n']],
        VITALS.replace('10,96\n', `10,${displayed}\n`),
        [
          strip('2026-03-09T09:30:00', every(60 / counted, 0, 60), 60, [
            told('sinus rhythm', 0, 60),
          ]),
        ],
      ),
    );
    expect(built.strips[0]?.shown.value?.shown[0]).toMatchObject({ lowest: displayed, relation });
  });

  it('vouches for a mean rate about which the beats only swing', () => {
    // Intervals of 0.45 to 0.8 s over each breath of 5 s: 96 beats/min on average.
    const beats: number[] = [];
    for (let t = 0; t < 60; t += 0.625 + 0.175 * Math.sin((2 * Math.PI * t) / 5)) beats.push(t);
    const rate = (60 * (beats.length - 1)) / (beats.at(-1)! - beats[0]!);
    expect(Math.abs(rate - 96)).toBeLessThan(9);
    expect(from0930(beats, [told('sinus arrhythmia', 0, 60)])).toMatchObject([
      { relation: 'agrees' },
    ]);
  });
});

describe('the language of the owner’s sheet', () => {
  const languageOf = (changes: readonly Change[], clinic: readonly Change[]) =>
    accepted(factsWith(changes, VITALS, [], clinic)).identity.owner.language;
  const spanishFirst: Change = ['languages: [en, es]', 'languages: [es, en]'];

  it('is the first of the clinic where the case names none', () => {
    expect(languageOf([], [spanishFirst])).toBe('es');
    expect(languageOf([], [])).toBe('en');
  });

  it('is that of the case where it names one', () => {
    expect(languageOf([['phone: 555 0161', 'language: en']], [spanishFirst])).toBe('en');
  });
});

describe('drugs given in the clinic', () => {
  it('are told per kilogram, and not at all where the record gives a volume alone', () => {
    const [methadone, lidocaine] = facts().anesthesia.drugs;
    expect(methadone?.perKilogram.value).toBeCloseTo(2.5 / 12.5, 12);
    expect(methadone?.minute).toBe(-20);
    expect(methadone?.volumePerKilogram).toBeNull();
    // 1 mL over 12.5 kg, and no fluid: its strength is missing.
    expect(lidocaine).toMatchObject({ isFluid: false, volumePerKilogram: { value: 1 / 12.5 } });
    expect(lidocaine?.perKilogram).toEqual({
      value: null,
      why: 'The record gives a volume without its strength.',
    });
  });
});

it('lists the problems of all medicines at once', () => {
  const second = `    - drug: amoxicillin
      for: infection
      strength: 50 mg/mL
      give: 1 mL
      route: by mouth
      at: [08:00, 20:00]
      food: either
      last given: 08:10
      doses: 10
      dispensed: 9 mL
  collar: 12 days
`;
  const problems = problemsOf(
    factsWith([
      ['dispensed: 3 tablets', 'dispensed: 2 1/2 tablets'],
      ['  collar: 12 days\n', second],
    ]),
  );
  expect(problems.map(({ field }) => field)).toEqual([
    'home.medicines[1].at',
    'home.medicines[0].dispensed',
    'home.medicines[1].dispensed',
  ]);
});
