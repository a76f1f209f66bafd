import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { createCanvas } from '@napi-rs/canvas';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { text } from '../../src/draw/lettering.js';
import type { HomeCase } from '../../src/facts/case-facts.js';
import type { ConsentKind } from '../../src/record/case-schema.js';
import { thrice } from '../cli/thrice.js';
import { OPEN_VEIL } from '../facts/demo.js';
import { bytesOf, exif, joined, segment, xmp } from '../privacy/bytes/wrapped.js';
import { atHome } from '../record/sample.js';
import { strays, TestClinic } from './clinic.js';

/** Consent as if it had been given to these kinds. */
function given(consent: HomeCase['consent'], ...kinds: ConsentKind[]): HomeCase['consent'] {
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
      if (!shared.wound) throw new Error('every patient of the demonstration went home');
      const wound = out.of.has('sources')
        ? { ...shared.wound, edgeGap: atHome(facts).wound.edgeGap }
        : shared.wound;
      const titles = {
        day: `Of ${facts.surgery.date.value}`,
        // A page that told what a fact rests on.
        sources: `From ${'from' in wound.edgeGap ? wound.edgeGap.from.join() : ''}`,
      };
      const lost = (['day', 'sources'] as const).find((scrubber) => out.of.has(scrubber));
      return {
        ...shared,
        wound,
        published: {
          title: lost ? titles[lost] : shared.published.title,
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
    printCase: (...[loaded, content, language, veil]: Parameters<typeof real.printCase>) => {
      const kinds = [
        ...(out.of.has('consent') ? (['record'] as const) : []),
        ...(out.of.has('photo consent') ? (['photos'] as const) : []),
      ];
      const facts = { ...loaded.facts, consent: given(loaded.facts.consent, ...kinds) };
      const open = out.of.has('small groups') || out.of.has('decisions') ? OPEN_VEIL : null;
      const words = out.of.has('names in free text') && veil ? { say: (text: string) => text } : {};
      return real.printCase(
        { ...loaded, facts },
        content,
        language,
        veil ? { ...veil, ...words } : open,
      );
    },
  };
});
vi.mock('../../src/publish/chart-drawing.js', async (original) => {
  const real = await original<typeof import('../../src/publish/chart-drawing.js')>();
  return {
    chartDrawing: (...given: Parameters<typeof real.chartDrawing>) => {
      const drawing = real.chartDrawing(...given);
      const mark = text([20, 20], '2026-0223', { size: 3, colour: '#ffffff' });
      return out.of.has('chart') ? { ...drawing, marks: [...drawing.marks, mark] } : drawing;
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
vi.mock('../../src/publish/site/public-tree.js', async (original) => {
  const real = await original<typeof import('../../src/publish/site/public-tree.js')>();
  return {
    ...real,
    writeCasePages: async (...[cases, site, folder]: Parameters<typeof real.writeCasePages>) => {
      await real.writeCasePages(cases, site, folder);
      for (const { printed } of cases) {
        const place = join(folder, printed.shared?.published.address ?? '');
        const { home } = printed;
        if (!home) throw new Error('every patient of the demonstration went home');
        if (out.of.has('calendar')) writeFileSync(join(place, 'x.ics'), home.calendar);
        if (out.of.has('sheet')) writeFileSync(join(place, 'x.pdf'), home.owner.pdf);
      }
    },
  };
});

const RECORD = 'cases/clover/case.yaml';
const REMARKS = 'cases/clover/teaching.md';
const KEPT = ['clinic.yaml', RECORD, REMARKS] as const;
let clinic: TestClinic;
// A cache would hand over what was made before a scrubber was taken out.
const build = () => thrice('build', clinic.folder, '--out', clinic.out, '--no-cache');

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
const BUILDS: readonly Losing[] = [
  {
    scrubbers: [
      'photo',
      'PDF information',
      'XMP',
      'consent',
      'chart',
      'drawing',
      'calendar',
      'sheet',
    ],
  },
  { scrubbers: ['pseudonym', 'day', 'address'] },
  {
    scrubbers: ['photo consent', 'names in free text', 'sources'],
    edit: () => {
      clinic.edit(RECORD, /(photos: \{ given: .*) \}/, '$1, withdrawn: 2026-06-01 }');
      clinic.edit(REMARKS, 'A rabbit cannot', 'Linnea Marrowby fed Clover. A rabbit cannot');
    },
  },
  {
    scrubbers: ['small groups'],
    edit: () => clinic.edit('clinic.yaml', /small groups:\n.*\n.*\n/, ''),
  },
  {
    scrubbers: ['decisions'],
    edit: () => clinic.edit(REMARKS, 'A rabbit cannot', 'She ate on August 30. A rabbit cannot'),
  },
];

interface Losing {
  readonly scrubbers: readonly string[];
  /** What the scrubber is for, where the clinic has nothing of it yet. */
  readonly edit?: () => void;
}

describe('a build that has lost its scrubbers publishes nothing, and names the file of each:', () => {
  it.each<[scrubber: string, file: RegExp, found: RegExp]>([
    ['photo', /teaching-photo-1\.jpg/, /the owner's name in .*JPEG EXIF/],
    ['photo', /teaching-photo-1\.jpg/, /the place where it was taken/],
    ['photo', /teaching\.pdf/, /the owner's name in .*PDF stream \d+, JPEG EXIF/],
    ['PDF information', /teaching\.pdf/, /the surgeon's name in .*PDF objects/],
    ['XMP', /teaching\.pdf/, /the anesthetist's name in .*PDF stream \d+/],
    ['consent', /record\.html/, /a document that must not be public: its owner has not consented/],
    ['chart', /teaching\.pdf/, /the record number in .*text as printed/],
    ['drawing', /teaching\.html/, /the owner's telephone number in/],
    ['calendar', /x\.ics/, /the patient's name in/],
    ['sheet', /x\.pdf/, /the clinic's telephone number in .*text as printed/],
    ['pseudonym', /teaching\.html/, /the patient's name in/],
    ['pseudonym', /teaching\.pdf/, /the patient's name in .*PDF stream \d+, text as printed/],
    ['day', /index\.html/, /the date of surgery in/],
    ['address', /marrowby-case/, /the owner's name in the name of the file/],
    ['photo consent', /teaching-photo-1\.jpg/, /a photo that must not be public: its owner/],
    ['names in free text', /teaching\.html/, /the owner's name in/],
    ['sources', /index\.html/, /the patient's name in|a file or folder of the case in/],
    ['small groups', /teaching\.pdf/, /a file of a case that must not be public: too few/],
    ['small groups', /index\.html/, /a link to a file of a case that must not be public/],
    ['decisions', /teaching\.html/, /must not be public: its author has not decided/],
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

const done = new Map<Losing, Promise<Lost>>();

interface Lost {
  readonly code: number;
  readonly err: string;
  /** Whether the last output stands as it stood, and nothing beside it. */
  readonly untouched: boolean;
}

function buildWithout(scrubber: string): Promise<Lost> {
  const lost = BUILDS.find(({ scrubbers }) => scrubbers.includes(scrubber)) as Losing;
  const known = done.get(lost) ?? buildLosing(lost);
  done.set(lost, known);
  return known;
}

async function buildLosing({ scrubbers, edit }: Losing): Promise<Lost> {
  out.of = new Set(scrubbers);
  const kept = KEPT.map((file) => [file, readFileSync(clinic.path(file))] as const);
  edit?.();
  const before = JSON.stringify(clinic.bytes());
  const { code, err } = await build();
  const untouched = JSON.stringify(clinic.bytes()) === before && strays(clinic.home).length === 0;
  for (const [file, bytes] of kept) writeFileSync(clinic.path(file), bytes);
  return { code, err, untouched };
}
