import { createHash } from 'node:crypto';
import { basename, join } from 'node:path';
import type { Temporal } from 'temporal-polyfill';
import { type Part, partOf } from '../facts/asked.js';
import { buildFacts, type ReadStrip } from '../facts/build-facts.js';
import type { CaseFacts } from '../facts/case-facts.js';
import { ageOn } from '../facts/patient.js';
import { pulseReadings } from '../facts/pulse-readings.js';
import { timelineOf } from '../facts/timeline.js';
import type { BesideFacts } from '../privacy/identifiers.js';
import { type Decision, type FreeText, paragraphsOf } from '../privacy/passages.js';
import type { CaseText, ContentKeys } from '../record/case-schema.js';
import type { Clinic } from '../record/clinic-schema.js';
import type { Formulary } from '../record/formulary-schema.js';
import { readTable } from '../record/monitor-table/read-table.js';
import { nearest } from '../record/nearest.js';
import { bad, good, type Outcome, type Place, type Problem } from '../record/problem.js';
import { readCase } from '../record/read-case.js';
import { readVitals, type VitalsTable } from '../record/vitals-file.js';
import type { Located } from '../record/yaml-file.js';
import { analyseStrip } from '../signal/analyse.js';
import { ecgLeads } from '../signal/ecg-lead.js';
import { readWaveform } from '../signal/files/read.js';
import type { Patient } from '../signal/marked-beat.js';
import { toKilogram } from '../units/convert.js';
import { type CaseStanding, readStanding } from './approval.js';
import { calendarAddress } from './calendar-address.js';
import { type Effects, readText } from './effects.js';
import { whereNamed } from './where-named.js';

/** A case with all that its documents need. */
export interface LoadedCase {
  /** Name of the case folder. */
  readonly name: string;
  /** Path of its `case.yaml`. */
  readonly file: string;
  /** Where the record names what no two cases may share. */
  readonly places: Readonly<Record<'record' | 'address' | 'vitals' | 'surgery', Place>>;
  /** SHA-256 of the vitals file, which no two patients share; null where it holds no reading. */
  readonly vitalsDigest: string | null;
  readonly facts: CaseFacts;
  readonly strips: readonly ReadStrip[];
  /** The author's remarks for the teaching page, Markdown. */
  readonly remarks: string;
  readonly photos: readonly PhotoFile[];
  /** The author's own words that would be public. */
  readonly freeTexts: readonly FreeText[];
  readonly decisions: readonly Decision[];
  readonly notes: Notes;
  readonly standing: CaseStanding;
  /** Where the owner finds the calendar file; null where the clinic puts none online. */
  readonly calendarAddress: string | null;
  /** Where characters stand in the record that few letters are made for. */
  readonly rare: readonly RareCharacter[];
  /** What the search for identifiers needs of the record and its folder. */
  readonly beside: BesideFacts;
}

/** What an author wrote in a record, for whomever it is, each text with its place. */
interface Notes {
  readonly texts: readonly { readonly text: string; readonly place: Place }[];
  /** Names of the case itself. */
  readonly own: readonly string[];
  /** Where it is answered why another patient is named. */
  readonly answeredIn: Part;
}

/** The first place of a character in a record. */
interface RareCharacter extends Required<Pick<Place, 'file' | 'line' | 'column'>> {
  readonly character: string;
}

/** A photo as it lies in the case folder. */
export interface PhotoFile {
  readonly file: string;
  /** Where the record names it. */
  readonly place: Place;
  readonly bytes: Uint8Array;
  readonly shows: string;
  readonly on: readonly ('owner sheet' | 'teaching page')[];
}

export interface Reading {
  /** Without strips, the facts say nothing of them. */
  readonly extent?: 'whole' | 'without strips';
  /** Finds what is on a strip; whoever reads a case over and over may remember it. */
  readonly analyse?: typeof analyseStrip;
}

const NO_READINGS: VitalsTable = { channels: [], rows: [] };

/**
 * Reads a case folder; all problems of the case are listed at once.
 */
export function loadCase(
  folder: string,
  clinic: Clinic,
  keys: ContentKeys,
  effects: Effects,
  formulary: Formulary | null = null,
  { extent = 'whole', analyse = analyseStrip }: Reading = {},
): Outcome<LoadedCase> {
  const caseFile = join(folder, 'case.yaml');
  const text = readText(effects, caseFile);
  if (!text.ok) return text;
  const record = readCase(text.value, caseFile, keys);
  if (!record.ok) return record;
  const { value, at } = record.value;
  const problems: Problem[] = [];
  const collect = <T>(outcome: Outcome<T>): T | undefined => {
    if (outcome.ok) return outcome.value;
    problems.push(...outcome.problems);
    return undefined;
  };

  /** The path of a file that the record names; one that is not there is a problem of the line that names it. */
  const beside = (name: string, ...field: (string | number)[]): string | undefined => {
    const path = join(folder, name);
    if (effects.exists(path)) return path;
    problems.push({
      kind: 'a file that the record names is not there',
      ...at(...field),
      found: `"${name}", which is not in the case folder`,
      expected: 'the name of a file in the case folder',
      mend: 'Put the file there, or mend its name.',
    });
    return undefined;
  };

  /** Files as they are read that the record names at a place. */
  const reading = (place: Place): Pick<Effects, 'readBytes'> => ({
    readBytes: (path) => whereNamed(effects.readBytes(path), place),
  });
  const vitalsFile = beside(value.monitor.vitals, 'monitor', 'vitals');
  const begin = timelineOf(value, clinic['time zone']).begin;
  let vitalsDigest: string | null = null;
  const readVitalsFile = (path: string) => {
    const bytes = reading(at('monitor', 'vitals')).readBytes(path);
    if (bytes.ok) vitalsDigest = createHash('sha256').update(bytes.value).digest('hex');
    return bytes;
  };
  const vitals =
    vitalsFile === undefined
      ? undefined
      : collect(
          readMonitor(vitalsFile, record.value, clinic, begin, { readBytes: readVitalsFile }),
        );
  const named = extent === 'whole' ? value.monitor.strips : [];
  const strips = named.map((strip, index): ReadStrip | undefined => {
    const file = beside(strip.file, 'monitor', 'strips', index, 'file');
    if (file === undefined) return undefined;
    const rate = strip['sampling rate'];
    const waveform = collect(
      readWaveform(
        file,
        reading(at('monitor', 'strips', index, 'file')).readBytes,
        rate ? { samplingRate: rate.value } : {},
      ),
    );
    if (!waveform) return undefined;
    const leads = collect(ecgLeads(waveform, strip.lead, at('monitor', 'strips', index, 'lead')));
    return (
      leads && {
        waveform,
        lead: leads[0],
        analysis: analyse(leads, {
          patient: stripPatient(value),
          breath: {
            ...waveform,
            ventilatorRate: value.anesthesia['ventilator rate']?.value ?? null,
          },
          pulse: {
            channels: waveform.channels,
            readings: pulseReadings(
              record.value,
              index,
              waveform,
              vitals ?? NO_READINGS,
              clinic['time zone'],
            ),
          },
        }),
      }
    );
  });
  const remarksFile = value.teaching ? beside(value.teaching, 'teaching') : undefined;
  const remarks =
    remarksFile === undefined ? '' : collect(readText(reading(at('teaching')), remarksFile));
  const photos = value.photos.map(({ file: name, shows, on }, index): PhotoFile | undefined => {
    const file = beside(name, 'photos', index, 'file');
    const place = at('photos', index, 'file');
    const bytes = file === undefined ? undefined : collect(reading(place).readBytes(file));
    return file === undefined || bytes === undefined
      ? undefined
      : { file, place, bytes, shows, on };
  });
  const read = strips.filter((strip) => strip !== undefined);
  // Also where a file could not be read: what the record alone gets wrong is listed in the same go.
  const facts = collect(buildFacts(clinic, record.value, vitals ?? NO_READINGS, read, formulary));
  if (!facts || remarks === undefined || problems.length > 0) return bad(...problems);
  const said = { facts, remarks, photos: photos.filter((photo) => photo !== undefined) };
  const standing = readStanding(folder, said, effects);
  if (!standing.ok) return standing;
  const online = calendarAddress(facts.identity.record, clinic);
  return good({
    ...said,
    name: basename(folder),
    file: caseFile,
    places: {
      record: at('record'),
      address: at('published', 'address'),
      vitals: at('monitor', 'vitals'),
      surgery: at('surgery', 'date'),
    },
    vitalsDigest: vitals && vitals.rows.length > 0 ? vitalsDigest : null,
    strips: read,
    freeTexts: freeTextsOf(record.value, remarks, remarksFile ?? caseFile),
    notes: notesOf(record.value),
    decisions: value['public passages'].map(({ passage, decision }, index) => ({
      place: at('public passages', index, 'passage'),
      passage,
      decision,
    })),
    standing: standing.value,
    calendarAddress: online,
    rare: rareIn(text.value, caseFile),
    beside: {
      folder: basename(folder),
      files: filesOf(value),
      born: value.patient.born ?? null,
      signed: [
        ...Object.values(value.consent).map(({ by, on }) => ({ by: by ?? null, on: on ?? null })),
        ...standing.value.sheet.approvals.map(({ by, on }) => ({ by, on })),
      ],
      calendarAddress: online,
    },
  });
}

/** The last character of Latin writing as Unicode has it in one piece (block Latin Extended-B). */
const LAST_LATIN = 0x24f;

/** Characters of other writing in a text, each at its first place. */
function rareIn(text: string, file: string): RareCharacter[] {
  const found = new Map<string, RareCharacter>();
  for (const [index, line] of text.split('\n').entries()) {
    let column = 1;
    for (const character of line) {
      if ((character.codePointAt(0) as number) > LAST_LATIN && !found.has(character)) {
        found.set(character, { character, file, line: index + 1, column });
      }
      column += character.length;
    }
  }
  return [...found.values()];
}

/** The vitals by the record's clock, whether the table is ours or a monitor's own. */
function readMonitor(
  file: string,
  record: Located<CaseText>,
  clinic: Clinic,
  begin: Temporal.ZonedDateTime,
  effects: Pick<Effects, 'readBytes'>,
): Outcome<VitalsTable> {
  const { 'clock of vitals': ahead = 0 } = record.value.monitor;
  const table = readByItsClock(file, record, clinic, begin, effects);
  if (!table.ok) return table;
  const rows = table.value.rows.map((row) => ({ ...row, minute: row.minute - ahead }));
  return good({ ...table.value, rows });
}

function readByItsClock(
  file: string,
  { value, at }: Located<CaseText>,
  clinic: Clinic,
  begin: Temporal.ZonedDateTime,
  effects: Pick<Effects, 'readBytes'>,
): Outcome<VitalsTable> {
  const { table } = value.monitor;
  if (table === undefined) {
    const text = readText(effects, file);
    return text.ok ? readVitals(text.value, file, begin) : text;
  }
  const forms = clinic['monitor tables'];
  const form = forms.find(({ name }) => name === table);
  if (!form) {
    const names = forms.map(({ name }) => name);
    const close = nearest(table, names);
    return bad({
      kind: 'an unknown form of a table',
      ...at('monitor', 'table'),
      found: `the form "${table}"`,
      expected: 'the name of a form under "monitor tables" of the clinic\'s file',
      mend: close
        ? `Did you mean "${close}"?`
        : 'Add the form there ("thrice table FILE" proposes one), or mend the name.',
    });
  }
  const bytes = effects.readBytes(file);
  return bytes.ok
    ? readTable(bytes.value, file, begin, form, value.monitor['clock of vitals'])
    : bytes;
}

/** Files that a record names. */
function filesOf({ monitor, photos, teaching }: CaseText): string[] {
  return [
    monitor.vitals,
    ...monitor.strips.map(({ file }) => file),
    ...photos.map(({ file }) => file),
    ...(teaching === undefined ? [] : [teaching]),
  ];
}

/** Every text of a case that an author wrote freely and a public document may print, with its place. */
function freeTextsOf(
  { value, at }: Located<CaseText>,
  remarks: string,
  remarksFile: string,
): FreeText[] {
  const { published, anesthesia, events, monitor, photos, consent } = value;
  const text = (
    kind: FreeText['kind'],
    written: string | undefined,
    ...path: (string | number)[]
  ) => (written === undefined ? [] : [{ kind, text: written, place: at(...path) }]);
  const asked = consent.questions.given === 'yes' && consent.questions.withdrawn === undefined;
  return [
    ...(['title', 'patient', 'address'] as const).flatMap((key) =>
      text('label', published?.[key], 'published', key),
    ),
    ...text('label', anesthesia.maintenance, 'anesthesia', 'maintenance'),
    ...anesthesia.drugs.flatMap(({ drug }, index) =>
      text('label', drug, 'anesthesia', 'drugs', index, 'drug'),
    ),
    ...events.flatMap(({ note }, index) => text('prose', note, 'events', index, 'note')),
    ...monitor['off patient'].flatMap(({ why }, index) =>
      text('prose', why, 'monitor', 'off patient', index, 'why'),
    ),
    ...photos.flatMap(({ shows, on }, index) =>
      on.includes('teaching page') ? text('prose', shows, 'photos', index, 'shows') : [],
    ),
    ...(asked ? paragraphsOf(remarks) : []).map(({ text: paragraph, line }) => ({
      kind: 'prose' as const,
      text: paragraph,
      place: { file: remarksFile, line },
    })),
  ];
}

function notesOf({ value, at }: Located<CaseText>): Notes {
  const { patient, owner, team, surgery, events, monitor, photos, home } = value;
  const note = (text: string | undefined, ...path: (string | number)[]) =>
    text === undefined ? [] : [{ text, place: at(...path) }];
  return {
    texts: [
      ...note(surgery.site, 'surgery', 'site'),
      ...note(surgery['note to owner'], 'surgery', 'note to owner'),
      ...events.flatMap((one, index) => note(one.note, 'events', index, 'note')),
      ...monitor['off patient'].flatMap(({ why }, index) =>
        note(why, 'monitor', 'off patient', index, 'why'),
      ),
      ...photos.flatMap(({ shows }, index) => note(shows, 'photos', index, 'shows')),
      ...(home?.awaited ?? []).flatMap(({ result }, index) =>
        note(result, 'home', 'awaited', index, 'result'),
      ),
    ],
    own: [
      ...[patient.name, patient.breed, owner.name, team.surgeon],
      ...(team.anesthesia === undefined ? [] : [team.anesthesia]),
      ...team.others,
    ],
    answeredIn: partOf.patient({ patient }),
  };
}

/** The patient as far as the reading of a strip depends on it. */
function stripPatient({ patient, surgery }: CaseText): Patient {
  const age = patient.born === undefined ? patient.age : ageOn(patient.born, surgery.date);
  const count = age && ('count' in age ? age.count : age.value);
  const perYear = { years: 1, months: 12, weeks: 52 };
  return {
    species: patient.species,
    weight: toKilogram(patient.weight.value, patient.weight.unit),
    ageYears: age && count !== undefined ? count / perYear[age.unit] : null,
    anesthetised: true,
  };
}
