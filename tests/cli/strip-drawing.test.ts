import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createCanvas, loadImage } from '@napi-rs/canvas';
import { afterAll, describe, expect, it } from 'vitest';
import { DEMO } from '../publish/clinic.js';
import { hasProgram, overFile } from '../publish/programs.js';
import { writeCsv } from '../synth/write-csv.js';
import { thrice } from './thrice.js';

const folder = mkdtempSync(join(tmpdir(), 'strip-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const DOG = ['--species', 'dog', '--weight', '31kg'];
/** 40 s. */
const EDF = join(DEMO, 'cases', 'bramble', 'strip.edf');
const MINUTE = join(DEMO, 'cases', 'juniper', 'strip.edf');
const draw = (name: string, ...more: string[]) => drawOf(EDF, name, ...more);
const drawOf = async (strip: string, name: string, ...more: string[]) => {
  const file = join(folder, name);
  const run = await thrice('strip', strip, ...DOG, '--out', file, ...more);
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

  it.skipIf(!hasProgram('pdfinfo')).each([
    ['A4', /Page size: +595\.2\d+ x 841\.8\d+ pts/],
    ['Letter', /Page size: +612 x 792 pts/],
  ])('writes a PDF of numbered %s pages', async (paper, size) => {
    const { code, bytes } = await drawOf(MINUTE, 'strip.pdf', '--paper', paper);
    expect(code).toBe(0);
    const { text } = overFile(bytes(), 'pdfinfo', 'FILE');
    expect(text).toMatch(size);
    const pages = Number(/Pages: +(\d+)/.exec(text)?.[1]);
    expect(pages).toBeGreaterThan(1);
    const words = overFile(bytes(), 'pdftotext', 'FILE', '-').text;
    for (let page = 1; page <= pages; page++) {
      expect(words).toMatch(new RegExp(`^${page} ?/ ?${pages}$`, 'm'));
    }
  });

  it('draws the stretch that is asked for, in seconds or in minutes and seconds', async () => {
    const { code, bytes } = await draw('part.svg', '--from', '0:20', '--to', '30s');
    expect(code).toBe(0);
    const svg = bytes().toString();
    for (const second of [20, 25, 30]) expect(svg).toContain(`>${second} s</text>`);
    for (const second of [19, 31]) expect(svg).not.toContain(`>${second} s</text>`);
    expect(svg).toContain(' beats in 10 s</desc>');
  });

  it.each([
    [['--from', 'late'], '--from "late" cannot be read'],
    [['--to', '61'], 'the recording lasts 40 s'],
    [['--from', '0:35', '--to', '30'], '--to 30 s does not lie after --from 35 s'],
    [['--paper', 'A9'], '--paper "A9" is not known; give one of A4, Letter'],
  ])('refuses %j', async (words, said) => {
    const { code, err } = await draw('refused.svg', ...words);
    expect(code).toBe(2);
    expect(err).toContain(said);
    expect(readdirSync(folder)).not.toContain('refused.svg');
  });

  it('asks for --out where a stretch is chosen without it', async () => {
    const { code, err } = await thrice('strip', EDF, ...DOG, '--from', '10');
    expect(code).toBe(2);
    expect(err).toContain('--from is for the drawing; add --out');
  });

  it('says how to draw a long strip as a PNG', async () => {
    const long = join(folder, 'long.csv');
    const samples = new Float64Array(240 * 50);
    writeFileSync(long, writeCsv(50, [{ label: 'II', unit: 'mV', samples }]));
    const out = join(folder, 'long.png');
    const { code, err } = await thrice('strip', long, ...DOG, '--out', out);
    expect(code).toBe(2);
    const [, to] = /of 10000 at most; choose a stretch, such as --from 0 --to (\d+), or/.exec(err)!;
    expect((await thrice('strip', long, ...DOG, '--out', out, '--to', to!)).code).toBe(0);
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
