import { createHash } from 'node:crypto';
import { vitalsChart } from '../../src/draw/vitals/chart.js';
import { chartDrawing } from '../../src/publish/chart-drawing.js';
import { printPdf } from '../../src/publish/pdf/print.js';
import { sampleVitals } from '../draw/vitals/sample.js';
import { sampleHandout } from './pdf/sample-handout.js';

const digest = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex');

/** Digests of a chart and of a whole print, to be compared between machines and runs. */
export async function printDigests() {
  const chart = chartDrawing(vitalsChart(sampleVitals()), { widthMm: 120, heightMm: 80 });
  return {
    chart: digest(new TextEncoder().encode(JSON.stringify(chart))),
    print: digest(await printPdf(sampleHandout())),
  };
}
