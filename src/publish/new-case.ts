import { chmodSync, existsSync, mkdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { basename, dirname, join, relative, resolve, sep } from 'node:path';
import { Document, isMap, isScalar } from 'yaml';
import type { ContentKeys } from '../record/case-schema.js';
import type { Clinic } from '../record/clinic-schema.js';
import { bad, good, type Outcome } from '../record/problem.js';
import type { Effects } from './effects.js';
import { house } from './house.js';
import { loadCase } from './load-case.js';

/** The files of a case folder by their names. */
export type CaseFiles = Readonly<Record<string, string>>;

/** The first line of a vitals file: the columns that most monitors fill. */
const VITALS =
  'clock,heart rate [/min],systolic [mmHg],mean [mmHg],diastolic [mmHg],SpO2 [%],EtCO2 [mmHg],breaths [/min],temperature [C]\n';

/** What stands above the groups of a new record, for the person who goes on writing it. */
const COMMENTS: Readonly<Record<string, string>> = {
  patient: ' Write units as you say them: 18.4 kg, 40 lb, 10 months.',
  anesthesia:
    ' Times are on the day of surgery unless the date is written as well: 2026-03-09 21:30.',
  monitor: [
    ' vitals.csv has its first line; add a line for each time that the monitor was read.',
    ' Put an ECG strip into this folder and name it here:',
    '   strips:',
    '     - { file: strip.edf, lead: II }',
    ' Say when a sensor was not on the patient:',
    '   off patient:',
    '     - { channel: temperature, to: 09:20, why: the probe lay on the table }',
  ].join('\n'),
  consent: ' Nothing of the case is published without a "yes" here, with who gave it and when.',
  teaching: ' Questions that people asked, with answers; left empty, nothing is printed of it.',
};

/** A new case folder with its record, commented, and the files that the record names. */
export function newCaseFiles(folder: string, record: object): CaseFiles {
  const document = new Document(record, { version: '1.2' });
  const schema = relative(resolve(folder), house.caseSchema).split(sep).join('/');
  document.commentBefore = ` yaml-language-server: $schema=${schema}`;
  if (isMap(document.contents)) {
    for (const { key } of document.contents.items) {
      const comment = isScalar(key) ? COMMENTS[String(key.value)] : undefined;
      if (isScalar(key) && comment !== undefined) key.commentBefore = comment;
    }
  }
  return {
    'case.yaml': document.toString({ lineWidth: 0 }),
    'vitals.csv': VITALS,
    'teaching.md': '',
  };
}

/** The problems that a case folder of these files would have; none of them needs to be on the disk. */
export function checkFiles(
  folder: string,
  files: CaseFiles,
  clinic: Clinic,
  keys: ContentKeys,
  effects: Effects,
) {
  const nameOf = (path: string) => (dirname(path) === join(folder) ? basename(path) : '');
  const loaded = loadCase(folder, clinic, keys, {
    ...effects,
    exists: (path) => nameOf(path) in files,
    readBytes: (path) => {
      const text = files[nameOf(path)];
      return text === undefined ? effects.readBytes(path) : good(new TextEncoder().encode(text));
    },
  });
  return loaded.ok ? [] : loaded.problems;
}

/** A problem where something has the name already. */
export function nameIsFree(folder: string): Outcome<null> {
  return existsSync(folder)
    ? bad({
        kind: 'a name that is taken',
        file: folder,
        found: 'something with this name',
        expected: 'the name of a new folder',
        mend: 'Choose another name.',
      })
    : good(null);
}

/** Writes a case folder beside its name and then puts it in place, so that it is there as a whole or not at all. */
export function writeCaseFolder(folder: string, files: CaseFiles): Outcome<null> {
  const free = nameIsFree(folder);
  if (!free.ok) return free;
  let draft: string | null = null;
  try {
    const name = `.thrice-new-${basename(resolve(folder))}-${process.pid}`;
    const beside = join(dirname(resolve(folder)), name);
    mkdirSync(dirname(beside), { recursive: true });
    // The draft is its owner's alone; the folder as a whole then has the rights that the user's mask gives.
    mkdirSync(beside, { mode: 0o700 });
    draft = beside;
    for (const [name, text] of Object.entries(files)) writeFileSync(join(draft, name), text);
    chmodSync(draft, 0o777 & ~process.umask());
    renameSync(draft, folder);
    return good(null);
  } catch (error) {
    if (draft !== null) rmSync(draft, { recursive: true, force: true });
    return bad({
      kind: 'a place that cannot be written',
      file: folder,
      found: `a place that cannot be written (${(error as NodeJS.ErrnoException).code})`,
      expected: 'a folder that can be made',
      mend: 'Name another folder, or check who may write there.',
    });
  }
}
