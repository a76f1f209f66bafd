import { type Document, LineCounter, parseDocument, visit, type YAMLError } from 'yaml';
import type { z } from 'zod';
import { bad, good, type Outcome, type Place, type Problem } from './problem.js';
import { type Refusal, shortened } from './refusal.js';
import { schemaProblems } from './schema-problems.js';
import { fieldName, type Path, placeOf, position } from './yaml-place.js';

/** A checked record and the place in the file of each of its fields. */
export interface Located<T> {
  readonly value: T;
  /** `case.yaml:12 patient.weight` for a field of the record; the nearest holding field where it is absent. */
  readonly where: (...path: Path) => string;
  /** The position of a field, for a problem found after reading. */
  readonly at: (...path: Path) => Place;
}

/** One slip can upset everything after it; this many mistakes of form show where it is. Not a clinical number. */
const MOST_MISTAKES = 20;

/** Letters of what the parser says, which may quote the text. Not a clinical number. */
const LONGEST_MISTAKE = 160;

/** YAML text checked against a schema: the value, or every problem with its line and field. */
export function readYaml<T>(text: string, file: string, schema: z.ZodType<T>): Outcome<Located<T>> {
  const lines = new LineCounter();
  const document = parseDocument(text, {
    lineCounter: lines,
    logLevel: 'error',
    prettyErrors: false,
    version: '1.2',
  });
  const mistakes = ownMistakes([...document.errors, ...document.warnings]).slice(0, MOST_MISTAKES);
  if (mistakes.length > 0) {
    return bad(
      ...mistakes.map((mistake) => ({
        file,
        ...position(lines, offsetOf(mistake, document)),
        ...mistakeOfForm(mistake),
      })),
    );
  }
  const aliases = aliasesOf(document);
  if (aliases.length > 0) {
    return bad(
      ...aliases.slice(0, MOST_MISTAKES).map(
        ({ name, offset }): Problem => ({
          kind: 'an alias',
          file,
          ...position(lines, offset),
          found: `the alias "*${shortened(name)}"`,
          expected: 'each value written out where it belongs',
          mend: 'Write the value itself; put quotes around a text that begins with a star.',
        }),
      ),
    );
  }
  keepSpelling(document);
  const at = (...path: Path) => ({
    file,
    ...placeOf(document, lines, path),
    field: fieldName(path),
  });
  const written: unknown = document.toJS();
  const checked = schema.safeParse(written);
  if (checked.success) {
    const where = (...path: Path) => {
      const place = at(...path);
      return `${place.file}:${place.line} ${place.field}`;
    };
    return good({ value: checked.data, where, at });
  }
  return bad(...schemaProblems(checked.error, schema, document, written, at));
}

/** What can be made out of a text that need not be a good record, or not even whole YAML; null where nothing can. */
export function readLoosely(text: string): unknown {
  try {
    return parseDocument(text, { logLevel: 'silent', prettyErrors: false }).toJS({
      maxAliasCount: 0,
    });
  } catch {
    return null;
  }
}

/** A tab in the indentation makes the parser stumble over what follows: then the tabs alone are told. */
function ownMistakes(mistakes: readonly YAMLError[]): readonly YAMLError[] {
  const tabs = mistakes.filter(({ code }) => code === 'TAB_AS_INDENT');
  return tabs.length > 0 ? tabs : mistakes;
}

/** A text that is not YAML, or not one record, in words for its author. */
function mistakeOfForm({ code, message }: YAMLError): Refusal {
  if (code === 'DUPLICATE_KEY') {
    return {
      kind: 'a key given twice',
      found: 'a key that the same group has already',
      expected: 'each key once',
      mend: 'Take one of the two out.',
    };
  }
  if (code === 'MULTIPLE_DOCS') {
    return {
      kind: 'a second document in one file',
      found: 'a second document',
      expected: 'one record in one file',
      mend: 'Take the line "---" out, or move what follows to a file of its own.',
    };
  }
  if (code === 'TAB_AS_INDENT') {
    return {
      kind: 'not YAML',
      found: 'a tab in the indentation',
      expected: 'spaces alone before a key, as YAML has it',
      mend: 'Put spaces in place of the tab.',
    };
  }
  return {
    kind: 'not YAML',
    found: `not YAML: ${shortened(message.split('\n')[0] as string, LONGEST_MISTAKE)}`,
    expected: 'YAML that can be read',
    mend: 'Check the indentation, the colons and the quotes around here.',
  };
}

/** Where a mistake of form was made: a quote that is not closed takes in the rest of the file, so it is told where it opens. */
function offsetOf({ code, pos, message }: YAMLError, document: Document): number {
  if (code !== 'MISSING_CHAR' || !message.startsWith('Missing closing')) return pos[0];
  let opened = pos[0];
  visit(document, {
    Scalar: (_, { range }) => {
      opened = range?.[0] ?? opened;
    },
  });
  return opened;
}

/**
 * A number that is not spelled as numbers are is a text: of `000`, `2.0` and `0301` something would be lost, and `000` is
 * another strand than `0`.
 */
function keepSpelling(document: Document): void {
  visit(document, {
    Scalar: (_, scalar) => {
      const { value, source } = scalar;
      if (typeof value === 'number' && source !== undefined && String(value) !== source) {
        scalar.value = source;
      }
    },
  });
}

/** Aliases (`*name`): a record has no use for them, and a few lines of them can stand for billions of values. */
function aliasesOf(document: Document) {
  const found: { readonly name: string; readonly offset: number }[] = [];
  visit(document, {
    Alias: (_, alias) => {
      found.push({ name: alias.source, offset: alias.range?.[0] ?? 0 });
    },
  });
  return found;
}
