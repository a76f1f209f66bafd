import { spawnSync } from 'node:child_process';
import { once } from 'node:events';
import {
  appendFileSync,
  chmodSync,
  cpSync,
  mkdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { type AddressInfo, createServer } from 'node:net';
import { join } from 'node:path';
import { answered } from '../../src/facts/asked.js';
import { clockFacts, clockWarnings } from '../../src/facts/clocks.js';
import { loadContent } from '../../src/publish/content.js';
import { disk } from '../../src/publish/disk.js';
import { house } from '../../src/publish/house.js';
import { settled } from '../../src/publish/settled.js';
import type { ProblemKind } from '../../src/record/problem-kind.js';
import { readCase } from '../../src/record/read-case.js';
import { program } from '../cli/thrice.js';
import { DEMO } from '../publish/clinic.js';
import { buildEdf, type EdfParts } from '../tools/build-edf.js';
import { RECORD, VITALS, type Workbench } from './workbench.js';

/** Breaks something on the workbench and gives what is then said; or tells why nothing in a user's files can do so. */
type Broken = ((bench: Workbench) => string | Promise<string>) | { readonly because: string };

const REPORT =
  'It is the last guard before anything is published, and no input is known that leads to it. Please report it.';

/** The record says one thing differently. */
const record =
  (from: string | RegExp, to: string): Broken =>
  (bench) => {
    bench.record(from, to);
    return bench.check();
  };

/** The surgery is on another day, and a drug was given at another hour of it. */
const onDay =
  (day: string, hour: string): Broken =>
  (bench) => {
    bench.record('date: 2026-05-05', `date: ${day}`);
    bench.record('route: intramuscular, at: 08:05', `route: intramuscular, at: ${hour}`);
    return bench.check();
  };

const inClinic =
  (file: string, from: string | RegExp, to: string): Broken =>
  (bench) => {
    bench.clinic.edit(file, from, to);
    return bench.check();
  };

const clinic = (from: string | RegExp, to: string) => inClinic('clinic.yaml', from, to);
const formulary = (from: string | RegExp, to: string) => inClinic('formulary.yaml', from, to);
const vitals = (from: string | RegExp, to: string) => inClinic(VITALS, from, to);

/** The rabbit has a medicine as needed, whose limits are those. */
const asNeeded = (limits: string, purpose = 'calm rest') =>
  record(
    '  rest: 10 days\n',
    `  as needed:
    - drug: gabapentin
      for: ${purpose}
      if: she digs or jumps at the bars
      strength: 50 mg/mL
      give: 0.4 mL
      route: by mouth
      food: either
${limits.replace(/^/gm, '      ')}
  rest: 10 days\n`,
  );

/** Skin stitches, which have to come out from 15 to 19 May 2026. */
const stitched = (bench: Workbench) =>
  bench.record(
    'layer: within the skin, material: poliglecaprone 25',
    'layer: skin, material: nylon',
  );

const withStitches =
  (from: string | RegExp, to: string): Broken =>
  (bench) => {
    stitched(bench);
    bench.record(from, to);
    return bench.check();
  };

/** The owner's sheet shows a photo. */
const photo =
  (bytes: Uint8Array): Broken =>
  (bench) => {
    bench.put('cases/clover/wound.png', bytes);
    bench.record(
      'teaching: teaching.md',
      'photos:\n  - { file: wound.png, shows: the wound, on: [owner sheet] }\nteaching: teaching.md',
    );
    return bench.check();
  };

/** A waveform file alone. */
const strip =
  (name: string, text: string | Uint8Array, ...more: string[]): Broken =>
  (bench) => {
    bench.put(name, text);
    return bench.strip(name, ...more);
  };

const csv = (...lines: string[]) => strip('strip.csv', `${lines.join('\n')}\n`);

/** Four samples a second on one lead, with one list of remarks for each second. */
const edf = (starts: readonly string[], parts: Partial<EdfParts> = {}) =>
  strip(
    'strip.edf',
    buildEdf({
      reserved: 'EDF+C',
      signals: [
        { label: 'ECG II', dimension: 'mV', data: starts.map(() => [1, 2, 3, 4]) },
        { label: 'EDF Annotations', bytes: 40, data: starts },
      ],
      ...parts,
    }),
  );

/** A WFDB record of the demo, whose header or samples are changed. */
const wfdb =
  (from: string, to: string, bytes?: number): Broken =>
  (bench) => {
    for (const name of ['strip.hea', 'strip.dat']) {
      cpSync(join(DEMO, 'cases/tucker', name), bench.clinic.path(name));
    }
    bench.clinic.edit('strip.hea', from, to);
    if (bytes !== undefined) truncateSync(bench.clinic.path('strip.dat'), bytes);
    return bench.strip('strip.hea');
  };

const COLUMNS = `columns:
      - { channel: heart rate, column: HR, unit: /min }
      - { channel: temperature, column: T1, unit: °C }
`;

/** The clinic has a form for the tables of its monitor, and the case a table of it. */
const monitorTable =
  (from: string, to: string, table = 'Time,HR,T1\n08:30,236,38.8\n08:35,226,38.6\n'): Broken =>
  (bench) => {
    const form = `monitor tables:
  - name: ward monitor
    time: { column: Time, written: "HH:mm" }
    ${COLUMNS}`;
    bench.put('cases/clover/export.csv', table);
    bench.record('vitals: vitals.csv', 'vitals: export.csv\n  table: ward monitor');
    appendFileSync(bench.clinic.path('clinic.yaml'), form);
    bench.clinic.edit(form.includes(from) ? 'clinic.yaml' : RECORD, from, to);
    return bench.check();
  };

/** The same with one reading a line. */
const readingALine = (lines: string): Broken => {
  const readings = `one reading a line: { names in: Name, values in: Value, units in: Unit }
    readings:
      - { channel: heart rate, called: HR }
      - { channel: temperature, called: T1 }
`;
  return monitorTable(COLUMNS, readings, `Time,Name,Value,Unit\n${lines}`);
};

const content =
  (breaks: (bench: Workbench) => void): Broken =>
  (bench) => {
    breaks(bench);
    return bench.read();
  };
const words = (path: string, from: string | RegExp, to: string) =>
  content((bench) => bench.words(path, from, to));

const HARD =
  'Notwithstanding considerable physiological tolerance demonstrated throughout recuperation, uninterrupted availability of hay remains indispensable for gastrointestinal motility in every individual animal, particularly following administration of opioid analgesics. ';

const NOBODY = 65534;

export const BROKEN: Readonly<Record<ProblemKind, Broken>> = {
  'no such file': (bench) => bench.say('check', bench.clinic.path('nowhere')),
  'a file that the record names is not there': (bench) => {
    rmSync(bench.clinic.path(VITALS));
    return bench.check();
  },
  'a folder in place of a file': (bench) => {
    mkdirSync(bench.clinic.path('strip.csv'));
    return bench.strip('strip.csv');
  },
  'a file that cannot be read': (bench) => {
    // Nothing is locked for the superuser, so the command then runs as nobody.
    chmodSync(bench.clinic.home, 0o755);
    chmodSync(bench.put('export.csv', 'Time,HR\n'), 0o000);
    const nobody = process.getuid?.() === 0 ? { uid: NOBODY, gid: NOBODY } : {};
    return bench.apart(['table', bench.clinic.path('export.csv')], nobody);
  },
  'a link in place of a file': (bench) => {
    const file = bench.clinic.path(VITALS);
    rmSync(file);
    symlinkSync(bench.clinic.path('clinic.yaml'), file);
    return bench.check();
  },
  'a file that is too large': (bench) => {
    truncateSync(bench.clinic.path(VITALS), 61_000_000);
    return bench.check();
  },
  'text in another encoding': (bench) => {
    const file = bench.clinic.path(RECORD);
    const text = readFileSync(file, 'utf8').replace('mixed breed', 'café au lait');
    writeFileSync(file, Buffer.from(text, 'latin1'));
    return bench.check();
  },
  'a file that keeps changing': (bench) => {
    const file = bench.clinic.path(RECORD);
    let saves = 0;
    return bench.shown(
      settled(
        disk(() => {}),
        (effects) => {
          const bytes = effects.readBytes(file);
          saves += 1;
          appendFileSync(file, `# saved ${saves} times\n`);
          return bytes;
        },
      ),
    );
  },
  'two case folders of one name': (bench) => {
    cpSync(bench.clinic.path('cases'), bench.clinic.path('of last year'), { recursive: true });
    return bench.check();
  },
  'a photo with too many dots': photo(
    Buffer.from('\x89PNG\r\n\x1a\n\0\0\0\rIHDR\0\0\x75\x30\0\0\x75\x30\x08\x06\0\0\0', 'latin1'),
  ),
  'a photo that cannot be read': photo(Buffer.from('a picture in words')),

  'not YAML': record('breed: mixed breed', 'breed: "mixed breed'),
  'a key given twice': record('  species: rabbit', '  species: rabbit\n  species: rabbit'),
  'a second document in one file': record('teaching: teaching.md', '---\nteaching: teaching.md'),
  'an alias': record('breed: mixed breed', 'breed: *mixed'),
  'an unknown key': record('  weight: 2.1 kg', '  wieght: 2.1 kg'),
  'a missing key': record('  sex: female\n', ''),
  'a value that is not understood': record('species: rabbit', 'species: rabit'),
  'more problems than are shown': record(
    'events:\n',
    `events:\n${'  - { at: 8 h, what: remark }\n'.repeat(150)}`,
  ),
  'a number and unit that are not understood': record('weight: 2.1 kg', 'weight: 2.1 stone'),
  'an amount of zero': record('weight: 2.1 kg', 'weight: 0 kg'),
  'a date or time that is not understood': record('date: 2026-05-05', 'date: 2026-02-30'),
  'an empty text': record('breed: mixed breed', 'breed: ""'),
  'a file name that is not understood': record('vitals: vitals.csv', 'vitals: ../vitals.csv'),
  'an unknown time zone': clinic('America/Chicago', 'America/Chicagoo'),
  'an unknown suture size': record('size: 3-0', 'size: 3/0'),
  'a difference of clocks that is not understood': record(
    'vitals: vitals.csv',
    'vitals: vitals.csv\n  clock of vitals: a bit late',
  ),
  'a strength that is not understood': record('strength: 1.5 mg/mL', 'strength: 1.5 mg'),
  'a medicine without one rhythm': record('every: 24 h', 'every: 24 h\n      at: [08:00]'),
  'a medicine without a dose to count from': record('      last given: 09:24\n', ''),
  'quotes that would be printed': record(/name: Clover/, 'name: “Clover”'),
  'an amount in another unit than the strength': record('give: 1 mL', 'give: 1 tablet'),
  'opening hours that are not understood': clinic('monday: 08:00-18:00', 'monday: 18:00-08:00'),
  'a web address that is not understood': clinic('https://calendars.', 'http://calendars.'),
  'a secret that is too short': clinic(
    'secret: seven blue buckets under the old stair',
    'secret: buckets',
  ),
  'a limit that no guideline has': clinic(
    'region: North America',
    'low mean pressure: 120 mmHg\nregion: North America',
  ),
  'a small group without a reason': clinic(/ {2}because: .*\n/, ''),
  'a range of doses that is not understood': formulary('dose: 0.3-1 mg/kg', 'dose: 1-0.3 mg/kg'),
  'a row of the formulary that is not complete': formulary(
    'dog: { dose: 1.8-4.4 mg/kg, most a day: 4.4 mg/kg, every: 12-24 h }',
    'dog: { dose: 1.8-4.4 mg/kg }',
  ),
  'a daily dose below the single dose': formulary(
    'dog: { dose: 1.8-4.4 mg/kg, most a day: 4.4 mg/kg',
    'dog: { dose: 1.8-4.4 mg/kg, most a day: 1 mg/kg',
  ),
  'a drug listed twice': formulary('drug: carprofen', 'drug: meloxicam'),
  'a form of clock that is not understood': monitorTable('"HH:mm"', '"HH:MM"'),
  'a form of a table that contradicts itself': monitorTable('unit: °C', 'unit: mmHg'),
  'a form of cells that is not understood': monitorTable(
    'channel: temperature',
    'written: "pressure/rate"',
  ),
  'a barometric pressure that no clinic has': monitorTable(
    '    time:',
    '    EtCO2 in percent: { of: dry gas, barometric pressure: 1013 mmHg }\n    time:',
  ),
  'an unknown form of a table': monitorTable('table: ward monitor', 'table: word monitor'),
  'approvals out of order': async (bench) => {
    await bench.say(
      'approve',
      bench.clinic.path('cases/clover'),
      '--by',
      'Dr. Ada Birch',
      '--on',
      '2026-05-06',
    );
    bench.clinic.edit('cases/clover/approval.yaml', 'revision: 1', 'revision: 2');
    return bench.check();
  },
  'a day of approval that is too early': (bench) =>
    bench.say(
      'approve',
      bench.clinic.path('cases/clover'),
      '--by',
      'Dr. Ada Birch',
      '--on',
      '2026-05-01',
    ),

  'an age that is not told once': record('  age: 10 months\n', ''),
  'moments out of order': record('  end: 09:35', '  end: 07:35'),
  'a ventilator rate without a ventilator': record(
    'breathing: spontaneous',
    'breathing: spontaneous\n  ventilator rate: 12 /min',
  ),
  'a closure that contradicts itself': record('healing: edge to edge', 'healing: left open'),
  'a layer that contradicts itself': record('pattern: intradermal', 'pattern: adhesive film'),
  'full activity before the end of rest': record(
    'full activity after: 2 weeks',
    'full activity after: 1 weeks',
  ),
  'consent that is not complete': record(
    '{ given: yes, by: Linnea Marrowby, on: 2026-05-05 }',
    '{ given: yes }',
  ),
  'a withdrawal without consent': record(
    'record: { given: no }',
    'record: { given: no, withdrawn: 2026-06-01 }',
  ),
  'a photo without consent': record(
    'teaching: teaching.md',
    'photos:\n  - { file: wound.jpg, shows: the wound, on: [teaching page] }\nteaching: teaching.md',
  ),
  'a decision without a reason': record(
    'teaching: teaching.md',
    'public passages:\n  - { passage: "She ate on May 7.", decision: publish }\nteaching: teaching.md',
  ),
  'a public case without its public words': record(/published:\n(?: {2}.*\n)+/, ''),
  'a record number used twice': (bench) => {
    bench.clinic.restore('saffron');
    bench.clinic.edit('cases/saffron/case.yaml', '2026-0109', '2026-0223');
    return bench.check();
  },
  'a public address used twice': (bench) => {
    bench.clinic.restore('saffron');
    bench.clinic.edit(
      'cases/saffron/case.yaml',
      'when-a-tie-slips',
      'a-patient-that-must-keep-eating',
    );
    return bench.check();
  },
  'readings of another patient': (bench) => {
    bench.clinic.restore('saffron');
    cpSync(bench.clinic.path(VITALS), bench.clinic.path('cases/saffron/vitals.csv'));
    return bench.check();
  },
  'a weight that is unusual for the species': record('weight: 2.1 kg', 'weight: 21 kg'),
  'a procedure that does not fit the patient': record('sex: female', 'sex: male'),
  'a moment told in two ways': record('what: first incision', 'what: end of surgery'),
  'home care for a patient that died': record('what: extubation', 'what: death'),
  'a last dose after discharge': record('last given: 09:24', 'last given: 16:00'),
  'a long gap before the first home dose': (bench) => {
    bench.record('discharge: 15:30', 'discharge: 2026-05-06 09:00');
    bench.record('every: 24 h', 'at: [08:00, 20:00]');
    bench.record('give: 1 mL', 'give: 0.5 mL');
    return bench.check();
  },
  'a first home dose too soon': record(
    'last given: 09:24',
    'last given: 09:24\n      first: 2026-05-05 18:00',
  ),
  'a home dose before discharge': record('discharge: 15:30', 'discharge: 2026-05-06 10:00'),
  'a dose that cannot be measured': record('give: 1 mL', 'give: 1.05 mL'),
  'too little dispensed': record('dispensed: 5 mL', 'dispensed: 3 mL'),
  'a drug that the species never gets': record(
    'drug: meloxicam\n      for',
    'drug: amoxicillin with clavulanate\n      for',
  ),
  'more than the most in a day': record(
    /give: 1 mL([\s\S]*)dispensed: 5 mL/,
    'give: 1.5 mL$1dispensed: 9 mL',
  ),
  'a dose out of its range': record('give: 1 mL', 'give: 0.4 mL'),
  'an interval out of its range': record('every: 24 h', 'every: 36 h'),
  'drugs that do not go together': record(
    '  drugs:\n',
    '  drugs:\n    - { drug: dexamethasone, dose: 0.2 mg, route: intravenous, at: 12:00 }\n',
  ),
  'a dose in the clinic that the plan does not count': record(
    'events:\n',
    '    - { drug: meloxicam, dose: 0.5 mg, route: subcutaneous, at: 13:00 }\nevents:\n',
  ),
  'a medicine that nothing was checked against': record('drug: meloxicam\n', 'drug: meloxicm\n'),
  'a purpose that hides what to watch for': record(
    'for: pain and swelling, rabbit\n',
    'for: pain\n',
  ),
  'no open day to take stitches out': (bench) => {
    stitched(bench);
    bench.clinic.edit('clinic.yaml', /(day): [\d:-]+/g, '$1: closed');
    return bench.check();
  },
  'a closed clinic when stitches come out': (bench) => {
    stitched(bench);
    const days = ['15', '16', '18', '19'].map(
      (day) => `  - { date: 2026-05-${day}, why: works }\n`,
    );
    bench.clinic.edit('clinic.yaml', 'closed on:\n', `closed on:\n${days.join('')}`);
    return bench.check();
  },
  'stitches out on an unusual day': withStitches(
    'tension: none',
    'tension: none\n  remove on: 2026-05-29',
  ),
  'stitches out on a closed day': withStitches(
    'tension: none',
    'tension: none\n  remove on: 2026-05-17',
  ),
  'a collar off before the stitches': withStitches(
    '  rest: 10 days',
    '  collar: 5 days\n  rest: 10 days',
  ),
  'rest that ends too soon': record('rest: 10 days', 'rest: 3 days'),
  'food withheld from a patient that must eat': record(
    '  rest: 10 days',
    '  food: { from: 19:00, how much: a few bites }\n  rest: 10 days',
  ),
  'a day to take out nothing': record('tension: none', 'tension: none\n  remove on: 2026-05-15'),
  'skin that nothing holds': record('layer: within the skin', 'layer: under the skin'),
  'an open wound that is left alone too soon': (bench) => {
    bench.record('healing: edge to edge', 'healing: left open');
    bench.record('edge gap: 0 mm', 'edge gap: 12 mm');
    return bench.check();
  },
  'readings of another time': vitals(/[\s\S]*/, 'clock,heart rate [/min]\n14:00,180\n14:05,178\n'),
  'readings of zero': vitals('10,220,98,98', '10,220,98,0'),
  'a drain left in for long': record(
    '  tension: none\n',
    '  tension: none\n  drain: { what: passive drain, out after: 3 weeks }\n',
  ),
  'a collar left on for long': record('  rest: 10 days\n', '  rest: 10 days\n  collar: 12 weeks\n'),
  'an NSAID without food': (bench) => {
    bench.clinic.restore('juniper');
    bench.clinic.edit('cases/juniper/case.yaml', 'food: with food', 'food: without food');
    return bench.check();
  },
  'a route that hardly fits the medicine': record('route: by mouth', 'route: in the left eye'),
  'a rate that no ventilator gives': record(
    'breathing: spontaneous',
    'breathing: ventilator\n  ventilator rate: 250 /min',
  ),
  'more fluid than is given at one time': record(
    '  drugs:\n',
    '  drugs:\n    - { drug: lactated Ringer, dose: 210 mL, route: intravenous, at: 08:45 }\n',
  ),
  'a consent far from the surgery': record(
    'record: { given: no }',
    'record: { given: yes, by: Linnea Marrowby, on: 2025-05-05 }',
  ),
  'an incision longer than the body': record('length: 30 mm', 'length: 110 cm'),
  'a site that does not fit the procedure': record('site: lower belly', 'site: right elbow'),
  'a microchip number of another length': record(
    'weight: ',
    'microchip: "99911200441720"\n  weight: ',
  ),
  'a line of readings given twice': vitals(/^(15,.*\n)/m, '$1$1'),
  'a medicine as needed without a most': asNeeded(
    'at least apart: 8 h\nup to: {}\nuntil: 2026-05-08',
  ),
  'a medicine as needed that can never be given': asNeeded(
    'at least apart: 8 h\nup to: { a day: 2 }\nuntil: 2026-05-04',
  ),
  'limits of a medicine that do not fit together': asNeeded(
    'at least apart: 12 h\nup to: { a day: 3 }\nuntil: 2026-05-08',
  ),
  'a medicine that is hardly given as needed': asNeeded(
    'at least apart: 8 h\nup to: { a day: 2 }\nuntil: 2026-05-08',
    'hormones',
  ),
  'little oxygen that nothing explains': (bench) => {
    bench.clinic.edit(VITALS, '15,216,95,98,', '15,216,95,88,');
    bench.clinic.edit(VITALS, '20,214,96,98,', '20,214,96,84,');
    return bench.check();
  },
  'a dose with food before the first meal': (bench) => {
    bench.clinic.restore('juniper');
    bench.clinic.edit('cases/juniper/case.yaml', 'from: 18:30', 'from: 2026-03-11 12:00');
    return bench.check();
  },
  'food beside a dose on an empty stomach': (bench) => {
    bench.clinic.restore('bramble');
    bench.clinic.edit(
      'cases/bramble/case.yaml',
      'at: [08:00, 20:00]\n      food: either',
      'at: [10:00, 20:00]\n      food: without food',
    );
    return bench.check();
  },
  'a surgery that is still to come': (bench) =>
    bench.say('check', bench.clinic.folder, '--on', '2026-05-04'),
  'the name of another patient': (bench) => {
    bench.clinic.restore('saffron');
    bench.record('She ate hay', 'Saffron ate hay');
    return bench.check();
  },
  'a long stay in the clinic': (bench) => {
    bench.record('discharge: 15:30', 'discharge: 2027-05-05 15:30');
    bench.record('last given: 09:24', 'last given: 2027-05-05 09:24');
    return bench.check();
  },
  'a day that is not one at home': (bench) => {
    bench.record('discharge: 15:30', 'discharge: 2026-05-07 15:30');
    bench.record('last given: 09:24', 'last given: 2026-05-07 09:24');
    return bench.check();
  },
  'a course that lasts for long': (bench) => {
    bench.record('doses: 4', 'doses: 400');
    bench.record('dispensed: 5 mL', 'dispensed: 400 mL');
    return bench.check();
  },
  'much more handed out than is given': (bench) => {
    bench.record('strength: 1.5 mg/mL', 'strength: 1.5 mg/tablet');
    bench.record('give: 1 mL', 'give: 1 tablet');
    bench.record('dispensed: 5 mL', 'dispensed: 40 tablets');
    return bench.check();
  },
  'an age that is unusual for the species': record('age: 10 months', 'age: 20 years'),
  'a breed of another species': record('breed: mixed breed', 'breed: Siamese'),
  'a route that the form does not take': (bench) => {
    bench.record('strength: 1.5 mg/mL', 'strength: 1.5 mg/tablet');
    bench.record('give: 1 mL', 'give: 1 tablet');
    bench.record('dispensed: 5 mL', 'dispensed: 5 tablets');
    bench.record('route: by mouth', 'route: in the eye');
    return bench.check();
  },
  'readings that hardly a patient has': vitals('10,220,98,98', '10,220,98,38'),
  'two sides of the body': (bench) => {
    bench.record('site: lower belly', 'site: left side of the belly');
    bench.record('Keep hay and water in reach all the time.', 'The cut is on the right side.');
    return bench.check();
  },
  'a time that a clock change skips': onDay('2026-03-08', '02:30'),
  'a time that a clock change shows twice': onDay('2026-11-01', '01:30'),
  'clocks that disagree': (bench) => bench.warned(answered(twoClocks(bench))),
  'a sentence that is hard to read': record(
    'Keep hay and water in reach all the time.',
    HARD.repeat(4),
  ),
  'a trade word without its explanation': record(
    'Keep hay and water in reach all the time.',
    'The incision may look red.',
  ),
  'words in another language': record('site: lower belly', 'site: parte baja del vientre'),

  'remarks that the record does not name': record('teaching: teaching.md\n', ''),

  'a table without lines': vitals(/[\s\S]*/, ''),
  'semicolons between columns': vitals(/,/g, ';'),
  'not one column of time': vitals('elapsed [min]', 'elapsed [h]'),
  'an unknown column': vitals('heart rate', 'heart rat'),
  'a column without a known unit': vitals('temperature [°C]', 'temperature [K]'),
  'a column given twice': vitals('EtCO2 [mmHg]', 'SpO2 [%]'),
  'a line with too many or too few cells': vitals('5,226,104,97,,38,38.6', '5,226,104,97,,38,38,6'),
  'a line without its time': vitals('\n10,220', '\n4,220'),
  'a reading that is no number': vitals('5,226,104', '5,fast,104'),
  'an impossible reading': vitals('5,226,104', '5,2260,104'),
  'pressures out of order': vitals(
    /^.*\n/,
    'elapsed [min],heart rate [/min],systolic [mmHg],SpO2 [%],mean [mmHg],breaths [/min],temperature [°C],agent [%]\n4,226,104,97,140,38,38.6,2.5\n',
  ),
  'quotes that do not pair up': vitals('5,226,104', '5,"226,104'),
  'titles that are not on their line': monitorTable(
    '    time:',
    '    titles on line: 9\n    time:',
  ),
  'columns that the form does not find': monitorTable('column: HR', 'column: Hr'),
  'a table without a form that can be proposed': (bench) =>
    bench.say('table', bench.put('export.csv', 'a letter, not a table\n')),
  'readings of several patients': monitorTable(
    'column: HR',
    'column: HR',
    'Time,Patient,HR,T1\n08:30,Clover,236,38.8\n08:35,Fern,131,38.6\n',
  ),
  'titles in the middle of a table': monitorTable(
    'column: HR',
    'column: HR',
    'Time,HR,T1\n08:30,236,38.8\nTime,HR,T1\n08:35,226,38.6\n',
  ),
  'a name of a reading that the form does not tell': readingALine(
    '08:30,HR,236,bpm\n08:30,PVC,0,/min\n',
  ),
  'a reading without a known unit': readingALine('08:30,HR,236,bpm\n08:30,T1,38.8,Grad\n'),
  'a word across two columns': monitorTable(
    '    time:',
    '    column widths: [5, 5, 6]\n    time:',
    'Time    HR    T1\n08:30  236  38.8\n08:35    226  38.6\n',
  ),

  'not a waveform file': strip('strip.xml', '<strip/>'),
  'a lead that the file does not have': record('lead: II', 'lead: V9'),
  'an ECG channel without a known unit': csv('time [s],II [counts]', '0,1', '0.004,2'),
  'an EDF header that is cut short': strip('strip.edf', buildEdf({ signals: [] }).subarray(0, 100)),
  'an EDF header field that is not understood': edf(['+0\x14\x14\0'], { startdate: '31.02.26' }),
  'an EDF file of another length': (bench) => {
    truncateSync(bench.clinic.path('cases/clover/strip.edf'), 5000);
    return bench.check();
  },
  'EDF annotations that are not understood': edf(['soon\x14\x14\0']),
  'EDF data records out of time': edf(['+0\x14\x14\0', '+2.5\x14\x14\0']),
  'a WFDB header that is not complete': wfdb('strip 2 250', 'strip 3 250'),
  'a WFDB record line that is not understood': wfdb('strip 2 250', 'strip two 250'),
  'a WFDB signal line that is not understood': wfdb('strip.dat 16 2000', 'strip.dat 80 2000'),
  'a WFDB signal file of another length': wfdb('', '', 5000),
  'WFDB samples that were altered': wfdb('-26070', '-26071'),
  'samples without a sampling rate': csv('II [mV]', '0.1', '0.2'),
  'a sampling rate that does not fit': strip(
    'strip.csv',
    'time [s],II [mV]\n0,0.1\n0.004,0.2\n0.008,0.1\n',
    '--sampling-rate',
    '500',
  ),
  'an ECG of impossible size': strip(
    'strip.csv',
    `time [s],II [mV]\n${Array.from({ length: 500 }, (_, i) => `${i / 250},${i % 125 === 0 ? 1200 : 0}`).join('\n')}\n`,
  ),
  'uneven times': csv('time [s],II [mV]', '0,0.1', '0.004,0.2', '0.008,0.1', '0.028,0.1'),
  'a row with too many or too few cells': csv('time [s],II [mV]', '0,0.1', '0,004,0.2'),
  'a sample that is no number': csv('time [s],II [mV]', '0,0.1', '0.004,o.2'),
  'a waveform table without rows': csv('time [s],II [mV]'),
  'columns of samples that are not understood': csv('time [min],II [mV]', '0,0.1', '0.004,0.2'),

  'no key for pseudonyms': (bench) => {
    bench.clinic.edit('clinic.yaml', /pseudonyms:\n.*\n/, '');
    return bench.build();
  },
  'a key that is not secret': (bench) => {
    bench.clinic.edit('clinic.yaml', 'name: Harebell Lane', 'name: Ash Street');
    return bench.build();
  },
  'a key among files that are handed on': (bench) => {
    bench.put('our.key', `${'5e'.repeat(32)}\n`);
    bench.clinic.edit('clinic.yaml', /demonstration key: .*/, 'key file: our.key');
    return bench.build();
  },
  'a key that others may read': (bench) => {
    chmodSync(bench.put('../our.key', `${'5e'.repeat(32)}\n`), 0o644);
    bench.clinic.edit('clinic.yaml', /demonstration key: .*/, 'key file: ../our.key');
    return bench.build();
  },
  'a passage that may lead to somebody': inClinic(
    'cases/clover/teaching.md',
    'A rabbit cannot',
    'She came back on August 30 and ate. A rabbit cannot',
  ),
  'a decision on no passage': record(
    'teaching: teaching.md',
    'public passages:\n  - { passage: "She ate on May 7.", decision: leave out }\nteaching: teaching.md',
  ),
  'an identifier in a public file': (bench) => {
    bench.clinic.edit(
      'clinic.yaml',
      /because: its patients.*/,
      'because: its patients are invented, like those of Chandler Mews, so a case may stand alone',
    );
    return bench.build();
  },

  'a language without its files': content((bench) =>
    rmSync(join(bench.content, 'en'), { recursive: true }),
  ),
  'words that a language lacks': words('es/owner.yaml', /^foot: /m, 'fot: '),
  'a page without front matter': words('en/library/p-qrs-t.md', /^---/, '--'),
  'a page that another language lacks': content((bench) =>
    rmSync(join(bench.content, 'es/library/p-qrs-t.md')),
  ),
  'pages that differ between languages': words('es/library/p-qrs-t.md', /^\{figure: .*\n/m, ''),
  'a mark without its source': words(
    'en/library/p-qrs-t.md',
    '\n---\n',
    '\n---\n\nNobody knows [aha1999].\n',
  ),
  'a source that nothing cites': words(
    'en/library/p-qrs-t.md',
    /^sources: \[/m,
    'sources: [aaha2020, ',
  ),
  'a number without its source': words(
    'en/library/p-qrs-t.md',
    '\n---\n',
    '\n---\n\nA QRS is 7 mm high.\n',
  ),
  'an unknown drawing': words('en/library/p-qrs-t.md', '\n---\n', '\n---\n\n{figure: liver}\n'),

  'a place that cannot be written': (bench) =>
    bench.build(join(bench.clinic.path('clinic.yaml'), 'out')),
  'a folder that is no output': (bench) => {
    bench.put('../thesis/chapter.txt', 'mine');
    return bench.build(join(bench.clinic.home, 'thesis'));
  },
  'a folder that is no cache': (bench) => {
    bench.put('../thesis/chapter.txt', 'mine');
    const { clinic } = bench;
    return bench.say(
      'build',
      clinic.folder,
      '--out',
      clinic.out,
      '--cache',
      join(clinic.home, 'thesis'),
    );
  },
  'a port that cannot be had': async (bench) => {
    const taken = createServer().listen(0, '127.0.0.1');
    await once(taken, 'listening');
    const { port } = taken.address() as AddressInfo;
    try {
      const said = await bench.say('watch', bench.clinic.folder, '--port', `${port}`);
      return said.replaceAll(`${port}`, '8080');
    } finally {
      taken.close();
    }
  },
  'no room': (bench) => {
    // No file may grow beyond this many kilobytes: the pages fit, the pictures and prints do not.
    const words = [program, 'build', bench.clinic.folder, '--out', bench.clinic.out];
    const limited = ['-c', 'ulimit -f 60; exec "$0" "$@"', process.execPath, ...words];
    return bench.plain(spawnSync('bash', limited, { encoding: 'utf8' }).stderr);
  },
  'a name that is taken': (bench) => bench.say('new', bench.clinic.path('cases/clover')),
  'a character without a letter': (bench) => {
    bench.record('site: lower belly', 'site: lower belly ☃');
    return bench.build();
  },

  'a public file that must not be there': { because: REPORT },
  'a public file that cannot be searched': { because: REPORT },
};

/** Rates that swing, on a monitor whose clock is 90 s ahead of the strip's. */
function twoClocks(bench: Workbench) {
  const words = loadContent(
    house.content,
    disk(() => {}),
  );
  const file = bench.clinic.path(RECORD);
  const read = words.ok ? readCase(readFileSync(file, 'utf8'), file, words.value.keys) : words;
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  const beats: { time: number }[] = [];
  for (let time = 0; time < 1200; ) {
    beats.push({ time });
    time += 60 / (100 + 30 * Math.sin(time / 78) * Math.cos(time / 186));
  }
  const patient = Array.from({ length: 36 }, (_, index) => {
    const second = 30 + index * 30;
    const inside = beats.filter(({ time }) => time >= second - 10 && time <= second);
    const span = (inside.at(-1)?.time ?? 0) - (inside[0]?.time ?? 0);
    const value = Math.round((60 * (inside.length - 1)) / span);
    return { minute: second / 60 + 1.5, value };
  });
  const strip = {
    begins: { value: 0 },
    analysis: {
      beats,
      quality: { spans: [{ readable: true, from: 0, to: 1200 }] },
      rhythms: [{ name: 'sinus rhythm', from: 0, to: 1200, possible: [], because: [] }],
    },
  };
  const clocks = clockFacts([{ channel: 'heart rate', patient }] as never, [strip] as never);
  return clockWarnings(read.value, clocks);
}
