import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createCanvas, loadImage } from '@napi-rs/canvas';
import { afterAll, describe, expect, it } from 'vitest';
import { DEMO } from '../publish/clinic.js';
import { hasProgram, overFile } from '../publish/programs.js';
import { thrice } from './thrice.js';

const folder = mkdtempSync(join(tmpdir(), 'strip-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const DOG = ['--species', 'dog', '--weight', '31kg'];
const EDF = join(DEMO, 'cases', 'bramble', 'strip.edf');
const draw = async (name: string) => {
  const file = join(folder, name);
  const run = await thrice('strip', EDF, ...DOG, '--out', file);
  return { ...run, bytes: () => readFileSync(file) };
};

describe('thrice strip --out', () => {
  it('writes the strip as SVG at true scale, with P, QRS and T of each beat named', async () => {
    const { code, bytes } = await draw('strip.svg');
    expect(code).toBe(0);
    const svg = bytes().toString();
    expect(svg).toMatch(/^<svg [^>]*width="171mm"/);
    for (const wave of ['P', 'QRS', 'T']) {
      expect(svg.split(`>${wave}</text>`).length - 1).toBeGreaterThanOrEqual(45);
    }
  });

  it.skipIf(!hasProgram('pdfinfo'))('writes a PDF of the same size', async () => {
    const { code, bytes } = await draw('strip.pdf');
    expect(code).toBe(0);
    const { text } = overFile(bytes(), 'pdfinfo', 'FILE');
    // 171 mm and 5 mm of white on either side, in points.
    expect(text).toMatch(new RegExp(`Page size: +${((181 * 72) / 25.4).toFixed(3).slice(0, 6)}`));
  });

  it('writes a PNG of 300 dots to the inch that is not blank', async () => {
    const { code, bytes } = await draw('strip.png');
    expect(code).toBe(0);
    const picture = await loadImage(bytes());
    expect(picture.width).toBe(Math.ceil((181 * 300) / 25.4));
    const canvas = createCanvas(picture.width, picture.height);
    const context = canvas.getContext('2d');
    context.drawImage(picture, 0, 0);
    const { data } = context.getImageData(0, 0, picture.width, picture.height);
    let dark = 0;
    for (let at = 0; at < data.length; at += 4) if ((data[at] as number) < 60) dark++;
    expect(dark).toBeGreaterThan(10_000);
  });

  it('refuses an ending that it cannot draw, and leaves nothing behind', async () => {
    const { code, err } = await draw('strip.gif');
    expect(code).toBe(2);
    expect(err).toContain('.svg, .png, .pdf');
    const nowhere = await thrice('strip', EDF, ...DOG, '--out', join(folder, 'no', 'strip.svg'));
    expect(nowhere.code).toBe(1);
    expect(nowhere.err).toContain('cannot be written');
    expect(readdirSync(folder).filter((name) => name.includes('draft'))).toEqual([]);
  });
});
