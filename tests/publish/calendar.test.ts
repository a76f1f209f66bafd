import fc from 'fast-check';
import ICAL from 'ical.js';
import { Temporal } from 'temporal-polyfill';
import { describe, expect, it } from 'vitest';
import { homeDoses } from '../../src/care/doses.js';
import type { HomeCase } from '../../src/facts/case-facts.js';
import { type Standing, sequenceOf } from '../../src/facts/standing.js';
import { approve } from '../../src/publish/approval.js';
import { type CalendarHead, printCalendar } from '../../src/publish/calendar.js';
import type { Language } from '../../src/words/language.js';
import { type CalendarEntry, calendarEntries } from '../../src/words/owner/calendar-entries.js';
import type { HomeLoaded } from '../facts/demo.js';
import { demo } from '../facts/demo.js';
import { accepted } from '../record/sample.js';

const HEAD: CalendarHead = {
  seed: ['Larkspur', '2026-0042'],
  timeZone: 'America/Chicago',
  language: 'en',
  sequence: 0,
  revised: '2026-03-09',
};

const entry = (on: string, more: Partial<CalendarEntry> = {}): CalendarEntry => ({
  key: `dose/x/${on}`,
  title: 'Thimble: carprofen',
  details: 'Give it.',
  on,
  alarm: 0,
  cancelled: false,
  ...more,
});

/** What another program reads in a file; times only by the rules that the file itself brings. */
function read(bytes: Uint8Array) {
  const text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  const calendar = new ICAL.Component(ICAL.parse(text) as unknown[]);
  const zones = calendar
    .getAllSubcomponents('vtimezone')
    .map((component) => new ICAL.Timezone({ component, tzid: '' }));
  const events = calendar.getAllSubcomponents('vevent').map((component) => {
    const start = component.getFirstProperty('dtstart');
    const time = component.getFirstPropertyValue('dtstart') as ICAL.Time;
    const tzid = start?.getFirstParameter('tzid');
    if (tzid !== undefined) {
      const zone = zones.find((known) => known.tzid === tzid);
      if (!zone) throw new Error(`the file has no rules for ${tzid}`);
      time.zone = zone;
    }
    return {
      uid: String(component.getFirstPropertyValue('uid')),
      sequence: component.getFirstPropertyValue('sequence'),
      stamp: String(component.getFirstPropertyValue('dtstamp')),
      status: component.getFirstPropertyValue('status'),
      title: String(component.getFirstPropertyValue('summary')),
      details: String(component.getFirstPropertyValue('description')),
      isDay: time.isDate,
      on: time.isDate ? time.toString() : time.toUnixTime() * 1000,
      alarms: component
        .getAllSubcomponents('valarm')
        .map((alarm) => String(alarm.getFirstPropertyValue('trigger'))),
    };
  });
  return { text, events, zones: calendar.getAllSubcomponents('vtimezone') };
}

const instant = (on: string) => Temporal.Instant.from(on).epochMilliseconds;
const tongueOf = ({ facts }: Pick<HomeLoaded, 'facts'>) =>
  demo.content.languages.get(facts.identity.owner.language) as Language;

const caseOf = (name: string): HomeLoaded => {
  const found = demo.cases.find((one) => one.name === name);
  if (!found) throw new Error(`no demo case ${name}`);
  return found;
};

const printed = (loaded: HomeLoaded, standing: Standing = loaded.standing.sheet) => {
  const { record, clinic } = loaded.facts.identity;
  return read(
    printCalendar(calendarEntries(loaded.facts, tongueOf(loaded), standing), {
      ...HEAD,
      seed: [clinic.name, record],
      timeZone: clinic.timeZone,
      sequence: sequenceOf(standing),
    }),
  );
};

describe.each(demo.cases.map((one) => [one.name, one] as const))(
  'the calendar of %s, as another program reads it',
  (_, loaded) => {
    const { facts } = loaded;
    const { events, text } = printed(loaded);

    it('has each dose of the facts at its instant, and no other', () => {
      const doses = facts.home.medicines.flatMap(({ doses }) => doses.value).map(instant);
      expect(doses.length).toBeGreaterThan(0);
      expect(events.filter(({ isDay }) => !isDay).map(({ on }) => on)).toEqual(doses);
    });

    it('has each day of the sheet', () => {
      const { home, wound } = facts;
      const days = [
        ...home.rechecks.map(({ on }) => on.value),
        ...home.awaited.map(({ expected }) => expected.value),
        home.collarUntil.value,
        home.restUntil.value,
        ...home.asNeeded.map(({ until }) => until.value),
        wound.removal && (wound.removal.value.proposed ?? wound.removal.value.from),
      ].filter((day) => day !== null);
      const found = events.filter(({ isDay }) => isDay).map(({ on }) => String(on));
      expect(found.sort()).toEqual(days.sort());
    });

    it('rings once for each: at a dose, in the morning of a day at home, in the morning before a visit; for nothing that is given only as needed', () => {
      const isNeeded = (title: string) =>
        facts.home.asNeeded.some(({ drug }) => title.includes(drug));
      for (const { alarms, title } of events.filter(({ title }) => isNeeded(title))) {
        expect(alarms, title).toEqual([]);
      }
      for (const { isDay, alarms, title } of events.filter(({ title }) => !isNeeded(title))) {
        expect(alarms, title).toHaveLength(1);
        expect(alarms[0], title).toMatch(isDay ? /^(PT9H|-PT15H)$/ : /^PT0[MS]$/);
      }
      const days = events.filter(({ isDay }) => isDay);
      const early = days.filter(({ alarms }) => alarms[0] === '-PT15H');
      const visits = facts.home.rechecks.filter(({ on }) => on.value !== null).length;
      expect(early).toHaveLength(visits + (facts.wound.removal ? 1 : 0));
    });

    it('says what a phone needs and holds nothing else of the record', () => {
      const { identity, home } = facts;
      for (const { title, details } of events) {
        expect(title).toContain(identity.patientName);
        const { phone, emergency } = identity.clinic;
        expect([phone, emergency?.phone].some((one) => one && details.includes(one))).toBe(true);
      }
      for (const { drug } of home.medicines) expect(text).toContain(drug);
      for (const secret of [
        ...[identity.record, identity.owner.name, identity.surgeon, identity.clinic.name],
        ...identity.owner.name.split(' '),
        ...(identity.owner.phone ? [identity.owner.phone] : []),
        ...(identity.owner.email ? [identity.owner.email] : []),
      ]) {
        expect(text.replace(/\r\n /g, ''), secret).not.toContain(secret);
      }
    });

    it('says in each entry that it is a draft', () => {
      for (const { title, details } of events) {
        expect(title).toMatch(/^(DRAFT|BORRADOR): /);
        expect(details).toMatch(/^(Draft|Borrador)\./);
      }
    });

    it('has lines of at most 75 octets that end as the standard says', () => {
      const lines = text.split('\r\n');
      expect(lines.pop()).toBe('');
      expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
      for (const line of lines) expect(Buffer.byteLength(line), line).toBeLessThanOrEqual(75);
    });
  },
);

/** Zones with clock changes of an hour and of half an hour, in either half of the year, of years past, and none. */
const ZONES = [
  'America/Chicago',
  'Europe/Madrid',
  'Europe/Dublin',
  'Australia/Lord_Howe',
  'Africa/Casablanca',
  'America/Sao_Paulo',
  'Asia/Kolkata',
  'Pacific/Chatham',
  'Etc/GMT+5',
  'UTC',
];

describe('a time in the calendar', () => {
  it.each([
    ['the hour that is skipped', 'America/Chicago', '2026-03-07T14:30', 12, 4],
    ['the hour that comes twice', 'America/Chicago', '2026-10-31T13:30', 12, 4],
    ['a clock change by half an hour', 'Australia/Lord_Howe', '2026-04-04T13:45', 12, 4],
    ['both changes of a year', 'Europe/Madrid', '2026-03-28T21:00', 24, 230],
  ] as const)('is the instant of the dose across %s', (_, timeZone, first, hours, doses) => {
    const due = homeDoses({
      rhythm: { kind: 'every', hours },
      doses,
      lastGiven: null,
      first: Temporal.PlainDateTime.from(first),
      timeZone,
    }).map((dose) => dose.toString({ smallestUnit: 'minute', timeZoneName: 'never' }));
    const { events } = read(
      printCalendar(
        due.map((on) => entry(on)),
        { ...HEAD, timeZone },
      ),
    );
    expect(events.map(({ on }) => on)).toEqual(due.map(instant));
  });

  it('is told in UTC where the clock shows it twice, as programs differ in which one they take', () => {
    const twice = ['2026-11-01T01:30-05:00', '2026-11-01T01:30-06:00'];
    const { text, events } = read(
      printCalendar(
        twice.map((on) => entry(on)),
        HEAD,
      ),
    );
    expect(events.map(({ on }) => on)).toEqual(twice.map(instant));
    expect(text).toContain('DTSTART:20261101T063000Z\r\n');
    expect(text).toContain('DTSTART:20261101T073000Z\r\n');
  });

  it('is the same instant for another program, in any zone at any time', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...ZONES),
        fc.array(fc.integer({ min: 0, max: 366 * 24 * 4 * 2 }), { minLength: 1, maxLength: 8 }),
        (timeZone, quarters) => {
          const due = quarters.map((quarter) =>
            Temporal.Instant.from('2025-01-01T00:00Z')
              .add({ minutes: 15 * quarter })
              .toZonedDateTimeISO(timeZone)
              .toString({ smallestUnit: 'minute', timeZoneName: 'never' }),
          );
          const { events } = read(
            printCalendar(
              due.map((on) => entry(on)),
              { ...HEAD, timeZone },
            ),
          );
          expect(events.map(({ on }) => on)).toEqual(due.map(instant));
        },
      ),
      { numRuns: 150 },
    );
  });

  it('brings the clock changes that matter and no other', () => {
    const { text } = read(
      printCalendar([entry('2026-03-07T20:00-06:00'), entry('2026-03-08T20:00-05:00')], HEAD),
    );
    const rules = text.slice(text.indexOf('BEGIN:VTIMEZONE'), text.indexOf('END:VTIMEZONE'));
    // Energy Policy Act of 2005, section 110: second Sunday of March to first Sunday of November, at 2 o'clock.
    expect(rules.split('\r\n').slice(1, -1)).toEqual([
      'TZID:America/Chicago',
      ...['BEGIN:STANDARD', 'DTSTART:20251102T020000', 'TZOFFSETFROM:-0500', 'TZOFFSETTO:-0600'],
      'END:STANDARD',
      ...['BEGIN:DAYLIGHT', 'DTSTART:20260308T020000', 'TZOFFSETFROM:-0600', 'TZOFFSETTO:-0500'],
      'END:DAYLIGHT',
    ]);
  });

  it('needs no zone where all are whole days', () => {
    const { zones, events } = read(printCalendar([entry('2026-03-24', { alarm: 540 })], HEAD));
    expect(zones).toEqual([]);
    expect(events).toMatchObject([{ isDay: true, on: '2026-03-24', alarms: ['PT9H'] }]);
  });
});

describe('a text in the calendar', () => {
  it.each([
    ['commas, semicolons and backslashes', 'a, b; c\\d \\n e'],
    ['several lines', 'one\ntwo'],
    ['what looks like a property', 'x\r\nEND:VCALENDAR'.replace('\r\n', ' ')],
    ['letters of many octets', 'Ñandú 🐕‍🦺 '.repeat(12).trim()],
    ['no place to break', '犬'.repeat(100)],
  ])('comes back as it was: %s', (_, title) => {
    const { events, text } = read(printCalendar([entry('2026-03-24', { title })], HEAD));
    expect(events.map((found) => found.title)).toEqual([title]);
    for (const line of text.split('\r\n')) expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75);
  });

  it('comes back as it was, whatever it is', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', minLength: 1, maxLength: 120 }), (details) => {
        const { events } = read(printCalendar([entry('2026-03-24', { details })], HEAD));
        expect(events[0]?.details).toBe(details);
      }),
    );
  });

  it('cannot end its line: control characters are left out', () => {
    const title = 'a\u0000b\u001bc\rd';
    expect(read(printCalendar([entry('2026-03-24', { title })], HEAD)).events[0]?.title).toBe(
      'abc\nd',
    );
  });
});

/** The case with other facts of one medicine. */
const changed = (
  loaded: HomeLoaded,
  change: (doses: readonly string[]) => readonly string[],
): HomeLoaded => {
  const { facts } = loaded;
  const [first, ...rest] = facts.home.medicines;
  if (!first) throw new Error('the case has no medicine');
  const medicine = { ...first, doses: { ...first.doses, value: change(first.doses.value) } };
  const home: HomeCase['home'] = { ...facts.home, medicines: [medicine, ...rest] };
  return { ...loaded, facts: { ...facts, home } };
};

const approved = (loaded: HomeLoaded, on: string): Standing => ({
  approved: true,
  approvals: accepted(approve(loaded, { by: 'Dr. Ada Birch', on }, tongueOf(loaded))),
});

describe('a revised calendar', () => {
  const first = caseOf('juniper');
  const firstSheet = approved(first, '2026-03-10');
  const later = changed({ ...first, standing: { sheet: firstSheet, teaching: false } }, (doses) =>
    doses.slice(0, -1).map((dose) => dose.replace(/T(\d\d):\d\d/, 'T$1:59')),
  );
  const laterSheet = approved(later, '2026-03-11');
  const before = printed(first, firstSheet).events;
  const after = printed(later, laterSheet).events;

  it('names each thing as the earlier one did, so that nothing is doubled', () => {
    expect(new Set(before.map(({ uid }) => uid)).size).toBe(before.length);
    expect(after.map(({ uid }) => uid).sort()).toEqual(before.map(({ uid }) => uid).sort());
    for (const { uid } of before) {
      expect(uid).toMatch(/^[\da-f]{8}-[\da-f]{4}-8[\da-f]{3}-[89ab][\da-f]{3}-[\da-f]{12}$/);
    }
  });

  it('moves what has moved, and counts on from revision to revision', () => {
    const moved = after.filter(({ uid, on, status }) =>
      before.some((old) => old.uid === uid && old.on !== on && status === 'CONFIRMED'),
    );
    expect(moved.length).toBeGreaterThan(0);
    expect(new Set(before.map(({ sequence }) => sequence))).toEqual(new Set([1]));
    expect(new Set(after.map(({ sequence }) => sequence))).toEqual(new Set([3]));
    expect(sequenceOf({ ...firstSheet, approved: false })).toBe(2);
  });

  it('calls off the dose that is no longer given, without an alarm', () => {
    const off = after.filter(({ status }) => status === 'CANCELLED');
    const dropped = first.facts.home.medicines[0]?.doses.value.at(-1) as string;
    expect(off).toMatchObject([{ on: instant(dropped), alarms: [], sequence: 3 }]);
    expect(off[0]?.title).toMatch(/no longer/);
    expect(before.filter(({ status }) => status === 'CANCELLED')).toEqual([]);
  });

  it('keeps calling it off in the revisions that follow', () => {
    const third = { ...later, standing: { sheet: laterSheet, teaching: false } };
    const events = printed(third, approved(third, '2026-03-12')).events;
    expect(events.filter(({ status }) => status === 'CANCELLED')).toHaveLength(1);
    expect(new Set(events.map(({ sequence }) => sequence))).toEqual(new Set([5]));
  });

  it('calls off nothing while it is a draft', () => {
    const draft = { ...firstSheet, approved: false };
    const events = printed(later, draft).events;
    expect(events.filter(({ status }) => status === 'CANCELLED')).toEqual([]);
    expect(events.every(({ title }) => title.startsWith('DRAFT: '))).toBe(true);
  });

  it('drops the word draft once approved', () => {
    for (const { title, details } of before) expect(`${title} ${details}`).not.toMatch(/draft/i);
  });
});

it('stays the same bytes, names other cases otherwise and takes its date from the record', () => {
  const one = [entry('2026-03-24'), entry('2026-03-10T20:00-05:00')];
  expect(printCalendar(one, HEAD)).toEqual(printCalendar(one, HEAD));
  const uids = (seed: readonly string[]) =>
    read(printCalendar(one, { ...HEAD, seed })).events.map(({ uid }) => uid);
  expect(uids(['Larkspur', '2026-0043'])).not.toEqual(uids(HEAD.seed));
  expect(new Set([...uids(['a', 'b']), ...uids(['ab', ''])]).size).toBe(4);
  expect(read(printCalendar(one, HEAD)).events[0]?.stamp).toBe('2026-03-09T00:00:00Z');
});
