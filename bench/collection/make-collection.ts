import { cpSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Document, parseDocument, type YAMLMap } from 'yaml';
import { writeEdf } from '../../src/publish/pack/write-edf.js';
import { makeNoise, withNoise } from '../../tests/synth/noise.js';
import { type Random, randomFrom } from '../../tests/synth/random.js';
import { renderLead } from '../../tests/synth/render.js';
import { RHYTHMS, type RhythmName } from '../../tests/synth/rhythms/index.js';

// What cases are drawn from: invented, and no clinical numbers.

const SECONDS = 60;
const SAMPLING_RATE = 250;
/** Weeks that a case is moved by at most: the day of the week stays, so every appointment finds an open day. */
const WEEKS = 150;

const RHYTHM_NAMES: readonly RhythmName[] = [
  'sinus',
  'sinus',
  'sinus-bradycardia',
  'sinus-tachycardia',
  'breath-linked-sinus',
  'tall-t-sinus',
  'sinus-pause',
  'av-block-second-fixed',
  'supraventricular-premature',
  'atrial-fibrillation',
  'ventricular-singles',
  'ventricular-bigeminy',
  'idioventricular',
];
const SYLLABLES = ['quor', 'vex', 'thal', 'mizz', 'gorn', 'pliv', 'dwerr', 'zuk', 'frolt', 'yand'];
const STREETS = ['Tannery Row', 'Weir Bank', 'Kiln Brow', 'Osier Steps', 'Lantern Hill'];

/**
 * Writes a clinic's folder with so many valid cases, each unlike the others: people, numbers, days, weight of the
 * readings, rhythm of a strip of one minute. The same count and seed give the same bytes.
 * @param patterns a clinic's folder whose cases they are varied from, in turn
 */
export function makeCollection(patterns: string, folder: string, count: number, seed = 1): void {
  mkdirSync(join(folder, 'cases'), { recursive: true });
  cpSync(join(patterns, 'formulary.yaml'), join(folder, 'formulary.yaml'));
  writeFileSync(
    join(folder, 'clinic.yaml'),
    // Enough cases to hide among: the exception of the pattern is left out.
    readFileSync(join(patterns, 'clinic.yaml'), 'utf8').replace(
      / {2}at least: 1\n {2}because: .*\n/,
      '  at least: 5\n',
    ),
  );
  const names = readdirSync(join(patterns, 'cases')).sort();
  for (let index = 0; index < count; index++) {
    const pattern = names[index % names.length] as string;
    const name = `case-${String(index + 1).padStart(5, '0')}`;
    writeCase(join(patterns, 'cases', pattern), join(folder, 'cases', name), index, seed);
  }
}

function writeCase(pattern: string, folder: string, index: number, seed: number): void {
  const random = randomFrom(seed * 1_000_003 + index);
  mkdirSync(folder, { recursive: true });
  cpSync(join(pattern, 'teaching.md'), join(folder, 'teaching.md'));
  const weeks = Math.floor(random.between(0, WEEKS));
  const record = parseDocument(
    readFileSync(join(pattern, 'case.yaml'), 'utf8').replace(/\b\d{4}-\d{2}-\d{2}\b/g, (day) =>
      dayAfter(day, weeks),
    ),
  );
  rename(record, index, random);
  (record.getIn(['monitor']) as YAMLMap).set(
    'strips',
    record.createNode([{ file: 'strip.edf', lead: 'II' }]),
  );
  writeFileSync(join(folder, 'case.yaml'), String(record));
  writeFileSync(join(folder, 'vitals.csv'), varied(join(pattern, 'vitals.csv'), random));
  const begin = String(record.getIn(['anesthesia', 'begin']));
  const date = String(record.getIn(['surgery', 'date']));
  writeFileSync(
    join(folder, 'strip.edf'),
    stripOf(record.getIn(['patient', 'species']) === 'cat' ? 'cat' : 'dog', {
      startsAt: `${date}T${minutesAfter(begin, 12)}:00`,
      seed: seed * 7919 + index,
      random,
    }),
  );
}

/** Gives a case its own people, numbers and address. */
function rename(record: Document, index: number, random: Random): void {
  const word = (syllables: number) => {
    const letters = Array.from({ length: syllables }, () => oneOf(SYLLABLES, random)).join('');
    return letters.slice(0, 1).toUpperCase() + letters.slice(1);
  };
  const [given, family] = [word(2), word(3)];
  const owner = `${given} ${family}`;
  const digits = String(index).padStart(6, '0');
  const set = (path: string[], value: unknown) => {
    if (record.hasIn(path)) record.setIn(path, value);
  };
  set(['record'], `X${digits}`);
  set(['patient', 'name'], word(2));
  set(['patient', 'microchip'], `999113${digits}${digits.slice(0, 3)}`);
  set(['owner', 'name'], owner);
  set(['owner', 'phone'], `555 ${digits.slice(0, 3)} ${digits.slice(3)}`);
  set(['owner', 'email'], `${given}.${family}@post.example`.toLowerCase());
  set(['owner', 'address'], `${index + 1} ${oneOf(STREETS, random)}, Alder Crossing`);
  for (const kind of ['teaching', 'record', 'photos', 'questions']) {
    set(['consent', kind, 'by'], owner);
  }
  set(['published', 'address'], `${String(record.getIn(['published', 'address']))}-${index + 1}`);
  record.deleteIn(['photos']);
}

/** Every reading moves a little, each column in one direction and each cell by itself, as no two patients read alike. */
function varied(file: string, random: Random): string {
  const [head = '', ...rows] = readFileSync(file, 'utf8').trimEnd().split('\n');
  const factors = head.split(',').map(() => random.between(0.98, 1.02));
  return [
    head,
    ...rows.map((row) =>
      row
        .split(',')
        .map((cell, column) =>
          /^\d+$/.test(cell)
            ? String(Math.round(Number(cell) * (factors[column] ?? 1) + random.between(-1, 1)))
            : cell,
        )
        // Not above what the sensor can read.
        .map((cell, column) =>
          /SpO2/.test(head.split(',')[column] ?? '') && Number(cell) > 100 ? '100' : cell,
        )
        .join(','),
    ),
    '',
  ].join('\n');
}

function stripOf(
  species: 'cat' | 'dog',
  { startsAt, seed, random }: { startsAt: string; seed: number; random: Random },
): Uint8Array {
  const plan = RHYTHMS[oneOf(RHYTHM_NAMES, random)]({ species, duration: SECONDS, seed });
  const clean = renderLead(plan, SAMPLING_RATE, 'II');
  const options = { length: clean.length, samplingRate: SAMPLING_RATE, random };
  const samples = withNoise(
    clean,
    makeNoise('wander', { ...options, amplitude: 0.04 }),
    makeNoise('mains', { ...options, amplitude: 0.008 }),
  );
  return writeEdf({
    startsAt,
    signals: [
      {
        label: 'ECG II',
        unit: 'mV',
        samplingRate: SAMPLING_RATE,
        samples,
        physicalMin: -10,
        physicalMax: 10,
        digitalMin: -32000,
        digitalMax: 32000,
      },
    ],
  });
}

const oneOf = <T>(all: readonly T[], random: Random): T =>
  all[Math.floor(random.next() * all.length)] as T;

const dayAfter = (day: string, weeks: number): string =>
  new Date(Date.parse(`${day}T00:00:00Z`) + weeks * 7 * 86_400_000).toISOString().slice(0, 10);

function minutesAfter(clock: string, minutes: number): string {
  const [hours = 0, begun = 0] = clock.split(':').map(Number);
  const all = hours * 60 + begun + minutes;
  return `${String(Math.floor(all / 60)).padStart(2, '0')}:${String(all % 60).padStart(2, '0')}`;
}
