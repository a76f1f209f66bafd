import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { vitalsChart } from '../../src/draw/vitals-chart.js';
import { chartImage } from '../../src/publish/chart-image.js';
import { sampleVitals } from '../draw/sample-vitals.js';
import { printDigests } from './print-digests.js';

/** Width and height from the IHDR chunk of a PNG. */
function pixels(png: Uint8Array): readonly [number, number] {
  const view = new DataView(png.buffer, png.byteOffset);
  return [view.getUint32(16), view.getUint32(20)];
}

describe('a chart as a picture', () => {
  it('has three dots for each chart pixel, 288 to the inch, and states its true size', () => {
    const image = chartImage(vitalsChart(sampleVitals()), { widthMm: 174, heightMm: 90 });
    // 174 mm = 657.6 and 90 mm = 340.2 chart pixels of 1/96 inch.
    expect(pixels(image.bytes)).toEqual([657 * 3, 340 * 3]);
    expect(image.widthMm).toBeCloseTo((657 / 96) * 25.4, 9);
    expect(image.heightMm).toBeCloseTo((340 / 96) * 25.4, 9);
    expect(image.widthMm).toBeLessThanOrEqual(174);
  });

  it('leaves the configuration as it was', () => {
    const config = vitalsChart(sampleVitals());
    const before = JSON.stringify(config);
    chartImage(config, { widthMm: 60, heightMm: 60 });
    expect(JSON.stringify(config)).toBe(before);
  });

  it('stops at a character that the face lacks', () => {
    const chart = sampleVitals();
    const strings = { ...chart.strings, timeAxis: 'SpO₂ → minutes' };
    expect(() =>
      chartImage(vitalsChart({ ...chart, strings }), { widthMm: 60, heightMm: 60 }),
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
