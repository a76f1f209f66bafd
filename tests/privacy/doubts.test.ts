import { execFileSync } from 'node:child_process';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { doubtsIn } from '../../src/privacy/doubts.js';
import { exactlyIn, traitsIn } from '../../src/privacy/traits-told.js';
import { ownText } from '../../src/publish/own-text.js';
import { hasProgram } from '../publish/programs.js';

const KNOWN = {
  people: ['Ada Quillfeather', 'Dr. Miriam Farrow Haddad'],
  own: ownText(),
};
const doubts = (text: string) => doubtsIn(text, KNOWN);
const whats = (text: string) => [...new Set(doubts(text).map(({ what }) => what))];

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
    ['It weighed just under thirty-five kilos.', 'a weight in words'],
    ['Pesaba treinta y cinco kilos.', 'a weight in words'],
    ['It weighed forty pounds then.', 'a weight in words'],
    ['It was eight and a half.', 'an age in words'],
    ['It was eight and a half years old.', 'an age in words'],
    ['Tenía ocho y medio.', 'an age in words'],
    ['It had turned nine.', 'an age in words'],
    ['The microchip ends in four two one.', 'the end of a number'],
    ['El microchip termina en cuatro dos uno.', 'the end of a number'],
    ['The last were four two one.', 'the digits of a number in words'],
    ['The surgeon with the red beard operated.', 'a feature of a person'],
    ['La cirujana con gafas operó.', 'a feature of a person'],
    ['The owner teaches at the school.', 'what a person does'],
    ['It was the mayor’s dog.', 'what a person does'],
    ['They live at 4 Tannery Row now.', 'an address'],
    ['They live at 12 Old Mill Road.', 'an address'],
    ['Viven en la Calle Mayor.', 'an address'],
    ['Call 555 0134 first.', 'a telephone number'],
    ['Call (312) 555-0134 first.', 'a telephone number'],
    ['Call +34 612 345 678 first.', 'a telephone number'],
    ['Her number is 123-45-6789.', 'a telephone number'],
    ['Mail her: mailto:ada', 'a web address'],
    ['See quillfeather.example/juniper for more.', 'a web address'],
    ['It came from fe80::1ff:fe23:4567:890a at night.', 'a network address'],
    ['It came from 2001:db8:0:0:0:0:2:1 at night.', 'a network address'],
    ['The monitor is 00:1B:44:11:3A:B7 here.', 'a network address'],
    ['The monitor is 00-1b-44-11-3a-b7 here.', 'a network address'],
    ['See @juniper_rabbit for more.', 'a name on a network'],
    ['Found at 41.8781, -87.6298 that day.', 'a place on the map'],
    ['Found at 41°52’ north.', 'a place on the map'],
    ['On 2026/03/10 it ate.', 'a date'],
    ['On 10-3-26 it ate.', 'a date'],
    ['On Mar 3 it ate.', 'a date'],
    ['On 3-MAR-2026 it ate.', 'a date'],
    ['In 03/2026 it ate.', 'a date'],
    ['In August it ate.', 'a month'],
    ['Since last May it ate.', 'a month'],
    ['En agosto comió.', 'a month'],
    ['It was hurt on Christmas Eve.', 'a holiday, which tells the day'],
    ['Hurt on the evening of Thanksgiving.', 'a holiday, which tells the day'],
    ['The clinic was closed for Memorial Day.', 'a holiday, which tells the day'],
    ['Llegó en Nochebuena.', 'a holiday, which tells the day'],
    ['Hit by a car with the plate KJ 4471.', 'a number plate'],
    ['The plate of the car was 7XYZ123.', 'a number plate'],
    ['KJ 4471 was on the number plate.', 'a number plate'],
    ['La matrícula del coche era 1234 BCD.', 'a number plate'],
    ['The car, 1234 BCD, drove on.', 'a number plate'],
    ['The car, AB12 CDE, drove on.', 'a number plate'],
    ['Its registration was AB 1234.', 'a number plate'],
    ['The van was WVWZZZ1JZXW000001 then.', "a vehicle's number"],
    ['The pump has serial number 20-4417.', 'a number of a person or a thing'],
    ['The implant was lot no. 4417A.', 'a number of a person or a thing'],
    ['Insurance policy no. HX 4417 paid.', 'a number of a person or a thing'],
    ['Account: 4417-2 was charged.', 'a number of a person or a thing'],
    ['Con la póliza 44172 se pagó.', 'a number of a person or a thing'],
    ['Colegiado n.º 4417 firmó.', 'a number of a person or a thing'],
    ['License 4417 was shown.', 'a number of a person or a thing'],
    ['Tattoo 4417 in the ear.', 'a number of a person or a thing'],
    ['Paid from ES91 2100 0418 4502 0005 1332 then.', 'a bank account'],
    ['The pump SN-20417B ran.', 'a code of letters and digits'],
    ['Sent to SW1A 1AA by post.', 'a postcode'],
    ['Sent to 60614 by post.', 'a number of five or six digits, as postcodes have'],
    ['Paid with 4111111111111111 then.', 'a telephone number'],
    ['As Mrs. Okafor asked.', 'the name of a person'],
    ['As nurse J. Okafor asked.', 'the name of a person'],
    ['A swab was counted by J.B. at the end.', 'initials'],
    ['The tube was placed by AQ at once.', 'the initials of somebody of the case'],
    ['The tube was placed by MFH at once.', 'the initials of somebody of the case'],
    ['A student, Tomás, asked why.', 'the name of a person or a place'],
    ['Tomás asked why it slept.', 'the name of a person or a place'],
    ['Okafor (2nd year): why did it sleep?', 'the name of a person or a place'],
    ['## Tomás: why did it sleep?', 'the name of a person or a place'],
    ['It came from Stillwater that night.', 'the name of a person or a place'],
    ['A dog, a Labrador, slept.', 'the name of a person or a place'],
    ['La mandó Begoña del pueblo.', 'the name of a person or a place'],
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
    'A 2.7 mm plate with 8 screws; a T-shaped plate; the L7 plate was moved.',
    'In this case 120 mL were given; the chart 120 to 80; lot of blood.',
    'The ECG showed VPC and AV block; MAP 100, HR 148, SpO2 99, EtCO2 45.',
    'A Doppler probe, Ringer’s lactate, a Penrose drain, the P wave and the Purkinje fibers.',
    'It was given at 10:15:30; I to E 1:2; at 1500 RPM, 7.35 pH, 14,500 cells.',
    'Why? Because the heart was slow. Two swabs: one was left.',
    'A Mean Pressure Under Sixty Harms Kidneys',
    'Sleeping: the heart slows. The veterinarian asked why.',
  ])('is not found in "%s"', (text) => {
    expect(doubts(text)).toEqual([]);
  });

  it('is found for every telephone number of ten digits, however it is parted', () => {
    const digits = fc.array(fc.integer({ min: 0, max: 9 }), { minLength: 10, maxLength: 10 });
    const gap = fc.constantFrom('', ' ', '-', '.');
    fc.assert(
      fc.property(digits, gap, gap, (number, one, two) => {
        const written = number.join('').replace(/^(...)(...)/, `$1${one}$2${two}`);
        expect(doubts(`Call ${written} now.`)).toHaveLength(1);
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
    for (const text of [
      '1 ',
      'A ',
      'a',
      'A',
      '1',
      'A1',
      'A. ',
      '. ',
      ' ',
      'a.',
      'plate ',
      'aa:',
      '- ',
    ]) {
      doubts(text.repeat(100_000 / text.length));
    }
    expect(performance.now() - began).toBeLessThan(5_000);
  });
});

describe('what public documents round or withhold', () => {
  const PATIENT = {
    weight: { exact: 3.4, rounded: 3.5 },
    age: { count: 9, unit: 'years' },
    breed: 'Labrador Retriever mixed breed',
  } as const;
  const exact = (text: string, more = {}) =>
    exactlyIn(text, { ...PATIENT, ...more }).map(({ text: found }) => found);

  it('is found where the public weight is rounded, with point or comma, in pounds and grams', () => {
    expect(exact('At 3.4 kg that is much.')).toEqual(['3.4 kg']);
    expect(exact('Con 3,4 kg es mucho.')).toEqual(['3,4 kg']);
    expect(exact('At 7.5 lb that is much.')).toEqual(['7.5 lb']);
    expect(exact('At 3400 g that is much.')).toEqual(['3400 g']);
    expect(exact('At 13.4 kg or 3.45 kg or 3.5 kg.')).toEqual([]);
    expect(exact('At 22 kg that is much.', { weight: { exact: 22, rounded: 22 } })).toEqual([]);
  });

  it.each([
    'this 9-year-old dog',
    'a dog nine years old',
    'aged 9 years',
    'un perro de nueve años',
    'tiene 9 años de edad',
  ])('is found as the exact age: %s', (text) => {
    expect(exact(text)).toHaveLength(1);
  });

  it.each([
    'It took two and a half hours.',
    'One or two of three beats, two by two.',
    'We gave one tablet for two months.',
    'The strip ends in twelve beats.',
    'The owner gives one tablet with food.',
  ])('no number, age or feature of a person is found in: %s', (text) => {
    expect(whats(text)).toEqual([]);
  });

  it.each(['for 9 years', 'a 19-year-old dog', '9 weeks old', 'for nine minutes'])(
    'is not found in: %s',
    (text) => {
      expect(exact(text)).toEqual([]);
    },
  );

  it('is found as breed, age and sex', () => {
    const short = (text: string, breed: string) =>
      traitsIn(text, { ...PATIENT, breed }).breed.map((one) => one.text);
    expect(short('The GSD lay down.', 'German shepherd')).toEqual(['GSD']);
    expect(short('The GSD lay down.', 'mixed breed')).toEqual([]);
    expect(short('A Lab, and the Frenchie.', 'Labrador retriever')).toEqual(['Lab']);
    expect(short('The WHW lay down.', 'West Highland White')).toEqual(['WHW']);
    const told = traitsIn('She is an older labrador, hers is a mixed heart.', PATIENT);
    expect(told.breed.map(({ text }) => text)).toEqual(['labrador']);
    expect(told.age.map(({ text }) => text)).toEqual(['older']);
    expect(told.sex.map(({ text }) => text)).toEqual(['She', 'hers']);
  });
});
