import { spawn } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import type { CaseText } from '../../src/record/case-schema.js';
import { bytesIn, DEMO, TestClinic } from '../publish/clinic.js';
import { hasProgram } from '../publish/programs.js';
import { answering, program, spawned, thrice } from './thrice.js';

let clinic: TestClinic;
let folder: string;
beforeEach(() => {
  clinic = new TestClinic();
  folder = clinic.path('cases', 'pip');
});
afterEach(() => clinic.remove());

/** A question by the name of its field, and what one answers; a list of answers where it is asked more than once. */
type Answers = Readonly<Record<string, string | readonly string[]>>;

/** A whelp of a case without anything optional but one medicine. */
const PIP: Answers = {
  record: '"0301"',
  'patient.name': 'Pip',
  'patient.species': 'dog',
  'patient.breed': 'whippet',
  'patient.sex': 'male',
  'patient.neutered': 'no',
  'patient.age': '2 years',
  'patient.weight': '12.5 kg',
  'owner.name': 'Orla Fennimore',
  'team.surgeon': 'Dr. Basil Underhill',
  'surgery.date': '2026-03-09',
  'surgery.procedure': 'castration',
  'surgery.discharge': '15:00',
  'anesthesia.begin': '09:10',
  'anesthesia.end': '10:15',
  'anesthesia.breathing': 'spontaneous',
  'closure.healing': 'edge to edge',
  'closure.edge gap': '0 mm',
  'closure.tension': 'none',
  'closure.layers[0].layer': 'skin',
  'closure.layers[0].material': 'nylon',
  'closure.layers[0].pattern': 'simple interrupted',
  'home.medicines[0].drug': 'carprofen',
  'home.medicines[0].for': 'pain and swelling',
  'home.medicines[0].strength': '50 mg/tablet',
  'home.medicines[0].give': '1/2 tablet',
  'home.medicines[0].route': 'by mouth',
  'home.medicines[0].every': '12 h',
  'home.medicines[0].food': 'with food',
  'home.medicines[0].last given': '08:40',
  'home.medicines[0].doses': '6',
  'home.rest': '2 weeks',
  'consent.teaching.given': 'no',
  'consent.record.given': 'no',
};

/** Answers each question by its name as it comes; what has no answer is left empty. */
async function interviewed(answers: Answers) {
  const left = new Map(
    Object.entries(answers).map(([field, lines]) => [
      field,
      typeof lines === 'string' ? [lines] : [...lines],
    ]),
  );
  const asked: string[] = [];
  const said = await answering(
    (question) => {
      const [, field = ''] = /^\n([^\n]*?)( - [^\n]*)?\n/.exec(question) ?? [];
      asked.push(field);
      if (asked.length > 200) throw new Error(`asked without end: ${asked.slice(-5).join(', ')}`);
      return left.get(field)?.shift() ?? '';
    },
    'new',
    folder,
  );
  return { ...said, asked, left };
}

/** A user who types these lines and then leaves. */
const typing =
  (...lines: string[]) =>
  () =>
    lines.shift() ?? null;

const record = () => parse(readFileSync(join(folder, 'case.yaml'), 'utf8')) as CaseText;

describe('thrice new', () => {
  it('writes a case folder that passes the check and the schema that it names', async () => {
    const { code, err, out, left } = await interviewed(PIP);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect([...left.values()].flat(), 'every answer was asked for').toEqual([]);
    expect(out).toContain(`Wrote ${folder}: case.yaml, vitals.csv, teaching.md.`);
    expect(await thrice('check', folder)).toEqual({
      code: 0,
      out: expect.stringMatching(/^No problem in pip\.\npip, owner's sheet .*$/),
      err: '',
    });
    expect((await thrice('check', clinic.folder)).code).toBe(0);
    expect(readdirSync(folder).sort()).toEqual(['case.yaml', 'teaching.md', 'vitals.csv']);
    expect(readFileSync(join(folder, 'teaching.md'), 'utf8')).toBe('');
    expect(readFileSync(join(folder, 'vitals.csv'), 'utf8')).toMatch(/^clock,heart rate \[\/min\]/);

    const text = readFileSync(join(folder, 'case.yaml'), 'utf8');
    const schema = /^# yaml-language-server: \$schema=(\S+)\n/.exec(text)?.[1] as string;
    expect(resolve(folder, schema)).toBe(join(DEMO, 'schema', 'case.schema.json'));
    const form = JSON.parse(readFileSync(resolve(folder, schema), 'utf8')) as object;
    const validate = new Ajv2020({ strictTypes: false }).compile(form);
    validate(record());
    expect(validate.errors).toBeNull();
    expect(text).toContain('- { file: strip.edf, lead: II }');
  });

  it('keeps what was told, in the order of the record, and adds nothing of its own', async () => {
    await interviewed(PIP);
    expect(record()).toEqual({
      record: '0301',
      patient: {
        name: 'Pip',
        species: 'dog',
        breed: 'whippet',
        sex: 'male',
        neutered: 'no',
        age: '2 years',
        weight: '12.5 kg',
      },
      owner: { name: 'Orla Fennimore' },
      team: { surgeon: 'Dr. Basil Underhill' },
      surgery: { date: '2026-03-09', procedure: 'castration', discharge: '15:00' },
      anesthesia: { begin: '09:10', end: '10:15', breathing: 'spontaneous' },
      monitor: { vitals: 'vitals.csv' },
      closure: {
        healing: 'edge to edge',
        'edge gap': '0 mm',
        tension: 'none',
        layers: [{ layer: 'skin', material: 'nylon', pattern: 'simple interrupted' }],
      },
      home: {
        medicines: [
          {
            drug: 'carprofen',
            for: 'pain and swelling',
            strength: '50 mg/tablet',
            give: '1/2 tablet',
            route: 'by mouth',
            every: '12 h',
            food: 'with food',
            'last given': '08:40',
            doses: 6,
          },
        ],
        rest: '2 weeks',
      },
      consent: { teaching: { given: 'no' }, record: { given: 'no' } },
      teaching: 'teaching.md',
    });
    expect(Object.keys(record())).toEqual([
      ...['record', 'patient', 'owner', 'team', 'surgery', 'anesthesia', 'monitor'],
      ...['closure', 'home', 'consent', 'teaching'],
    ]);
  });

  it('asks only what the answers before leave open', async () => {
    const { asked } = await interviewed(PIP);
    for (const field of [
      'anesthesia.ventilator rate',
      'home.medicines[0].at',
      'consent.teaching.by',
      'published.title',
    ]) {
      expect(asked).not.toContain(field);
    }
    expect(new Set(asked).size, 'no question twice').toBe(asked.length);
    expect(asked.slice(0, 3)).toEqual(['record', 'patient.name', 'patient.species']);
  });

  it('asks for what an answer calls for', async () => {
    const { code, asked } = await interviewed({
      ...PIP,
      'patient.born': '2023-11-02',
      'anesthesia.breathing': 'ventilator',
      'anesthesia.ventilator rate': '12 /min',
      'closure.slower because': 'steroids, old age',
      'home.medicines[0].every': '',
      'home.medicines[0].at': '08:00, 20:00',
      'home.medicines[0].first': '2026-03-09 20:45',
      'consent.teaching.given': 'yes',
      'consent.teaching.by': 'Orla Fennimore',
      'consent.teaching.on': '2026-03-09',
      'consent.questions.given': 'no',
      'published.title': 'A young dog',
      'published.patient': 'a young dog',
      'published.address': 'a-young-dog',
    });
    expect(code).toBe(0);
    expect(asked).not.toContain('patient.age');
    expect(record()).toMatchObject({
      patient: { born: '2023-11-02' },
      anesthesia: { 'ventilator rate': '12 /min' },
      closure: { 'slower because': ['steroids', 'old age'] },
      home: { medicines: [{ at: ['08:00', '20:00'] }] },
      consent: {
        teaching: { given: 'yes', by: 'Orla Fennimore', on: '2026-03-09' },
        questions: { given: 'no' },
      },
      published: { address: 'a-young-dog' },
    });
  });

  const slips: readonly [what: string, field: string, lines: readonly string[], message: string][] =
    [
      ['an empty answer', 'patient.name', ['', 'Pip'], 'to mend   Write it.'],
      ['a number without its unit', 'patient.weight', ['12.5', '12.5 kg'], 'Add the unit'],
      ['a word that is not known', 'patient.species', ['dgo', 'dog'], 'dog, cat, rabbit, ferret'],
      ['a day that does not exist', 'surgery.date', ['2026-02-30', '2026-03-09'], 'calendar'],
      ['a word in a list', 'closure.slower because', ['steroids, tea', 'steroids'], 'steroids'],
      ['a count that is no number', 'home.medicines[0].doses', ['six', '6'], 'number of doses'],
      ['another unit', 'home.medicines[0].give', ['1 mL', '1/2 tablet'], 'an amount in tablet'],
    ];
  it.each(slips)('asks again at once after %s', async (_, field, lines, message) => {
    const { code, asked, out } = await interviewed({ ...PIP, [field]: lines });
    expect(code).toBe(0);
    expect(asked.filter((one) => one === field)).toHaveLength(2);
    const reasons = out.match(/\n {2}found[^\n]*\n {2}expected[^\n]*\n {2}to mend[^\n]*/g) ?? [];
    expect(reasons).toHaveLength(1);
    expect(reasons[0]).toContain(message);
    expect((await thrice('check', folder)).code).toBe(0);
  });

  const together: readonly [what: string, answers: Answers, again: string, message: string][] = [
    [
      'times out of order',
      { 'anesthesia.end': ['09:00', '10:15'] },
      'anesthesia.end',
      'a time after the start of anesthesia',
    ],
    [
      'too little handed out',
      { 'home.medicines[0].dispensed': ['2 tablets', '3 tablets'] },
      'home.medicines[0].dispensed',
      'at least 3 tablet',
    ],
  ];
  it.each(together)('asks again for %s when all is told', async (_, answers, field, message) => {
    const { code, asked, out } = await interviewed({ ...PIP, ...answers });
    expect(code).toBe(0);
    expect(asked.at(-1)).toBe(field);
    expect(out).toContain('Some answers do not fit together.');
    expect(out).toContain(message);
    expect((await thrice('check', folder)).code).toBe(0);
  });

  it('asks for the first dose where the last one in the clinic leaves too long a gap', async () => {
    const { code, asked } = await interviewed({
      ...PIP,
      'home.medicines[0].every': '',
      'home.medicines[0].at': '20:00',
      'home.medicines[0].last given': '2026-03-08 07:00',
      'home.medicines[0].first': ['', '2026-03-09 20:00'],
    });
    expect(code).toBe(0);
    expect(asked.at(-1)).toBe('home.medicines[0].first');
    expect(record().home?.medicines[0]).toMatchObject({
      at: ['20:00'],
      first: '2026-03-09 20:00',
    });
  });

  it('asks for no closure and no care at home of a patient that died', async () => {
    const isOfHome = (field: string) => /^(closure|home)/.test(field);
    const { code, asked } = await interviewed({
      ...Object.fromEntries(Object.entries(PIP).filter(([field]) => !isOfHome(field))),
      // Told before the death: it is taken back and asked again.
      'surgery.discharge': ['15:00', ''],
      'events[0].at': '10:15',
      'events[0].what': 'death',
    });
    expect(code).toBe(0);
    expect(asked.filter(isOfHome)).toEqual([]);
    expect(record()).not.toHaveProperty('home');
    expect(record().surgery).not.toHaveProperty('discharge');
  });

  it('takes several items of a list, each until an empty answer', async () => {
    await interviewed({
      ...PIP,
      'anesthesia.drugs[0].drug': 'methadone',
      'anesthesia.drugs[0].dose': '2.5 mg',
      'anesthesia.drugs[0].route': 'intramuscular',
      'anesthesia.drugs[0].at': '08:50',
      'anesthesia.drugs[1].drug': 'alfaxalone',
      'anesthesia.drugs[1].dose': '20 mg',
      'anesthesia.drugs[1].route': 'intravenous',
      'anesthesia.drugs[1].at': '09:10',
    });
    expect(record().anesthesia.drugs).toMatchObject([{ drug: 'methadone' }, { at: '09:10' }]);
  });
});

describe('thrice new leaves nothing half-written', () => {
  it('when the answers end', async () => {
    const before = bytesIn(clinic.home);
    const { code, err } = await answering(typing('0301', 'Pip', 'dog'), 'new', folder);
    expect(code).toBe(1);
    expect(err).toContain('Nothing was written.');
    expect(bytesIn(clinic.home)).toEqual(before);
  });

  it('when the folder is there already, whatever is in it', async () => {
    mkdirSync(folder, { recursive: true });
    writeFileSync(join(folder, 'notes.txt'), 'mine');
    const before = bytesIn(clinic.home);
    const { code, out, err } = await answering(typing('0301'), 'new', folder);
    expect({ code, out }).toEqual({ code: 1, out: '' });
    expect(err).toContain('the name of a new folder');
    expect(bytesIn(clinic.home)).toEqual(before);
  });

  it('where there is no clinic above it', async () => {
    const { code, out, err } = await answering(
      typing('0301'),
      'new',
      join(clinic.home, 'a', 'b', 'c'),
    );
    expect({ code, out }).toEqual({ code: 1, out: '' });
    expect(err).toContain('the clinic of this case');
    expect(existsSync(join(clinic.home, 'a'))).toBe(false);
  });
});

describe('the program', () => {
  it('takes its answers from a pipe, many lines at once', async () => {
    const order: string[] = [];
    const { asked, left } = await interviewed(PIP);
    expect([...left.values()].flat()).toEqual([]);
    for (const field of asked) order.push((PIP[field] as string | undefined) ?? '');
    const other = new TestClinic();
    try {
      const target = other.path('cases', 'pip');
      const { code, err } = spawned(['new', target], { input: `${order.join('\n')}\n` });
      expect({ code, err }).toEqual({ code: 0, err: '' });
      const text = (file: string) => readFileSync(join(file, 'case.yaml'), 'utf8');
      const bare = (file: string) => text(file).replace(/^# yaml-language.*\n/, '');
      expect(bare(target)).toBe(bare(folder));
    } finally {
      other.remove();
    }
  });

  it('says that nothing was written when the pipe ends', () => {
    const { code, err } = spawned(['new', folder], { input: '0301\nPip\n' });
    expect(code).toBe(1);
    expect(err).toContain('Nothing was written.');
    expect(existsSync(dirname(folder))).toBe(false);
  });

  it.skipIf(!hasProgram('script'))(
    'writes nothing when a person breaks off with Ctrl-C',
    async () => {
      const command = `'${process.execPath}' '${program}' new '${folder}'`;
      const child = spawn('script', ['-qec', command, '/dev/null'], { stdio: 'pipe' });
      let shown = '';
      child.stdout.on('data', (bytes) => {
        const first = !shown.includes('> ');
        shown += bytes;
        if (first && shown.includes('> ')) child.stdin.write('\u0003');
      });
      const code = await new Promise((done) => child.on('close', done));
      expect(code).toBe(1);
      expect(shown).toContain('Nothing was written.');
      expect(existsSync(dirname(folder))).toBe(false);
    },
  );
});
