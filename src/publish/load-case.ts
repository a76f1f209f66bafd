import { createHash } from 'node:crypto';
import { basename, join } from 'node:path';
import type { Temporal } from 'temporal-polyfill';
import { buildFacts } from '../facts/build-facts.js';
import { type CaseFacts, freeze } from '../facts/case-facts.js';
import type { ReadStrip } from '../facts/strip.js';
import { timelineOf } from '../facts/timeline.js';
import { freeTextsOf } from '../privacy/free-texts.js';
import type { BesideFacts } from '../privacy/identifiers.js';
import type { Decision, FreeText } from '../privacy/passages.js';
import type { CaseText, ContentKeys } from '../record/case-schema.js';
import type { Clinic } from '../record/clinic-schema.js';
import type { Formulary } from '../record/formulary-schema.js';
import { readTable } from '../record/monitor-table/read-table.js';
import { nearest } from '../record/nearest.js';
import {
  bad,
  good,
  type Outcome,
  type Place,
  type Problem,
  type Warning,
} from '../record/problem.js';
import { readCase } from '../record/read-case.js';
import { readVitals, type VitalsTable } from '../record/vitals-file.js';
import type { Located } from '../record/yaml-file.js';
import { analyseStrip } from '../signal/analyse.js';
import { type CaseStanding, readStanding } from './approval.js';
import { calendarAddress } from './calendar-address.js';
import { type Effects, readText } from './effects.js';
import { type Notes, notesOf } from './notes.js';
import { type RareCharacter, rareIn } from './rare-characters.js';
import { readStrip } from './read-strip.js';
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

/** What `thrice new` calls the author's remarks. */
const REMARKS = 'teaching.md';

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
    return file === undefined
      ? undefined
      : collect(
          readStrip(
            file,
            index,
            record.value,
            vitals ?? NO_READINGS,
            clinic['time zone'],
            reading(at('monitor', 'strips', index, 'file')),
            analyse,
          ),
        );
  });
  const remarksFile = value.teaching ? beside(value.teaching, 'teaching') : undefined;
  const remarks =
    remarksFile === undefined ? '' : collect(readText(reading(at('teaching')), remarksFile));
  /** Remarks lie in the folder under their usual name, and no document would have them. */
  const unnamedRemarks = (): Warning[] =>
    value.teaching !== undefined || !effects.exists(join(folder, REMARKS))
      ? []
      : [
          {
            kind: 'remarks that the record does not name',
            file: caseFile,
            field: 'teaching',
            found: `${REMARKS} in the case folder, which the record does not name`,
            expected: `the line "teaching: ${REMARKS}", without which no page has the remarks`,
            mend: `Write "teaching: ${REMARKS}" in case.yaml, or take the file out of the folder.`,
            accepted: null,
          },
        ];
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
  const built = collect(buildFacts(clinic, record.value, vitals ?? NO_READINGS, read, formulary));
  const facts = built && freeze({ ...built, warnings: [...built.warnings, ...unnamedRemarks()] });
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
