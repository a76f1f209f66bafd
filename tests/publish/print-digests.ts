import { createHash } from 'node:crypto';
import { vitalsChart } from '../../src/draw/vitals-chart.js';
import { chartImage } from '../../src/publish/chart-image.js';
import { printPdf } from '../../src/publish/pdf/print.js';
import { sampleVitals } from '../draw/sample-vitals.js';
import { sampleHandout } from './pdf/sample-handout.js';

const digest = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex');

/** Digests of a chart and of a whole print, to be compared between machines and runs. */
export async function printDigests() {
  const chart = chartImage(vitalsChart(sampleVitals()), { widthMm: 120, heightMm: 80 });
  return { chart: digest(chart.bytes), print: digest(await printPdf(sampleHandout())) };
}
