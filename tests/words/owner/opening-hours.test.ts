import { describe, expect, it } from 'vitest';
import type { Language } from '../../../src/words/language.js';
import { calendarEntries } from '../../../src/words/owner/calendar-entries.js';
import { openingHours } from '../../../src/words/owner/opening-hours.js';
import { callNow } from '../../../src/words/owner/warning-signs.js';
import { demo } from '../../facts/demo.js';
import { type Change, clinicWith } from '../../record/sample.js';
import { factsOf } from './sheet-of.js';

const spoken = (tag: string) => demo.content.languages.get(tag) as Language;
const plain = (text: string) => text.replaceAll(/[\u00a0\u202f]/g, ' ');
const hours = (tag: string, ...changes: Change[]) =>
  plain(openingHours(clinicWith(...changes), spoken(tag)));

describe('the opening hours of the clinic', () => {
  it('tell days of the same hours together, with breaks, and no closed day', () => {
    expect(hours('en')).toBe('Mon–Thu 8 am–6 pm; Fri 8 am–5 pm');
    expect(hours('es')).toBe('lun–jue 8 a.m.–6 p.m.; vie 8 a.m.–5 p.m.');
    const wednesday: Change = ['wednesday: 08:00-18:00', 'wednesday: 08:00-12:30, 14:00-19:00'];
    const saturday: Change = ['saturday: closed', 'saturday: 09:00-12:00'];
    expect(hours('en', wednesday, saturday)).toBe(
      'Mon, Tue, Thu 8 am–6 pm; Wed 8 am–12:30 pm, 2 pm–7 pm; Fri 8 am–5 pm; Sat 9 am–noon',
    );
  });

  it('stand once on the sheet, beside the number that answers then', () => {
    const [box] = callNow(factsOf([]), spoken('en'));
    const telephones = box && 'telephones' in box ? box.telephones : [];
    expect(telephones.map(({ label, number }) => `${plain(label)}: ${number}`)).toEqual([
      'Open Mon–Thu 8 am–6 pm; Fri 8 am–5 pm: 555 0100',
      'When closed: Nightjar Hospital for Animals: 555 0199',
    ]);
  });
});

describe('a dose in the calendar', () => {
  const whom = (tag: string, ...changes: Change[]) =>
    calendarEntries(factsOf([], ...changes), spoken(tag))
      .filter(({ key }) => key.startsWith('dose/'))
      .map(({ on, details }) => [
        on.slice(5, 16),
        /(?:Call|Ll[aá]me)[^:]*: [\d ]+\d/.exec(details)?.[0],
      ]);

  it('gives the number that answers at its hour', () => {
    // Open from 8 to 18: at 20:40 the hospital answers.
    expect(whom('en').slice(0, 2)).toEqual([
      ['03-09T20:40', 'Call Nightjar Hospital for Animals: 555 0199'],
      ['03-10T08:40', 'Call us: 555 0100'],
    ]);
    expect(whom('es').slice(0, 2)).toEqual([
      ['03-09T20:40', 'Llame a Nightjar Hospital for Animals: 555 0199'],
      ['03-10T08:40', 'Llámenos: 555 0100'],
    ]);
  });

  it('knows midnight, the closed day of stocktaking, and the minute at which the clinic closes', () => {
    const at = (first: string): Change => ['last given: 08:40', `first: ${first}`];
    const number = (first: string) => whom('en', at(first))[0]?.[1];
    expect(number('2026-03-10 00:00')).toContain('555 0199');
    expect(number('2026-03-19 10:00')).toContain('555 0199');
    expect(number('2026-03-10 17:59')).toContain('555 0100');
    expect(number('2026-03-10 18:00')).toContain('555 0199');
    expect(number('2026-03-10 08:00')).toContain('555 0100');
  });
});

it('the clinic keeps the hours of its noon break', () => {
  const noon: Change = ['monday: 08:00-18:00', 'monday: 08:00-12:00, 14:00-18:00'];
  expect(clinicWith(noon).hours.monday).toEqual({
    from: '08:00',
    to: '18:00',
    spans: [
      ['08:00', '12:00'],
      ['14:00', '18:00'],
    ],
  });
});
