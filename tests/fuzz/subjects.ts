import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { createCanvas } from '@napi-rs/canvas';
import { Temporal } from 'temporal-polyfill';
import { parse, stringify } from 'yaml';
import { goesHome } from '../../src/facts/case-facts.js';
import { publicFacts } from '../../src/privacy/public-facts.js';
import { veilOf } from '../../src/privacy/veil.js';
import { clearCase } from '../../src/publish/clear-case.js';
import { loadContent } from '../../src/publish/content.js';
import { disk } from '../../src/publish/disk.js';
import type { Effects } from '../../src/publish/effects.js';
import { house } from '../../src/publish/house.js';
import { loadCase } from '../../src/publish/load-case.js';
import { photoImage } from '../../src/publish/photo.js';
import { proposeForm } from '../../src/record/monitor-table/propose-form.js';
import { readTable } from '../../src/record/monitor-table/read-table.js';
import { tableForm } from '../../src/record/monitor-table/table-form.js';
import { bad, good, type Outcome } from '../../src/record/problem.js';
import { readClinic, readFormulary } from '../../src/record/read-case.js';
import { readVitals } from '../../src/record/vitals-file.js';
import { analyseStrip } from '../../src/signal/analyse.js';
import { ecgLeads } from '../../src/signal/ecg-lead.js';
import { readWaveform } from '../../src/signal/files/read.js';
import type { Language } from '../../src/words/language.js';
import { markdownBlocks } from '../../src/words/markdown.js';
import { calendarEntries } from '../../src/words/owner/calendar-entries.js';
import { ownerSheet } from '../../src/words/owner/owner-sheet.js';
import { anesthesiaRecord, teachingPage } from '../../src/words/teaching/documents.js';
import { changedBytes, changedText, changedValue } from './mutate.js';
import type { Random } from './random.js';

/** A reader of the user's files, with files to start from. */
export interface Subject {
  readonly name: string;
  /** One input and what comes of it; anything thrown is a bug. */
  readonly run: (random: Random) => Outcome<unknown> | Promise<Outcome<unknown>>;
}

const demo = join(house.root, 'demo-data');
const read = (...path: string[]) => readFileSync(join(demo, ...path));
const CASES = readdirSync(join(demo, 'cases')).sort();
const files = (ending: string) =>
  CASES.flatMap((name) =>
    readdirSync(join(demo, 'cases', name))
      .filter((file) => file.endsWith(ending))
      .map((file) => new Uint8Array(read('cases', name, file))),
  );
const nothing = disk(() => {});
const content = loadContent(house.content, nothing);
if (!content.ok) throw new Error('the words cannot be read');
const { keys, languages } = content.value;
const english = languages.get('en') as Language;
const clinicText = read('clinic.yaml').toString();
const clinic = readClinic(clinicText, 'clinic.yaml', keys);
const formulary = readFormulary(read('formulary.yaml').toString(), 'formulary.yaml');
if (!clinic.ok || !formulary.ok) throw new Error('the demo clinic cannot be read');
const begin = Temporal.PlainDateTime.from('2026-04-21T13:20').toZonedDateTime('America/Chicago');

const utf8 = new TextDecoder('utf-8', { fatal: true });
const ofText =
  (samples: readonly Uint8Array[], reader: (text: string) => Outcome<unknown>): Subject['run'] =>
  (random) => {
    const text = Buffer.from(random.pick(samples)).toString();
    if (random.chance(0.8)) return reader(changedText(text, random));
    try {
      return reader(utf8.decode(changedBytes(random.pick(samples), random)));
    } catch (error) {
      // What is not UTF-8 is refused before a reader sees it.
      if (error instanceof TypeError && /encoded data/.test(error.message)) return good(null);
      throw error;
    }
  };

const waveform =
  (name: string, others: Readonly<Record<string, Uint8Array>>) => (bytes: Uint8Array) => {
    const outcome = readWaveform(name, (path) => {
      const named = basename(path);
      const other = Object.hasOwn(others, named) ? others[named] : undefined;
      const found = path === name ? bytes : other;
      return found
        ? good(found)
        : bad({
            kind: 'no such file',
            file: path,
            found: 'no such file',
            expected: 'a file',
            mend: 'Put it there.',
          });
    });
    // Most changes leave a long strip whole: a short one is analysed, so that many inputs can be tried.
    const leads = outcome.ok
      ? ecgLeads(outcome.value, outcome.value.channels[0]?.label ?? 'II', { file: name })
      : outcome;
    if (!leads.ok) return leads;
    const [lead] = leads.value;
    if (lead.samples.length > 0 && lead.samples.length <= 8 * lead.samplingRate) {
      analyseStrip([lead], {
        patient: { species: 'dog', weight: 18 as never, ageYears: 4, anesthetised: true },
        breath: { annotations: [], channels: [], ventilatorRate: null },
      });
    }
    return outcome;
  };

/** The folder of a case, one of its files changed. */
function caseWith(name: string, changed: string, text: string): Effects {
  const folder = join(demo, 'cases', name);
  return {
    ...nothing,
    readBytes: (path) =>
      path === join(folder, changed)
        ? good(new TextEncoder().encode(text))
        : nothing.readBytes(path),
  };
}

/** The record of a case without its strips, which cost most of the time. */
const withoutStrips = CASES.map((name) => {
  const record = parse(read('cases', name, 'case.yaml').toString()) as {
    monitor: { strips?: unknown };
  };
  delete record.monitor.strips;
  return record;
});

/** From the record to all words of all documents; only printing is left out. */
function wholeCase(random: Random): Outcome<unknown> {
  const index = random.below(CASES.length);
  const name = CASES[index] as string;
  const sound = withoutStrips[index];
  const text = random.chance(0.7)
    ? stringify(changedValue(sound, random))
    : changedText(stringify(sound), random);
  const loaded = loadCase(
    join(demo, 'cases', name),
    clinic.ok ? clinic.value.value : (undefined as never),
    keys,
    caseWith(name, 'case.yaml', text),
    formulary.ok ? formulary.value.value : null,
  );
  if (!loaded.ok) return loaded;
  const { facts, standing } = loaded.value;
  const language = languages.get(facts.identity.owner.language) as Language;
  if (goesHome(facts)) {
    ownerSheet(facts, language, [], standing.sheet, null);
    calendarEntries(facts, language, standing.sheet);
  }
  const cleared = clearCase(loaded.value, english.learner);
  if (!cleared.ok) return cleared;
  const told = { breed: null, ageBand: null, sex: false };
  const veil = {
    ...veilOf(facts.identity.record, () => new Uint8Array(32).fill(7)),
    region: null,
    told,
    say: cleared.value.say,
  };
  const shared = publicFacts(facts, veil);
  if (shared) {
    const none = { kind: 'drawing' as const, drawing: { width: 1, height: 1, marks: [] } };
    const figures = {
      vitals: none,
      heart: none,
      strips: [],
      exercises: {},
      photos: [],
    };
    teachingPage(shared, '', english, figures, 'A4');
    anesthesiaRecord(shared, english, figures, 'A4');
  }
  return good(null);
}

const photo = (type: 'image/png' | 'image/jpeg'): Uint8Array => {
  const canvas = createCanvas(40, 30);
  const context = canvas.getContext('2d');
  context.fillStyle = '#a2b3c4';
  context.fillRect(0, 0, 40, 30);
  context.fillStyle = '#102030';
  context.fillText('x', 9, 19);
  return new Uint8Array(type === 'image/png' ? canvas.toBuffer(type) : canvas.toBuffer(type, 80));
};
const photos = [photo('image/png'), photo('image/jpeg')];
/** A column for each channel, one reading a line, columns of fixed width, and a clock of twelve hours. */
const tables = [
  'Room 4\nDate;Time;HR (bpm);NIBP mmHg;T °C\n21.04.2026;13:20;104;120/78 (92);38,6\n21.04.2026;13:25;98;---;38,5\n',
  'Time,Name,Value,Unit\n13:20:00,HR,104,bpm\n13:20:00,T1,38.6,°C\n13:20:00,PVC,0,/min\n13:25:00,HR,98,bpm\n13:25:00,NIBP,120/78 (92),mmHg\n',
  'Room 4\nTime       HR  SpO2  T °C\n13:20:00  104    97  38.6\n13:25:00   98        38.5\n13:30:00         98  38.4\n',
  'Time|HR|etCO2\n12:50|104|38\n12:55|98|37\n1:05|101|39\n1:10|99|40\n',
].map((text) => new TextEncoder().encode(text));
/** A table cut short: its titles and a few hundred lines. */
const short = (bytes: Uint8Array) => bytes.subarray(0, 6000);

/** An EDF file of its first seconds alone, which its header states (EDF 1992: bytes 184 and 236 of the header). */
function shortEdf(bytes: Uint8Array): Uint8Array {
  const field = (at: number) => Number(Buffer.from(bytes.subarray(at, at + 8)).toString());
  const [header, records] = [field(184), field(236)];
  const kept = Math.min(records, 6);
  const cut = Buffer.from(bytes.subarray(0, header + (kept * (bytes.length - header)) / records));
  cut.write(String(kept).padEnd(8), 236, 'latin1');
  return new Uint8Array(cut);
}

/** A WFDB record of its first samples alone, which its header states. */
const wfdb = (() => {
  const hea = Buffer.from(files('.hea')[0] as Uint8Array).toString();
  const [first = '', ...rest] = hea.split('\n');
  const words = first.split(/\s+/);
  const kept = 1200;
  const head = [words[0], words[1], words[2], kept, ...words.slice(4)].join(' ');
  // The sums in the header are those of the whole record.
  const lines = rest.map((line) => line.split(' ').slice(0, 6).join(' '));
  const share = kept / Number(words[3]);
  const dat = files('.dat')[0] as Uint8Array;
  return { hea: [head, ...lines].join('\n'), dat: dat.subarray(0, dat.length * share) };
})();

const edfs = files('.edf').map(shortEdf);

export const SUBJECTS: readonly Subject[] = [
  {
    name: 'clinic',
    run: ofText([new Uint8Array(read('clinic.yaml'))], (text) =>
      readClinic(text, 'clinic.yaml', keys),
    ),
  },
  {
    name: 'formulary',
    run: ofText([new Uint8Array(read('formulary.yaml'))], (text) =>
      readFormulary(text, 'formulary.yaml'),
    ),
  },
  { name: 'case', run: wholeCase },
  {
    name: 'vitals',
    run: ofText(files('vitals.csv'), (text) => readVitals(text, 'vitals.csv', begin)),
  },
  {
    name: "a monitor's table",
    run: (random) => {
      const table = random.pick(tables);
      const bytes = random.chance(0.5)
        ? new TextEncoder().encode(changedText(Buffer.from(table).toString(), random))
        : changedBytes(table, random);
      const proposed = proposeForm(bytes, 'table.csv', 'x');
      if (!proposed.ok) return proposed;
      // What is proposed is always a form.
      return readTable(bytes, 'table.csv', begin, tableForm.parse(proposed.value.form));
    },
  },
  {
    name: 'EDF',
    run: (random) => waveform('a.edf', {})(changedBytes(random.pick(edfs), random)),
  },
  {
    name: 'WFDB',
    run: (random) =>
      random.chance(0.6)
        ? waveform('strip.hea', { 'strip.dat': wfdb.dat })(
            new TextEncoder().encode(changedText(wfdb.hea, random)),
          )
        : waveform('strip.hea', { 'strip.dat': changedBytes(wfdb.dat, random) })(
            new TextEncoder().encode(wfdb.hea),
          ),
  },
  {
    name: 'ECG as CSV',
    run: ofText(files('strip.csv').map(short), (text) =>
      waveform('a.csv', {})(new TextEncoder().encode(text)),
    ),
  },
  { name: 'Markdown', run: ofText(files('teaching.md'), (text) => good(markdownBlocks(text))) },
  {
    name: 'photo',
    run: (random) => photoImage(changedBytes(random.pick(photos), random), 'photo.jpg'),
  },
];

if (!existsSync(demo)) throw new Error('the demo is not there');
