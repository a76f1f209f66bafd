import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, inject, it } from 'vitest';
import { parse } from 'yaml';
import { disk } from '../../src/publish/disk.js';
import { load } from '../../src/publish/load.js';
import { textOf } from '../../src/words/handout-text.js';
import type { Language } from '../../src/words/language.js';
import { calendarEntries } from '../../src/words/owner/calendar-entries.js';
import { ownerSheet } from '../../src/words/owner/owner-sheet.js';
import { bytesIn, TestClinic } from '../publish/clinic.js';
import { pageText, pdfText } from '../publish/pdf-text.js';
import { hasProgram } from '../publish/programs.js';
import { accepted, atHome } from '../record/sample.js';
import { thrice } from './thrice.js';

const RECORD = 'cases/clover/case.yaml';
const BY = 'Dr. Ada Birch';
const ADDRESS = 'public/a-patient-that-must-keep-eating';

/** What no approval changes, such as the explanations, is made once for all of these builds. */
const CACHE = join(inject('demoFolder'), 'approve');

let clinic: TestClinic;
beforeEach(() => {
  clinic = new TestClinic('clover');
});
afterEach(() => clinic.remove());

const folder = () => clinic.path('cases', 'clover');
const file = () => join(folder(), 'approval.yaml');
const approve = (on = '2026-05-05', by = BY) => thrice('approve', folder(), '--by', by, '--on', on);

interface Written {
  approvals: { revision: number; by: string; on: string; digest: string; statements: object }[];
}
const written = () => (parse(readFileSync(file(), 'utf8')) as Written).approvals;

/** What the owner and the public are shown after a build. */
async function shown() {
  const built = await thrice('build', clinic.folder, '--out', clinic.out, '--cache', CACHE);
  expect(built).toMatchObject({ code: 0, err: '' });
  const page = (path: string) => pageText(clinic.readOut(path)).trim();
  return {
    sheet: page('private/clover/discharge.html'),
    index: page('private/index.html'),
    teaching: page(`${ADDRESS}/teaching.html`),
    calendar: clinic
      .readOut('private/clover/discharge.ics')
      .replaceAll('\r\n ', '')
      .replaceAll('\u00a0', ' '),
    pdf: hasProgram('pdftotext')
      ? pdfText(join(clinic.out, 'private/clover/discharge.pdf')).replace(/\s+/g, ' ')
      : null,
  };
}

/** The owner's sheet and the calendar as they would be printed now, without printing. */
function now() {
  const loaded = accepted(
    load(
      clinic.folder,
      disk(() => {}),
    ),
  );
  const [one] = loaded.cases;
  if (!one) throw new Error('the case cannot be read');
  const { standing } = one;
  const facts = atHome(one.facts);
  const language = loaded.content.languages.get(facts.identity.owner.language) as Language;
  const sheet = ownerSheet(facts, language, [], standing.sheet);
  const plain = (text: string) => text.replace(/\s+/g, ' ');
  return {
    sheet: plain(`${sheet.draft ?? ''} ${textOf(sheet.blocks)}`),
    calendar: calendarEntries(facts, language, standing.sheet),
    teachingIsApproved: standing.teaching,
  };
}

const DRAFT = 'Draft. Not yet checked by a veterinarian.';
const APPROVED = 'Checked and approved by Dr. Ada Birch on Tuesday, May 5, 2026.';
const AGAIN = 'Draft. Changed since it was approved on Tuesday, May 5, 2026.';

describe('thrice approve', () => {
  it('writes who approved what and when beside the record, and touches nothing else', async () => {
    const before = bytesIn(clinic.home);
    const { code, out, err } = await approve();
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toContain('Approved clover, revision 1, by Dr. Ada Birch on 2026-05-05.');
    for (const line of [
      '  meloxicam 1.5 mg/mL, by mouth, with or without food, for pain and swelling, rabbit',
      '    each time   1 mL: 1.5 mg, 0.71 mg/kg',
      '    first       Wed 2026-05-06 09:24',
      '    last        Sat 2026-05-09 09:24, dose 4 of 4',
      '  Fri 2026-05-15  last day of rest',
      // Clover's owner allowed the teaching page, not the record.
      'Without the draft mark from the next build on: the discharge sheet (page, PDF, calendar), the anesthesia chart, the teaching page with its answers.',
      'Dr. Ada Birch is not in the team that the record names: Dr. Teodor Vantongeren and Lucasta Bramwith.',
    ]) {
      expect(out.split('\n')).toContain(line);
    }
    const [only, ...more] = written();
    expect(more).toEqual([]);
    expect(only).toMatchObject({ revision: 1, by: BY, on: '2026-05-05' });
    expect(only?.digest).toMatch(/^[\da-f]{64}$/);
    expect(only?.statements).toMatchObject({
      medicines: [{ drug: 'meloxicam', amount: '1 mL', doses: { length: 4 } }],
      days: expect.arrayContaining([expect.objectContaining({ on: '2026-05-15' })]),
    });
    const after = bytesIn(clinic.home);
    delete after[join('clinic', 'cases', 'clover', 'approval.yaml')];
    expect(after).toEqual(before);
    expect((await thrice('check', clinic.folder)).code).toBe(0);
  });

  it('takes the draft mark off sheet, PDF, calendar and public page', async () => {
    const draft = await shown();
    expect(draft.sheet).toContain(DRAFT);
    expect(draft.index).toMatch(
      /2026-05-05 draft no open warning page PDF calendar in English chart$/,
    );
    expect(draft.teaching).toContain(DRAFT);
    expect(draft.calendar).toMatch(/SUMMARY:DRAFT: /);
    if (draft.pdf !== null) expect(draft.pdf).toContain(DRAFT);

    await approve();
    const { sheet, index, teaching, calendar, pdf } = await shown();
    expect(teaching).not.toContain(DRAFT);
    for (const text of [sheet, calendar, pdf ?? '']) expect(text).not.toMatch(/draft/i);
    expect(sheet).toContain(APPROVED);
    expect(index).toMatch(/approved by Dr\. Ada Birch on 2026-05-05 no open warning /);
    expect(teaching).toContain('Checked and approved by a veterinarian.');
    expect(teaching).not.toMatch(/Birch|May 5/);
    if (pdf !== null) expect(pdf).toContain(APPROVED);
  });

  it('holds while the record changes only in what no document says', async () => {
    await approve();
    clinic.edit(RECORD, 'record:', '# A comment moves every line.\n\nrecord:');
    clinic.edit(RECORD, 'phone: 555 0187', 'phone: 555 0188');
    clinic.edit(RECORD, 'give: 1 mL', 'give: 1.0 ml');
    clinic.edit(
      RECORD,
      'record: { given: no }',
      'record: { given: yes, by: Linnea Marrowby, on: 2026-05-05 }',
    );
    expect(now().sheet).toContain(APPROVED);
  });

  const changes: readonly [what: string, edit: () => void, named: RegExp][] = [
    [
      'an amount',
      () => clinic.edit(RECORD, 'give: 1 mL', 'give: 0.8 mL'),
      /meloxicam: give 0\.8 mL each time\. It was 1 mL\./,
    ],
    [
      'the number of doses',
      () => clinic.edit(RECORD, 'doses: 4', 'doses: 3'),
      /meloxicam has new times: 3 doses in all\. The first is on Wed, May 6 at 9:24 am, the last on Fri, May 8 at 9:24 am\. It was 4 doses\./,
    ],
    [
      'a date',
      () => clinic.edit(RECORD, 'rest: 10 days', 'rest: 12 days'),
      /Sunday, May 17, no longer Friday, May 15: Last day of strict rest\./,
    ],
    [
      'the stitches',
      () =>
        clinic.edit(
          RECORD,
          'layer: within the skin, material: poliglecaprone 25, size: 4-0, pattern: intradermal',
          'layer: skin, material: nylon, size: 4-0, pattern: simple interrupted',
        ),
      /New, on Friday, May 15: Stitches come out\.[\s\S]*please read it again: The wound\./,
    ],
    [
      'the way it is given',
      () => clinic.edit(RECORD, 'food: either', 'food: with food'),
      /meloxicam is given in a new way: Give 1 mL by mouth with food\./,
    ],
    [
      'the strength',
      () => clinic.edit(RECORD, 'strength: 1.5 mg/mL', 'strength: 2 mg/mL'),
      /meloxicam is now 2 mg\/mL\. It was 1\.5 mg\/mL\./,
    ],
    [
      'a visit that is called off',
      () => clinic.edit(RECORD, '    - { what: wound check, after: 3 days }\n', ''),
      /No longer on Friday, May 8: Visit to check the wound\./,
    ],
    [
      'a reading',
      () => clinic.edit('cases/clover/vitals.csv', '10,220,98,98', '10,220,98,97'),
      /No medicine, amount, time or date has changed\./,
    ],
  ];
  it.each(changes)('becomes a draft again with %s, and names it', async (_, edit, named) => {
    await approve();
    expect(now().sheet).toContain(APPROVED);
    edit();
    const draft = now();
    expect(draft.sheet).toContain(AGAIN);
    expect(draft.sheet).toMatch(named);
    expect(draft.sheet).not.toContain('Checked and approved');
    expect(draft.teachingIsApproved).toBe(false);

    const { code, out } = await approve('2026-05-06');
    expect(code).toBe(0);
    expect(out).toContain('revision 2');
    expect(out.replace(/\s+/g, ' ')).toMatch(named);
    expect(written().map(({ revision }) => revision)).toEqual([1, 2]);
    const { sheet } = now();
    expect(sheet).toContain('Checked and approved by Dr. Ada Birch on Wednesday, May 6, 2026.');
    expect(sheet).toMatch(named);
    expect(sheet).not.toMatch(/draft/i);
  });

  it('shows a change on sheet, list, calendar and public page until it is approved again', async () => {
    await approve();
    clinic.edit(RECORD, 'doses: 4', 'doses: 3');
    const draft = await shown();
    expect(draft.sheet).toContain(AGAIN);
    expect(draft.index).toMatch(/draft: changed since it was approved on 2026-05-05 no open /);
    expect(draft.teaching).toContain(DRAFT);
    expect(draft.calendar).toContain(AGAIN.replace(/,/g, '\\,'));
    expect(draft.calendar).toContain('SEQUENCE:2\r\n');
    if (draft.pdf !== null) expect(draft.pdf).toContain(AGAIN);

    await approve('2026-05-06');
    const { sheet, pdf, calendar } = await shown();
    expect(sheet).toContain('What is new since the sheet of Tuesday, May 5');
    expect(sheet).toContain('Please throw the old one away.');
    expect(`${sheet} ${calendar}`).not.toMatch(/draft/i);
    if (pdf !== null) expect(pdf).toContain('What is new since the sheet of Tuesday, May 5');
    expect(calendar).toContain('SEQUENCE:3\r\n');
    expect(calendar).toContain('DTSTAMP:20260506T000000Z\r\n');
    expect(calendar.match(/STATUS:CANCELLED/g)).toHaveLength(1);
  });

  it('names a medicine that came and one that went', async () => {
    await approve();
    clinic.edit(RECORD, 'drug: meloxicam\n      for', 'drug: robenacoxib\n      for');
    // The other drug of its class was given on the same day: nobody approves that without an answer in the record.
    const refused = await approve('2026-05-06');
    expect(refused.code).toBe(1);
    expect(refused.err).toContain('accepted because');
    clinic.edit(
      RECORD,
      'drug: robenacoxib\n',
      'drug: robenacoxib\n      accepted because:\n        T334: The change is meant and was talked over\n        T336: As the other\n',
    );
    const { sheet, calendar } = now();
    expect(sheet).toContain('New medicine: robenacoxib.');
    expect(sheet).toContain('meloxicam is no longer on the list. Do not give it any more.');
    expect(calendar.filter(({ cancelled }) => cancelled)).toEqual([]);
    await approve('2026-05-06');
    expect(now().calendar.filter(({ cancelled }) => cancelled)).toHaveLength(4);
  });

  it('keeps the sheet but not the teaching page when only the remarks change', async () => {
    await approve();
    clinic.edit('cases/clover/teaching.md', 'A rabbit cannot vomit', 'No rabbit can vomit');
    expect(now().sheet).toContain(APPROVED);
    expect(now().teachingIsApproved).toBe(false);
    expect((await approve('2026-05-06')).code).toBe(0);
    expect(now().teachingIsApproved).toBe(true);
  });

  it('is approved again once the facts are as they were', async () => {
    await approve();
    clinic.edit(RECORD, 'doses: 4', 'doses: 3');
    clinic.edit(RECORD, 'doses: 3', 'doses: 4');
    expect(now().sheet).toContain(APPROVED);
  });

  it('writes nothing where nothing has changed', async () => {
    await approve();
    const before = bytesIn(clinic.home);
    const { code, out } = await approve('2026-05-09', 'Dr. Someone Else');
    expect(code).toBe(0);
    expect(out).toBe(
      [
        'clover is approved as it stands: revision 1, by Dr. Ada Birch on 2026-05-05.',
        'Nothing was written: Dr. Someone Else is not added, the approval by Dr. Ada Birch stands.',
      ].join('\n'),
    );
    expect((await approve('2026-05-09')).out).not.toContain('Nothing was written');
    expect(bytesIn(clinic.home)).toEqual(before);
  });

  it('speaks to the owner in the owner’s language', async () => {
    clinic.edit(RECORD, 'email: linnea@marrowby.example', 'language: es');
    await approve();
    clinic.edit(RECORD, 'doses: 4', 'doses: 3');
    await approve('2026-05-06');
    const { sheet } = now();
    expect(sheet).toContain('Lo nuevo desde la hoja del martes, 5 de mayo');
    expect(sheet).toContain('meloxicam tiene horas nuevas: 3 dosis en total');
    expect(sheet).toMatch(/Hoja revisada y aprobada por Dr\. Ada Birch el miércoles, 6 de mayo/);
  });
});

describe('thrice approve refuses', () => {
  it.each([
    ['without a name', ['--on', '2026-05-05'], '--by is missing'],
    ['an empty name', ['--by', ' '], '--by is missing'],
    ['a day that does not exist', ['--by', BY, '--on', '2026-02-30'], '--on "2026-02-30"'],
  ])('%s', async (_, words, message) => {
    const { code, err } = await thrice('approve', folder(), ...words);
    expect(code).toBe(2);
    expect(err).toContain(message);
    expect(existsSync(file())).toBe(false);
  });

  it('a day before the surgery, and one before the last approval', async () => {
    const early = await approve('2026-05-04');
    expect(early.code).toBe(1);
    expect(early.err).toContain('a day not before the surgery on 2026-05-05');
    expect(early.err).toContain('2026-05-05 or later: --on 2026-05-05');
    await approve('2026-05-08');
    clinic.edit(RECORD, 'doses: 4', 'doses: 3');
    const again = await approve('2026-05-07');
    expect(again.code).toBe(1);
    expect(again.err).toContain('a day not before the last approval on 2026-05-08');
    expect(written()).toHaveLength(1);
  });

  it('several cases at once', async () => {
    clinic.restore('juniper');
    const { code, err } = await thrice('approve', clinic.folder, '--by', BY);
    expect(code).toBe(2);
    expect(err).toContain('holds 2 cases; approve one case folder at a time.');
  });

  it('a case with a problem', async () => {
    clinic.edit(RECORD, 'weight: 2.1 kg', 'weight: 2.1');
    const { code, err } = await approve();
    expect(code).toBe(1);
    expect(err).toContain('patient.weight');
    expect(existsSync(file())).toBe(false);
  });
});

describe('an approval that cannot be trusted', () => {
  const damages: readonly [what: string, damage: (text: string) => string, message: RegExp][] = [
    ['is no YAML', (text) => `${text}\n  - : [`, /approval\.yaml:\d+/],
    ['has lost its digest', (text) => text.replace(/digest: .*/, 'digest: ""'), /64 digits/],
    [
      'counts wrong',
      (text) => text.replace('revision: 1', 'revision: 2'),
      /expected {2}revision 1/,
    ],
    ['names a day that is none', (text) => text.replace('2026-05-05', '2026-05-50'), /calendar/],
    ['knows a dose at no time', (text) => text.replace(/T09:24/, 'T9'), /time of a dose/],
  ];
  it.each(damages)('is a problem of the case where it %s', async (_, damage, message) => {
    await approve();
    writeFileSync(file(), damage(readFileSync(file(), 'utf8')));
    const { code, err } = await thrice('check', clinic.folder);
    expect(code).toBe(1);
    expect(err).toMatch(message);
    expect(err).toContain('approval.yaml');
  });

  it('does not count where somebody writes another digest', async () => {
    await approve();
    writeFileSync(
      file(),
      readFileSync(file(), 'utf8')
        .replace(/digest: \w/, 'digest: 0')
        .replace(/digest: 0(\w{62})\w/, 'digest: 0$10'),
    );
    expect(now().sheet).toContain(AGAIN);
  });
});
