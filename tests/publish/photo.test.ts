import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { createCanvas, loadImage } from '@napi-rs/canvas';
import { afterAll, describe, expect, it } from 'vitest';
import { build } from '../../src/publish/build.js';
import { disk } from '../../src/publish/disk.js';
import { photoImage } from '../../src/publish/photo.js';
import { TestClinic } from './clinic.js';

/**
 * A JPEG 40 wide and 20 high, red with a blue corner at its top left, that tells in Exif (JEITA CP-3451, TIFF tags
 * 0x0112 Orientation and 0x013b Artist) that it is to be turned a quarter clockwise, and who took it.
 */
function telltale(artist: string): Uint8Array {
  const canvas = createCanvas(40, 20);
  const context = canvas.getContext('2d');
  context.fillStyle = '#ff0000';
  context.fillRect(0, 0, 40, 20);
  context.fillStyle = '#0000ff';
  context.fillRect(0, 0, 10, 10);
  const jpeg = canvas.toBuffer('image/jpeg', 95);
  const name = Buffer.from(`${artist}\0`);
  const tiff = Buffer.alloc(8 + 2 + 2 * 12 + 4);
  tiff.write('MM');
  tiff.writeUInt16BE(42, 2);
  tiff.writeUInt32BE(8, 4);
  tiff.writeUInt16BE(2, 8);
  tiff.writeUInt16BE(0x0112, 10);
  tiff.writeUInt16BE(3, 12);
  tiff.writeUInt32BE(1, 14);
  tiff.writeUInt16BE(6, 18);
  tiff.writeUInt16BE(0x013b, 22);
  tiff.writeUInt16BE(2, 24);
  tiff.writeUInt32BE(name.length, 26);
  tiff.writeUInt32BE(tiff.length, 30);
  const exif = Buffer.concat([Buffer.from('Exif\0\0'), tiff, name]);
  const marker = Buffer.from([0xff, 0xe1, 0, 0]);
  marker.writeUInt16BE(exif.length + 2, 2);
  return Buffer.concat([jpeg.subarray(0, 2), marker, exif, jpeg.subarray(2)]);
}

describe('a photo', () => {
  it('is stood upright and keeps nothing but its dots', async () => {
    const photo = await photoImage(telltale('Ada Quillfeather'), 'wound.jpg');
    if (!photo.ok) throw new Error('it was refused');
    const { bytes, widthMm, heightMm } = photo.value;
    // SOI, with which a JPEG begins (ITU-T T.81, B.1.1.3).
    expect(Buffer.from(bytes).readUInt16BE()).toBe(0xffd8);
    expect(Buffer.from(bytes).includes('Exif')).toBe(false);
    expect(Buffer.from(bytes).includes('Quillfeather')).toBe(false);
    expect(heightMm / widthMm).toBeCloseTo(2, 5);
    const picture = await loadImage(Buffer.from(bytes));
    const canvas = createCanvas(picture.width, picture.height);
    const context = canvas.getContext('2d');
    context.drawImage(picture, 0, 0);
    const [red = 0, , blue = 0] = context.getImageData(picture.width - 3, 3, 1, 1).data;
    expect(blue).toBeGreaterThan(200);
    expect(red).toBeLessThan(60);
  });

  it.each(['image/jpeg', 'image/png'] as const)(
    'whose copy was broken off is refused, though it decodes: %s',
    async (type) => {
      const canvas = createCanvas(200, 100);
      canvas.getContext('2d').fillRect(20, 20, 90, 60);
      const whole = type === 'image/png' ? canvas.toBuffer(type) : canvas.toBuffer(type, 95);
      expect((await photoImage(whole, 'wound.jpg')).ok).toBe(true);
      const broken = await photoImage(whole.subarray(0, whole.length - 20), 'wound.jpg');
      expect(broken).toMatchObject({
        ok: false,
        problems: [{ kind: 'a photo that cannot be read' }],
      });
    },
  );

  it('is whole where the camera has put something behind it', async () => {
    const photo = Buffer.concat([telltale('Ada Quillfeather'), Buffer.alloc(64, 7)]);
    expect((await photoImage(photo, 'wound.jpg')).ok).toBe(true);
  });

  it.each([
    ['WebP', createCanvas(20, 10).toBuffer('image/webp')],
    [
      'SVG',
      Buffer.from('<svg xmlns="http://www.w3.org/2000/svg" width="90000" height="90000"></svg>'),
    ],
    ['JPEG without a size', telltale('Ada').subarray(0, 40)],
  ])('that is %s, whatever its name, is handed to no decoder', async (_, bytes) => {
    expect(await photoImage(bytes, 'wound.jpg')).toMatchObject({
      ok: false,
      problems: [
        { kind: 'a photo that cannot be read', found: 'a file that cannot be read as a picture' },
      ],
    });
  });

  it('that is none is refused with what to do', async () => {
    expect(await photoImage(Buffer.from('no picture'), 'wound.jpg')).toEqual({
      ok: false,
      problems: [
        {
          kind: 'a photo that cannot be read',
          file: 'wound.jpg',
          found: 'a file that cannot be read as a picture',
          expected: 'a photo in JPEG or PNG',
          mend: 'Export the photo again as JPEG.',
        },
      ],
    });
  });
});

describe('the photos of a case', () => {
  const clinic = new TestClinic('bramble');
  const caseFile = 'cases/bramble/case.yaml';
  afterAll(() => clinic.remove());
  writeFileSync(clinic.path('cases/bramble/wound.jpg'), telltale('Ada Quillfeather'));
  clinic.edit(
    caseFile,
    'consent:',
    'photos:\n  - { file: wound.jpg, shows: The closed wound, on: [owner sheet, teaching page] }\nconsent:',
  );
  const run = () =>
    build(
      { cases: clinic.folder, out: clinic.out, strict: true },
      disk(() => {}),
    );
  const page = (path: string) => readFileSync(join(clinic.out, path), 'utf8');

  it('stand in public only with consent to photos, and until it is withdrawn', async () => {
    const refused = await run();
    expect(refused).toMatchObject({
      ok: false,
      problems: [{ field: 'photos[0].on', found: 'the teaching page, without consent to photos' }],
    });

    const given = 'photos: { given: yes, by: Ada Quillfeather, on: 2026-03-10 }';
    clinic.edit(caseFile, 'consent:', `consent:\n  ${given}`);
    expect((await run()).ok).toBe(true);
    const teaching = 'public/two-counts-for-one-heartbeat/teaching.html';
    expect(page('private/bramble/discharge.html')).toContain('discharge-photo-1.jpg');
    expect(page(teaching)).toContain('teaching-photo-1.jpg');

    clinic.edit(caseFile, given, given.replace('03-10', '03-10, withdrawn: 2026-04-01'));
    expect(await run()).toMatchObject({
      value: {
        gone: [
          {
            page: 'two-counts-for-one-heartbeat/teaching-photo-1.jpg',
            why: 'consent to it was withdrawn on 2026-04-01',
          },
        ],
      },
    });
    expect(page(teaching)).not.toContain('photo-1');
    expect(page('private/bramble/discharge.html')).toContain('discharge-photo-1.jpg');
    clinic.edit(caseFile, ', withdrawn: 2026-04-01', '');
  });

  it('are a problem of their case where they cannot be read', async () => {
    writeFileSync(clinic.path('cases/bramble/wound.jpg'), 'no picture');
    const outcome = await run();
    expect(outcome.ok).toBe(false);
    if (outcome.ok) return;
    expect(outcome.problems[0]).toMatchObject({
      file: clinic.path('cases/bramble/case.yaml'),
      field: 'photos[0].file',
      found: '"wound.jpg": a file that cannot be read as a picture',
    });
  });
});
