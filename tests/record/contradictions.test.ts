import { describe, expect, it } from 'vitest';
import { accepted, type Change, caseWith, problemsOf } from './sample.js';

const teaching = (given: string): Change => ['  teaching: { given: no }', `  teaching: ${given}`];
const record = (given: string): Change => ['  record: { given: no }', `  record: ${given}`];
const PUBLISHED: Change = [
  'consent:\n',
  'published: { title: A lump, patient: a whippet, address: a-lump }\nconsent:\n',
];

describe('two statements that cannot both be true', () => {
  it.each<[string, Change[], string, string, string]>([
    [
      'no age',
      [['  born: 2019-08-14\n', '']],
      'patient.born',
      'nothing',
      'a date of birth or an age',
    ],
    [
      'two ages',
      [['  born: 2019-08-14\n', '  born: 2019-08-14\n  age: 6 years\n']],
      'patient.age',
      'both a date of birth and an age',
      'one of them',
    ],
    [
      'a birth after the surgery',
      [['born: 2019-08-14', 'born: 2026-03-10']],
      'patient.born',
      '2026-03-10',
      'a day not later than the surgery on 2026-03-09',
    ],
    [
      'a bleeding that stopped before it began',
      [
        [
          'what: first incision }\n',
          'what: first incision }\n  - { at: 09:40, what: bleeding stopped }\n  - { at: 09:50, what: bleeding }\n',
        ],
      ],
      'events[1].at',
      'bleeding stopped at 09:40',
      'a time not before bleeding at 09:50',
    ],
    [
      'a visit for a drain that is not there',
      [['what: wound check', 'what: drain']],
      'home.rechecks[0].what',
      'a visit for the drain',
      'a drain under closure, as the sheet would not tell of it',
    ],
    [
      'a wound that was joined by its procedure and left open by its closure',
      [
        ['procedure: skin lump removal', 'procedure: wound repair'],
        ['healing: edge to edge', 'healing: left open'],
        ['edge gap: 0 mm', 'edge gap: 8 mm'],
      ],
      'closure.healing',
      'left open after "wound repair"',
      'edge to edge, as the sheet tells of that procedure',
    ],
    [
      'an anesthesia that ends as it begins',
      [
        ['  end: 10:15', '  end: 09:10'],
        ['  end: 10:05\n', ''],
      ],
      'anesthesia.end',
      '09:10',
      'a time after the start of anesthesia at 09:10',
    ],
    [
      'an incision before the anesthesia',
      [
        ['  - { at: 09:30, what: first incision }', '  - { at: 09:30, what: remark }'],
        ['  begin: 09:30', '  begin: 09:05'],
      ],
      'surgery.begin',
      '09:05',
      'a time after the start of anesthesia at 09:10',
    ],
    [
      'an end of surgery before the incision',
      [['  end: 10:05', '  end: 09:20']],
      'surgery.end',
      '09:20',
      'a time after the first incision at 09:30',
    ],
    [
      'an end of surgery after the end of anesthesia',
      [['  end: 10:05', '  end: 10:55']],
      'surgery.end',
      '10:55',
      'a time not after the end of anesthesia at 10:15',
    ],
    [
      'a discharge under anesthesia',
      [['discharge: 15:00', 'discharge: 10:10']],
      'surgery.discharge',
      '10:10',
      'a time after the end of anesthesia at 10:15',
    ],
    [
      'a ventilator rate without a ventilator',
      [['  breathing: spontaneous\n', '  breathing: spontaneous\n  ventilator rate: 12 /min\n']],
      'anesthesia.ventilator rate',
      '12 /min',
      'no ventilator rate, as the patient breathes by itself',
    ],
    [
      'joined edges that nothing holds',
      [
        [
          '  layers:\n    - { layer: under the skin, material: poliglecaprone 25, size: 3-0, pattern: simple continuous }\n    - { layer: skin, material: nylon, size: 4-0, pattern: simple interrupted }\n',
          '',
        ],
      ],
      'closure.layers',
      'no layers',
      'what holds the edges together',
    ],
    [
      'an open wound without a gap',
      [['healing: edge to edge', 'healing: left open']],
      'closure.edge gap',
      '0 mm',
      'a distance above zero, as the wound is left open',
    ],
    [
      'adhesive under the skin',
      [
        [
          'material: poliglecaprone 25, size: 3-0, pattern: simple continuous',
          'material: tissue adhesive, pattern: adhesive film',
        ],
      ],
      'closure.layers[0].material',
      'tissue adhesive in the layer "under the skin"',
      'a strand, as tissue adhesive only joins the surface of the skin',
    ],
    [
      'stitches of adhesive',
      [['material: nylon, size: 4-0', 'material: tissue adhesive']],
      'closure.layers[1].pattern',
      'the pattern "simple interrupted" with tissue adhesive',
      'the pattern "adhesive film" with tissue adhesive, and only there',
    ],
    [
      'a size of staples',
      [
        ['material: nylon', 'material: stainless steel staples'],
        ['pattern: simple interrupted', 'pattern: staples'],
      ],
      'closure.layers[1].size',
      'a USP size of stainless steel staples',
      'a size only where there is a strand',
    ],
    [
      'a removal on the day of surgery',
      [['  tension: none\n', '  tension: none\n  remove on: 2026-03-09\n']],
      'closure.remove on',
      '2026-03-09',
      'a day after the surgery on 2026-03-09',
    ],
    [
      'a strip that begins before the anesthesia',
      [['closure:\n', '  strips:\n    - { file: a.csv, lead: II, begin: 09:00 }\nclosure:\n']],
      'monitor.strips[0].begin',
      '09:00',
      'a time after the start of anesthesia at 09:10',
    ],
    [
      'a sensor that came on before it went off',
      [['to: 09:20', 'from: 09:25, to: 09:20']],
      'monitor.off patient[0].to',
      '09:20',
      'a time after 09:25, from when the sensor was off',
    ],
    [
      'consent without a name and a date',
      [teaching('{ given: yes, by: Orla Fennimore }'), PUBLISHED],
      'consent.teaching.given',
      'yes, without a name or a date',
      'who gave consent and when',
    ],
    [
      'a withdrawal of what was not given',
      [teaching('{ given: no, withdrawn: 2026-04-01 }')],
      'consent.teaching.withdrawn',
      '2026-04-01, of a consent that was not given',
      'a withdrawal only of what was given',
    ],
    [
      'a withdrawal before consent was given',
      [
        record('{ given: yes, by: Orla Fennimore, on: 2026-03-09, withdrawn: 2026-03-08 }'),
        PUBLISHED,
      ],
      'consent.record.withdrawn',
      '2026-03-08',
      'a day not before consent was given on 2026-03-09',
    ],
    [
      'a drug after the patient went home',
      [['route: intramuscular, at: 08:50', 'route: intramuscular, at: 20:50']],
      'anesthesia.drugs[0].at',
      '20:50',
      'a time before the patient goes home at 15:00',
    ],
    [
      'an event of another month',
      [['at: 09:30, what: first incision', 'at: 2026-02-09 09:30, what: remark']],
      'events[0].at',
      '2026-02-09 09:30',
      'a time at most 48 hours before the start of anesthesia at 09:10',
    ],
    [
      'a first incision at two times',
      [['at: 09:30, what: first incision', 'at: 09:32, what: first incision']],
      'events[0].at',
      'first incision at 09:32',
      '09:30, as surgery.begin says',
    ],
    [
      'home care for a patient that died',
      [
        ['  discharge: 15:00\n', ''],
        [/closure:\n[\s\S]*(?=home:)/, ''],
        ['what: first incision', 'what: death'],
        ['end: 10:05', 'end: 09:25'],
        ['begin: 09:30\n', 'begin: 09:20\n'],
        ['end: 10:15', 'end: 09:30'],
      ],
      'home',
      'what only a sheet for care at home says',
      'none of it, as the events tell a death',
    ],
    [
      'no bandage over joined edges',
      [['  tension: none', '  bandage: no\n  tension: none']],
      'closure.bandage',
      'no bandage over joined edges',
      'the line only where a wound is left open, as the sheet speaks of no bandage over joined edges',
    ],
    [
      'a photo on the teaching page without consent to photos',
      [
        teaching('{ given: yes, by: Orla Fennimore, on: 2026-03-09 }'),
        [
          'consent:\n',
          `photos: [{ file: a.jpg, shows: The wound, on: [teaching page] }]\n${PUBLISHED[1]}`,
        ],
      ],
      'photos[0].on',
      'the teaching page, without consent to photos',
      'photos there only where the owner allows them',
    ],
    [
      'consent without a public face',
      [record('{ given: yes, by: Orla Fennimore, on: 2026-03-09 }')],
      'published',
      'nothing',
      'how the case appears in public, as consent is given',
    ],
  ])('%s', (_, changes, field, found, expected) => {
    const problems = problemsOf(caseWith(...changes));
    expect(problems).toHaveLength(1);
    expect(problems[0]).toMatchObject({ file: 'case.yaml', field, found, expected });
    expect(problems[0]?.line).toBeGreaterThan(0);
    expect(problems[0]?.mend).toMatch(/^[A-Z].*\.$/);
  });

  it('are all told at once, those of both consents included', () => {
    const fields = problemsOf(
      caseWith(
        ['born: 2019-08-14', 'born: 2026-03-10'],
        ['discharge: 15:00', 'discharge: 10:10'],
        teaching('{ given: yes }'),
        record('{ given: yes }'),
      ),
    ).map(({ field }) => field);
    expect(fields).toEqual([
      'patient.born',
      'surgery.discharge',
      'consent.teaching.given',
      'consent.record.given',
      'published',
    ]);
  });
});

describe('what looks odd but can be true', () => {
  it.each<[string, Change[]]>([
    ['an animal born on the day of surgery', [['born: 2019-08-14', 'born: 2026-03-09']]],
    [
      'an anesthesia over midnight, with the date of its end',
      [
        ['  end: 10:05', '  end: 2026-03-10 00:05'],
        ['  end: 10:15', '  end: 2026-03-10 00:15'],
        ['discharge: 15:00', 'discharge: 2026-03-10 09:00'],
        ['  last given: 08:40', '  last given: 2026-03-10 00:10'],
      ],
    ],
    ['a surgery that ends with the anesthesia', [['  end: 10:05', '  end: 10:15']]],
    ['a sensor that was off to the end', [['to: 09:20', 'from: 09:20']]],
    [
      'a photo meant for a teaching page whose consent was withdrawn',
      [
        teaching('{ given: yes, by: Orla Fennimore, on: 2026-03-09, withdrawn: 2026-03-09 }'),
        [
          'consent:\n',
          `photos: [{ file: a.jpg, shows: The wound, on: [teaching page] }]\n${PUBLISHED[1]}`,
        ],
      ],
    ],
    [
      'consent to both, with all that it asks for',
      [
        teaching('{ given: yes, by: Orla Fennimore, on: 2026-03-09 }'),
        record('{ given: yes, by: Orla Fennimore, on: 2026-03-09 }'),
        PUBLISHED,
      ],
    ],
  ])('%s', (_, changes) => {
    expect(accepted(caseWith(...changes)).value.record).toBe('2026-0042');
  });
});
