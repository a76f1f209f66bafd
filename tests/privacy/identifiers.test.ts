import { describe, expect, it } from 'vitest';
import { identifiersOf, identifiersOfUnread } from '../../src/privacy/identifiers.js';
import { leaksIn } from '../../src/privacy/leaks.js';
import { readLoosely } from '../../src/record/yaml-file.js';
import { demo } from '../facts/demo.js';

const juniper = demo.cases.find(({ name }) => name === 'juniper')?.facts;
if (!juniper) throw new Error('The demonstration clinic has a case "juniper".');
const texts = identifiersOf(juniper).map(({ text }) => text);

describe('the identifiers of a case', () => {
  it('hold whatever names people, animal, place or day', () => {
    const { identity, surgery } = juniper;
    expect(texts).toEqual(
      expect.arrayContaining([
        identity.record,
        identity.patientName,
        identity.microchip,
        identity.owner.name,
        identity.owner.phone,
        identity.owner.email,
        identity.owner.address,
        identity.surgeon,
        identity.anesthetist,
        identity.clinic.name,
        ...identity.clinic.address,
        identity.clinic.phone,
        identity.clinic.emergency?.name ?? '',
        identity.clinic.emergency?.phone ?? '',
        surgery.date.value,
      ]),
    );
  });

  it('hold the single words of names, so that a surname alone is found', () => {
    expect(texts).toEqual(expect.arrayContaining(['Quillfeather', 'Farrow', 'Haddad', 'Harebell']));
    const found = leaksIn('The Quillfeathers? No: Mrs. Quillfeather.', identifiersOf(juniper));
    expect(found.map(({ text }) => text)).toEqual(['Quillfeather']);
  });

  it('hold a short name that was written in capitals, as some programs write names', () => {
    const { identity } = juniper;
    const named = (name: string) =>
      identifiersOf({
        ...juniper,
        identity: { ...identity, owner: { ...identity.owner, name } },
      }).map(({ text }) => text);
    expect(named('SUE LEE')).toEqual(expect.arrayContaining(['SUE', 'LEE']));
    expect(named('Ada Quill, MBA')).not.toContain('MBA');
  });

  it('hold everybody who took part, also of a record that cannot be read', () => {
    const { identity } = juniper;
    const others = ['Dr. Basil Underhill', 'Orla Fennimore'];
    const known = identifiersOf({ ...juniper, identity: { ...identity, others } });
    expect(known.map(({ text }) => text)).toEqual(
      expect.arrayContaining([...others, 'Underhill', 'Fennimore']),
    );
    const unread = (list: string) =>
      identifiersOfUnread(readLoosely(`team:\n  others: ${list}\n`), 'folder').map(
        ({ text }) => text,
      );
    expect(unread('[Dr. Basil Underhill, Orla Fennimore]')).toEqual(
      expect.arrayContaining([...others, 'Underhill', 'Fennimore']),
    );
    expect(unread('Orla Fennimore')).toContain('Fennimore');
    expect(unread('{ a: 1 }')).not.toContain('1');
  });

  it('leave out the words that every clinic has', () => {
    for (const word of ['Clinic', 'Veterinary', 'Lane', 'Hospital', 'Animals', 'Night']) {
      expect(texts).not.toContain(word);
    }
  });

  it('hold every day of the plan, the e-mail host, and what lies beside the facts', () => {
    const beside = {
      folder: 'quillfeather-juniper',
      files: ['strip.edf', 'IMG_20417.jpg', 'vitals.csv'],
      born: '2018-06-02',
      signed: [{ by: 'Osric Vane', on: '2026-03-09' }],
      calendarAddress: 'https://calendars.harebell-lane.example/kk5d6q7x.ics',
    };
    const all = identifiersOf(juniper, beside).map(({ text }) => text);
    expect(all).toEqual(
      expect.arrayContaining([
        'quillfeather.example',
        '4 Tannery Row',
        'quillfeather-juniper',
        'IMG_20417',
        '2018-06-02',
        '2026-03-09',
        'Osric',
        'harebell-lane.example',
        'kk5d6q7x.ics',
        juniper.surgery.discharge.value.slice(0, 10),
      ]),
    );
    expect(all).not.toContain('strip');
    expect(all).not.toContain('vitals');
  });

  it('hold nothing empty', () => {
    expect(texts.filter((text) => text.trim() === '')).toEqual([]);
  });
});

describe('the identifiers of a record that cannot be read', () => {
  const of = (text: string) =>
    identifiersOfUnread(readLoosely(text), 'marrowby-clover').map((one) => one.text);

  it('are what stands where names, contacts, numbers and days belong', () => {
    const found = of(`record: 2026-0223
patient: { name: Clover, microchip: 999112004431777, born: 2025-05-20, weight: much }
owner:
  name: Linnea Marrowby
  phone: 555 0187
  email: linnea@marrowby.example
  address: 3 Gannet Steps, Alder Crossing
team: { surgeon: Dr. Teodor Vantongeren }
surgery: { date: 2026-05-05 }
consent: { teaching: { given: perhaps, by: Tib Ashgrove, on: 2026-05-06 } }
`);
    expect(found).toEqual(
      expect.arrayContaining(
        `2026-0223|Clover|999112004431777|2025-05-20|Linnea Marrowby|Marrowby|555 0187|linnea@marrowby.example|Gannet|
Vantongeren|2026-05-05|Ashgrove|2026-05-06|marrowby-clover`
          .replaceAll('\n', '')
          .split('|'),
      ),
    );
  });

  it('are what could be read before a mistake of form, and no more than the folder of no record at all', () => {
    expect(of('owner:\n  name: Linnea Marrowby\n  phone: [555\n')).toContain('Marrowby');
    expect(of('- 1\n- 2\n')).toEqual(['marrowby-clover']);
    expect(of('\0')).toEqual(['marrowby-clover']);
    expect(of('a: &a [x, x]\nb: [*a, *a]\n')).toEqual(['marrowby-clover']);
  });
});
