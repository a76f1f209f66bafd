import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { inks } from '../../src/draw/inks.js';
import { vitalsChart } from '../../src/draw/vitals/chart.js';
import { chartDrawing } from '../../src/publish/chart-drawing.js';
import { RecordedCanvas } from '../../src/publish/recorded-canvas.js';
import { sampleVitals } from '../draw/vitals/sample.js';
import { printDigests } from './print-digests.js';

/** Millimetres in a CSS pixel (CSS Values and Units, 6.2: 96 to the inch). */
const PIXEL = 25.4 / 96;

describe('a chart as a drawing', () => {
  it('is of whole CSS pixels and states its true size', () => {
    const drawing = chartDrawing(vitalsChart(sampleVitals()), { widthMm: 174, heightMm: 90 });
    // 174 mm = 657.6 and 90 mm = 340.2 CSS pixels.
    expect(drawing.width).toBeCloseTo(657 * PIXEL, 9);
    expect(drawing.height).toBeCloseTo(340 * PIXEL, 9);
    expect(drawing.width).toBeLessThanOrEqual(174);
  });

  it('puts a mark on each reading, at its minute', () => {
    const chart = sampleVitals();
    const { marks } = chartDrawing(vitalsChart(chart), { widthMm: 174, heightMm: 118 });
    const shown = chart.series.find(({ measure }) => measure === 'mean');
    const minutes = (shown?.readings ?? []).filter(({ value }) => value !== null);
    expect(minutes.length).toBeGreaterThan(5);
    // The line of the mean is the one thick line of its ink: its corners are its readings, evenly far apart by time.
    const line = marks.find((mark) => mark.kind === 'line' && mark.stroke.colour === inks.accent);
    // The library names the first of them twice.
    const corners = new Map(line?.kind === 'line' ? line.points : []);
    const across = [...corners.keys()];
    expect(across).toHaveLength(minutes.length);
    const [from, to] = [across[0] as number, across.at(-1) as number];
    const [first, last] = [minutes[0]?.minute as number, minutes.at(-1)?.minute as number];
    across.forEach((x, i) => {
      const share = ((minutes[i]?.minute as number) - first) / (last - first);
      expect((x - from) / (to - from)).toBeCloseTo(share, 6);
    });
    const discs = marks.flatMap((mark) => (mark.kind === 'circle' ? [mark.centre] : []));
    for (const corner of corners) expect(discs).toContainEqual(corner);
  });

  it('names each stretch of the operation, the urgent one beside its bar, and what is shaded above its panel', () => {
    const chart = sampleVitals();
    const { marks } = chartDrawing(vitalsChart(chart), { widthMm: 174, heightMm: 118 });
    const written = (words: string) =>
      marks.flatMap((mark) => (mark.kind === 'text' && mark.text === words ? [mark.at] : []));
    // The event and the stretch.
    expect(written('bleeding')).toHaveLength(2);
    expect(written('operation')).toHaveLength(1);
    const [title, low, perhaps] = ['Blood pressure, mmHg', 'mean under 60', 'perhaps'].map(
      (words) => written(words)[0],
    );
    // All on the line of the title, where neither a line of readings nor one of an event runs.
    expect(low?.[1]).toBeCloseTo(title?.[1] as number, 6);
    expect(perhaps?.[1]).toBeCloseTo(title?.[1] as number, 6);
    expect(low?.[0]).toBeGreaterThan(title?.[0] as number);
  });

  it('draws nothing outside itself', () => {
    const { width, height, marks } = chartDrawing(vitalsChart(sampleVitals()), {
      widthMm: 174,
      heightMm: 118,
    });
    for (const mark of marks) {
      const points =
        'points' in mark ? mark.points : [mark.kind === 'text' ? mark.at : mark.centre];
      for (const [x, y] of points) {
        expect(x).toBeGreaterThanOrEqual(0);
        expect(x).toBeLessThanOrEqual(width);
        expect(y).toBeGreaterThanOrEqual(0);
        expect(y).toBeLessThanOrEqual(height);
      }
    }
  });

  it('leaves the configuration as it was', () => {
    const config = vitalsChart(sampleVitals());
    const before = JSON.stringify(config);
    chartDrawing(config, { widthMm: 60, heightMm: 60 });
    expect(JSON.stringify(config)).toBe(before);
  });

  it('stops at a character that the face lacks', () => {
    const chart = sampleVitals();
    const strings = { ...chart.strings, timeAxis: 'SpO₂ → minutes' };
    expect(() =>
      chartDrawing(vitalsChart({ ...chart, strings }), { widthMm: 60, heightMm: 60 }),
    ).toThrow(/no glyph for "₂" \(U\+2082\) in "SpO₂ → minutes"/);
  });

  it('gives the same bytes on a machine without fonts, in another zone and language', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'thrice-fontless-'));
    try {
      const config = join(folder, 'fonts.conf');
      writeFileSync(config, '<?xml version="1.0"?><fontconfig></fontconfig>');
      const script = [
        `const { runnerImport } = await import('vite');`,
        `const { module } = await runnerImport(${JSON.stringify(join(import.meta.dirname, 'print-digests.ts'))});`,
        `process.stdout.write('RESULT' + JSON.stringify(await module.printDigests()));`,
      ].join('\n');
      const env = {
        ...process.env,
        FONTCONFIG_FILE: config,
        FONTCONFIG_PATH: folder,
        TZ: 'America/Caracas',
        LC_ALL: 'es_ES.UTF-8',
        LANG: 'es_ES.UTF-8',
      };
      const run = spawnSync(process.execPath, ['--input-type=module', '-e', script], {
        encoding: 'utf8',
        env,
      });
      const result = run.stdout.split('RESULT')[1];
      if (!result) throw new Error(`the other process failed: ${run.stderr}`);
      expect(JSON.parse(result)).toEqual(await printDigests());
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});

describe('a canvas that keeps marks', () => {
  it('keeps a filled and outlined circle as one mark, in mm', () => {
    const canvas = new RecordedCanvas(100, 100);
    canvas.fillStyle = '#ffffff';
    canvas.strokeStyle = '#000000';
    canvas.lineWidth = 0.8;
    canvas.translate(10, 0);
    canvas.beginPath();
    canvas.arc(20, 30, 5, 0, 2 * Math.PI);
    canvas.fill();
    canvas.stroke();
    expect(canvas.drawn()).toEqual([
      {
        kind: 'circle',
        centre: [expect.closeTo(30 * PIXEL, 9), expect.closeTo(30 * PIXEL, 9)],
        radius: expect.closeTo(5 * PIXEL, 9),
        fill: '#ffffff',
        stroke: { colour: '#000000', width: expect.closeTo(0.8 * PIXEL, 9) },
      },
    ]);
  });

  it('gives back what was saved, and begins anew on a cleared ground', () => {
    const canvas = new RecordedCanvas(100, 100);
    canvas.fillRect(0, 0, 10, 10);
    canvas.clearRect();
    canvas.save();
    canvas.fillStyle = '#0b5d66';
    canvas.translate(5, 5);
    canvas.restore();
    canvas.fillRect(0, 0, 10, 10);
    expect(canvas.drawn()).toHaveLength(1);
    expect(canvas.drawn()[0]).toMatchObject({ kind: 'area', fill: '#000000' });
    expect((canvas.drawn()[0] as { points: unknown }).points).toContainEqual([0, 0]);
  });

  it('stops at what a drawing cannot hold, rather than leave it out', () => {
    const canvas = new RecordedCanvas(100, 100);
    expect(() => canvas.rotate(0.5)).toThrow(/turns nothing/);
    expect(() => canvas.arc(0, 0, 5, 0, 1)).toThrow(/whole circles/);
    canvas.font = '10px sans-serif';
    expect(() => canvas.fillText('SpO2', 0, 0)).toThrow(/is set in "10px sans-serif"/);
  });
});
