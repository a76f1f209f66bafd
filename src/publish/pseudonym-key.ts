import { createHmac, randomBytes } from 'node:crypto';
import { existsSync, readFileSync, realpathSync, statSync, writeFileSync } from 'node:fs';
import { dirname, isAbsolute, join, relative, resolve, sep } from 'node:path';
import { keyWeakness, LEAST_KEY_BITS } from '../privacy/key-strength.js';
import type { KeyedHash } from '../privacy/veil.js';
import type { Clinic } from '../record/clinic-schema.js';
import { bad, good, type Outcome, type Place } from '../record/problem.js';
import type { ProblemKind } from '../record/problem-kind.js';
import { isDemonstration, isDemonstrationKey } from './demonstration.js';
import { house } from './house.js';

/** The environment variable that may hold the key itself. */
export const KEY_VARIABLE = 'THRICE_PSEUDONYM_KEY';

/** Where a build looks for the key. */
export interface KeyPlaces {
  readonly clinic: Clinic;
  /** Path of `clinic.yaml`. */
  readonly clinicFile: string;
  readonly out: string;
  readonly environment: Readonly<Record<string, string | undefined>>;
}

const EXPECTED = `a secret key of at least ${LEAST_KEY_BITS} bits in digits from 0 to f, drawn at random`;
const MAKE_ONE = `Make one with "thrice key FILE", keep FILE outside the cases, the output and every repository, and name it in clinic.yaml as "pseudonyms: { key file: FILE }"; or put 64 random digits into ${KEY_VARIABLE}.`;

/** The hash under the clinic's key, by which cases get their public names; nothing of the key itself leaves this. */
export function pseudonymHash(places: KeyPlaces): Outcome<KeyedHash> {
  const key = readKey(places);
  return key.ok ? good(keyedHash(key.value)) : key;
}

/** HMAC-SHA-256 (RFC 2104, FIPS 198-1) of a labelled text; no label holds the zero that ends it. */
export function keyedHash(key: string): KeyedHash {
  const bytes = Buffer.from(key, 'hex');
  return (label, text) => createHmac('sha256', bytes).update(`${label}\0${text}`).digest();
}

function readKey({ clinic, clinicFile, out, environment }: KeyPlaces): Outcome<string> {
  const { 'key file': file, 'demonstration key': open } = clinic.pseudonyms ?? {};
  const given = environment[KEY_VARIABLE];
  if (given !== undefined) {
    return strong(given.trim(), { file: clinicFile, field: KEY_VARIABLE }, clinic);
  }
  if (file !== undefined) {
    return fromFile(resolve(dirname(clinicFile), atHome(file, environment)), clinic, [
      { folder: dirname(clinicFile), what: "the clinic's own folder" },
      { folder: out, what: 'the output' },
      { folder: house.root, what: 'the program' },
    ]);
  }
  const place = { file: clinicFile, field: 'pseudonyms' };
  if (open === undefined) {
    return bad({
      kind: 'no key for pseudonyms',
      ...place,
      found: 'no key for pseudonyms',
      expected: EXPECTED,
      mend: MAKE_ONE,
    });
  }
  return isDemonstrationKey(open) && isDemonstration(clinic)
    ? good(open)
    : bad({
        kind: 'a key that is not secret',
        ...place,
        field: 'pseudonyms.demonstration key',
        found: isDemonstrationKey(open)
          ? 'the demonstration key at another clinic'
          : 'a key that stands in the record',
        expected: `${EXPECTED}; the demonstration key is there for everyone to read, and hides nothing`,
        mend: MAKE_ONE,
      });
}

function strong(key: string, place: Place, clinic: Clinic): Outcome<string> {
  const refuse = (found: string) =>
    bad({ kind: 'a key that is not secret', ...place, found, expected: EXPECTED, mend: MAKE_ONE });
  const weak = keyWeakness(key);
  if (weak !== null) return refuse(weak);
  return isDemonstrationKey(key) && !isDemonstration(clinic)
    ? refuse('the demonstration key, which is there for everyone to read')
    : good(key);
}

interface Forbidden {
  readonly folder: string;
  readonly what: string;
}

function fromFile(file: string, clinic: Clinic, forbidden: readonly Forbidden[]): Outcome<string> {
  const refuse = (kind: ProblemKind, found: string, expected: string, mend: string) =>
    bad({ kind, file, field: 'pseudonyms.key file', found, expected, mend });
  if (!existsSync(file)) return refuse('no such file', 'no such file', EXPECTED, MAKE_ONE);
  const real = realpathSync(file);
  const within = forbidden.find(({ folder }) => isInside(real, folder));
  const repository = repositoryOf(real);
  if (within || repository !== null) {
    return refuse(
      'a key among files that are handed on',
      within ? `a key in ${within.what}` : `a key in the repository ${repository}`,
      'a key apart from the cases, the output and every repository, so that no copy takes it along',
      'Move it to a folder of its own, and make a new one if the old one was ever shared.',
    );
  }
  const { mode } = statSync(real);
  // Windows keeps no such mode: there the folder's own rights must do.
  if (process.platform !== 'win32' && (mode & 0o077) !== 0) {
    return refuse(
      'a key that others may read',
      `a file that others than its owner may open (mode ${(mode & 0o777).toString(8)})`,
      'a file for its owner alone (mode 600)',
      `Run: chmod 600 "${file}". If others could read it before, make a new key.`,
    );
  }
  try {
    return strong(
      readFileSync(real, 'utf8').trim(),
      { file, field: 'pseudonyms.key file' },
      clinic,
    );
  } catch (error) {
    return refuse(
      'a file that cannot be read',
      `a file that cannot be read (${(error as NodeJS.ErrnoException).code})`,
      EXPECTED,
      'Check who may read it.',
    );
  }
}

function isInside(file: string, folder: string): boolean {
  const way = relative(existsSync(folder) ? realpathSync(folder) : resolve(folder), file);
  const isOutside = way === '..' || way.startsWith(`..${sep}`) || isAbsolute(way);
  return way !== '' && !isOutside;
}

function repositoryOf(file: string): string | null {
  for (let folder = dirname(file); ; folder = dirname(folder)) {
    if (existsSync(join(folder, '.git'))) return folder;
    if (folder === dirname(folder)) return null;
  }
}

const atHome = (file: string, { HOME }: KeyPlaces['environment']): string =>
  file.startsWith('~/') && HOME !== undefined ? join(HOME, file.slice(2)) : file;

/** Draws a key of 256 bits and writes it for its owner alone; a file that is there is never touched. */
export function writeNewKey(file: string): Outcome<null> {
  try {
    writeFileSync(file, `${randomBytes(32).toString('hex')}\n`, { mode: 0o600, flag: 'wx' });
    return good(null);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    return bad({
      kind: code === 'EEXIST' ? 'a name that is taken' : 'a place that cannot be written',
      file,
      found:
        code === 'EEXIST'
          ? 'a file that is there already'
          : `a place that cannot be written (${code})`,
      expected: 'the name of a new file',
      mend: 'Choose another name. A key that is in use must not be replaced: every case would get a new pseudonym.',
    });
  }
}
