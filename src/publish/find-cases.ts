import { basename, dirname, join, resolve } from 'node:path';
import { bad, good, type Outcome, type Problem } from '../record/problem.js';
import type { Effects } from './effects.js';

/** A clinic's file and its case folders. */
export interface FoundCases {
  readonly clinicFile: string;
  /** Case folders as paths, sorted by name. */
  readonly cases: readonly string[];
}

/**
 * Finds the cases that a path means: a clinic's folder (with `clinic.yaml`, cases one or two folders down), or a single
 * case folder (with `case.yaml`, its clinic one or two folders up).
 */
export function findCases(path: string, effects: Effects): Outcome<FoundCases> {
  const isCase = (folder: string) => effects.exists(join(folder, 'case.yaml'));
  /** All folders of a folder that holds cases: one that lost its record is a broken case, not something else. */
  const casesIn = (holder: string) => {
    const inside = effects.folders(holder).map((name) => join(holder, name));
    return inside.some(isCase) ? inside : [];
  };
  if (isCase(path)) {
    const clinicFile = clinicOf(path, effects);
    return clinicFile.ok ? good({ clinicFile: clinicFile.value, cases: [path] }) : clinicFile;
  }
  if (!effects.exists(path)) {
    return bad({
      kind: 'no such file',
      file: path,
      found: 'no such folder',
      expected: "a clinic's folder, or the folder of one case",
      mend: 'Check the path.',
    });
  }
  const clinicFile = join(path, 'clinic.yaml');
  if (!effects.exists(clinicFile)) return bad(missing(clinicFile, 'the clinic of these cases'));
  const near = effects.folders(path).map((name) => join(path, name));
  const cases = [...near.filter(isCase), ...near.flatMap((folder) => casesIn(folder))].sort(
    (a, b) => basename(a).localeCompare(basename(b), 'en'),
  );
  if (cases.length === 0) return bad(missing(join(path, '*', 'case.yaml'), 'at least one case'));
  const names = cases.map((folder) => basename(folder));
  const twice = names.find((name, index) => names.indexOf(name) !== index);
  if (twice !== undefined) {
    return bad({
      kind: 'two case folders of one name',
      file: cases[names.lastIndexOf(twice)] as string,
      found: `a second case folder named "${twice}"`,
      expected: 'each case folder under its own name',
      mend: 'Rename one of the two.',
    });
  }
  return good({ clinicFile, cases });
}

/** The `clinic.yaml` that a case folder belongs to, one or two folders up; the case folder itself need not be there. */
export function clinicOf(caseFolder: string, effects: Effects): Outcome<string> {
  const up = dirname(resolve(caseFolder));
  const found = [up, dirname(up)]
    .map((folder) => join(folder, 'clinic.yaml'))
    .find((file) => effects.exists(file));
  return found === undefined
    ? bad(missing(join(caseFolder, '..', 'clinic.yaml'), 'the clinic of this case'))
    : good(found);
}

function missing(file: string, what: string): Problem {
  return {
    kind: 'no such file',
    file,
    found: 'no such file',
    expected: what,
    mend: 'Check the path; a clinic folder holds clinic.yaml and a folder with case.yaml for each case.',
  };
}
