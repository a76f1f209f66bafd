import { readdirSync, readFileSync } from 'node:fs';
import { IntlMessageFormat } from 'intl-messageformat';
import { Temporal } from 'temporal-polyfill';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { z } from 'zod';
import { homeDoses, shortestInterval } from '../src/care/doses.js';
import { nearestOpenDay } from '../src/care/open-days.js';
import { type CaseText, caseSchema } from '../src/record/case-schema.js';
import { HOLDERS, SMEARED } from '../src/record/medicine-schema.js';
import { localTime } from '../src/record/moments.js';
import type { Outcome } from '../src/record/problem.js';
import { readCase, readClinic } from '../src/record/read-case.js';
import { readVitals } from '../src/record/vitals-file.js';
import * as vocabulary from '../src/record/vocabulary.js';
import { toKilogram, toMilligram } from '../src/units/convert.js';

const root = new URL('../', import.meta.url);
const read = (path: string) => readFileSync(new URL(path, root), 'utf8');
const content = (language: string, file: string): unknown =>
  parse(read(`content/${language}/${file}.yaml`));
const keysOf = (file: string) => Object.keys(content('en', file) as object);

/** The value of a good outcome; otherwise the test fails and shows the problems. */
function accepted<T>(outcome: Outcome<T>): T {
  expect(outcome.ok ? [] : outcome.problems).toEqual([]);
  if (!outcome.ok) throw new Error('unreachable: the line above has failed');
  return outcome.value;
}

const KEYS = {
  procedures: keysOf('procedures'),
  purposes: keysOf('purposes'),
  languages: ['en', 'es'],
};
const CASES = ['bramble', 'clover', 'juniper', 'pumpernickel', 'saffron', 'tucker'] as const;
const clinic = () =>
  accepted(readClinic(read('demo-data/clinic.yaml'), 'demo-data/clinic.yaml', KEYS)).value;

function caseOf(folder: string): CaseText {
  const path = `demo-data/cases/${folder}/case.yaml`;
  return accepted(readCase(read(path), path, KEYS)).value;
}

function vitalsOf(folder: string, record: CaseText) {
  const path = `demo-data/cases/${folder}/${record.monitor.vitals}`;
  const begin = localTime(record.anesthesia.begin, record.surgery.date).toZonedDateTime(
    'America/Chicago',
  );
  return accepted(readVitals(read(path), path, begin));
}

/** Minutes since the start of anesthesia. */
const minuteIn = (record: CaseText) => (written: string) =>
  localTime(written, record.surgery.date)
    .since(localTime(record.anesthesia.begin, record.surgery.date))
    .total('minutes');

it('finds a folder for each of the six cases, and no other', () => {
  expect(readdirSync(new URL('demo-data/cases/', root)).sort()).toEqual([...CASES]);
});

describe.each(CASES)('the case of %s', (folder) => {
  it('is a record without problems', () => {
    expect(caseOf(folder).patient.name.toLowerCase()).toBe(folder);
  });

  it('has a vitals row every five minutes from induction to extubation', () => {
    const record = caseOf(folder);
    const minutes = vitalsOf(folder, record).rows.map((row) => row.minute);
    const end = minuteIn(record)(record.anesthesia.end);
    expect(minutes).toEqual(Array.from({ length: end / 5 + 1 }, (_, index) => 5 * index));
  });

  it('tells its events in order, from induction to extubation, in agreement with the fields', () => {
    const record = caseOf(folder);
    const minute = minuteIn(record);
    const minutes = record.events.map((event) => minute(event.at));
    expect(minutes).toEqual([...minutes].sort((a, b) => a - b));
    const at = (what: string) => record.events.find((event) => event.what === what)?.at;
    expect(record.events[0]?.what).toBe('induction');
    expect(at('induction')).toBe(record.anesthesia.begin);
    expect(at('extubation')).toBe(record.anesthesia.end);
    expect(at('first incision')).toBe(record.surgery.begin);
    expect(at('end of surgery')).toBe(record.surgery.end);
    expect(at('ventilator on') !== undefined).toBe(record.anesthesia.breathing === 'ventilator');
  });

  it('shows the rate of the ventilator in each row between its start and end', () => {
    const record = caseOf(folder);
    const minute = minuteIn(record);
    const at = (what: string) => record.events.find((event) => event.what === what)?.at;
    const [on, off] = [at('ventilator on'), at('ventilator off')];
    const rows = vitalsOf(folder, record).rows.filter(
      (row) => on && off && row.minute > minute(on) && row.minute < minute(off),
    );
    expect(rows.length > 0).toBe(record.anesthesia.breathing === 'ventilator');
    for (const row of rows) {
      expect(row.values.breaths).toBe(record.anesthesia['ventilator rate']?.value);
    }
  });

  it('gives each clinic drug within the hour before anesthesia or during it', () => {
    const record = caseOf(folder);
    const minute = minuteIn(record);
    for (const { drug, at } of record.anesthesia.drugs) {
      expect(minute(at), drug).toBeGreaterThanOrEqual(-60);
      expect(minute(at), drug).toBeLessThanOrEqual(minute(record.anesthesia.end));
    }
  });

  it('keeps each dose inside the commonly taught range', () => {
    const record = caseOf(folder);
    const { value, unit } = record.patient.weight;
    const weight = toKilogram(value, unit);
    const check = (drug: string, amount: number, place: string) => {
      const range = RANGES[`${record.patient.species}, ${place}: ${drug}`];
      expect(range, `a range for ${record.patient.species}, ${place}: ${drug}`).toBeDefined();
      const [low, high] = range as readonly [number, number];
      expect(amount / weight, drug).toBeGreaterThanOrEqual(low);
      expect(amount / weight, drug).toBeLessThanOrEqual(high);
    };
    for (const { drug, dose, route } of record.anesthesia.drugs) {
      check(drug, dose.unit === 'mL' ? dose.value : toMilligram(dose.value, dose.unit), route);
    }
    for (const { drug, give, strength, every, at } of record.home?.medicines ?? []) {
      const hours = shortestInterval(
        every ? { kind: 'every', hours: every.value } : { kind: 'at', times: at ?? [] },
      );
      check(drug, toMilligram(give.value * strength.value, strength.unit), `home every ${hours} h`);
    }
  });

  it('sends enough of each medicine home, without a dose before discharge or a gap over one and a half intervals', () => {
    const record = caseOf(folder);
    const { 'time zone': timeZone } = clinic();
    const day = record.surgery.date;
    const home = localTime(record.surgery.discharge as string, day).toZonedDateTime(timeZone);
    for (const medicine of record.home?.medicines ?? []) {
      const { every, at, 'last given': last, first, doses, give, dispensed } = medicine;
      const rhythm = every
        ? ({ kind: 'every', hours: every.value } as const)
        : ({ kind: 'at', times: at ?? [] } as const);
      const plan = homeDoses({
        rhythm,
        doses,
        lastGiven: last ? localTime(last, day) : null,
        first: first ? localTime(first, day) : null,
        timeZone,
      });
      expect(dispensed?.value, medicine.drug).toBeGreaterThanOrEqual(give.value * doses);
      const start = plan[0] as Temporal.ZonedDateTime;
      expect(Temporal.ZonedDateTime.compare(start, home), medicine.drug).toBe(1);
      if (!last) continue;
      const gap = start.since(localTime(last, day).toZonedDateTime(timeZone)).total('hours');
      expect(gap, medicine.drug).toBeLessThanOrEqual(1.5 * shortestInterval(rhythm));
    }
  });

  it('finds an open day for each visit within a day of the one wished for', () => {
    const record = caseOf(folder);
    for (const { after } of record.home?.rechecks ?? []) {
      const days = after.unit === 'weeks' ? 7 * after.value : after.value;
      expect(nearestOpenDay(clinic(), record.surgery.date, days, 1)).not.toBeNull();
    }
  });

  it('names nobody and no place in what becomes public', () => {
    const record = caseOf(folder);
    const { name, address } = clinic();
    const people = [record.owner.name, record.team.surgeon, record.team.anesthesia ?? ''];
    const names = [record.patient.name, ...people.flatMap((person) => person.split(' '))].filter(
      (word) => word.length > 0 && word !== 'Dr.',
    );
    const places = [name, ...address, record.owner.address ?? '', record.record].filter(Boolean);
    const published = [
      read(`demo-data/cases/${folder}/teaching.md`),
      ...Object.values(record.published ?? {}),
      ...record.events.map((event) => event.note ?? ''),
      ...record.monitor['off patient'].map((off) => off.why),
    ].join('\n');
    const found = [...names, ...places].filter((word) =>
      new RegExp(`(?<!\\p{L})${word}(?!\\p{L})`, 'iu').test(published),
    );
    expect(found).toEqual([]);
    expect(published).not.toMatch(/\b\d{1,2}:\d{2}\b|\b20\d\d-\d\d|\b555\b/);
  });

  it('asks three to five questions on its teaching page', () => {
    const questions = read(`demo-data/cases/${folder}/teaching.md`).match(/^## .+\?.*$/gm) ?? [];
    expect(questions.length).toBeGreaterThanOrEqual(3);
    expect(questions.length).toBeLessThanOrEqual(5);
  });
});

/**
 * Lowest and highest dose in mg/kg (electrolyte solution in mL/kg) at one time.
 * Source: common practice, as taught in small-animal formularies; from memory, unverified.
 */
const RANGES: Readonly<Record<string, readonly [number, number]>> = {
  'dog, intramuscular: methadone': [0.1, 0.5],
  'dog, intravenous: methadone': [0.1, 0.5],
  'dog, intramuscular: hydromorphone': [0.05, 0.2],
  'dog, intravenous: alfaxalone': [1, 3],
  'dog, intravenous: propofol': [2, 6],
  'dog, intravenous: midazolam': [0.1, 0.4],
  'dog, intravenous: cefazolin': [20, 30],
  'dog, infiltration: bupivacaine': [0.5, 2],
  'dog, subcutaneous: meloxicam': [0.1, 0.2],
  'dog, home every 24 h: meloxicam': [0.09, 0.1],
  'dog, home every 12 h: carprofen': [1.8, 2.2],
  'dog, home every 12 h: gabapentin': [5, 20],
  'cat, intramuscular: methadone': [0.1, 0.5],
  'cat, intramuscular: midazolam': [0.1, 0.4],
  'cat, intravenous: alfaxalone': [1, 5],
  'cat, intravenous: ampicillin with sulbactam': [20, 50],
  'cat, intravenous: balanced electrolyte solution': [5, 10],
  'cat, infiltration: bupivacaine': [0.5, 2],
  'cat, subcutaneous: robenacoxib': [1.8, 2.2],
  'cat, home every 24 h: robenacoxib': [1, 2.4],
  'cat, home every 12 h: amoxicillin with clavulanate': [12.5, 20],
  'rabbit, intramuscular: buprenorphine': [0.02, 0.05],
  'rabbit, intramuscular: midazolam': [0.25, 1],
  'rabbit, intravenous: alfaxalone': [2, 3],
  'rabbit, infiltration: lidocaine': [1, 4],
  'rabbit, subcutaneous: meloxicam': [0.3, 1],
  'rabbit, home every 24 h: meloxicam': [0.3, 1],
};

describe('the stories that the cases tell', () => {
  it('shows twice the true rate of 74 while the pressure of the dog stays calm', () => {
    const record = caseOf('bramble');
    const rows = vitalsOf('bramble', record).rows.filter(
      (row) => row.minute >= 20 && row.minute <= 40,
    );
    for (const { values } of rows) {
      expect(Math.abs((values['heart rate'] as number) / 2 - 74)).toBeLessThanOrEqual(1);
      expect(values.mean).toBeGreaterThan(70);
    }
    expect(rows).toHaveLength(5);
  });

  it('starts the cat’s recording in the minute of the bleeding, before the low pressure', () => {
    const record = caseOf('saffron');
    const bleeding = record.events.find((event) => event.what === 'bleeding')?.at;
    expect(record.monitor.strips.map((strip) => strip.begin)).toEqual([`${bleeding}:00`]);
    const low = vitalsOf('saffron', record).rows.filter((row) => (row.values.mean ?? 99) < 60);
    expect(low[0]?.minute).toBeGreaterThan(minuteIn(record)(bleeding as string));
    expect(low.map((row) => [row.values.systolic, row.values.mean])).toEqual([
      [64, 46],
      [71, 53],
    ]);
  });

  it('keeps every reading of the room inside the span in which the probe was off the dog', () => {
    const record = caseOf('juniper');
    const [off] = record.monitor['off patient'];
    const until = minuteIn(record)(off?.to as string);
    for (const { minute, values } of vitalsOf('juniper', record).rows) {
      expect((values.temperature as number) < 30).toBe(minute <= until);
    }
  });

  it('has consent to both public pages in five cases and to the teaching page alone in one', () => {
    const given = CASES.map((folder) => {
      const { teaching, record } = caseOf(folder).consent;
      return [folder, teaching.given, record.given];
    });
    expect(given.filter(([, teaching]) => teaching === 'yes')).toHaveLength(6);
    expect(given.filter(([, , record]) => record === 'no').map(([folder]) => folder)).toEqual([
      'clover',
    ]);
  });

  it('gives each case a public address of its own', () => {
    expect(new Set(CASES.map((folder) => caseOf(folder).published?.address)).size).toBe(6);
  });
});

/** `{ a: { b: 'x' } }` to `[['a › b', 'x']]`. */
function leaves(tree: unknown, path: readonly string[] = []): [string, unknown][] {
  return typeof tree === 'object' && tree !== null
    ? Object.entries(tree).flatMap(([key, part]) => leaves(part, [...path, key]))
    : [[path.join(' › '), tree]];
}

describe.each(['procedures', 'purposes', 'trade'])('content/*/%s.yaml', (file) => {
  it('has the same keys in English and Spanish', () => {
    const [en, es] = ['en', 'es'].map((language) =>
      leaves(content(language, file)).map(([path]) => path),
    );
    expect(es).toEqual(en);
  });

  it.each(['en', 'es'])('holds in %s only texts that can be formatted', (language) => {
    for (const [path, text] of leaves(content(language, file))) {
      expect(typeof text, path).toBe('string');
      expect((text as string).trim(), path).not.toBe('');
      const message = new IntlMessageFormat(text as string, language, undefined, {
        ignoreTag: true,
      });
      expect(
        message.format({ count: 2, shown: '2', patient: 'Rex', species: 'dog', end: 'open' }),
        path,
      ).not.toContain('{');
    }
  });

  it('gives every entry its owner’s and its learner’s words, or its warning', () => {
    const shape = {
      procedures: ['owner › name', 'owner › done', 'learner › name', 'learner › text'],
      purposes: ['owner', 'watch'],
      trade: ['owner', 'learner'],
    }[file] as string[];
    // A channel's name must also fit into a column head and at the end of a line.
    const channels = new Set(
      Object.keys((content('en', 'trade') as Record<string, object>).channels ?? {}),
    );
    const entries = Object.entries(content('en', file) as object).flatMap(([key, entry]) =>
      file === 'trade' ? Object.entries(entry as object) : [[key, entry] as const],
    );
    for (const [key, entry] of entries) {
      // Signs and looks of an operation are its own, and may be none.
      const own = /^owner › (signs|different) › /;
      expect(
        leaves(entry)
          .map(([path]) => path)
          .filter((path) => !own.test(path)),
        key,
      ).toEqual(file === 'trade' && channels.has(key) ? [...shape, 'short'] : shape);
    }
  });
});

/** The words that `case.yaml` takes at a path, read from the schema itself. */
function wordsAt(...path: readonly string[]): string[] {
  const schema = z.toJSONSchema(caseSchema(KEYS), { io: 'input' });
  let here: z.core.JSONSchema.JSONSchema = schema;
  for (const key of path) {
    const next = key === '[]' ? here.items : here.properties?.[key];
    if (!next || typeof next !== 'object' || Array.isArray(next)) {
      throw new Error(`The case schema has no ${path.join('.')}.`);
    }
    here = next;
  }
  return (here.enum ?? []) as string[];
}

describe.each([
  ['species', [...vocabulary.SPECIES]],
  ['routes', [...vocabulary.ROUTES]],
  ['clinic routes', [...vocabulary.CLINIC_ROUTES]],
  ['events', [...vocabulary.EVENTS]],
  ['materials', [...vocabulary.MATERIALS]],
  ['layers', [...vocabulary.LAYERS]],
  ['patterns', [...vocabulary.PATTERNS]],
  ['drains', [...vocabulary.DRAINS]],
  ['channels', [...vocabulary.CHANNELS]],
  ['slower healing', [...vocabulary.SLOWER_HEALING]],
  ['sex', wordsAt('patient', 'sex').flatMap((sex) => [sex, `${sex} neutered`])],
  ['healing', wordsAt('closure', 'healing')],
  ['tension', wordsAt('closure', 'tension')],
  ['breathing', wordsAt('anesthesia', 'breathing')],
  ['breathing names', wordsAt('anesthesia', 'breathing')],
  ['rechecks', wordsAt('home', 'rechecks', '[]', 'what')],
  ['food', wordsAt('home', 'medicines', '[]', 'food')],
  ['amounts', ['tablet', 'capsule', 'mL', 'drop', ...SMEARED]],
  ['holders', [...HOLDERS]],
])('the group "%s" of content/*/trade.yaml', (group, words) => {
  it('has an entry for each word that a record may use, and no other', () => {
    const entries = (content('en', 'trade') as Record<string, object>)[group] ?? {};
    expect(words.length).toBeGreaterThan(0);
    expect(Object.keys(entries).sort()).toEqual([...words].sort());
  });
});

it('has in content/*/trade.yaml no group without a list of words', () => {
  expect(keysOf('trade').sort()).toEqual(
    [
      ...['species', 'sex', 'routes', 'clinic routes', 'events', 'materials', 'layers'],
      ...['drains', 'patterns', 'channels', 'slower healing', 'healing', 'tension', 'breathing'],
      ...['breathing names', 'rechecks', 'food', 'amounts', 'holders'],
    ].sort(),
  );
});

it('writes the amount of a dose in the plural of each language', () => {
  const say = (language: string, unit: string, count: number, shown = String(count)) => {
    const { amounts } = content(language, 'trade') as {
      amounts: Record<string, { owner: string }>;
    };
    return new IntlMessageFormat(amounts[unit]?.owner as string, language).format({ count, shown });
  };
  expect(say('en', 'tablet', 1)).toBe('1 tablet');
  expect(say('en', 'tablet', 2)).toBe('2 tablets');
  expect(say('en', 'tablet', 1, '½')).toBe('½ tablet');
  expect(say('en', 'mL', 1.4)).toBe('1.4 mL');
  expect(say('es', 'capsule', 1)).toBe('1 cápsula');
  expect(say('es', 'drop', 3)).toBe('3 gotas');
});
