import { type Document, isMap, isNode, isPair, isScalar, LineCounter, parseDocument } from 'yaml';
import { z } from 'zod';
import { nearest } from './nearest.js';
import { bad, good, type Outcome, type Problem } from './problem.js';
import { describe, refusalOf } from './refusal.js';

type Path = readonly (string | number)[];

/** A checked record and the place in the file of each of its fields. */
export interface Located<T> {
  readonly value: T;
  /** `case.yaml:12 patient.weight` for a field of the record; the nearest holding field where it is absent. */
  readonly where: (...path: Path) => string;
  /** The position of a field, for a problem found after reading. */
  readonly at: (...path: Path) => Pick<Problem, 'file' | 'line' | 'column' | 'field'>;
}

/** YAML text checked against a schema: the value, or every problem with its line and field. */
export function readYaml<T>(text: string, file: string, schema: z.ZodType<T>): Outcome<Located<T>> {
  const lines = new LineCounter();
  const document = parseDocument(text, { lineCounter: lines, prettyErrors: false, version: '1.2' });
  if (document.errors.length > 0) {
    return bad(
      ...document.errors.map((error) => ({
        file,
        ...position(lines, error.pos[0]),
        found: error.message.split('\n')[0] as string,
        expected: 'YAML that can be read',
        mend: 'Check the indentation, the colons and the quotes around here.',
      })),
    );
  }
  const at = (...path: Path) => ({
    file,
    ...placeOf(document, lines, path),
    field: fieldName(path),
  });
  const checked = schema.safeParse(plainValue(document));
  if (checked.success) {
    const where = (...path: Path) => {
      const place = at(...path);
      return `${place.file}:${place.line} ${place.field}`;
    };
    return good({ value: checked.data, where, at });
  }
  return bad(...checked.error.issues.flatMap((issue) => problemsOf(issue, schema, document, at)));
}

/** `medicines[0].dose` */
export function fieldName(path: Path): string {
  return path
    .map((key, index) => (typeof key === 'number' ? `[${key}]` : index === 0 ? key : `.${key}`))
    .join('');
}

function plainValue(document: Document): unknown {
  return document.toJS({ maxAliasCount: 50 });
}

function problemsOf(
  issue: z.core.$ZodIssue,
  schema: z.ZodType,
  document: Document,
  at: (...path: Path) => Pick<Problem, 'file' | 'line' | 'column' | 'field'>,
): Problem[] {
  const path = issue.path.filter((key) => typeof key !== 'symbol');
  if (issue.code === 'unrecognized_keys') {
    return issue.keys.map((key) => ({
      ...at(...path, key),
      found: `the key "${key}"`,
      expected: 'a key that the record knows',
      mend: suggestKey(key, schema, document, path),
    }));
  }
  const place = at(...path);
  const own = issue.code === 'custom' ? refusalOf(issue.params) : null;
  if (own) return [{ ...place, ...own }];
  const input = path.length === 0 ? plainValue(document) : toPlain(document.getIn(path));
  return [
    {
      ...place,
      found: describe(input),
      expected: issue.message,
      mend: mendFor(issue, input),
    },
  ];
}

function mendFor(issue: z.core.$ZodIssue, input: unknown): string {
  if (input === undefined) return `Add "${String(issue.path.at(-1) ?? 'this')}:" with its value.`;
  if (issue.code === 'invalid_value' && typeof input === 'string') {
    const words = issue.values.filter((value) => typeof value === 'string');
    const close = nearest(input, words);
    return close ? `Did you mean "${close}"?` : 'Use one of the words listed.';
  }
  if (typeof input === 'number') return 'Put quotes around it, or add the unit.';
  return 'Write it as described.';
}

/** "Did you mean", among the keys that this place of the record has and the author has not used yet. */
function suggestKey(key: string, schema: z.ZodType, document: Document, path: Path): string {
  const siblings = path.length === 0 ? document.contents : document.getIn(path, true);
  const taken = isMap(siblings) ? siblings.items.map((pair) => keyOf(pair.key)) : [];
  const free = keysAt(schema, path).filter((known) => !taken.includes(known));
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

/** Line and column of a field's key; of the nearest field that holds it, where it is absent. */
function placeOf(document: Document, lines: LineCounter, path: Path) {
  for (let length = path.length; length > 0; length--) {
    const offset = offsetOf(document, path.slice(0, length));
    if (offset !== null) return position(lines, offset);
  }
  return { line: 1, column: 1 };
}

function offsetOf(document: Document, path: Path): number | null {
  const holder = path.length === 1 ? document.contents : document.getIn(path.slice(0, -1), true);
  if (isMap(holder)) {
    const pair = holder.items.find((item) => isPair(item) && keyOf(item.key) === path.at(-1));
    if (pair && isNode(pair.key)) return pair.key.range?.[0] ?? null;
  }
  const node = document.getIn(path, true);
  return isNode(node) ? (node.range?.[0] ?? null) : null;
}

function keyOf(key: unknown): unknown {
  return isScalar(key) ? key.value : key;
}

function toPlain(node: unknown): unknown {
  return isNode(node) ? node.toJSON() : node;
}

function position(lines: LineCounter, offset: number) {
  const { line, col } = lines.linePos(offset);
  return { line, column: col };
}
