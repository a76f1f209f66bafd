import { describe, expect, it } from 'vitest';
import { digestOf, statedFacts } from '../../src/facts/digest.js';
import type { Effects } from '../../src/publish/effects.js';
import { readText } from '../../src/publish/effects.js';
import { loadCase } from '../../src/publish/load-case.js';
import { bad, good } from '../../src/record/problem.js';
import {
  accepted,
  CASE,
  type Change,
  changed,
  clinicWith,
  KEYS,
  problemsOf,
} from '../record/sample.js';

const VITALS = 'clock,SpO2 [%]\n09:10,98\n09:15,99\n';

/** A case folder in memory. */
const folder = (files: Readonly<Record<string, string | Uint8Array>>): Effects => ({
  readBytes: (path) => {
    const file = files[path.replace('tray/thimble/', '')];
    if (file === undefined) {
      return bad({
        kind: 'no such file',
        file: path,
        found: 'no such file',
        expected: 'a file',
        mend: 'Put it there.',
      });
    }
    return good(typeof file === 'string' ? new TextEncoder().encode(file) : file);
  },
  folders: () => [],
  stamp: () => null,
  files: () => [],
  exists: (path) => path.replace('tray/thimble/', '') in files,
  progress: () => {},
});

const load = (files: Readonly<Record<string, string | Uint8Array>>, ...changes: Change[]) =>
  loadCase(
    'tray/thimble',
    clinicWith(),
    KEYS,
    folder({ 'case.yaml': changed(CASE, ...changes), 'vitals.csv': VITALS, ...files }),
  );

describe('a case folder', () => {
  it('is read with its name', () => {
    const loaded = accepted(load({}));
    expect(loaded.name).toBe('thimble');
    expect(loaded.facts.identity.patientName).toBe('Thimble');
    expect(loaded.remarks).toBe('');
  });

  it('has its record, vitals, strips and remarks checked at once', () => {
    const problems = problemsOf(
      load(
        {
          'vitals.csv': 'clock,SpO2 [%]\n09:10,980\n09:05,99\n',
          'a.csv': 'time [s],II [mV]\n0,zero\n',
        },
        [
          'closure:\n',
          '  strips:\n    - { file: a.csv, lead: II }\n    - { file: b.edf, lead: II }\nclosure:\n',
        ],
        ['consent:\n', 'teaching: remarks.md\nconsent:\n'],
      ),
    );
    const said = problems.map((problem) => JSON.stringify(problem)).join('\n');
    for (const file of ['vitals.csv', 'a.csv', 'b.edf', 'remarks.md']) expect(said).toContain(file);
    expect(problems.filter(({ file }) => file.endsWith('vitals.csv'))).toHaveLength(2);
    for (const problem of problems) {
      expect(problem.found).not.toBe('');
      expect(problem.expected).not.toBe('');
      expect(problem.mend).toMatch(/\.$/);
    }
  });

  it('tells bytes that are not UTF-8 from text', () => {
    const latin = Uint8Array.from([...new TextEncoder().encode('record: '), 0xe9]);
    expect(problemsOf(load({ 'case.yaml': latin }))).toEqual([
      {
        kind: 'text in another encoding',
        file: 'tray/thimble/case.yaml',
        line: 1,
        column: 9,
        found: 'bytes that are not UTF-8',
        expected: 'text in UTF-8',
        mend: 'Save the file again with the encoding UTF-8.',
      },
    ]);
    expect(accepted(readText(folder({ a: 'Ñandú' }), 'a'))).toBe('Ñandú');
  });
});

describe('large type', () => {
  const facts = (clinicSays: string, caseSays: string) =>
    accepted(
      loadCase(
        'tray/thimble',
        clinicWith(['paper: A4\n', `paper: A4\n${clinicSays}`]),
        KEYS,
        folder({
          'case.yaml': changed(CASE, ['  phone: 555 0161\n', `  phone: 555 0161\n${caseSays}`]),
          'vitals.csv': VITALS,
        }),
      ),
    ).facts;

  it.each([
    ['', '', false],
    ['large type: yes\n', '', true],
    ['', '  large type: yes\n', true],
    ['large type: yes\n', '  large type: no\n', false],
  ])('goes by the case, else by the clinic (%j, %j)', (clinicSays, caseSays, expected) => {
    expect(facts(clinicSays, caseSays).identity.owner.largeType).toBe(expected);
  });

  it('is no part of what a veterinarian approves', () => {
    const digest = (caseSays: string) => digestOf(statedFacts(facts('', caseSays)));
    expect(digest('  large type: yes\n')).toBe(digest(''));
  });
});
