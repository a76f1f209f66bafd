import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { createCanvas } from '@napi-rs/canvas';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import type { CaseFacts } from '../../src/facts/case-facts.js';
import type { ConsentKind } from '../../src/record/case-schema.js';
import { thrice } from '../cli/thrice.js';
import { bytesOf, exif, joined, pngChunk, segment, xmp } from '../privacy/bytes/wrapped.js';
import { strays, TestClinic } from './clinic.js';

/** Consent as if it had been given to these kinds. */
function given(consent: CaseFacts['consent'], ...kinds: ConsentKind[]): CaseFacts['consent'] {
  return {
    ...consent,
    ...Object.fromEntries(kinds.map((kind) => [kind, { ...consent[kind], allows: true }])),
  };
}

/** The scrubbers that are taken out of the build, by name. */
const out = vi.hoisted(() => ({ of: new Set<string>() }));

vi.mock('../../src/publish/photo.js', async (original) => {
  const real = await original<typeof import('../../src/publish/photo.js')>();
  return {
    ...real,
    decodePhotos: async (files: Parameters<typeof real.decodePhotos>[0]) => {
      const decoded = await real.decodePhotos(files);
      if (!out.of.has('photo') || !decoded.ok) return decoded;
      const value = decoded.value.map((photo, i) => ({
        ...photo,
        figure: {
          ...photo.figure,
          image: { ...(photo.figure as { image: object }).image, bytes: files[i]?.bytes },
        },
      }));
      return { ok: true, value };
    },
  };
});
vi.mock('../../src/publish/pdf/metadata.js', async (original) => {
  const real = await original<typeof import('../../src/publish/pdf/metadata.js')>();
  return {
    ...real,
    openingInfo: (handout: Parameters<typeof real.openingInfo>[0]) => ({
      ...real.openingInfo(handout),
      ...(out.of.has('PDF information') && { Author: 'Dr. Teodor Vantongeren' }),
    }),
    describe: (doc: PDFKit.PDFDocument, handout: Parameters<typeof real.describe>[1]) => {
      real.describe(doc, handout);
      if (out.of.has('XMP')) doc.appendXML('<dc:rights>Bramwith</dc:rights>');
    },
  };
});
vi.mock('../../src/privacy/public-facts.js', async (original) => {
  const real = await original<typeof import('../../src/privacy/public-facts.js')>();
  return {
    ...real,
    publicFacts: (...[facts, veil]: Parameters<typeof real.publicFacts>) => {
      const consent = given(facts.consent, 'record', 'teaching');
      const shared = real.publicFacts(out.of.has('consent') ? { ...facts, consent } : facts, veil);
      if (!shared) return shared;
      return {
        ...shared,
        published: {
          title: out.of.has('day') ? `Of ${facts.surgery.date.value}` : shared.published.title,
          patient: out.of.has('pseudonym') ? facts.identity.patientName : shared.published.patient,
          address: out.of.has('address') ? 'marrowby-case' : shared.published.address,
        },
      };
    },
  };
});
vi.mock('../../src/publish/print-case.js', async (original) => {
  const real = await original<typeof import('../../src/publish/print-case.js')>();
  return {
    ...real,
    printCase: (...[loaded, ...rest]: Parameters<typeof real.printCase>) => {
      const consent = given(loaded.facts.consent, 'record');
      const facts = out.of.has('consent') ? { ...loaded.facts, consent } : loaded.facts;
      return real.printCase({ ...loaded, facts }, ...rest);
    },
  };
});
vi.mock('../../src/publish/opaque-png.js', async (original) => {
  const real = await original<typeof import('../../src/publish/opaque-png.js')>();
  return {
    opaquePng: (dots: Parameters<typeof real.opaquePng>[0]) => {
      const bytes = real.opaquePng(dots);
      return out.of.has('chart')
        ? joined(
            bytes.slice(0, -12),
            pngChunk('tEXt', bytesOf('Source\x002026-0223')),
            bytes.slice(-12),
          )
        : bytes;
    },
  };
});
vi.mock('../../src/draw/svg.js', async (original) => {
  const real = await original<typeof import('../../src/draw/svg.js')>();
  return {
    toSvg: (...given: Parameters<typeof real.toSvg>) =>
      real
        .toSvg(...given)
        .replace(
          '</svg>',
          out.of.has('drawing') ? '<metadata>555-0187</metadata></svg>' : '</svg>',
        ),
  };
});
vi.mock('../../src/publish/trees.js', async (original) => {
  const real = await original<typeof import('../../src/publish/trees.js')>();
  return {
    ...real,
    writePublicTree: async (
      ...[cases, groups, folder]: Parameters<typeof real.writePublicTree>
    ) => {
      await real.writePublicTree(cases, groups, folder);
      if (out.of.has('calendar')) writeFileSync(join(folder, 'x.ics'), cases[0]?.calendar ?? '');
      if (out.of.has('sheet')) writeFileSync(join(folder, 'x.pdf'), cases[0]?.owner.pdf ?? '');
    },
  };
});

const RECORD = 'cases/clover/case.yaml';
let clinic: TestClinic;
const build = () => thrice('build', clinic.folder, '--out', clinic.out);

beforeAll(async () => {
  clinic = new TestClinic('clover');
  const canvas = createCanvas(64, 48);
  canvas.getContext('2d').fillRect(8, 8, 20, 20);
  const plain = new Uint8Array(canvas.toBuffer('image/jpeg'));
  writeFileSync(
    clinic.path('cases/clover/wound.jpg'),
    joined(
      plain.slice(0, 2),
      segment(0xe1, exif('Clover of Linnea Marrowby', true)),
      segment(0xe1, xmp('Linnea Marrowby')),
      segment(0xfe, bytesOf('taken on 5 May 2026')),
      plain.slice(2),
    ),
  );
  clinic.edit(
    RECORD,
    /\nhome:\n/,
    '\nphotos:\n  - { file: wound.jpg, shows: the wound, on: [teaching page] }\nhome:\n',
  );
  clinic.edit(
    RECORD,
    /\nconsent:\n/,
    '\nconsent:\n  photos: { given: yes, by: Linnea Marrowby, on: 2026-05-05 }\n',
  );
  const { code, err } = await build();
  expect({ code, err }).toEqual({ code: 0, err: '' });
}, 180_000);
afterAll(() => clinic.remove());

it('publishes the photo without anything but its dots', () => {
  const photos = Object.keys(clinic.bytes()).filter(
    (path) => path.includes('/public/') && path.endsWith('.jpg'),
  );
  expect(photos).toHaveLength(1);
  const text = readFileSync(join(clinic.home, photos[0] as string), 'latin1');
  expect(text).not.toMatch(/Exif|adobe|Marrowby|Clover/);
});

/**
 * A build takes seconds, so that several scrubbers are taken out of one; each is seen by an identifier and a place of its
 * own.
 */
const BUILDS: readonly (readonly string[])[] = [
  ['photo', 'PDF information', 'XMP', 'consent', 'chart', 'drawing', 'calendar', 'sheet'],
  ['pseudonym', 'day', 'address'],
];

describe('a build that has lost its scrubbers publishes nothing, and names the file of each:', () => {
  it.each<[scrubber: string, file: RegExp, found: RegExp]>([
    ['photo', /teaching-photo-1\.jpg/, /the owner's name in .*JPEG EXIF/],
    ['photo', /teaching-photo-1\.jpg/, /the place where it was taken/],
    ['photo', /teaching\.pdf/, /the owner's name in .*PDF stream \d+, JPEG EXIF/],
    ['PDF information', /teaching\.pdf/, /the surgeon's name in .*PDF objects/],
    ['XMP', /teaching\.pdf/, /the anesthetist's name in .*PDF stream \d+/],
    ['consent', /record\.html/, /not consented to/],
    ['chart', /teaching-vitals\.png/, /the record number in .*PNG tEXt/],
    ['drawing', /teaching\.html/, /the owner's telephone number in/],
    ['calendar', /x\.ics/, /the patient's name in/],
    ['sheet', /x\.pdf/, /the clinic's telephone number in .*text as printed/],
    ['pseudonym', /teaching\.html/, /the patient's name in/],
    ['pseudonym', /teaching\.pdf/, /the patient's name in .*PDF stream \d+, text as printed/],
    ['day', /index\.html/, /the date of surgery in/],
    ['address', /marrowby-case/, /the owner's name in the name of the file/],
  ])(
    '%s (%s)',
    async (scrubber, file, found) => {
      const { code, err, untouched } = await buildWithout(scrubber);
      expect({ code, untouched }).toEqual({ code: 1, untouched: true });
      const own = err
        .split(/\n(?=public\/)/)
        .filter((problem) => file.test(problem.split('\n')[0] as string));
      expect(own.join('\n')).toMatch(found);
    },
    180_000,
  );
});

const done = new Map<readonly string[], Promise<Lost>>();

interface Lost {
  readonly code: number;
  readonly err: string;
  /** Whether the last output stands as it stood, and nothing beside it. */
  readonly untouched: boolean;
}

function buildWithout(scrubber: string): Promise<Lost> {
  const lost = BUILDS.find((each) => each.includes(scrubber)) as readonly string[];
  const known = done.get(lost) ?? buildLosing(lost);
  done.set(lost, known);
  return known;
}

async function buildLosing(lost: readonly string[]): Promise<Lost> {
  out.of = new Set(lost);
  const before = JSON.stringify(clinic.bytes());
  const { code, err } = await build();
  const untouched = JSON.stringify(clinic.bytes()) === before && strays(clinic.home).length === 0;
  return { code, err, untouched };
}
