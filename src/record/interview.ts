import { z } from 'zod';
import { type ContentKeys, caseSchema } from './case-schema.js';
import type { Problem } from './problem.js';
import { readYaml } from './yaml-file.js';
import { fieldName } from './yaml-place.js';

/** A place in the record: `['home', 'medicines', 0, 'give']`. */
type Path = readonly (string | number)[];

type Answers = { [key: string]: unknown };
type Schema = z.core.JSONSchema.JSONSchema;

/** How far an interview has come. */
export interface Interview {
  /** The record as far as it is told. */
  readonly answers: Answers;
  /** Fields that were skipped and lists that are at their end, by name. */
  readonly passed: ReadonlySet<string>;
}

export const NOTHING_TOLD: Interview = { answers: {}, passed: new Set() };

export interface Question {
  readonly path: Path;
  /** `home.medicines[0].give` */
  readonly field: string;
  readonly meaning: string;
  /** The words to choose from; none where any text may stand. */
  readonly words: readonly string[];
  /** What an empty answer does, and the field, list or group that it passes; null where there must be an answer. */
  readonly empty: { readonly kind: 'skip' | 'end of list'; readonly passes: string } | null;
}

/** What becomes of an answer: the interview with it, and what does not hold, in which case it is asked again. */
export interface Taken {
  readonly interview: Interview;
  readonly problems: readonly Problem[];
}

/** The rule of one field: asked as the schema has it, asked without a way around, left out, or known beforehand. */
type Rule = 'ask' | 'require' | 'leave out' | { readonly known: unknown };

const FILE = 'case.yaml';

/**
 * Where the schema alone would ask too much or too little, by field without the numbers of list items.
 * `group` is what has been told beside the field.
 */
const RULES: Readonly<Record<string, (group: Answers, all: Answers) => Rule>> = {
  'patient.age': ({ born }) => (born === undefined ? 'require' : 'leave out'),
  // Nobody has been warned yet.
  'patient.accepted because': () => 'leave out',
  'anesthesia.drugs.accepted because': () => 'leave out',
  'anesthesia.ventilator rate': ({ breathing }) =>
    breathing === 'ventilator' ? 'ask' : 'leave out',
  monitor: () => ({ known: { vitals: 'vitals.csv' } }),
  closure: ifAtHome,
  'closure.accepted because': () => 'leave out',
  'closure.bandage': ({ healing }) => (healing === 'left open' ? 'ask' : 'leave out'),
  'closure.layers': ({ healing }) => (healing === 'edge to edge' ? 'require' : 'ask'),
  photos: () => 'leave out',
  home: ifAtHome,
  'home.accepted because': () => 'leave out',
  'home.food.accepted because': () => 'leave out',
  'home.medicines.accepted because': () => 'leave out',
  'home.as needed.accepted because': () => 'leave out',
  'home.as needed.up to.in all': (limits) => (limits['a day'] === undefined ? 'require' : 'ask'),
  'home.medicines.at': ({ every }) => (every === undefined ? 'require' : 'leave out'),
  'home.medicines.first': (medicine) => (medicine['last given'] === undefined ? 'require' : 'ask'),
  'consent.teaching.by': ifGiven,
  'consent.teaching.on': ifGiven,
  'consent.record.by': ifGiven,
  'consent.record.on': ifGiven,
  'consent.teaching.withdrawn': () => 'leave out',
  'consent.record.withdrawn': () => 'leave out',
  'consent.photos': () => 'leave out',
  // The questions stand on the teaching page alone.
  'consent.questions': ({ teaching }) =>
    (teaching as Answers | undefined)?.given === 'yes' ? 'require' : 'leave out',
  'consent.questions.by': ifGiven,
  'consent.questions.on': ifGiven,
  'consent.questions.withdrawn': () => 'leave out',
  published: (_, { consent }) =>
    Object.values((consent ?? {}) as Record<string, Answers>).some(({ given }) => given === 'yes')
      ? 'require'
      : 'leave out',
  'public passages': () => 'leave out',
  teaching: () => ({ known: 'teaching.md' }),
};

function ifGiven({ given }: Answers): Rule {
  return given === 'yes' ? 'require' : 'leave out';
}

/** What only a patient that goes home has; its events have been told before. */
function ifAtHome(_: Answers, { events }: Answers): Rule {
  const told = (events ?? []) as readonly Answers[];
  return told.some(({ what }) => what === 'death') ? 'leave out' : 'require';
}

/** A field whose problem another field of the same group mends: the gap before a first dose is closed by setting that dose. */
const MENDED_BY: Readonly<Record<string, string>> = { 'home.medicines.at': 'first' };

/** Asks for a record field by field, in the order of its schema, each answer held against that schema. */
export function caseInterview(keys: ContentKeys) {
  const schema = caseSchema(keys);
  const form = z.toJSONSchema(schema, { io: 'input' }) as Schema;

  /** Everything that does not hold in what has been told, fields that are yet to be asked included. */
  const allProblems = ({ answers }: Interview): readonly Problem[] => {
    const read = readYaml(JSON.stringify(answers), FILE, schema);
    return read.ok ? [] : read.problems;
  };

  return {
    /** The first thing that has not been told; null when all is. */
    next: (interview: Interview): Question | null => {
      const question = nextIn(form, [], interview);
      if (question?.meaning !== '') return question;
      // Some schemas tell what they want only to those who leave it out.
      const missing = allProblems(interview).find(({ field }) => field === question.field);
      return { ...question, meaning: missing?.expected ?? '' };
    },

    /** Takes an answer; what then does not hold is taken back, to be asked again. */
    take: (interview: Interview, question: Question, line: string): Taken => {
      const answer = unquoted(line.trim());
      const told: Interview =
        answer === '' && question.empty
          ? { ...interview, passed: new Set([...interview.passed, question.empty.passes]) }
          : {
              ...interview,
              answers: withValue(
                interview.answers,
                question.path,
                writtenValue(answer, schemaAt(form, question.path)),
              ),
            };
      const isOver = (field: string) => wasTold(field, told.answers) || told.passed.has(field);
      const issues = schema.safeParse(told.answers).error?.issues ?? [];
      // Only what does not hold is put into words: that takes long, and most answers are good.
      const problems = issues.some(({ path }) => isOver(fieldName(path as Path)))
        ? allProblems(told).filter(({ field = '' }) => isOver(field))
        : [];
      return { interview: takenBack(told, problems) ?? told, problems };
    },

    /** Takes back what problems of the whole record speak of; null where they speak of nothing that was asked. */
    reopen: takenBack,

    /** The whole record in the order of its schema: what was told and what is known beforehand. */
    record: ({ answers }: Interview): Answers => inOrder(form, answers, [], answers) as Answers,
  };
}

export type CaseInterview = ReturnType<typeof caseInterview>;

function nextIn(schema: Schema, path: Path, interview: Interview): Question | null {
  for (const [key, part] of Object.entries(schema.properties ?? {})) {
    const here = [...path, key];
    const rule = ruleFor(here, interview.answers);
    if (rule === 'leave out' || typeof rule === 'object') continue;
    const optional = rule !== 'require' && !schema.required?.includes(key);
    const question = isList(part)
      ? nextInList(part, here, rule === 'require', interview)
      : nextOf(part as Schema, here, optional, interview);
    if (question) return question;
  }
  return null;
}

function nextOf(
  schema: Schema,
  path: Path,
  optional: boolean,
  interview: Interview,
): Question | null {
  const field = fieldName(path);
  const told = valueAt(interview.answers, path);
  if (interview.passed.has(field)) return null;
  const empty = optional ? { kind: 'skip' as const, passes: field } : null;
  if (schema.properties) {
    const question = nextIn(schema, path, interview);
    // To skip the first question of a group is to skip the group.
    return question && told === undefined && empty ? { ...question, empty } : question;
  }
  return told === undefined
    ? { path, field, meaning: schema.description ?? '', words: wordsOf(schema), empty }
    : null;
}

function nextInList(
  schema: List,
  path: Path,
  atLeastOne: boolean,
  interview: Interview,
): Question | null {
  const field = fieldName(path);
  const items = (valueAt(interview.answers, path) ?? []) as readonly unknown[];
  for (const index of items.keys()) {
    const question = nextIn(schema.items, [...path, index], interview);
    if (question) return question;
  }
  if (interview.passed.has(field)) return null;
  const question = nextIn(schema.items, [...path, items.length], interview);
  const empty =
    atLeastOne && items.length === 0 ? null : { kind: 'end of list' as const, passes: field };
  return question && { ...question, empty };
}

type List = Schema & { readonly items: Schema };

/** A list of groups, asked for one by one; a list of words is one answer. */
const isList = (schema: unknown): schema is List =>
  (schema as Schema).type === 'array' && (schema as List).items.properties !== undefined;

const wordsOf = (schema: Schema): readonly string[] => [
  ...new Set(((schema.items as Schema | undefined)?.enum ?? schema.enum ?? []).map(String)),
];

/** `home.medicines.at`, whichever medicine it is. */
const ruleName = (path: Path): string => path.filter((key) => typeof key === 'string').join('.');

const ruleFor = (path: Path, answers: Answers): Rule =>
  RULES[ruleName(path)]?.((valueAt(answers, path.slice(0, -1)) ?? {}) as Answers, answers) ?? 'ask';

/** `"2026-0042"` in quotes as one would write it in the file. */
const unquoted = (answer: string): string => answer.replace(/^(["'])(.*)\1$/, '$2');

/** The answer as the file would hold it: a list between commas, a whole number, a text. */
function writtenValue(answer: string, schema: Schema): unknown {
  if (schema.type === 'array') return answer.split(',').map((part) => part.trim());
  return schema.type === 'integer' && /^\d{1,9}$/.test(answer) ? Number(answer) : answer;
}

const schemaAt = (form: Schema, path: Path): Schema =>
  path.reduce<Schema>(
    (schema, key) =>
      (typeof key === 'number' ? schema.items : (schema.properties?.[key] ?? {})) as Schema,
    form,
  );

function takenBack(interview: Interview, problems: readonly Problem[]): Interview | null {
  let { answers } = interview;
  const passed = new Set(interview.passed);
  let found = false;
  for (const { field = '' } of problems) {
    const path = askedFor(pathOf(field));
    const mended = MENDED_BY[ruleName(path)];
    const name = fieldName(mended === undefined ? path : [...path.slice(0, -1), mended]);
    if (passed.delete(name)) found = true;
    else if (wasTold(name, answers)) {
      answers = withValue(answers, pathOf(name), undefined);
      found = true;
    }
  }
  return found ? { answers, passed } : null;
}

/** The words of one list are one answer, so a problem of one word is a problem of the list. */
const askedFor = (path: Path): Path => (typeof path.at(-1) === 'number' ? path.slice(0, -1) : path);

/** `home.medicines[0].give` to its keys; the opposite of `fieldName`. */
const pathOf = (field: string): Path =>
  [...field.matchAll(/\[(\d+)\]|([^.[\]]+)/g)].map(([, index, key]) =>
    index === undefined ? (key as string) : Number(index),
  );

const wasTold = (field: string, answers: Answers): boolean =>
  field !== '' && valueAt(answers, pathOf(field)) !== undefined;

const valueAt = (tree: unknown, path: Path): unknown =>
  path.reduce<unknown>(
    (holder, key) =>
      typeof holder === 'object' && holder !== null
        ? (holder as Record<string | number, unknown>)[key]
        : undefined,
    tree,
  );

/** A copy with a value at a path, or without it where it is undefined; groups that are then empty go with it. */
function withValue(answers: Answers, path: Path, value: unknown): Answers {
  const set = (tree: unknown, [key, ...rest]: Path): unknown => {
    if (key === undefined) return value;
    if (typeof key === 'number') {
      const items = [...((tree ?? []) as unknown[])];
      items[key] = set(items[key], rest);
      return noneLeft(items.filter((item) => item !== undefined));
    }
    const group = { ...((tree ?? {}) as Answers), [key]: set((tree as Answers)?.[key], rest) };
    return noneLeft(
      Object.fromEntries(Object.entries(group).filter(([, part]) => part !== undefined)),
    );
  };
  return (set(answers, path) ?? {}) as Answers;
}

const noneLeft = <T extends object>(holder: T): T | undefined =>
  Object.keys(holder).length === 0 ? undefined : holder;

function inOrder(schema: Schema, tree: unknown, path: Path, answers: Answers): unknown {
  if (Array.isArray(tree)) {
    return tree.map((item, index) =>
      inOrder(schema.items as Schema, item, [...path, index], answers),
    );
  }
  if (!schema.properties || typeof tree !== 'object' || tree === null) return tree;
  return Object.fromEntries(
    Object.entries(schema.properties).flatMap(([key, part]) => {
      const rule = ruleFor([...path, key], answers);
      const told = (tree as Answers)[key];
      if (typeof rule === 'object') return [[key, rule.known]];
      return told === undefined
        ? []
        : [[key, inOrder(part as Schema, told, [...path, key], answers)]];
    }),
  );
}
