import { readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { numericConstants, unsourcedConstants, unsourcedPassages } from './sources.js';

const root = fileURLToPath(new URL('..', import.meta.url));

const filesIn = (folder: string, ending: RegExp): [string, string][] =>
  readdirSync(join(root, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && ending.test(entry.name))
    .map((entry) => join(entry.parentPath, entry.name))
    .map((path) => [relative(root, path), readFileSync(path, 'utf8')]);

/** Folders of `src/` whose numbers speak of patients. The file formats of `signal/files` and of the search through bytes are left to their standards. */
const FORMATS = ['signal/files', 'privacy/bytes', 'privacy/search', 'privacy/proof.ts'];
const CLINICAL_FOLDERS = ['care', 'vitals', 'signal', 'facts', 'record', 'privacy', 'units'];

describe('every clinical number names its source, or says that it has none', () => {
  it.each(CLINICAL_FOLDERS)('in the constants of src/%s', (folder) => {
    const found = filesIn(join('src', folder), /\.ts$/)
      .filter(([file]) => !FORMATS.some((format) => file.startsWith(join('src', format))))
      .flatMap(([file, text]) => unsourcedConstants(text).map((constant) => `${file}:${constant}`));
    expect(found).toEqual([]);
  });

  it('in the words of content/', () => {
    const found = filesIn('content', /\.(yaml|md)$/).flatMap(([file, text]) =>
      unsourcedPassages(file, text).map((passage) => `${file}:${passage}`),
    );
    expect(found).toEqual([]);
  });
});

describe('the check of constants', () => {
  it.each([
    ['a bare number', 'const LOW = 60;\n', ['1: LOW']],
    ['a number with a comment but no source', '/** Low. */\nexport const LOW = 60;\n', ['2: LOW']],
    ['a number in a call', 'export const LOW = mmhg(60);\n', ['1: LOW']],
    ['a table', 'const RANGE: X = {\n  dog: [60, 160],\n};\n', ['1: RANGE']],
    [
      'a comment that belongs to the line above',
      '/** Source: x */\nlet a;\nconst B1 = 2;\n',
      ['3: B1'],
    ],
    ['a published source', '/** Source: a handbook. */\nconst LOW = 60;\n', []],
    ['common practice', '/** Low (common practice). */\nconst LOW = 60;\n', []],
    ['an admission', '/**\n * Low.\n * From memory, unverified.\n */\nconst LOW = 60;\n', []],
    ['a number of the program’s own', '/** Not a clinical number. */\nconst MOST = 20;\n', []],
    ['a file of method', '// Choices of the method: not clinical numbers.\nconst MOST = 20;\n', []],
    [
      'a file that says nothing of the kind',
      '// Choices of the method.\nconst MOST = 20;\n',
      ['2: MOST'],
    ],
    ['digits in a text', "const NAME = 'polyglactin 910';\nconst FORM = /\\d{2}/;\n", []],
    ['a word with a digit', 'const ALL = [spo2, readPh7];\n', []],
  ])('takes %s as it should', (_, source, found) => {
    expect(unsourcedConstants(source)).toEqual(found);
  });

  it('sees the constants that there are', () => {
    const names = filesIn('src', /\.ts$/).flatMap(([, text]) =>
      numericConstants(text).map(({ name }) => name),
    );
    expect(names).toEqual(
      expect.arrayContaining([
        ...['LOW_MEAN_PRESSURE', 'MATERIAL_BEHAVIOUR', 'REMOVAL_DAYS', 'PASCAL_PER_MMHG'],
        ...['POSSIBLE', 'KILOGRAM_PER_POUND', 'AGREES_WITHIN'],
      ]),
    );
  });
});

describe('the check of words', () => {
  it.each([
    ['a dose', 'a:\n  b: Give 2 mg/kg.\n', ['2: b: Give 2 mg/kg.']],
    ['a span', 'a:\n  b: Wait 10 to 14 days.\n', ['2: b: Wait 10 to 14 days.']],
    ['a Spanish span', 'a:\n  b: Espere 12 horas.\n', ['2: b: Espere 12 horas.']],
    [
      'a source in another section',
      '# Common practice.\nc: x\na:\n  b: 5 minutes\n',
      ['4: b: 5 minutes'],
    ],
    ['a source in the passage', 'a:\n  b: Wait 10 days (common practice).\n', []],
    ['a source above the section', '# Times: common practice.\na:\n  b: 5 minutes\n', []],
    ['a source within the section', 'a:\n  # Common practice.\n  b: 5 minutes\n', []],
    ['a value of the case', "a:\n  b: '{minutes} min of {total} min'\n", []],
    ['a name with a number', 'a:\n  polyglactin 910: SpO2 and CO2\n', []],
  ])('takes %s as it should', (_, text, found) => {
    expect(unsourcedPassages('x.yaml', text)).toEqual(found);
  });

  it('takes a number in a Markdown text, but not one that shows a form', () => {
    expect(unsourcedPassages('x.md', '# A\n\nGive 2 mg/kg.\n')).toEqual(['3: Give 2 mg/kg.']);
    expect(unsourcedPassages('x.md', 'Write `2 mg`.\n\n```\n3 mg\n```\n')).toEqual([]);
  });
});
