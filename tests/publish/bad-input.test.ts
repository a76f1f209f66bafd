import { spawnSync } from 'node:child_process';
import {
  chmodSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { program, thrice } from '../cli/thrice.js';
import { bytesIn, strays, TestClinic } from './clinic.js';

const RECORD = 'cases/clover/case.yaml';
const VITALS = 'cases/clover/vitals.csv';

let clinic: TestClinic;
const build = (...more: string[]) => thrice('build', clinic.folder, '--out', clinic.out, ...more);

/** The lines of each problem in what a command said. */
const problemsIn = (text: string) =>
  text.split(/\n(?=\S)/).filter((part) => part.includes('\n  found '));

beforeAll(async () => {
  clinic = new TestClinic('clover');
  expect((await build()).code).toBe(0);
}, 60_000);
afterAll(() => clinic.remove());
beforeEach(() => {
  clinic.restoreClinic();
  clinic.restore('clover');
});

/** What is damaged, and what the one problem says: place, field, found, expected, to mend. */
interface Damage {
  readonly what: string;
  readonly make: () => void;
  readonly place: () => string;
  readonly says: readonly [found: RegExp, expected: RegExp, mend: RegExp];
}

/** A place in a text file; `#` stands for any number. */
const at = (file: string, text: string, field: string) =>
  `${clinic.path(file)}:${clinic.lineOf(file, text)}:#  ${field}`;

const placePattern = (place: string) =>
  new RegExp(`^${place.replace(/[.[\]]/g, '\\$&').replaceAll('#', '\\d+')} {2}\\[T\\d{3}\\]$`);

const DAMAGES: readonly Damage[] = [
  {
    what: 'a vitals file that is not there',
    make: () => rmSync(clinic.path(VITALS)),
    place: () => at(RECORD, 'vitals: vitals.csv', 'monitor.vitals'),
    says: [/"vitals.csv", which is not in/, /a file in the case folder/, /Put the file there/],
  },
  {
    what: 'a waveform file that is not there',
    make: () => rmSync(clinic.path('cases/clover/strip.edf')),
    place: () => at(RECORD, 'file: strip.edf', 'monitor.strips[0].file'),
    says: [/"strip.edf", which is not in/, /a file in the case folder/, /Put the file there/],
  },
  {
    what: 'remarks that are not there',
    make: () => rmSync(clinic.path('cases/clover/teaching.md')),
    place: () => at(RECORD, 'teaching: teaching.md', 'teaching'),
    says: [/"teaching.md", which is not in/, /a file in the case folder/, /Put the file there/],
  },
  {
    what: 'a weight in a unit that does not belong there',
    make: () => clinic.edit(RECORD, 'weight: 2.1 kg', 'weight: 2.1 mL'),
    place: () => at(RECORD, 'weight:', 'patient.weight'),
    says: [/"2.1 mL"/, /kg, lb, g/, /Use a unit that is known here/],
  },
  {
    what: 'a weight without a unit',
    make: () => clinic.edit(RECORD, 'weight: 2.1 kg', 'weight: 2.1'),
    place: () => at(RECORD, 'weight:', 'patient.weight'),
    says: [/2.1/, /kg, lb, g/, /unit/],
  },
  {
    what: 'a date that does not exist',
    make: () => clinic.edit(RECORD, 'date: 2026-05-05', 'date: 2026-02-30'),
    place: () => at(RECORD, 'date:', 'surgery.date'),
    says: [/"2026-02-30"/, /a date such as/, /not in the calendar/],
  },
  {
    what: 'a key with a slip of the pen',
    make: () => clinic.edit(RECORD, '  species: rabbit', '  speceis: rabbit\n  species: rabbit'),
    place: () => at(RECORD, 'speceis', 'patient.speceis'),
    says: [/the key "speceis"/, /a key that the record knows/, /Remove the line|Did you mean/],
  },
  {
    what: 'an EDF file that ends too early',
    make: () => truncateSync(clinic.path('cases/clover/strip.edf'), 5000),
    place: () => `${clinic.path('cases/clover/strip.edf')} at byte #  data records`,
    says: [/\d/, /\d/, /\w+ \w+/],
  },
  {
    what: 'a vitals file with decimal commas',
    make: () => clinic.edit(VITALS, '5,226,104,97,,38,38.6,2.5', '5,226,104,97,,38,38,6,2.5'),
    place: () => `${clinic.path(VITALS)}:3`,
    says: [/9 columns/, /8 columns/, /decimal comma/],
  },
  {
    what: 'a quoted decimal comma in the vitals file',
    make: () => clinic.edit(VITALS, '5,226,104,97,,38,38.6,2.5', '5,226,104,97,,38,"38,6",2.5'),
    place: () => `${clinic.path(VITALS)}:3:#  temperature [°C]`,
    says: [/"38,6"/, /a decimal point/, /Write 38.6/],
  },
  {
    what: 'a vitals column in an unknown unit',
    make: () => clinic.edit(VITALS, 'temperature [°C]', 'temperature [K]'),
    place: () => `${clinic.path(VITALS)}:1:#  temperature [K]`,
    says: [/the unit "K"/, /C or F/, /temperature \[C\]/],
  },
  {
    what: 'a lead that the file does not have',
    make: () => clinic.edit(RECORD, 'lead: II', 'lead: V9'),
    place: () => at(RECORD, 'lead: V9', 'monitor.strips[0].lead'),
    says: [/the lead "V9"/, /one of the channels of the file: .*II/, /./],
  },
  {
    what: 'YAML that cannot be read',
    make: () => clinic.edit(RECORD, '  breed: mixed breed', '  breed: "mixed breed'),
    place: () => `${clinic.path(RECORD)}:#:#`,
    says: [
      /quote|scalar|Missing/i,
      /YAML that can be read/,
      /indentation, the colons and the quotes/,
    ],
  },
  {
    what: 'a record that is not UTF-8',
    make: () => writeFileSync(clinic.path(RECORD), Buffer.from('record: caf\xe9', 'latin1')),
    place: () => `${clinic.path(RECORD)}:1:12`,
    says: [/not UTF-8/, /text in UTF-8/, /encoding UTF-8/],
  },
  {
    what: 'a medicine that was dispensed short',
    make: () => clinic.edit(RECORD, 'dispensed: 5 mL', 'dispensed: 3 mL'),
    place: () => at(RECORD, 'dispensed:', 'home.medicines[0].dispensed'),
    says: [/3 mL/, /at least 4 mL for 4 doses of 1 mL/, /Hand out more/],
  },
  {
    what: 'a dose without a unit',
    make: () => clinic.edit(RECORD, 'give: 1 mL', 'give: 1'),
    place: () => at(RECORD, 'give:', 'home.medicines[0].give'),
    says: [/"1"|bare number 1/, /how much at one time/, /unit|quotes/],
  },
  {
    what: 'a patient of 0 kg',
    make: () => clinic.edit(RECORD, 'weight: 2.1 kg', 'weight: 0 kg'),
    place: () => at(RECORD, 'weight:', 'patient.weight'),
    says: [/"0 kg"/, /the body weight above zero/, /Write the true value/],
  },
  {
    what: 'a last clinic dose after the patient went home',
    make: () => clinic.edit(RECORD, 'last given: 09:24', 'last given: 16:00'),
    place: () => at(RECORD, 'last given:', 'home.medicines[0].last given'),
    says: [/^16:00$/, /before the patient goes home at 15:30/, /not "last given"/],
  },
  {
    what: 'a volume that no syringe has a line for',
    make: () => clinic.edit(RECORD, 'give: 1 mL', 'give: 1.05 mL'),
    place: () => at(RECORD, 'give:', 'home.medicines[0].give'),
    says: [/1.05 mL/, /one of 3 mL has a line every 0.1 mL/, /Give 1 mL or 1.1 mL/],
  },
  {
    what: 'a medicine that the species must not have',
    make: () =>
      clinic.edit(
        RECORD,
        'drug: meloxicam\n      for',
        'drug: amoxicillin with clavulanate\n      for',
      ),
    place: () => at(RECORD, 'amoxicillin', 'home.medicines[0].drug'),
    says: [
      /amoxicillin with clavulanate for a rabbit/,
      /as the formulary says: by mouth it upsets/,
      /Choose another medicine/,
    ],
  },
  {
    what: 'a dose above the most of a day',
    make: () => {
      clinic.edit(RECORD, 'give: 1 mL', 'give: 1.5 mL');
      clinic.edit(RECORD, 'dispensed: 5 mL', 'dispensed: 9 mL');
    },
    place: () => at(RECORD, 'give:', 'home.medicines[0].give'),
    says: [
      /^1.071 mg\/kg of meloxicam within 24 h$/,
      /at most 1 mg\/kg a day/,
      /weight, strength.*give less/,
    ],
  },
  {
    what: 'a suture material with a slip of the pen',
    make: () => clinic.edit(RECORD, 'material: polydioxanone', 'material: polydioxanon'),
    place: () => at(RECORD, 'polydioxanon', 'closure.layers[0].material'),
    says: [
      /"polydioxanon"/,
      /the suture material by its generic name/,
      /Did you mean "polydioxanone"/,
    ],
  },
  {
    what: 'a suture size that does not exist',
    make: () => clinic.edit(RECORD, 'size: 3-0', 'size: 3/0'),
    place: () => at(RECORD, 'size: 3/0', 'closure.layers[0].size'),
    says: [/"3\/0"/, /the USP size, one of/, /Did you mean "3-0"/],
  },
  {
    what: 'a day of removal before the surgery',
    make: () => clinic.edit(RECORD, '  tension: none', '  remove on: 2026-05-04\n  tension: none'),
    place: () => at(RECORD, 'remove on', 'closure.remove on'),
    says: [/2026-05-04/, /a day after the surgery on 2026-05-05/, /Mend one of the two/],
  },
  {
    what: 'stitches to take out and a clinic that never opens',
    make: () => {
      clinic.edit(
        RECORD,
        'layer: within the skin, material: poliglecaprone 25',
        'layer: skin, material: nylon',
      );
      clinic.edit('clinic.yaml', /(day): [\d:-]+/g, '$1: closed');
    },
    place: () => at(RECORD, '  layers:', 'closure.layers'),
    says: [
      /a clinic that is closed from 2026-05-15 to 28 days after 2026-05-19/,
      /an open day/,
      /"hours" and "closed on" in clinic.yaml/,
    ],
  },
  {
    what: 'a first home dose before the patient goes home',
    make: () => clinic.edit(RECORD, 'discharge: 15:30', 'discharge: 2026-05-06 10:00'),
    place: () => at(RECORD, 'last given: 09:24', 'home.medicines[0].last given'),
    says: [/2026-05-06 09:24/, /after the patient goes home at 2026-05-06 10:00/, /last given/],
  },
  {
    what: 'a letter that no printed face has',
    make: () => clinic.edit(RECORD, 'site: lower belly', 'site: lower belly ☃'),
    place: () => `${clinic.path(RECORD)}:${clinic.lineOf(RECORD, '☃')}:#`,
    says: [/"☃" \(U\+2603\)/, /printed letters/, /Latin letters/],
  },
];

describe('a build whose only case has', () => {
  it.each(DAMAGES)('$what says so in one message and changes nothing', async (damage) => {
    damage.make();
    const place = placePattern(damage.place());
    const before = clinic.bytes();
    const { code, out, err } = await build();
    expect({ code, out }).toEqual({ code: 1, out: '' });
    const [problem = '', ...others] = problemsIn(err);
    expect(others).toEqual([]);
    const lines = problem.split('\n');
    expect(lines[0]).toMatch(place);
    // The line itself may stand between the place and the three answers.
    const told = lines
      .map((line) => /^ {2}(found|expected|to mend) +(.+)$/.exec(line))
      .filter((line) => line !== null);
    expect(told.map((line) => line?.[1])).toEqual(['found', 'expected', 'to mend']);
    for (const [index, wanted] of damage.says.entries()) expect(told[index]?.[2]).toMatch(wanted);
    expect(err.trimEnd()).toMatch(/\n1 problem\.$/);
    expect(clinic.bytes()).toEqual(before);
  });

  it('several problems lists those of the form in one go', async () => {
    clinic.edit(RECORD, 'weight: 2.1 kg', 'weight: 2.1 stone');
    clinic.edit(RECORD, 'date: 2026-05-05', 'date: 5 May');
    clinic.edit(RECORD, 'route: by mouth', 'route: by moth');
    const { code, err } = await build();
    expect(code).toBe(1);
    for (const field of ['patient.weight', 'surgery.date', 'home.medicines[0].route']) {
      expect(err).toContain(field);
    }
    expect(err).toContain('3 problems.');
  });

  it('several problems lists those of the files and of the doses in one go', async () => {
    clinic.edit(RECORD, 'lead: II', 'lead: V9');
    clinic.edit(RECORD, 'dispensed: 5 mL', 'dispensed: 3 mL');
    rmSync(clinic.path(VITALS));
    const { code, err } = await build();
    expect(code).toBe(1);
    for (const field of ['monitor.vitals', 'strips[0].lead', 'medicines[0].dispensed']) {
      expect(err).toContain(field);
    }
    expect(err).toContain('3 problems.');
  });
});

describe('a build of', () => {
  it('a clinic without clinic.yaml says where it was looked for', async () => {
    const other = new TestClinic('clover');
    rmSync(other.path('clinic.yaml'));
    const before = other.bytes();
    const { code, err } = await thrice('build', other.folder, '--out', other.out);
    expect(code).toBe(1);
    expect(err).toContain(`${other.path('clinic.yaml')}  [T101]\n  found     no such file`);
    expect(other.bytes()).toEqual(before);
    other.remove();
  });

  it('a clinic whose clinic.yaml has a problem says where', async () => {
    const other = new TestClinic('clover');
    other.edit('clinic.yaml', 'America/Chicago', 'America/Chicagoo');
    const { code, err } = await thrice('build', other.folder, '--out', other.out);
    expect(code).toBe(1);
    expect(err).toContain(`clinic.yaml:${other.lineOf('clinic.yaml', 'time zone')}:1  time zone`);
    other.remove();
  });

  it('a case folder that is empty says what belongs there', async () => {
    rmSync(clinic.path('cases/clover'), { recursive: true });
    mkdirSync(clinic.path('cases/clover'));
    const before = clinic.bytes();
    for (const path of [clinic.folder, clinic.path('cases/clover')]) {
      const { code, err } = await thrice('build', path, '--out', clinic.out);
      expect(code).toBe(1);
      expect(err).toMatch(/\n {2}found {5}no such file\n.*\n {2}to mend {3}.*case\.yaml/);
    }
    expect(clinic.bytes()).toEqual(before);
  });

  it('a folder that does not exist, or a file, says so', async () => {
    for (const [path, found] of [
      [clinic.path('nowhere'), 'no such folder'],
      [clinic.path('clinic.yaml'), 'no such file'],
    ] as const) {
      const { code, err } = await thrice('build', path, '--out', clinic.out);
      expect(code).toBe(1);
      expect(err).toContain(`found     ${found}`);
    }
  });
});

describe('an output place', () => {
  it('that holds other things is refused and not touched', async () => {
    const own = join(clinic.home, 'own');
    mkdirSync(own);
    writeFileSync(join(own, 'thesis.txt'), 'mine');
    const before = clinic.bytes();
    const { code, err } = await thrice('build', clinic.folder, '--out', own);
    expect(code).toBe(1);
    expect(err).toContain(`${own}  [T802]\n  found     a folder with other things in it`);
    expect(clinic.bytes()).toEqual(before);
    rmSync(own, { recursive: true });
  });

  it('that is the folder of the records is refused and not touched', async () => {
    const before = clinic.bytes();
    expect((await thrice('build', clinic.folder, '--out', clinic.folder)).code).toBe(1);
    expect(clinic.bytes()).toEqual(before);
  });

  it('that is a file, or lies in one, is refused and not touched', async () => {
    const before = clinic.bytes();
    const file = clinic.path('clinic.yaml');
    const on = await thrice('build', clinic.folder, '--out', file);
    expect(on.code).toBe(1);
    expect(on.err).toContain(`${file}  [T802]\n  found     a file`);
    const inside = await thrice('build', clinic.folder, '--out', join(file, 'out'));
    expect(inside.code).toBe(1);
    expect(inside.err).toContain('a place that cannot be written');
    expect(clinic.bytes()).toEqual(before);
  });

  it('whose folder nobody may write is refused', () => {
    const parent = mkdtempSync(join(tmpdir(), 'locked-'));
    chmodSync(parent, 0o555);
    chmodSync(clinic.home, 0o755);
    // Nothing is locked for the superuser, so the build then runs as nobody.
    const nobody = process.getuid?.() === 0 ? { uid: 65534, gid: 65534 } : {};
    const { status, stderr } = spawnSync(
      process.execPath,
      [program, 'build', clinic.folder, '--out', join(parent, 'out')],
      { encoding: 'utf8', ...nobody },
    );
    expect(stderr).toContain(
      `${join(parent, 'out')}  [T801]\n  found     a place that cannot be written`,
    );
    expect(status).toBe(1);
    expect(bytesIn(parent)).toEqual({});
    rmSync(parent, { recursive: true });
  });
});

describe('one bad case among good ones', () => {
  let two: TestClinic;
  const buildTwo = (...more: string[]) => thrice('build', two.folder, '--out', two.out, ...more);
  const PUBLIC = 'public/a-patient-that-must-keep-eating/teaching.html';

  beforeAll(async () => {
    two = new TestClinic('clover', 'saffron');
    expect((await buildTwo()).code).toBe(0);
  }, 60_000);
  afterAll(() => two.remove());

  it('stops everything with --strict, and changes nothing', async () => {
    two.edit(RECORD, 'weight: 2.1 kg', 'weight: 2.1');
    const before = two.bytes();
    const { code, out, err } = await buildTwo('--strict');
    expect({ code, out }).toEqual({ code: 1, out: '' });
    expect(err).toContain('patient.weight');
    expect(two.bytes()).toEqual(before);
  });

  it('keeps its last sheet, loses its public pages, and says both', async () => {
    const before = bytesIn(two.out);
    const { code, out, err } = await buildTwo();
    expect(code).toBe(1);
    expect(out).toContain('Built 1 case: saffron.');
    expect(err).toContain('Left out: clover. Nothing of them is public until they are mended.');
    expect(err).toContain('last discharge sheets were kept (clover); they may be out of date.');
    expect(err).toContain('patient.weight');
    const after = bytesIn(two.out);
    const changed = Object.keys({ ...before, ...after }).filter(
      (key) => before[key] !== after[key],
    );
    expect(changed).toContain(PUBLIC);
    for (const path of changed) {
      // The lists, the glossary, the search and the feed lead to no page that is gone.
      expect(path).toMatch(
        /^(public\/(a-patient-that-must|index|species|procedures|rhythms|questions|feed|sitemap|library\/|assets\/)|private\/index|private\/[^/]+\/chart)/,
      );
    }
    expect(Object.keys(after).filter((path) => path.includes('must-keep-eating'))).toEqual([]);
    const index = (tree: string) => readFileSync(join(two.out, tree, 'index.html'), 'utf8');
    expect(index('public')).not.toContain('keep-eating');
    expect(index('private')).toMatch(/out of date[\s\S]*href="clover\/discharge\.html"/);
    expect(strays(two.home)).toEqual([]);
  });

  it('is said to have lost its record where only that is missing', async () => {
    rmSync(two.path(RECORD));
    const { code, out, err } = await buildTwo();
    expect(code).toBe(1);
    expect(out).toContain('Built 1 case: saffron.');
    expect(err).toContain(`${two.path(RECORD)}  [T101]\n  found     no such file`);
    expect(err).toContain('kept (clover)');
  });

  it('comes back once it is mended', async () => {
    two.restore('clover');
    const { code, out, err } = await buildTwo();
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toContain('Built 2 cases: clover, saffron.');
    expect(Object.keys(bytesIn(two.out))).toContain(PUBLIC);
    const index = readFileSync(join(two.out, 'private/index.html'), 'utf8');
    expect(index).not.toContain('out of date');
  });
});
