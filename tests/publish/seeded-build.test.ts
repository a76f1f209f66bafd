import { readFileSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { createCanvas } from '@napi-rs/canvas';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { parse, stringify } from 'yaml';
import { thrice } from '../cli/thrice.js';
import { bytesOf, exif, joined, jpeg, segment, xmp } from '../privacy/bytes/wrapped.js';
import { problemsFor } from '../privacy/problems-of.js';
import { filesIn, TestClinic } from './clinic.js';
import { pdfText } from './pdf-text.js';
import { hasProgram } from './programs.js';
import { type Identity, identitiesFrom } from './seeded-identities.js';

const HOSTS = ['clover', 'tucker'];
const SEED = 20260310;
const COUNT = 500;
const identities = identitiesFrom(SEED, COUNT);
const share = COUNT / HOSTS.length;

const texts = (identity: Identity): string[] => Object.values(identity);
const planted = identities.flatMap((identity, i) =>
  texts(identity).map((text) => ({ what: `identity ${i}`, text })),
);

let clinic: TestClinic;

/** Every field of the record that names somebody, and the private texts beside them, hold identities; so do the photos. */
function plant(name: string, own: readonly Identity[]): void {
  const file = clinic.path('cases', name, 'case.yaml');
  // A family name in another script has no letters in the printed faces: such identities stand in photos alone.
  const printable = own.filter(({ owner }) => /^[\p{Script=Latin}'\s-]+$/u.test(owner));
  const [first, second, third, fourth] = printable as [Identity, Identity, Identity, Identity];
  const record = parse(readFileSync(file, 'utf8'));
  const said = (from: number, to: number) =>
    printable
      .slice(from, to)
      .map(({ owner, patient, phone }) => `${patient} of ${owner}, ${phone}`)
      .join('; ');
  record.record = first.record;
  Object.assign(record.patient, { name: first.patient, microchip: first.chip });
  if (record.patient.born) record.patient.born = second.born;
  Object.assign(record.owner, {
    name: first.owner,
    phone: first.phone,
    email: first.email,
    address: first.address,
  });
  record.team = { surgeon: `Dr. ${second.owner}`, anesthesia: third.owner };
  record.surgery['note to owner'] = said(4, 12);
  record.home.awaited = [{ result: said(12, 14), after: '7 days' }];
  for (const consent of Object.values(record.consent) as { by?: string }[]) {
    if (consent.by) consent.by = fourth.owner;
  }
  record.consent.photos = { given: 'yes', by: fourth.owner, on: record.surgery.date };
  record.photos = [
    { file: `${first.patient}.jpg`, shows: 'the wound', on: ['owner sheet', 'teaching page'] },
  ];
  writeFileSync(file, stringify(record));

  const canvas = createCanvas(90, 60);
  canvas.getContext('2d').fillRect(8, 8, 40, 30);
  const dots = new Uint8Array(canvas.toBuffer('image/jpeg'));
  const whole = own.map((identity) => texts(identity).join(' ')).join('; ');
  writeFileSync(
    clinic.path('cases', name, `${first.patient}.jpg`),
    joined(
      dots.slice(0, 2),
      segment(0xe1, joined(exif(whole, true), jpeg(segment(0xfe, bytesOf(said(0, 3)))))),
      segment(0xe1, xmp(whole)),
      segment(0xfe, bytesOf(whole)),
      dots.slice(2),
      bytesOf(whole),
    ),
  );
}

beforeAll(async () => {
  clinic = new TestClinic(...HOSTS);
  for (const [i, name] of HOSTS.entries()) {
    plant(name, identities.slice(i * share, (i + 1) * share));
  }
  const { code, err } = await thrice('build', clinic.folder, '--out', clinic.out);
  expect(code, err).toBe(0);
}, 180_000);
afterAll(() => clinic.remove());

describe(`of ${COUNT} identities planted in records and photos (seed ${SEED})`, () => {
  const problemsOf = problemsFor(planted);
  const foundIn = (folder: string, wanted = /./) =>
    filesIn(folder)
      .filter((file) => wanted.test(file))
      .flatMap((file) => problemsOf({ file, path: basename(file), bytes: readFileSync(file) }))
      .map(({ found }) => found);

  it('the photos of the case folders hold every one', () => {
    const found = new Set(
      foundIn(clinic.folder, /\.jpg$/).map((text) => /^identity \d+/.exec(text)?.[0]),
    );
    found.delete(undefined);
    expect(found.size).toBe(COUNT);
  });

  it('the private tree holds those that its sheets print, on the pages and in the PDFs', () => {
    for (const kind of [/\.html$/, /discharge\.pdf$/]) {
      const found = foundIn(join(clinic.out, 'private'), kind);
      HOSTS.forEach((_, i) => {
        expect(found.join('\n')).toContain(`identity ${i * share} `);
      });
    }
  });

  it('the public tree holds none', () => {
    expect(foundIn(join(clinic.out, 'public'))).toEqual([]);
  });

  it('the public tree holds none by a plain search of another kind either', () => {
    const names = identities.flatMap(({ patient, owner, chip, record, email }) => [
      patient,
      owner,
      chip,
      record,
      email,
    ]);
    const withPdf = hasProgram('pdftotext');
    const said = filesIn(join(clinic.out, 'public')).map((file) =>
      withPdf && file.endsWith('.pdf') ? pdfText(file) : readFileSync(file, 'utf8'),
    );
    const all = said.join('\n').toLowerCase();
    expect(names.filter((name) => all.includes(name.toLowerCase()))).toEqual([]);
  });
});
