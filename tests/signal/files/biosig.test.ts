import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { readEdf } from '../../../src/signal/files/edf.js';
import { readWaveform } from '../../../src/signal/files/read.js';
import type { Waveform } from '../../../src/signal/waveform.js';
import { buildEdf, remarks } from '../../tools/build-edf.js';

/** save2gdf of BioSig (Debian package biosig-tools): an independent reader of WFDB and reader and writer of EDF. */
const there = spawnSync('save2gdf', ['--version']).error === undefined;
if (!there) console.warn('skipped: save2gdf (package biosig-tools) is not installed');

const folder = mkdtempSync(join(tmpdir(), 'waveforms-'));
afterAll(() => rmSync(folder, { recursive: true }));
const convert = (format: string, source: string, target: string) =>
  execFileSync('save2gdf', [`-f=${format}`, join(folder, source), join(folder, target)], {
    env: { ...process.env, TZ: 'UTC' },
    stdio: 'pipe',
  });
const read = (name: string): Waveform => {
  const outcome = readWaveform(join(folder, name), (path) => ({
    ok: true,
    value: new Uint8Array(readFileSync(path)),
  }));
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
  return outcome.value;
};
/** The samples of one channel in BioSig's text dump, one value a line with six digits. */
const dumped = (name: string) =>
  readFileSync(join(folder, name), 'utf-8').trim().split('\n').map(Number);

/** 500 samples, two leads: a slow wave with a spike each second, from below to above zero. */
const stored = Array.from({ length: 500 }, (_, index) => {
  const wave = Math.round(300 * Math.sin(index / 20));
  return [wave + (index % 250 < 5 ? 900 : 0), -wave - (index % 250 < 5 ? 1200 : 0)] as const;
});
const sum16 = (lead: 0 | 1) => (stored.reduce((sum, values) => sum + values[lead], 0) << 16) >> 16;

/** Format 16 gets the first lead alone: BioSig 3.0.1 strides wrongly through several leads in that format. */
function writeRecord(format: 16 | 212): void {
  const bytes = stored.flatMap(([first, second]) =>
    format === 16
      ? [first & 0xff, (first >> 8) & 0xff]
      : [first & 0xff, ((first >> 8) & 0x0f) | ((second >> 4) & 0xf0), second & 0xff],
  );
  const leads = format === 16 ? ([0] as const) : ([0, 1] as const);
  const lines = leads.map(
    (lead) =>
      `r${format}.dat ${format} 200 12 0 ${stored[0]![lead]} ${sum16(lead)} 0 ${['II', 'V5'][lead]}\n`,
  );
  writeFileSync(
    join(folder, `r${format}.hea`),
    `r${format} ${leads.length} 250 500\n${lines.join('')}`,
  );
  writeFileSync(join(folder, `r${format}.dat`), Uint8Array.from(bytes));
}

describe.skipIf(!there)('against BioSig', () => {
  it.each([16, 212] as const)('reads WFDB format %i to the same physical values', (format) => {
    writeRecord(format);
    convert('ASCII', `r${format}.hea`, `r${format}.txt`);
    const { channels } = read(`r${format}.hea`);
    for (const [index, { samples }] of channels.entries()) {
      const values = dumped(`r${format}.a0${index + 1}`);
      expect(values).toHaveLength(500);
      for (const [place, value] of values.entries()) expect(samples[place]).toBeCloseTo(value, 4);
    }
  });

  it('reads an EDF that BioSig wrote to the values of its source', () => {
    writeRecord(212);
    convert('EDF', 'r212.hea', 'r212.edf');
    const source = read('r212.hea');
    const edf = read('r212.edf');
    expect(
      edf.channels.map(({ label, unit, samplingRate }) => [label, unit, samplingRate]),
    ).toEqual([
      ['II', 'mV', 250],
      ['V5', 'mV', 250],
    ]);
    expect(edf.duration).toBeCloseTo(source.duration, 9);
    for (const [index, { samples }] of edf.channels.entries()) {
      expect(samples).toHaveLength(500);
      // 16 bits over some 10 mV are steps of 0.00016 mV.
      for (const [place, value] of samples.entries()) {
        expect(value).toBeCloseTo(source.channels[index]!.samples[place]!, 3);
      }
    }
  });

  it('reads an EDF+ written by hand as BioSig does: values, rates, start and remarks', () => {
    const bytes = buildEdf({
      reserved: 'EDF+C',
      recording: 'Startdate 02-MAR-2026 X X X',
      startdate: '02.03.26',
      starttime: '09.15.00',
      signals: [
        {
          label: 'ECG II',
          dimension: 'uV',
          physicalMin: '-5000',
          physicalMax: '5000',
          digitalMin: '-2048',
          digitalMax: '2047',
          data: [
            [0, 1, -2047, 2046],
            [-1, 100, 7, -8],
          ],
        },
        {
          label: 'CO2',
          dimension: 'mmHg',
          physicalMin: '0',
          physicalMax: '100',
          digitalMin: '-1000',
          digitalMax: '1000',
          data: [
            [0, 500],
            [-500, 999],
          ],
        },
        {
          label: 'EDF Annotations',
          bytes: 64,
          data: [
            `${remarks('+0', '')}${remarks('+0.5\x150.25', 'incision')}`,
            `${remarks('+1', '')}${remarks('+1.5', 'sedación')}`,
          ],
        },
      ],
    });
    writeFileSync(join(folder, 'hand.edf'), bytes);
    convert('ASCII', 'hand.edf', 'hand.txt');
    const report = readFileSync(join(folder, 'hand.txt'), 'utf-8');
    const outcome = readEdf(bytes, 'hand.edf');
    if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
    const { channels, annotations, startsAt } = outcome.value;

    for (const [index, { samples }] of channels.entries()) {
      const values = dumped(`hand.a0${index + 1}`);
      expect(values).toHaveLength(samples.length);
      // Six digits of up to 5000 uV leave 0.005.
      for (const [place, value] of values.entries()) expect(samples[place]).toBeCloseTo(value, 2);
    }
    const rates = [...report.matchAll(/^SamplingRate\s*= ([\d.]+)/gm)].map((rate) =>
      Number(rate[1]),
    );
    expect(channels.map(({ samplingRate }) => samplingRate)).toEqual(rates.slice(0, 2));

    // BioSig keeps days as a fraction, so its time is some microseconds off.
    const [, date, time] = /^Recording\.Time\s*= (\S+) (\S+)/m.exec(report)!;
    const start = new Date(`${date}T${time}Z`.replace(/(\.\d{6})/, (part) => part.slice(0, 4)));
    expect(Math.abs(start.getTime() - Date.parse(`${startsAt}Z`))).toBeLessThanOrEqual(1);

    const events = report.slice(report.indexOf('[EVENT TABLE]')).split('\n').slice(2);
    expect(annotations.map(({ onset, duration, text }) => [onset, duration ?? 0, text])).toEqual(
      events
        .map((event) => event.split('\t'))
        .filter((event) => event.length > 4)
        .map((event) => [Number(event[1]), Number(event[2]) || 0, event[4]]),
    );
  });
});
