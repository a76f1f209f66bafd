import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { afterAll, describe, expect, it } from 'vitest';
import type { ChannelFacts } from '../../src/facts/case-facts.js';
import { notKnown } from '../../src/facts/fact.js';
import type { ReadStrip } from '../../src/facts/strip.js';
import { publicFacts } from '../../src/privacy/public-facts.js';
import type { LoadedCase } from '../../src/publish/load-case.js';
import { packOf } from '../../src/publish/pack/pack.js';
import { recordJsonSchema } from '../../src/publish/pack/record-schema.js';
import { stripFiles } from '../../src/publish/pack/strip-files.js';
import { vitalsCsv } from '../../src/publish/pack/vitals-csv.js';
import { good } from '../../src/record/problem.js';
import { readVitals } from '../../src/record/vitals-file.js';
import { analyseStrip } from '../../src/signal/analyse.js';
import { inTradeNames } from '../../src/signal/channel-names.js';
import { ecgLeads } from '../../src/signal/ecg-lead.js';
import { readEdf } from '../../src/signal/files/edf.js';
import { readWaveform } from '../../src/signal/files/read.js';
import type { Patient } from '../../src/signal/marked-beat.js';
import { isPlethysmogram } from '../../src/signal/pulse/plethysmogram-pulse.js';
import { isArterialPressure } from '../../src/signal/pulse/pressure-pulse.js';
import type { Channel, Waveform } from '../../src/signal/waveform.js';
import { yearsOf } from '../../src/units/age.js';
import { hertz, seconds } from '../../src/units/brands.js';
import type { Language } from '../../src/words/language.js';
import { demo, demoVeil } from '../facts/demo.js';
import { accepted } from '../record/sample.js';
import { hasProgram } from './programs.js';

const folder = mkdtempSync(join(tmpdir(), 'pack-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const english = demo.content.languages.get('en') as Language;
const bytesOf = (path: string) => good(new Uint8Array(readFileSync(path)));

/** The pack of a case, written to a folder of its own. */
function packed(loaded: LoadedCase) {
  const facts = publicFacts(loaded.facts, demoVeil(loaded));
  if (!facts) throw new Error(`${loaded.name} is not published`);
  const pack = packOf(facts, loaded.strips, english, false);
  const at = mkdtempSync(join(folder, `${loaded.name}-`));
  for (const { name, bytes } of pack.files) writeFileSync(join(at, name), bytes);
  const text = (name: string) => readFileSync(join(at, name), 'utf8');
  return { facts, pack, at, text };
}

const packs = demo.cases.map((loaded) => [loaded.name, loaded, packed(loaded)] as const);

/** The patient as the strip of a case was read for. */
const patientOf = ({ facts: { patient } }: LoadedCase): Patient => {
  return {
    species: patient.species.value,
    weight: patient.weight.value,
    ageYears: yearsOf(patient.age.value),
    anesthetised: true,
  };
};

function analysed(waveform: Waveform, lead: string, loaded: LoadedCase) {
  const leads = accepted(ecgLeads(waveform, lead, { file: 'pack' }));
  return analyseStrip(leads, {
    patient: patientOf(loaded),
    breath: { ...waveform, ventilatorRate: loaded.facts.anesthesia.ventilatorRate.value },
  });
}

describe.each(packs)('the pack of %s', (_, loaded, { facts, pack, at, text }) => {
  const record = JSON.parse(text('record.json'));

  it('follows the JSON Schema that is published beside it', () => {
    const validate = new Ajv2020({ strict: false }).compile(recordJsonSchema());
    expect(validate(record) ? [] : validate.errors).toEqual([]);
    expect(validate({ ...record, owner: 'somebody' })).toBe(false);
  });

  it('gives this program the same vitals', () => {
    const begin =
      Temporal.PlainDateTime.from('2001-01-01T00:00').toZonedDateTime('America/Chicago');
    const table = accepted(readVitals(text('vitals.csv'), 'vitals.csv', begin));
    for (const { channel, patient } of facts.vitals.channels) {
      if (patient.some(({ computed }) => computed)) continue;
      const read = table.rows.flatMap(({ minute, values }) =>
        values[channel] === undefined ? [] : [[minute, values[channel]]],
      );
      expect(read, channel).toEqual(patient.map(({ minute, value }) => [minute, value]));
    }
  });

  it.each(['edf', 'hea'])('gives this program the same beats and rhythm from %s', (ending) => {
    for (const [index, strip] of loaded.strips.entries()) {
      const waveform = accepted(readWaveform(join(at, `ecg_${index + 1}.${ending}`), bytesOf));
      const again = analysed(waveform, record.strips[index].lead, loaded);
      const { beats, rate, rhythms } = strip.analysis;
      expect(again.beats.map(({ kind }) => kind)).toEqual(beats.map(({ kind }) => kind));
      for (const [i, { time }] of beats.entries()) {
        expect(Math.abs((again.beats[i]?.time ?? -1) - time)).toBeLessThan(0.003);
      }
      expect(again.rhythms.map(({ name }) => name)).toEqual(rhythms.map(({ name }) => name));
      expect(again.rate?.mean).toBeCloseTo(rate?.mean ?? -1, 1);
      // WFDB holds the leads alone; the breath channels are in the EDF+.
      if (ending === 'edf') {
        expect(again.breath.verdict).toBe(strip.analysis.breath.verdict);
        expect(again.breath.source).toBe(strip.analysis.breath.source);
      }
    }
  });

  it('tells no date: EDF+ header made anonymous (EDF+, 2.1.3), WFDB without base time', () => {
    for (const index of loaded.strips.keys()) {
      const header = readFileSync(join(at, `ecg_${index + 1}.edf`)).toString('latin1', 0, 256);
      expect(header.slice(8, 88)).toBe('X X X X'.padEnd(80));
      expect(header.slice(88, 168)).toBe('Startdate X X X X'.padEnd(80));
      expect(header.slice(168, 184)).toBe('01.01.8500.00.00');
      const [line = ''] = text(`ecg_${index + 1}.hea`).split('\n');
      expect(line.split(' ')).toHaveLength(4);
      for (const name of [`ecg_${index + 1}.edf`, `ecg_${index + 1}.hea`]) {
        expect(accepted(readWaveform(join(at, name), bytesOf)).startsAt).toBeNull();
      }
    }
    const year = loaded.facts.surgery.date.value.slice(0, 4);
    for (const { name, bytes } of pack.files) {
      expect(Buffer.from(bytes).toString('latin1'), name).not.toContain(`${year}-`);
    }
  });

  it('asks what the record page asks, and keeps the answers apart', () => {
    const questions = text('questions.txt');
    const answers = new TextDecoder().decode(pack.answers);
    const numbered = questions.split('\n').filter((line) => /^\d+\. /.test(line));
    expect(numbered.length).toBeGreaterThan(3);
    for (const line of numbered) expect(answers).toContain(line);
    expect(pack.files.map(({ name }) => name).join()).not.toContain('answers');
  });

  it('gives no more digits of a dose than the page, so that it does not give the weight back', () => {
    for (const { perKilogram } of record.anesthesia.drugs) {
      expect(Number(perKilogram.value.toPrecision(2))).toBe(perKilogram.value);
    }
    expect(record.patient.weight).toBe(facts.patient.roundedWeight);
  });

  it.skipIf(!hasProgram('python3'))('is read by the CSV and JSON readers of Python', () => {
    const script = `
import csv, json, sys
rows = list(csv.reader(open(sys.argv[1] + '/vitals.csv', newline='')))
record = json.load(open(sys.argv[1] + '/record.json'))
column = rows[0].index('heart rate [/min]')
print(json.dumps([len(rows) - 1, sum(float(r[column]) for r in rows[1:] if r[column]), record['case']]))`;
    const [count, sum, name] = JSON.parse(
      execFileSync('python3', ['-c', script, at]).toString(),
    ) as [number, number, string];
    const rate = facts.vitals.channels.find(({ channel }) => channel === 'heart rate');
    expect(count).toBe(parse(text('vitals.csv')).length - 1);
    expect(sum).toBeCloseTo(rate?.patient.reduce((all, { value }) => all + value, 0) ?? 0, 6);
    expect(name).toBe(facts.pseudonym);
  });
});

describe.skipIf(!hasProgram('save2gdf'))('BioSig', () => {
  const dump = (source: string, target: string) =>
    execFileSync('save2gdf', ['-f=ASCII', source, join(folder, `${target}.txt`)], {
      env: { ...process.env, TZ: 'UTC' },
      stdio: 'pipe',
    });

  it.each(packs)('reads the EDF+ of %s to the same samples', (name, loaded, { at }) => {
    dump(join(at, 'ecg_1.edf'), name);
    const file = join(folder, `${name}.a01`);
    expect(existsSync(file)).toBe(true);
    const values = readFileSync(file, 'utf8').trim().split('\n').map(Number);
    const { samples } = (loaded.strips[0] as ReadStrip).lead;
    const most = samples.reduce((all, value) => Math.max(all, Math.abs(value)), 0);
    expect(values.length).toBe(samples.length);
    for (const [i, value] of values.entries()) {
      // Half a step of 16 bits over the range, and the six digits of the dump.
      expect(Math.abs(value - (samples[i] as number))).toBeLessThan((1.2 * most) / 65_000 + 1e-5);
    }
  });

  it.each(packs.filter(([, { strips }]) => (strips[0] as ReadStrip).waveform.format !== 'WFDB'))(
    'reads the WFDB record of %s, which has one lead, to the same samples',
    (name, loaded, { at }) => {
      dump(join(at, 'ecg_1.hea'), `${name}-wfdb`);
      const values = readFileSync(join(folder, `${name}-wfdb.a01`), 'utf8')
        .trim()
        .split('\n');
      const { samples } = (loaded.strips[0] as ReadStrip).lead;
      expect(values.length).toBe(samples.length);
      for (const [i, value] of values.entries()) {
        expect(Math.abs(Number(value) - (samples[i] as number))).toBeLessThan(1e-3);
      }
    },
  );
});

describe('a strip', () => {
  const wave = (length: number, at = 250) =>
    Float64Array.from({ length }, (_, i) => Math.sin(i / (at / 10)));
  const strip = (labels: readonly string[], length = 2500, rate = 250): ReadStrip => {
    const channels = labels.map((label) => ({
      label,
      unit: 'mV',
      samplingRate: hertz(rate),
      samples: wave(length, rate),
    }));
    return inTrade({
      format: 'CSV',
      channels,
      annotations: [
        { onset: seconds(1), duration: null, text: 'Breath 3' },
        { onset: seconds(2), duration: null, text: 'Juniper moved, Dr. Farrow' },
      ],
      startsAt: '2026-03-10T10:05:00',
      duration: seconds(length / rate),
    });
  };
  /** A strip whose first channel is read, as the reading of a case hands it on. */
  const inTrade = (written: Waveform): ReadStrip => {
    const { waveform } = inTradeNames(written, written.channels[0]?.label as string);
    return {
      waveform,
      lead: waveform.channels[0] as Channel,
      analysis: { beats: [] } as unknown as ReadStrip['analysis'],
    };
  };

  it('loses labels and remarks that may hold a name, and keeps the marks of breaths', () => {
    const { channels, edf, hea } = stripFiles(
      strip(['MLII', 'Juniper ear', 'V10', 'V11', 'Resp. Farrow', 'avf', 'Lead II', 'II']),
      'ecg_1',
    );
    expect(channels).toEqual(['ECG II', 'ECG V10', 'Resp', 'ECG aVF', 'ECG II (2)', 'ECG II (3)']);
    const bytes = `${Buffer.from(edf as Uint8Array).toString('latin1')}${Buffer.from(hea)}`;
    expect(bytes).not.toMatch(/Juniper|Farrow|2026|MAR/);
    expect(bytes).toContain('+1\x14breath\x14');
    expect(bytes).not.toContain('+2\x14J');
  });

  it('keeps channels of pulse and breath under names that this program still finds them by', () => {
    const labels = ['II', 'P1 arterial Juniper', 'PPG left ear', 'etCO2', 'CVP', 'Vent 3'];
    const one = strip(['II']);
    const units = ['mV', 'mmHg', '', 'mmHg', 'mmHg', 'cmH2O'];
    const channels = labels.map((label, i) => ({
      ...(one.waveform.channels[0] as Channel),
      label,
      unit: units[i] as string,
    }));
    const files = stripFiles(inTrade({ ...one.waveform, channels }), 'ecg_1');
    expect(files.channels).toEqual(['ECG II', 'ABP', 'Pleth', 'CO2', 'Airway pressure']);
    const read = accepted(readEdf(files.edf as Uint8Array, 'ecg_1.edf'));
    expect(read.channels.map(({ label }) => label)).toEqual(files.channels);
    expect(read.channels.filter(isArterialPressure).map(({ label }) => label)).toEqual(['ABP']);
    expect(read.channels.filter(isPlethysmogram).map(({ label }) => label)).toEqual(['Pleth']);
  });

  it('of a lead with a name of its own becomes plain "ECG"', () => {
    expect(stripFiles(strip(["Juniper's lead"]), 'ecg_1').channels).toEqual(['ECG']);
  });

  it.each([
    [2500, 250, 0],
    [2525, 250, 0],
    [2501, 250, 0.004],
    [1280, 128, 0],
    [3603, 360, 3 / 360],
  ])('of %i samples at %i Hz leaves %f s out of its EDF+', (length, rate, left) => {
    const { cut, edf } = stripFiles(strip(['II'], length, rate), 'ecg_1');
    expect(edf).not.toBeNull();
    expect(cut).toBeCloseTo(left, 9);
  });

  it('with a missing sample has no EDF+, which cannot hold one, but WFDB', () => {
    const one = strip(['II']);
    one.lead.samples[7] = Number.NaN;
    const { edf, hea, dat } = stripFiles(one, 'ecg_1');
    expect(edf).toBeNull();
    writeFileSync(join(folder, 'ecg_1.hea'), hea);
    writeFileSync(join(folder, 'ecg_1.dat'), dat);
    const read = accepted(readWaveform(join(folder, 'ecg_1.hea'), bytesOf));
    expect(read.channels[0]?.samples[7]).toBeNaN();
    expect(read.channels[0]?.samples[8]).toBeCloseTo(one.lead.samples[8] as number, 3);
  });
});

describe('the vitals file', () => {
  it('holds nothing that a table program takes for a formula, whatever the readings (OWASP, CSV injection)', () => {
    const value = fc.double({ min: -1e7, max: 1e7, noNaN: true });
    fc.assert(
      fc.property(fc.array(fc.tuple(value, value)), (pairs) => {
        const patient = pairs.map(([minute, value], line) => ({ minute, value, line }));
        const channel: ChannelFacts = {
          channel: 'heart rate',
          unit: '/min',
          patient,
          apart: [],
          spread: notKnown('not asked'),
        };
        for (const row of parse(vitalsCsv([channel])) as string[][]) {
          for (const cell of row) {
            expect(cell).toMatch(/^(-?\d+(\.\d+)?|elapsed \[min\]|heart rate \[\/min\])?$/);
          }
        }
      }),
    );
  });
});
