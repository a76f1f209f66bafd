import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import jsQR from 'jsqr';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { build } from '../../src/publish/build.js';
import { calendarName } from '../../src/publish/calendar-address.js';
import { disk } from '../../src/publish/disk.js';
import { readClinic } from '../../src/record/read-case.js';
import { CLINIC, KEYS, problemsOf } from '../record/sample.js';
import { filesIn, TestClinic } from './clinic.js';
import { hasProgram, overFile } from './programs.js';

const decode = jsQR as unknown as typeof jsQR.default;
const PLACE = 'https://calendars.harebell-lane.example';
const SECRET = 'seven blue buckets under the old stair';
const clinic = new TestClinic('clover');
const again = async (strict = false) =>
  build(
    { cases: clinic.folder, out: clinic.out, strict },
    disk(() => undefined),
  );
const online = () => readdirSync(join(clinic.out, 'calendars'));

beforeAll(async () => {
  expect(await again(true)).toMatchObject({ ok: true, value: { calendarsAt: PLACE } });
}, 60_000);
afterAll(() => clinic.remove());

describe('the name of a calendar file online', () => {
  it('is that of HMAC-SHA-256 in Crockford’s base 32', () => {
    // RFC 4231, test case 2: key "Jefe", "what do ya want for nothing?", digest 5bdcc146bf60754e6a04...
    const bits = [...Buffer.from('5bdcc146bf60754e6a04', 'hex')]
      .map((byte) => byte.toString(2).padStart(8, '0'))
      .join('');
    const letters = bits.match(/.{5}/g)?.map((five) => Number.parseInt(five, 2)) ?? [];
    const name = letters.map((value) => '0123456789abcdefghjkmnpqrstvwxyz'[value]).join('');
    expect(calendarName('what do ya want for nothing?', 'Jefe')).toBe(name);
  });

  it('differs for each record and each secret, and says nothing of either', () => {
    const names = new Set<string>();
    for (let number = 0; number < 500; number++) names.add(calendarName(`2026-${number}`, SECRET));
    names.add(calendarName('2026-0', `${SECRET}.`));
    expect(names.size).toBe(501);
    for (const name of names) expect(name).toMatch(/^[0-9a-hjkmnp-tv-z]{16}$/);
  });
});

describe('a clinic that puts calendars online', () => {
  it('finds them in a folder of their own, the same as beside the sheet, under no telling name', () => {
    const record = /record: "?([^"\n]+)/.exec(
      readFileSync(clinic.path('cases/clover/case.yaml'), 'utf8'),
    )?.[1];
    expect(online()).toEqual([`${calendarName(record as string, SECRET)}.ics`]);
    expect(clinic.readOut(`calendars/${online()[0]}`)).toBe(
      clinic.readOut('private/clover/discharge.ics'),
    );
  });

  it('gives no file its secret', () => {
    for (const path of filesIn(clinic.out)) {
      expect(readFileSync(path).includes(SECRET), path).toBe(false);
    }
  });

  it('tells nothing of it in public', () => {
    for (const path of filesIn(join(clinic.out, 'public'))) {
      const bytes = readFileSync(path).toString('latin1');
      expect(
        bytes.includes('calendars.harebell') || bytes.includes(online()[0] as string),
        path,
      ).toBe(false);
    }
  });

  it.skipIf(!hasProgram('pdftoppm'))(
    'has a code on the first page that leads there, in words too',
    () => {
      const pdf = readFileSync(join(clinic.out, 'private', 'clover', 'discharge.pdf'));
      const address = `${PLACE}/${online()[0]}`;
      expect(codeOn(pdf)).toBe(address);
      const { text } = overFile(pdf, 'pdftotext', '-l', '1', 'FILE', '-');
      // In a narrow place it may go on in a second line, after a slash.
      expect(text.replaceAll('/\n', '/')).toContain(address);
      expect(clinic.readOut('private/clover/discharge.html')).toContain(`href="${address}"`);
    },
  );

  it('keeps the file of a case that has a problem now, as an owner holds its address', async () => {
    const before = online();
    clinic.restore('juniper');
    clinic.edit('cases/clover/case.yaml', 'species:', 'spezies:');
    expect(await again()).toMatchObject({ ok: true, value: { kept: ['clover'] } });
    expect(online()).toEqual(expect.arrayContaining(before));
    expect(online()).toHaveLength(2);
    clinic.restore('clover');
  }, 60_000);

  it('is told of two cases with one record number', async () => {
    const number = /record: (.*)/.exec(
      readFileSync(clinic.path('cases/clover/case.yaml'), 'utf8'),
    )?.[1];
    clinic.edit('cases/juniper/case.yaml', /record: .*/, `record: ${number}`);
    const [problem] = problemsOf(await again());
    expect(problem).toMatchObject({
      field: 'record',
      file: clinic.path('cases/juniper/case.yaml'),
    });
    expect(problem?.found).toContain('which the case clover has already');
    clinic.restore('juniper');
  }, 60_000);

  it('has no code and no folder once it puts none online', async () => {
    clinic.edit('clinic.yaml', /calendars online:\n {2}at: .*\n {2}secret: .*\n?/, '');
    expect(await again()).toMatchObject({ ok: true, value: { calendarsAt: null } });
    expect(existsSync(join(clinic.out, 'calendars'))).toBe(false);
    expect(clinic.readOut('private/clover/discharge.html')).not.toContain('calendar-code');
    const pdf = readFileSync(join(clinic.out, 'private', 'clover', 'discharge.pdf'));
    if (hasProgram('pdftoppm')) expect(codeOn(pdf)).toBeUndefined();
  }, 60_000);
});

/** What a phone would read on the first page, printed in grey at 150 dots per inch. */
function codeOn(pdf: Uint8Array): string | undefined {
  const { bytes } = overFile(
    pdf,
    'pdftoppm',
    '-r',
    '150',
    '-gray',
    '-singlefile',
    '-f',
    '1',
    'FILE',
  );
  const [head = '', width, height] =
    /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(bytes.toString('latin1')) ?? [];
  const grey = bytes.subarray(head.length);
  const data = new Uint8ClampedArray(grey.length * 4);
  for (const [i, value] of grey.entries()) data.set([value, value, value, 255], 4 * i);
  return decode(data, Number(width), Number(height))?.data;
}

describe('where a clinic puts its calendars', () => {
  const at = (place: string, secret = SECRET) =>
    readClinic(
      `${CLINIC}calendars online:\n  at: ${place}\n  secret: ${secret}\n`,
      'clinic.yaml',
      KEYS,
    );

  it('is an https address without what follows the path', () => {
    const read = at('https://larkspur.example/calendars/');
    expect(read.ok && read.value.value['calendars online']?.at).toBe(
      'https://larkspur.example/calendars',
    );
    for (const place of [
      'http://larkspur.example',
      'larkspur.example/calendars',
      'https://larkspur.example/?for=you',
      'https://larkspur.example/#here',
      'https://me@larkspur.example',
      `https://larkspur.example/${'long/'.repeat(20)}`,
    ]) {
      expect(problemsOf(at(place))[0], place).toMatchObject({ field: 'calendars online.at' });
    }
  });

  it('needs a secret that is no single word, and no problem shows it', () => {
    const [problem] = problemsOf(at('https://larkspur.example', 'stair'));
    expect(problem).toMatchObject({ field: 'calendars online.secret' });
    expect(JSON.stringify(problem)).not.toContain('stair"');
  });
});
