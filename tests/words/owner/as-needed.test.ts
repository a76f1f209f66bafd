import { describe, expect, it } from 'vitest';
import { approve } from '../../../src/publish/approval.js';
import { approvalSchema, type Statements } from '../../../src/record/approval-schema.js';
import { readText } from '../../../src/words/handout-text.js';
import type { Language } from '../../../src/words/language.js';
import { calendarEntries } from '../../../src/words/owner/calendar-entries.js';
import { changesBetween } from '../../../src/words/owner/changes.js';
import { inShort } from '../../../src/words/owner/in-short.js';
import { ownerSheet } from '../../../src/words/owner/owner-sheet.js';
import { statementsOf } from '../../../src/words/owner/statements.js';
import { demo } from '../../facts/demo.js';
import { accepted, type Change } from '../../record/sample.js';
import { factsOf, sheetOf } from './sheet-of.js';

const english = demo.content.languages.get('en') as Language;

/** A medicine as needed of Thimble, who goes home at 15:00 on Monday, 9 March. */
const needed = (more: Readonly<Record<string, string>> = {}): Change => [
  '  collar: 12 days\n',
  `  as needed:\n${Object.entries({
    drug: 'gabapentin',
    for: 'pain and swelling',
    if: 'she cries or will not settle',
    strength: '100 mg/capsule',
    give: '1 capsule',
    route: 'by mouth',
    food: 'with food',
    'at least apart': '8 h',
    'up to': '{ a day: 2, in all: 4 }',
    until: '2026-03-11',
    'last given': '10:00',
    dispensed: '4 capsules',
    ...more,
  })
    .map(([key, value], i) => `    ${i === 0 ? '-' : ' '} ${key}: ${value}\n`)
    .join('')}  collar: 12 days\n`,
];
/** No medicine with hours. */
const WITHOUT_HOURS: Change = [
  `  medicines:
    - drug: carprofen
      for: pain and swelling
      strength: 50 mg/tablet
      give: 1/2 tablet
      route: by mouth
      every: 12 h
      food: with food
      last given: 08:40
      doses: 6
      dispensed: 3 tablets
`,
  '',
];

describe('the sheet of a medicine as needed', () => {
  const text = sheetOf('en', [], needed());

  it('says when, how much, how long to wait, how often at most, and from and until when', () => {
    for (const said of [
      'gabapentin, 100 mg/capsule on the label. For pain and swelling.',
      'Give it only if she cries or will not settle. Give 1 capsule by mouth with food.',
      'We gave a dose here on Mon, Mar 9 at 10:00 am. Not before Mon, Mar 9, 6:00 pm.',
      'Wait at least 8 hours before you give it again. Give no more than 2 doses in 24 hours, and 4 doses in all.',
      'Do not give it after Wed, Mar 11, even if some is left.',
    ]) {
      expect(text).toContain(said);
    }
  });

  it('says the same in Spanish', () => {
    const spanish = sheetOf('es', [], needed({ if: 'llora o no se calma' }));
    for (const said of [
      'Dé esta medicina solo si llora o no se calma. Dé 1 cápsula por la boca con comida.',
      'No la dé antes del lunes, 9 de mar (6:00 p.m.).',
      'Espere al menos 8 horas antes de darla otra vez. No dé más de 2 dosis en 24 horas, ni más de 4 dosis en total.',
      'No la dé después del miércoles, 11 de mar, aunque sobre medicina.',
      'Lo que se da solo si hace falta se suma a lo demás.',
    ]) {
      expect(spanish).toContain(said);
    }
  });

  it('tells it apart from what has hours, which goes on', () => {
    expect(text).toContain('What you give only if needed comes on top of the rest.');
    expect(text).toContain(
      'Give 1 medicine. The last dose is on Thu, Mar 12. Give 1 more only if needed, until Wed, Mar 11.',
    );
    const alone = sheetOf('en', [], WITHOUT_HOURS, needed());
    expect(alone).toContain('Give 1 medicine only if needed, until Wed, Mar 11.');
    expect(alone).toContain('Give only these medicines.');
    expect(alone).not.toMatch(/comes on top|missed, do not give two|Tick each dose|no medicines/);
  });

  it('says how far what was handed out goes, where that is not as far as may be given', () => {
    const little = sheetOf('en', [], needed({ dispensed: '3 capsules' }));
    expect(little).toContain('There is enough for 3 doses. Do not give it after Wed, Mar 11.');
    expect(text).not.toContain('There is enough');
  });

  it('leaves out what a single dose has no use for', () => {
    const once = sheetOf('en', [], needed({ 'up to': '{ in all: 1 }' }));
    expect(once).toContain('Give it one time only.');
    expect(once).not.toMatch(/Wait at least|in 24 hours/);
  });

  it('counts the gap from a dose at its hour as well, where it is the same drug', () => {
    const both = sheetOf('en', [], needed({ drug: 'Carprofen' }));
    expect(both).toContain('You also give it at fixed hours. Wait 8 hours after those doses, too.');
    expect(text).not.toContain('You also give it');
  });

  it('takes no stop from the record into its own sentence', () => {
    expect(sheetOf('en', [], needed({ if: 'she cries.' }))).toContain('only if she cries. Give');
  });

  it('says which day midnight belongs to', () => {
    expect(sheetOf('en', [], needed({ first: '2026-03-10 00:00' }))).toContain(
      'Not before Tue, Mar 10, midnight. Midnight is the start of the day that it stands with.',
    );
  });

  it('has a line to write on for each dose that there is to give, but for a very long list', () => {
    const lines = (change: Change) =>
      ownerSheet(factsOf([], change), english, []).blocks.flatMap((block) =>
        block.kind === 'table'
          ? block.rows.flat().flatMap((cell) => (cell.kind === 'lines' ? cell.labels : []))
          : [],
      );
    expect(lines(needed())).toEqual(['Dose 1', 'Dose 2', 'Dose 3', 'Dose 4']);
    expect(lines(needed({ dispensed: '3 capsules' }))).toHaveLength(3);
    const long = { 'up to': '{ a day: 3 }', until: '2026-03-20', dispensed: '40 capsules' };
    expect(lines(needed(long))).toHaveLength(12);
    expect(sheetOf('en', [], needed(long))).toContain('When the lines are full, go on below them.');
  });

  it('draws the syringe of a liquid, numbered after those with hours', () => {
    const { blocks } = ownerSheet(
      factsOf([], needed({ strength: '50 mg/mL', give: '2 mL', dispensed: '10 mL' })),
      english,
      [],
    );
    const figures = blocks.flatMap((block) =>
      block.kind === 'table'
        ? block.rows
            .flat()
            .flatMap((cell) => (cell.kind === 'lines' && cell.figure ? [cell.figure.name] : []))
        : [],
    );
    expect(figures).toEqual(['syringe-2']);
  });

  it('names as many in short as there are, of each kind', () => {
    const [callout] = inShort(factsOf([], needed()), english);
    expect(callout?.kind === 'callout' && callout.said[0]?.facts).toEqual([
      'home.medicines.0.doses',
      'home.asNeeded.0.until',
    ]);
  });
});

describe('the calendar', () => {
  it('has the last day of a medicine as needed and no dose of it, and rings for neither', () => {
    const entries = calendarEntries(factsOf([], needed()), english).filter(({ title }) =>
      title.includes('gabapentin'),
    );
    expect(entries).toMatchObject([
      {
        title: 'DRAFT: Thimble: gabapentin: last day to give it, and only if needed',
        on: '2026-03-11',
        alarm: null,
      },
    ]);
  });
});

describe('what is new on a later sheet', () => {
  const statements = (...changes: Change[]): Statements =>
    statementsOf(factsOf([], ...changes), english);
  const changes = (before: Statements, now: Statements) =>
    changesBetween(before, now, english)
      .map((said) => readText(said).replaceAll('\u00a0', ' '))
      .filter((said) => /gabapentin|carprofen/.test(said));

  it('names a medicine as needed that was not there, and one that is gone', () => {
    const [without, withIt] = [statements(), statements(needed())];
    expect(changes(without, withIt)).toEqual([
      'New, only if needed: gabapentin.',
      'New, on Wednesday, March 11: gabapentin: last day to give it, and only if needed.',
    ]);
    expect(changes(withIt, without)[0]).toBe(
      'gabapentin is no longer on the list. Do not give it any more.',
    );
    expect(changes(withIt, withIt)).toEqual([]);
  });

  it('names another amount, sign or limit', () => {
    const now = needed({ give: '2 capsules', if: 'she limps', 'at least apart': '12 h' });
    expect(changes(statements(needed()), statements(now))).toEqual([
      'gabapentin: give 2 capsules each time. It was 1 capsule.',
      'Give gabapentin only if she limps. That is new.',
      expect.stringMatching(/^gabapentin, how often and how long: .*at least 12 hours/),
    ]);
  });

  it('does not take what moves from hours to as needed for gone, nor the other way round', () => {
    const drug = { drug: 'carprofen' };
    const hours = statements();
    const wanted = statements(WITHOUT_HOURS, needed(drug));
    expect(changes(hours, wanted).slice(0, 2)).toEqual([
      'carprofen no longer has fixed hours.',
      'New, only if needed: carprofen.',
    ]);
    expect(changes(wanted, hours).slice(0, 2)).toEqual([
      'carprofen now has fixed hours.',
      'carprofen is no longer given on top, only at its fixed hours.',
    ]);
  });

  it('reads an approval of before, which knows of none', () => {
    const { asNeeded: _, ...old } = statements();
    const approval = {
      revision: 1,
      by: 'Dr. Basil Underhill',
      on: '2026-03-09',
      digest: '0'.repeat(64),
      teaching: '0'.repeat(64),
      statements: old,
    };
    const [read] = approvalSchema.parse({ approvals: [approval] }).approvals;
    expect(read?.statements.asNeeded).toEqual([]);
  });
});

it('is kept with the approval of the demonstration’s case that has one', () => {
  const loaded = demo.cases.find(({ name }) => name === 'saffron');
  if (!loaded) throw new Error('the demonstration has the case');
  const [approval] = accepted(
    approve(loaded, { by: 'Dr. Teodor Vantongeren', on: '2026-03-06' }, english),
  );
  expect(approval?.statements.asNeeded).toMatchObject([
    { drug: 'gabapentin', amount: '1 capsule', sign: 'she races around or jumps' },
  ]);
});
