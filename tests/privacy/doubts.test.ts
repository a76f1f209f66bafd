import { execFileSync } from 'node:child_process';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { doubtsIn, weightIn } from '../../src/privacy/doubts.js';
import { hasProgram } from '../publish/programs.js';

const whats = (text: string) => doubtsIn(text).map(({ what }) => what);

describe('what has the form of an identifier', () => {
  it.each<[text: string, what: string]>([
    ['Write to ada.q+vet@quillfeather.example today.', 'an e-mail address'],
    ['See https://clinic.example/juniper for more.', 'a web address'],
    ['See www.clinic.example for more.', 'a web address'],
    ['It came from 192.168.10.4 at night.', 'a network address'],
    ['The chip was 999112004417203.', 'a number of 15 digits, as microchips have'],
    ['The chip was 999 112 004 417 203.', 'a number of 15 digits, as microchips have'],
    ['On 2026-03-10 it ate.', 'a date'],
    ['On 3/10/2026 it ate.', 'a date'],
    ['On 10.3.26 it ate.', 'a date'],
    ['On 3/10 it ate.', 'a date'],
    ['On May 5 it ate.', 'a date'],
    ['On the 5th of May it ate.', 'a date'],
    ['In March 2026 it ate.', 'a date'],
    ['El 5 de mayo comió.', 'a date'],
    ['En mayo de 2026 comió.', 'a date'],
    ['They live at 4 Tannery Row now.', 'an address'],
    ['They live at 12 Old Mill Road.', 'an address'],
    ['Viven en la Calle Mayor.', 'an address'],
    ['Call 555 0134 first.', 'a telephone number'],
    ['Call (312) 555-0134 first.', 'a telephone number'],
    ['Call +34 612 345 678 first.', 'a telephone number'],
    ['Her number is 123-45-6789.', 'a telephone number'],
  ])('is found in "%s"', (text, what) => {
    expect(whats(text)).toEqual([what]);
  });

  it.each([
    'Mean pressure 60 to 70, or 60-70 mmHg, at 10:15.',
    'Give 1/2 tablet; 0.25 mL/kg, 55 to 60 mL per kilogram.',
    'The pressure was 120/80, then 64 over 37.',
    'Guidelines of 2020; compared in 2004.',
    'IEC 60601-2-27 asks for 10 % or 5 beats/min.',
    'In 8,192 strips, at 50 mm/s and 10 mm/mV, 1.5 mg/mL.',
    'The march of 5 beats; it may 3 times recur.',
    'El 15 por ciento; en 3 minutos.',
  ])('is not found in "%s"', (text) => {
    expect(doubtsIn(text)).toEqual([]);
  });

  it('is found for every telephone number of ten digits, however it is parted', () => {
    const digits = fc.array(fc.integer({ min: 0, max: 9 }), { minLength: 10, maxLength: 10 });
    const gap = fc.constantFrom('', ' ', '-', '.');
    fc.assert(
      fc.property(digits, gap, gap, (number, one, two) => {
        const written = number.join('').replace(/^(...)(...)/, `$1${one}$2${two}`);
        expect(doubtsIn(`Call ${written} now.`)).toHaveLength(1);
      }),
    );
  });

  it.skipIf(!hasProgram('python3'))('is found for every date that Python writes', () => {
    const formats = ['%Y-%m-%d', '%m/%d/%Y', '%d.%m.%Y', '%d/%m/%y', '%B %d', '%d %B', '%B %Y'];
    const script = `
import datetime as d, json
days = [d.date(2026, 1, 1) + d.timedelta(days=17 * i) for i in range(40)]
print(json.dumps([day.strftime(f) for day in days for f in ${JSON.stringify(formats)}]))`;
    const written = JSON.parse(
      execFileSync('python3', ['-c', script], { env: { ...process.env, LC_ALL: 'C' } }).toString(),
    ) as string[];
    expect(written).toHaveLength(280);
    for (const date of written) expect(whats(`It was ${date} then.`), date).toEqual(['a date']);
  });

  it('takes no long time over a long text without any', () => {
    const began = performance.now();
    doubtsIn('1 '.repeat(50_000) + 'A '.repeat(50_000) + 'a'.repeat(100_000));
    expect(performance.now() - began).toBeLessThan(5_000);
  });
});

describe('an exact weight', () => {
  it('is found where the public one is rounded, with point or comma', () => {
    expect(weightIn('At 3.4 kg that is much.', 3.4, 3.5)).toHaveLength(1);
    expect(weightIn('Con 3,4 kg es mucho.', 3.4, 3.5)).toHaveLength(1);
    expect(weightIn('At 13.4 kg or 3.45 kg.', 3.4, 3.5)).toEqual([]);
    expect(weightIn('At 22 kg that is much.', 22, 22)).toEqual([]);
  });
});
