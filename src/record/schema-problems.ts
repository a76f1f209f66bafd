import { type Document, isMap, isScalar } from 'yaml';
import { z } from 'zod';
import { moreProblems } from './first-problems.js';
import { nearest } from './nearest.js';
import type { Place, Problem } from './problem.js';
import { describe, type Refusal, refusalOf, shortened } from './refusal.js';
import { fieldName, keyOf, type Path } from './yaml-place.js';

/** More problems of one file than anybody mends in one go: the rest are counted. Not a clinical number. */
const MOST_ISSUES = 100;

/**
 * What a schema does not take of a record, each with its place.
 * @param written the record as plain data
 * @param at the place of a field
 */
export function schemaProblems(
  { issues: all }: z.core.$ZodError,
  schema: z.ZodType,
  document: Document,
  written: unknown,
  at: (...path: Path) => Place,
): Problem[] {
  const shapeAt = shapeOf(schema);
  const issues = withoutMisspelt(all, shapeAt, document);
  const left = issues.length - MOST_ISSUES;
  return [
    ...issues
      .slice(0, MOST_ISSUES)
      .flatMap((issue) => problemsOf(issue, shapeAt, document, written, at)),
    ...(left > 0 ? [moreProblems(left, at().file)] : []),
  ];
}

function problemsOf(
  issue: z.core.$ZodIssue,
  shapeAt: ShapeAt,
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
        mend:
          splitAtComma(shapeAt, document, path, key) ?? suggestKey(key, shapeAt, document, path),
      }),
    );
  }
  const place = at(...path);
  const own = issue.code === 'custom' ? refusalOf(issue.params) : null;
  if (own) return [{ ...place, ...own, mend: orLeftOut(own, shapeAt, path) }];
  const input = valueAt(written, path);
  return [
    {
      kind: input === undefined ? 'a missing key' : 'a value that is not understood',
      ...place,
      found: path.length === 0 && input === null ? 'an empty file' : describe(input),
      expected: expectation(issue, shapeAt, path),
      mend:
        splitAtComma(shapeAt, document, path.slice(0, -1), path.at(-1)) ?? mendFor(issue, input),
    },
  ];
}

/** An empty text can as well be left out where nothing asks for it. */
const orLeftOut = ({ kind, mend }: Refusal, shapeAt: ShapeAt, path: Path): string =>
  kind !== 'an empty text' || shapeAt(path.slice(0, -1))?.required?.includes(String(path.at(-1)))
    ? mend
    : `${mend.replace(/\.$/, '')}, or leave the line out.`;

/** A key that is there but misspelt is told once, as the unknown key that it is, and not as a missing one too. */
function withoutMisspelt(
  issues: readonly z.core.$ZodIssue[],
  shapeAt: ShapeAt,
  document: Document,
): readonly z.core.$ZodIssue[] {
  const meant = new Set(
    issues.flatMap((issue) => {
      if (issue.code !== 'unrecognized_keys') return [];
      const path = issue.path.filter((key) => typeof key !== 'symbol');
      return issue.keys.flatMap((key) => {
        const close = nearest(key, freeKeys(shapeAt, document, path));
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
function expectation(issue: z.core.$ZodIssue, shapeAt: ShapeAt, path: Path): string {
  if (issue.code !== 'invalid_type' || !issue.message.startsWith('Invalid input')) {
    return issue.message;
  }
  return issue.expected === 'array'
    ? 'a list, with a dash before each item'
    : `a group with the keys ${keysAt(shapeAt, path).join(', ')}`;
}

/**
 * Within braces a comma parts two entries: `{ give: 0,5 mL }` reads as `give: 0` and a key `5 mL`, and of
 * `{ note: Wide beats, first single }` the second half of the note is a key without a value. What to write for either half;
 * null where a field is no half of such a text.
 */
function splitAtComma(
  shapeAt: ShapeAt,
  document: Document,
  holder: Path,
  key: string | number | undefined,
): string | null {
  const group = holder.length === 0 ? document.contents : document.getIn(holder, true);
  if (!isMap(group) || !group.flow) return null;
  const { items } = group;
  const known = keysAt(shapeAt, holder);
  const isRest = (index: number): boolean => {
    const pair = items[index];
    return pair !== undefined && !pair.value && !known.includes(keyOf(pair.key));
  };
  const own = items.findIndex((pair) => keyOf(pair.key) === String(key));
  let first = own;
  while (isRest(first)) first--;
  let last = own;
  while (isRest(last + 1)) last++;
  const begin = items[first]?.value;
  if (last === first || !isScalar(begin) || begin.type !== 'PLAIN') return null;
  const rests = items.slice(first + 1, last + 1).map((pair) => keyOf(pair.key));
  const isNumber = [begin.source ?? '', ...rests].every((half) => /^\d/.test(half));
  if (isNumber) {
    return `Within braces a comma parts two entries: write a decimal point, "${[begin.source, ...rests].join('.')}".`;
  }
  const whole = JSON.stringify(shortened([begin.source, ...rests].join(', ')));
  return `Within braces a comma parts two entries: put quotes around a text that holds one, ${whole}.`;
}

function mendFor(issue: z.core.$ZodIssue, input: unknown): string {
  if (input === undefined) return `Add "${String(issue.path.at(-1) ?? 'this')}:" with its value.`;
  if (issue.code === 'invalid_value' && typeof input === 'string') {
    const words = issue.values.filter((value) => typeof value === 'string');
    const close = nearest(input, words);
    return close ? `Did you mean "${close}"?` : 'Use one of the words listed.';
  }
  if (issue.code === 'invalid_key') {
    return 'Write the number of the warning before its reason, and put quotes around a reason that holds a comma.';
  }
  if (isRecord(issue) && typeof input === 'string') {
    return `Write { T332: ${JSON.stringify(input)} } with the number of the warning that it answers; without the line, "thrice check" tells the warnings and their numbers.`;
  }
  if (input === null) return 'Write its value after the colon, or below it.';
  if (issue.code === 'invalid_type' && issue.expected === 'string' && typeof input === 'number') {
    const unit = /one of these units: ([^,]+)/.exec(issue.message)?.[1];
    if (unit !== undefined) return `Add the unit, for example "${input} ${unit}".`;
    return issue.message.includes('such as') ? 'Write it as described.' : 'Put quotes around it.';
  }
  return 'Write it as described.';
}

/** Whether texts by their keys were expected, which only the answers to warnings are. */
const isRecord = (issue: z.core.$ZodIssue): boolean =>
  issue.code === 'invalid_type' && issue.expected === 'record';

/** The keys that this place of the record has and the author has not used yet. */
function freeKeys(shapeAt: ShapeAt, document: Document, path: Path): string[] {
  const siblings = path.length === 0 ? document.contents : document.getIn(path, true);
  const taken = isMap(siblings) ? siblings.items.map((pair) => keyOf(pair.key)) : [];
  return keysAt(shapeAt, path).filter((known) => !taken.includes(known));
}

/** "Did you mean", among the keys that are free. */
function suggestKey(key: string, shapeAt: ShapeAt, document: Document, path: Path): string {
  const free = freeKeys(shapeAt, document, path);
  const close = nearest(key, free);
  return close
    ? `Did you mean "${close}"? Otherwise remove the line.`
    : `Remove the line, or use one of: ${free.join(', ') || 'none is left here'}.`;
}

type Shape = z.core.JSONSchema.JSONSchema;

/** The form of the record at a path; null where it has none. */
type ShapeAt = (path: Path) => Shape | null;

/** The form of a schema is worked out once, when first asked for: that costs more than all the rest of a message. */
function shapeOf(schema: z.ZodType): ShapeAt {
  let form: Shape | undefined;
  return (path) => {
    form ??= z.toJSONSchema(schema, { io: 'input' }) as Shape;
    let here = form;
    for (const key of path) {
      const next = typeof key === 'number' ? here.items : here.properties?.[key];
      if (!next || typeof next !== 'object' || Array.isArray(next)) return null;
      here = next as Shape;
    }
    return here;
  };
}

/** The keys that the record knows at a path. */
const keysAt = (shapeAt: ShapeAt, path: Path): string[] =>
  Object.keys(shapeAt(path)?.properties ?? {});

function valueAt(written: unknown, path: Path): unknown {
  return path.reduce<unknown>(
    (holder, key) =>
      typeof holder === 'object' && holder !== null
        ? (holder as Record<string | number, unknown>)[key]
        : undefined,
    written,
  );
}
