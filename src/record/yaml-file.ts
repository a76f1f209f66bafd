import {
  type Document,
  isMap,
  isNode,
  isPair,
  isScalar,
  LineCounter,
  parseDocument,
  visit,
  type YAMLError,
} from 'yaml';
import { z } from 'zod';
import { nearest } from './nearest.js';
import { bad, good, type Outcome, type Place, type Problem } from './problem.js';
import { describe, type Refusal, refusalOf, shortened } from './refusal.js';

type Path = readonly (string | number)[];

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

/** More problems of one file than anybody mends in one go: the rest are counted. Not a clinical number. */
const MOST_ISSUES = 100;

const more = (left: number): Refusal => ({
  kind: 'more problems than are shown',
  found: `${left} more ${left === 1 ? 'problem' : 'problems'}`,
  expected: 'none',
  mend: 'Mend the ones above first; a line that is repeated or indented wrongly may cause many.',
});

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
  const issues = withoutMisspelt(checked.error.issues, schema, document);
  const left = issues.length - MOST_ISSUES;
  return bad(
    ...issues
      .slice(0, MOST_ISSUES)
      .flatMap((issue) => problemsOf(issue, schema, document, written, at)),
    ...(left > 0 ? [{ file, ...more(left) }] : []),
  );
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

/** `medicines[0].dose` */
export function fieldName(path: Path): string {
  return path
    .map((key, index) =>
      typeof key === 'number' ? `[${key}]` : `${index === 0 ? '' : '.'}${shortened(key)}`,
    )
    .join('');
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

function problemsOf(
  issue: z.core.$ZodIssue,
  schema: z.ZodType,
  document: Document,
  written: unknown,
  at: (...path: Path) => Place,
): Problem[] {
  const path = issue.path.filter((key) => typeof key !== 'symbol');
  if (issue.code === 'unrecognized_keys') {
    return issue.keys.map(
      (key): Problem => ({
        kind: 'an unknown key',
        ...at(...path, key),
        found: `the key "${shortened(key)}"`,
        expected: 'a key that the record knows',
        mend: suggestKey(key, schema, document, path),
      }),
    );
  }
  const place = at(...path);
  const own = issue.code === 'custom' ? refusalOf(issue.params) : null;
  if (own) return [{ ...place, ...own }];
  const input = valueAt(written, path);
  return [
    {
      kind: input === undefined ? 'a missing key' : 'a value that is not understood',
      ...place,
      found: path.length === 0 && input === null ? 'an empty file' : describe(input),
      expected: expectation(issue, schema, path),
      mend: mendFor(issue, input),
    },
  ];
}

/** A key that is there but misspelt is told once, as the unknown key that it is, and not as a missing one too. */
function withoutMisspelt(
  issues: readonly z.core.$ZodIssue[],
  schema: z.ZodType,
  document: Document,
): readonly z.core.$ZodIssue[] {
  const meant = new Set(
    issues.flatMap((issue) => {
      if (issue.code !== 'unrecognized_keys') return [];
      const path = issue.path.filter((key) => typeof key !== 'symbol');
      return issue.keys.flatMap((key) => {
        const close = nearest(key, freeKeys(schema, document, path));
        return close ? [fieldName([...path, close])] : [];
      });
    }),
  );
  return issues.filter((issue) => {
    const path = issue.path.filter((key) => typeof key !== 'symbol');
    return issue.code === 'unrecognized_keys' || !meant.has(fieldName(path));
  });
}

/** The schema's own words, or for groups and lists, which have none, their shape. */
function expectation(issue: z.core.$ZodIssue, schema: z.ZodType, path: Path): string {
  if (issue.code !== 'invalid_type' || !issue.message.startsWith('Invalid input')) {
    return issue.message;
  }
  return issue.expected === 'array'
    ? 'a list, with a dash before each item'
    : `a group with the keys ${keysAt(schema, path).join(', ')}`;
}

function mendFor(issue: z.core.$ZodIssue, input: unknown): string {
  if (input === undefined) return `Add "${String(issue.path.at(-1) ?? 'this')}:" with its value.`;
  if (issue.code === 'invalid_value' && typeof input === 'string') {
    const words = issue.values.filter((value) => typeof value === 'string');
    const close = nearest(input, words);
    return close ? `Did you mean "${close}"?` : 'Use one of the words listed.';
  }
  if (input === null) return 'Write its value after the colon, or below it.';
  if (issue.code === 'invalid_type' && issue.expected === 'string' && typeof input === 'number') {
    return 'Put quotes around it, or add the unit.';
  }
  return 'Write it as described.';
}

/** The keys that this place of the record has and the author has not used yet. */
function freeKeys(schema: z.ZodType, document: Document, path: Path): string[] {
  const siblings = path.length === 0 ? document.contents : document.getIn(path, true);
  const taken = isMap(siblings) ? siblings.items.map((pair) => keyOf(pair.key)) : [];
  return keysAt(schema, path).filter((known) => !taken.includes(known));
}

/** "Did you mean", among the keys that are free. */
function suggestKey(key: string, schema: z.ZodType, document: Document, path: Path): string {
  const free = freeKeys(schema, document, path);
  const close = nearest(key, free);
  return close
    ? `Did you mean "${close}"? Otherwise remove the line.`
    : `Remove the line, or use one of: ${free.join(', ') || 'none is left here'}.`;
}

/** The keys that a schema knows at a path. */
function keysAt(schema: z.ZodType, path: Path): string[] {
  let here = z.toJSONSchema(schema, { io: 'input' }) as z.core.JSONSchema.JSONSchema;
  for (const key of path) {
    const next = typeof key === 'number' ? here.items : here.properties?.[key];
    if (!next || typeof next !== 'object' || Array.isArray(next)) return [];
    here = next as z.core.JSONSchema.JSONSchema;
  }
  return Object.keys(here.properties ?? {});
}

/**
 * Line and column of a field's key, and the end of its value where that is on the same line; those of the nearest field
 * that holds it, where it is absent.
 */
function placeOf(document: Document, lines: LineCounter, path: Path) {
  for (let length = path.length; length > 0; length--) {
    const span = spanOf(document, path.slice(0, length));
    if (span === null) continue;
    const start = position(lines, span.from);
    const end = position(lines, span.to);
    const isWhole = end.line === start.line && end.column > start.column;
    return { ...start, ...(isWhole && { end: end.column }) };
  }
  return { line: 1, column: 1 };
}

/** Offsets of a field, from its key to the end of its value. */
function spanOf(document: Document, path: Path): { from: number; to: number } | null {
  const holder = path.length === 1 ? document.contents : document.getIn(path.slice(0, -1), true);
  if (isMap(holder)) {
    const pair = holder.items.find(
      (item) => isPair(item) && keyOf(item.key) === String(path.at(-1)),
    );
    if (pair && isNode(pair.key) && pair.key.range) {
      const [from, keyEnd] = pair.key.range;
      return { from, to: (isNode(pair.value) && pair.value.range?.[1]) || keyEnd };
    }
  }
  const node = document.getIn(path, true);
  return isNode(node) && node.range ? { from: node.range[0], to: node.range[1] } : null;
}

/** A key as a reader of the record sees it: `1:` is the key "1". */
function keyOf(key: unknown): string {
  return String(isScalar(key) ? key.value : key);
}

function valueAt(written: unknown, path: Path): unknown {
  return path.reduce<unknown>(
    (holder, key) =>
      typeof holder === 'object' && holder !== null
        ? (holder as Record<string | number, unknown>)[key]
        : undefined,
    written,
  );
}

/** Line and column of an offset, both from 1. */
export function position(lines: LineCounter, offset: number) {
  const { line, col } = lines.linePos(offset);
  return { line, column: col };
}
