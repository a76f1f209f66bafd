import {
  closeSync,
  mkdtempSync,
  openSync,
  readdirSync,
  rmSync,
  statSync,
  symlinkSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createCanvas } from '@napi-rs/canvas';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { disk } from '../../src/publish/disk.js';
import { photoImage } from '../../src/publish/photo.js';
import { thrice } from '../cli/thrice.js';
import { joined, pngChunk } from '../privacy/bytes/wrapped.js';
import { filesIn, TestClinic } from './clinic.js';
import { pdfHidden, pdfText } from './pdf-text.js';
import { hasProgram } from './programs.js';

const RECORD = 'cases/clover/case.yaml';
let clinic: TestClinic;
beforeAll(() => {
  clinic = new TestClinic('clover');
});
afterEach(() => clinic.restore('clover'));
afterAll(() => clinic.remove());
const check = () => thrice('check', clinic.folder);

describe('a case folder that means harm is refused, naming the file, when', () => {
  it('a file of it is a link to elsewhere', async () => {
    const elsewhere = join(clinic.home, 'secret.csv');
    writeFileSync(elsewhere, 'time,HR\n09:00,100\n');
    rmSync(clinic.path('cases/clover/vitals.csv'));
    symlinkSync(elsewhere, clinic.path('cases/clover/vitals.csv'));
    const { code, err } = await check();
    expect(code).toBe(1);
    expect(err).toMatch(
      /case\.yaml:\d+:\d+ {2}monitor\.vitals {2}[\s\S]*"vitals\.csv": a link to another place[\s\S]*Copy the file/,
    );
    rmSync(elsewhere);
  });

  it.each(['../clover/vitals.csv', '/etc/vitals.csv', '..\\\\vitals.csv', '.vitals.csv'])(
    'it names a file outside: %s',
    async (name) => {
      clinic.edit(RECORD, 'vitals: vitals.csv', `vitals: "${name}"`);
      const { code, err } = await check();
      expect(code).toBe(1);
      expect(err).toMatch(/case\.yaml:\d+:\d+ {2}monitor\.vitals[\s\S]*in the case folder/);
    },
  );

  it.each([
    ['cases/clover/case.yaml', 1_000_001, '1.0 MB', 'a text file of at most 1 MB'],
    ['clinic.yaml', 2_000_000, '2.0 MB', 'a text file of at most 1 MB'],
    ['formulary.yaml', 30_000_000, '30 MB', 'a text file of at most 1 MB'],
  ])('%s is too large to be read', async (file, bytes, found, expected) => {
    // Without its bytes on the disk: whatever read it all would take its time over them.
    truncateSync(clinic.path(file), bytes);
    const { code, err } = await check();
    clinic.restoreClinic();
    expect(code).toBe(1);
    expect(err).toMatch(
      new RegExp(
        `${clinic.path(file)} {2}\\[T106\\]\\n {2}found {5}${found}\\n {2}expected {2}${expected}\\n {2}to mend {3}\\w`,
      ),
    );
  });

  it.each([
    ['teaching.md', 'teaching', 1_500_000, '1.5 MB', 'a text file of at most 1 MB'],
    ['vitals.csv', 'monitor.vitals', 70_000_000, '70 MB', 'a CSV file of at most 60 MB'],
    [
      'strip.edf',
      'monitor.strips[0].file',
      612_000_000,
      '612 MB',
      'a waveform file of at most 100 MB',
    ],
    ['wound.jpg', 'photos[0].file', 41_000_000, '41 MB', 'a photo of at most 40 MB'],
    ['long.hea', 'monitor.strips[0].file', 1_100_000, '1.1 MB', 'a text file of at most 1 MB'],
    [
      'long.dat',
      'monitor.strips[0].file',
      101_000_000,
      '101 MB',
      'a waveform file of at most 100 MB',
    ],
  ])(
    '%s, which the record names, is too large: told at that line and field',
    async (file, field, bytes, found, expected) => {
      if (file === 'wound.jpg') {
        clinic.edit(
          RECORD,
          /\nhome:\n/,
          '\nphotos:\n  - { file: wound.jpg, shows: the wound, on: [owner sheet] }\nhome:\n',
        );
      }
      if (file.startsWith('long.')) {
        clinic.edit(RECORD, 'file: strip.edf', 'file: long.hea');
        writeFileSync(
          clinic.path('cases/clover/long.hea'),
          'long 1 500 1000\nlong.dat 16 1000/mV 16 0 0 0 0 ECG II\n',
        );
      }
      const path = clinic.path('cases/clover', file);
      // Without its bytes on the disk, as above.
      closeSync(openSync(path, 'a'));
      truncateSync(path, bytes);
      const { code, err } = await check();
      expect(code).toBe(1);
      const named = file === 'long.dat' ? 'long.hea' : file;
      const own = err.split(/\n(?=\/)/).find((one) => one.includes('[T106]')) ?? '';
      expect(own.replace(/:\d+ {2}/, '  ').split('\n')[0]).toBe(
        `${clinic.path(RECORD)}:${clinic.lineOf(RECORD, `: ${named}`)}  ${field}  [T106]`,
      );
      expect(own).toContain(`found     "${file}": ${found}\n`);
      expect(own).toMatch(new RegExp(`expected  ${expected}\\n {2}to mend {3}\\w`));
    },
  );

  it('its YAML multiplies itself', async () => {
    const bomb = Array.from({ length: 12 }, (_, i) =>
      i === 0
        ? 'a0: &a0 [x, x]'
        : `a${i}: &a${i} [${Array(9)
            .fill(`*a${i - 1}`)
            .join(', ')}]`,
    );
    writeFileSync(clinic.path(RECORD), bomb.join('\n'));
    const { code, err } = await check();
    expect(code).toBe(1);
    expect(err).toMatch(/case\.yaml/);
  });
});

it('a picture that states more dots than a memory holds is refused before it is unpacked', async () => {
  const size = Buffer.alloc(8);
  size.writeUInt32BE(60_000, 0);
  size.writeUInt32BE(60_000, 4);
  const bomb = joined(
    '\x89PNG\r\n\x1a\n',
    pngChunk('IHDR', joined(size, new Uint8Array([8, 2, 0, 0, 0]))),
    pngChunk('IDAT', new Uint8Array(20)),
  );
  const canvas = createCanvas(8, 8);
  const jpeg = new Uint8Array(canvas.toBuffer('image/jpeg'));
  const frame = Buffer.from(jpeg).indexOf('\xff\xc0', 'latin1');
  jpeg.set([0xff, 0xff, 0xff, 0xff], frame + 5);
  for (const bytes of [bomb, jpeg]) {
    expect(await photoImage(bytes, 'x.png')).toMatchObject({
      ok: false,
      problems: [{ file: 'x.png', found: expect.stringMatching(/^\d+ x \d+ dots$/) }],
    });
  }
});

it('a link is no folder of cases', () => {
  const home = mkdtempSync(join(tmpdir(), 'thrice-test-'));
  symlinkSync(clinic.path('cases'), join(home, 'cases'));
  expect(disk(() => {}).folders(home)).toEqual([]);
  rmSync(home, { recursive: true });
});

describe('a build', () => {
  const SCRIPT = '<script>alert(1)</script><img src=x onerror=alert(2)>';
  beforeAll(async () => {
    clinic.restore('clover');
    clinic.edit(RECORD, 'name: Clover', 'name: "Clover <marquee onstart=boo()>"');
    clinic.edit(RECORD, /title: .*/, `title: "${SCRIPT} A patient"`);
    clinic.edit(
      'cases/clover/teaching.md',
      'A rabbit cannot',
      `${SCRIPT} [here](javascript:alert(3)) [there](data:text/html,x) A rabbit cannot`,
    );
    const { code, err } = await thrice('build', clinic.folder, '--out', clinic.out);
    expect({ code, err }).toEqual({ code: 0, err: '' });
  }, 180_000);

  it('puts no markup of a record into a page, and no link that runs a script', () => {
    const pages = filesIn(clinic.out).filter((file) => file.endsWith('.html'));
    expect(pages.length).toBeGreaterThan(3);
    for (const page of pages) {
      // The site's own scripts are files, and its data for machines no scripts.
      const html = clinic
        .readOut(page.slice(clinic.out.length + 1))
        .replace(/<script (?:defer )?src="[\w./-]+"(?: defer)?><\/script>/g, '')
        .replace(/<script type="application\/(?:ld\+)?json"[^>]*>[^<]*<\/script>/g, '');
      expect(html, page).not.toMatch(/<script|<img src=x|<marquee|href="(javascript|data):/i);
    }
    expect(clinic.readOut('private/clover/discharge.html')).toContain('&lt;marquee');
  });

  it('puts no script and no action but addresses of the web into a PDF', () => {
    if (!hasProgram('pdftotext') || !hasProgram('qpdf')) return;
    for (const file of filesIn(clinic.out).filter((name) => name.endsWith('.pdf'))) {
      // The objects, not the bytes: in a packed stream any three letters may stand by chance.
      expect(pdfHidden(file), file).not.toMatch(
        /\/JavaScript|\/JS\b|\/Launch|\/OpenAction|javascript:/,
      );
    }
    expect(pdfText(join(clinic.out, 'private/clover/discharge.pdf'))).toContain('<marquee');
  });

  it('writes no CSV, where a cell might begin a formula', () => {
    expect(filesIn(clinic.out).filter((name) => /\.(csv|tsv|xlsx?)$/.test(name))).toEqual([]);
  });

  it('leaves what is private to its owner', () => {
    const modes = readdirSync(join(clinic.out, 'private'), {
      withFileTypes: true,
      recursive: true,
    }).map((entry) => [
      entry.isDirectory(),
      statSync(join(entry.parentPath, entry.name)).mode & 0o777,
    ]);
    expect(modes.length).toBeGreaterThan(5);
    for (const [isFolder, mode] of modes) expect(mode).toBe(isFolder ? 0o700 : 0o600);
    expect(statSync(join(clinic.out, 'private')).mode & 0o777).toBe(0o700);
  });
});
